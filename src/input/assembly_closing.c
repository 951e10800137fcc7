#include <string.h>

#include "as_read.h"
#include "assembly_reader.h"
#include "day.h"
#include "fail.h"
#include "text.h"

/* <closing-up>: what was measured and seen before the wall was closed. */

static bw_status read_date(bw_reader *r, const char **date, const xmlNode *node,
                           const char *name)
{
    const char *text;
    BW_TRY(bw_read_required(r, &text, node, name, "2031-05-02"));
    long day;
    if (!bw_day_number(text, &day))
        return bw_refuse_at(
            r, node, name,
            "is not a day; write year-month-day, for example %s=\"2031-05-02\"",
            name);
    *date = bw_keep(r, text);
    return BW_OK;
}

static bw_status read_text(bw_reader *r, const char **out, const xmlNode *node,
                           const char *name, const char *example)
{
    const char *text;
    BW_TRY(bw_read_required(r, &text, node, name, example));
    *out = bw_keep(r, text);
    return BW_OK;
}

/* What need not be there. */
static const char *any_text(bw_reader *r, const xmlNode *node, const char *name)
{
    return bw_keep(r, bw_xml_value(node, name));
}

/* part=: what of the wall, one that is there. */
static bw_status read_part(bw_reader *r, bw_wall_part *part,
                           const xmlNode *node)
{
    const bw_assembly *a = r->assembly;
    const char *words[2 * BW_MOST_LAYERS];
    size_t count = 0;
    char list[240];
    *part = (bw_wall_part){.text = any_text(r, node, "part"), .layer = -1};
    if (bw_xml_value(node, "part") == NULL)
        return BW_OK;
    for (size_t i = 0; i < 2 * a->layer_count; i++) {
        const bw_layer *layer = &a->layer[i / 2];
        const bool framing = i % 2 == 1;
        if (framing && !layer->framing.present)
            continue;
        words[count] = bw_arena_printf(r->arena, "%s%s", layer->id,
                                       framing ? ".framing" : "");
        BW_TRY_MEMORY(words[count] != NULL, r->err);
        if (strcmp(words[count], part->text) == 0) {
            part->layer = (long)(i / 2);
            part->framing = framing;
            return BW_OK;
        }
        count++;
    }
    return bw_refuse_at(
        r, node, "part", "is no layer or framing of this wall%s; there are: %s",
        bw_text_meant((char[BW_MEANT]){0}, part->text, words, count),
        bw_xml_list(list, sizeof list, words, count));
}

static bw_status read_air_test(bw_reader *r, bw_air_test *test,
                               const xmlNode *node)
{
    static const char *const stages[] = {"membrane-exposed", "finished"};
    const bw_xml *xml = &r->xml;
    int stage;
    bool given;
    BW_TRY(bw_read_attributes(r, node, "date", "stage", "q50", "leak-search",
                              "uncertainty", "by", "ref", "source"));
    BW_TRY(read_date(r, &test->date, node, "date"));
    BW_TRY(bw_xml_word(&stage, NULL, xml, node, "stage", stages, 2, r->err));
    BW_TRY(bw_read_quantity(r, &test->q50, NULL, node, "q50",
                            BW_DIM_AIR_PERMEABILITY, 0.0, 100.0 / 3600.0));
    BW_TRY(bw_read_quantity(r, &test->uncertainty, &test->has_uncertainty, node,
                            "uncertainty", BW_DIM_RATIO, 0.0, 1.0));
    test->stage = stages[stage];
    test->by = any_text(r, node, "by");
    test->ref = any_text(r, node, "ref");
    test->source = any_text(r, node, "source");
    test->line = bw_xml_line(node);
    return bw_read_yes_no(r, &test->leak_search, &given, node, "leak-search");
}

static bw_status read_limit(bw_reader *r, bw_closing_up *up,
                            bw_moisture_limit *limit, const xmlNode *node)
{
    BW_TRY(bw_read_attributes(r, node, "member", "part", "allowed", "critical",
                              "source"));
    BW_TRY(read_text(r, &limit->member, node, "member", "stud"));
    for (size_t i = 0; i < up->limit_count; i++)
        if (strcmp(up->limit[i].member, limit->member) == 0)
            return bw_refuse_at(r, node, "member",
                                "has a limit already (line %ld)",
                                up->limit[i].line);
    BW_TRY(read_part(r, &limit->part, node));
    const long of = limit->part.layer;
    if (of >= 0 && !limit->part.framing &&
        r->assembly->layer[of].kind != BW_LAYER_SOLID)
        return bw_refuse_at(
            r, node, "part", "is a %s, of which no moisture is read",
            r->assembly->layer[of].kind == BW_LAYER_CAVITY ? "cavity"
                                                           : "membrane");
    BW_TRY(bw_read_quantity(r, &limit->allowed, NULL, node, "allowed",
                            BW_DIM_RATIO, 0.001, 3.0));
    BW_TRY(bw_read_quantity(r, &limit->critical, NULL, node, "critical",
                            BW_DIM_RATIO, 0.001, 3.0));
    if (limit->critical < limit->allowed)
        return bw_refuse_at(r, node, "critical", "is below allowed=\"%s\"",
                            bw_xml_value(node, "allowed"));
    limit->source = any_text(r, node, "source");
    limit->line = bw_xml_line(node);
    up->limit_count++;
    return BW_OK;
}

