#include "xml.h"

#include <libxml/SAX2.h>
#include <libxml/parser.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "file.h"
#include "xml_limit.h"

/* How a document is opened.
 *
 * Invariant: a bw_xml that was opened holds only elements of one namespace,
 * no document type, and attributes whose value is one text node. */

/* What the parser's callbacks report, hung on the parser itself. */
typedef struct report {
    const char *path, *what;
    bw_error *err;
    bool failed;
    bool out_of_memory;
    bool in_element; /* its attributes still stand in the parser's input */
} report;

static report *report_of(void *context)
{
    return ((xmlParserCtxt *)context)->_private;
}

#if LIBXML_VERSION >= 21200
static void on_error(void *context, const xmlError *error)
#else
static void on_error(void *context, xmlError *error)
#endif
{
    report *r = report_of(context);
    if (r->failed || error->level < XML_ERR_ERROR)
        return;
    /* the first: libxml2 says the same after an attribute that is too long */
    r->out_of_memory |= error->code == XML_ERR_NO_MEMORY;
    r->failed = true;
    size_t length = error->message != NULL ? strlen(error->message) : 0;
    while (length > 0 && error->message[length - 1] == '\n')
        length--;
    bw_fail(r->err, BW_ERR_INPUT, r->path, error->line,
            "this is not well-formed XML: %.*s", (int)length,
            length > 0 ? error->message : "");
    /* Beyond it nothing was looked at (xml_limit.c). To stop frees the input;
     * without memory the parser stops by itself. */
    if (!r->in_element && !r->out_of_memory)
        xmlStopParser(context);
}

/* Errors with no parser to hang on; libxml2 would print them. */
#if LIBXML_VERSION >= 21200
static void on_other_error(void *context, const xmlError *error)
#else
static void on_other_error(void *context, xmlError *error)
#endif
{
    ((report *)context)->out_of_memory |= error->code == XML_ERR_NO_MEMORY;
}

static void on_doctype(void *context, const xmlChar *name,
                       const xmlChar *external, const xmlChar *system)
{
    (void)name, (void)external, (void)system;
    report *r = report_of(context);
    if (!r->failed)
        bw_fail(r->err, BW_ERR_INPUT, r->path, xmlSAX2GetLineNumber(context),
                "a document type (<!DOCTYPE ...>) is not accepted in %s "
                "files; take it out, entities and all",
                r->what);
    r->failed = true;
    xmlStopParser(context);
}

/* A node has 16 bits for its line, and 16 that only XSLT would use. */
static void on_element(void *context, const xmlChar *name,
                       const xmlChar *prefix, const xmlChar *uri,
                       int name_spaces, const xmlChar **name_space,
                       int attributes, int defaulted, const xmlChar **attribute)
{
    xmlParserCtxt *parser = context;
    report *r = report_of(context);
    r->in_element = true;
    xmlSAX2StartElementNs(context, name, prefix, uri, name_spaces, name_space,
                          attributes, defaulted, attribute);
    r->in_element = false;
    if (r->failed) {
        xmlStopParser(context);
        return;
    }
    if (parser->node == NULL || parser->input == NULL)
        return;
    const unsigned line = (unsigned)parser->input->line;
    parser->node->line = (unsigned short)(line & 0xffff);
    parser->node->extra = (unsigned short)(line >> 16);
}

static bool parse_with(xmlDoc **doc, xmlParserCtxt *parser, const char *text,
                       size_t length, report *r)
{
    parser->_private = r;
    parser->sax->serror = on_error;
    parser->sax->internalSubset = on_doctype;
    parser->sax->startElementNs = on_element;
    parser->sax->comment = NULL; /* nothing is kept of what says nothing */
    parser->sax->processingInstruction = NULL;
    /* Deliberately without NOENT, DTDLOAD and HUGE. */
    *doc = xmlCtxtReadMemory(parser, text, (int)length, NULL, NULL,
                             XML_PARSE_NONET | XML_PARSE_NOCDATA |
                                 XML_PARSE_COMPACT | XML_PARSE_NOBLANKS);
    return *doc != NULL && parser->wellFormed && !r->failed;
}

static bw_status parse(xmlDoc **doc, const char *text, size_t length, report *r)
{
    /* of this thread, and put back: it may be a handler of our caller's */
    xmlStructuredErrorFunc handler = xmlStructuredError;
    void *context = xmlStructuredErrorContext;
    xmlSetStructuredErrorFunc(r, on_other_error);
    xmlDoc *read = NULL;
    xmlParserCtxt *parser = xmlNewParserCtxt();
    bool sound = parser != NULL && parse_with(&read, parser, text, length, r);
    r->out_of_memory |= parser == NULL;
    xmlFreeParserCtxt(parser);
    xmlSetStructuredErrorFunc(context, handler);
    if (sound && !r->out_of_memory) {
        *doc = read;
        return BW_OK;
    }
    xmlFreeDoc(read);
    xmlResetLastError();
    BW_TRY_MEMORY(!r->out_of_memory, r->err);
    if (r->failed)
        return BW_ERR_INPUT;
    return bw_fail(r->err, BW_ERR_INPUT, r->path, 0,
                   "this is not well-formed XML");
}

