/* The weather at each kind of surface of a drawing: that of a wall's two sides
 * (side_hours.h), each environment by itself.
 *
 * Sun and rain strike the faces outside that look the way most of them do, by
 * length; of the others nobody has said which way they face. Where a ventilated
 * cavity is the weather line, what is drawn ends at it: its face there has the
 * hours that the wall's own simulation in one dimension has there, sun, rain
 * and cladding and all.
 *
 * Invariant: what is left out here, or anywhere in the hours of a drawing, and
 * could rot a junction is a reason of bw_hour_unseen. */

#include "hour_sides.h"

#include <stdint.h>
#include <string.h>

#include "bothways/air.h"
#include "bothways/geography.h"
#include "bothways/transient.h"
#include "climate_make.h"
#include "fail.h"
#include "hour_leaks.h"

enum { CLADDING_MONTH = 9 }; /* 0..11 with which its simulation begins */

static bool is_outside(const bw_junction *j, const bw_raster_face *face)
{
    return j->environment[face->environment].kind == BW_ENVIRONMENT_OUTSIDE;
}

/* The way most of the outer faces look. */
static bw_cell_side main_side(const bw_raster *raster)
{
    double length[BW_EDGES] = {0};
    bw_cell_side most = BW_EDGE_LEFT;
    for (size_t f = 0; f < raster->face_count; ++f)
        if (is_outside(raster->junction, &raster->face[f]))
            length[raster->face[f].side] += raster->face[f].length;
    for (bw_cell_side s = BW_EDGE_RIGHT; s < BW_EDGES; ++s)
        if (length[s] > length[most])
            most = s;
    return most;
}

static bool is_sheltered(const bw_junction *j)
{
    for (size_t k = 0; k < j->wall_count; ++k)
        if (bw_layers_outside(j->wall[k], BW_VENT_WELL) > 0)
            return true;
    return false;
}

static const bw_indoors *some_room(const bw_junction *j)
{
    for (size_t e = 0; e < j->environment_count; ++e)
        if (j->environment[e].kind == BW_ENVIRONMENT_ROOM)
            return &j->environment[e].indoors;
    return NULL;
}

/* A wall that has this environment outside, or its room inside. */
static bw_assembly wall_of(const bw_junction *j, const bw_environment *at,
                           bool weather)
{
    bw_assembly wall = {.file = j->file,
                        .id = j->id,
                        .title = j->title,
                        .remark = j->remark,
                        .outdoors = j->outdoors};
    const bool room = at->kind == BW_ENVIRONMENT_ROOM;
    wall.indoors = room ? at->indoors : *some_room(j);
    wall.indoors.has_surface_resistance = room && at->has_surface_resistance;
    wall.indoors.surface_resistance = at->surface_resistance;
    if (at->kind == BW_ENVIRONMENT_GROUND)
        wall.beyond = at->beyond;
    if (at->kind == BW_ENVIRONMENT_OUTSIDE && at->has_surface_resistance) {
        wall.outdoors.has_surface_resistance = true;
        wall.outdoors.surface_resistance = at->surface_resistance;
    }
    if (!weather) {
        wall.outdoors.has_facing = wall.outdoors.has_solar_absorptance = false;
        wall.outdoors.driving_rain = BW_RAIN_NONE;
    }
    return wall;
}

static bw_status add_side(bw_hour_sides *s, bw_arena *arena,
                          const bw_assembly *wall, bool room,
                          const bw_climate *climate, bw_error *err)
{
    const bw_transient_options options = {.max_years = 1};
    bw_year *year = BW_NEW(arena, bw_year, 1);
    BW_TRY_MEMORY(year != NULL, err);
    BW_TRY(bw_year_make(year, wall, climate, &options, err));
    s->room[s->count] = room;
    s->year[s->count++] = year;
    s->pressure = year->pressure;
    return BW_OK;
}

/* ---- behind a ventilated cladding -----------------------------------------
 */

static bw_status simulate(bw_transient_result *out, size_t *face,
                          const bw_assembly *wall, const bw_climate *climate,
                          bw_error *err)
{
    enum { WALL_YEARS = 3 };
    const bw_section_options all = {.keep_all_layers = true};
    const bw_transient_options options = {
        .max_years = WALL_YEARS,
        .start_month = CLADDING_MONTH,
        .start_month_given = true,
        .keep_hours = true,
    };
    bw_sections *sections = NULL;
    bw_geography geography;
    BW_TRY(bw_sections_make(&sections, wall, &all, err));
    bw_geography_find(&geography, wall, &sections->section[0]);
    *face = geography.first;
    const bw_status status = bw_transient(out, wall, &sections->section[0],
                                          climate, &options, err);
    bw_sections_free(sections);
    return status;
}

