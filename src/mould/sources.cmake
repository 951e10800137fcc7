# Mould index and wood moisture: pure functions of temperature and humidity.
bw_folder(mould SOURCES index.c wood.c)