const char *bw_xml_name_space(const xmlNode *node)
{
    return node->ns != NULL && node->ns->href != NULL
               ? (const char *)node->ns->href
               : "";
}

static bw_status check_root(const bw_xml *xml, const char *what,
                            const char *root, const char *name_space,
                            bw_error *err)
{
    const char *name = bw_xml_name(xml->root);
    const char *found = bw_xml_name_space(xml->root);
    size_t stem = (size_t)(strrchr(name_space, ':') - name_space) + 1;
    if (strcmp(name, root) != 0)
        return bw_xml_fail(
            xml, xml->root, err,
            "is not what this kind of file (%s) starts with: <%s "
            "xmlns=\"%s\">",
            what, root, name_space);
    if (strcmp(found, name_space) == 0)
        return BW_OK;
    if (*found == '\0')
        return bw_xml_fail(xml, xml->root, err,
                           "has no namespace; write <%s xmlns=\"%s\" ...>",
                           root, name_space);
    if (strncmp(found, name_space, stem) == 0)
        return bw_xml_fail(xml, xml->root, err,
                           "xmlns=\"%s\" is version %s of the %s file; this "
                           "program reads version %s (xmlns=\"%s\")",
                           found, found + stem, what, name_space + stem,
                           name_space);
    return bw_xml_fail(xml, xml->root, err,
                       "xmlns=\"%s\" is not the namespace of %s files; write "
                       "xmlns=\"%s\"",
                       found, what, name_space);
}

/* One that was written as a reference (&#10;) would begin a line of the sheet
 * that no program wrote. */
static void flatten(xmlChar *text)
{
    for (; text != NULL && *text != 0; text++)
        if (*text < ' ')
            *text = ' ';
}

static bw_status check_node(const bw_xml *xml, const xmlNode *node,
                            const char *name_space, bw_error *err)
{
    if (name_space != NULL && strcmp(bw_xml_name_space(node), name_space) != 0)
        return bw_xml_fail(xml, node, err,
                           "is not in the namespace %s: leave out its own "
                           "xmlns or prefix",
                           name_space);
    for (const xmlAttr *a = node->properties; a != NULL; a = a->next) {
        if (a->children == NULL)
            continue;
        if (a->children->next != NULL || a->children->type != XML_TEXT_NODE)
            return bw_xml_fail(xml, node, err,
                               "%s= holds an entity; write the text itself",
                               (const char *)a->name);
        flatten(a->children->content);
    }
    return BW_OK;
}

/* Walks all elements, depth first, without recursion. name_space NULL: any. */
static bw_status check_all(const bw_xml *xml, const char *name_space,
                           bw_error *err)
{
    const xmlNode *node = xml->root;
    while (node != NULL) {
        BW_TRY(check_node(xml, node, name_space, err));
        const xmlNode *next = bw_xml_first(node);
        while (next == NULL && node != xml->root) {
            next = bw_xml_next(node);
            if (next == NULL)
                node = node->parent;
        }
        node = next;
    }
    return BW_OK;
}

/* text NULL: of the file. */
static bw_status load(bw_xml *xml, const char *path, const char *text,
                      const char *what, bw_error *err)
{
    char *whole = NULL;
    size_t length = text != NULL ? strlen(text) : 0;
    if (length > BW_FILE_LIMIT) {
        bw_fail(err, BW_ERR_INPUT, path, 0,
                "this %s is longer than the %zu MiB that are read", what,
                BW_FILE_LIMIT / ((size_t)1024 * 1024));
        return BW_ERR_INPUT;
    }
    if (text == NULL)
        BW_TRY(bw_file_read(&whole, &length, path, what, err));
    *xml = (bw_xml){.path = path};
    report r = {.path = path, .what = what, .err = err};
    const char *all = text != NULL ? text : whole;
    bw_status status = bw_xml_within(all, length, path, what, err);
    if (status == BW_OK)
        status = parse(&xml->doc, all, length, &r);
    if (status == BW_OK)
        xml->root = xmlDocGetRootElement(xml->doc);
    free(whole);
    return status;
}

/* The document if nothing was found in it; else it is closed. */
static bw_status keep(bw_xml *xml, bw_xml *loaded, bw_status status)
{
    if (status != BW_OK)
        bw_xml_close(loaded);
    else
        *xml = *loaded;
    return status;
}

bw_status bw_xml_open(bw_xml *xml, const char *path, const char *text,
                      const char *what, const char *root,
                      const char *name_space, bw_error *err)
{
    bw_xml fresh = {.path = path};
    BW_TRY(load(&fresh, path, text, what, err));
    bw_status status = check_root(&fresh, what, root, name_space, err);
    if (status == BW_OK)
        status = check_all(&fresh, name_space, err);
    return keep(xml, &fresh, status);
}

bw_status bw_xml_open_foreign(bw_xml *xml, const char *path, const char *what,
                              bw_error *err)
{
    bw_xml fresh = {.path = path};
    BW_TRY(load(&fresh, path, NULL, what, err));
    return keep(xml, &fresh, check_all(&fresh, NULL, err));
}

void bw_xml_close(bw_xml *xml)
{
    xmlFreeDoc(xml->doc);
    xml->doc = NULL;
    xml->root = NULL;
}
