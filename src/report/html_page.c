/* The page: head, parts, lists, tables; see bw_page_form. */

#include <string.h>

#include "bothways/bothways.h"
#include "fail.h"
#include "grid.h"
#include "html.h"

/* ---- text -------------------------------------------------------------- */

/* Longer ones first: "kg/(m2 a)" before "m2". */
static const struct unit {
    const char *plain, *set;
} units[] = {
    {"W/(m2.K)", "W/(m\u00b2\u00b7K)"},
    {"m2.K/W", "m\u00b2\u00b7K/W"},
    {"W/(m.K)", "W/(m\u00b7K)"},
    {"m3/(m2.h)", "m\u00b3/(m\u00b2\u00b7h)"},
    {"m3/(m2 h)", "m\u00b3/(m\u00b2\u00b7h)"},
    {"kg/(m2.s^0.5)", "kg/(m\u00b2\u00b7s^0.5)"},
    {"kg/(m.s.Pa)", "kg/(m\u00b7s\u00b7Pa)"},
    {"J/(kg.K)", "J/(kg\u00b7K)"},
    {"g/(m2 a)", "g/(m\u00b2\u00b7a)"},
    {"m2 K/W", "m\u00b2\u00b7K/W"},
    {"g/m2", "g/m\u00b2"},
    {"kg/m3", "kg/m\u00b3"},
    {"degC", "\u00b0C"},
};

static const struct unit *unit_at(const char *text)
{
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++)
        if (strncmp(text, units[i].plain, strlen(units[i].plain)) == 0)
            return &units[i];
    return NULL;
}

/* "[12]": returns its length and the number, or 0. */
static size_t citation_at(const char *text, size_t *number)
{
    size_t digits = text[0] == '[' ? strspn(text + 1, "0123456789") : 0;
    if (digits == 0 || digits > 3 || text[digits + 1] != ']')
        return 0;
    *number = 0;
    for (size_t i = 1; i <= digits; i++)
        *number = 10 * *number + (size_t)(text[i] - '0');
    return digits + 2;
}

static void put_citation(bw_html *html, const char *text, size_t length,
                         size_t number)
{
    bw_tag_open(&html->out, "a", NULL);
    bw_tag_set(&html->out, "href",
               bw_phrase(&html->page, "#source-%zu", number));
    bw_tag_part(&html->out, text, length);
    bw_tag_close(&html->out);
}

void bw_html_text(bw_html *html, const char *text)
{
    size_t number = 0;
    while (*text != '\0') {
        size_t length = strcspn(text, "WmgkdJ[");
        bw_tag_part(&html->out, text, length);
        text += length;
        if (*text == '\0')
            break;
        const struct unit *unit = unit_at(text);
        size_t cited = citation_at(text, &number);
        if (unit != NULL) {
            bw_tag_text(&html->out, unit->set);
            text += strlen(unit->plain);
        } else if (cited > 0 && number <= html->page.sources) {
            put_citation(html, text, cited, number);
            text += cited;
        } else {
            bw_tag_part(&html->out, text, 1);
            text++;
        }
    }
}

/* Verdict words are set apart by weight and frame, not by colour. */
static const struct verdict_word {
    const char *word, *class_name;
} verdict_words[] = {
    {"fails", "fails"},        {"marginal", "marginal"},
    {"holds", "holds"},        {"not assessed", "open"},
    {"would fail", "fails"},   {"would hold", "holds"},
    {"NOT released", "fails"}, {"released", "holds"},
};

/* Length of the verdict at the start of text, or 0. */
static size_t verdict_at(const char *text, const char **class_name)
{
    size_t count = sizeof verdict_words / sizeof verdict_words[0];
    for (size_t i = 0; i < count; i++) {
        size_t length = strlen(verdict_words[i].word);
        if (strncmp(text, verdict_words[i].word, length) == 0 &&
            (text[length] == '\0' || strchr(" :,.;", text[length]) != NULL)) {
            *class_name = verdict_words[i].class_name;
            return length;
        }
    }
    return 0;
}

