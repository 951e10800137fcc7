# Where walls meet, in two dimensions: the drawing's grid, steady heat, vapour
# by months.
bw_folder(junction
  SOURCES
    coarse.c
    draw.c
    find.c
    flanks.c
    foot.c
    heat.c
    months.c
    raster.c
    shapes.c
    shaping.c
    patches.c
    solve.c
    hour_band.c
    hour_make.c
    hour_sheet.c
    hour_solver.c
    spots.c
    stack.c
    vapour_choice.c
    vapour_film.c
    vapour_heat.c
    vapour_make.c
    vapour_month.c
    vapour_net.c
    vapour_nodes.c
    vapour_obstacle.c
    vapour_setup.c
    vapour_star.c
    vapour_year.c
    water.c
    water_wet.c
  USES base air material climate assembly transient)
