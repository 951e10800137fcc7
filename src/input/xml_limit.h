#ifndef BW_INPUT_XML_LIMIT_H
#define BW_INPUT_XML_LIMIT_H

/* The most an XML file may hold, so that reading one of any content takes no
 * longer and no more memory than its size tells (docs/input.md). */

#include <stddef.h>

#include "bothways/error.h"

enum {
    BW_XML_ATTRIBUTES = 128, /* of one element */
    BW_XML_PARTS = 400000,   /* elements and attributes of one file */
    BW_XML_TEXT = 65536,     /* bytes of one attribute, or of one text */
};

/* Whether a text of `length` bytes is within them.
 * BW_OK, BW_ERR_INPUT */
bw_status bw_xml_within(const char *text, size_t length, const char *path,
                        const char *what, bw_error *err);

#endif