/* A reading of a member without a limit could never be judged. */
static bw_status check_member(bw_reader *r, const bw_closing_up *up,
                              const bw_reading *reading, const xmlNode *node)
{
    const char **member = BW_NEW(r->arena, const char *, up->limit_count);
    BW_TRY_MEMORY(member != NULL, r->err);
    for (size_t i = 0; i < up->limit_count; i++) {
        member[i] = up->limit[i].member;
        if (strcmp(member[i], reading->member) == 0)
            return BW_OK;
    }
    return bw_refuse_at(
        r, node, "member",
        "has no <moisture-limit>%s; every member read needs one",
        bw_text_meant((char[BW_MEANT]){0}, reading->member, member,
                      up->limit_count));
}

static bw_status read_reading(bw_reader *r, bw_reading *reading,
                              const xmlNode *node)
{
    bool given;
    BW_TRY(bw_read_attributes(r, node, "date", "member", "place", "moisture",
                              "depth", "meter", "species", "by", "as-read",
                              "photograph", "note", "source",
                              "wood-temperature"));
    BW_TRY(read_date(r, &reading->date, node, "date"));
    BW_TRY(read_text(r, &reading->member, node, "member", "stud"));
    BW_TRY(read_text(r, &reading->place, node, "place",
                     "north bay 3, sole plate"));
    BW_TRY(bw_read_quantity(r, &reading->moisture, NULL, node, "moisture",
                            BW_DIM_RATIO, 0.0, 3.0));
    BW_TRY(bw_read_quantity(r, &reading->depth, &given, node, "depth",
                            BW_DIM_LENGTH, 0.0, 1.0));
    BW_TRY(bw_read_quantity(
        r, &reading->wood_temperature, &reading->has_wood_temperature, node,
        "wood-temperature", BW_DIM_TEMPERATURE, -40.0, 80.0));
    reading->meter = any_text(r, node, "meter");
    reading->species = any_text(r, node, "species");
    reading->by = any_text(r, node, "by");
    reading->photograph = any_text(r, node, "photograph");
    reading->note = any_text(r, node, "note");
    reading->source = any_text(r, node, "source");
    reading->line = bw_xml_line(node);
    BW_TRY(bw_read_yes_no(r, &reading->as_read, &given, node, "as-read"));
    reading->shown = reading->moisture;
    reading->moisture = bw_reading_moisture(reading);
    return BW_OK;
}

static bw_status read_item(bw_reader *r, bw_evidence_item *item,
                           const xmlNode *node)
{
    BW_TRY(bw_read_attributes(r, node, "kind", "of", "ref", "part", "date"));
    BW_TRY(read_text(r, &item->kind, node, "kind", "photograph"));
    BW_TRY(read_text(r, &item->of, node, "of", "cavity clear at foot"));
    BW_TRY(read_part(r, &item->part, node));
    item->date = "";
    if (bw_xml_value(node, "date") != NULL)
        BW_TRY(read_date(r, &item->date, node, "date"));
    item->ref = any_text(r, node, "ref");
    item->line = bw_xml_line(node);
    return BW_OK;
}

static bw_status read_spell(bw_reader *r, bw_wet_spell *spell,
                            const xmlNode *node)
{
    BW_TRY(bw_read_attributes(r, node, "from", "to", "note"));
    BW_TRY(read_date(r, &spell->from, node, "from"));
    BW_TRY(read_date(r, &spell->to, node, "to"));
    if (strcmp(spell->to, spell->from) < 0)
        return bw_refuse_at(r, node, "to", "is before from=\"%s\"",
                            spell->from);
    spell->note = any_text(r, node, "note");
    spell->line = bw_xml_line(node);
    return BW_OK;
}

bw_status bw_read_closing_up(bw_reader *r, const xmlNode *node)
{
    bw_closing_up *up = &r->assembly->closing_up;
    size_t count = 0;
    BW_TRY(bw_xml_attributes(&r->xml, node, NULL, 0, r->err));
    BW_TRY(bw_read_children(r, node, "air-test", "moisture-limit", "reading",
                            "evidence", "wet-spell"));
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c)) {
        BW_TRY(bw_xml_children(&r->xml, c, NULL, 0, r->err));
        count++;
    }
    if (count > BW_MOST_EVIDENCE)
        return bw_refuse(r, node, "holds %zu elements; at most %d are accepted",
                         count, BW_MOST_EVIDENCE);
    bw_air_test *test = BW_NEW(r->arena, bw_air_test, count);
    bw_moisture_limit *limit = BW_NEW(r->arena, bw_moisture_limit, count);
    bw_reading *reading = BW_NEW(r->arena, bw_reading, count);
    bw_evidence_item *item = BW_NEW(r->arena, bw_evidence_item, count);
    bw_wet_spell *spell = BW_NEW(r->arena, bw_wet_spell, count);
    BW_TRY_MEMORY(!r->arena->failed, r->err);
    *up = (bw_closing_up){.given = true,
                          .air_test = test,
                          .limit = limit,
                          .reading = reading,
                          .evidence = item,
                          .wet_spell = spell};
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c)) {
        if (bw_xml_is(c, "air-test"))
            BW_TRY(read_air_test(r, &test[up->air_test_count++], c));
        else if (bw_xml_is(c, "moisture-limit"))
            BW_TRY(read_limit(r, up, &limit[up->limit_count], c));
        else if (bw_xml_is(c, "reading"))
            BW_TRY(read_reading(r, &reading[up->reading_count++], c));
        else if (bw_xml_is(c, "wet-spell"))
            BW_TRY(read_spell(r, &spell[up->wet_spell_count++], c));
        else
            BW_TRY(read_item(r, &item[up->evidence_count++], c));
    }
    size_t i = 0;
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        if (bw_xml_is(c, "reading"))
            BW_TRY(check_member(r, up, &reading[i++], c));
    return BW_OK;
}
