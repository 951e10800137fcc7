/* What every result table has in common, and the JSON document. The assessment
 * is made by hand. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "report/table.h"
#include "wall_sheet.h"

static bw_column column[BW_COLUMNS_MOST];

static const char *document(void)
{
    paper_clear(&sheet);
    ck_assert_int_eq(bw_report_json(&wall.results, paper_take, &sheet, NULL),
                     BW_OK);
    return sheet.text;
}

/* ---- columns --------------------------------------------------------------
 */

START_TEST(a_table_says_what_a_row_and_a_column_is)
{
    const bw_table table = (bw_table)_i;
    const size_t count = bw_table_columns(column, table);
    ck_assert_uint_gt(count, 3);
    ck_assert_uint_gt(strlen(bw_table_row(table)), 10);
    ck_assert_ptr_nonnull(strstr(bw_table_file(table), ".csv"));
    for (size_t i = 0; i < count; i++) {
        const bw_column *c = &column[i];
        ck_assert_uint_gt(strlen(c->meaning), 2);
        /* the generated documents put both between quotes as they are */
        ck_assert_ptr_null(strpbrk(c->meaning, "\"\\\n"));
        ck_assert_uint_eq(strspn(c->name,
                                 "abcdefghijklmnopqrstuvwxyz"
                                 "ABCDEFGHIJKLMNOPQRSTUVWXYZ_0123456789"),
                          strlen(c->name));
        ck_assert_int_eq(c->unit[0] == '\0', c->kind == BW_COLUMN_TEXT);
        for (size_t k = 0; k < i; k++)
            ck_assert_str_ne(c->name, column[k].name);
    }
}
END_TEST

/* A run is called as the library calls it. */
START_TEST(the_column_of_the_runs_names_every_run)
{
    const size_t count = bw_table_columns(column, BW_TABLE_MONTHLY);
    const char *meaning = "";
    for (size_t i = 0; i < count; i++)
        if (strcmp(column[i].name, "run") == 0)
            meaning = column[i].meaning;
    for (int k = 0; k < BW_RUN_COUNT; k++) {
        char quoted[40];
        snprintf(quoted, sizeof quoted, "`%s`",
                 bw_monthly_run_name((bw_monthly_run_id)k));
        HAS(meaning, quoted);
    }
}
END_TEST

/* The end of a name that tells the unit, longest first. */
static const struct ending {
    const char *end, *unit;
} endings[] = {
    {"_kg_m2a", "kg/(m2 a)"},
    {"_W_m2K", "W/(m2.K)"},
    {"per_m2", "/m2"},
    {"_kg_m2", "kg/m2"},
    {"_kg_m3", "kg/m3"},
    {"_kg_m", "kg/m"},
    {"_W_mK", "W/(m.K)"},
    {"_m2K_W", "m2.K/W"},
    {"_J_kgK", "J/(kg.K)"},
    {"_Pa", "Pa"},
    {"_pct", "%"},
    {"_C", "degC"},
    {"_K", "K"},
    {"_m", "m"},
    {"_d", "d"},
    {"months", "months"},
};

static const char *unit_told(const char *name)
{
    for (size_t i = 0; i < COUNT(endings); i++) {
        const size_t length = strlen(name), end = strlen(endings[i].end);
        if (length >= end && strcmp(name + length - end, endings[i].end) == 0)
            return endings[i].unit;
    }
    return NULL;
}

START_TEST(a_unit_in_a_name_is_the_unit_of_the_column)
{
    const size_t count = bw_table_columns(column, (bw_table)_i);
    for (size_t i = 0; i < count; i++) {
        const char *unit = unit_told(column[i].name);
        const bool other = strncmp(column[i].unit, "as ", 3) == 0;
        if (unit != NULL)
            ck_assert_str_eq(column[i].unit, unit);
        bool found = !other;
        for (size_t k = 0; other && k < count; k++)
            found = found || strcmp(column[i].unit + 3, column[k].name) == 0;
        ck_assert_msg(found, "%s: no column for '%s'", column[i].name,
                      column[i].unit);
    }
}
END_TEST

START_TEST(there_is_no_table_beyond_the_last)
{
    ck_assert_str_eq(bw_table_file(BW_TABLE_COUNT), "");
    ck_assert_str_eq(bw_table_row(BW_TABLE_COUNT), "");
    ck_assert_uint_eq(bw_table_columns(column, BW_TABLE_COUNT), 0);
}
END_TEST

START_TEST(results_have_the_tables_of_what_was_computed)
{
    for (int t = 0; t < BW_TABLE_COUNT; t++)
        ck_assert_int_eq(bw_results_have(&wall.results, (bw_table)t),
                         t < BW_TABLE_COMPARE && t != BW_TABLE_CONVERGENCE);
    wall.checked.has_convergence = true;
    ck_assert(bw_results_have(&wall.results, BW_TABLE_CONVERGENCE));
    const bw_results none = {.step = 1};
    for (int t = 0; t < BW_TABLE_COUNT; t++)
        ck_assert(!bw_results_have(&none, (bw_table)t));
}
END_TEST

