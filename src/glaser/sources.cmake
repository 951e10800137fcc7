# The steady diffusion methods: monthly (ISO 13788), period balance
# (DIN 4108-3), surface humidity, air leakage.
bw_folder(glaser
  SOURCES
    choice.c
    cycle.c
    grid.c
    leakage.c
    monthly.c
    period.c
    plane.c
    profile.c
    rates.c
    result.c
    setup.c
    surface.c
    taut.c
    variable.c
    year.c
  USES base assembly thermal)
