#ifndef BW_FUZZ_INSIDE_H
#define BW_FUZZ_INSIDE_H

/* Included before the sources of the command, whose main a harness calls. */

int bothways_main(int argc, char **argv);

#define main bothways_main

#endif
