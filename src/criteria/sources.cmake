# Compares results with limits and cites the rule; finds changes that help.
bw_folder(criteria
  SOURCES advice.c assess.c change.c core.c judge_alone.c judge_amounts.c judge_both.c judge_covering.c judge_drying.c
          judge_hours.c judge_monthly.c judge_profile.c judge_surface.c judge_transient.c
          judge_wetting.c judge_wood.c meter.c score.c
          profiles.c rows.c rules.c run_damage.c run_steady.c run_transient.c run_wetting.c scope.c trial.c verdict.c
  USES base material assembly)
