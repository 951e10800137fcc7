/* Everything that may lie against an outer face in the place of outdoor air, in
 * the order of docs/input.md. NAME: src/assembly/beyond_NAME.c has all of it,
 * as bw_beyond_NAME (beyond.h); the build takes its sources from here. */

/* clang-format off */
BEYOND(ground)
/* clang-format on */
