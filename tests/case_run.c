/* From the words of a case to results, by the public functions alone: the
 * steady methods on one section of the wall, ISO 6946 on all of it, the
 * simulation on that section with every layer. */

#include "case_run.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool fault_of(case_run *run, const bw_error *err, long offset)
{
    return case_fault(run->report, run->file->name,
                      err->line > 0 ? err->line + offset : run->line, "%s",
                      err->message);
}

/* ---- what stands on both sides ----------------------------------------- */

static bool read_pressure(double *out, const char *text, double theta)
{
    char *end;
    *out = strtod(text, &end);
    if (strcmp(end, " %") == 0)
        *out = bw_vapour_pressure(theta, *out / 100, BW_OVER_ICE);
    return end > text && (strcmp(end, " Pa") == 0 || strcmp(end, " %") == 0);
}

static bool read_temperature(double *out, const char *text)
{
    char *end;
    *out = strtod(text, &end);
    if (strcmp(end, " degF") == 0)
        *out = (*out - 32) / 1.8;
    return end > text &&
           (strcmp(end, " degC") == 0 || strcmp(end, " degF") == 0);
}

static bool read_boundary(case_run *run)
{
    static const char head[] = "month, outside, vapour, inside, vapour";
    const case_part *part = &run->file->boundary;
    char copy[4096], *at = copy, *text, *cell[CASE_CELLS];
    long line = part->line - 1;
    bool seen[BW_MONTHS] = {false};
    snprintf(copy, sizeof copy, "%s", part->text);
    text = case_next_line(&at, &line);
    bool good = text != NULL && strcmp(text, head) == 0;
    while (good && (text = case_next_line(&at, &line)) != NULL) {
        bw_boundary b;
        good = case_cells(cell, text) == 5 &&
               read_temperature(&b.theta_e, cell[1]) &&
               read_pressure(&b.p_e, cell[2], b.theta_e) &&
               read_temperature(&b.theta_i, cell[3]) &&
               read_pressure(&b.p_i, cell[4], b.theta_i);
        for (int m = 0; good && m < BW_MONTHS; m++)
            if (strcmp(cell[0], "each") == 0 ||
                strcmp(cell[0], bw_month_name(m)) == 0) {
                run->boundary[m] = b;
                seen[m] = true;
            }
    }
    for (int m = 0; m < BW_MONTHS; m++)
        good = good && seen[m];
    return good ||
           case_fault(run->report, run->file->name, line,
                      "[boundary] is the line '%s' and a line for each month, "
                      "or one for 'each': Jan, -1 degC, 478 Pa, 20 degC, 50 %%",
                      head);
}

/* The hourly rows over and over until a year is full: the columns of
 * docs/input.md without the time. */
static char *hours_of_a_year(const case_part *part)
{
    enum { HOURS = 8760, LINE = 256, ROWS = 48 };
    static const char days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    char *copy = strdup(part->text), *at = copy, *row[ROWS], *text = NULL;
    size_t rows = 0, size = (size_t)(HOURS + 1) * LINE, used = 0;
    long line = 0;
    char *head = case_next_line(&at, &line);
    while (rows < ROWS && (row[rows] = case_next_line(&at, &line)) != NULL)
        rows++;
    if (rows > 0 && (text = malloc(size)) != NULL) {
        used += (size_t)snprintf(text, size, "time,%s\n", head);
        for (int month = 0, hour = 0; month < BW_MONTHS; month++)
            for (int h = 0; h < 24 * days[month]; h++, hour++)
                used += (size_t)snprintf(
                    text + used, size - used, "2001-%02d-%02dT%02d:00Z,%s\n",
                    month + 1, h / 24 + 1, h % 24, row[(size_t)hour % rows]);
    }
    free(copy);
    return text;
}

static bool read_climate(case_run *run)
{
    const case_file *file = run->file;
    bw_error err = {0};
    if (file->climate.text != NULL)
        return bw_climate_read_text(&run->climate, file->climate.text,
                                    file->name, &err) == BW_OK ||
               fault_of(run, &err, file->climate.line - 1);
    char *text = hours_of_a_year(&file->hours);
    if (text == NULL)
        return case_fault(run->report, file->name, file->hours.line,
                          "[hours] has no rows, or more than 48");
    const bw_status status = bw_climate_read_text(&run->climate, text,
                                                  file->name, &err);
    free(text);
    if (err.line > 2)
        err.line = 2;
    return status == BW_OK || fault_of(run, &err, file->hours.line - 1);
}

