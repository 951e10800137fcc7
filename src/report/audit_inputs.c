/* What the sheet rests on: identity, method, every value with its evidence,
 * climate, moisture assumed. */

#include <string.h>

#include "audit_parts.h"
#include "bothways/bothways.h"
#include "grid.h"
#include "names.h"
#include "parts.h"
#include "properties.h"
#include "variant.h"

#define BLANK "________________________________"
#define COUNT(a) (sizeof(a) / sizeof(a)[0])

/* ---- identity ----------------------------------------------------------- */

static const char *facing(bw_page *page, const bw_assembly *assembly)
{
    const bw_outdoors *out = &assembly->outdoors;
    if (!out->has_facing)
        return "not given";
    return bw_phrase(page, "%s degrees from north, clockwise; tilt %s degrees",
                     bw_fixed(page, out->azimuth, 0),
                     bw_fixed(page, out->tilt, 0));
}

void bw_print_audit_identity(bw_page *page, const bw_audit *audit)
{
    const bw_assembly *assembly = audit->assessment->assembly;
    bw_page_heading(page, "Identity");
    bw_page_pair(page, "Assembly",
                 bw_phrase(page, "%s (%s), a %s, in %s",
                           assembly->title[0] != '\0' ? assembly->title
                                                      : "without title",
                           assembly->id, bw_element_text(assembly->element),
                           assembly->file));
    bw_page_pair(page, "Facing", facing(page, assembly));
    bw_page_pair(page, "Address", BLANK);
    bw_page_pair(page, "Author", BLANK);
    bw_page_pair(page, "Date of this sheet",
                 audit->date[0] != '\0' ? audit->date : BLANK);
    bw_page_pair(page, "Program", bw_phrase(page, "bothways %s", bw_version()));
    bw_page_pair(page, "Command line",
                 audit->command_line[0] != '\0' ? audit->command_line
                                                : "none, made by a program");
    bw_page_pair(
        page, "Rule set",
        bw_phrase(page, "%s: %s", audit->profile->name, audit->profile->title));
    bw_page_subheading(page, "SHA-256 of every input file");
    for (size_t i = 0; i < audit->file_count; i++)
        bw_page_item(page, bw_phrase(page, "%s %s", audit->file[i].sha256,
                                     audit->file[i].path));
}

/* ---- method ------------------------------------------------------------- */

void bw_print_audit_method(bw_page *page, const bw_audit *audit)
{
    const bw_assessment *a = audit->assessment;
    bw_page_heading(page, "Methods and editions");
    bw_page_item(page, "monthly: ISO 13788:2012, steady diffusion in monthly "
                       "means, delta_0 = 2.0e-10 kg/(m.s.Pa)");
    bw_page_item(page, "period balance: DIN 4108-3:2018, annex A");
    bw_page_item(page, "thermal: ISO 6946, combined method; surface: ISO "
                       "13788, temperature factor");
    bw_page_item(page, bw_is_simulated(a)
                           ? "hour by hour, which decides: the equations of EN "
                             "15026:2007, run for this wall; the monthly and "
                             "period methods are a cross-check"
                           : "hour by hour (EN 15026:2007): not run for this "
                             "wall");
    bw_page_text(page, 2, 2,
                 a->scope_count == 0
                     ? "This wall is inside the limits of the monthly method."
                     : "This wall is OUTSIDE the limits of the monthly "
                       "method, for the reasons in the next part: its monthly "
                       "and period results are a screening.");
    for (size_t i = 0; i < audit->profile->rule_count; i++) {
        const bw_profile_rule *rule = &audit->profile->rule[i];
        if (!rule->decides)
            bw_page_item(page, bw_phrase(page,
                                         "of the rule set, not counted for the "
                                         "verdict: %s (%s %s)",
                                         rule->text, rule->source, rule->mark));
    }
}

/* ---- values ------------------------------------------------------------- */

static const bw_grid_column value_columns[] = {
    {.title = "Layer", .wraps = true},
    {.title = "Value"},
    {.title = "is", .right = true},
    {.title = "Unit"},
    {.title = "Evidence"},
    {.title = "Basis"},
    {.title = "Source", .wraps = true},
};

static void add_value(bw_page *page, bw_grid *grid, const char *layer,
                      const char *name, const bw_property *property,
                      const char *unit)
{
    if (!property->known)
        return;
    const char **cell = bw_grid_add(grid);
    cell[0] = layer;
    cell[1] = name;
    cell[2] = bw_significant(page, property->value, 4);
    cell[3] = unit;
    cell[4] = bw_evidence_text(property->evidence);
    cell[5] = bw_basis_text(property->basis);
    cell[6] = property->source[0] != '\0' ? bw_page_cite(page, property->source)
                                          : "none given";
}

