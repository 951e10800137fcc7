/* How a page is put together, asked of every page and of one made by hand: each
 * row of a table has the cells of its head and is named by its first, sentences
 * below a row reach across it, tables and parts are numbered and listed, a
 * number in brackets leads to the source of that number. */

#include <stdio.h>
#include <stdlib.h>

#include "full_choose.h"
#include "full_junction.h"
#include "full_replay.h"
#include "full_result.h"
#include "report/grid.h"
#include "report/html.h"
#include "report/spot.h"
#include "xml_tree.h"

static paper page_of;
static xmlDoc *doc;

static void form_teardown(void)
{
    xmlFreeDoc(doc);
    doc = NULL;
}

static void parse_page(void)
{
    xmlFreeDoc(doc);
    doc = xmlReadMemory(page_of.text, (int)page_of.used, "page", NULL,
                        XML_PARSE_NONET | XML_PARSE_HUGE);
    ck_assert_ptr_nonnull(doc);
}

static const bw_document documents[] = {
    BW_DOCUMENT_CHECK,  BW_DOCUMENT_COMPARE,  BW_DOCUMENT_MARGIN,
    BW_DOCUMENT_CHOOSE, BW_DOCUMENT_JUNCTION, BW_DOCUMENT_REPLAY};

static void print_document(bw_document which)
{
    const bw_report_options all = {.extent = BW_EXTENT_FULL};
    full_setup();
    full_junction_make(&meeting, &full_die);
    full_replay_make(&logged);
    full_choose_make(&choice, &wall.assessment);
    wall.results.junction = &meeting.assessment;
    wall.results.replay = &logged.replay;
    wall.results.chosen = &choice.chosen;
    paper_clear(&page_of);
    ck_assert_int_eq(bw_report(&wall.results, which, BW_FORM_PAGE, &all,
                               paper_take, &page_of, NULL),
                     BW_OK);
    parse_page();
}

/* A unit typed and set: signs that stand for a letter, and those between. */
static void as_typed(char *to, size_t size, const char *text)
{
    static const char *const set[][2] = {{"\u00b2", "2"},   {"\u00b3", "3"},
                                         {"\u00b0", "deg"}, {"\u00b7", ""},
                                         {".", ""},         {" ", ""}};
    size_t used = 0;
    while (*text != '\0') {
        size_t k = 0;
        while (k < COUNT(set) && strncmp(text, set[k][0], strlen(set[k][0])))
            k++;
        const size_t length = k < COUNT(set) ? strlen(set[k][1]) : 1;
        ck_assert_uint_lt(used + length, size);
        memcpy(to + used, k < COUNT(set) ? set[k][1] : text, length);
        used += length;
        text += k < COUNT(set) ? strlen(set[k][0]) : 1;
    }
    to[used] = '\0';
}

static void same_but_units(const char *a, const char *b)
{
    char typed[2][512];
    as_typed(typed[0], sizeof typed[0], a);
    as_typed(typed[1], sizeof typed[1], b);
    ck_assert_str_eq(typed[0], typed[1]);
}

/* ---- tables ---------------------------------------------------------------
 */

/* Figures stand on the right, below a title that does. */
static void cell_is(xmlNode *cell, size_t c, const xmlNode *head, bool stacks)
{
    const bool empty = words_of(cell)[0] == '\0';
    const bool named = c == 0 && !empty;
    ck_assert_str_eq((const char *)cell->name, named ? "th" : "td");
    has_value(cell, "scope", named ? "row" : "");
    char kind[16];
    snprintf(kind, sizeof kind, "%s", value_of(head, "class"));
    has_value(cell, "class", kind);
    char title[96];
    snprintf(title, sizeof title, "%s", words_of(head));
    const char *name = value_of(cell, "data-name");
    if (!stacks || c == 0 || empty)
        ck_assert_str_eq(name, "");
    else
        same_but_units(name, title);
}

