/* Sources of what is asked here: RFC 4180 (CSV), RFC 8259 (JSON), XML 1.0 by
 * libxml2, and docs/tables.md, which says that a field that is empty in CSV is
 * null in JSON. */

#include "outputs.h"

#include <ctype.h>
#include <libxml/parser.h>
#include <math.h>
#include <string.h>

#include "fuzz.h"

typedef struct paper {
    char *at;
    size_t used, room;
} paper;

static bool take(void *payload, const char *bytes, size_t length)
{
    paper *p = payload;
    if (p->room - p->used <= length) {
        p->room = 2 * p->room + length + 1;
        p->at = realloc(p->at, p->room);
        FUZZ_REQUIRE(p->at != NULL);
    }
    memcpy(p->at + p->used, bytes, length);
    p->used += length;
    p->at[p->used] = '\0';
    return true;
}

/* ---- CSV and JSON ------------------------------------------------------- */

enum { FIELD = 8192 };

typedef struct field {
    char text[FIELD];
    size_t length;
    bool quoted; /* as JSON: a string */
} field;

static void clear(field *f, bool quoted)
{
    f->length = 0;
    f->text[0] = '\0';
    f->quoted = quoted;
}

static void put(field *f, char c)
{
    if (f->length + 1 < FIELD)
        f->text[f->length++] = c;
    f->text[f->length] = '\0';
}

/* Reads a field at *c, past its comma; false at the end of the row. */
static bool csv_field(field *f, const char **c)
{
    clear(f, **c == '"');
    *c += f->quoted;
    for (; **c != '\0'; (*c)++) {
        if (f->quoted && (*c)[0] == '"' && (*c)[1] == '"')
            (*c)++;
        else if (f->quoted ? **c == '"' : strchr(",\n", **c) != NULL)
            break;
        FUZZ_REQUIRE(f->quoted || (**c != '"' && **c != '\r'));
        FUZZ_REQUIRE((unsigned char)**c >= ' ' && **c != 0x7f);
        put(f, **c);
    }
    *c += f->quoted && **c == '"';
    FUZZ_REQUIRE(**c == ',' || **c == '\n');
    return *(*c)++ == ',';
}

static void expect(const char **c, const char *text)
{
    *c += strspn(*c, " \n");
    FUZZ_REQUIRE(strncmp(*c, text, strlen(text)) == 0);
    *c += strlen(text);
}

static void json_string(field *f, const char **c)
{
    clear(f, true);
    expect(c, "\"");
    for (; **c != '"'; (*c)++) {
        FUZZ_REQUIRE((unsigned char)**c >= ' ' && **c != 0x7f);
        if (**c == '\\') {
            (*c)++;
            FUZZ_REQUIRE(strchr("\"\\u", **c) != NULL);
            if (**c == 'u') { /* what CSV has another sign for */
                for (int i = 1; i <= 4; i++)
                    FUZZ_REQUIRE(isxdigit((unsigned char)(*c)[i]));
                *c += 4;
                continue;
            }
        }
        put(f, **c);
    }
    (*c)++;
}

static void json_value(field *f, const char **c)
{
    *c += strspn(*c, " \n");
    if (**c == '"') {
        json_string(f, c);
        return;
    }
    clear(f, false);
    for (; strchr(",}] \n", **c) == NULL; (*c)++)
        put(f, **c);
    if (strcmp(f->text, "null") == 0) {
        clear(f, false);
        return;
    }
    char *end = NULL;
    FUZZ_REQUIRE(strspn(f->text, "0123456789.e+-") == f->length);
    FUZZ_REQUIRE(isfinite(strtod(f->text, &end)) && end == f->text + f->length);
}

/* Letters and digits in their order: how each form writes the rest is its own
 * affair. */
