# Decay of wood, wetness and frost: pure functions of hours and daily means.
bw_folder(decay SOURCES count.c dose.c frost.c loss.c timber_line.c)