/* True: a row of sentences. */
static bool row_is(xmlNode *row, xmlNode *head, bool stacks)
{
    const size_t columns = elements_of(head);
    if (strcmp(value_of(row, "class"), "note") == 0) {
        char count[16];
        snprintf(count, sizeof count, "%zu", columns);
        ck_assert_uint_eq(elements_of(row), 1);
        has_value(element(row, 0), "colspan", count);
        ck_assert(words_of(element(row, 0))[0] != '\0');
        return true;
    }
    ck_assert_uint_eq(elements_of(row), columns);
    for (size_t c = 0; c < columns; c++)
        cell_is(element(row, c), c, element(head, c), stacks);
    return false;
}

static size_t table_is(xmlNode *table)
{
    xmlNode *head = element(element(table, 0), 0), *body = element(table, 1);
    const bool stacks = strcmp(value_of(table, "class"), "stacks") == 0;
    const size_t rows = elements_of(body);
    size_t notes = 0;
    for (size_t c = 0; c < elements_of(head); c++) {
        const bool names = words_of(element(head, c))[0] != '\0';
        ck_assert_str_eq((const char *)element(head, c)->name,
                         names ? "th" : "td");
        has_value(element(head, c), "scope", names ? "col" : "");
    }
    for (size_t r = 0; r < rows; r++) {
        xmlNode *row = element(body, r);
        const bool noted = strcmp(value_of(row, "class"), "noted") == 0;
        const bool is_note = row_is(row, head, stacks);
        notes += is_note;
        if (is_note) {
            ck_assert_uint_gt(r, 0);
            has_value(element(body, r - 1), "class", "noted");
        }
        if (noted)
            ck_assert_uint_lt(r + 1, rows);
        if (noted)
            has_value(element(body, r + 1), "class", "note");
    }
    ck_assert(stacks == (notes > 0));
    return rows;
}

START_TEST(a_row_has_the_cells_of_its_head)
{
    print_document(documents[_i]);
    size_t rows = 0;
    nodes tables = find(doc, "//table");
    for (size_t i = 0; i < tables.count; i++)
        rows += table_is(tables.node[i]);
    ck_assert_uint_gt(rows, 0);
}
END_TEST

/* Counted through the page, and named by the title above. */
START_TEST(tables_are_counted_and_named)
{
    print_document(documents[_i]);
    nodes all = find(doc, "//h2[@id] | //h3 | //section[@class='wide']");
    int tables = 0;
    char title[256] = "";
    for (size_t i = 0; i < all.count; i++) {
        char label[300];
        if (strcmp((const char *)all.node[i]->name, "section") != 0) {
            const char *text = words_of(all.node[i]);
            const bool part = value_of(all.node[i], "id")[0] != '\0';
            snprintf(title, sizeof title, "%s",
                     part ? strchr(text, ' ') + 1 : text);
            continue;
        }
        snprintf(label, sizeof label, "Table %d: ", ++tables);
        const char *is = value_of(all.node[i], "aria-label");
        ck_assert_msg(strncmp(is, label, strlen(label)) == 0, "%s%s", label,
                      is);
        same_but_units(is + strlen(label), title);
        has_value(all.node[i], "tabindex", "0");
    }
    ck_assert_int_gt(tables, 0);
}
END_TEST

/* ---- parts, contents, sources ---------------------------------------------
 */

START_TEST(parts_are_numbered_and_listed)
{
    print_document(documents[_i]);
    nodes parts = find(doc, "//h2[@id]");
    nodes list = find(doc, "//nav[@class='contents']//li");
    ck_assert_uint_gt(parts.count, 0);
    if (documents[_i] == BW_DOCUMENT_CHECK)
        ck_assert_uint_eq(list.count, parts.count);
    for (size_t i = 0; i < parts.count; i++) {
        char id[32], title[256];
        snprintf(id, sizeof id, "part-%zu", i + 1);
        has_value(parts.node[i], "id", id);
        snprintf(title, sizeof title, "%s", words_of(parts.node[i]));
        ck_assert_int_eq(atoi(title), (int)i + 1);
        if (list.count == 0)
            continue;
        ck_assert_str_eq(words_of(list.node[i]), strchr(title, ' ') + 1);
        snprintf(id, sizeof id, "#part-%zu", i + 1);
        has_value(element(list.node[i], 0), "href", id);
    }
}
END_TEST

