# Errors, memory, numbers, words, files: knows nothing of walls.
bw_folder(base
  SOURCES arena.c csv.c fail.c file.c number.c output.c text.c units.c utf8.c
          version.c writer.c)
target_compile_definitions(bw_base PRIVATE BW_VERSION="${PROJECT_VERSION}")
