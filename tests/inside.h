#ifndef BW_TESTS_INSIDE_H
#define BW_TESTS_INSIDE_H

/* Of every picture of a page: each mark lies within its paper, and has an
 * extent that is not negative. */

#include <libxml/tree.h>
#include <math.h>
#include <string.h>

#include "svg_path.h"

typedef struct sheet {
    double width, height;
    const char *title;
} sheet;

/* NAN: it has none. */
static inline double mark_number(xmlNode *node, const char *name)
{
    xmlChar *text = xmlGetProp(node, (const xmlChar *)name);
    const double value = text != NULL ? strtod((char *)text, NULL)
                                      : (double)NAN;
    xmlFree(text);
    return value;
}

/* Half a line may lie over the edge; so may rounding. */
static inline void place_inside(const sheet *s, const xmlNode *node, double x,
                                double y)
{
    ck_assert_msg(
        !(x < -1.0 || x > s->width + 1.0 || y < -1.0 || y > s->height + 1.0),
        "%s at %.2f %.2f of %.0f x %.0f (%s)", node->name, x, y, s->width,
        s->height, s->title);
}

static inline void mark_inside(const sheet *s, xmlNode *node)
{
    static svg_path path;
    const char *name = (const char *)node->name;
    if (strcmp(name, "rect") == 0) {
        const double x = mark_number(node, "x"), y = mark_number(node, "y");
        const double width = mark_number(node, "width");
        const double height = mark_number(node, "height");
        ck_assert_double_ge(width, 0.0);
        ck_assert_double_ge(height, 0.0);
        place_inside(s, node, x, y);
        place_inside(s, node, x + width, y + height);
    } else if (strcmp(name, "circle") == 0) {
        ck_assert_double_ge(mark_number(node, "r"), 0.0);
        place_inside(s, node, mark_number(node, "cx"), mark_number(node, "cy"));
    } else if (strcmp(name, "text") == 0) {
        place_inside(s, node, mark_number(node, "x"), mark_number(node, "y"));
    } else if (strcmp(name, "path") == 0) {
        xmlChar *text = xmlGetProp(node, (const xmlChar *)"d");
        ck_assert_ptr_nonnull(text);
        svg_read(&path, (char *)text);
        xmlFree(text);
        for (size_t i = 0; i < path.count; i++)
            place_inside(s, node, path.point[i].x, path.point[i].y);
    }
}

/* `in`: the picture it stands in, NULL outside of any. */
static inline void all_inside(xmlNode *node, const sheet *in)
{
    for (; node != NULL; node = node->next) {
        if (node->type != XML_ELEMENT_NODE ||
            strcmp((const char *)node->name, "defs") == 0 ||
            strcmp((const char *)node->name, "pattern") == 0)
            continue;
        sheet own;
        xmlChar *box = xmlGetProp(node, (const xmlChar *)"viewBox");
        xmlChar *title = xmlGetProp(node, (const xmlChar *)"aria-label");
        if (box != NULL) {
            own = (sheet){.title = title != NULL ? (char *)title : "?"};
            ck_assert_int_eq(
                sscanf((char *)box, "0 0 %lf %lf", &own.width, &own.height), 2);
            all_inside(node->children, &own);
        } else {
            if (in != NULL)
                mark_inside(in, node);
            all_inside(node->children, in);
        }
        xmlFree(title);
        xmlFree(box);
    }
}

#endif