/* What is cited stands in the list, under its number. */
START_TEST(a_citation_leads_to_its_source)
{
    print_document(BW_DOCUMENT_CHECK);
    nodes list = find(doc, "//ol[@class='sources']/li");
    nodes cited = find(doc, "//a[starts-with(@href, '#source-')]");
    ck_assert_uint_gt(list.count, 1);
    ck_assert_uint_ge(cited.count, list.count);
    for (size_t i = 0; i < list.count; i++) {
        char id[32];
        snprintf(id, sizeof id, "source-%zu", i + 1);
        has_value(list.node[i], "id", id);
        ck_assert(words_of(list.node[i])[0] != '\0');
    }
    for (size_t i = 0; i < cited.count; i++) {
        const char *number = words_of(cited.node[i]);
        char href[32];
        ck_assert_int_eq(number[0], '[');
        const int is = atoi(number + 1);
        ck_assert_int_ge(is, 1);
        ck_assert_int_le(is, (int)list.count);
        snprintf(href, sizeof href, "#source-%d", is);
        has_value(cited.node[i], "href", href);
    }
}
END_TEST

/* ---- the figures of the first sheet ---------------------------------------
 */

enum { ROWS = 7, SHOWN = 3, CRITERIA = 4 };

static bw_criterion row[ROWS];
static char title[ROWS][16];

static void random_rows(void)
{
    static const char *const criteria[CRITERIA] = {
        "annual-balance", "surface-mould", "standing-water", "wood-moisture"};
    for (size_t i = 0; i < ROWS; i++) {
        snprintf(title[i], sizeof title[i], "Row %zu", i);
        row[i] = wall.criterion[0];
        row[i].criterion = criteria[(size_t)between(&full_die, 0.0, 3.999)];
        row[i].title = title[i];
        row[i].decides = uniform(&full_die) < 0.8;
        row[i].has_value = uniform(&full_die) < 0.8;
        row[i].has_limit = uniform(&full_die) < 0.8;
        row[i].margin = between(&full_die, -0.5, 0.5);
        row[i].verdict = row[i].margin < 0.0   ? BW_FAILS
                         : row[i].margin < 0.1 ? BW_MARGINAL
                                               : BW_HOLDS;
        row[i].outcome = row[i].verdict;
    }
    wall.assessment.criterion = row;
    wall.assessment.criterion_count = ROWS;
    const size_t n = (size_t)between(&full_die, 0.0, ROWS + 0.999);
    wall.assessment.deciding = n < ROWS ? &row[n] : NULL;
}

static bool can_be_shown(const bw_criterion *of)
{
    return of->decides && of->has_value && of->has_limit;
}

/* Of those not yet there the worst: none of a criterion that is there. */
static const bw_criterion *next_of(const bw_criterion *const *there,
                                   size_t count)
{
    const bw_criterion *worst = NULL;
    if (count == 0 && wall.assessment.deciding != NULL &&
        can_be_shown(wall.assessment.deciding))
        return wall.assessment.deciding;
    for (size_t i = 0; i < ROWS; i++) {
        bool is_there = false;
        for (size_t k = 0; k < count; k++)
            is_there = is_there ||
                       strcmp(there[k]->criterion, row[i].criterion) == 0;
        if (!is_there && can_be_shown(&row[i]) &&
            (worst == NULL || bw_row_badness(&row[i]) > bw_row_badness(worst)))
            worst = &row[i];
    }
    return worst;
}

/* The one that decides, then each criterion once where it is worst, the worst
 * first; three at most. */
