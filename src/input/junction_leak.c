/* What gets in at a named place: <rain-leak>, rain past the outer face;
 * <room-air>, air of a room.
 *
 * Invariant: where water or air is to arrive, two materials meet. */

#include <math.h>
#include <string.h>

#include "fail.h"
#include "junction_reader.h"
#include "patches.h"
#include "text.h"

enum { MOST_LEAKS = 8 };
static const double usual_extent = 0.04; /* m, choice */

static bw_status find_spot(bw_junction_reader *j, bw_drawn_spot *out,
                           const xmlNode *node, const char *name)
{
    const bw_junction *d = &j->d->junction;
    const char *id, *words[BW_MOST_RECTANGLES + 8];
    char list[240];
    size_t count = 0;
    BW_TRY(bw_xml_required(&id, &j->r.xml, node, name, "beam end", j->r.err));
    for (size_t i = 0; i < d->spot_count; i++) {
        *out = d->spot[i];
        if (strcmp(d->spot[i].name, id) == 0)
            return BW_OK;
        if (count < BW_COUNT(words))
            words[count++] = d->spot[i].name;
    }
    if (count == 0)
        return bw_xml_fail_at(&j->r.xml, node, name, j->r.err,
                              "is no named place: the drawing has none; give "
                              "it a <spot>");
    const char *nearest = bw_text_nearest(id, words, count);
    return bw_xml_fail_at(&j->r.xml, node, name, j->r.err,
                          "is no named place%s%s%s; there are: %s",
                          nearest != NULL ? " (did you mean " : "",
                          nearest != NULL ? nearest : "",
                          nearest != NULL ? "?)" : "",
                          bw_xml_list(list, sizeof list, words, count));
}

static bw_status read_extent_of(bw_junction_reader *j, bw_rectangle *out,
                                const xmlNode *node, const bw_drawn_spot *spot)
{
    bool given;
    double over = usual_extent;
    BW_TRY(bw_xml_quantity(&over, &given, &j->r.xml, node, "over",
                           BW_DIM_LENGTH, 0.005, 1.0, j->r.err));
    const double half = 0.5 * over;
    *out = (bw_rectangle){spot->x - half, spot->x + half, spot->y - half,
                          spot->y + half};
    return BW_OK;
}

static bw_status read_leak(bw_junction_reader *j, const xmlNode *node)
{
    bw_drawn_spot spot = {.name = ""};
    const char *source;
    bw_drawn_leak leak = {.wall = -1, .line = bw_xml_line(node)};
    BW_TRY(bw_read_childless(&j->r, node, "at", "fraction", "face", "over",
                             "source"));
    BW_TRY(find_spot(j, &spot, node, "at"));
    BW_TRY(bw_read_quantity(&j->r, &leak.fraction, NULL, node, "fraction",
                            BW_DIM_FRACTION, 0.0, 1.0));
    BW_TRY(bw_read_quantity(&j->r, &leak.face, NULL, node, "face",
                            BW_DIM_LENGTH, 0.01, 100.0));
    BW_TRY(read_extent_of(j, &leak.at, node, &spot));
    BW_TRY(bw_read_required(&j->r, &source, node, "source",
                            "estimate of the surveyor"));
    leak.name = spot.name;
    leak.source = bw_keep(&j->r, source);
    bw_draw_leak(j->d, &leak);
    return BW_OK;
}

/* The room that of= names; else the first. All air is of one. */
static bw_status read_room(bw_junction_reader *j, size_t *out,
                           const xmlNode *node)
{
    const bw_junction *d = &j->d->junction;
    const char *words[BW_MOST_ROOMS];
    size_t room[BW_MOST_ROOMS] = {0}, count = 0;
    int which = 0;
    bool given;
    for (size_t e = 0; e < d->environment_count && count < BW_MOST_ROOMS; e++)
        if (d->environment[e].kind == BW_ENVIRONMENT_ROOM) {
            words[count] = d->environment[e].id;
            room[count++] = e;
        }
    BW_TRY(bw_xml_word(&which, &given, &j->r.xml, node, "of", words, count,
                       j->r.err));
    *out = room[given ? which : 0];
    if (d->air_count == 0 || d->air[0].environment == *out)
        return BW_OK;
    return bw_xml_fail(&j->r.xml, node, j->r.err,
                       "is air of \"%.60s\" beside air of \"%.60s\"; one "
                       "drawing takes air of one room",
                       d->environment[*out].id,
                       d->environment[d->air[0].environment].id);
}

