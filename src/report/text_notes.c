/* What was taken for granted, what looked odd, and what no program knows. */

#include "names.h"
#include "parts.h"

static void print_note(bw_page *page, const bw_note *note)
{
    const char *kind = note->kind == BW_NOTE_WARNING ? "Warning: " : "";
    if (note->file[0] == '\0')
        bw_page_item(page, bw_phrase(page, "%s%s", kind, note->message));
    else if (note->line > 0)
        bw_page_item(page, bw_phrase(page, "%s%s (%s:%ld)", kind, note->message,
                                     note->file, note->line));
    else
        bw_page_item(page, bw_phrase(page, "%s%s (%s)", kind, note->message,
                                     note->file));
}

/* Warnings first: they may mean the file is wrong. */
static void print_notes(bw_page *page, const bw_note *notes, size_t count,
                        bw_note_kind kind)
{
    for (size_t i = 0; i < count; i++)
        if (notes[i].kind == kind)
            print_note(page, &notes[i]);
}

static const char *indoors(bw_page *page, const bw_indoors *in)
{
    switch (in->kind) {
    case BW_INDOOR_CLASS:
        return bw_phrase(page, "%s degC, humidity class %d of ISO 13788%s",
                         bw_fixed(page, in->temperature, 1), in->humidity_class,
                         in->margin ? " with its safety margin" : "");
    case BW_INDOOR_RH:
        return bw_phrase(page, "%s degC, %s %% relative humidity%s",
                         bw_fixed(page, in->temperature, 1),
                         bw_fixed(page, in->relative_humidity * 100.0, 0),
                         in->margin ? " plus 5 points of safety margin" : "");
    case BW_INDOOR_EN15026:
        return bw_phrase(page,
                         "temperature and humidity from the outdoor "
                         "temperature by EN 15026, %s occupancy",
                         in->en15026_high ? "high" : "normal");
    case BW_INDOOR_MONTHS:
        break;
    }
    return "twelve months given in the file";
}

static void print_surroundings(bw_page *page, const bw_assessment *assessment)
{
    const bw_assembly *assembly = assessment->assembly;
    const bw_climate *climate = assessment->climate;
    const bw_outdoors *out = &assembly->outdoors;
    bw_page_item(
        page,
        bw_phrase(page, "Climate: %s; source: %s.%s%s", climate->file,
                  climate->source[0] != '\0' ? climate->source : "not stated",
                  climate->remark[0] != '\0' ? " " : "", climate->remark));
    bw_page_item(page, bw_phrase(page, "Indoors: %s.",
                                 indoors(page, &assembly->indoors)));
    if (out->has_facing)
        bw_page_item(
            page,
            bw_phrase(page, "Facing %s degrees from north, driving rain: %s.",
                      bw_fixed(page, out->azimuth, 0),
                      bw_exposure_text(out->driving_rain)));
    else
        bw_page_item(page, "No facing given: no sun is counted.");
    if (assembly->air_leakage.given)
        bw_page_item(
            page,
            bw_phrase(
                page,
                "Air leakage q50 = %s m3/(m2.h) over %s m of connected "
                "height, %s.",
                bw_significant(page, assembly->air_leakage.q50 * 3600.0, 2),
                bw_fixed(page, assembly->air_leakage.connected_height, 1),
                assembly->air_leakage.tested ? "tested"
                                             : "not shown by a test"));
    else
        bw_page_item(page, "No air leakage given: none is counted, and most "
                           "moisture damage begins with it.");
}

/* Where the methods took what to be, in the clear field. */
static void print_places(bw_page *page, const bw_assessment *assessment)
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
    bw_page_item(
        page,
        bw_phrase(page,
                  "Taken as the main insulation: %s; weather line: %s; "
                  "leaking room air is stopped: %s.",
                  section->slab[g.insulation].label,
                  section->dropped_layers > 0 ? "the well-ventilated cavity"
                                              : "the outer surface",
                  bw_plane_text(page, section, leak)));
}

void bw_print_assumptions(bw_page *page, const bw_assessment *assessment,
                          const bw_report_options *options)
{
    const bw_assembly *assembly = assessment->assembly;
    const bw_climate *climate = assessment->climate;
    bw_page_heading(page, "Assumptions and notes");
    for (int kind = BW_NOTE_WARNING; kind >= BW_NOTE_INFO; kind--) {
        bw_note_kind k = (bw_note_kind)kind;
        print_notes(page, assembly->note, assembly->note_count, k);
        print_notes(page, climate->note, climate->note_count, k);
        print_notes(page, options->note, options->note_count, k);
    }
    print_surroundings(page, assessment);
    print_places(page, assessment);
    if (assembly->remark[0] != '\0')
        bw_page_item(
            page, bw_phrase(page, "Remark in the file: %s", assembly->remark));
}

void bw_print_sources(bw_page *page)
{
    if (page->sources == 0)
        return;
    bw_page_heading(page, "Rules and sources");
    bw_page_text(page, 2, 2,
                 "Marks of rules: [S] text seen, [M-hi], [M-med], [M-lo] from "
                 "memory with high, medium, low confidence, [D] derived. No "
                 "standard's full text was at hand.");
    if (page->form != NULL) {
        page->form->sources(page);
        return;
    }
    for (size_t i = 0; i < page->sources; i++)
        bw_page_text(page, 2, 7,
                     bw_phrase(page, "%-4s %s", bw_phrase(page, "[%zu]", i + 1),
                               page->source[i]));
}

void bw_print_cautions(bw_page *page)
{
    bw_page_heading(page, "Cautions");
    bw_page_item(page,
                 "These figures describe an ideal wall. They do not see "
                 "rain getting in, ground water, plumbing leaks, gaps, or "
                 "work done differently from the drawing.");
    bw_page_item(page,
                 "Wet timber can rot and lose strength unseen. Where wood "
                 "bears load and may have been wet, have it opened and "
                 "looked at before it is covered.");
    bw_page_item(page,
                 "Mould harms health. Remove the cause of the damp first; a "
                 "lining over a damp wall only hides it.");
    bw_page_item(page, "Where a limit is exceeded: inspect. Exceeding it is no "
                       "proof of damage, and keeping it is no proof of none.");
    bw_page_item(page,
                 "Local building codes and licensed professionals decide. "
                 "This report supports their judgement and replaces none "
                 "of it.");
}
