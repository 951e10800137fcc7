/* wetting.csv: one row a way of the wetting test of a simulated section.
 * damage.csv: one row a watched place, then one a slab of wood; the fields of
 * the other kind stay empty. */

#include <math.h>

#include "csv_parts.h"
#include "names.h"

enum { DIGITS = 9 };

static void text_field(bw_page *page, const char *text)
{
    bw_write_text(&page->out, ",");
    bw_write_field(&page->out, text);
}

static void number_field(bw_page *page, bool known, double value)
{
    bw_write_text(&page->out, ",");
    bw_write_number(&page->out, known ? value : (double)NAN, DIGITS);
}

static void start_row(bw_page *page, const bw_assessment *assessment,
                      const bw_section_assessment *part)
{
    bw_write_field(&page->out, assessment->assembly->id);
    text_field(page, part->section->name);
}

static void end_row(bw_page *page)
{
    bw_write_text(&page->out, "\n");
}

static void place_field(bw_page *page, const bw_assessment *assessment,
                        const bw_section_assessment *part, bw_plane_at at)
{
    bw_write_text(&page->out, ",");
    bw_plane_id(&page->out, assessment->assembly, part->transient_section, at);
}

/* ---- wetting.csv -------------------------------------------------------- */

static void wetting_row(bw_page *page, const bw_assessment *assessment,
                        const bw_section_assessment *part, const char *name,
                        const bw_wetting_result *way)
{
    const bw_section_wetting *test = &part->wetting_test;
    start_row(page, assessment, part);
    text_field(page, name);
    place_field(page, assessment, part, test->place);
    number_field(page, true, test->water);
    number_field(page, true, test->month + 1.0);
    number_field(page, way->months >= 0.0, way->months);
    number_field(page, way->place_months >= 0.0, way->place_months);
    number_field(page, true, way->left);
    number_field(page, true, way->highest_mould);
    number_field(page, true, way->highest_mould_dry);
    number_field(page, true, bw_wetting_months_followed(way));
    end_row(page);
}

void bw_csv_wetting_rows(bw_page *page, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        const bw_section_wetting *test = &part->wetting_test;
        if (!part->has_transient || !test->ran)
            continue;
        wetting_row(page, assessment, part, "both", &test->both);
        if (!test->one_way)
            continue;
        wetting_row(page, assessment, part, "outwards", &test->outwards);
        wetting_row(page, assessment, part, "inwards", &test->inwards);
    }
}

/* ---- damage.csv --------------------------------------------------------- */

enum { PLACE_FIELDS = 9, WOOD_FIELDS = 10 };

static void empty_fields(bw_page *page, size_t count)
{
    bw_write_repeat(&page->out, ',', count);
}

static void standing_fields(bw_page *page, const bw_monitor *monitor)
{
    const bool first = monitor->first_free.largest > monitor->last_free.largest;
    const bw_free_water *most = first ? &monitor->first_free
                                      : &monitor->last_free;
    number_field(page, true, most->largest);
    number_field(page, most->month >= 0, most->month + 1.0);
    number_field(page, true, monitor->last_free.hours);
}

static void place_row(bw_page *page, const bw_assessment *assessment,
                      const bw_section_assessment *part, size_t index)
{
    const bw_monitor *monitor = &part->transient.monitor[index];
    const bw_slab *slab = &part->transient_section->slab[monitor->slab];
    const bw_plane_at outer = {0, 0.0, false};
    const bw_plane_at face = {monitor->slab, slab->thickness, true};
    const bw_plane_at at = monitor->outer_face ? outer : face;
    const bool judged = part->mould != NULL;
    start_row(page, assessment, part);
    place_field(page, assessment, part, at);
    text_field(page, "");
    text_field(page, bw_mould_class_text(monitor->mould_class));
    number_field(page, judged, judged ? part->mould[index].highest : 0.0);
    number_field(page, judged, judged ? part->mould[index].highest_slow : 0.0);
    number_field(page, true, monitor->hours_above_80);
    number_field(page, true, monitor->hours_above_90);
    number_field(page, true, monitor->hours_above_95);
    standing_fields(page, monitor);
    empty_fields(page, WOOD_FIELDS);
    end_row(page);
}

static void damage_fields(bw_page *page, const bw_wood_damage *wood)
{
    number_field(page, true, (double)wood->first_line.days_above);
    number_field(page, true, (double)wood->line.days_above);
    number_field(page, true, wood->first_dose);
    number_field(page, true, wood->dose);
    number_field(page, true, wood->service_dose);
}

/* Weeks to the limit: empty where the wood was not below it in the end. */
static void wood_row(bw_page *page, const bw_assessment *assessment,
                     const bw_section_assessment *part, size_t k)
{
    const bw_slab_moisture *slab = &part->transient.slab[k];
    const size_t layer = part->transient_section->slab[k].layer;
    start_row(page, assessment, part);
    text_field(page, "");
    text_field(page, assessment->assembly->layer[layer].id);
    empty_fields(page, PLACE_FIELDS);
    number_field(page, true, 100.0 * slab->first_highest_wood_moisture);
    number_field(page, true, 100.0 * slab->highest_wood_moisture);
    number_field(page, true, 100.0 * slab->limit);
    number_field(page, true, slab->hours_above_limit);
    number_field(page, slab->weeks_to_limit >= 0.0, slab->weeks_to_limit);
    if (part->wood != NULL)
        damage_fields(page, &part->wood[k]);
    else
        empty_fields(page, WOOD_FIELDS / 2);
    end_row(page);
}

void bw_csv_damage_rows(bw_page *page, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        if (!part->has_transient)
            continue;
        for (size_t k = 0; k < part->transient.monitor_count; k++)
            place_row(page, assessment, part, k);
        for (size_t k = 0; k < part->transient.slab_count; k++)
            if (part->transient.slab[k].is_wood)
                wood_row(page, assessment, part, k);
    }
}
