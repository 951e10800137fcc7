# Walls side by side: holds something equal, assesses in parallel, puts all under
# the same stresses, ranks them, lays the results in one table and says what it
# shows.
bw_folder(compare
  SOURCES air.c compare.c conditions.c one_method.c rank.c rescale.c
          sentences.c stresses.c table.c trade.c words.c
  USES base air material climate assembly thermal glaser mould transient
       criterion criteria margin)
