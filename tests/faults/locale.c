/* A host program with a locale of its own: what the library reads and writes
 * must not follow it.
 *   usage: fault_locale LOCALE MATERIALS WALL.xml CLIMATE.csv
 * First line: how printf writes a half here; then the table of the verdict,
 * the text report and the page. 77: there is no such locale. */

#include <locale.h>
#include <stdio.h>

#define BW_NO_FENCE /* no suite of Check */
#include "../one_document.h"
#include "bothways/bothways.h"

static bool put(void *payload, const char *bytes, size_t length)
{
    return fwrite(bytes, 1, length, payload) == length;
}

static bw_status run(char **argument, bw_error *err)
{
    bw_library *library = NULL;
    bw_assembly *wall = NULL;
    bw_climate *climate = NULL;
    bw_assessment *assessment = NULL;
    const char *folder = argument[2];
    const bw_assessment_options options = {.no_transient = true};
    bw_status status = bw_library_read(&library, &folder, 1, err);
    if (status == BW_OK)
        status = bw_assembly_read(&wall, argument[3], library, err);
    if (status == BW_OK)
        status = bw_climate_read(&climate, argument[4], err);
    if (status == BW_OK)
        status = bw_assess(&assessment, wall, climate, &options, err);
    const bw_results results = {
        .wall_count = 1, .wall = (const bw_assessment *const *)&assessment};
    for (int t = 0; t < BW_TABLE_HOURLY && status == BW_OK; t++)
        status = bw_report_table(&results, (bw_table)t, put, stdout, err);
    if (status == BW_OK)
        status = bw_report_json(&results, put, stdout, err);
    if (status == BW_OK)
        status = check_report(BW_FORM_TEXT, assessment, NULL, put, stdout, err);
    if (status == BW_OK)
        status = check_report(BW_FORM_PAGE, assessment, NULL, put, stdout, err);
    bw_assessment_free(assessment);
    bw_climate_free(climate);
    bw_assembly_free(wall);
    bw_library_free(library);
    return status;
}

int main(int count, char **argument)
{
    if (count < 5)
        return 2;
    if (setlocale(LC_ALL, argument[1]) == NULL)
        return 77;
    printf("%.1f\n", 0.5);
    bw_error err = {0};
    if (run(argument, &err) == BW_OK)
        return 0;
    fprintf(stderr, "%s:%ld: %s\n", err.file, err.line, err.message);
    return 1;
}
