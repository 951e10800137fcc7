# Which build-up: every design of <choices> under the same drawn unknowns.
bw_folder(choose
  SOURCES bound.c cases.c choose.c designs.c findings.c front.c race.c settings.c stages.c telling.c
  USES base material assembly criterion criteria margin)
