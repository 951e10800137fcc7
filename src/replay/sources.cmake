# A logger's record beside the simulation: hours of it, what is doubtful,
# figures, which input explains the difference.
bw_folder(replay
  SOURCES clock.c copies.c doubts.c figures.c hours.c places.c replay.c run.c
          say.c sides.c trials.c
  USES base material climate assembly transient margin)
