/* Three forms, one content: of every part of every document the same words and
 * numbers stand in the text and on the page, charts aside. Walls are those that
 * ship with the project. */

#include <ctype.h>
#include <libxml/parser.h>
#include <stdio.h>

#include "bothways/bothways.h"
#include "paper.h"
#include "report/html.h"
#include "report/part.h"
#include "suite.h"

enum { WALLS = 4, WORDS_MOST = 40000, WORD = 48, WIDE = 200 };

static const char *const names[WALLS] = {
    "estuary-fibre", "estuary-mineral-foil", "estuary-mineral-variable",
    "upland-closing-refused"};

static bw_library *library;
static bw_assembly *wall[WALLS];
static bw_climate *climate[2]; /* months, and hours made from them */

/* ---- words ------------------------------------------------------------- */

typedef struct words {
    char word[WORDS_MOST][WORD];
    size_t count;
} words;

static bool in_word(const char *text, const char *at)
{
    const bool point = *at == '.' && at > text &&
                       isdigit((unsigned char)at[-1]) &&
                       isdigit((unsigned char)at[1]);
    return point || isalnum((unsigned char)*at) || (*at & 0x80) != 0;
}

/* Units as people set them, and as they are typed. */
static const char *const set[][2] = {
    {"\u00b2", "2"}, {"\u00b3", "3"}, {"\u00b7", " "}, {"\u00b0C", "degC"}};

static void add_words(words *to, const char *given)
{
    static char text[PAPER_SIZE];
    size_t used = 0;
    while (*given != '\0') {
        size_t k = 0;
        while (k < 4 && strncmp(given, set[k][0], strlen(set[k][0])) != 0)
            k++;
        ck_assert_uint_lt(used + 4, sizeof text);
        const char *put = k < 4 ? set[k][1] : given;
        const size_t length = k < 4 ? strlen(put) : 1;
        memcpy(text + used, put, length);
        used += length;
        given += k < 4 ? strlen(set[k][0]) : 1;
    }
    text[used] = '\0';
    for (const char *at = text; *at != '\0';) {
        size_t length = 0;
        while (at[length] != '\0' && in_word(text, at + length))
            length++;
        if (length > 0) {
            ck_assert_uint_lt(to->count, WORDS_MOST);
            snprintf(to->word[to->count++], WORD, "%.*s", (int)length, at);
        }
        at += length > 0 ? length : 1;
    }
}

static int by_bytes(const void *a, const void *b)
{
    return strcmp(a, b);
}

/* What of a page is drawn, or says what is drawn. */
static bool is_drawn(const xmlNode *node)
{
    static const char *const kinds[] = {"figure", "svg", "style", "title"};
    for (size_t i = 0; i < 4; i++)
        if (node->type == XML_ELEMENT_NODE &&
            strcmp((const char *)node->name, kinds[i]) == 0)
            return true;
    return false;
}

static void add_nodes(words *to, const xmlNode *node)
{
    for (; node != NULL; node = node->next) {
        if (node->type == XML_TEXT_NODE)
            add_words(to, (const char *)node->content);
        else if (!is_drawn(node))
            add_nodes(to, node->children);
    }
}

/* ---- a part in both forms ---------------------------------------------- */

static paper sheet;

static bw_report_options plain; /* its extent: of the test that runs */

static const char *text_of(const bw_part *part, const bw_results *of)
{
    bw_page page;
    paper_clear(&sheet);
    bw_text_start(&page, WIDE, false, paper_take, &sheet);
    page.options = &plain;
    bw_part_put(&page, part, of);
    ck_assert_int_eq(bw_page_finish(&page, "the part", NULL), BW_OK);
    return sheet.text;
}

/* Bars are characters that a page draws; so is the sentence about them. */
static void leave_out_bars(char *text)
{
    static const char *const said[] = {
        "Margin -1 .. 0 .. 1",
        ("Bar: how far the criterion that moves most moves, as a share of its "
         "limit: | the limit, = holds, # fails, o as drawn; no bar: nothing "
         "moves."),
        "Drawn",
        ("Bar: a sign a point from nought on; # from the lowest to the highest "
         "of the day, a: allowed, c: critical.")};
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        char *at = strstr(text, said[i]);
        if (at != NULL)
            memset(at, ' ', strlen(said[i]));
    }
    for (char *at = text; *at != '\0'; at++) {
        const size_t length = strspn(at, ".#=|oac");
        if (length == 21 || length == 31)
            memset(at, ' ', length);
        else if (length > 0)
            at += length - 1;
    }
}

static void words_of_text(words *out, const bw_part *part, const bw_results *of)
{
    out->count = 0;
    text_of(part, of);
    leave_out_bars(sheet.text);
    add_words(out, sheet.text);
    qsort(out->word, out->count, WORD, by_bytes);
}

