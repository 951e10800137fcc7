#include <stdarg.h>
#include <stdio.h>

#include "exposure.h"
#include "number.h"
#include "run.h"

/* What was assumed or not covered in a simulation, in words. */

__attribute__((format(printf, 2, 3))) static void
note(bw_transient_result *result, const char *format, ...)
{
    if (result->note_count == sizeof result->note / sizeof *result->note)
        return;
    va_list list;
    va_start(list, format);
    vsnprintf(result->note[result->note_count++], sizeof result->note[0],
              format, list);
    va_end(list);
}

static void tell_start(bw_run *r)
{
    if (r->start.by_rule)
        note(r->result,
             "start: 80 %% RH in all that no moisture is given for, practice "
             "with EN 15026 (guideline WTA 6-2, from memory)");
}

static void tell_climate(bw_run *r, const bw_climate *climate)
{
    bw_transient_result *out = r->result;
    const bw_year *y = r->year;
    out->synthetic_climate = climate->kind == BW_CLIMATE_SYNTHETIC;
    out->method = out->synthetic_climate
                      ? "EN 15026 equations, hours generated from monthly "
                        "means (synthetic)"
                      : "EN 15026 equations, hourly climate";
    if (y->against != NULL) {
        note(out,
             "outer face against %s: its temperature and humidity, no "
             "sun, rain, wind or sky; no liquid water enters from it",
             y->against);
        return;
    }
    if (y->missing_sun)
        note(out, "no sun: the climate or the facing to compute it is "
                  "missing, as allowed");
    else if (!y->sun)
        note(out, "no sun on the face: no facing given, or no radiation "
                  "in the climate");
    if (!y->sky)
        note(out, "no longwave column: sky and surroundings taken at air "
                  "temperature, no cooling to the sky");
    if (!y->wind)
        note(out, "no wind column: 2 m/s taken for the outer surface");
    if (climate->kind == BW_CLIMATE_HOURLY &&
        !(climate->columns.solar && y->sky && y->wind))
        note(out,
             "what this climate lacks, bothways climate %s OTHER.csv --output "
             "joined.csv takes from another file of hours; its global sun, if "
             "it has it, is parted into direct and diffuse",
             climate->file);
    if (y->missing_rain)
        note(out, "no driving rain: data for it is missing, as allowed");
}

/* What no file says and moves the result. */
static void tell_defaults(bw_run *r, const bw_outdoors *o)
{
    bw_transient_result *out = r->result;
    const bw_year *y = r->year;
    if (y->default_absorptance)
        note(out, "solar absorptance 0.6 (medium colour): none given");
    if (y->wind && !(o->has_terrain && o->has_height))
        note(out,
             "wind at the face %s of that at 10 m in open ground: %s terrain%s,"
             " %s m above ground%s",
             BW_NUMBER_F(y->local_wind, 2),
             bw_terrain_text(bw_terrain_taken(o)),
             o->has_terrain ? "" : " (none given)",
             BW_NUMBER_G(bw_height_taken(o), 3),
             o->has_height ? "" : " (none given)");
    if (!y->rain)
        return;
    if (!o->has_driving_rain)
        note(out, "driving rain: %s exposure is taken, none given",
             bw_exposure_text(o->driving_rain));
    if (o->driving_rain == BW_RAIN_NONE)
        note(out, "driving-rain none, but a leak: it leaks as on a sheltered "
                  "face");
    else if (!o->has_rain_share && !r->model.blocks_rain)
        note(out, "0.7 of the rain driven against the face stays, the rest "
                  "splashes off: rain-share= not given");
    if (!y->rain_from)
        note(out, "no wind direction: 0.65 of rain times wind is taken to "
                  "blow straight at the face");
}

