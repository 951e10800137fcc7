/* Where in a wall what is. The rules are choices of this project, written out
 * in docs/methods.md, section 1; the figures below are estimates.
 *
 * Invariant: pure; the sections between and through the studs agree, since
 * framing is taken for the layer it stands in. */

#include "bothways/geography.h"
#include "beyond.h"

#include <math.h>
#include <string.h>

#include "properties.h"
#include "variant.h"

/* Common practice (DIN 4108 calls such materials thermal insulation, from
 * memory, medium): up to this a material given by its values alone insulates
 * [W/(m K)]. */
static const double INSULATES = 0.1;
/* An insulation of less than this part of all resistance is not the main one:
 * a felt inside a log wall. */
static const double WORTH_IT = 0.1;
/* Equal resistances differ by less than this part of them. */
static const double EQUAL = 1e-9;
/* Fibres and loose fill that air passes: lighter and more open than this.
 * Boards of wood fibre, which close a wall, are wood panels. */
static const double WELDED = 0.003; /* m, common practice, no source: thinner
                                       sheets are lapped and taped */
static const double OPEN_MU = 5.0, OPEN_DENSITY = 150.0; /* -, kg/m3 */
/* Air-open layers of less than this part of the main insulation's resistance
 * are a lining: the air does not grow cold in them. */
static const double LINING = 0.25;
/* A coat as tight as this keeps rain out, too [m]. */
static const double TIGHT = 2.0;

static bool in_group(const bw_material *m, const char *group)
{
    return m != NULL && strcmp(m->group, group) == 0;
}

bool bw_is_insulation(const bw_material *m)
{
    return in_group(m, "insulation") ||
           (in_group(m, "given") && m->thermal_conductivity.known &&
            m->thermal_conductivity.value <= INSULATES);
}

/* ---- the weather line -------------------------------------------------- */

static bool ventilated(const bw_layer *layer, bw_ventilation least)
{
    return layer->kind == BW_LAYER_CAVITY && layer->ventilation >= least;
}

size_t bw_layers_outside(const bw_assembly *assembly, bw_ventilation least)
{
    for (size_t i = assembly->layer_count; i > 0; i--)
        if (ventilated(&assembly->layer[i - 1], least))
            return i;
    return 0;
}

/* The layer a slab belongs to, or NULL. */
static const bw_layer *layer_of(const bw_assembly *assembly,
                                const bw_slab *slab)
{
    return assembly != NULL && slab->layer < assembly->layer_count
               ? &assembly->layer[slab->layer]
               : NULL;
}

static bool vented_slab(const bw_assembly *assembly, const bw_slab *slab,
                        bw_ventilation least)
{
    const bw_layer *layer = layer_of(assembly, slab);
    return slab->kind == BW_LAYER_CAVITY && layer != NULL &&
           ventilated(layer, least);
}

static size_t first_inside(const bw_assembly *assembly,
                           const bw_section *section)
{
    for (size_t i = section->slab_count; i > 0; i--)
        if (vented_slab(assembly, &section->slab[i - 1], BW_VENT_WELL))
            return i < section->slab_count ? i : 0;
    return 0;
}

/* The slab that keeps the soil's water out; 0 where there is none, or no soil.
 */
static size_t waterproof_slab(const bw_assembly *assembly,
                              const bw_section *section)
{
    if (assembly == NULL)
        return 0;
    const long sheet = bw_beyond_tight_layer(&assembly->beyond);
    for (size_t k = 0; k < section->slab_count; k++)
        if ((long)section->slab[k].layer == sheet)
            return k;
    return 0;
}

/* ---- the main insulation ------------------------------------------------ */

/* The best insulation and the best of all solids, outermost of equals. */
typedef struct search {
    size_t insulation, any;
    double best_insulation, best, total;
} search;

static void consider(search *s, size_t index, bw_layer_kind kind,
                     double resistance, bool insulates)
{
    s->total += resistance;
    if (kind != BW_LAYER_SOLID)
        return;
    if (resistance > s->best * (1.0 + EQUAL)) {
        s->any = index;
        s->best = resistance;
    }
    if (insulates && resistance > s->best_insulation * (1.0 + EQUAL)) {
        s->insulation = index;
        s->best_insulation = resistance;
    }
}

static bool worth_it(const search *s)
{
    return s->best_insulation > 0.0 &&
           s->best_insulation >= WORTH_IT * s->total;
}

static double layer_resistance(const bw_layer *layer)
{
    return fmax(bw_layer_value(layer, BW_VARIED_RESISTANCE), 0.0);
}

size_t bw_main_insulation_layer(const bw_assembly *assembly)
{
    search s = {.any = assembly->layer_count, .best = -1.0};
    for (size_t i = bw_layers_outside(assembly, BW_VENT_WELL);
         i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        consider(&s, i, layer->kind, layer_resistance(layer),
                 bw_is_insulation(layer->material));
    }
    return worth_it(&s) ? s.insulation : s.any;
}

/* What fills the slab where no framing is. */
static const bw_material *filling(const bw_assembly *assembly,
                                  const bw_slab *slab)
{
    const bw_layer *layer = layer_of(assembly, slab);
    return slab->is_framing && layer != NULL ? layer->material : slab->material;
}

