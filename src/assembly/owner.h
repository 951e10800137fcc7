#ifndef BW_ASSEMBLY_OWNER_H
#define BW_ASSEMBLY_OWNER_H

/* What stands behind the bw_assembly that users see. */

#include "arena.h"
#include "bothways/assembly.h"

/* The assembly comes first: a bw_assembly * is a pointer to its owner. */
typedef struct bw_assembly_owner {
    bw_assembly assembly;
    bw_arena arena; /* every string and array the assembly points to */
    void (*free_junction)(struct bw_junction *junction); /* of those it names */
} bw_assembly_owner;

#endif
