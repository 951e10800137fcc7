# How far each uncertain input may go: runs assessments of changed assemblies.
bw_folder(margin
  SOURCES alone.c case.c damp.c ensemble.c finder.c halton.c map.c margin.c
          simulate.c study.c together.c unknowns.c wide.c
  USES base material assembly criterion criteria)
