# Mould index, its rules and places, and wood moisture: pure functions of
# temperature and humidity.
bw_folder(mould SOURCES dose.c index.c place.c repeat.c rule.c wood.c USES base)
