#include <string.h>

#include "assembly_reader.h"
#include "fail.h"
#include "text.h"

/* <closing-up>: what was measured and seen before the wall was closed. */

/* Digits that are known to be digits. */
static int number(const char *digits, size_t count)
{
    int value = 0;
    for (size_t i = 0; i < count; i++)
        value = 10 * value + (digits[i] - '0');
    return value;
}

static bool is_date(const char *text)
{
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    static const char form[] = "0000-00-00";
    if (strlen(text) != strlen(form))
        return false;
    for (size_t i = 0; form[i] != '\0'; i++)
        if (form[i] == '0' ? text[i] < '0' || text[i] > '9' : text[i] != '-')
            return false;
    int year = number(text, 4), month = number(text + 5, 2);
    int day = number(text + 8, 2);
    bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1] &&
           (month != 2 || day <= 28 || leap);
}

static bw_status read_date(bw_reader *r, const char **date, const xmlNode *node)
{
    const char *text;
    BW_TRY(bw_xml_required(&text, &r->xml, node, "date", "2031-05-02", r->err));
    if (!is_date(text))
        return bw_xml_fail_at(&r->xml, node, "date", r->err,
                              "is not a day; write year-month-day, for example "
                              "date=\"2031-05-02\"");
    *date = bw_keep(r, text);
    return BW_OK;
}

static bw_status read_text(bw_reader *r, const char **out, const xmlNode *node,
                           const char *name, const char *example)
{
    const char *text;
    BW_TRY(bw_xml_required(&text, &r->xml, node, name, example, r->err));
    *out = bw_keep(r, text);
    return BW_OK;
}

static bw_status read_air_test(bw_reader *r, bw_air_test *test,
                               const xmlNode *node)
{
    static const char *const allowed[] = {"date", "stage", "q50", "leak-search",
                                          "source"};
    static const char *const stages[] = {"membrane-exposed", "finished"};
    const bw_xml *xml = &r->xml;
    int stage;
    bool given;
    BW_TRY(bw_xml_attributes(xml, node, allowed, BW_COUNT(allowed), r->err));
    BW_TRY(read_date(r, &test->date, node));
    BW_TRY(bw_xml_word(&stage, NULL, xml, node, "stage", stages, 2, r->err));
    BW_TRY(bw_xml_quantity(&test->q50, NULL, xml, node, "q50",
                           BW_DIM_AIR_PERMEABILITY, 0.0, 100.0 / 3600.0,
                           r->err));
    test->stage = stages[stage];
    test->line = bw_xml_line(node);
    return bw_read_yes_no(r, &test->leak_search, &given, node, "leak-search");
}

static bw_status read_limit(bw_reader *r, bw_closing_up *up,
                            bw_moisture_limit *limit, const xmlNode *node)
{
    static const char *const allowed[] = {"member", "allowed", "critical",
                                          "source"};
    const bw_xml *xml = &r->xml;
    BW_TRY(bw_xml_attributes(xml, node, allowed, BW_COUNT(allowed), r->err));
    BW_TRY(read_text(r, &limit->member, node, "member", "stud"));
    for (size_t i = 0; i < up->limit_count; i++)
        if (strcmp(up->limit[i].member, limit->member) == 0)
            return bw_xml_fail_at(xml, node, "member", r->err,
                                  "has a limit already (line %ld)",
                                  up->limit[i].line);
    BW_TRY(bw_xml_quantity(&limit->allowed, NULL, xml, node, "allowed",
                           BW_DIM_RATIO, 0.001, 3.0, r->err));
    BW_TRY(bw_xml_quantity(&limit->critical, NULL, xml, node, "critical",
                           BW_DIM_RATIO, 0.001, 3.0, r->err));
    if (limit->critical < limit->allowed)
        return bw_xml_fail_at(xml, node, "critical", r->err,
                              "is below allowed=\"%s\"",
                              bw_xml_value(node, "allowed"));
    limit->line = bw_xml_line(node);
    up->limit_count++;
    return BW_OK;
}

