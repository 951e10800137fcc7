# Draws: markup, scales, charts. Knows no walls.
bw_folder(chart
  SOURCES chart.c markup.c path.c scale.c
  USES base)