static void add_curve(bw_page *page, bw_grid *grid, const char *layer,
                      const char *name, const bw_curve *curve)
{
    if (curve->count == 0)
        return;
    const char **cell = bw_grid_add(grid);
    cell[0] = layer;
    cell[1] = name;
    cell[2] = bw_phrase(page, "%zu points", curve->count);
    cell[4] = "-";
    cell[5] = bw_basis_text(curve->basis);
    cell[6] = bw_page_cite(page, curve->source);
}

/* The layer's name stands on its first row only. */
static void add_material(bw_page *page, bw_grid *grid, const bw_material *m)
{
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        const bw_property_row *row = &bw_property_rows[i];
        add_value(page, grid, "",
                  row->attribute != NULL ? row->attribute : row->element,
                  bw_property_in(m, (bw_property_id)i),
                  row->unit[0] != '\0' ? row->unit : "-");
    }
    add_curve(page, grid, "", "sd by RH", &m->sd_curve);
    add_curve(page, grid, "", "mu by RH", &m->mu_curve);
    add_curve(page, grid, "", "sorption", &m->sorption);
}

/* Another material in a part of the layer's area. */
static void add_other(bw_page *page, bw_grid *grid, const bw_material *material,
                      const char *what, double share)
{
    const char **cell = bw_grid_add(grid);
    cell[0] = bw_short_name(page, material->name);
    cell[1] = what;
    cell[2] = bw_significant(page, 100.0 * share, 3);
    cell[3] = "% of area";
    add_material(page, grid, material);
}

static void add_layer(bw_page *page, bw_grid *grid, const bw_layer *layer)
{
    const char *name = bw_short_name(page, layer->name);
    const char **cell = bw_grid_add(grid);
    cell[0] = name;
    cell[1] = "the layer itself";
    cell[2] = layer->thickness > 0.0
                  ? bw_significant(page, layer->thickness * 1e3, 4)
                  : "-";
    cell[3] = layer->thickness > 0.0 ? "mm" : "";
    cell[4] = bw_evidence_text(layer->evidence);
    cell[6] = layer->source[0] != '\0' ? bw_page_cite(page, layer->source)
                                       : "none given";
    add_value(page, grid, "", "resistance", &layer->resistance, "m2.K/W");
    if (layer->kind != BW_LAYER_CAVITY)
        add_material(page, grid, layer->material);
    if (layer->blocked_with != NULL)
        add_other(page, grid, layer->blocked_with, "blocks the cavity",
                  layer->blocked);
    if (!layer->framing.present)
        return;
    add_other(page, grid, layer->framing.material, "framing",
              layer->framing.fraction);
}

static void print_unsure(bw_page *page, const bw_layer *layer)
{
    for (size_t i = 0; i < layer->uncertain_count; i++) {
        const bw_uncertain *range = &layer->uncertain[i];
        bw_varied which = bw_varied_of(range->property);
        const char *unit = which < BW_VARIED_COUNT ? bw_varied_unit(which)
                                                   : "-";
        bool bare = strcmp(unit, "-") == 0;
        bw_page_item(page,
                     bw_phrase(page, "%s: %s is unsure, from %s to %s%s%s",
                               layer->name, range->property,
                               bw_significant(page, range->low, 4),
                               bw_significant(page, range->high, 4),
                               bare ? "" : " ", bare ? "" : unit));
    }
    for (size_t i = 0; i < layer->alternative_count; i++)
        bw_page_item(page,
                     bw_phrase(page, "%s: it may really be %s", layer->name,
                               layer->alternative[i].material->name));
}

void bw_print_audit_values(bw_page *page, const bw_audit *audit)
{
    const bw_assembly *assembly = audit->assessment->assembly;
    bw_page_heading(page, "Every value with its evidence");
    bw_page_text(page, 2, 2,
                 "Evidence: how well a value is known to be that of this wall. "
                 "Basis: how the figure was come by. \"given\": by the file. "
                 "mu wet and the values below it count in the simulation or "
                 "above 70 % RH.");
    bw_grid grid;
    bw_grid_start(&grid, page, value_columns, COUNT(value_columns));
    for (size_t i = 0; i < assembly->layer_count; i++)
        add_layer(page, &grid, &assembly->layer[i]);
    bw_grid_print(&grid);
    for (size_t i = 0; i < assembly->layer_count; i++)
        print_unsure(page, &assembly->layer[i]);
}

/* ---- climate ------------------------------------------------------------ */

static const bw_grid_column climate_columns[] = {
    {.title = "Month"},
    {.title = "outdoor degC", .right = true},
    {.title = "outdoor Pa", .right = true},
    {.title = "outdoor RH %", .right = true},
    {.title = "indoor degC", .right = true},
    {.title = "indoor Pa", .right = true},
    {.title = "indoor RH %", .right = true},
    {.title = "sol-air degC", .right = true},
};