static bool find_boundary(case_run *run)
{
    const case_file *file = run->file;
    const int given = (file->boundary.text != NULL) +
                      (file->climate.text != NULL) + (file->hours.text != NULL);
    if (given > 1)
        return case_fault(run->report, file->name, run->line,
                          "give one of [boundary], [climate] and [hours]");
    run->has_boundary = given > 0;
    if (file->boundary.text != NULL)
        return read_boundary(run);
    if (given == 0)
        return true;
    if (strstr(file->wall.text, "<indoors") == NULL)
        return case_fault(run->report, file->name, file->wall.line,
                          "beside a climate the wall needs <indoors>");
    if (!read_climate(run))
        return false;
    for (int m = 0; m < BW_MONTHS; m++) {
        bw_boundary *b = &run->boundary[m];
        const bw_climate_month *month = &run->climate->month[m];
        b->theta_e = month->temperature;
        b->p_e = month->vapour_pressure;
        bw_indoor_state(&run->wall->indoors, m, b->theta_e, b->p_e, &b->theta_i,
                        &b->p_i);
    }
    return true;
}

/* ---- the wall ---------------------------------------------------------- */

static const char *said(const char *text)
{
    return text != NULL ? text : "";
}

static void write_surface(char *out, size_t size, const char *resistance)
{
    snprintf(out, size, resistance != NULL ? "surface-resistance=\"%s\"" : "%s",
             said(resistance));
}

/* Around layers alone, on their first line, so that lines stay what they are:
 * what the file does not say. */
static void wrap(char *out, size_t size, const case_file *file)
{
    const char *text = file->wall.text;
    char outside[120], inside[120];
    write_surface(outside, sizeof outside, file->outer_resistance);
    write_surface(inside, sizeof inside, file->inner_resistance);
    if (strstr(text, "<assembly") != NULL) {
        snprintf(out, size, "%s", text);
        return;
    }
    int used = snprintf(out, size,
                        "<assembly xmlns=\"urn:bothways:assembly:1\" "
                        "id=\"case\" element=\"%s\">",
                        file->element != NULL ? file->element : "wall");
    if (strstr(text, "<outdoors") == NULL)
        used += snprintf(out + used, size - (size_t)used,
                         "<outdoors driving-rain=\"none\" %s/>", outside);
    if (strstr(text, "<indoors") == NULL)
        used += snprintf(out + used, size - (size_t)used,
                         "<indoors temperature=\"20 degC\" "
                         "relative-humidity=\"50 %%\" margin=\"no\" %s/>",
                         inside);
    snprintf(out + used, size - (size_t)used, "%s\n</assembly>\n", text);
}

/* The head may only say what the wall leaves unsaid. */
static bool said_once(const case_run *run)
{
    const case_file *file = run->file;
    const struct {
        const char *key, *value, *element;
    } row[] = {{"element", file->element, "<assembly"},
               {"outer-resistance", file->outer_resistance, "<outdoors"},
               {"inner-resistance", file->inner_resistance, "<indoors"}};
    for (size_t i = 0; i < sizeof row / sizeof *row; i++)
        if (row[i].value != NULL &&
            strstr(file->wall.text, row[i].element) != NULL)
            return case_fault(run->report, file->name, file->wall.line,
                              "%s> says it, so %s: at the head may not",
                              row[i].element, row[i].key);
    return true;
}

static bool find_section(case_run *run, const bw_section **out,
                         const bw_sections *sections)
{
    const char *name = run->file->section;
    *out = &sections->section[0];
    for (size_t i = 0; name != NULL && i < sections->count; i++) {
        *out = &sections->section[i];
        if (strcmp((*out)->name, name) == 0)
            return true;
    }
    return name == NULL || case_fault(run->report, run->file->name, run->line,
                                      "section: the wall has no %s", name);
}

static bool read_wall(case_run *run, const case_block *block)
{
    char text[16384];
    bw_error err = {0};
    if (!said_once(run))
        return false;
    wrap(text, sizeof text, run->file);
    if (bw_assembly_read_text(&run->wall, text, run->file->name, run->library,
                              block->edit, block->edit_count, &err) != BW_OK)
        return fault_of(run, &err, run->file->wall.line - 1);
    const bw_section_options all = {.keep_all_layers = true};
    if (bw_sections_make(&run->sections, run->wall, NULL, &err) != BW_OK ||
        bw_sections_make(&run->all_layers, run->wall, &all, &err) != BW_OK ||
        bw_thermal(&run->thermal, run->wall, &err) != BW_OK)
        return fault_of(run, &err, 0);
    return find_section(run, &run->section, run->sections) &&
           find_section(run, &run->whole_section, run->all_layers);
}

