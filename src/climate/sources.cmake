# Outdoor climates as data: the calendar, the sun, irradiance on a plane, and
# hours made from monthly means. Reads no files.
bw_folder(climate
  SOURCES climate_make.c generator.c irradiance.c months.c plane.c
          record.c record_fill.c record_join.c record_write.c split.c sun.c
          sunny.c weather.c weather_rain.c weather_sun.c
  USES base)
