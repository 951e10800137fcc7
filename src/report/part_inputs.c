/* What the sheet rests on: identity, method, every value with its evidence,
 * climate, moisture assumed. */

#include "beyond.h"
#include "bothways/audit.h"
#include "grid.h"
#include "names.h"
#include "part.h"
#include "properties.h"
#include "variant.h"

/* ---- identity ----------------------------------------------------------- */

static const char *facing(bw_page *page, const bw_assembly *assembly)
{
    const bw_outdoors *out = &assembly->outdoors;
    if (assembly->beyond.kind != NULL)
        return bw_beyond_against(assembly);
    if (!out->has_facing)
        return "not given";
    return bw_phrase(page,
                     "%.0f degrees from north, clockwise; tilt %.0f degrees",
                     out->azimuth, out->tilt);
}

static const char *or_else(const char *text, const char *instead)
{
    return text[0] != '\0' ? text : instead;
}

BW_PART(identity, "Identity")
{
    const bw_audit *audit = of->audit;
    const bw_assembly *assembly = audit->assessment->assembly;
    bw_pair(page, "Assembly", "%s (%s), a %s, in %s",
            or_else(assembly->title, "without title"), assembly->id,
            bw_element_text(assembly->element), assembly->file);
    bw_pair(page, "Facing", "%s", facing(page, assembly));
    bw_pair(page, "Address", "%s", BW_BLANK);
    bw_pair(page, "Author", "%s", BW_BLANK);
    bw_put_made(page, audit->date, audit->command_line, audit->profile);
}

/* ---- method ------------------------------------------------------------- */

BW_PART(methods, "Methods and editions")
{
    const bw_audit *audit = of->audit;
    const bw_assessment *a = audit->assessment;
    bw_item(page, "monthly: ISO 13788:2012, steady diffusion in monthly means, "
                  "delta_0 = 2.0e-10 kg/(m.s.Pa)");
    bw_item(page, "period balance: DIN 4108-3:2018, annex A");
    bw_item(page, "thermal: ISO 6946, combined method; surface: ISO 13788, "
                  "temperature factor");
    bw_item(page, "%s",
            bw_is_simulated(a)
                ? "hour by hour, which decides: the equations of EN "
                  "15026:2007, run for this wall; the monthly and period "
                  "methods are a cross-check"
                : "hour by hour (EN 15026:2007): not run for this wall");
    bw_text(page, "%s",
            a->scope_count == 0
                ? "This wall is inside the limits of the monthly method."
                : "This wall is OUTSIDE the limits of the monthly "
                  "method, for the reasons in the next part: its monthly "
                  "and period results are a screening.");
    for (size_t i = 0; i < audit->profile->rule_count; i++) {
        const bw_profile_rule *rule = &audit->profile->rule[i];
        if (!rule->decides)
            bw_item(page,
                    "of the rule set, not counted for the verdict: %s (%s %s)",
                    rule->text, rule->source, rule->mark);
    }
}

/* ---- values ------------------------------------------------------------- */

static void add_row(bw_grid *g, const char *layer, const char *name,
                    const char *is, const char *unit, const char *evidence,
                    const char *basis, const char *source)
{
    bw_grid_row_start(g);
    bw_words(g, "Layer", layer);
    bw_name(g, "Value", name);
    bw_number(g, "is", "%s", is);
    bw_name(g, "Unit", unit);
    bw_name(g, "Evidence", evidence);
    bw_name(g, "Basis", basis);
    bw_words(g, "Source", source);
}

static const char *cited(bw_page *page, const char *source)
{
    return source[0] != '\0' ? bw_page_cite(page, source) : "none given";
}

static void add_value(bw_page *page, bw_grid *g, const char *name,
                      const bw_property *property, const char *unit)
{
    if (property->known)
        add_row(g, "", name, bw_significant(page, property->value, 4), unit,
                bw_evidence_text(property->evidence),
                bw_basis_text(property->basis), cited(page, property->source));
}

static void add_curve(bw_page *page, bw_grid *g, const char *name,
                      const bw_curve *curve)
{
    if (curve->count > 0)
        add_row(g, "", name, bw_phrase(page, "%zu points", curve->count), "",
                "-", bw_basis_text(curve->basis),
                bw_page_cite(page, curve->source));
}

