# What is judged, against what, by whose rule: one row a criterion.
bw_folder(criterion
  SOURCES criterion.c
  USES base)