static bool run_steady(case_run *run)
{
    double resistance = 0;
    bw_error err = {0};
    for (size_t k = 0; k < run->section->slab_count; k++)
        resistance += run->section->slab[k].resistance;
    bw_surface(&run->surface, "open-wall", resistance,
               run->section->outer_resistance, run->section->inner_resistance,
               "", 0.8, run->boundary);
    const bw_period_climate climate = bw_period_climate_din4108(
        run->wall->element);
    return bw_period_balance(&run->period, run->section, &climate, BW_MU_LOCAL,
                             &err) == BW_OK ||
           fault_of(run, &err, 0);
}

bool case_run_make(case_run *run, const case_file *file,
                   const case_block *block, const bw_library *library,
                   case_report *report)
{
    *run = (case_run){.file = file,
                      .library = library,
                      .report = report,
                      .line = block->line};
    if (file->wall.text == NULL)
        return true; /* of air alone */
    return read_wall(run, block) && find_boundary(run) && run_steady(run);
}

void case_run_free(case_run *run)
{
    if (run->has_transient)
        bw_transient_free(&run->transient);
    if (run->has_monthly)
        bw_monthly_free(&run->monthly);
    for (int way = 0; way < CASE_WAYS; way++)
        if (run->has_dry[way])
            bw_monthly_free(&run->dry[way]);
    bw_sections_free(run->sections);
    bw_sections_free(run->all_layers);
    bw_climate_free(run->climate);
    bw_assembly_free(run->wall);
}

/* ---- methods ----------------------------------------------------------- */

static size_t slab_of(const bw_section *section, long layer)
{
    for (size_t k = 0; k < section->slab_count; k++)
        if ((long)section->slab[k].layer == layer)
            return k;
    return section->slab_count; /* which the method refuses */
}

static bool monthly(case_run *run, bw_monthly_result *out, bool *has,
                    bw_monthly_options *options)
{
    bw_error err = {0};
    const char *id = run->file->saturated;
    if (id != NULL) {
        options->saturated = true;
        options->saturated_slab = slab_of(run->section,
                                          bw_assembly_layer(run->wall, id));
        if (options->saturated_slab == run->section->slab_count)
            return case_fault(run->report, run->file->name, run->line,
                              "saturated: the wall has no layer %s", id);
    }
    *has = bw_monthly(out, run->section, run->boundary, options, &err) == BW_OK;
    return *has || fault_of(run, &err, 0);
}

bool case_run_monthly(case_run *run)
{
    bw_monthly_options options = {.start_month = -1};
    return run->has_monthly ||
           monthly(run, &run->monthly, &run->has_monthly, &options);
}

bool case_run_dry(case_run *run, int way)
{
    const bw_drying_test *test = &run->wall->drying_test;
    const size_t slab = slab_of(run->section, test->after_layer);
    bw_monthly_options options = {
        .start_month = test->start_month,
        .wetting = test->wetting,
        .ways = (bw_drying_ways)way,
        .wet_plane = {.slab = slab, .layer_face = true}};
    if (slab < run->section->slab_count)
        options.wet_plane.depth = run->section->slab[slab].thickness;
    return run->has_dry[way] ||
           monthly(run, &run->dry[way], &run->has_dry[way], &options);
}

bool case_run_simulate(case_run *run)
{
    const case_file *file = run->file;
    bw_error err = {0};
    if (run->has_transient)
        return true;
    if (run->climate == NULL || run->climate->hour_count == 0)
        return case_fault(run->report, file->name, run->line,
                          "a simulated value needs [hours]");
    const bw_transient_options options = {
        .max_years = file->years != NULL ? (int)strtol(file->years, NULL, 10)
                                         : 0,
        .keep_hours = true,
        .fixed_permeability = file->vapour_permeability != NULL};
    run->has_transient = bw_transient(&run->transient, run->wall,
                                      run->whole_section, run->climate,
                                      &options, &err) == BW_OK;
    return run->has_transient || fault_of(run, &err, 0);
}