START_TEST(the_first_sheet_has_the_worst_figures)
{
    size_t seen[SHOWN + 1] = {0};
    full_setup();
    for (int draw = 0; draw < 60; draw++) {
        const bw_criterion *there[SHOWN + 1];
        size_t count = 0;
        random_rows();
        paper_clear(&page_of);
        ck_assert_int_eq(check_report(BW_FORM_PAGE, &wall.assessment, NULL,
                                      paper_take, &page_of, NULL),
                         BW_OK);
        parse_page();
        nodes shown = find(doc, "//ul[@class='figures']/li");
        while (count < SHOWN && (there[count] = next_of(there, count)) != NULL)
            count++;
        ck_assert_uint_eq(shown.count, count);
        for (size_t i = 0; i < count; i++) {
            char text[64];
            snprintf(text, sizeof text, "%s; limit ", there[i]->title);
            ck_assert_msg(strstr(words_of(shown.node[i]), text) != NULL,
                          "not '%s' but '%s'", text, words_of(shown.node[i]));
            ck_assert_str_eq(words_of(element(shown.node[i], 1)),
                             bw_verdict_text(there[i]->verdict));
        }
        seen[count]++;
    }
    ck_assert(seen[1] > 0 && seen[2] > 0 && seen[SHOWN] > 0);
}
END_TEST

/* ---- a page made by hand --------------------------------------------------
 */

static bw_html html;

static void start_page(void)
{
    static const bw_report_options plain;
    paper_clear(&page_of);
    bw_html_start(&html, paper_take, &page_of, "a wall", "Check", "foot");
    html.page.options = &plain;
}

static void end_page(void)
{
    ck_assert_int_eq(html.page.form->finish(&html.page, "the page", NULL),
                     BW_OK);
    parse_page();
}

/* Up to the number of sources that there are; nothing else in brackets. */
START_TEST(only_a_number_of_a_source_is_a_link)
{
    start_page();
    bw_lead(&html.page, "title");
    for (int i = 0; i < 12; i++)
        bw_page_cite(&html.page, bw_phrase(&html.page, "source %d", i));
    bw_text(&html.page, "[1] [12] [13] [0012] [] [a] [1 [999] [2]x g[3]");
    end_page();
    static const char *const links[] = {"#source-1", "#source-12", "#source-2",
                                        "#source-3"};
    static const char *const words[] = {"[1]", "[12]", "[2]", "[3]"};
    nodes cited = find(doc, "//a");
    ck_assert_uint_eq(cited.count, COUNT(links));
    for (size_t i = 0; i < COUNT(links); i++) {
        has_value(cited.node[i], "href", links[i]);
        ck_assert_str_eq(words_of(cited.node[i]), words[i]);
    }
    nodes text = find(doc, "//p[contains(., '[13]')]");
    ck_assert_uint_eq(text.count, 1);
    ck_assert_str_eq(words_of(text.node[0]),
                     "[1] [12] [13] [0012] [] [a] [1 [999] [2]x g[3]");
}
END_TEST

/* A verdict is a word of its own at the start of a cell, or of what stands
 * behind the colon of a lead. */
static const struct verdict_row {
    const char *text, *is; /* NULL: none */
} verdicts[] = {
    {"fails", "verdict fails"},
    {"fails, in part", "verdict fails"},
    {"holds: so far", "verdict holds"},
    {"marginal; near", "verdict marginal"},
    {"not assessed.", "verdict open"},
    {"would hold", "verdict holds"},
    {"NOT released", "verdict fails"},
    {"failsafe", NULL},
    {"it fails", NULL},
    {"holdst", NULL},
    {"", NULL},
};

START_TEST(a_verdict_is_set_apart_where_it_stands_alone)
{
    const struct verdict_row *row = &verdicts[_i];
    start_page();
    bw_lead(&html.page, "title");
    bw_lead(&html.page, "Verdict: %s", row->text);
    bw_grid grid = {.page = &html.page};
    bw_grid_row_start(&grid);
    bw_name(&grid, "Name", row->text);
    bw_words(&grid, "Verdict", row->text);
    bw_grid_print(&grid);
    end_page();
    nodes found = find(doc, "//b");
    ck_assert_uint_eq(found.count, row->is != NULL ? 2 : 0);
    for (size_t i = 0; i < found.count; i++) {
        has_value(found.node[i], "class", row->is);
        ck_assert(strncmp(row->text, words_of(found.node[i]),
                          strlen(words_of(found.node[i]))) == 0);
        ck_assert_str_eq((const char *)found.node[i]->parent->name,
                         i == 0 ? "p" : "td");
    }
    nodes lead = find(doc, "//*[@class='lead']");
    char text[64];
    snprintf(text, sizeof text, "Verdict: %s", row->text);
    ck_assert_uint_eq(lead.count, 1);
    ck_assert_str_eq(words_of(lead.node[0]), text);
    ck_assert_str_eq((const char *)lead.node[0]->name,
                     row->is != NULL ? "p" : "h2");
}
END_TEST

