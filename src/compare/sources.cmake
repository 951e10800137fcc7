# Walls side by side: holds something equal, assesses in parallel, lays the
# results in one table and says what it shows.
bw_folder(compare
  SOURCES assess_all.c compare.c conditions.c one_method.c
          rescale.c sentences.c table.c words.c
  USES base air material climate assembly thermal glaser mould transient
       criteria)