static bool same_words(const field *a, const field *b)
{
    size_t i = 0, k = 0;
    while (true) {
        while (i < a->length && !isalnum((unsigned char)a->text[i]))
            i++;
        while (k < b->length && !isalnum((unsigned char)b->text[k]))
            k++;
        if (i == a->length || k == b->length)
            return i == a->length && k == b->length;
        if (a->text[i++] != b->text[k++])
            return false;
    }
}

static void same_value(const field *csv, const field *json)
{
    if (csv->length + 8 >= FIELD || json->length + 8 >= FIELD)
        return; /* cut */
    if (json->quoted)
        FUZZ_REQUIRE(same_words(csv, json));
    else
        FUZZ_REQUIRE(strcmp(csv->text, json->text) == 0);
}

/* A table against its array of objects in the document; *json behind it, or
 * NULL where the document leaves the table out. */
static void check_table(const char *csv, const char **json)
{
    static field name[BW_COLUMNS_MOST];
    static field value, other;
    size_t columns = 0;
    for (bool more = true; more; columns++) {
        FUZZ_REQUIRE(columns < BW_COLUMNS_MOST);
        more = csv_field(&name[columns], &csv);
    }
    if (*json != NULL)
        expect(json, "[");
    for (bool first = true; *csv != '\0'; first = false) {
        if (*json != NULL)
            expect(json, first ? "{" : ",\n{");
        for (size_t k = 0; k < columns; k++) {
            const bool more = csv_field(&value, &csv);
            FUZZ_REQUIRE(more == (k + 1 < columns));
            if (*json == NULL)
                continue;
            if (k > 0)
                expect(json, ",");
            json_string(&other, json);
            FUZZ_REQUIRE(strcmp(other.text, name[k].text) == 0);
            expect(json, ":");
            json_value(&other, json);
            same_value(&value, &other);
        }
        if (*json != NULL)
            expect(json, "}");
    }
    if (*json != NULL)
        expect(json, "]");
}

static void check_tables(const bw_results *of)
{
    static paper csv, document; /* kept from run to run */
    document.used = 0;
    bw_error err = {0};
    FUZZ_REQUIRE(bw_report_json(of, take, &document, &err) == BW_OK);
    const char *at = strstr(document.at, "\n\"tables\": {");
    FUZZ_REQUIRE(at != NULL);
    at += strlen("\n\"tables\": {");
    bool first = true;
    for (bw_table t = BW_TABLE_VERDICT; t < BW_TABLE_COUNT; t++) {
        const bool in = bw_results_have(of, t) &&
                        (t != BW_TABLE_HOURLY || of->step > 0);
        const char *none = NULL;
        csv.used = 0;
        FUZZ_REQUIRE(bw_report_table(of, t, take, &csv, &err) == BW_OK);
        if (in) {
            const char *file = bw_table_file(t);
            static field key;
            if (!first)
                expect(&at, ",");
            first = false;
            json_string(&key, &at);
            FUZZ_REQUIRE(strncmp(file, key.text, key.length) == 0 &&
                         strcmp(file + key.length, ".csv") == 0);
            expect(&at, ":");
        }
        check_table(csv.at, in ? &at : &none);
    }
    expect(&at, "}");
    expect(&at, "}");
    FUZZ_REQUIRE(strspn(at, "\n") == strlen(at));
}

/* ---- documents ---------------------------------------------------------- */

static void write_document(paper *to, const bw_results *of,
                           bw_document document, bw_form form,
                           const bw_report_options *options)
{
    bw_error err = {0};
    to->used = 0;
    FUZZ_REQUIRE(bw_report(of, document, form, options, take, to, &err) ==
                 BW_OK);
    FUZZ_REQUIRE(to->used > 0);
}

static void check_letters(const paper *p, bool colour)
{
    for (size_t i = 0; i < p->used; i++) {
        const unsigned char c = (unsigned char)p->at[i];
        FUZZ_REQUIRE(c == '\n' || (colour && c == 0x1b) ||
                     (c >= ' ' && c != 0x7f));
    }
    FUZZ_REQUIRE(strstr(p->at, "(null)") == NULL);
}