static void verdict_text(bw_html *html, const char *text)
{
    const char *class_name = "";
    size_t length = verdict_at(text, &class_name);
    if (length > 0) {
        bw_tag_open(&html->out, "b",
                    bw_phrase(&html->page, "verdict %s", class_name));
        bw_tag_part(&html->out, text, length);
        bw_tag_close(&html->out);
    }
    bw_html_text(html, text + length);
}

/* ---- the form's functions ---------------------------------------------- */

static bw_html *of(bw_page *page)
{
    return (bw_html *)page;
}

void bw_html_end_list(bw_html *html)
{
    if (html->list != BW_LIST_NONE)
        bw_tag_close(&html->out);
    html->list = BW_LIST_NONE;
}

static void start_list(bw_html *html, bw_html_list list)
{
    if (html->list == list)
        return;
    bw_html_end_list(html);
    bw_tag_open(&html->out, list == BW_LIST_ITEMS ? "ul" : "dl", NULL);
    html->list = list;
}

static void put_heading(bw_page *page, const char *title)
{
    bw_html *html = of(page);
    bw_html_end_list(html);
    if (html->in_section)
        bw_tag_close(&html->out);
    bw_tag_open(&html->out, "section", NULL);
    html->in_section = true;
    html->last_title = title;
    bw_tag_open(&html->out, "h2", NULL);
    bw_tag_set(&html->out, "id", bw_phrase(page, "part-%d", page->headings));
    bw_tag_whole(&html->out, "span", "number",
                 bw_phrase(page, "%d", page->headings));
    bw_tag_text(&html->out, " ");
    bw_html_text(html, title);
    bw_tag_close(&html->out);
}

static void put_subheading(bw_page *page, const char *title)
{
    bw_html *html = of(page);
    bw_html_end_list(html);
    html->last_title = title;
    bw_tag_open(&html->out, "h3", NULL);
    bw_html_text(html, title);
    bw_tag_close(&html->out);
}

/* The first bold line is the page's title; a later one is a lead, in which
 * what follows the last colon may be a verdict. */
static void put_bold(bw_html *html, const char *text)
{
    if (!html->has_title) {
        html->has_title = true;
        bw_tag_whole(&html->out, "h1", NULL, text);
        return;
    }
    const char *colon = strstr(text, ": ");
    const char *class_name = "";
    bool verdict = colon != NULL && verdict_at(colon + 2, &class_name) > 0;
    bw_tag_open(&html->out, verdict ? "p" : "h3", verdict ? "lead" : NULL);
    if (verdict) {
        bw_tag_part(&html->out, text, (size_t)(colon + 2 - text));
        text = colon + 2;
    }
    verdict_text(html, text);
    bw_tag_close(&html->out);
}

static void put_text(bw_page *page, const char *text, bool hanging)
{
    bw_html *html = of(page);
    bw_html_end_list(html);
    if (page->bold) {
        put_bold(html, text);
        return;
    }
    bw_tag_open(&html->out, "p", hanging ? "hang" : NULL);
    bw_html_text(html, text);
    bw_tag_close(&html->out);
}

static void put_item(bw_page *page, const char *text)
{
    bw_html *html = of(page);
    start_list(html, BW_LIST_ITEMS);
    bw_tag_open(&html->out, "li", NULL);
    bw_html_text(html, text);
    bw_tag_close(&html->out);
}

static void put_pair(bw_page *page, const char *label, const char *text)
{
    bw_html *html = of(page);
    size_t indent = strspn(label, " ");
    start_list(html, BW_LIST_PAIRS);
    bw_tag_open(&html->out, "dt", indent > 0 ? "sub" : NULL);
    bw_html_text(html, label + indent);
    bw_tag_close(&html->out);
    bw_tag_open(&html->out, "dd", text[0] == '\0' ? "none" : NULL);
    bw_html_text(html, text);
    bw_tag_close(&html->out);
}