/* What keeps rain out of the outer face, or lets it in. */
static void tell_coat(bw_run *r)
{
    bw_transient_result *out = r->result;
    const bw_model *model = &r->model;
    const bw_coat *coat = &model->coat;
    if (!r->year->rain)
        return;
    if (coat->label != NULL && coat->assumed)
        note(out,
             "%s: a coat of unknown water absorption lets rain in by 0.5 "
             "kg/(m2 h^0.5), the most of class W2 (EN 1062-3)",
             coat->label);
    if (coat->label != NULL && coat->sheet)
        note(out,
             "%s: a sheet of unknown water absorption is taken to keep all "
             "rain out",
             coat->label);
    if (!model->blocks_rain)
        return;
    size_t k = 0;
    while (model->range[k].count == 0)
        k++;
    const bw_slab *face = &model->section->slab[k];
    if (face->material->absorbs_condensate &&
        !face->material->water_absorption.known)
        note(out,
             "%s: absorbs water, but how fast (A_w) is not known: no rain is "
             "taken up",
             face->label);
    else if (coat->label == NULL || !coat->sheet)
        note(out, "rain runs off: the outermost layer has no known water "
                  "absorption or is coated");
}

static void tell_redistribution(bw_run *r)
{
    bool liquid = false;
    for (size_t k = 0; k < r->model.section->slab_count; k++)
        liquid = liquid || r->model.storage[k].d_saturated > 0;
    if (!liquid)
        return;
    if (r->year->redistribution)
        note(r->result,
             "liquid water in hours without rain: slower diffusivity "
             "of redistribution, a tenth at free saturation");
    else
        note(r->result, "liquid water: diffusivity of suction at all times, "
                        "as set; it dries walls sooner");
}

static void tell_materials(bw_run *r)
{
    bw_transient_result *out = r->result;
    size_t fitted = 0, ended = 0;
    const char *fit = "", *end = "";
    for (size_t k = 0; k < r->model.section->slab_count; k++) {
        const bw_storage *s = &r->model.storage[k];
        const char *label = r->model.section->slab[k].label;
        if (s->missing_sorption)
            note(out,
                 "%s: no sorption points, taken as not hygroscopic, as "
                 "allowed",
                 label);
        fitted += s->henderson;
        if (s->henderson)
            fit = label;
        ended += s->estimated_free && s->count > 2;
        if (s->estimated_free && s->count > 2)
            end = label;
    }
    if (fitted > 0)
        note(out,
             "storage from two points by Henderson's form: %zu layer%s, "
             "e.g. %s",
             fitted, fitted > 1 ? "s" : "", fit);
    if (ended > 0)
        note(out,
             "free saturation estimated as 0.9 of the pores: %zu "
             "layer%s, e.g. %s",
             ended, ended > 1 ? "s" : "", end);
}

/* Layers that take up water by capillarity, or may, of which no A_w is known:
 * named, as many as the line holds. */
static void tell_liquid(bw_run *r)
{
    const bw_section *section = r->model.section;
    char names[100] = "";
    size_t left_out = 0, used = 0;
    for (size_t k = 0; k < section->slab_count; k++) {
        const bw_slab *slab = &section->slab[k];
        const bw_material *m = slab->material;
        const bool absorbs = m->absorbs_condensate || m->flags_assumed;
        if (slab->kind != BW_LAYER_SOLID || !absorbs ||
            r->model.storage[k].d_saturated > 0)
            continue;
        const size_t room = sizeof names - used;
        const int length = snprintf(names + used, room, "%s%s",
                                    used > 0 ? ", " : "", slab->label);
        if (length > 0 && (size_t)length < room) {
            used += (size_t)length;
        } else {
            names[used] = '\0';
            left_out++;
        }
    }
    if (used > 0 && left_out > 0)
        note(r->result, "draws no liquid: no A_w known: %s and %zu more", names,
             left_out);
    else if (used > 0 || left_out > 0)
        note(r->result, "draws no liquid: no A_w known: %s",
             used > 0 ? names : "layers of long names");
}

void bw_run_tell(bw_run *r, const bw_climate *climate, const bw_outdoors *o)
{
    tell_climate(r, climate);
    tell_defaults(r, o);
    tell_coat(r);
    tell_liquid(r);
    tell_redistribution(r);
    tell_materials(r);
    tell_start(r);
}
