# Compares results with limits and cites the rule; finds changes that help.
bw_folder(criteria
  SOURCES
    advice.c assess.c assess_stream.c assessing.c best_two.c
    judge_air.c judge_alone.c judge_amounts.c judge_both.c judge_covering.c judge_damage.c
    judge_drying.c judge_hours.c judge_junctions.c judge_monthly.c
    judge_profile.c judge_surface.c judge_transient.c judge_water.c
    judge_wetting.c judge_within.c judge_wood.c junction.c junction_spots.c
    propose.c rows.c run_damage.c run_frost.c run_steady.c run_transient.c
    run_wetting.c scope.c score.c trial.c verdict.c
  USES base material assembly criterion profile transient junction)
