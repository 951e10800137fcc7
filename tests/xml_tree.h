#ifndef BW_TESTS_XML_TREE_H
#define BW_TESTS_XML_TREE_H

/* A parsed page, walked: its elements, their values and their words. */

#include <check.h>
#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>
#include <string.h>

enum { NODES_MOST = 2048, WORDS_OF_NODE = 4096 };

typedef struct nodes {
    size_t count;
    xmlNode **node;
} nodes;

/* In the order of the page; until the next is looked for of another kind. */
static inline nodes find(xmlDoc *doc, const char *path)
{
    static xmlNode *kept[8][NODES_MOST];
    static size_t turn;
    nodes found = {.node = kept[turn++ % 8]};
    xmlXPathContext *context = xmlXPathNewContext(doc);
    xmlXPathObject *is = xmlXPathEvalExpression((const xmlChar *)path, context);
    ck_assert_msg(is != NULL, "%s", path);
    xmlXPathNodeSetSort(is->nodesetval);
    for (int i = 0; is->nodesetval != NULL && i < is->nodesetval->nodeNr; i++) {
        ck_assert_uint_lt(found.count, NODES_MOST);
        found.node[found.count++] = is->nodesetval->nodeTab[i];
    }
    xmlXPathFreeObject(is);
    xmlXPathFreeContext(context);
    return found;
}

/* Of an attribute; "": it has none. Until the next is asked for. */
static inline const char *value_of(const xmlNode *node, const char *name)
{
    static char text[WORDS_OF_NODE];
    xmlChar *value = xmlGetProp(node, (const xmlChar *)name);
    text[0] = '\0';
    if (value != NULL)
        strncat(text, (const char *)value, sizeof text - 1);
    xmlFree(value);
    return text;
}

static inline void has_value(const xmlNode *node, const char *name,
                             const char *wanted)
{
    ck_assert_msg(strcmp(value_of(node, name), wanted) == 0,
                  "%s: %s is '%s', not '%s'", (const char *)node->name, name,
                  value_of(node, name), wanted);
}

static inline const char *words_of(const xmlNode *node)
{
    static char text[WORDS_OF_NODE];
    xmlChar *value = xmlNodeGetContent(node);
    text[0] = '\0';
    if (value != NULL)
        strncat(text, (const char *)value, sizeof text - 1);
    xmlFree(value);
    return text;
}

static inline size_t elements_of(xmlNode *node)
{
    return (size_t)xmlChildElementCount(node);
}

static inline xmlNode *element(xmlNode *node, size_t nth)
{
    xmlNode *child = xmlFirstElementChild(node);
    while (child != NULL && nth-- > 0)
        child = xmlNextElementSibling(child);
    ck_assert_ptr_nonnull(child);
    return child;
}

#endif
