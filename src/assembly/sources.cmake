# The resolved wall: its one-dimensional sections and its indoor climate.
file(STRINGS ${CMAKE_CURRENT_LIST_DIR}/every_beyond.h beyond REGEX "^BEYOND")
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS
  ${CMAKE_CURRENT_LIST_DIR}/every_beyond.h)
list(TRANSFORM beyond REPLACE "BEYOND.(.*)." "beyond_\\1.c")
bw_folder(assembly
  SOURCES air_layer.c as_read.c assembly.c indoors.c readings.c sections.c change.c change_sides.c change_words.c variant.c room.c geography.c vapour.c exposure.c beyond.c ${beyond} side_hours.c side_months.c side_words.c
  USES base air material climate)
