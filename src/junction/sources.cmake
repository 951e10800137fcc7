# Where walls meet, in two dimensions: the drawing's grid, steady heat, vapour
# by months.
bw_folder(junction
  SOURCES
    coarse.c draw.c find.c flanks.c foot.c heat.c hour_band.c hour_fours.c
    hour_air.c hour_leaks.c
    hour_make.c hour_moved.c hour_places.c hour_run.c hour_seen.c hour_sheet.c hour_sides.c
    hour_solver.c hour_watch.c hour_wood.c months.c patches.c raster.c
    shapes.c shaping.c solve.c spots.c stack.c vapour_choice.c vapour_film.c
    vapour_heat.c vapour_make.c vapour_month.c vapour_net.c vapour_nodes.c
    vapour_obstacle.c vapour_setup.c vapour_star.c vapour_year.c water.c
    water_air.c water_wet.c
  USES base air material climate assembly mould decay glaser transient)