static void words_of_page(words *out, const bw_part *part, const bw_results *of)
{
    bw_html html;
    out->count = 0;
    paper_clear(&sheet);
    bw_html_start(&html, paper_take, &sheet, "of", "kind", "foot");
    html.page.options = &plain;
    bw_part_put(&html.page, part, of);
    ck_assert_int_eq(html.page.form->finish(&html.page, "the part", NULL),
                     BW_OK);
    xmlDoc *doc = xmlReadMemory(sheet.text, (int)sheet.used, "page", NULL,
                                XML_PARSE_NONET | XML_PARSE_HUGE);
    ck_assert_ptr_nonnull(doc);
    add_nodes(out, xmlDocGetRootElement(doc)->children);
    qsort(out->word, out->count, WORD, by_bytes);
    xmlFreeDoc(doc);
    /* "kind" heads every page */
    for (size_t i = 0; i < out->count; i++)
        if (strcmp(out->word[i], "kind") == 0) {
            memmove(out->word[i], out->word[i + 1],
                    (out->count - i - 1) * WORD);
            out->count--;
            break;
        }
}

static size_t same_in_both_forms(const bw_part *part, const bw_results *of,
                                 const char *wall_name)
{
    static words text, page;
    words_of_text(&text, part, of);
    words_of_page(&page, part, of);
    for (size_t i = 0; i < text.count || i < page.count; i++)
        ck_assert_msg(i < text.count && i < page.count &&
                          strcmp(text.word[i], page.word[i]) == 0,
                      "%s, %s: '%s' in the text, '%s' on the page", wall_name,
                      part->id, i < text.count ? text.word[i] : "",
                      i < page.count ? page.word[i] : "");
    return text.count;
}

/* Every part that is not drawn; how many said something. */
static size_t parts_agree(bw_document document, const bw_results *of,
                          const char *wall_name)
{
    size_t said = 0;
    for (const bw_listed *l = bw_document_parts(document); l->part != NULL; l++)
        if (!l->part->drawn)
            said += same_in_both_forms(l->part, of, wall_name) > 0;
    return said;
}

/* ---- the walls --------------------------------------------------------- */

static void setup(void)
{
    char path[256];
    const char *folder = BW_SOURCE_DIR "/materials";
    bw_error err = {0};
    plain = (bw_report_options){0};
    ck_assert_msg(bw_library_read(&library, &folder, 1, &err) == BW_OK, "%s",
                  err.message);
    for (size_t i = 0; i < WALLS; i++) {
        snprintf(path, sizeof path, BW_SOURCE_DIR "/assemblies/%s.xml",
                 names[i]);
        ck_assert_msg(bw_assembly_read(&wall[i], path, library, &err) == BW_OK,
                      "%s", err.message);
    }
    ck_assert_int_eq(
        bw_climate_read(&climate[0],
                        BW_SOURCE_DIR "/assemblies/climates/estuary.csv", &err),
        BW_OK);
    ck_assert_int_eq(bw_climate_generate(&climate[1], climate[0], &err), BW_OK);
}

static void teardown(void)
{
    for (size_t i = 0; i < WALLS; i++)
        bw_assembly_free(wall[i]);
    bw_climate_free(climate[0]);
    bw_climate_free(climate[1]);
    bw_library_free(library);
}

static const bw_assessment_options steady = {.threads = 1,
                                             .no_transient = true};
static const bw_assessment_options hourly = {
    .transient = {.max_years = 1, .keep_hours = true}};

START_TEST(a_check_says_the_same_in_text_and_page)
{
    bw_assessment *found = NULL;
    bw_error err = {0};
    const bool simulated = _i == 0; /* by months the others */
    ck_assert_msg(bw_assess(&found, wall[_i], climate[simulated],
                            simulated ? &hourly : &steady, &err) == BW_OK,
                  "%s", err.message);
    const bw_assessment *const checked = found;
    const bw_results of = {.wall_count = 1, .wall = &checked};
    ck_assert_uint_ge(parts_agree(BW_DOCUMENT_CHECK, &of, names[_i]), 12);
    ck_assert_uint_eq(parts_agree(BW_DOCUMENT_WALLS, &of, names[_i]), 1);
    plain.extent = BW_EXTENT_SCREEN;
    ck_assert_uint_ge(parts_agree(BW_DOCUMENT_CHECK, &of, names[_i]), 14);
    bw_assessment_free(found);
}
END_TEST