/* Its resistance where no framing is [m2 K/W]. */
static double filled(const bw_assembly *assembly, const bw_slab *slab)
{
    const bw_layer *layer = layer_of(assembly, slab);
    if (!slab->is_framing || layer == NULL || !(layer->thickness > 0.0))
        return slab->resistance;
    return layer_resistance(layer) * slab->thickness / layer->thickness;
}

static void find_insulation(bw_geography *g, const bw_assembly *assembly,
                            const bw_section *section)
{
    search s = {.any = g->first, .best = -1.0};
    for (size_t i = g->first; i < section->slab_count; i++) {
        const bw_slab *slab = &section->slab[i];
        consider(&s, i, slab->kind, filled(assembly, slab),
                 bw_is_insulation(filling(assembly, slab)));
    }
    g->insulates = worth_it(&s);
    g->insulation = g->insulates ? s.insulation : s.any;
}

/* ---- tight layers ------------------------------------------------------- */

size_t bw_tightest_slab(const bw_section *section, size_t from, size_t to,
                        bool membranes_only)
{
    size_t found = to;
    for (size_t i = from; i < to; i++) {
        const bw_slab *s = &section->slab[i];
        bool fits = membranes_only ? s->kind == BW_LAYER_MEMBRANE
                                   : s->kind != BW_LAYER_CAVITY;
        if (fits && (found == to || s->sd_dry > section->slab[found].sd_dry))
            found = i;
    }
    return found;
}

/* ---- leaking air -------------------------------------------------------- */

static bool air_passes(const bw_material *m)
{
    return bw_is_insulation(m) && m->wood_kind == BW_NOT_WOOD &&
           m->mu_dry.known && m->mu_dry.value <= OPEN_MU &&
           (!m->density.known || m->density.value < OPEN_DENSITY);
}

/* Air that came through the lining goes on through layers that are open to it,
 * still air spaces too, and is stopped at the outer end of the thickest run
 * of them. Where there is none it follows joints to the outer face of the main
 * insulation. */
static void find_leak(bw_geography *g, const bw_assembly *assembly,
                      const bw_section *section)
{
    double best = LINING * filled(assembly, &section->slab[g->insulation]);
    double run = 0.0;
    size_t start = g->first;
    g->leak = g->insulation;
    for (size_t i = g->first; i < section->slab_count; i++) {
        const bw_slab *slab = &section->slab[i];
        bool open = slab->kind == BW_LAYER_SOLID &&
                    air_passes(filling(assembly, slab));
        bool still = slab->kind == BW_LAYER_CAVITY &&
                     !vented_slab(assembly, slab, BW_VENT_SLIGHT);
        if (!open && !still) {
            run = 0.0;
            start = i + 1;
            continue;
        }
        run += open ? filled(assembly, slab) : 0.0;
        if (run > best * (1.0 + EQUAL)) {
            best = run;
            g->leak = start;
        }
    }
}

/* The deck of a roof, or a wall of masonry or concrete. */
static bool is_bed(const bw_assembly *assembly, const bw_slab *slab)
{
    static const double LEAF = 0.09; /* m */
    if (slab->kind != BW_LAYER_SOLID || bw_is_insulation(slab->material))
        return false;
    return (assembly != NULL && assembly->element == BW_ELEMENT_ROOF) ||
           (in_group(slab->material, "masonry") && slab->thickness >= LEAF);
}

/* Sheets as thick as those of bitumen are welded or bonded all over to what
 * they lie on; not the one that is hung between studs, nor paper. */
static bool is_welded(const bw_assembly *assembly, const bw_slab *slab)
{
    const bw_material *m = slab->material;
    const double sold = m != NULL && m->thickness.known ? m->thickness.value
                                                        : 0.0;
    return slab->kind == BW_LAYER_MEMBRANE &&
           fmax(slab->thickness, sold) >= WELDED && m != NULL &&
           m->mould_class >= BW_MOULD_MEDIUM_RESISTANT &&
           is_bed(assembly, slab + 1);
}

/* Joints end at such a sheet, and so does the air that comes through them: at
 * the inner face of the innermost. */
static void stop_at_sheets(bw_geography *g, const bw_assembly *assembly,
                           const bw_section *section)
{
    for (size_t i = section->slab_count - 1; i-- > g->leak;)
        if (is_welded(assembly, &section->slab[i])) {
            g->leak = i + 1;
            return;
        }
}

void bw_geography_find(bw_geography *out, const bw_assembly *assembly,
                       const bw_section *section)
{
    size_t count = section->slab_count;
    bw_geography g = {.first = first_inside(assembly, section),
                      .waterproofing = waterproof_slab(assembly, section)};
    find_insulation(&g, assembly, section);
    g.tight_outside = bw_tightest_slab(section, g.first, g.insulation, false);
    if (g.tight_outside == g.insulation)
        g.tight_outside = count;
    g.tight_inside = bw_tightest_slab(section, g.insulation + 1, count, false);
    find_leak(&g, assembly, section);
    stop_at_sheets(&g, assembly, section);
    *out = g;
}

