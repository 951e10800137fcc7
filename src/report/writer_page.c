/* A report as an HTML page: head, parts, lists, tables. What is escaped is
 * escaped here and in markup.h. */

#include <string.h>

#include "bothways/bothways.h"
#include "grid.h"
#include "html.h"

bw_html *bw_html_of(bw_page *page)
{
    return (bw_html *)page;
}

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

void bw_html_text(bw_page *page, const char *text)
{
    bw_html *html = bw_html_of(page);
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
        } else if (cited > 0 && number <= page->sources) {
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
    bw_html_text(&html->page, text + length);
}

/* ---- the form's functions ---------------------------------------------- */

/* An element that holds only text. */
static void put(bw_html *html, const char *name, const char *class_name,
                const char *text)
{
    bw_tag_open(&html->out, name, class_name);
    bw_html_text(&html->page, text);
    bw_tag_close(&html->out);
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
    bw_html *html = bw_html_of(page);
    bw_html_end_list(html);
    if (html->in_section)
        bw_tag_close(&html->out);
    bw_tag_open(&html->out, "section", NULL);
    html->in_section = true;
    html->last_title = title;
    if (page->headings <= BW_HTML_HEADINGS)
        html->heading[page->headings - 1] = title;
    bw_tag_open(&html->out, "h2", NULL);
    bw_tag_set(&html->out, "id", bw_phrase(page, "part-%d", page->headings));
    bw_tag_whole(&html->out, "span", "number",
                 bw_phrase(page, "%d", page->headings));
    bw_tag_text(&html->out, " ");
    bw_html_text(&html->page, title);
    bw_tag_close(&html->out);
}

static void put_subheading(bw_page *page, const char *title)
{
    bw_html *html = bw_html_of(page);
    bw_html_end_list(html);
    html->last_title = title;
    put(html, "h3", NULL, title);
}

/* The first bold line is the page's title; a later one is a lead, in which
 * what follows the last colon may be a verdict: a heading of its rank, if it
 * is not a sentence. */
static void put_bold(bw_html *html, const char *text, bool heading)
{
    if (!html->page.begun) {
        html->page.begun = true;
        bw_tag_whole(&html->out, "h1", NULL, text);
        return;
    }
    const char *colon = strstr(text, ": ");
    const char *class_name = "";
    bool verdict = colon != NULL && verdict_at(colon + 2, &class_name) > 0;
    bw_tag_open(&html->out,
                verdict || !heading ? "p"
                : html->in_section  ? "h3"
                                    : "h2",
                verdict            ? "lead"
                : !heading         ? "strong"
                : html->in_section ? NULL
                                   : "lead");
    if (verdict) {
        bw_tag_part(&html->out, text, (size_t)(colon + 2 - text));
        text = colon + 2;
    }
    verdict_text(html, text);
    bw_tag_close(&html->out);
}

static void put_paragraph(bw_page *page, bw_style style, const char *text)
{
    bw_html *html = bw_html_of(page);
    bool hangs = style == BW_STYLE_PLAIN || style == BW_STYLE_HANG ||
                 style == BW_STYLE_STEP;
    bw_html_end_list(html);
    if (style == BW_STYLE_LEAD || style == BW_STYLE_STRONG)
        put_bold(html, text, style == BW_STYLE_LEAD);
    else if (style == BW_STYLE_LINE)
        bw_tag_whole(&html->out, "p", "hang", text);
    else
        put(html, "p", hangs ? "hang" : NULL, text);
}

static void put_item(bw_page *page, const char *text)
{
    start_list(bw_html_of(page), BW_LIST_ITEMS);
    put(bw_html_of(page), "li", NULL, text);
}

static void put_pair(bw_page *page, const char *label, const char *text)
{
    bw_html *html = bw_html_of(page);
    size_t indent = strspn(label, " ");
    start_list(html, BW_LIST_PAIRS);
    put(html, "dt", indent > 0 ? "sub" : NULL, label + indent);
    put(html, "dd", text[0] == '\0' ? "none" : NULL, text);
}

static void put_blank(bw_page *page)
{
    (void)page;
}

static bool grid_fits(const bw_grid *grid)
{
    (void)grid;
    return true;
}

static size_t shown_columns(const bw_grid *grid)
{
    size_t count = 0;
    for (size_t c = 0; c < grid->columns; c++)
        count += grid->column[c].kind != BW_CELL_BAR;
    return count;
}

static const char *align(const bw_grid_column *column)
{
    return column->kind == BW_CELL_FIGURE ? "figure" : NULL;
}

static void put_cell(bw_html *html, const bw_grid_column *column, size_t c,
                     const char *text, bool stacks)
{
    if (column->kind == BW_CELL_BAR)
        return;
    const bool names = c == 0 && text[0] != '\0'; /* the row */
    bw_tag_open(&html->out, names ? "th" : "td", align(column));
    if (stacks && c > 0 && text[0] != '\0')
        bw_tag_set(&html->out, "data-name", column->title);
    if (names)
        bw_tag_set(&html->out, "scope", "row");
    if (c == 0)
        bw_html_text(&html->page, text);
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
               bw_phrase(&html->page, "%zu", shown_columns(grid)));
    for (size_t i = 0; i < row->notes; i++) {
        if (i > 0)
            bw_tag_text(&html->out, " ");
        bw_html_text(&html->page, row->note[i]);
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
    bw_html *html = bw_html_of(page);
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
        if (grid->column[c].kind == BW_CELL_BAR)
            continue;
        const bool names = grid->column[c].title[0] != '\0';
        bw_tag_open(out, names ? "th" : "td", align(&grid->column[c]));
        if (names)
            bw_tag_set(out, "scope", "col");
        bw_html_text(&html->page, grid->column[c].title);
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
    bw_html *html = bw_html_of(page);
    bw_html_end_list(html);
    bw_tag_open(&html->out, "ol", "sources");
    for (size_t i = 0; i < page->sources; i++) {
        bw_tag_open(&html->out, "li", NULL);
        bw_tag_set(&html->out, "id", bw_phrase(page, "source-%zu", i + 1));
        bw_html_text(&html->page, page->source[i]);
        bw_tag_close(&html->out);
    }
    bw_tag_close(&html->out);
}

/* ---- the page ---------------------------------------------------------- */

static bw_status finish(bw_page *page, const char *what, bw_error *err)
{
    bw_html *html = bw_html_of(page);
    bw_html_end_list(html);
    page->arena.failed = page->arena.failed || html->out.no_memory;
    return bw_page_end(page, bw_markup_finish(&html->out), what, err);
}

static void put_meta(bw_markup *out, const char *name, const char *content)
{
    bw_tag_open(out, "meta", NULL);
    bw_tag_set(out, "name", name);
    bw_tag_set(out, "content", content);
    bw_tag_close_short(out);
}

void bw_html_start(bw_html *html, bw_sink *sink, void *payload,
                   const char *title, const char *kind, const char *foot)
{
    static const bw_page_form form = {
        put_heading, put_subheading, put_paragraph, put_item,  put_pair,
        put_grid,    grid_fits,      put_sources,   put_blank, finish};
    *html = (bw_html){.page = {.form = &form}};
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
    bw_html_style(out, foot);
    bw_tag_close(out);
    bw_tag_open(out, "body", NULL);
    bw_tag_open(out, "main", NULL);
    bw_tag_whole(out, "p", "kind", kind);
}
