#include "xml.h"

#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "text.h"

/* What is read from an open document, and how it is refused. */

enum { LIST = 320 };

/* ---- elements ---------------------------------------------------------- */

/* Most names differ in their first letter. */
static bool same(const xmlChar *name, const char *text)
{
    return (char)name[0] == text[0] && strcmp((const char *)name, text) == 0;
}

static xmlNode *skip_to_element(xmlNode *node)
{
    while (node != NULL && node->type != XML_ELEMENT_NODE)
        node = node->next;
    return node;
}

xmlNode *bw_xml_first(const xmlNode *node)
{
    return skip_to_element(node->children);
}

xmlNode *bw_xml_next(const xmlNode *node)
{
    return skip_to_element(node->next);
}

bool bw_xml_is(const xmlNode *node, const char *name)
{
    return same(node->name, name);
}

const char *bw_xml_name(const xmlNode *node)
{
    return (const char *)node->name;
}

long bw_xml_line(const xmlNode *node)
{
    return node->line | (long)node->extra << 16; /* xml_open.c */
}

char *bw_xml_list(char *buffer, size_t size, const char *const *words,
                  size_t count)
{
    size_t used = 0;
    buffer[0] = '\0';
    for (size_t i = 0; i < count && used < size; i++) {
        int wrote = snprintf(buffer + used, size - used, "%s%s",
                             i > 0 ? ", " : "", words[i]);
        used += wrote > 0 ? (size_t)wrote : 0;
    }
    return buffer;
}

static bool has_ink(const char *text)
{
    return text != NULL && text[strspn(text, " \t\r\n")] != '\0';
}

static bw_status refuse_child(const bw_xml *xml, const xmlNode *child,
                              const char *const *allowed, size_t count,
                              bw_error *err)
{
    char list[LIST];
    const char *parent = bw_xml_name(child->parent);
    if (count == 0)
        return bw_xml_fail(xml, child, err,
                           "cannot stand in <%s>, which holds no elements",
                           parent);
    return bw_xml_fail(
        xml, child, err, "is not an element of <%s>%s; allowed: %s", parent,
        bw_text_meant((char[BW_MEANT]){0}, bw_xml_name(child), allowed, count),
        bw_xml_list(list, sizeof list, allowed, count));
}

bw_status bw_xml_children(const bw_xml *xml, const xmlNode *node,
                          const char *const *allowed, size_t count,
                          bw_error *err)
{
    for (const xmlNode *child = node->children; child != NULL;
         child = child->next) {
        if (child->type == XML_TEXT_NODE &&
            has_ink((const char *)child->content))
            return bw_xml_fail(
                xml, node, err,
                "holds loose text \"%.40s\"; everything is "
                "said in elements and attributes",
                (const char *)child->content +
                    strspn((const char *)child->content, " \t\r\n"));
        if (child->type != XML_ELEMENT_NODE)
            continue;
        bool known = false;
        for (size_t i = 0; i < count && !known; i++)
            known = bw_xml_is(child, allowed[i]);
        if (!known)
            return refuse_child(xml, child, allowed, count, err);
    }
    return BW_OK;
}

bw_status bw_xml_child(xmlNode **child, const bw_xml *xml, const xmlNode *node,
                       const char *name, bool required, bw_error *err)
{
    xmlNode *found = NULL;
    for (xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c)) {
        if (!bw_xml_is(c, name))
            continue;
        if (found != NULL)
            return bw_xml_fail(xml, c, err,
                               "stands twice in <%s> (first in line %ld); "
                               "only one is allowed",
                               bw_xml_name(node), bw_xml_line(found));
        found = c;
    }
    if (found == NULL && required)
        return bw_xml_fail(xml, node, err, "has no <%s>, which it needs", name);
    *child = found;
    return BW_OK;
}

/* ---- attributes -------------------------------------------------------- */

