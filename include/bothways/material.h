#ifndef BOTHWAYS_MATERIAL_H
#define BOTHWAYS_MATERIAL_H

/** @file
 * Materials as data: every value with where it came from. A library owns its
 * materials; a material is immutable once read.
 */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/error.h"
#include "bothways/export.h"

BW_BEGIN_C

/** How good the evidence is that a value describes THIS wall. Where the
 *  figure itself comes from is its bw_basis: an estimate of the library may
 *  belong to a layer that was looked at, a standard's to one that was not. */
typedef enum bw_evidence {
    BW_EVIDENCE_ASSUMED = 0, /**< nobody looked */
    BW_EVIDENCE_TABULATED,   /**< a table: a standard's, the library's */
    BW_EVIDENCE_DECLARED,    /**< a data sheet */
    BW_EVIDENCE_MEASURED,    /**< on this wall or this product */
} bw_evidence;

/** How a library value was obtained by this project. */
typedef enum bw_basis {
    BW_BASIS_ESTIMATE = 0, /**< a judgement, no publication at hand */
    BW_BASIS_DERIVED,      /**< computed from other values, see the source */
    BW_BASIS_FROM_MEMORY,  /**< a published value, text not opened */
    BW_BASIS_OPENED,       /**< a published value, read in the text */
    BW_BASIS_GIVEN,        /**< given by the user in an assembly or file */
} bw_basis;

/** One value of a material. `known` false: no value, nothing else counts. */
typedef struct bw_property {
    bool known;
    double value;         /**< in the unit its name in bw_material gives */
    bool has_range;
    double low, high;     /**< plausible range, if has_range */
    bw_basis basis;
    bw_evidence evidence;
    const char *source;   /**< never NULL; "" only if unknown */
    const char *note;     /**< never NULL */
} bw_property;

/** A curve y(x): count >= 2 points, x rising strictly. count 0: no curve. */
typedef struct bw_curve {
    size_t count;
    const double *x;
    const double *y;
    bw_basis basis;
    const char *source; /**< never NULL if count > 0 */
    const char *note;   /**< never NULL if count > 0 */
} bw_curve;

/** y(x) by linear interpolation, constant beyond the ends. count >= 2. */
BW_API double bw_curve_linear(const bw_curve *curve, double x);

/** y(x) by linear interpolation of ln y, constant beyond the ends; all y > 0.
 *  The way sd(RH) curves are read. */
BW_API double bw_curve_log(const bw_curve *curve, double x);

/** Wood or panel, for the limits on moisture rise by mass. */
typedef enum bw_wood_kind {
    BW_NOT_WOOD = 0,
    BW_SOLID_WOOD,
    BW_WOOD_PANEL,
    BW_WOOD_WOOL_BOARD, /**< exempt from the panel limit */
} bw_wood_kind;

/** Mould sensitivity class, Ojanen et al. 2010. */
typedef enum bw_mould_class {
    BW_MOULD_VERY_SENSITIVE = 0,
    BW_MOULD_SENSITIVE,
    BW_MOULD_MEDIUM_RESISTANT,
    BW_MOULD_RESISTANT,
} bw_mould_class;

/** How conductivity changes with moisture, ISO 10456 clause 7. */
typedef enum bw_conductivity_rule {
    BW_CONDUCTIVITY_CONSTANT = 0,
    BW_CONDUCTIVITY_F_U,    /**< lambda * exp(f_u  (u2 - u1)),  u kg/kg */
    BW_CONDUCTIVITY_F_PSI,  /**< lambda * exp(f_psi(psi2-psi1)), psi m3/m3 */
} bw_conductivity_rule;

/** A generic material. Strings live as long as their library or assembly. */
typedef struct bw_material {
    const char *id;     /**< lower-case words joined by '-' */
    const char *name;   /**< plain words */
    const char *also;   /**< other names people have for it, separated by
                             commas; never NULL */
    const char *group;  /**< insulation, board, wood, masonry, plaster,
                             membrane, coating, air */
    const char *remark; /**< never NULL */
    const char *file;   /**< where it was read; never NULL */
    long line;
    bool replaces;      /**< it took the place of one of its id that was read
                             before it */
    bool remark_warns;  /**< the remark is to be read by whoever builds with it:
                             it becomes a warning of every wall that it is in */

    /* Density to conductivity_factor: a bw_property of each row. */
#define BW_PROPERTY(id, field, ...) bw_property field;
#include "bothways/properties.h"
    bw_conductivity_rule conductivity_rule; /**< what conductivity_factor is */

    bool hygroscopic;        /**< stores vapour enough to matter */
    bool absorbs_condensate; /**< its face takes up water by capillarity */
    bw_wood_kind wood_kind;
    bw_mould_class mould_class;
    const char *flags_source; /**< why the four flags are as they are */
    bool flags_assumed; /**< nobody said what it is made of: the flags are the
                             cautious reading, and rain counts as taken up */

    bw_curve sorption;  /**< RH [0..1] -> u [kg/kg dry], rising from (0, 0) */
    bw_curve sd_curve;  /**< mean RH of the two faces [0..1] -> sd [m] */
    bw_curve mu_curve;  /**< local RH [0..1] -> mu [-] */
} bw_material;

