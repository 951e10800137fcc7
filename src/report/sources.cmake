# Prints results: text for people, CSV for machines, pages to look at. Computes
# nothing.
bw_folder(report
  SOURCES audit_csv.c audit_evidence.c audit_inputs.c audit_text.c
          compare_text.c csv.c csv_damage.c
          grid.c
          html_audit.c html_check.c html_compare.c html_drawing.c html_hours.c
          html_margin.c html_membrane.c html_page.c html_plot.c html_style.c
          html_vapour.c html_water.c
          layers.c margin_csv.c margin_text.c names.c page.c text.c
          text_by_months.c text_criteria.c text_layers.c text_mind.c
          text_months.c text_notes.c text_simulated.c text_summary.c
          text_transient.c margin_simulated.c margin_map.c
  USES base chart material assembly)
