# Heat and moisture hour by hour: tables of materials, cells, balances, time
# stepping, boundaries, what is watched.
bw_folder(transient
  SOURCES balance.c blocks.c boundary.c cells.c converge.c humid.c hygro.c joint.c mesh.c model.c
          newton.c run.c solver.c storage.c watch.c
  USES base)
