# Errors, memory, numbers, words, files: knows nothing of walls.
bw_folder(base
  SOURCES arena.c csv.c day.c decimal.c fail.c file.c meter.c number.c output.c phrase.c
          pool.c sha256.c shelf.c sobol.c text.c units.c utf8.c version.c writer.c)
target_compile_definitions(bw_base PRIVATE BW_VERSION="${PROJECT_VERSION}")
