#ifndef BW_INPUT_XML_H
#define BW_INPUT_XML_H

/* XML files made safe and easy to refuse well. A document is parsed from
 * memory: no network, no DTD of any kind, no entity but the five of XML, and
 * libxml2 prints nothing. Every refusal names file:line, element, attribute,
 * value, what is allowed, and a near miss where one is close.
 *
 * Lines are libxml2's: that of the end of the start tag, for a tag written
 * over several lines. */

#include <libxml/tree.h>
#include <stdbool.h>
#include <stddef.h>

#include "arena.h"
#include "bothways/error.h"
#include "units.h"

typedef struct bw_xml {
    const char *path; /* as given, borrowed */
    xmlDoc *doc;
    xmlNode *root;
    /* Told of a slip (below) where further faults are wanted; NULL: a fault is
     * the last thing that is read. */
    bool *slipped;
} bw_xml;

/* Opens a document and checks its root element and namespace; every element
 * in it is then known to be in that namespace.
 *
 * text       NULL: of the file; else what is read, ended by a NUL, and `path`
 *            is for messages
 * what       "assembly", "material": for messages
 * root       the root element's name
 * name_space with its version at the end, "urn:bothways:assembly:1"
 * On failure nothing is left to close.
 * BW_OK, BW_ERR_INPUT, BW_ERR_IO, BW_ERR_MEMORY */
bw_status bw_xml_open(bw_xml *xml, const char *path, const char *text,
                      const char *what, const char *root,
                      const char *name_space, bw_error *err);

/* Opens a document of another format just as safely; its root element and
 * namespaces are the caller's to check. Attributes hold text, no entities. */
bw_status bw_xml_open_foreign(bw_xml *xml, const char *path, const char *what,
                              bw_error *err);

/* The namespace of an element, "" if it has none. */
const char *bw_xml_name_space(const xmlNode *node);

/* Frees the document and every string borrowed from it. */
void bw_xml_close(bw_xml *xml);

/* ---- elements ---------------------------------------------------------- */

/* The first child element, the next sibling element, or NULL. */
xmlNode *bw_xml_first(const xmlNode *node);
xmlNode *bw_xml_next(const xmlNode *node);

bool bw_xml_is(const xmlNode *node, const char *name);
const char *bw_xml_name(const xmlNode *node);
long bw_xml_line(const xmlNode *node);

/* Refuses child elements not among the allowed, and text between them.
 * With count 0 the element must be empty. */
bw_status bw_xml_children(const bw_xml *xml, const xmlNode *node,
                          const char *const *allowed, size_t count,
                          bw_error *err);

/* The one child of that name, NULL in *child if there is none; refuses a
 * second one, and a missing one if `required`. */
bw_status bw_xml_child(xmlNode **child, const bw_xml *xml, const xmlNode *node,
                       const char *name, bool required, bw_error *err);

/* The text that stands directly in an element, blanks run together, none at
 * its ends; NULL when out of memory. */
char *bw_xml_text(bw_arena *arena, const xmlNode *node);

/* The same of an element that must hold text, and nothing else. */
bw_status bw_xml_only_text(const char **out, const bw_xml *xml, bw_arena *arena,
                           const xmlNode *node, bw_error *err);

/* ---- attributes -------------------------------------------------------- */

/* Refuses attributes not among the allowed. */
bw_status bw_xml_attributes(const bw_xml *xml, const xmlNode *node,
                            const char *const *allowed, size_t count,
                            bw_error *err);

/* The same of an element that must hold no others. */
bw_status bw_xml_childless(const bw_xml *xml, const xmlNode *node,
                           const char *const *allowed, size_t count,
                           bw_error *err);

/* The value, borrowed until bw_xml_close; NULL if the attribute is absent. */
const char *bw_xml_value(const xmlNode *node, const char *name);

/* The value of an attribute that must be there and not blank; `example` is
 * shown in the refusal. */
bw_status bw_xml_required(const char **value, const bw_xml *xml,
                          const xmlNode *node, const char *name,
                          const char *example, bw_error *err);

/* The same of id=, which must be lower-case words and digits joined by '-'. */
bw_status bw_xml_id(const char **id, const bw_xml *xml, const xmlNode *node,
                    const char *example, bw_error *err);

/* A quantity with its unit, converted (units.h), low <= value <= high.
 * given: NULL if the attribute is required; else says whether it is there,
 * and *value is left alone if not. */
