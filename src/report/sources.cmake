# Prints results: text for people, CSV for machines, pages to look at. Computes
# nothing.
bw_folder(report
  SOURCES audit_evidence.c audit_inputs.c audit_text.c
          compare_text.c grid.c
          html_audit.c html_check.c html_compare.c html_drawing.c html_hours.c
          html_margin.c html_membrane.c html_page.c html_plot.c html_style.c
          html_vapour.c html_water.c
          json.c layers.c margin_text.c names.c page.c text.c
          text_by_months.c text_criteria.c text_layers.c text_mind.c
          text_months.c text_notes.c text_simulated.c text_summary.c
          text_transient.c margin_simulated.c margin_map.c
          table.c table_audit.c table_check.c table_compare.c table_margin.c
          table_materials.c table_simulated.c
  USES base chart material assembly)