/* ---- where water does harm ---------------------------------------------- */

static bool harmed(const bw_geography *g, const bw_section *section,
                   size_t index)
{
    const bw_slab *slab = &section->slab[index];
    const bw_material *m = slab->material;
    if (m == NULL || slab->kind != BW_LAYER_SOLID)
        return false;
    if (bw_is_timber(m))
        return true;
    if (in_group(m, "board"))
        return m->mould_class <= BW_MOULD_SENSITIVE;
    return bw_is_insulation(m) && (m->absorbs_condensate || m->hygroscopic ||
                                   (index == g->insulation && air_passes(m)));
}

bool bw_face_perishes(const bw_section *section, size_t slab)
{
    const size_t last = slab + 1 < section->slab_count ? slab + 1 : slab;
    for (size_t k = slab; k <= last; k++)
        if (section->slab[k].kind != BW_LAYER_CAVITY &&
            bw_feeds_mould(section->slab[k].material))
            return true;
    return false;
}

/* The inner face of framing dries sideways into what fills the layer, a few
 * centimetres, which a path straight through the framing cannot show. */
bool bw_face_at_risk(const bw_geography *g, const bw_section *section,
                     size_t slab)
{
    return slab >= g->first && slab + 1 < section->slab_count &&
           !section->slab[slab].is_framing &&
           (slab >= g->waterproofing || bw_face_perishes(section, slab)) &&
           (harmed(g, section, slab) || harmed(g, section, slab + 1));
}

size_t bw_places_at_risk(bw_plane_at *place, const bw_geography *g,
                         const bw_section *section)
{
    size_t count = 0;
    if (section->slab_count == 1 && harmed(g, section, 0))
        place[count++] = (bw_plane_at){.depth = 0.5 *
                                                section->slab[0].thickness};
    for (size_t k = 0; k < section->slab_count; k++)
        if (bw_face_at_risk(g, section, k))
            place[count++] = (bw_plane_at){k, section->slab[k].thickness, true};
    return count;
}

/* ---- rain on the face ---------------------------------------------------- */

static bool drinks(const bw_material *m)
{
    return m != NULL && (m->water_absorption.known
                             ? m->water_absorption.value > 0.0
                             : m->absorbs_condensate || m->flags_assumed);
}

/* What water put beside it does not get through in a year. */
static const double STOPS_WATER = 50.0; /* m of sd, estimate */

bool bw_anything_perishes(const bw_geography *geography,
                          const bw_assembly *assembly,
                          const bw_section *section)
{
    for (size_t i = 0; i < assembly->layer_count; i++)
        if (assembly->layer[i].framing.present &&
            bw_feeds_mould(assembly->layer[i].framing.material))
            return true;
    for (size_t k = geography->first; k < section->slab_count; k++)
        if (section->slab[k].kind != BW_LAYER_CAVITY &&
            bw_feeds_mould(section->slab[k].material))
            return true;
    return false;
}

bool bw_slab_perishes(const bw_assembly *assembly, const bw_slab *slab)
{
    const bw_framing *framing = &assembly->layer[slab->layer].framing;
    return (framing->present && bw_feeds_mould(framing->material)) ||
           (slab->kind != BW_LAYER_CAVITY && bw_feeds_mould(slab->material));
}

bool bw_water_reaches_what_perishes(const bw_assembly *assembly,
                                    const bw_section *section, size_t slab)
{
    const bw_slab *at = section->slab;
    for (size_t k = slab + 1; k-- > 0 && at[k].sd_dry < STOPS_WATER;)
        if (bw_slab_perishes(assembly, &at[k]))
            return true;
    for (size_t k = slab + 1;
         k < section->slab_count && at[k].sd_dry < STOPS_WATER; k++)
        if (bw_slab_perishes(assembly, &at[k]))
            return true;
    return false;
}

bool bw_film_sheds_rain(const bw_slab *film)
{
    const bw_material *m = film->material;
    if (m != NULL && m->water_absorption.known)
        return !(m->water_absorption.value > 0.0);
    return !in_group(m, "coating") && film->sd_dry >= TIGHT;
}

size_t bw_rain_wetted_slab(const char **why, const bw_geography *g,
                           const bw_section *section)
{
    *why = "";
    if (section->dropped_layers > 0 || g->first > 0) {
        *why = "what rain wets stands before a well-ventilated cavity, which "
               "carries its vapour off";
        return section->slab_count;
    }
    for (size_t i = 0; i < section->slab_count; i++) {
        const bw_slab *slab = &section->slab[i];
        bool film = slab->kind == BW_LAYER_MEMBRANE;
        bool coat = slab->sd_dry < TIGHT &&
                    (in_group(slab->material, "coating") ||
                     (film && !bw_film_sheds_rain(slab)));
        if (slab->kind == BW_LAYER_SOLID && !coat && drinks(slab->material))
            return i;
        if (!coat)
            break;
    }
    *why = "the outermost layer takes up no rain and keeps it from those "
           "inside";
    return section->slab_count;
}
