#ifndef BW_INPUT_ASSEMBLY_READER_H
#define BW_INPUT_ASSEMBLY_READER_H

/* What the parts of the assembly reader share. */

#include "arena.h"
#include "bothways/assembly.h"
#include "bothways/edit.h"
#include "xml.h"

/* More layers than any element has, more other materials than anybody weighs
 * for one, more readings and photographs than anybody takes of a wall; keeps
 * every later loop bounded. */
enum { BW_MOST_LAYERS = 64, BW_MOST_OTHERS = 64, BW_MOST_EVIDENCE = 1000 };

typedef struct bw_reader {
    bw_xml xml;
    const bw_library *library;
    bw_arena *arena;       /* the assembly's */
    bw_assembly *assembly; /* being filled */
    bw_layer *layer;       /* in the file's order while reading */
    bw_note *note;
    size_t note_count, note_room;
    bool out_of_memory; /* overrules, at the end, what was refused since */
    bw_error *err;
    bw_faults *faults; /* where all are wanted; NULL: the first ends it */
    bool slipped;      /* the last refusal was of an attribute by itself */
} bw_reader;

/* Where a wall stands: a file, or a text in memory that is called `name`. */
typedef struct bw_wall_origin {
    const char *name, *text;
    const bw_edit *edit;
    size_t edit_count;
    bw_faults *faults;
} bw_wall_origin;

/* What reads one element. */
typedef bw_status bw_part_reader(bw_reader *r, const xmlNode *node);

/* Reads an element; where all faults are wanted, notes those of its attributes
 * that are wrong by themselves, or else the first of another kind, and is
 * BW_OK: what refers to it must ask bw_any_fault. */
bw_status bw_read_part(bw_reader *r, bw_part_reader *read, const xmlNode *node);

/* The same of the one child of the root of that name. */
bw_status bw_read_child(bw_reader *r, const char *name, bool required,
                        bw_part_reader *read);

bool bw_any_fault(const bw_reader *r);

/* Copies a string into the assembly; "" for NULL or when out of memory. */
const char *bw_keep(bw_reader *r, const char *text);

/* Adds a note at a node (NULL: at no line). */
void bw_add_note(bw_reader *r, bw_note_kind kind, const xmlNode *node,
                 const char *format, ...) BW_PRINTF(4, 5);

/* yes or no; given as in bw_xml_word. */
bw_status bw_read_yes_no(bw_reader *r, bool *value, bool *given,
                         const xmlNode *node, const char *name);

/* Reads evidence= into *evidence if it is there. */
bw_status bw_read_evidence(bw_reader *r, bw_evidence *evidence, bool *given,
                           const xmlNode *node);

/* id= of a layer or framing, which may be missing: "". */
bw_status bw_read_own_id(bw_reader *r, const char **id, const xmlNode *node);

/* Finds the library material an attribute names. */
bw_status bw_read_material(bw_reader *r, const bw_material **material,
                           const xmlNode *node, const char *name);

/* Changes the document before it is read. */
bw_status bw_apply_edits(bw_reader *r, const bw_edit *edit, size_t count);

/* Adds to a refusal that the wall was changed. */
void bw_blame_edits(bw_error *err, const bw_edit *edit, size_t count);

/* A path as the file means it: a relative one from the file's own folder. */
const char *bw_resolve(bw_reader *r, const char *path);

/* <outdoors> and <indoors>. */
bw_status bw_read_outdoors(bw_reader *r, const xmlNode *node);
bw_status bw_read_indoors(bw_reader *r, const xmlNode *node);

/* One of <layer>, <membrane>, <cavity> into *layer. */
bw_status bw_read_layer(bw_reader *r, bw_layer *layer, const xmlNode *node);

/* Moisture to start with: kg/kg, or RH [0..1]. */
typedef struct bw_initial {
    bool given, is_rh;
    double value;
} bw_initial;

/* initial-moisture= or initial-relative-humidity= of what is made of m. */
bw_status bw_read_initial(bw_reader *r, bw_initial *out, const bw_material *m,
                          const xmlNode *node);

/* The layer's material with the inline values applied; fills
 * layer->material, thickness, resistance, evidence, source and name. */
bw_status bw_read_layer_material(bw_reader *r, bw_layer *layer,
                                 const xmlNode *node);

/* kind= of a layer without a library material: the flags of `material`. */
bw_status bw_read_kind(bw_reader *r, bw_material *material,
                       const bw_layer *layer, const xmlNode *node,
                       bool library);

/* Refuses an attribute that no layer or membrane has. */
bw_status bw_check_layer_attributes(bw_reader *r, const xmlNode *node);

/* What lies against the outer face in the place of outdoor air: which element
 * of the root says so, before all others are read; and that element, after the
 * layers. */
bw_status bw_find_beyond(bw_reader *r, const xmlNode *root);
bw_status bw_read_beyond(bw_reader *r, const xmlNode *node);

/* What an element says of what its kind, which is set, has; `layers`: it may
 * name one. */
bw_status bw_read_beyond_values(bw_reader *r, bw_beyond *beyond,
                                const xmlNode *node, bool layers);

/* The names of parts of an assembly, those always known and what may lie beyond
 * it, into name[BW_MOST_PARTS]; their number. */
enum { BW_MOST_PARTS = 24 };
size_t bw_part_names(const char **name, const char *const *always,
                     size_t count);

/* <choices>, which may be missing; the layers are in the model's order. */
bw_status bw_read_choices(bw_reader *r, const xmlNode *node);

/* The layer whose id an attribute names; and not the innermost. */
bw_status bw_find_layer_id(bw_reader *r, long *index, const xmlNode *node,
                           const char *name);
bw_status bw_read_layer_id(bw_reader *r, long *index, const xmlNode *node,
                           const char *name);

/* <air-leakage>, <drying-test>, <rain-leak>, <closing-up>, each of which may
 * be missing; the layers are in the model's order by then. */
bw_status bw_read_events(bw_reader *r);
bw_status bw_read_closing_up(bw_reader *r, const xmlNode *node);

/* Looks at the finished model and notes what looks wrong. */
bw_status bw_review_assembly(bw_reader *r);

/* Notes a thickness or inline value outside its plausible range. */
void bw_review_layer(bw_reader *r, const bw_layer *layer,
                     const bw_material *library_material, const xmlNode *node);

/* <junctions>: the names; and, once the wall is read, what they name. */
struct bw_assembly_owner;
bw_status bw_read_junction_names(bw_reader *r, const xmlNode *node);
bw_status bw_read_junctions(struct bw_assembly_owner *owner,
                            const bw_wall_origin *from,
                            const bw_library *library, bw_error *err);

/* A wall without the junctions it names. */
bw_status bw_wall_read(bw_assembly **out, const bw_wall_origin *from,
                       const bw_library *library, bw_error *err);

/* A wall for a junction, without the junctions it names. host: NULL, or the
 * wall for which the junction is read: as that was read, changes and all. */
bw_status bw_assembly_read_alone(bw_assembly **out, const char *path,
                                 const bw_wall_origin *host,
                                 const bw_library *library, bw_error *err);

#endif