static void put_cell(bw_html *html, const bw_grid_column *column, size_t c,
                     const char *text, bool stacks)
{
    bw_tag_open(&html->out, c == 0 ? "th" : "td",
                column->right ? "figure" : NULL);
    if (stacks && c > 0 && text[0] != '\0')
        bw_tag_set(&html->out, "data-name", column->title);
    if (c == 0)
        bw_tag_set(&html->out, "scope", "row");
    if (c == 0)
        bw_html_text(html, text);
    else
        verdict_text(html, text);
    bw_tag_close(&html->out);
}

static void put_row(bw_html *html, const bw_grid *grid, const bw_grid_row *row,
                    bool stacks)
{
    bw_tag_open(&html->out, "tr", row->notes > 0 ? "noted" : NULL);
    for (size_t c = 0; c < grid->columns; c++)
        put_cell(html, &grid->column[c], c, row->cell[c], stacks);
    bw_tag_close(&html->out);
    if (row->notes == 0)
        return;
    bw_tag_open(&html->out, "tr", "note");
    bw_tag_open(&html->out, "td", NULL);
    bw_tag_set(&html->out, "colspan",
               bw_phrase(&html->page, "%zu", grid->columns));
    for (size_t i = 0; i < row->notes; i++) {
        if (i > 0)
            bw_tag_text(&html->out, " ");
        bw_html_text(html, row->note[i]);
        size_t length = strlen(row->note[i]);
        if (i + 1 < row->notes && length > 0 &&
            strchr(".:;", row->note[i][length - 1]) == NULL)
            bw_tag_text(&html->out, ".");
    }
    bw_tag_close(&html->out);
    bw_tag_close(&html->out);
}

/* Rows with sentences below them stack on a narrow screen, each cell with its
 * name; figures alone scroll within their own frame. */
static bool has_notes(const bw_grid *grid)
{
    for (const bw_grid_row *row = grid->first; row != NULL; row = row->next)
        if (row->notes > 0)
            return true;
    return false;
}

static void put_grid(bw_page *page, const bw_grid *grid)
{
    bw_html *html = of(page);
    bw_markup *out = &html->out;
    bw_html_end_list(html);
    html->parts++;
    bw_tag_open(out, "section", "wide");
    bw_tag_set(out, "tabindex", "0");
    bw_tag_set(out, "aria-label",
               bw_phrase(page, "Table %d: %s", html->parts,
                         html->last_title != NULL ? html->last_title : ""));
    bool stacks = has_notes(grid);
    bw_tag_open(out, "table", stacks ? "stacks" : NULL);
    bw_tag_open(out, "thead", NULL);
    bw_tag_open(out, "tr", NULL);
    for (size_t c = 0; c < grid->columns; c++) {
        bw_tag_open(out, "th", grid->column[c].right ? "figure" : NULL);
        bw_tag_set(out, "scope", "col");
        bw_html_text(html, grid->column[c].title);
        bw_tag_close(out);
    }
    bw_tag_close(out);
    bw_tag_close(out);
    bw_tag_open(out, "tbody", NULL);
    for (const bw_grid_row *row = grid->first; row != NULL; row = row->next)
        put_row(html, grid, row, stacks);
    bw_tag_close(out);
    bw_tag_close(out);
    bw_tag_close(out);
}

static void put_sources(bw_page *page)
{
    bw_html *html = of(page);
    bw_html_end_list(html);
    bw_tag_open(&html->out, "ol", "sources");
    for (size_t i = 0; i < page->sources; i++) {
        bw_tag_open(&html->out, "li", NULL);
        bw_tag_set(&html->out, "id", bw_phrase(page, "source-%zu", i + 1));
        bw_html_text(html, page->source[i]);
        bw_tag_close(&html->out);
    }
    bw_tag_close(&html->out);
}

static const bw_page_form form = {put_heading, put_subheading, put_text,
                                  put_item,    put_pair,       put_grid,
                                  put_sources};