/* A reading of a member without a limit could never be judged. */
static bw_status check_member(bw_reader *r, const bw_closing_up *up,
                              const bw_reading *reading, const xmlNode *node)
{
    const char **member = BW_NEW(r->arena, const char *, up->limit_count);
    if (member == NULL)
        return bw_fail_memory(r->err);
    for (size_t i = 0; i < up->limit_count; i++) {
        member[i] = up->limit[i].member;
        if (strcmp(member[i], reading->member) == 0)
            return BW_OK;
    }
    const char *nearest = bw_text_nearest(reading->member, member,
                                          up->limit_count);
    return bw_xml_fail_at(&r->xml, node, "member", r->err,
                          "has no <moisture-limit>%s%s%s; every member read "
                          "needs one",
                          nearest != NULL ? " (did you mean " : "",
                          nearest != NULL ? nearest : "",
                          nearest != NULL ? "?)" : "");
}

static bw_status read_reading(bw_reader *r, bw_reading *reading,
                              const xmlNode *node)
{
    static const char *const allowed[] = {"date",     "member", "place",
                                          "moisture", "depth",  "source"};
    const bw_xml *xml = &r->xml;
    bool given;
    BW_TRY(bw_xml_attributes(xml, node, allowed, BW_COUNT(allowed), r->err));
    BW_TRY(read_date(r, &reading->date, node));
    BW_TRY(read_text(r, &reading->member, node, "member", "stud"));
    BW_TRY(read_text(r, &reading->place, node, "place",
                     "north bay 3, sole plate"));
    BW_TRY(bw_xml_quantity(&reading->moisture, NULL, xml, node, "moisture",
                           BW_DIM_RATIO, 0.0, 3.0, r->err));
    BW_TRY(bw_xml_quantity(&reading->depth, &given, xml, node, "depth",
                           BW_DIM_LENGTH, 0.0, 1.0, r->err));
    reading->line = bw_xml_line(node);
    return BW_OK;
}

static bw_status read_item(bw_reader *r, bw_evidence_item *item,
                           const xmlNode *node)
{
    static const char *const allowed[] = {"kind", "of", "ref"};
    BW_TRY(
        bw_xml_attributes(&r->xml, node, allowed, BW_COUNT(allowed), r->err));
    BW_TRY(read_text(r, &item->kind, node, "kind", "photograph"));
    BW_TRY(read_text(r, &item->of, node, "of", "cavity clear at foot"));
    item->ref = bw_keep(r, bw_xml_value(node, "ref"));
    item->line = bw_xml_line(node);
    return BW_OK;
}

bw_status bw_read_closing_up(bw_reader *r, const xmlNode *node)
{
    static const char *const parts[] = {"air-test", "moisture-limit", "reading",
                                        "evidence"};
    bw_closing_up *up = &r->assembly->closing_up;
    size_t count = 0;
    BW_TRY(bw_xml_attributes(&r->xml, node, NULL, 0, r->err));
    BW_TRY(bw_xml_children(&r->xml, node, parts, BW_COUNT(parts), r->err));
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c)) {
        BW_TRY(bw_xml_children(&r->xml, c, NULL, 0, r->err));
        count++;
    }
    bw_air_test *test = BW_NEW(r->arena, bw_air_test, count);
    bw_moisture_limit *limit = BW_NEW(r->arena, bw_moisture_limit, count);
    bw_reading *reading = BW_NEW(r->arena, bw_reading, count);
    bw_evidence_item *item = BW_NEW(r->arena, bw_evidence_item, count);
    if (test == NULL || limit == NULL || reading == NULL || item == NULL)
        return bw_fail_memory(r->err);
    *up = (bw_closing_up){.given = true,
                          .air_test = test,
                          .limit = limit,
                          .reading = reading,
                          .evidence = item};
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c)) {
        if (bw_xml_is(c, "air-test"))
            BW_TRY(read_air_test(r, &test[up->air_test_count++], c));
        else if (bw_xml_is(c, "moisture-limit"))
            BW_TRY(read_limit(r, up, &limit[up->limit_count], c));
        else if (bw_xml_is(c, "reading"))
            BW_TRY(read_reading(r, &reading[up->reading_count++], c));
        else
            BW_TRY(read_item(r, &item[up->evidence_count++], c));
    }
    size_t i = 0;
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        if (bw_xml_is(c, "reading"))
            BW_TRY(check_member(r, up, &reading[i++], c));
    return BW_OK;
}
