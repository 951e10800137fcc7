# How far each uncertain input may go: runs assessments of changed assemblies.
bw_folder(margin
  SOURCES alone.c case.c damp.c ensemble.c halton.c map.c margin.c pool.c
          simulate.c study.c together.c unknowns.c wide.c
  USES base material assembly criteria)