/* Sentences below a row end with a stop each before the next begins. */
START_TEST(sentences_below_a_row_are_told_apart)
{
    start_page();
    bw_lead(&html.page, "title");
    bw_grid grid = {.page = &html.page};
    for (int r = 0; r < 3; r++) {
        bw_grid_row_start(&grid);
        bw_name(&grid, "Name", r == 2 ? "" : "a");
        bw_bar(&grid, "0 to 1", "##");
        bw_number(&grid, "W/(m2.K)", "%d", r);
        if (r != 1)
            bw_remark(&grid, "no stop");
        if (r == 2) {
            bw_remark(&grid, "with a stop.");
            bw_remark(&grid, "a colon:");
            bw_remark(&grid, "half;");
            bw_remark(&grid, "the last");
        }
    }
    bw_grid_print(&grid);
    end_page();
    nodes notes = find(doc, "//tr[@class='note']/td");
    ck_assert_uint_eq(notes.count, 2);
    ck_assert_str_eq(words_of(notes.node[0]), "no stop");
    ck_assert_str_eq(words_of(notes.node[1]),
                     "no stop. with a stop. a colon: half; the last");
    nodes tables = find(doc, "//table");
    ck_assert_uint_eq(table_is(tables.node[0]), 5);
    /* the bar has a chart of its own */
    ck_assert_uint_eq(find(doc, "//thead//th").count, 2);
}
END_TEST

START_TEST(items_and_pairs_gather_into_lists)
{
    start_page();
    bw_lead(&html.page, "title");
    bw_item(&html.page, "one");
    bw_item(&html.page, "two");
    bw_pair(&html.page, "U", "0.2");
    bw_pair(&html.page, "Of both", "%s", "");
    bw_pair(&html.page, "  sub", "0.3");
    bw_text(&html.page, "between");
    bw_item(&html.page, "three");
    bw_subheading(&html.page, "below");
    bw_item(&html.page, "four");
    end_page();
    ck_assert_uint_eq(find(doc, "//ul").count, 3);
    ck_assert_uint_eq(find(doc, "//ul[1]/li[2]").count, 1);
    ck_assert_uint_eq(find(doc, "//dl").count, 1);
    ck_assert_uint_eq(find(doc, "//dl/dt").count, 3);
    ck_assert_uint_eq(find(doc, "//dl/dd").count, 3);
    nodes none = find(doc, "//dd[@class='none']");
    ck_assert_uint_eq(none.count, 1);
    nodes sub = find(doc, "//dt[@class='sub']");
    ck_assert_uint_eq(sub.count, 1);
    ck_assert_str_eq(words_of(sub.node[0]), "sub");
    ck_assert_uint_eq(find(doc, "//ul//p | //dl//p | //ul//ul").count, 0);
}
END_TEST

SUITE_AROUND("page_form", setup, form_teardown,
             EACH(a_row_has_the_cells_of_its_head, COUNT(documents)),
             EACH(tables_are_counted_and_named, COUNT(documents)),
             EACH(parts_are_numbered_and_listed, COUNT(documents)),
             FACT(the_first_sheet_has_the_worst_figures),
             FACT(a_citation_leads_to_its_source),
             FACT(only_a_number_of_a_source_is_a_link),
             EACH(a_verdict_is_set_apart_where_it_stands_alone,
                  COUNT(verdicts)),
             FACT(sentences_below_a_row_are_told_apart),
             FACT(items_and_pairs_gather_into_lists))
