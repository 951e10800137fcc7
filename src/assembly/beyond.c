#include "beyond.h"

#include <string.h>

/* What may lie against an outer face, by its table.
 *
 * Invariant: no kind is named here; a value is that of the attribute with its
 * number. */

static const bw_beyond_kind *const kinds[] = {
#define BEYOND(name) &bw_beyond_##name,
#include "every_beyond.h"
#undef BEYOND
};

const bw_beyond_kind *bw_beyond_kind_at(size_t i)
{
    return kinds[i];
}

const char *bw_beyond_element(const bw_beyond *beyond)
{
    return beyond->kind != NULL ? beyond->kind->element : NULL;
}

const char *bw_beyond_against(const bw_assembly *assembly)
{
    const bw_beyond_kind *kind = assembly->beyond.kind;
    return kind != NULL ? kind->against : NULL;
}

bool bw_beyond_value(double *value, const bw_beyond *beyond, const char *name)
{
    if (beyond->kind == NULL)
        return false;
    for (int i = 0; beyond->kind->attribute[i].name != NULL; i++) {
        if (strcmp(beyond->kind->attribute[i].name, name) != 0)
            continue;
        *value = beyond->value[i];
        return true;
    }
    return false;
}

/* ---- its layer ---------------------------------------------------------- */

/* Its value; NULL: no attribute of it is a layer. */
static double *tight(bw_beyond *beyond)
{
    const bw_beyond_kind *kind = beyond->kind;
    for (int i = 0; kind != NULL && kind->attribute[i].name != NULL; i++)
        if (kind->attribute[i].sort == BW_BEYOND_TIGHT_LAYER)
            return &beyond->value[i];
    return NULL;
}

long bw_beyond_tight_layer(const bw_beyond *beyond)
{
    bw_beyond copy = *beyond;
    const double *layer = tight(&copy);
    return layer != NULL ? (long)*layer : -1;
}

void bw_beyond_layer_lost(bw_beyond *beyond, size_t layer)
{
    double *own = tight(beyond);
    if (own != NULL && (long)*own == (long)layer)
        *own = -1.0;
}

void bw_beyond_layers_moved(bw_beyond *beyond, size_t at, long by)
{
    double *own = tight(beyond);
    if (own != NULL && (long)*own >= (long)at)
        *own += (double)by;
}

/* ---- alike -------------------------------------------------------------- */

static const char *tight_id(const bw_assembly *a)
{
    const long i = bw_beyond_tight_layer(&a->beyond);
    return i >= 0 && (size_t)i < a->layer_count ? a->layer[i].id : "";
}

bool bw_beyond_same(const bw_assembly *a, const bw_assembly *b)
{
    const bw_beyond_kind *kind = a->beyond.kind;
    bool alike = kind == b->beyond.kind &&
                 strcmp(tight_id(a), tight_id(b)) == 0;
    for (size_t i = 0; alike && kind != NULL && kind->attribute[i].name; i++)
        alike = kind->attribute[i].sort == BW_BEYOND_TIGHT_LAYER ||
                a->beyond.value[i] == b->beyond.value[i];
    return alike;
}

/* ---- its year ----------------------------------------------------------- */

void bw_beyond_moments(const bw_moments *moments, const bw_assembly *assembly,
                       const bw_climate *climate)
{
    if (assembly->beyond.kind != NULL)
        assembly->beyond.kind->moments(moments, &assembly->beyond, climate);
}
