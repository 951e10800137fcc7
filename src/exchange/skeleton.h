#ifndef BW_EXCHANGE_SKELETON_H
#define BW_EXCHANGE_SKELETON_H

/* Text that grows, and lists of sentences, for one skeleton. Running out of
 * memory is remembered, not returned; look once, at the end. */

#include "arena.h"
#include "bothways/exchange.h"

enum { BW_SKELETON_SENTENCES = 512 };

typedef struct bw_skeleton_owner {
    bw_skeleton skeleton; /* first: users hold a pointer to it */
    bw_arena arena;
    char *text;
    size_t length, room;
    const char *missing[BW_SKELETON_SENTENCES];
    const char *note[BW_SKELETON_SENTENCES];
    bool no_memory;
} bw_skeleton_owner;

/* A sentence for one of the lists; the last place says that there are more. */
void bw_skeleton_missing(bw_skeleton_owner *owner, const char *format, ...)
    BW_PRINTF(2, 3);
void bw_skeleton_note(bw_skeleton_owner *owner, const char *format, ...)
    BW_PRINTF(2, 3);

/* Appends text as it is. */
void bw_skeleton_put(bw_skeleton_owner *owner, const char *text);

/* Appends text that is safe in a comment: no "--". */
void bw_skeleton_put_comment(bw_skeleton_owner *owner, const char *text);

/* Appends ` name="number unit"`; "" as unit: a pure number. */
void bw_skeleton_put_quantity(bw_skeleton_owner *owner, const char *name,
                              double value, const char *unit);

/* Appends ` name="text"`. */
void bw_skeleton_put_text(bw_skeleton_owner *owner, const char *name,
                          const char *text);

/* Lower-case words joined by '-' of any name; "" if nothing of it is left. */
const char *bw_skeleton_id(bw_skeleton_owner *owner, const char *name);

/* The last part of a path. */
const char *bw_skeleton_file(const char *path);

#endif