static xmlDoc *parse_page(const paper *p)
{
    xmlDoc *doc = xmlReadMemory(p->at, (int)p->used, "page", NULL,
                                XML_PARSE_NONET | XML_PARSE_HUGE |
                                    XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
    FUZZ_REQUIRE(doc != NULL);
    return doc;
}

void fuzz_check_forms(const bw_results *of, bw_document document)
{
    static paper p;
    check_tables(of);
    for (int extent = BW_EXTENT_FULL; extent <= BW_EXTENT_LEAST; extent++) {
        const bw_report_options options = {.width = extent == 0 ? 200 : 60,
                                           .colour = extent == 1,
                                           .extent = (bw_extent)extent};
        write_document(&p, of, document, BW_FORM_TEXT, &options);
        check_letters(&p, options.colour);
        write_document(&p, of, document, BW_FORM_PAGE, &options);
        check_letters(&p, false);
        xmlFreeDoc(parse_page(&p));
    }
}

/* ---- figures ------------------------------------------------------------ */

/* "nan" or "inf" where a number would stand. */
static void check_finite(const char *text)
{
    static const char *const slips[] = {"nan", "inf", "NaN", "INF", "1.#"};
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++)
        for (const char *at = text; (at = strstr(at, slips[i])) != NULL; at++) {
            const unsigned char before = at == text ? ' '
                                                    : (unsigned char)at[-1];
            const unsigned char after = (unsigned char)at[strlen(slips[i])];
            FUZZ_REQUIRE(isalpha(before) || isalpha(after));
        }
}

enum { NUMBERS = 60000, DIGITS = 24 };

typedef struct numbers {
    char number[NUMBERS][DIGITS];
    size_t count;
} numbers;

/* Digits, with a point among them; not those within a word ("m2"). */
static void add_numbers(numbers *to, const char *text)
{
    for (const char *at = text; *at != '\0';) {
        size_t length = 0;
        while (isdigit((unsigned char)at[length]) ||
               (length > 0 && at[length] == '.' &&
                isdigit((unsigned char)at[length + 1])))
            length++;
        const char before = at == text ? ' ' : at[-1];
        if (length > 0 && !isalpha((unsigned char)before) &&
            (before & 0x80) == 0) {
            FUZZ_REQUIRE(to->count < NUMBERS);
            snprintf(to->number[to->count++], DIGITS, "%.*s", (int)length, at);
        }
        at += length > 0 ? length : 1;
    }
}

static int by_bytes(const void *a, const void *b)
{
    return strcmp(a, b);
}

static bool has_class(const xmlNode *node, const char *name)
{
    xmlChar *value = xmlGetProp((xmlNode *)node, (const xmlChar *)"class");
    const bool has = value != NULL && strstr((const char *)value, name) != NULL;
    xmlFree(value);
    return has;
}

/* What is drawn, or numbered for the page alone. */
static bool is_apart(const xmlNode *node)
{
    static const char *const kinds[] = {"figure", "svg", "style", "title"};
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        if (strcmp((const char *)node->name, kinds[i]) == 0)
            return true;
    return has_class(node, "number") || has_class(node, "key");
}

static void page_numbers(numbers *to, const xmlNode *node)
{
    for (; node != NULL; node = node->next) {
        if (node->type == XML_TEXT_NODE)
            add_numbers(to, (const char *)node->content);
        else if (node->type == XML_ELEMENT_NODE && !is_apart(node))
            page_numbers(to, node->children);
    }
}

/* Headings number their parts; bars are drawn with signs, and their heading,
 * "-1 .. 0 .. 1", may take two lines. */