bw_status bw_xml_quantity(double *value, bool *given, const bw_xml *xml,
                          const xmlNode *node, const char *name,
                          bw_dimension dimension, double low, double high,
                          bw_error *err);

/* One of a list of words; *index is its place in the list. given as above. */
bw_status bw_xml_word(int *index, bool *given, const bw_xml *xml,
                      const xmlNode *node, const char *name,
                      const char *const *words, size_t count, bw_error *err);

/* A whole number low <= value <= high. given as above. */
bw_status bw_xml_whole(int *value, bool *given, const bw_xml *xml,
                       const xmlNode *node, const char *name, int low, int high,
                       bw_error *err);

/* ---- changes ----------------------------------------------------------- */

/* Sets an attribute; NULL takes it out. Name and value must be sound UTF-8, the
 * name one that XML allows. BW_OK, BW_ERR_MEMORY */
bw_status bw_xml_set(xmlNode *node, const char *name, const char *value,
                     bw_error *err);

/* A new, empty child element. BW_OK, BW_ERR_MEMORY */
bw_status bw_xml_add(xmlNode **child, xmlNode *node, const char *name,
                     bw_error *err);

/* Takes out every child element of that name. */
void bw_xml_drop(xmlNode *node, const char *name);

/* ---- refusals ---------------------------------------------------------- */

/* "file:line: <layer> ..." ; always BW_ERR_INPUT. */
bw_status bw_xml_fail(const bw_xml *xml, const xmlNode *node, bw_error *err,
                      const char *format, ...) BW_PRINTF(4, 5);

/* "file:line: <layer> name="value" ..." with the value as it stands there. */
bw_status bw_xml_fail_at(const bw_xml *xml, const xmlNode *node,
                         const char *name, bw_error *err, const char *format,
                         ...) BW_PRINTF(5, 6);

/* The attribute is wrong by itself, whatever else stands there: where further
 * faults are wanted, it is marked, and when it is read again it is skipped, or
 * passes with a value that is possible. Returns status, the refusal. */
bw_status bw_xml_slip(const bw_xml *xml, const xmlNode *node, const char *name,
                      bw_status status);

/* Whether it is marked. */
bool bw_xml_slipped(const xmlNode *node, const char *name);

/* Of words in a call: a list of them, and how many they are. */
#define BW_NAMES(...)                                                          \
    (const char *const[]){__VA_ARGS__},                                        \
        BW_COUNT(((const char *const[]){__VA_ARGS__}))

/* ---- readers ----------------------------------------------------------- */

/* The same for a reader: what holds the document `xml`, and in `err` where its
 * refusals go. The words stand in the call. */
#define bw_read_attributes(r, node, ...)                                       \
    bw_xml_attributes(&(r)->xml, (node), BW_NAMES(__VA_ARGS__), (r)->err)
#define bw_read_children(r, node, ...)                                         \
    bw_xml_children(&(r)->xml, (node), BW_NAMES(__VA_ARGS__), (r)->err)
#define bw_read_childless(r, node, ...)                                        \
    bw_xml_childless(&(r)->xml, (node), BW_NAMES(__VA_ARGS__), (r)->err)
#define bw_read_required(r, value, node, name, example)                        \
    bw_xml_required((value), &(r)->xml, (node), (name), (example), (r)->err)
#define bw_read_quantity(r, value, given, node, name, dimension, low, high)    \
    bw_xml_quantity((value), (given), &(r)->xml, (node), (name), (dimension),  \
                    (low), (high), (r)->err)
#define bw_read_word(r, index, given, node, name, ...)                         \
    bw_xml_word((index), (given), &(r)->xml, (node), (name),                   \
                BW_NAMES(__VA_ARGS__), (r)->err)
#define bw_read_whole(r, value, given, node, name, low, high)                  \
    bw_xml_whole((value), (given), &(r)->xml, (node), (name), (low), (high),   \
                 (r)->err)
#define bw_refuse(r, node, ...)                                                \
    bw_xml_fail(&(r)->xml, (node), (r)->err, __VA_ARGS__)
#define bw_refuse_at(r, node, name, ...)                                       \
    bw_xml_fail_at(&(r)->xml, (node), (name), (r)->err, __VA_ARGS__)

/* "a, b, c" into buffer, cut to fit. Returns buffer. */
char *bw_xml_list(char *buffer, size_t size, const char *const *words,
                  size_t count);

#endif