static void print_boundary(bw_page *page, const bw_section_assessment *part)
{
    bw_grid grid;
    bw_grid_start(&grid, page, climate_columns, COUNT(climate_columns));
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_boundary *b = &part->boundary[m];
        const char **cell = bw_grid_add(&grid);
        cell[0] = bw_month_name(m);
        cell[1] = bw_fixed(page, b->theta_e, 1);
        cell[2] = bw_fixed(page, b->p_e, 0);
        cell[3] = bw_fixed(page,
                           100.0 * bw_relative_humidity(b->theta_e, b->p_e), 0);
        cell[4] = bw_fixed(page, b->theta_i, 1);
        cell[5] = bw_fixed(page, b->p_i, 0);
        cell[6] = bw_fixed(page,
                           100.0 * bw_relative_humidity(b->theta_i, b->p_i), 0);
        cell[7] = part->has_sun
                      ? bw_fixed(page, part->sun_boundary[m].theta_e, 1)
                      : "-";
    }
    bw_grid_print(&grid);
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

void bw_print_audit_climate(bw_page *page, const bw_audit *audit)
{
    const bw_assessment *a = audit->assessment;
    const bw_climate *c = a->climate;
    bw_page_heading(page, "Boundary climate");
    bw_page_pair(page, "Place", c->place[0] != '\0' ? c->place : "not stated");
    bw_page_pair(page, "File", c->file);
    bw_page_pair(page, "Source and years",
                 c->source[0] != '\0' ? c->source : "not stated");
    bw_page_pair(page, "Kind", kind_words(page, c));
    bw_page_pair(page, "Altitude",
                 c->has_altitude
                     ? bw_phrase(page, "%s m", bw_fixed(page, c->altitude, 0))
                     : "not stated");
    bw_page_pair(page, "Humidity below 0 degC",
                 c->humidity_reference == BW_OVER_ICE ? "over ice"
                                                      : "over liquid water");
    if (a->section_count == 0)
        return;
    bw_page_subheading(page, "Months of the calculation");
    print_boundary(page, &a->section[0]);
    bw_page_text(page, 2, 2,
                 "Relative humidity is against saturation over ice below 0 "
                 "degC. Sol-air: of the inward run, while the sun is on the "
                 "face.");
}

/* ---- moisture ----------------------------------------------------------- */

static void print_start_of(bw_page *page, const char *name, double moisture,
                           bool is_rh)
{
    bw_page_pair(page, "Moisture at the start",
                 bw_phrase(page, "%s: %s %% %s", name,
                           bw_significant(page, 100.0 * moisture, 3),
                           is_rh ? "RH" : "by mass"));
}

static void print_start(bw_page *page, const bw_assembly *assembly)
{
    bool any = false;
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        const bw_framing *framing = &layer->framing;
        if (layer->has_initial_moisture)
            print_start_of(page, layer->name, layer->initial_moisture,
                           layer->initial_is_rh);
        if (framing->has_initial_moisture)
            print_start_of(page, framing->material->name,
                           framing->initial_moisture, framing->initial_is_rh);
        any = any || layer->has_initial_moisture ||
              framing->has_initial_moisture;
    }
    if (!any)
        bw_page_pair(page, "Moisture at the start",
                     "not given: the monthly method starts dry, a simulation "
                     "at its stated start");
}

void bw_print_audit_moisture(bw_page *page, const bw_audit *audit)
{
    const bw_assessment *a = audit->assessment;
    const bw_assembly *assembly = a->assembly;
    const bw_air_leakage *air = &assembly->air_leakage;
    const bw_drying_test *test = &assembly->drying_test;
    bw_page_heading(page, "Moisture sources assumed");
    bw_page_pair(
        page, "Air leakage",
        air->given
            ? bw_phrase(page,
                        "q50 = %s m3/(m2.h), %s m of connected height, %s",
                        bw_significant(page, air->q50 * 3600.0, 3),
                        bw_significant(page, air->connected_height, 3),
                        air->tested ? "measured" : "not shown by a test")
            : "none counted");
    bw_page_pair(page, "Driving rain",
                 bw_exposure_text(assembly->outdoors.driving_rain));
    bw_page_pair(
        page, "Rain leak",
        assembly->rain_leak.given
            ? bw_phrase(
                  page, "%s %% of the rain on the wall",
                  bw_significant(page, 100.0 * assembly->rain_leak.fraction, 3))
            : "none counted");
    print_start(page, assembly);
    for (size_t i = 0; i < a->section_count; i++)
        if (a->section[i].has_design)
            bw_page_pair(
                page, "Starting month",
                bw_phrase(page, "%s (%s)",
                          bw_month_name(a->section[i].design.start_month),
                          a->section[i].section->name));
    bw_page_pair(
        page, "Drying test puts in",
        bw_phrase(page, "%s kg/m2", bw_significant(page, test->wetting, 3)));
}
