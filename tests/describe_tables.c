/* Prints what the library says of its result tables: docs/tables.md, or with
 * "schema" docs/results.schema.json (JSON Schema 2020-12). tests/tables.sh
 * compares and updates them.   usage: describe_tables [schema] */

#include <stdio.h>
#include <string.h>

#include "bothways/bothways.h"

static bw_column column[BW_COLUMNS_MOST];

static int stem(bw_table table)
{
    return (int)strcspn(bw_table_file(table), ".");
}

/* ---- Markdown -------------------------------------------------------------
 */

static const char head[] =
    "# Result tables\n"
    "\n"
    "<!-- Written by tests/tables.sh from src/report/table_*.c; change it "
    "there. -->\n"
    "\n"
    "`--tables DIR` writes the tables of a verb into a folder, each as a CSV "
    "file:\n"
    "one header row, point as decimal mark, nine digits, UTF-8. `--format csv` "
    "prints\n"
    "the first that is the verb's own: `verdict.csv`, `compare.csv`, "
    "`margin.csv`,\n"
    "`audit.csv`, `materials.csv`. Several walls stand in one file, one after "
    "the\n"
    "other.\n"
    "\n"
    "`--format json` prints all of them as one document, by\n"
    "[results.schema.json](results.schema.json): the `version` of the program, "
    "the\n"
    "worst `verdict`, `walls` with the verdict of each (and how many `changes` "
    "`--set`\n"
    "made, if any), and `tables`, of each an array of rows by the names "
    "below.\n"
    "Hours are many: `hourly` is there with "
    "`--step HOURS`\n"
    "alone. Values are those of the CSV, a number as a number and an empty "
    "field as\n"
    "`null`.\n"
    "\n"
    "A byte of a name that is no character of UTF-8 is shown by its code, "
    "`\\xe4`, here\n"
    "and wherever the program says it. In CSV a text that a spreadsheet would "
    "take for a\n"
    "formula, because it begins with `=`, `+`, `-` or `@` (blanks and "
    "apostrophes before\n"
    "them left out of account), stands behind an apostrophe: `'=1+1`. Numbers "
    "and a sign\n"
    "alone stand as they are; a tab or another control character is a `?` "
    "anyway. To have\n"
    "the text again, take one apostrophe off what matches `^'[' ]*[=+@-].`; "
    "JSON has it\n"
    "unchanged. (That an apostrophe keeps spreadsheets from computing: common "
    "practice, no\n"
    "source.)\n"
    "\n"
    "Columns may be added: read them by name. *as `unit`* means that the "
    "column\n"
    "`unit` of the same row has the unit. A value that does not exist is left "
    "empty\n"
    "where the third column says so.\n";

/* A bar would end the cell. */
static void put_cell(const char *text)
{
    for (; *text != '\0'; text++)
        printf(*text == '|' ? "\\|" : "%c", *text);
}

static void put_unit(const char *unit)
{
    if (strncmp(unit, "as ", 3) == 0)
        printf("as `%s`", unit + 3);
    else
        printf("%s", unit);
}

static void dictionary(void)
{
    printf("%s", head);
    for (int t = 0; t < BW_TABLE_COUNT; t++) {
        const bw_table table = (bw_table)t;
        const size_t count = bw_table_columns(column, table);
        printf("\n## %s\n\n%s\n\n| column | unit | empty | meaning |\n"
               "|---|---|---|---|\n",
               bw_table_file(table), bw_table_row(table));
        for (size_t i = 0; i < count; i++) {
            printf("| `%s` | ", column[i].name);
            put_unit(column[i].unit);
            printf(" | %s | ", column[i].may_be_absent ? "may be" : "");
            put_cell(column[i].meaning);
            printf(" |\n");
        }
    }
}

/* ---- JSON Schema ----------------------------------------------------------
 */

static const char *type_of(const bw_column *c)
{
    static const char *const types[][2] = {
        [BW_COLUMN_TEXT] = {"\"string\"", "[\"string\", \"null\"]"},
        [BW_COLUMN_NUMBER] = {"\"number\"", "[\"number\", \"null\"]"},
        [BW_COLUMN_EITHER] = {"[\"string\", \"number\"]",
                              "[\"string\", \"number\", \"null\"]"},
    };
    return types[c->kind][c->may_be_absent];
}

static void put_columns(size_t count)
{
    printf("          \"properties\": {\n");
    for (size_t i = 0; i < count; i++) {
        const bw_column *c = &column[i];
        const bool unit = c->unit[0] != '\0' && strcmp(c->unit, "-") != 0;
        printf("            \"%s\": {\"type\": %s, \"description\": "
               "\"%s%s%s%s\"}%s\n",
               c->name, type_of(c), c->meaning, unit ? " [" : "",
               unit ? c->unit : "", unit ? "]" : "", i + 1 < count ? "," : "");
    }
    printf("          },\n          \"required\": [");
    for (size_t i = 0; i < count; i++)
        printf("%s\"%s\"", i > 0 ? ", " : "", column[i].name);
    printf("]\n");
}

static void put_verdict(const char *name)
{
    printf("\"%s\": {\"enum\": [", name);
    for (int v = BW_HOLDS; v <= BW_NOT_ASSESSED; v++)
        printf("%s\"%s\"", v > BW_HOLDS ? ", " : "",
               bw_verdict_text((bw_verdict)v));
    printf("]}");
}

static void schema(void)
{
    printf("{\n"
           "  \"$schema\": \"https://json-schema.org/draft/2020-12/schema\",\n"
           "  \"title\": \"Results of bothways, --format json\",\n"
           "  \"type\": \"object\",\n"
           "  \"required\": [\"version\", \"tables\"],\n"
           "  \"properties\": {\n"
           "    \"version\": {\"type\": \"string\"},\n    ");
    put_verdict("verdict");
    printf(",\n    \"walls\": {\"type\": \"array\", \"items\": {\n"
           "      \"type\": \"object\",\n"
           "      \"properties\": {\"wall\": {\"type\": \"string\"}, ");
    put_verdict("verdict");
    printf(",\n        \"changes\": {\"type\": \"number\", "
           "\"description\": \"changes made while the wall was "
           "read; left out: none\"}");
    printf("},\n      \"required\": [\"wall\", \"verdict\"]\n    }},\n"
           "    \"tables\": {\"type\": \"object\", \"properties\": {\n");
    for (int t = 0; t < BW_TABLE_COUNT; t++) {
        const bw_table table = (bw_table)t;
        printf("      \"%.*s\": {\n        \"description\": \"%s\",\n"
               "        \"type\": \"array\", \"items\": {\n"
               "          \"type\": \"object\",\n",
               stem(table), bw_table_file(table), bw_table_row(table));
        put_columns(bw_table_columns(column, table));
        printf("        }\n      }%s\n", t + 1 < BW_TABLE_COUNT ? "," : "");
    }
    printf("    }}\n  }\n}\n");
}

int main(int count, char **argument)
{
    if (count > 1 && strcmp(argument[1], "schema") == 0)
        schema();
    else
        dictionary();
    return fflush(stdout) == 0 ? 0 : 1;
}
