# Files to models: the only readers of XML and CSV.
bw_folder(input
  SOURCES
    xml.c
  USES base material climate assembly)
