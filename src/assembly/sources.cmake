# The resolved wall: its one-dimensional sections and its indoor climate.
bw_folder(assembly
  SOURCES air_layer.c assembly.c indoors.c readings.c sections.c variant.c room.c geography.c
  USES base air material climate)
