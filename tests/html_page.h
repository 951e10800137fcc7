#ifndef BW_TEST_HTML_PAGE_H
#define BW_TEST_HTML_PAGE_H

/* A page that was written, parsed as XML; and what is asked of every one. */

#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>

#include "inside.h"
#include "paper.h"
#include "report_wall.h"
#include "suite.h"

static paper page;
static xmlDoc *doc;
static report_wall wall;

static inline void page_setup(void)
{
    report_wall_make(&wall);
    paper_clear(&page);
    doc = NULL;
}

static inline void page_teardown(void)
{
    xmlFreeDoc(doc);
}

static inline double number_at(const char *path)
{
    xmlXPathContext *context = xmlXPathNewContext(doc);
    xmlXPathRegisterNs(context, (const xmlChar *)"s",
                       (const xmlChar *)"http://www.w3.org/2000/svg");
    xmlXPathObject *found = xmlXPathEvalExpression((const xmlChar *)path,
                                                   context);
    ck_assert_msg(found != NULL, "%s", path);
    double value = xmlXPathCastToNumber(found);
    xmlXPathFreeObject(found);
    xmlXPathFreeContext(context);
    return value;
}

#define COUNT_OF(path) ((size_t)number_at("count(" path ")"))

static inline void parse(void)
{
    static const char *const slips[] = {
        "(null)", ">nan",         "\"nan",           "inf\"",
        "%s",     "\xe2\x80\xae", "1844674407370955"};
    xmlFreeDoc(doc);
    doc = xmlReadMemory(page.text, (int)page.used, "page", NULL,
                        XML_PARSE_NONET | XML_PARSE_HUGE);
    ck_assert_msg(doc != NULL, "the page does not parse");
    for (size_t i = 0; i < COUNT(slips); i++)
        HAS_NOT(page.text, slips[i]);
    ck_assert_uint_eq(COUNT_OF("//h1"), 1);
    all_inside(xmlDocGetRootElement(doc), NULL);
    /* no verdict without a word */
    ck_assert_uint_eq(COUNT_OF("//b[. = '']"), 0);
}

#endif
