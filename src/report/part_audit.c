/* What stands on top of the reviewer's sheet, and what is signed below it. */

#include "bothways/audit.h"
#include "bothways/bothways.h"
#include "names.h"
#include "part.h"

BW_PART(audit_title, NULL)
{
    bw_lead(page, "Audit sheet: %s", bw_wall_name(of->wall[0]->assembly));
}

BW_PART(release, NULL)
{
    const bw_audit *audit = of->audit;
    bw_lead(page, "Hold point before closing up: %s",
            audit->released ? "released" : "NOT released");
    if (audit->released)
        bw_item(page, "the verdict, the interim air test and the readings of "
                      "every member leave no reason to keep it closed");
    for (size_t i = 0; i < audit->open_count; i++)
        bw_item(page, "%s", audit->open[i].text);
}

/* ---- hold point --------------------------------------------------------- */

void bw_put_signers(bw_page *page)
{
    static const char *const signers[] = {"Designer", "Site", "Reviewer"};
    for (size_t i = 0; i < sizeof signers / sizeof signers[0]; i++) {
        if (i > 0)
            bw_blank(page);
        bw_pair(page, signers[i],
                "name ____________________  date __________  signature "
                "____________________");
    }
}

void bw_put_made(bw_page *page, const char *date, const char *command_line,
                 const bw_profile *profile)
{
    bw_pair(page, "Date of this sheet", "%s",
            date[0] != '\0' ? date : BW_BLANK);
    bw_pair(page, "Program", "bothways %s", bw_version());
    bw_pair(page, "Command line", "%s",
            command_line[0] != '\0' ? command_line : "none, made by a program");
    bw_pair(page, "Rule set", "%s: %s", profile->name, profile->title);
}

BW_PART(hold_point, "Hold point before closing up")
{
    const bw_audit *audit = of->audit;
    bw_strong(page, "%s", audit->released ? "Released." : "NOT released.");
    for (size_t i = 0; i < audit->open_count; i++)
        bw_item(page, "open, %s: %s", bw_open_id_text(audit->open[i].id),
                audit->open[i].text);
    if (audit->released)
        bw_text(page, "Every reason to keep it closed that this sheet knows is "
                      "answered by what the file says. Whether the file says "
                      "what the wall is, those who sign below answer for.");
    bw_blank(page);
    bw_put_signers(page);
}
