/* Stages that read files. */

#include <stdio.h>
#include <string.h>

#include "stage.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

/* Text that shows what was understood, so that a wrong reading is another
 * result: enough of it to differ, not all. */
static void show(const char *text)
{
    stage_take(NULL, text, strlen(text) + 1);
}

static void show_notes(const bw_note *note, size_t count)
{
    for (size_t i = 0; i < count; i++)
        show(note[i].message);
}

static void show_property(const bw_property *property)
{
    stage_take(NULL, (const char *)&property->value, sizeof property->value);
    show(property->source);
    show(property->note);
}

static void show_material(const bw_material *m)
{
    show(m->id);
    show(m->name);
    show(m->remark);
    show(m->flags_source);
    show_property(&m->density);
    show_property(&m->thermal_conductivity);
    show_property(&m->mu_dry);
    show_property(&m->sd);
    show_property(&m->free_saturation);
    stage_take(NULL, (const char *)m->sorption.y,
               m->sorption.count * sizeof(double));
}

static bw_status read_library(const char *const *folder, size_t count,
                              bw_error *err)
{
    bw_library *library = NULL;
    bw_status status = bw_library_read(&library, folder, count, err);
    if (status != BW_OK)
        return status;
    for (size_t i = 0; i < bw_library_count(library); i++)
        show_material(bw_library_at(library, i));
    size_t notes = 0;
    const bw_note *note = bw_library_notes(library, &notes);
    show_notes(note, notes);
    bw_library_free(library);
    return BW_OK;
}

static bw_status shipped_library(const held *h, bw_error *err)
{
    char path[PATH_ROOM];
    const char *folder = held_path(path, h, "materials");
    return read_library(&folder, 1, err);
}

/* Four small files, each read twice: the second overrides. */
static bw_status library_overridden(const held *h, bw_error *err)
{
    char path[PATH_ROOM];
    const char *folder = held_path(path, h, "tests/data/library");
    return read_library((const char *const[]){folder, folder}, 2, err);
}

static bw_status rule_sets(const held *h, bw_error *err)
{
    char path[PATH_ROOM];
    bw_profiles *all = NULL;
    bw_status status = bw_profiles_read(
        &all, held_path(path, h, "assemblies/profiles"), err);
    if (status != BW_OK)
        return status;
    for (size_t i = 0; i < bw_profiles_count(all); i++) {
        const bw_profile *p = bw_profiles_at(all, i);
        show(p->name);
        show(p->title);
        for (size_t k = 0; k < p->rule_count; k++) {
            show(p->rule[k].criterion);
            show(p->rule[k].text);
            show(p->rule[k].source);
            show(p->rule[k].edition);
        }
    }
    bw_profiles_free(all);
    return BW_OK;
}

static bw_status assemblies(const held *h, bw_error *err)
{
    for (size_t i = 0; i < WALLS; i++) {
        bw_assembly *a = NULL;
        bw_status status = bw_assembly_read(&a, h->wall[i]->file, h->library,
                                            err);
        if (status != BW_OK)
            return status;
        show(a->id);
        show(a->title);
        show(a->remark);
        show(a->outdoors.climate_path);
        for (size_t k = 0; k < a->layer_count; k++) {
            show(a->layer[k].id);
            show(a->layer[k].name);
            show_material(a->layer[k].material);
        }
        for (size_t k = 0; k < a->closing_up.reading_count; k++)
            show(a->closing_up.reading[k].place);
        show_notes(a->note, a->note_count);
        bw_assembly_free(a);
    }
    return BW_OK;
}

static bw_status read_climate(const char *path, bw_error *err)
{
    bw_climate *climate = NULL;
    bw_status status = bw_climate_read(&climate, path, err);
    if (status != BW_OK)
        return status;
    show(climate->place);
    show(climate->source);
    show(climate->remark);
    stage_take(NULL, (const char *)climate->month, sizeof climate->month);
    show_notes(climate->note, climate->note_count);
    bw_climate_free(climate);
    return BW_OK;
}

static bw_status climate_monthly(const held *h, bw_error *err)
{
    return read_climate(h->climate->file, err);
}

static bw_status climate_hourly(const held *h, bw_error *err)
{
    (void)h;
    return read_climate(HELD_HOURS, err);
}

static bw_status climate_public(const held *h, bw_error *err)
{
    (void)h;
    return read_climate(HELD_PUBLIC, err);
}

/* Hours, a typical year and months, joined, written and told. */
static bw_status records(const held *h, bw_error *err)
{
    const char *const path[] = {HELD_HOURS, HELD_PUBLIC, h->climate->file};
    bw_record *part[COUNT(path)] = {NULL}, *joined = NULL;
    bw_status status = BW_OK;
    for (size_t i = 0; i < COUNT(path) && status == BW_OK; i++)
        status = bw_record_read(&part[i], path[i], NULL, err);
    if (status == BW_OK)
        status = bw_record_join(&joined, (const bw_record *const *)part,
                                COUNT(path), err);
    if (status == BW_OK)
        status = bw_record_write(joined, stage_take, NULL, err);
    if (status == BW_OK)
        status = bw_record_describe(part[1], stage_take, NULL, err);
    for (size_t i = 0; i < COUNT(path); i++)
        bw_record_free(part[i]);
    bw_record_free(joined);
    return status;
}

static bw_status show_skeleton(const bw_gbxml *file, const char *construction,
                               bw_error *err)
{
    const bw_skeleton_options options = {.construction = construction,
                                         .permeance_unit = "ng/(Pa.s.m2)"};
    bw_skeleton *skeleton = NULL;
    bw_status status = bw_gbxml_skeleton(&skeleton, file, &options, err);
    if (status != BW_OK)
        return status;
    show(skeleton->xml);
    for (size_t i = 0; i < skeleton->missing_count; i++)
        show(skeleton->missing[i]);
    for (size_t i = 0; i < skeleton->note_count; i++)
        show(skeleton->note[i]);
    bw_skeleton_free(skeleton);
    return BW_OK;
}

static bw_status gbxml(const held *h, bw_error *err)
{
    char path[PATH_ROOM];
    bw_gbxml *file = NULL;
    bw_status status = bw_gbxml_read(
        &file, held_path(path, h, "tests/data/gbxml-sample.xml"), err);
    if (status != BW_OK)
        return status;
    for (size_t i = 0; i < file->construction_count && status == BW_OK; i++)
        if (file->construction[i].layer_count > 0)
            status = show_skeleton(file, file->construction[i].id, err);
    bw_gbxml_free(file);
    return status;
}

const stage input_stages[] = {
    {"library", 600, shipped_library},
    {"library-overridden", 800, library_overridden},
    {"rule-sets", 500, rule_sets},
    {"assemblies", 1000, assemblies},
    {"climate-monthly", 0, climate_monthly},
    {"climate-hourly", 40, climate_hourly},
    {"climate-public", 40, climate_public},
    {"records", 200, records},
    {"gbxml", 1000, gbxml},
};
const size_t input_stage_count = COUNT(input_stages);
