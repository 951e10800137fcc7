# Files to models: the only readers of XML and CSV.
bw_folder(input
  SOURCES
    material_library.c
    material_origin.c
    material_xml.c
    xml.c
  USES base material climate assembly)