static void text_numbers(numbers *to, char *text)
{
    static const char *const said[] = {"-1 .. 0 .. 1", "-1 .. 0", "0 .. 1",
                                       "-1 .."};
    for (char *line = text; line != NULL && *line != '\0';) {
        char *end = strchr(line, '\n');
        if (end != NULL)
            *end = '\0';
        char *heading = isdigit((unsigned char)line[0]) ? strstr(line, " ---")
                                                        : NULL;
        if (heading != NULL)
            memset(line, ' ', strspn(line, "0123456789"));
        if (strncmp(line, "  [", 3) == 0) /* a list that the page numbers */
            memset(line, ' ', 3 + strspn(line + 3, "0123456789"));
        if (strncmp(line, "# of all above", 14) == 0) /* of the text alone */
            *line = '\0';
        for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
            char *at = strstr(line, said[i]);
            if (at != NULL)
                memset(at, ' ', strlen(said[i]));
        }
        add_numbers(to, line);
        line = end != NULL ? end + 1 : NULL;
    }
}

/* Every number of the text stands on the page, as often; the page repeats some
 * (its contents, its key figures) and has no other. */
static void same_numbers(const xmlDoc *page, char *text)
{
    static numbers on_page, in_text;
    on_page.count = in_text.count = 0;
    page_numbers(&on_page, xmlDocGetRootElement((xmlDoc *)page));
    text_numbers(&in_text, text);
    qsort(on_page.number, on_page.count, DIGITS, by_bytes);
    qsort(in_text.number, in_text.count, DIGITS, by_bytes);
    size_t t = 0;
    for (size_t p = 0; p < on_page.count; p++) {
        const char *number = on_page.number[p];
        if (t < in_text.count && strcmp(in_text.number[t], number) == 0) {
            t++;
            continue;
        }
        const bool again = t > 0 && strcmp(in_text.number[t - 1], number) == 0;
        if (!again)
            fprintf(stderr, "page %s, text %s\n", number,
                    t < in_text.count ? in_text.number[t] : "none");
        FUZZ_REQUIRE(again);
    }
    FUZZ_REQUIRE(t == in_text.count);
}

/* ---- the rows of criteria on the page ----------------------------------- */

enum { ROWS = 400, CELLS = 8, CELL = 400 };

typedef struct shown_row {
    char cell[CELLS][CELL];
    bool used;
} shown_row;

typedef struct shown_rows {
    shown_row row[ROWS];
    size_t count;
} shown_rows;

static bool is(const xmlNode *node, const char *name)
{
    return node->type == XML_ELEMENT_NODE &&
           strcmp((const char *)node->name, name) == 0;
}

static const xmlNode *child(const xmlNode *node, const char *name)
{
    const xmlNode *n = node != NULL ? node->children : NULL;
    while (n != NULL && !is(n, name))
        n = n->next;
    return n;
}

/* The texts of a row, in their order; how many. */
static int texts_of(char text[CELLS][CELL], const xmlNode *tr)
{
    int count = 0;
    for (const xmlNode *n = tr->children; n != NULL; n = n->next) {
        if (!is(n, "th") && !is(n, "td"))
            continue;
        if (count == CELLS)
            return -1;
        xmlChar *content = xmlNodeGetContent((xmlNode *)n);
        snprintf(text[count++], CELL, "%s", (const char *)content);
        xmlFree(content);
    }
    return count;
}

static void take_table(shown_rows *to, const xmlNode *table)
{
    static const char *const names[CELLS] = {"Criterion", "Method", "Value",
                                             "Limit",     "Margin", "Unit",
                                             "Verdict",   "Rule"};
    static char text[CELLS][CELL];
    const xmlNode *head = child(child(table, "thead"), "tr");
    if (head == NULL || texts_of(text, head) != CELLS)
        return;
    for (int i = 0; i < CELLS; i++)
        if (strcmp(text[i], names[i]) != 0)
            return;
    for (const xmlNode *tr = child(child(table, "tbody"), "tr"); tr != NULL;
         tr = tr->next) {
        if (!is(tr, "tr") || texts_of(text, tr) != CELLS)
            continue;
        FUZZ_REQUIRE(to->count < ROWS);
        shown_row *row = &to->row[to->count++];
        row->used = false;
        memcpy(row->cell, text, sizeof text);
    }
}

