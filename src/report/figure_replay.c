/* Charts of a replay.
 *
 * Invariant: a gap in the record is a gap in the line. */

#include "bothways/replay.h"
#include "part.h"

BW_DRAWN(replay_drawn, "Measured and computed")
{
    (void)page;
    (void)of;
}
