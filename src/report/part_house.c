/* The cover sheet of a house: every wall, its verdict, what keeps it closed. */

#include "bothways/audit.h"
#include "grid.h"
#include "names.h"
#include "part.h"

BW_PART(house_title, NULL)
{
    bw_lead(page, "Audit of a house: %s", of->house->name);
}

BW_PART(house_release, NULL)
{
    const bw_house *house = of->house;
    bw_lead(page, "Hold point before closing up: %s",
            house->released ? "released" : "NOT released");
    bw_item(page, "%zu of %zu wall%s released; the house is when all are",
            house->released_count, house->wall_count,
            house->wall_count == 1 ? "" : "s");
}

BW_PART(house_walls, "Walls")
{
    bw_grid g = {.page = page};
    for (size_t i = 0; i < of->house->wall_count; i++) {
        const bw_house_wall *wall = &of->house->wall[i];
        bw_grid_row_start(&g);
        bw_words(&g, "Wall", bw_wall_name(wall->assembly));
        bw_name(&g, "File", wall->assembly->file);
        bw_name(&g, "Verdict", bw_verdict_text(wall->verdict));
        bw_name(&g, "Hold point", wall->released ? "released" : "NOT released");
        bw_number(&g, "Open", "%zu", wall->open_count);
    }
    bw_grid_print(&g);
}

BW_PART(house_open, "What is open")
{
    for (size_t i = 0; i < of->house->wall_count; i++) {
        const bw_house_wall *wall = &of->house->wall[i];
        if (wall->released)
            continue;
        bw_subheading(page, "%s (%s)", bw_wall_name(wall->assembly),
                      wall->assembly->file);
        for (size_t k = 0; k < wall->open_count; k++)
            bw_item(page, "%s", wall->open[k].text);
    }
}

BW_PART(house_identity, "Identity")
{
    const bw_house *house = of->house;
    bw_pair(page, "Address", "%s", BW_BLANK);
    bw_put_made(page, house->date, house->command_line, house->profile);
    bw_text(page, "This is a cover: the sheet of each wall, which bothways "
                  "audit FILE prints, has its figures and its evidence.");
}

BW_PART(house_sign, "Signatures")
{
    (void)of;
    bw_put_signers(page);
}
