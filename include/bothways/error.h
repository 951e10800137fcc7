#ifndef BOTHWAYS_ERROR_H
#define BOTHWAYS_ERROR_H

/** @file Errors and notes: plain data, no hidden state. */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/export.h"

BW_BEGIN_C

/* One list: the name, and the sentence that explains it. */
#define BW_STATUS_LIST(ENTRY)                                                  \
    ENTRY(BW_OK, "no error")                                                   \
    ENTRY(BW_ERR_USAGE, "the command line or a call was refused")              \
    ENTRY(BW_ERR_INPUT, "an input file was refused")                           \
    ENTRY(BW_ERR_DOMAIN, "an argument lies outside its stated range")          \
    ENTRY(BW_ERR_NUMERIC, "a computation could not meet its tolerance")        \
    ENTRY(BW_ERR_MEMORY, "out of memory")                                      \
    ENTRY(BW_ERR_IO, "the machine could not read or write")                    \
    ENTRY(BW_ERR_CANCELLED, "the caller asked to stop")

typedef enum bw_status {
#define BW_STATUS_NAME(name, text) name,
    BW_STATUS_LIST(BW_STATUS_NAME)
#undef BW_STATUS_NAME
} bw_status;

/** What went wrong and where. Copy it, keep it, never free it. */
typedef struct bw_error {
    bw_status status;
    long line;         /**< 1-based line in `file`; 0 if none */
    char file[256];    /**< "" if the fault is in no file */
    char message[768]; /**< one or more sentences, no newline */
} bw_error;

/** The sentence for a status; never NULL. */
BW_API const char *bw_status_text(bw_status status);

/** How much a note matters. */
typedef enum bw_note_kind {
    BW_NOTE_INFO,    /**< something was understood or repaired; the reader
                          should know */
    BW_NOTE_WARNING, /**< something looks wrong but was taken as given */
} bw_note_kind;

/** A remark about an input that was accepted. */
typedef struct bw_note {
    bw_note_kind kind;
    long line;           /**< 1-based line in `file`; 0 if none */
    const char *file;    /**< "" if the note is about no file */
    const char *message; /**< one sentence, no newline */
} bw_note;

BW_END_C

#endif
