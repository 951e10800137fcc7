# Materials as data and the library that holds them.
bw_folder(material
  SOURCES curve.c library.c words.c
  USES base)