/* The hours of a side as they were at a face; each row is of an hour's end. */
static void take_hours(bw_year *year, const bw_transient_result *from,
                       size_t face)
{
    static const double CONTACT = 1e3;   /* W/(m2 K): the face has that state */
    static const double EXCHANGE = 1e-5; /* kg/(m2 s Pa): likewise */
    const size_t first = (size_t)bw_month_first_hour(CLADDING_MONTH);
    for (size_t h = 0; h < BW_YEAR_HOURS; ++h) {
        const bw_hour_row *row = &from->hour[h * from->monitor_count + face];
        bw_hourly *to = &year->hour[(first + h + 1) % BW_YEAR_HOURS];
        to->theta_e = row->theta;
        to->p_e = row->phi * bw_saturation_pressure(row->theta);
        to->h_e = to->h_e_0 = CONTACT;
        to->beta_e = to->beta_e_0 = EXCHANGE;
        to->gain = to->gain_0 = to->rain = to->rain_leak = 0.0;
    }
}

/* Of a side that is there: it becomes that of the faces outside. */
static bw_status shelter(bw_year *year, const bw_junction *j,
                         const bw_climate *climate, bw_error *err)
{
    bw_transient_result result = {0};
    size_t face = 0;
    for (size_t k = 0; k < j->wall_count; ++k)
        if (bw_layers_outside(j->wall[k], BW_VENT_WELL) == 0)
            return bw_fail(err, BW_ERR_DOMAIN, j->file, 0,
                           "one of the walls has a ventilated cladding and one "
                           "has none: nobody can tell what the weather is at "
                           "which face");
    BW_TRY(simulate(&result, &face, j->wall[0], climate, err));
    take_hours(year, &result, face);
    bw_transient_free(&result);
    return BW_OK;
}

bw_status bw_hour_sides_make(bw_hour_sides *out, bw_arena *arena,
                             const bw_raster *raster, const bw_climate *climate,
                             bw_error *err)
{
    const bw_junction *j = raster->junction;
    const bw_cell_side most = main_side(raster);
    *out = (bw_hour_sides){.sheltered = is_sheltered(j)};
    if (j->environment_count + 1 > BW_SHEET_SIDES || some_room(j) == NULL)
        return bw_fail(err, BW_ERR_DOMAIN, j->file, 0,
                       "an hourly calculation needs a room and has room for at "
                       "most %d environments; this drawing has %zu",
                       BW_SHEET_SIDES - 1, j->environment_count);
    for (size_t e = 0; e < j->environment_count; ++e) {
        const bw_environment *at = &j->environment[e];
        const bw_assembly wall = wall_of(j, at, false);
        BW_TRY(add_side(out, arena, &wall, at->kind == BW_ENVIRONMENT_ROOM,
                        climate, err));
    }
    out->side = BW_NEW(arena, size_t, raster->face_count + 1);
    BW_TRY_MEMORY(out->side != NULL, err);
    size_t outside = SIZE_MAX;
    for (size_t f = 0; f < raster->face_count; ++f) {
        const bw_raster_face *face = &raster->face[f];
        out->side[f] = face->environment;
        if (!is_outside(j, face))
            continue;
        outside = face->environment;
        out->turned = out->turned || face->side != most;
        if (face->side == most || out->sheltered)
            out->side[f] = j->environment_count;
    }
    if (outside == SIZE_MAX)
        return BW_OK;
    const bw_assembly wall = wall_of(j, &j->environment[outside],
                                     !out->sheltered);
    BW_TRY(add_side(out, arena, &wall, false, climate, err));
    if (out->sheltered)
        return shelter(out->year[out->count - 1], j, climate, err);
    out->weather = out->year[out->count - 1]->sun ||
                   out->year[out->count - 1]->rain;
    return BW_OK;
}

void bw_hour_sides_at(bw_sheet_hour *out, const bw_hour_sides *sides, int hour,
                      double from)
{
    *out = (bw_sheet_hour){.sides = sides->count, .hour = hour, .from = from};
    for (size_t k = 0; k < sides->count; ++k)
        out->year[k] = sides->year[k];
    memcpy(out->room, sides->room, sizeof out->room);
}

/* ---- what is not seen ---------------------------------------------------- */

static bool has_environment(const bw_junction *j, bw_environment_kind kind)
{
    for (size_t e = 0; e < j->environment_count; ++e)
        if (j->environment[e].kind == kind)
            return true;
    return false;
}

static bool has_air(const bw_raster *raster)
{
    for (size_t c = 0; c < raster->nx * raster->ny; ++c)
        if (raster->material[c] != BW_NOT_THERE &&
            raster->junction->material[raster->material[c]].air)
            return true;
    return false;
}

static bool any_starts_wet(const bw_junction *j)
{
    for (size_t k = 0; k < j->wall_count; ++k)
        for (size_t i = 0; i < j->wall[k]->layer_count; ++i)
            if (j->wall[k]->layer[i].has_initial_moisture ||
                j->wall[k]->layer[i].framing.has_initial_moisture)
                return true;
    return false;
}

