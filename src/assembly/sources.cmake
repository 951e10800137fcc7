# The resolved wall: its one-dimensional sections and its indoor climate.
bw_folder(assembly
  SOURCES air_layer.c assembly.c geography.c indoors.c sections.c variant.c
  USES base air material climate)
