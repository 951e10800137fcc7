/* What was taken for granted, what looked odd, and what no program knows. */

#include "names.h"
#include "part.h"
#include "side.h"

static void say_note(bw_page *page, const bw_note *note)
{
    const char *kind = note->kind == BW_NOTE_WARNING ? "Warning: " : "";
    if (note->file[0] == '\0')
        bw_item(page, "%s%s", kind, note->message);
    else if (note->line > 0)
        bw_item(page, "%s%s (%s:%ld)", kind, note->message, note->file,
                note->line);
    else
        bw_item(page, "%s%s (%s)", kind, note->message, note->file);
}

/* Warnings first: they may mean the file is wrong. */
static void say_notes(bw_page *page, const bw_note *notes, size_t count,
                      bw_note_kind kind)
{
    for (size_t i = 0; i < count; i++)
        if (notes[i].kind == kind)
            say_note(page, &notes[i]);
}

static const char *words(bw_page *page, const bw_assembly *assembly,
                         bw_side_fact fact)
{
    const char *text = bw_side_words(&page->arena, assembly, fact);
    return text != NULL ? text : "";
}

static void say_surroundings(bw_page *page, const bw_assessment *assessment)
{
    const bw_assembly *assembly = assessment->assembly;
    const bw_climate *climate = assessment->climate;
    const bw_outdoors *out = &assembly->outdoors;
    bw_item(page, "Climate: %s; source: %s.%s%s", climate->file,
            climate->source[0] != '\0' ? climate->source : "not stated",
            climate->remark[0] != '\0' ? " " : "", climate->remark);
    bw_item(page, "Indoors: %s.", words(page, assembly, BW_SIDE_ROOM));
    if (assembly->beyond.kind != NULL)
        bw_item(page, "Outside: %s.", words(page, assembly, BW_SIDE_BEYOND));
    else if (out->has_facing)
        bw_item(page, "Facing %.0f degrees from north, driving rain: %s.",
                out->azimuth, bw_exposure_text(out->driving_rain));
    else
        bw_item(page, "No facing given: no sun is counted.");
    if (assembly->air_leakage.given)
        bw_item(page,
                "Air leakage q50 = %.2g m3/(m2.h) over %.1f m of connected "
                "height, %s.",
                assembly->air_leakage.q50 * 3600.0,
                assembly->air_leakage.connected_height,
                assembly->air_leakage.tested ? "tested"
                                             : "not shown by a test");
    else
        bw_item(page, "No air leakage given: none is counted, and most "
                      "moisture damage begins with it.");
}

/* Where the methods took what to be, in the clear field. */
static void say_places(bw_page *page, const bw_assessment *assessment)
{
    const bw_section *section = assessment->section_count > 0
                                    ? assessment->section[0].section
                                    : NULL;
    if (section == NULL || section->slab_count == 0)
        return;
    bw_geography g;
    bw_geography_find(&g, assessment->assembly, section);
    bw_plane_at leak = {0, 0.0, false};
    if (g.leak > 0)
        leak = (bw_plane_at){g.leak - 1, section->slab[g.leak - 1].thickness,
                             true};
    bw_item(page,
            "Taken as the main insulation: %s; weather line: %s; leaking room "
            "air is stopped: %s.",
            section->slab[g.insulation].label,
            section->dropped_layers > 0 ? "the well-ventilated cavity"
                                        : "the outer surface",
            bw_plane_text(page, section, leak));
}

BW_PART(assumptions, "Assumptions and notes")
{
    const bw_assembly *assembly = of->wall[0]->assembly;
    const bw_climate *climate = of->wall[0]->climate;
    const bw_report_options *options = page->options;
    for (int kind = BW_NOTE_WARNING; kind >= BW_NOTE_INFO; kind--) {
        bw_note_kind k = (bw_note_kind)kind;
        say_notes(page, assembly->note, assembly->note_count, k);
        say_notes(page, climate->note, climate->note_count, k);
        say_notes(page, options->note, options->note_count, k);
    }
    say_surroundings(page, of->wall[0]);
    say_places(page, of->wall[0]);
    if (assembly->remark[0] != '\0')
        bw_item(page, "Remark in the file: %s", assembly->remark);
}

/* ---- sources ------------------------------------------------------------ */

BW_PART(sources, "Rules and sources")
{
    (void)of;
    if (page->sources == 0)
        return;
    bw_text(page, "Marks of rules: [S] text seen, [M-hi], [M-med], [M-lo] from "
                  "memory with high, medium, low confidence, [D] derived. No "
                  "standard's full text was at hand.");
    bw_sources(page);
}

/* ---- cautions ----------------------------------------------------------- */

BW_PART(cautions, "Cautions")
{
    static const char *const cautions[] = {
        "These figures describe an ideal wall. They do not see rain getting "
        "in, ground water, plumbing leaks, gaps, or work done differently from "
        "the drawing.",
        "Wet timber can rot and lose strength unseen. Where wood bears load "
        "and may have been wet, have it opened and looked at before it is "
        "covered.",
        "Mould harms health. Remove the cause of the damp first; a lining over "
        "a damp wall only hides it.",
        "Where a limit is exceeded: inspect. Exceeding it is no proof of "
        "damage, and keeping it is no proof of none.",
        "Local building codes and licensed professionals decide. This report "
        "supports their judgement and replaces none of it.",
    };
    (void)of;
    for (size_t i = 0; i < sizeof cautions / sizeof cautions[0]; i++)
        bw_item(page, "%s", cautions[i]);
}