START_TEST(an_audit_and_its_margin_say_the_same_in_text_and_page)
{
    bw_audit *audit = NULL;
    bw_error err = {0};
    const bw_audit_options options = {.assessment = steady};
    ck_assert_msg(bw_audit_make(&audit, wall[_i], climate[0], &options, &err) ==
                      BW_OK,
                  "%s", err.message);
    const bw_assessment *const checked = audit->assessment;
    const bw_results of = {.wall_count = 1,
                           .wall = &checked,
                           .audit = audit,
                           .margin = audit->margin};
    ck_assert_uint_ge(parts_agree(BW_DOCUMENT_AUDIT, &of, names[_i]), 18);
    ck_assert_uint_ge(parts_agree(BW_DOCUMENT_PLAN, &of, names[_i]), 3);
    ck_assert_uint_ge(parts_agree(BW_DOCUMENT_MARGIN, &of, names[_i]), 6);
    bw_audit_free(audit);
}
END_TEST

START_TEST(a_house_says_the_same_in_text_and_page)
{
    bw_house *house = NULL;
    bw_error err = {0};
    const bw_climate *climates[WALLS] = {climate[0], climate[0], climate[0],
                                         climate[0]};
    const bw_audit_options options = {
        .assessment = steady, .name = "the house", .no_margin = true};
    ck_assert_msg(bw_house_make(&house, (const bw_assembly *const *)wall,
                                climates, WALLS, &options, &err) == BW_OK,
                  "%s", err.message);
    const bw_results of = {.house = house};
    ck_assert_uint_eq(parts_agree(BW_DOCUMENT_HOUSE, &of, "four walls"), 8);
    bw_house_free(house);
}
END_TEST

START_TEST(a_comparison_says_the_same_in_text_and_page)
{
    bw_comparison *c = NULL;
    bw_error err = {0};
    const bw_climate *climates[WALLS] = {climate[0], climate[0], climate[0],
                                         climate[0]};
    const bw_compare_options options = {.assessment = steady,
                                        .conditions_may_differ = true};
    ck_assert_msg(bw_compare(&c, (const bw_assembly *const *)wall, climates, 2,
                             &options, &err) == BW_OK,
                  "%s", err.message);
    const bw_results of = {.comparison = c};
    ck_assert_uint_eq(parts_agree(BW_DOCUMENT_COMPARE, &of, "two walls"), 11);
    bw_comparison_free(c);
}
END_TEST

START_TEST(a_replay_says_the_same_in_text_and_page)
{
    static const char folder[] = BW_SOURCE_DIR "/assemblies/measured/";
    char path[256];
    bw_assembly *measured = NULL;
    bw_log *log = NULL;
    bw_replay *replay = NULL;
    bw_error err = {0};
    snprintf(path, sizeof path, "%snorth-wall.xml", folder);
    ck_assert_int_eq(bw_assembly_read(&measured, path, library, &err), BW_OK);
    snprintf(path, sizeof path, "%snorth-wall-log.csv", folder);
    ck_assert_int_eq(bw_log_read(&log, path, NULL, &err), BW_OK);
    ck_assert_msg(bw_replay_make(&replay, measured, log, NULL, NULL, &err) ==
                      BW_OK,
                  "%s", err.message);
    const bw_results of = {.replay = replay};
    ck_assert_uint_ge(parts_agree(BW_DOCUMENT_REPLAY, &of, "measured"), 7);
    bw_replay_free(replay);
    bw_log_free(log);
    bw_assembly_free(measured);
}
END_TEST

START_TEST(each_part_is_in_a_list_once_and_brief_parts_come_first)
{
    for (int d = 0; d < BW_DOCUMENT_COUNT; d++) {
        const bw_listed *all = bw_document_parts((bw_document)d);
        ck_assert_int_eq(all[0].level, BW_LEAST);
        for (size_t i = 0; all[i].part != NULL; i++)
            for (size_t k = 0; k < i; k++)
                ck_assert_str_ne(all[i].part->id, all[k].part->id);
    }
}
END_TEST

START_TEST(what_the_results_do_not_hold_is_refused)
{
    const bw_results none = {0};
    for (int d = 0; d <= BW_DOCUMENT_COUNT; d++) {
        bw_error err = {0};
        ck_assert_int_eq(bw_report(&none, (bw_document)d, BW_FORM_TEXT, NULL,
                                   paper_refuse, NULL, &err),
                         BW_ERR_DOMAIN);
        ck_assert_ptr_nonnull(strstr(err.message, "hold no document"));
    }
}
END_TEST

SUITE_AROUND("parts", setup, teardown,
             EACH(a_check_says_the_same_in_text_and_page, WALLS),
             EACH(an_audit_and_its_margin_say_the_same_in_text_and_page, WALLS),
             FACT(a_house_says_the_same_in_text_and_page),
             FACT(a_comparison_says_the_same_in_text_and_page),
             FACT(a_replay_says_the_same_in_text_and_page),
             FACT(each_part_is_in_a_list_once_and_brief_parts_come_first),
             FACT(what_the_results_do_not_hold_is_refused))
