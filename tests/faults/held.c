/* What the stages borrow. */

#include <stdio.h>
#include <string.h>

#include "stage.h"

const char *held_path(char path[PATH_ROOM], const held *h, const char *name)
{
    snprintf(path, PATH_ROOM, "%s/%s", h->source, name);
    return path;
}

/* The first is judged in every method; the next two share its room. */
static const char *const wall_names[WALLS] = {
    "assemblies/estuary-fibre.xml",
    "assemblies/estuary-mineral-foil.xml",
    "assemblies/estuary-mineral-variable.xml",
    "assemblies/upland-masonry-inside.xml",
    "assemblies/upland-cooled-archive.xml",
    "assemblies/upland-closing-released.xml",
    "assemblies/upland-closing-refused.xml",
    "assemblies/estuary-as-found.xml",
    "assemblies/upland-open-outside.xml",
    "assemblies/upland-tight-outside.xml",
};

static bw_status read_files(held *h, bw_error *err)
{
    char path[PATH_ROOM];
    const char *folder = held_path(path, h, "materials");
    bw_status status = bw_library_read(&h->library, &folder, 1, err);
    if (status == BW_OK)
        status = bw_profiles_read(
            &h->profiles, held_path(path, h, "assemblies/profiles"), err);
    for (size_t i = 0; i < WALLS && status == BW_OK; i++)
        status = bw_assembly_read(
            &h->wall[i], held_path(path, h, wall_names[i]), h->library, err);
    if (status == BW_OK)
        status = bw_climate_read(
            &h->climate, held_path(path, h, "assemblies/climates/estuary.csv"),
            err);
    return status;
}

/* A year of hours, each as the other, a short gap in the first days. */
static bool write_hours(const char *path, const char *head, const char *row)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    FILE *file = fopen(path, "w");
    if (file == NULL)
        return false;
    fputs(head, file);
    for (int month = 1; month <= 12; month++)
        for (int hour = 0; hour < 24 * days[month - 1]; hour++)
            if (month > 1 || hour < 30 || hour > 31)
                fprintf(file, row, month, hour / 24 + 1, hour % 24);
    return fclose(file) == 0;
}

static bw_status write_climates(bw_error *err)
{
    bool written =
        write_hours(HELD_HOURS,
                    "# place: nowhere\n# source: invented\n# latitude: 45\n"
                    "# longitude: 8\ntime,temperature_C,"
                    "relative_humidity_pct,rain_mm,wind_m_s\n",
                    "2019-%02d-%02dT%02d:00,5,80,0.1,2\n") &&
        write_hours(HELD_PUBLIC,
                    "Latitude (decimal degrees): 45.000\n"
                    "Longitude (decimal degrees): 8.000\n"
                    "time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP\n",
                    "2019%02d%02d:%02d00,5.0,80.0,0.0,0.0,0.0,300.0,2.0,240.0,"
                    "100000.0\n");
    if (!written)
        *err = (bw_error){.status = BW_ERR_IO, .message = "cannot write here"};
    return written ? BW_OK : BW_ERR_IO;
}

static bool write_text(const char *path, const char *text)
{
    FILE *file = fopen(path, "w");
    const bool put = file != NULL && fputs(text, file) >= 0;
    return file != NULL && fclose(file) == 0 && put;
}

/* The digest of "abc" is FIPS 180-4's example. */
static bw_status write_list(bw_error *err)
{
    if (write_text("fault-abc.txt", "abc") &&
        write_text(HELD_LIST,
                   "# bothways 0.0.0\n"
                   "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20"
                   "015ad  fault-abc.txt\n"))
        return BW_OK;
    *err = (bw_error){.status = BW_ERR_IO, .message = "cannot write here"};
    return BW_ERR_IO;
}

static bw_status compute(held *h, bw_error *err)
{
    bw_assessment_options steady = {.no_transient = true, .threads = 1};
    bw_assessment_options hourly = {
        .transient = {.max_years = 1, .keep_hours = true}};
    bw_compare_options compare = {.assessment = steady};
    bw_margin_options margin = {.assessment = steady};
    bw_audit_options audit = {.assessment = steady};
    const bw_climate *climates[3] = {h->climate, h->climate, h->climate};
    bw_status status = bw_climate_generate(&h->year, h->climate, err);
    if (status == BW_OK)
        status = bw_assess(&h->steady, h->wall[0], h->climate, &steady, err);
    if (status == BW_OK)
        status = bw_assess(&h->hourly, h->wall[0], h->year, &hourly, err);
    if (status == BW_OK)
        status = bw_compare(&h->comparison, (const bw_assembly *const *)h->wall,
                            climates, 3, &compare, err);
    if (status == BW_OK)
        status = bw_margin_make(&h->margin, h->wall[0], h->climate, &margin,
                                err);
    if (status == BW_OK)
        status = bw_audit_make(&h->audit, h->wall[5], h->climate, &audit, err);
    bw_section_options every = {.keep_all_layers = true};
    if (status == BW_OK)
        status = bw_sections_make(&h->sections, h->wall[0], &every, err);
    return status;
}

bw_status held_make(held *out, const char *source, bw_error *err)
{
    *out = (held){.source = source};
    bw_status status = write_climates(err);
    if (status == BW_OK)
        status = write_list(err);
    if (status == BW_OK)
        status = read_files(out, err);
    return status == BW_OK ? compute(out, err) : status;
}

void held_free(held *h)
{
    bw_sections_free(h->sections);
    bw_audit_free(h->audit);
    bw_margin_free(h->margin);
    bw_comparison_free(h->comparison);
    bw_assessment_free(h->hourly);
    bw_assessment_free(h->steady);
    for (size_t i = 0; i < WALLS; i++)
        bw_assembly_free(h->wall[i]);
    bw_climate_free(h->year);
    bw_climate_free(h->climate);
    bw_library_free(h->library);
    bw_profiles_free(h->profiles);
}
