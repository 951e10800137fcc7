# Other formats to skeletons of assembly files: gbXML.
bw_folder(exchange
  SOURCES gbxml_layers.c gbxml_read.c gbxml_units.c skeleton.c skeleton_layer.c
          skeleton_text.c
  USES base material input)
