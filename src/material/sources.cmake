# Materials as data and the library that holds them.
bw_folder(material
  SOURCES curve.c library.c pores.c properties.c words.c
  USES base)