/** Pores as a part of the volume: the porosity where known, else
 *  1 - rho/rho_s, held to 0.02..0.99, rho_s 1500 kg/m3 for wood and plant fibre,
 *  2650 for mineral (estimate). The density must be known. */
BW_API double bw_material_pores(const bw_material *material);

/** The most moisture it can hold [kg/kg]: its pores full, or its free
 *  saturation or last sorption point where those are higher. The density must
 *  be known. */
BW_API double bw_material_most_moisture(const bw_material *material);

/** A set of materials by id. Opaque. */
typedef struct bw_library bw_library;

/**
 * Read every *.xml of a directory, in name order.
 *
 * @param[out] out    the library; free with bw_library_free
 * @param[in]  paths  directories; a later one adds to and overrides the
 *                    earlier ones (the overriding is noted)
 * @param[in]  count  number of directories, >= 1
 * @param[out] err    the first fault, with file and line
 * @return BW_OK, BW_ERR_INPUT, BW_ERR_MEMORY
 */
BW_API bw_status bw_library_read(bw_library **out, const char *const *paths,
                                 size_t count, bw_error *err);

/**
 * The same with a file that stands in memory, as the last of all: what it holds
 * adds to the directories' materials and overrides them.
 *
 * @param[in] count  number of directories, may be 0
 * @param[in] text   the whole file, UTF-8, ended by a NUL
 * @param[in] name   what messages and results call the file
 */
BW_API bw_status bw_library_read_text(bw_library **out,
                                      const char *const *paths, size_t count,
                                      const char *text, const char *name,
                                      bw_error *err);

/** Frees a library; NULL is allowed. */
BW_API void bw_library_free(bw_library *library);

/** Number of materials. */
BW_API size_t bw_library_count(const bw_library *library);

/** The i-th material in group, then name order; i < count. Borrowed. */
BW_API const bw_material *bw_library_at(const bw_library *library, size_t i);

/** The material of that id, or NULL. Borrowed. */
BW_API const bw_material *bw_library_find(const bw_library *library,
                                          const char *id);

/** The id nearest to a misspelt one, or NULL if none is near. Borrowed. */
BW_API const char *bw_library_suggest(const bw_library *library,
                                      const char *id);

/** Whether a material has this word or these words in its id, name, other names,
 *  group or remark; case, blanks and hyphens do not count ("woodfibre" is in
 *  "Wood fibre batt"), several words may stand apart in one of these. */
BW_API bool bw_material_mentions(const bw_material *material,
                                 const char *words);

/**
 * The materials that a word may mean which is no id: those whose id begins with it
 * and those called so, else those whose id, name or other names hold it, else those
 * whose id has all its words in another order, else the one whose id is nearest.
 *
 * @param[out] out   `room` at most, those that begin so first, each in the order of
 *                   the library; borrowed
 * @param[in]  room  >= 1
 * @return how many
 */
BW_API size_t bw_library_alike(const bw_library *library, const char *word,
                               const bw_material **out, size_t room);

/**
 * The materials of which a description speaks, such as "Mineral wool 140 mm":
 * those with the longest id, name (up to its first comma) or other name whose
 * words all stand in it.
 *
 * @param[out] out   `room` at most, in the order of the library; borrowed
 * @return how many; 0: it speaks of none
 */
BW_API size_t bw_library_spoken_of(const bw_library *library, const char *text,
                                   const bw_material **out, size_t room);

/** Notes made while reading (overrides); `count` receives how many. */
BW_API const bw_note *bw_library_notes(const bw_library *library,
                                       size_t *count);

/** Fixed words for the enums above; never NULL. */
BW_API const char *bw_evidence_text(bw_evidence evidence);
/** What all the words for evidence mean, in one line. */
BW_API const char *bw_evidence_meaning(void);
BW_API const char *bw_basis_text(bw_basis basis);
BW_API const char *bw_wood_kind_text(bw_wood_kind kind);
BW_API const char *bw_mould_class_text(bw_mould_class mould_class);

BW_END_C

#endif
