#ifndef BOTHWAYS_GEOGRAPHY_H
#define BOTHWAYS_GEOGRAPHY_H

/** @file
 * Where in a wall what is: the weather line, the main insulation, the tight
 * layers on both sides of it, where leaking room air meets the first cold
 * face, and the faces where water would do harm. Decided here and nowhere
 * else; all rules are choices of this project (docs/methods.md, section 1).
 */

#include "bothways/assembly.h"

BW_BEGIN_C

/** A plane: a layer face, or a depth inside a subdivided layer. The outer
 *  surface is {0, 0, false}; the inner face of slab k is {k, its thickness,
 *  true}, so the inner surface is the last slab's; a plane within slab k is
 *  {k, depth, false} with 0 < depth < thickness. */
typedef struct bw_plane_at {
    size_t slab;       /**< index of the slab on its OUTER side (a face: its
                            inner face) or which it lies in */
    double depth;      /**< m from the outer face of that slab */
    bool layer_face;   /**< true: the inner face of `slab` */
} bw_plane_at;

/** Slab indices of one section; slab_count where there is none. */
typedef struct bw_geography {
    size_t first;         /**< the first slab inside the weather line, which
                               is the innermost well-ventilated cavity; 0 if
                               the section has none: then the outer surface
                               is the weather line */
    size_t waterproofing; /**< in soil the slab that keeps water out: what
                               lies outside it is wet by design and judged
                               where it perishes; 0 where there is none */
    size_t insulation;    /**< the main insulation */
    bool insulates;       /**< it is an insulation material; false: the slab
                               of highest resistance stands for one */
    size_t tight_outside; /**< the highest sd between weather line and main
                               insulation; cavities are none */
    size_t tight_inside;  /**< the highest sd inside the main insulation */
    size_t leak;          /**< leaking room air meets its first cold face at
                               the OUTER face of this slab */
} bw_geography;

/** Decides the geography of a section.
 *  @param assembly NULL: the section has no ventilated cavity, and its framing
 *                  is not known as such
 *  @param section  with at least one slab; its materials may be NULL */
BW_API void bw_geography_find(bw_geography *out, const bw_assembly *assembly,
                              const bw_section *section);

/** How many outer layers there are up to and with the innermost cavity that is
 *  ventilated `least` or better; 0 if there is none. */
BW_API size_t bw_layers_outside(const bw_assembly *assembly,
                                bw_ventilation least);

/** The layer of the main insulation; layer_count if no layer inside the
 *  weather line is solid. */
BW_API size_t bw_main_insulation_layer(const bw_assembly *assembly);

/** An insulation material: of that group, or given by its values and no better
 *  a conductor than 0.1 W/(m K). NULL is none. */
BW_API bool bw_is_insulation(const bw_material *material);

/** The slab of highest dry-cup sd in [from, to), the outermost of equals; no
 *  cavity, only membranes if asked. `to` if there is none. */
BW_API size_t bw_tightest_slab(const bw_section *section, size_t from,
                               size_t to, bool membranes_only);

/** Would water at the inner face of this slab do harm: is one of the two slabs
 *  that touch there wood, a wood panel or a board that may be faced with
 *  paper, insulation that takes up water, or main insulation that air passes?
 *  False outside the weather line, at the inner surface and at the inner face
 *  of framing, which dries sideways. */
BW_API bool bw_face_at_risk(const bw_geography *geography,
                            const bw_section *section, size_t slab);

/** The planes where water would do harm, outside to inside: all faces at risk;
 *  of a section of one such slab its middle.
 *  @param[out] place room for slab_count planes
 *  @return how many */
BW_API size_t bw_places_at_risk(bw_plane_at *place,
                                const bw_geography *geography,
                                const bw_section *section);

/** Is there anything that rots or feeds mould from the weather line on: wood, a
 *  wood panel, a layer or a framing of a sensitive mould class? Where there is
 *  not, water that stays costs insulation and no structure. */
BW_API bool bw_anything_perishes(const bw_geography *geography,
                                 const bw_assembly *assembly,
                                 const bw_section *section);

/** Does one of the two slabs that touch at the inner face of this one perish? */
BW_API bool bw_face_perishes(const bw_section *section, size_t slab);

/** Does a slab perish, or the framing in its layer beside it? */
BW_API bool bw_slab_perishes(const bw_assembly *assembly, const bw_slab *slab);

/** Can water at the inner face of this slab come to anything that perishes:
 *  is there any up to the next layer of sd 50 m or more on either side? */
BW_API bool bw_water_reaches_what_perishes(const bw_assembly *assembly,
                                           const bw_section *section,
                                           size_t slab);

/** Does a film on the face keep rain out: by its water absorption where that
 *  is known, else a sheet of sd 2 m or more (roofing, foil). A coating, or a
 *  thin sheet that nothing is known of, lets rain in. */
BW_API bool bw_film_sheds_rain(const bw_slab *film);

/** The slab that rain on the face wets: the outermost solid one, behind a coat
 *  at most, if it takes up water.
 *  @param[out] why  "" or the reason why there is none
 *  @return slab_count if there is none */
BW_API size_t bw_rain_wetted_slab(const char **why,
                                  const bw_geography *geography,
                                  const bw_section *section);

BW_END_C

#endif