static bw_status read_air(bw_junction_reader *j, const xmlNode *node)
{
    static const double most = 50.0 / 3600.0; /* m3/(m s) */
    bw_drawn_spot spot = {.name = ""};
    const char *source;
    bw_drawn_air air = {.line = bw_xml_line(node)};
    bool given;
    int which = 0;
    BW_TRY(bw_read_childless(&j->r, node, "at", "flow", "of", "counts", "over",
                             "source"));
    BW_TRY(find_spot(j, &spot, node, "at"));
    BW_TRY(bw_read_quantity(&j->r, &air.flow, NULL, node, "flow",
                            BW_DIM_AIR_FLOW, 0.0, most));
    BW_TRY(read_room(j, &air.environment, node));
    BW_TRY(
        bw_read_word(&j->r, &which, &given, node, "counts", "wetting", "all"));
    BW_TRY(read_extent_of(j, &air.at, node, &spot));
    BW_TRY(bw_read_required(&j->r, &source, node, "source",
                            "estimate of the surveyor"));
    air.all = given && which == 1;
    air.name = spot.name;
    air.source = bw_keep(&j->r, source);
    bw_draw_air(j->d, &air);
    return BW_OK;
}

bw_status bw_read_leaks(bw_junction_reader *j, const xmlNode *root)
{
    size_t count[2] = {0, 0};
    for (const xmlNode *c = bw_xml_first(root); c != NULL; c = bw_xml_next(c)) {
        const bool air = bw_xml_is(c, "room-air");
        if (!air && !bw_xml_is(c, "rain-leak"))
            continue;
        if (++count[air] > MOST_LEAKS)
            return bw_xml_fail(&j->r.xml, c, j->r.err,
                               "is one too many; %d are accepted", MOST_LEAKS);
        BW_TRY(air ? read_air(j, c) : read_leak(j, c));
    }
    return BW_OK;
}

/* ---- where two materials meet ----------------------------------------------
 */

static bool overlap(double a0, double a1, double b0, double b1)
{
    return fmin(a1, b1) - fmax(a0, b0) > BW_ONE_LINE;
}

static bool holds(double a0, double a1, double at)
{
    return at >= a0 - BW_ONE_LINE && at <= a1 + BW_ONE_LINE;
}

static int drawn(const bw_patches *p, const bw_junction *d, size_t i, size_t k)
{
    const int filling = p->filling[k * p->nx + i];
    return filling == BW_NOT_THERE ? BW_NOT_THERE
                                   : (int)d->filling[filling].material;
}

static bool differ(int a, int b)
{
    return a != b && a != BW_NOT_THERE && b != BW_NOT_THERE;
}

static bool any_film(const bw_junction *d, const bw_rectangle *at)
{
    for (size_t i = 0; i < d->film_line_count; i++) {
        const bw_film_line *f = &d->film_line[i];
        const bool level = f->x1 > f->x0;
        if (level ? overlap(f->x0, f->x1, at->x0, at->x1) &&
                        holds(at->y0, at->y1, f->y0)
                  : overlap(f->y0, f->y1, at->y0, at->y1) &&
                        holds(at->x0, at->x1, f->x0))
            return true;
    }
    return false;
}

static bool materials_meet(const bw_junction *d, const bw_patches *p,
                           const bw_rectangle *at)
{
    for (size_t c = 0; c < p->nx * p->ny; c++) {
        const size_t i = c % p->nx, k = c / p->nx;
        const int here = drawn(p, d, i, k);
        if (i > 0 && differ(drawn(p, d, i - 1, k), here) &&
            holds(at->x0, at->x1, p->x[i]) &&
            overlap(p->y[k], p->y[k + 1], at->y0, at->y1))
            return true;
        if (k > 0 && differ(drawn(p, d, i, k - 1), here) &&
            holds(at->y0, at->y1, p->y[k]) &&
            overlap(p->x[i], p->x[i + 1], at->x0, at->x1))
            return true;
    }
    return any_film(d, at);
}

bw_status bw_check_leaks(bw_junction_reader *j, const bw_patches *patches)
{
    const bw_junction *d = &j->d->junction;
    for (size_t i = 0; i < d->leak_count; i++)
        if (d->leak[i].wall < 0 && !materials_meet(d, patches, &d->leak[i].at))
            return bw_fail(j->r.err, BW_ERR_INPUT, d->file, d->leak[i].line,
                           "<rain-leak at=\"%.60s\"> is where no two materials "
                           "meet; rain that leaks in arrives between two: name "
                           "a place on such a face, or draw a <spot> there",
                           d->leak[i].name);
    for (size_t i = 0; i < d->air_count; i++)
        if (!materials_meet(d, patches, &d->air[i].at))
            return bw_fail(j->r.err, BW_ERR_INPUT, d->file, d->air[i].line,
                           "<room-air at=\"%.60s\"> is where no two materials "
                           "meet; air finds its way between two: name a place "
                           "on such a face, or draw a <spot> there",
                           d->air[i].name);
    return BW_OK;
}
