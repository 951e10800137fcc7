# Humid-air physics: pure functions, knows nothing of walls.
bw_folder(air SOURCES saturation.c humid_air.c)