/* Hints for editors may stand anywhere. */
static bool is_for_editors(const xmlAttr *attribute)
{
    if (attribute->ns == NULL || attribute->ns->href == NULL)
        return false;
    const char *href = (const char *)attribute->ns->href;
    return strcmp(href, "http://www.w3.org/2001/XMLSchema-instance") == 0 ||
           strcmp(href, "http://www.w3.org/XML/1998/namespace") == 0;
}

static bw_status refuse_attribute(const bw_xml *xml, const xmlNode *node,
                                  const char *name, const char *const *allowed,
                                  size_t count, bw_error *err)
{
    char list[LIST];
    if (count == 0)
        return bw_xml_fail_at(xml, node, name, err,
                              "cannot stand in <%s>, which has no attributes",
                              bw_xml_name(node));
    return bw_xml_fail_at(
        xml, node, name, err, "is not an attribute of <%s>%s; allowed: %s",
        bw_xml_name(node),
        bw_text_meant((char[BW_MEANT]){0}, name, allowed, count),
        bw_xml_list(list, sizeof list, allowed, count));
}

bw_status bw_xml_attributes(const bw_xml *xml, const xmlNode *node,
                            const char *const *allowed, size_t count,
                            bw_error *err)
{
    for (const xmlAttr *a = node->properties; a != NULL; a = a->next) {
        const char *name = (const char *)a->name;
        bool known = is_for_editors(a) || a->_private != NULL;
        if (!known && a->ns != NULL)
            return bw_xml_fail(xml, node, err,
                               "has the attribute %.40s:%.40s=, which is of "
                               "another namespace: leave it out, or its prefix",
                               (const char *)a->ns->prefix, name);
        for (size_t i = 0; i < count && !known; i++)
            known = same(a->name, allowed[i]);
        if (!known)
            return bw_xml_slip(
                xml, node, name,
                refuse_attribute(xml, node, name, allowed, count, err));
    }
    return BW_OK;
}

bw_status bw_xml_childless(const bw_xml *xml, const xmlNode *node,
                           const char *const *allowed, size_t count,
                           bw_error *err)
{
    BW_TRY(bw_xml_attributes(xml, node, allowed, count, err));
    return bw_xml_children(xml, node, NULL, 0, err);
}

static xmlAttr *attribute(const xmlNode *node, const char *name)
{
    xmlAttr *a = node->properties;
    while (a != NULL && (a->ns != NULL || !same(a->name, name)))
        a = a->next;
    return a;
}

const char *bw_xml_value(const xmlNode *node, const char *name)
{
    const xmlAttr *a = attribute(node, name);
    if (a == NULL)
        return NULL;
    return a->children != NULL ? (const char *)a->children->content : "";
}

bw_status bw_xml_required(const char **value, const bw_xml *xml,
                          const xmlNode *node, const char *name,
                          const char *example, bw_error *err)
{
    const char *text = bw_xml_value(node, name);
    if (text == NULL)
        return bw_xml_fail(xml, node, err,
                           "has no %s=, which it needs; write for example "
                           "%s=\"%s\"",
                           name, name, example);
    if (!has_ink(text))
        return bw_xml_fail_at(xml, node, name, err,
                              "is empty; write for example %s=\"%s\"", name,
                              example);
    *value = text;
    return BW_OK;
}

bw_status bw_xml_quantity(double *value, bool *given, const bw_xml *xml,
                          const xmlNode *node, const char *name,
                          bw_dimension dimension, double low, double high,
                          bw_error *err)
{
    char why[560];
    const char *text = bw_xml_value(node, name);
    if (given != NULL)
        *given = text != NULL;
    if (text == NULL && given != NULL)
        return BW_OK;
    if (text == NULL) {
        /* Let the reader say what such a quantity looks like. */
        double ignored;
        bw_quantity_read(&ignored, dimension, low, high, "", why, sizeof why);
        const char *form = strchr(why, ';');
        return bw_xml_fail(xml, node, err, "has no %s=, which it needs%s", name,
                           form != NULL ? form : "");
    }
    if (bw_quantity_read(value, dimension, low, high, text, why, sizeof why))
        return BW_OK;
    if (bw_xml_slipped(node, name)) {
        *value = 0.5 * (low + high);
        return BW_OK;
    }
    return bw_xml_slip(xml, node, name,
                       bw_xml_fail_at(xml, node, name, err,
                                      why[0] == '"' ? "- %s" : "%s", why));
}

