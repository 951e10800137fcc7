# Materials as data and the library that holds them.
bw_folder(material
  SOURCES called.c curve.c library.c pores.c properties.c words.c
  USES base)
