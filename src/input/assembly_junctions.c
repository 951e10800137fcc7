/* <junctions>: where the wall meets others, each a file of its own, read with
 * the wall and judged with it.
 *
 * Invariant: a wall that is read for a junction reads no junctions, so that
 * files that name each other come to an end. */

#include <string.h>

#include "fail.h"
#include "file.h"
#include "junction_reader.h"
#include "owner.h"
#include "room.h"

/* Drawn freely it could have a drier room than the wall, unseen. */
static bool has_room_of(const bw_junction *j, const bw_assembly *wall)
{
    bool has = false;
    for (size_t i = 0; i < j->environment_count; i++)
        has = has ||
              (j->environment[i].kind == BW_ENVIRONMENT_ROOM &&
               bw_room_same_air(&j->environment[i].indoors, &wall->indoors));
    return has;
}

/* A junction made of walls is of this one, too; drawn freely it is in the same
 * climate and at the same room. */
static bw_status check(const bw_assembly *wall, const bw_named_junction *name,
                       bw_error *err)
{
    const bw_junction *j = name->junction;
    bool its = j->wall_count == 0;
    for (size_t i = 0; i < j->wall_count; i++)
        its = its || strcmp(j->wall[i]->file, wall->file) == 0 ||
              bw_file_same(j->wall[i]->file, wall->file);
    if (!its)
        return bw_fail(err, BW_ERR_INPUT, wall->file, name->line,
                       "<junction file=\"%.200s\"> is made of \"%.60s\", not "
                       "of this wall; name it there",
                       name->file, j->wall[0]->id);
    if (!has_room_of(j, wall))
        return bw_fail(err, BW_ERR_INPUT, wall->file, name->line,
                       "<junction file=\"%.200s\"> has no room whose air is as "
                       "this wall's <indoors> say; state them alike",
                       name->file);
    const char *mine = wall->outdoors.climate_path;
    const char *other = j->outdoors.climate_path;
    if (*mine == '\0' || *other == '\0' || strcmp(mine, other) == 0 ||
        bw_file_same(mine, other))
        return BW_OK;
    return bw_fail(err, BW_ERR_INPUT, wall->file, name->line,
                   "<junction file=\"%.200s\"> is in another climate (%.200s) "
                   "than this wall, beside which it is judged",
                   name->file, other);
}

bw_status bw_read_junctions(bw_assembly_owner *owner,
                            const bw_wall_origin *from,
                            const bw_library *library, bw_error *err)
{
    bw_assembly *wall = &owner->assembly;
    owner->free_junction = bw_junction_free;
    for (size_t i = 0; i < wall->junction_count; i++) {
        bw_named_junction *name = (bw_named_junction *)&wall->junction[i];
        bw_junction *made = NULL;
        if (!bw_file_there(name->file))
            return bw_fail(err, BW_ERR_INPUT, wall->file, name->line,
                           "<junction file=\"%.300s\"> is not there",
                           name->file);
        BW_TRY(bw_junction_read_of(&made, name->file, from, library, err));
        name->junction = made;
        BW_TRY(check(wall, name, err));
    }
    return BW_OK;
}
