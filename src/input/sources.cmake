# Files to models: the only readers of XML and CSV.
bw_folder(input
  SOURCES
    assembly_closing.c
    assembly_edit.c
    assembly_edges.c
    assembly_events.c
    assembly_initial.c assembly_kind.c
    assembly_layer.c
    assembly_material.c
    assembly_read.c
    assembly_review.c
    climate_columns.c
    climate_gaps.c
    climate_header.c
    climate_hourly.c
    climate_hours.c
    climate_monthly.c
    climate_read.c
    folder.c
    material_library.c
    material_origin.c
    material_pick.c
    material_xml.c
    profile_limit.c
    profile_read.c
    xml.c
    xml_change.c
    xml_open.c
    xml_text.c
  USES base material climate assembly profile)