static bool any_air_leaks(const bw_junction *j)
{
    for (size_t k = 0; k < j->wall_count; ++k)
        if (j->wall[k]->air_leakage.given)
            return true;
    return false;
}

/* Farther out than what is drawn is in the simulation of the first wall, whose
 * hours a sheltered drawing has. */
static bool any_rain_lost(const bw_hour_sides *sides, const bw_junction *j)
{
    for (size_t k = 0; k < j->wall_count; ++k)
        if (bw_hour_leak_outside(j, k) && !(sides->sheltered && k == 0))
            return true;
    return false;
}

/* A leak at a place says where rain gets in; none, or none of it, says nothing.
 */
static bool states_rain(const bw_junction *j)
{
    for (size_t k = 0; k < j->leak_count; ++k)
        if (j->leak[k].wall < 0 && j->leak[k].fraction > 0.0)
            return true;
    return false;
}

static bool within(const bw_rectangle *at, double x, double y)
{
    return x >= at->x0 && x <= at->x1 && y >= at->y0 && y <= at->y1;
}

/* Air at a place; spot: that of this name is in it. NULL: any. */
static bool states_air(const bw_junction *j, const char *spot)
{
    for (size_t k = 0; k < j->air_count; ++k) {
        const bw_drawn_air *air = &j->air[k];
        if (!(air->flow > 0.0))
            continue;
        for (size_t i = 0; spot != NULL && i < j->spot_count; ++i)
            if (strcmp(j->spot[i].name, spot) == 0 &&
                within(&air->at, j->spot[i].x, j->spot[i].y))
                return true;
        if (spot == NULL)
            return true;
    }
    return false;
}

static bool any_air_warms(const bw_junction *j)
{
    for (size_t k = 0; k < j->air_count; ++k)
        if (j->air[k].flow > 0.0 && j->air[k].all)
            return true;
    return false;
}

/* What of rain and air nobody has said; NULL: both are stated. */
static const char *unsaid(const bw_junction *j, const char *both,
                          const char *rain, const char *air)
{
    const bool has_rain = states_rain(j), has_air = states_air(j, NULL);
    return has_rain && has_air ? NULL : has_rain ? air : has_air ? rain : both;
}

/* Where room faces meet at an angle, heat and mould of the hours hang on how
 * fine the cells are there, and two grids do not bound their error. */
static bool room_turns(const bw_raster *raster)
{
    const bw_raster_face *first = NULL;
    for (size_t f = 0; f < raster->face_count; ++f) {
        const bw_raster_face *face = &raster->face[f];
        if (raster->junction->environment[face->environment].kind !=
            BW_ENVIRONMENT_ROOM)
            continue;
        if (first != NULL && face->side != first->side)
            return true;
        first = face;
    }
    return false;
}

size_t bw_hour_unseen(const char *unseen[BW_HOUR_UNSEEN],
                      const bw_hour_sides *sides, const bw_raster *raster)
{
    const bw_junction *j = raster->junction;
    const char *kind = j->kind;
    const bool window = strncmp(kind, "window-", strlen("window-")) == 0;
    const bool drawn = strcmp(kind, "drawing") == 0;
    const char *frame = unsaid(j, "rain and air through the joint of the frame",
                               "rain through the joint of the frame",
                               "air through the joint of the frame");
    const char *joints = unsaid(
        j,
        "air and rain through joints, of a drawing that says nothing of them",
        "rain through joints, of a drawing that says nothing of it",
        "air through joints, of a drawing that says nothing of it");
    const struct {
        bool is;
        const char *words;
    } all[BW_HOUR_UNSEEN] = {
        {sides->turned,
         "sun and rain on outer faces that look another way than most"},
        {window && frame != NULL, frame},
        {strcmp(kind, "joist-end") == 0 && !states_air(j, "end of the joist"),
         "room air past the end in its pocket, which nobody has stated"},
        {drawn && joints != NULL, joints},
        {any_air_warms(j), "whether the stated air comes as warm, and dries as "
                           "much, as it is taken to"},
        {any_air_leaks(j), "the leaking air that a wall states"},
        {any_rain_lost(sides, j), "the leaking rain that a wall states"},
        {any_starts_wet(j), "the initial moisture that a wall states"},
        {has_air(raster), "air that moves in the layers of air"},
        {has_environment(j, BW_ENVIRONMENT_GROUND), "liquid water of the soil"},
        {strcmp(kind, "balcony") == 0, "rain and snow lying on the slab"},
        {room_turns(raster),
         "how far cells finer still would move what the hours find in a corner "
         "of the room"},
    };
    size_t count = 0;
    for (size_t k = 0; k < BW_HOUR_UNSEEN; ++k)
        if (all[k].is)
            unseen[count++] = all[k].words;
    return count;
}
