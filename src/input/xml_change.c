#include <libxml/tree.h>
#include <libxml/xmlerror.h>

#include "fail.h"
#include "xml.h"

/* A document changed in memory. Only memory can run out here; libxml2 would
 * print that, so it is given a listener that says nothing. */

#if LIBXML_VERSION >= 21200
static void on_error(void *context, const xmlError *error)
#else
static void on_error(void *context, xmlError *error)
#endif
{
    (void)context;
    (void)error;
}

typedef struct listener {
    xmlStructuredErrorFunc handler;
    void *context;
} listener;

static listener hush(void)
{
    listener before = {xmlStructuredError, xmlStructuredErrorContext};
    xmlSetStructuredErrorFunc(NULL, on_error);
    return before;
}

static void put_back(listener before)
{
    xmlSetStructuredErrorFunc(before.context, before.handler);
    xmlResetLastError();
}

bw_status bw_xml_set(xmlNode *node, const char *name, const char *value,
                     bw_error *err)
{
    if (value == NULL) {
        xmlUnsetProp(node, (const xmlChar *)name);
        return BW_OK;
    }
    listener before = hush();
    const xmlAttr *set = xmlSetProp(node, (const xmlChar *)name,
                                    (const xmlChar *)value);
    bool held = set != NULL && set->children != NULL &&
                set->children->content != NULL;
    put_back(before);
    return held ? BW_OK : bw_fail_memory(err);
}

bw_status bw_xml_add(xmlNode **child, xmlNode *node, const char *name,
                     bw_error *err)
{
    listener before = hush();
    *child = xmlNewChild(node, node->ns, (const xmlChar *)name, NULL);
    put_back(before);
    return *child != NULL ? BW_OK : bw_fail_memory(err);
}

void bw_xml_drop(xmlNode *node, const char *name)
{
    xmlNode *next;
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = next) {
        next = bw_xml_next(c);
        if (!bw_xml_is(c, name))
            continue;
        xmlUnlinkNode(c);
        xmlFreeNode(c);
    }
}