/* The contract itself is docs/tables.md, which tests/tables.sh compares. */
START_TEST(a_table_without_results_is_the_names_of_its_columns)
{
    char names[1024] = "";
    const bw_results none = {.step = 1};
    const size_t count = bw_table_columns(column, (bw_table)_i);
    for (size_t i = 0; i < count; i++) {
        strcat(names, column[i].name);
        strcat(names, i + 1 < count ? "," : "\n");
    }
    paper_clear(&sheet);
    ck_assert_int_eq(
        bw_report_table(&none, (bw_table)_i, paper_take, &sheet, NULL), BW_OK);
    ck_assert_str_eq(sheet.text, names);
}
END_TEST

static const struct worst_row {
    bw_verdict one, other, worst;
} worst_rows[] = {
    {BW_HOLDS, BW_HOLDS, BW_HOLDS},
    {BW_MARGINAL, BW_HOLDS, BW_MARGINAL},
    {BW_MARGINAL, BW_NOT_ASSESSED, BW_NOT_ASSESSED},
    {BW_NOT_ASSESSED, BW_HOLDS, BW_NOT_ASSESSED},
    {BW_FAILS, BW_NOT_ASSESSED, BW_FAILS},
    {BW_HOLDS, BW_FAILS, BW_FAILS},
};

START_TEST(the_worst_wall_gives_the_verdict)
{
    bw_assessment two = wall.assessment;
    const bw_assessment *both[] = {&wall.assessment, &two};
    const bw_results results = {.wall_count = 2, .wall = both};
    wall.assessment.verdict = worst_rows[_i].one;
    two.verdict = worst_rows[_i].other;
    ck_assert_int_eq(bw_results_verdict(&results), worst_rows[_i].worst);
}
END_TEST

/* ---- JSON ------------------------------------------------------------------
 */

/* RFC 8259, section 7: quotes, backslashes and controls are escaped. That other
 * marks that steer a line are, too, and how bytes are shown that are no
 * character are our own choice. */
static const struct string_row {
    const char *text, *want;
} strings[] = {
    {"", "\"\""},
    {"plain /", "\"plain /\""},
    {"\"a\\b\"", "\"\\\"a\\\\b\\\"\""},
    {"a\nb\tc\x01\x7f", "\"a\\u000ab\\u0009c\\u0001\\u007f\""},
    {"\xc2\xb5m\xe2\x82\xac\xf0\x9f\x98\x80",
     "\"\xc2\xb5m\xe2\x82\xac\xf0\x9f\x98\x80\""},
    {"\xc2\x9b|\xe2\x80\xae|\xe2\x80\xa8", "\"\\u009b|\\u202e|\\u2028\""},
    /* alone, cut short, too long, a surrogate, beyond Unicode */
    {"\x80|\xff|\xc3", "\"\\\\x80|\\\\xff|\\\\xc3\""},
    {"\xe2\x82", "\"\\\\xe2\\\\x82\""},
    {"\xc0\xaf", "\"\\\\xc0\\\\xaf\""},
    {"\xe0\x80\x8a|\xed\xa0\x80",
     "\"\\\\xe0\\\\x80\\\\x8a|\\\\xed\\\\xa0\\\\x80\""},
    {"\xf4\x90\x80\x80", "\"\\\\xf4\\\\x90\\\\x80\\\\x80\""},
};

START_TEST(a_string_is_escaped)
{
    bw_writer out;
    bw_writer_start(&out, paper_take, &sheet);
    bw_json_text(&out, strings[_i].text);
    ck_assert(bw_writer_finish(&out));
    ck_assert_str_eq(sheet.text, strings[_i].want);
}
END_TEST

/* Past one value of JSON (RFC 8259), or NULL. */
static const char *past_value(const char *c);

static const char *past_string(const char *c)
{
    if (*c++ != '"')
        return NULL;
    for (; *c != '"'; c++) {
        if ((unsigned char)*c < ' ')
            return NULL;
        if (*c != '\\')
            continue;
        c++; /* what a backslash escapes; one that is escaped escapes nothing */
        if (*c == 'u' ? strspn(c + 1, "0123456789abcdef") < 4
                      : strchr("\"\\/bfnrt", *c) == NULL)
            return NULL;
    }
    return c + 1;
}

static const char *past_digits(const char *c)
{
    const size_t digits = strspn(c, "0123456789");
    return digits > 0 ? c + digits : NULL;
}

static const char *past_number(const char *c)
{
    c += *c == '-';
    if (c[0] == '0' && c[1] >= '0' && c[1] <= '9')
        return NULL;
    c = past_digits(c);
    if (c != NULL && *c == '.')
        c = past_digits(c + 1);
    if (c != NULL && *c == 'e')
        c = past_digits(c + 1 + (c[1] == '-' || c[1] == '+'));
    return c;
}

static const char *past_many(const char *c, bool object)
{
    const char end = object ? '}' : ']';
    c += 1 + strspn(c + 1, " \n");
    if (*c == end)
        return c + 1;
    for (;;) {
        if (object) {
            c = past_string(c);
            if (c == NULL || strncmp(c, ": ", 2) != 0)
                return NULL;
            c += 2;
        }
        c = past_value(c);
        if (c == NULL)
            return NULL;
        c += strspn(c, " \n");
        if (*c == end)
            return c + 1;
        if (*c++ != ',')
            return NULL;
        c += strspn(c, " \n");
    }
}

