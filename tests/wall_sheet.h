#ifndef BW_TEST_WALL_SHEET_H
#define BW_TEST_WALL_SHEET_H

/* The wall made by hand of report_wall.h and a sheet that its reports and
 * tables are printed on: made anew for each test, changed by hand, printed. */

#include "one_document.h"
#include "paper.h"
#include "report_wall.h"
#include "suite.h"

static paper sheet;
static report_wall wall;

static inline void setup(void)
{
    paper_clear(&sheet);
    report_wall_make(&wall);
}

static inline const char *text_with(bw_report_options options)
{
    paper_clear(&sheet);
    ck_assert_int_eq(check_report(BW_FORM_TEXT, &wall.assessment, &options,
                                  paper_take, &sheet, NULL),
                     BW_OK);
    if (!options.colour) /* whose marks take no column */
        paper_fits(sheet.text, options.width > 0 ? (size_t)options.width : 100);
    return sheet.text;
}

static inline const char *table_of(bw_table table)
{
    paper_clear(&sheet);
    ck_assert_int_eq(
        bw_report_table(&wall.results, table, paper_take, &sheet, NULL), BW_OK);
    return sheet.text;
}

static inline size_t count_lines(const char *text)
{
    size_t lines = 0;
    for (; *text != '\0'; text++)
        lines += *text == '\n';
    return lines;
}

/* As many fields in each row as in the header; quotes are closed. */
static inline void fields_match(const char *c)
{
    size_t wanted = 0, fields = 1;
    bool quoted = false;
    for (; *c != '\0'; c++) {
        quoted = quoted != (*c == '"');
        fields += !quoted && *c == ',';
        if (quoted || *c != '\n')
            continue;
        wanted = wanted == 0 ? fields : wanted;
        ck_assert_uint_eq(fields, wanted);
        fields = 1;
    }
    ck_assert(!quoted);
}

#endif
