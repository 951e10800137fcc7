# Heat and moisture hour by hour: tables of materials, cells, balances, time
# stepping, boundaries, what is watched.
bw_folder(transient
  SOURCES
    balance.c blocks.c boundary.c carry.c cells.c converge.c course.c depth.c
    follow.c humid.c hygro.c joint.c keep.c mesh.c model.c newton.c run.c
    solver.c start.c storage.c tell.c watch.c wetting.c wood.c
  USES base material climate assembly)