static const char *past_value(const char *c)
{
    if (*c == '{' || *c == '[')
        return past_many(c, *c == '{');
    if (*c == '"')
        return past_string(c);
    return strncmp(c, "null", 4) == 0 ? c + 4 : past_number(c);
}

static void is_json(const char *text)
{
    const char *end = past_value(text);
    ck_assert_msg(end != NULL && strcmp(end, "\n") == 0, "no JSON: %.3000s",
                  text);
}

static size_t count_of(const char *text, const char *part)
{
    size_t count = 0;
    for (; (text = strstr(text, part)) != NULL; text++)
        count++;
    return count;
}

START_TEST(the_document_holds_every_table_of_the_wall)
{
    report_simulate(&wall);
    const char *text = document();
    is_json(text);
    HAS(text, "{\n\"version\": \"");
    HAS(text, "\"verdict\": \"fails\",\n\"walls\": [\n"
              "{\"wall\": \"demo\", \"verdict\": \"fails\"}\n],\n");
    HAS(text, "\"criterion\": \"annual-balance\", \"method\": \"monthly "
              "(screening)\", \"value\": 0.4321, \"unit\": \"kg/m2\", "
              "\"limit\": 0.1, \"margin\": -0.3321, \"verdict\": \"fails\", "
              "\"reason\": \"February, \\\"softboard\\\", inner face\"");
    HAS(text, "\"criterion\": \"surface-mould\", \"method\": \"surface\", "
              "\"value\": null, \"unit\": \"-\", \"limit\": null");
    ck_assert_uint_eq(count_of(text, "\"condensation_kg_m2\": "),
                      4 * BW_MONTHS * WALL_PLANES);
    HAS_NOT(text, "\"convergence\"");
    HAS_NOT(text, "\"compare\"");
}
END_TEST

START_TEST(hours_are_in_the_document_when_a_step_asks_for_them)
{
    report_simulate(&wall);
    HAS_NOT(document(), "\"hourly\"");
    wall.results.step = 2;
    const char *text = document();
    is_json(text);
    HAS(text, "\"hourly\": [\n{\"assembly\": \"demo\", \"section\": \"whole\", "
              "\"time\": \"10-01 02:00\", \"position\": \"outer face\", "
              "\"temperature_C\": 2.5, ");
}
END_TEST

START_TEST(a_value_that_is_no_number_is_null)
{
    wall.plane[1].month[1].condensation = NAN;
    wall.plane[1].month[1].accumulated = -INFINITY;
    const char *text = document();
    is_json(text);
    HAS(text, "\"condensation_kg_m2\": null, \"accumulated_kg_m2\": null");
}
END_TEST

START_TEST(no_name_breaks_the_document)
{
    wall.assembly.id = "\"}],\\\n\x01\xff";
    wall.section.name = "a\xe2\x80\xae\\";
    wall.criterion[0].reason = "\\";
    is_json(document());
    HAS(sheet.text, "\"wall\": \"\\\"}],\\\\\\u000a\\u0001\\\\xff\"");
}
END_TEST

START_TEST(no_materials_are_a_document_without_walls)
{
    const bw_material *none[1] = {NULL};
    wall.results = (bw_results){.material = none};
    const char *text = document();
    is_json(text);
    HAS(text, "\"tables\": {\n\"materials\": [\n]\n}");
    HAS_NOT(text, "\"verdict\"");
}
END_TEST

START_TEST(a_document_that_cannot_be_had_is_an_error)
{
    bw_error err = {0};
    ck_assert_int_eq(bw_report_json(&wall.results, paper_refuse, NULL, &err),
                     BW_ERR_IO);
    wall.results.step = 8761;
    ck_assert_int_eq(bw_report_json(&wall.results, paper_take, &sheet, &err),
                     BW_ERR_DOMAIN);
    HAS(err.message, "8761 h");
}
END_TEST

SUITE_AROUND("tables", setup, NULL,
             EACH(a_table_says_what_a_row_and_a_column_is, BW_TABLE_COUNT),
             EACH(a_unit_in_a_name_is_the_unit_of_the_column, BW_TABLE_COUNT),
             FACT(the_column_of_the_runs_names_every_run),
             FACT(there_is_no_table_beyond_the_last),
             FACT(results_have_the_tables_of_what_was_computed),
             EACH(a_table_without_results_is_the_names_of_its_columns,
                  BW_TABLE_COUNT),
             EACH(the_worst_wall_gives_the_verdict, COUNT(worst_rows)),
             EACH(a_string_is_escaped, COUNT(strings)),
             FACT(the_document_holds_every_table_of_the_wall),
             FACT(hours_are_in_the_document_when_a_step_asks_for_them),
             FACT(a_value_that_is_no_number_is_null),
             FACT(no_name_breaks_the_document),
             FACT(no_materials_are_a_document_without_walls),
             FACT(a_document_that_cannot_be_had_is_an_error))