/* The layer's name stands on its first row only. */
static void add_material(bw_page *page, bw_grid *g, const bw_material *m)
{
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        const bw_property_row *row = &bw_property_rows[i];
        add_value(
            page, g, row->attribute != NULL ? row->attribute : row->element,
            bw_property_in(m, (bw_property_id)i), or_else(row->unit, "-"));
    }
    add_curve(page, g, "sd by RH", &m->sd_curve);
    add_curve(page, g, "mu by RH", &m->mu_curve);
    add_curve(page, g, "sorption", &m->sorption);
}

/* Another material in a part of the layer's area. */
static void add_other(bw_page *page, bw_grid *g, const bw_material *material,
                      const char *what, double share)
{
    add_row(g, bw_short_name(page, material->name), what,
            bw_significant(page, 100.0 * share, 3), "% of area", "", "", "");
    add_material(page, g, material);
}

static void add_layer(bw_page *page, bw_grid *g, const bw_layer *layer)
{
    const bool thick = layer->thickness > 0.0;
    add_row(g, bw_short_name(page, layer->name), "the layer itself",
            bw_significant(page, bw_if(thick, layer->thickness * 1e3), 4),
            thick ? "mm" : "", bw_evidence_text(layer->evidence), "",
            cited(page, layer->source));
    add_value(page, g, "resistance", &layer->resistance, "m2.K/W");
    if (layer->kind != BW_LAYER_CAVITY)
        add_material(page, g, layer->material);
    if (layer->blocked_with != NULL)
        add_other(page, g, layer->blocked_with, "blocks the cavity",
                  layer->blocked);
    if (layer->framing.present)
        add_other(page, g, layer->framing.material, "framing",
                  layer->framing.fraction);
}

static void say_unsure(bw_page *page, const bw_layer *layer)
{
    for (size_t i = 0; i < layer->uncertain_count; i++) {
        const bw_uncertain *range = &layer->uncertain[i];
        bw_varied which = bw_varied_of(range->property);
        const char *unit = which < BW_VARIED_COUNT ? bw_varied_unit(which)
                                                   : "-";
        bw_item(page, "%s: %s is unsure, from %.4g to %s", layer->name,
                range->property, range->low,
                bw_with_unit(page, range->high, 4, unit));
    }
    for (size_t i = 0; i < layer->alternative_count; i++)
        bw_item(page, "%s: it may really be %s", layer->name,
                layer->alternative[i].material->name);
}

BW_PART(values, "Every value with its evidence")
{
    const bw_assembly *assembly = of->wall[0]->assembly;
    bw_grid grid = {.page = page};
    bw_text(page,
            "Evidence: how well a value is known to be that of this wall (%s). "
            "Basis: how the figure was come by. \"given\": by the file. mu wet "
            "and the values below it count in the simulation or above 70 %% "
            "RH.",
            bw_evidence_meaning());
    for (size_t i = 0; i < assembly->layer_count; i++)
        add_layer(page, &grid, &assembly->layer[i]);
    bw_grid_print(&grid);
    for (size_t i = 0; i < assembly->layer_count; i++)
        say_unsure(page, &assembly->layer[i]);
}

/* ---- climate ------------------------------------------------------------ */

static double humidity(double theta, double pressure)
{
    return 100.0 * bw_relative_humidity(theta, pressure);
}

static void put_boundary(bw_page *page, const bw_section_assessment *part)
{
    bw_grid g = {.page = page};
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_boundary *b = &part->boundary[m];
        bw_grid_row_start(&g);
        bw_name(&g, "Month", bw_month_name(m));
        bw_number(&g, "outdoor degC", "%.1f", b->theta_e);
        bw_number(&g, "outdoor Pa", "%.0f", b->p_e);
        bw_number(&g, "outdoor RH %", "%.0f", humidity(b->theta_e, b->p_e));
        bw_number(&g, "indoor degC", "%.1f", b->theta_i);
        bw_number(&g, "indoor Pa", "%.0f", b->p_i);
        bw_number(&g, "indoor RH %", "%.0f", humidity(b->theta_i, b->p_i));
        bw_number(&g, "sol-air degC", "%.1f",
                  bw_if(part->has_sun, part->sun_boundary[m].theta_e));
    }
    bw_grid_print(&g);
}

