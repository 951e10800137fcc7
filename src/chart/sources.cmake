# Draws: markup, scales, charts. Knows no walls.
bw_folder(chart
  SOURCES chart.c field.c markup.c path.c scale.c
  USES base)
