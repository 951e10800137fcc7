/* What evidence the wall needs: before work a sheet for the site, afterwards
 * what of it is there. One list, made by the audit. */

#include <string.h>

#include "bothways/audit.h"
#include "grid.h"
#include "names.h"
#include "part.h"

BW_PART(plan_title, NULL)
{
    bw_lead(page, "What to measure and photograph before closing up: %s",
            bw_wall_name(of->wall[0]->assembly));
    bw_plain(page, "Read off the wall as it is drawn. All of it is asked for "
                   "again by the hold point, and what is missing then keeps it "
                   "closed. Take this sheet to the site.");
}

/* ---- for the site -------------------------------------------------------- */

static void put_lines(bw_page *page, const bw_need *need)
{
    static const char line[] = "____________________";
    if (need->kind == BW_NEED_READINGS)
        for (int i = 0; i < BW_PLACES_LEAST; i++)
            bw_deep(page,
                    "place %s  %%  ______  mm  ______  degC  ______  "
                    "date  __________",
                    line);
    else if (need->kind == BW_NEED_AIR_TEST)
        bw_deep(page, "q50  ______ m3/(m2.h)  +- ______ %%  date  __________  "
                      "protocol  __________");
    else if (need->kind != BW_NEED_LIMIT)
        bw_deep(page, "reference %s  date  __________", line);
}

static void put_need(bw_page *page, const bw_need *need)
{
    bw_hang(page, "[ ] %s", bw_capital(page, need->what));
    if (need->where[0] != '\0')
        bw_deep(page, "Where: %s.", need->where);
    bw_deep(page, "Why: %s.", need->why);
    put_lines(page, need);
}

static bool same_part(const bw_need *a, const bw_need *b)
{
    return a->part.layer == b->part.layer && a->part.framing == b->part.framing;
}

static void put_plan(bw_page *page, const bw_audit *audit, bool required)
{
    const bw_need *last = NULL;
    for (size_t i = 0; i < audit->need_count; i++) {
        const bw_need *need = &audit->need[i];
        if (need->required != required)
            continue;
        if (last == NULL || !same_part(last, need))
            bw_strong(page, "%s%s%s%s", bw_capital(page, need->of),
                      need->part.text[0] != '\0' ? " (part=\"" : "",
                      need->part.text, need->part.text[0] != '\0' ? "\")" : "");
        put_need(page, need);
        last = need;
    }
}

BW_PART(plan, "Needed: missing, the hold point stays closed")
{
    put_plan(page, of->audit, true);
}

BW_PART(plan_wanted, "Wanted: not shown, it is varied over what it may be")
{
    put_plan(page, of->audit, false);
}

BW_PART(plan_form, "How the file says it")
{
    const bw_audit *audit = of->audit;
    for (size_t i = 0; i < audit->need_count; i++) {
        bool again = false;
        for (size_t k = 0; k < i && !again; k++)
            again = strcmp(audit->need[i].form, audit->need[k].form) == 0;
        if (!again)
            bw_item(page, "%s", audit->need[i].form);
    }
    bw_text(page, "Days on which the open wall got wet: <wet-spell from= to= "
                  "note=>. All of it stands in <closing-up>.");
    bw_pair(page, "Site",
            "name ____________________  date __________  signature "
            "____________________");
}

/* ---- for the reviewer ---------------------------------------------------- */

BW_PART(needed, "Evidence this wall needs")
{
    const bw_audit *audit = of->audit;
    bw_grid g = {.page = page};
    for (size_t i = 0; i < audit->need_count; i++) {
        const bw_need *need = &audit->need[i];
        bw_grid_row_start(&g);
        bw_name(&g, "Evidence", bw_need_kind_text(need->kind));
        bw_words(&g, "Part",
                 need->part.text[0] != '\0' ? need->part.text : need->of);
        bw_name(&g, "Asked", need->required ? "needed" : "wanted");
        bw_name(&g, "There", need->present ? "yes" : "no");
        bw_words(&g, "Missing", need->lacks);
    }
    bw_grid_print(&g);
    bw_text(page,
            "Read off the wall, as bothways audit --plan prints it before "
            "work starts. What is needed and missing keeps the hold "
            "point closed; what is wanted and missing is varied.");
}
