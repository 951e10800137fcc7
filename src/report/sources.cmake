# Prints results: text for people, CSV for machines, pages to look at. Computes
# nothing. every_document.h lists the parts of each; part_*.c build what both
# forms hold, figure_*.c what a page alone can.
bw_folder(report
  SOURCES
    report.c page.c phrase.c grid.c writer_text.c writer_page.c figure.c
    style.c hatch.c plot.c names.c layers.c compared.c unknown.c spot.c
    section.c year_field.c year_marks.c part_summary.c part_advice.c
    part_simulated.c part_by_months.c part_asked.c part_mind.c part_criteria.c
    part_layers.c part_transient.c part_months.c part_notes.c part_audit.c
    part_beside.c part_inputs.c part_evidence.c part_as_built.c evidence.c
    part_digests.c part_house.c part_working.c part_plan.c part_site.c part_compare.c
    part_which.c gets_in.c part_junction.c figure_junction.c table_junction.c
    part_replay.c figure_replay.c table_replay.c part_junction_hours.c
    figure_junction_hours.c table_junction_hours.c part_junctions.c
    isotherms.c part_cover.c part_margin.c part_cases.c part_map.c
    figure_year.c figure_drawing.c figure_hours.c figure_course.c
    figure_vapour.c figure_water.c figure_membrane.c figure_compare.c
    figure_margin.c figure_readings.c part_frost.c table_frost.c table.c
    cells.c json.c table_audit.c table_check.c table_compare.c table_margin.c
    table_materials.c table_simulated.c chosen.c part_choose.c part_findings.c
    figure_choose.c table_choose.c
  USES base chart material assembly)