/* ---- the page ---------------------------------------------------------- */

static void put_meta(bw_markup *out, const char *name, const char *content)
{
    bw_tag_open(out, "meta", NULL);
    bw_tag_set(out, "name", name);
    bw_tag_set(out, "content", content);
    bw_tag_close_short(out);
}

void bw_html_start(bw_html *html, bw_sink *sink, void *payload,
                   const char *title, const char *kind)
{
    *html = (bw_html){.page = {.form = &form, .width = 100}};
    bw_markup *out = &html->out;
    bw_markup_start(out, sink, payload);
    bw_tag_open(out, "html", NULL);
    bw_tag_set(out, "lang", "en");
    bw_tag_open(out, "head", NULL);
    bw_tag_open(out, "meta", NULL);
    bw_tag_set(out, "charset", "utf-8");
    bw_tag_close_short(out);
    put_meta(out, "viewport", "width=device-width, initial-scale=1");
    put_meta(out, "color-scheme", "light dark");
    put_meta(out, "generator",
             bw_phrase(&html->page, "bothways %s", bw_version()));
    bw_tag_whole(out, "title", NULL,
                 bw_phrase(&html->page, "%s: %s", title, kind));
    bw_html_style(out);
    bw_tag_close(out);
    bw_tag_open(out, "body", NULL);
    bw_html_hatches(html);
    bw_tag_open(out, "main", NULL);
    bw_tag_whole(out, "p", "kind", kind);
}

bw_status bw_html_finish(bw_html *html, bw_error *err)
{
    bw_html_end_list(html);
    bool written = bw_markup_finish(&html->out);
    bool no_memory = html->page.no_memory || html->out.no_memory;
    bw_arena_release(&html->page.arena);
    if (no_memory)
        return bw_fail_memory(err);
    if (!written)
        return bw_fail(err, BW_ERR_IO, NULL, 0,
                       "the report could not be written");
    return BW_OK;
}

/* ---- figures ----------------------------------------------------------- */

void bw_html_plates(bw_html *html, const char *kind)
{
    bw_html_end_list(html);
    bw_tag_open(&html->out, "div", kind);
}

void bw_html_plates_end(bw_html *html)
{
    bw_tag_close(&html->out);
}

void bw_html_figure(bw_html *html, const char *chart, const char *section,
                    const char *run)
{
    bw_html_end_list(html);
    bw_tag_open(&html->out, "figure", NULL);
    bw_tag_set(&html->out, "data-chart", chart);
    if (section[0] != '\0')
        bw_tag_set(&html->out, "data-section", section);
    if (run[0] != '\0')
        bw_tag_set(&html->out, "data-run", run);
}

void bw_html_figure_end(bw_html *html, const char *caption)
{
    if (caption[0] != '\0') {
        bw_tag_open(&html->out, "figcaption", NULL);
        bw_html_text(html, caption);
        bw_tag_close(&html->out);
    }
    bw_tag_close(&html->out);
}

void bw_html_fold(bw_html *html, const char *summary)
{
    bw_html_end_list(html);
    bw_tag_open(&html->out, "details", NULL);
    bw_tag_whole(&html->out, "summary", NULL, summary);
}

void bw_html_fold_end(bw_html *html)
{
    bw_html_end_list(html);
    bw_tag_close(&html->out);
}

const char *bw_html_section_name(bw_html *html, const char *name)
{
    const char *text = "";
    if (name[0] >= 'a' && name[0] <= 'z')
        text = bw_phrase(&html->page, "%c", name[0] - 'a' + 'A');
    name += text[0] != '\0';
    while (*name != '\0') {
        size_t length = strcspn(name, "-");
        text = bw_phrase(&html->page, "%s%.*s", text, (int)length, name);
        name += length;
        if (*name == '-') {
            text = bw_phrase(&html->page, "%s ", text);
            name++;
        }
    }
    return text;
}