bw_status bw_xml_word(int *index, bool *given, const bw_xml *xml,
                      const xmlNode *node, const char *name,
                      const char *const *words, size_t count, bw_error *err)
{
    char list[LIST];
    const char *text = bw_xml_value(node, name);
    if (given != NULL)
        *given = text != NULL;
    if (text == NULL && given != NULL)
        return BW_OK;
    if (text == NULL)
        return bw_xml_fail(xml, node, err,
                           "has no %s=, which it needs; write one of: %s", name,
                           bw_xml_list(list, sizeof list, words, count));
    for (size_t i = 0; i < count; i++) {
        if (strcmp(words[i], text) != 0)
            continue;
        *index = (int)i;
        return BW_OK;
    }
    if (bw_xml_slipped(node, name)) {
        *index = 0;
        return BW_OK;
    }
    return bw_xml_slip(
        xml, node, name,
        bw_xml_fail_at(xml, node, name, err, "is not known%s; write one of: %s",
                       bw_text_meant((char[BW_MEANT]){0}, text, words, count),
                       bw_xml_list(list, sizeof list, words, count)));
}

bw_status bw_xml_whole(int *value, bool *given, const bw_xml *xml,
                       const xmlNode *node, const char *name, int low, int high,
                       bw_error *err)
{
    const char *text = bw_xml_value(node, name);
    if (given != NULL)
        *given = text != NULL;
    if (text == NULL && given != NULL)
        return BW_OK;
    if (text == NULL)
        return bw_xml_fail(xml, node, err,
                           "has no %s=, which it needs; write a whole number "
                           "from %d to %d",
                           name, low, high);
    size_t length = strlen(text);
    char *end;
    long number = length > 0 && length < 10 ? strtol(text, &end, 10) : LONG_MIN;
    bool wrong = number == LONG_MIN || *end != '\0' || number < low ||
                 number > high || strspn(text, "-0123456789") != length;
    if (wrong && !bw_xml_slipped(node, name))
        return bw_xml_slip(xml, node, name,
                           bw_xml_fail_at(xml, node, name, err,
                                          "is not a whole number from %d to %d",
                                          low, high));
    *value = wrong ? low : (int)number;
    return BW_OK;
}

/* ---- refusals ---------------------------------------------------------- */

bool bw_xml_slipped(const xmlNode *node, const char *name)
{
    const xmlAttr *a = attribute(node, name);
    return a != NULL && a->_private != NULL;
}

bw_status bw_xml_slip(const bw_xml *xml, const xmlNode *node, const char *name,
                      bw_status status)
{
    xmlAttr *a = attribute(node, name);
    if (xml->slipped == NULL || a == NULL || a->_private != NULL)
        return status;
    a->_private = a; /* any mark but NULL */
    *xml->slipped = true;
    return status;
}

bw_status bw_xml_fail(const bw_xml *xml, const xmlNode *node, bw_error *err,
                      const char *format, ...)
{
    char text[700];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    return bw_fail(err, BW_ERR_INPUT, xml->path, bw_xml_line(node),
                   "<%.40s> %s", bw_xml_name(node), text);
}

bw_status bw_xml_fail_at(const bw_xml *xml, const xmlNode *node,
                         const char *name, bw_error *err, const char *format,
                         ...)
{
    char text[600];
    const char *value = bw_xml_value(node, name);
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    return bw_fail(err, BW_ERR_INPUT, xml->path, bw_xml_line(node),
                   "<%.40s> %.40s=\"%.60s%s\" %s", bw_xml_name(node), name,
                   value != NULL ? value : "",
                   value != NULL && strlen(value) > 60 ? "..." : "", text);
}