static const char *kind_words(bw_page *page, const bw_climate *climate)
{
    static const char *const hours[] = {
        [BW_YEAR_NOT_STATED] =
            "hours of a year, measured or typical is not stated",
        [BW_YEAR_MEASURED] = "hours of a measured year",
        [BW_YEAR_TYPICAL] = "hours of a typical year, not a severe one",
    };
    switch (climate->kind) {
    case BW_CLIMATE_MONTHLY:
        return "monthly means";
    case BW_CLIMATE_HOURLY:
        return bw_phrase(page,
                         "%s; monthly means of temperature and of vapour "
                         "pressure made from them",
                         hours[climate->year_kind]);
    case BW_CLIMATE_SYNTHETIC:
        break;
    }
    return "hours generated from monthly means: nobody measured them";
}

BW_PART(climate, "Boundary climate")
{
    const bw_assessment *a = of->wall[0];
    const bw_climate *c = a->climate;
    bw_pair(page, "Place", "%s", or_else(c->place, "not stated"));
    bw_pair(page, "File", "%s", c->file);
    bw_pair(page, "Source and years", "%s", or_else(c->source, "not stated"));
    bw_pair(page, "Kind", "%s", kind_words(page, c));
    bw_pair(page, "Altitude", "%s",
            c->has_altitude ? bw_phrase(page, "%.0f m", c->altitude)
                            : "not stated");
    bw_pair(page, "Humidity below 0 degC", "%s",
            c->humidity_reference == BW_OVER_ICE ? "over ice"
                                                 : "over liquid water");
    if (a->section_count == 0)
        return;
    bw_subheading(page, "Months of the calculation");
    put_boundary(page, &a->section[0]);
    bw_text(page,
            "Relative humidity is against saturation over ice below 0 degC. "
            "Sol-air: of the inward run, while the sun is on the face.");
}

/* ---- moisture ----------------------------------------------------------- */

static void say_start_of(bw_page *page, const char *name, double moisture,
                         bool is_rh)
{
    bw_pair(page, "Moisture at the start", "%s: %.3g %% %s", name,
            100.0 * moisture, is_rh ? "RH" : "by mass");
}

static void say_start(bw_page *page, const bw_assembly *assembly)
{
    bool any = false;
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        const bw_framing *framing = &layer->framing;
        if (layer->has_initial_moisture)
            say_start_of(page, layer->name, layer->initial_moisture,
                         layer->initial_is_rh);
        if (framing->has_initial_moisture)
            say_start_of(page, framing->material->name,
                         framing->initial_moisture, framing->initial_is_rh);
        any = any || layer->has_initial_moisture ||
              framing->has_initial_moisture;
    }
    if (!any)
        bw_pair(page, "Moisture at the start",
                "not given: the monthly method starts dry, a simulation at its "
                "stated start");
}

BW_PART(moisture, "Moisture sources assumed")
{
    const bw_assessment *a = of->wall[0];
    const bw_assembly *assembly = a->assembly;
    const bw_air_leakage *air = &assembly->air_leakage;
    bw_pair(
        page, "Air leakage", "%s",
        air->given
            ? bw_phrase(page,
                        "q50 = %.3g m3/(m2.h), %.3g m of connected height, %s",
                        air->q50 * 3600.0, air->connected_height,
                        air->tested ? "measured" : "not shown by a test")
            : "none counted");
    bw_pair(page, "Driving rain", "%s: %s",
            bw_exposure_text(assembly->outdoors.driving_rain),
            bw_exposure_meaning(assembly->outdoors.driving_rain));
    if (assembly->indoors.kind == BW_INDOOR_CLASS)
        bw_pair(page, "Humidity class", "%d: %s",
                assembly->indoors.humidity_class,
                bw_humidity_class_meaning(assembly->indoors.humidity_class));
    bw_pair(page, "Rain leak", "%s",
            assembly->rain_leak.given
                ? bw_phrase(page, "%.3g %% of the rain on the wall",
                            100.0 * assembly->rain_leak.fraction)
                : "none counted");
    say_start(page, assembly);
    for (size_t i = 0; i < a->section_count; i++)
        if (a->section[i].run[BW_RUN_DESIGN].ran)
            bw_pair(page, "Starting month", "%s (%s)",
                    bw_month_name(
                        a->section[i].run[BW_RUN_DESIGN].result.start_month),
                    a->section[i].section->name);
    bw_pair(page, "Drying test puts in", "%.3g kg/m2",
            assembly->drying_test.wetting);
}