static void take_rows(shown_rows *to, const xmlNode *node)
{
    for (; node != NULL; node = node->next) {
        if (is(node, "table"))
            take_table(to, node);
        else if (node->type == XML_ELEMENT_NODE)
            take_rows(to, node->children);
    }
}

/* To half a unit of its last digit, or three significant ones. */
static bool shows(const char *cell, bool has, double value, double scale)
{
    if (!has)
        return strpbrk(cell, "0123456789") == NULL;
    cell += cell[0] == '>';
    char *end = NULL;
    const double shown = strtod(cell, &end);
    if (end == cell)
        return false;
    const char *point = strchr(cell, '.');
    const double unit = point != NULL ? pow(10.0, -(double)strspn(point + 1,
                                                                  "0123456789"))
                                      : 1.0;
    const double off = fabs(shown - value * scale);
    return off <= 0.5000001 * unit || off <= 0.00501 * fabs(shown);
}

static bool is_shown(const bw_criterion *c, const shown_row *row)
{
    const bool grams = strncmp(c->unit, "kg", 2) == 0 && row->cell[5][0] == 'g';
    const double scale = grams ? 1000.0 : 1.0;
    const char *word = bw_verdict_text(c->verdict);
    return strcmp(row->cell[0], c->title) == 0 &&
           strncmp(row->cell[6], word, strlen(word)) == 0 &&
           shows(row->cell[2], c->has_value, c->value, scale) &&
           shows(row->cell[3], c->has_limit, c->limit, scale) &&
           shows(row->cell[4], c->has_value && c->has_limit, c->margin, scale);
}

static void check_rows(const xmlDoc *page, const bw_assessment *a)
{
    static shown_rows shown;
    shown.count = 0;
    take_rows(&shown, xmlDocGetRootElement((xmlDoc *)page));
    for (size_t i = 0; i < a->criterion_count; i++) {
        size_t k = 0;
        while (k < shown.count && (shown.row[k].used ||
                                   !is_shown(&a->criterion[i], &shown.row[k])))
            k++;
        if (k == shown.count)
            fprintf(stderr, "%s, %s: %g %s, limit %g\n",
                    a->criterion[i].section, a->criterion[i].title,
                    a->criterion[i].value, a->criterion[i].unit,
                    a->criterion[i].limit);
        FUZZ_REQUIRE(k < shown.count);
        shown.row[k].used = true;
    }
    FUZZ_REQUIRE(shown.count == a->criterion_count);
}

/* What is held against each other, for those who look into a find. */
static void show(const char *folder, const char *page, const char *text)
{
    for (int i = 0; i < 2; i++) {
        char path[400];
        snprintf(path, sizeof path, "%s/%s", folder,
                 i == 0 ? "page.html" : "text.txt");
        FILE *out = fopen(path, "w");
        FUZZ_REQUIRE(out != NULL);
        fputs(i == 0 ? page : text, out);
        fclose(out);
    }
}

void fuzz_check_figures(const bw_results *of, bw_document document)
{
    static paper page, text;
    const bw_report_options all = {.width = 200};
    fuzz_check_forms(of, document);
    write_document(&page, of, document, BW_FORM_PAGE, &all);
    write_document(&text, of, document, BW_FORM_TEXT, &all);
    check_finite(page.at);
    check_finite(text.at);
    const char *folder = getenv("FUZZ_SHOW");
    if (folder != NULL)
        show(folder, page.at, text.at);
    xmlDoc *doc = parse_page(&page);
    same_numbers(doc, text.at);
    if (document == BW_DOCUMENT_CHECK)
        check_rows(doc, of->wall[0]);
    xmlFreeDoc(doc);
}
