/* What is told of a junction's hours: what was run and how far its figures hang
 * on the cells, each place with a name, the faces where mould would be first,
 * apart from each other, and the wood. */

#include <math.h>
#include <stdio.h>

#include "flat_text.h"
#include "full_junction.h"
#include "full_result.h"

enum { FACES = 9, SHOWN = 4 };

static bw_hour_place wall_face[FACES];
static bw_junction_hours *h;

static void hours_setup(void)
{
    full_setup();
    dice own = {.state = 1181783497276652981u};
    full_junction_make(&meeting, &own);
    h = &meeting.assessment.hours;
}

static void print_hours(void)
{
    const bw_results of = {.junction = &meeting.assessment};
    print_flat(&of, BW_DOCUMENT_JUNCTION, BW_EXTENT_FULL);
}

START_TEST(hours_are_told_where_they_were_asked_for)
{
    hours_setup();
    h->reason = "the climate has no hours";
    for (int k = 0; k < 4; k++) {
        h->asked = (k & 1) != 0;
        h->ran = (k & 2) != 0;
        print_hours();
        says_if(h->asked, "Within, hour by hour");
        says_if(h->asked && !h->ran,
                "Not simulated: the climate has no hours.");
        says_if(h->asked && h->ran, "Where mould would be first, of all faces");
    }
}
END_TEST

/* Which years on which cells, and whether they repeat. */
START_TEST(a_run_is_told_by_its_years_and_cells)
{
    hours_setup();
    h->cells = 321;
    h->state_change = 0.0125;
    for (int k = 0; k < 8; k++) {
        char text[160];
        h->years = (k & 1) != 0 ? 1 : 3;
        h->synthetic = (k & 2) != 0;
        h->periodic = (k & 4) != 0;
        h->balance = k == 0 ? 0.0 : 3e-5;
        print_hours();
        snprintf(text, sizeof text,
                 "321 cells, %s from October on%s; %s. All but %s of the "
                 "water is accounted for.",
                 h->years == 1 ? "1 year" : "3 years",
                 h->synthetic ? ", hours made of the months" : "",
                 h->periodic ? "the last year ended as it began"
                             : "the last year moved some place by 1.2 % RH",
                 k == 0 ? "1e-12" : "0.00003");
        says_if(true, text);
    }
}
END_TEST

/* Cells times steps of the coarser grid beside those of this one. */
START_TEST(what_a_coarser_grid_moved_is_told_with_its_cost)
{
    hours_setup();
    h->cells = 400;
    h->steps = 1000;
    h->coarse_cells = 100;
    h->coarse_steps = 600;
    h->not_compared = "there was no time";
    for (int k = 0; k < 2; k++) {
        h->compared = k == 1;
        print_hours();
        says_if(k == 1, "Moved: from the same years on 100 cells");
        says_if(k == 1, "It cost 15 % more cells times steps.");
        says_if(k == 0, "How far the figures hang on the cells is not known: "
                        "there was no time.");
        says_if(k == 1, "mould moved");
        says_if(k == 1, ", moved by ");
    }
}
END_TEST

static const char *row_of(char *text, size_t size, const bw_hour_place *p)
{
    snprintf(text, size, "%.0f %.0f May %.0f %.1f %.0f %.0f %.2f %.2f %.2f",
             1e3 * p->x, 1e3 * p->y, 100.0 * p->month_rh[4],
             100.0 * p->moved.rh, p->above_80, p->above_95, p->mould,
             p->moved.mould, p->mould_slow);
    return text;
}

START_TEST(a_named_place_is_the_face_that_is_nearest)
{
    char text[128];
    static bw_hour_place two[2];
    hours_setup();
    for (size_t i = 0; i < 2; i++) {
        two[i] = meeting.face[0];
        two[i].x = 0.1 + (double)i;
        two[i].mould = 0.5 + (double)i;
    }
    h->place = two;
    h->place_count = 2;
    for (size_t i = 0; i < 2; i++) {
        char named[160];
        meeting.course[0].place = i;
        print_hours();
        snprintf(named, sizeof named, "Plate end %s",
                 row_of(text, sizeof text, &two[i]));
        says_if(true, named);
    }
}
END_TEST

/* The most of all spans, wherever that is. */
START_TEST(wood_at_a_place_is_told_by_its_most)
{
    static const size_t spans[] = {0, 1, 40, BW_SPANS - 1};
    hours_setup();
    for (size_t n = 0; n < COUNT(spans); n++) {
        bw_hour_spot *s = &meeting.course[0];
        for (size_t i = 0; i < BW_SPANS; i++)
            s->moisture[i] = i == spans[n] ? 0.3125 : 0.125;
        s->moved_moisture = 0.0175;
        for (long wood = -1; wood <= 0; wood++) {
            s->wood = wood;
            print_hours();
            says_if(wood == 0, "Wood there: five days' mean at most 31.2 % by "
                               "mass, moved by 1.8 %");
            says_if(wood == 0, "Wood there:");
        }
    }
}
END_TEST

/* ---- where mould would be first -------------------------------------------
 */

static void random_faces(size_t count)
{
    static char name[FACES][32];
    for (size_t k = 0; k < count; k++) {
        wall_face[k] = meeting.face[0];
        snprintf(name[k], sizeof name[k], "face %zu", k);
        wall_face[k].beside[0] = name[k];
        wall_face[k].beside[1] = k % 2 == 0 ? "hall" : "wool";
        wall_face[k].room = k % 2 == 0;
        wall_face[k].x = between(&full_die, 0.0, 0.6);
        wall_face[k].y = between(&full_die, 0.0, 0.1);
        wall_face[k].mould = 0.25 * floor(between(&full_die, 0.0, 4.0));
        wall_face[k].above_80 = 1.0 + floor(between(&full_die, 100.0, 4000.0));
    }
    h->place = wall_face;
    h->place_count = count;
    meeting.course[0].place = 0;
}

static double distance(const bw_hour_place *a, const bw_hour_place *b)
{
    return sqrt((a->x - b->x) * (a->x - b->x) + (a->y - b->y) * (a->y - b->y));
}

static bool is_worse(const bw_hour_place *a, const bw_hour_place *b)
{
    return a->mould > b->mould ||
           (!(a->mould < b->mould) && a->above_80 > b->above_80);
}

/* Four at most, the mouldiest first, of equals the dampest; none within 100 mm
 * of one that is shown already. */
START_TEST(the_mouldiest_faces_that_lie_apart_are_told)
{
    size_t seen[SHOWN + 1] = {0};
    hours_setup();
    for (int draw = 0; draw < 60; draw++) {
        bool out[FACES] = {false};
        random_faces((size_t)between(&full_die, 1.0, FACES + 0.999));
        print_hours();
        const char *at = strstr(flat.text, "Where mould would be first");
        size_t shown = 0;
        for (; shown < SHOWN; shown++) {
            size_t worst = FACES;
            for (size_t k = 0; k < h->place_count; k++)
                if (!out[k] && (worst == FACES ||
                                is_worse(&wall_face[k], &wall_face[worst])))
                    worst = k;
            if (worst == FACES)
                break;
            char row[128], text[192];
            snprintf(text, sizeof text,
                     wall_face[worst].room ? "%s to \"%s\" %s"
                                           : "between %s and %s %s",
                     wall_face[worst].beside[0], wall_face[worst].beside[1],
                     row_of(row, sizeof row, &wall_face[worst]));
            at = strstr(at, text);
            ck_assert_msg(at != NULL, "no '%s'", text);
            for (size_t k = 0; k < h->place_count; k++)
                out[k] = out[k] ||
                         distance(&wall_face[k], &wall_face[worst]) <= 0.1;
        }
        seen[shown]++;
        size_t rows = 0;
        at = strstr(flat.text, "Where mould would be first");
        for (; *at != '\0'; at++)
            rows += strncmp(at, " to \"hall\" ", 11) == 0 ||
                    strncmp(at, " and wool ", 10) == 0;
        ck_assert_uint_eq(rows, shown);
    }
    ck_assert(seen[1] > 0 && seen[2] > 0 && seen[SHOWN] > 0);
}
END_TEST

/* ---- the wood -------------------------------------------------------------
 */

START_TEST(every_piece_of_wood_is_told)
{
    static bw_hour_wood wood[2];
    hours_setup();
    for (size_t k = 0; k < 2; k++) {
        wood[k] = meeting.wood[0];
        wood[k].name = k == 0 ? "joist" : "plate";
        wood[k].x = 0.125;
        wood[k].y = -0.25;
        wood[k].highest = 0.1875 + 0.0625 * (double)k;
        wood[k].hours_above = 123.0;
        wood[k].dose = 4.5;
        wood[k].moved = (bw_wood_moved){.highest = 0.0125, .dose = 0.25};
        wood[k].exposed = k == 1;
    }
    wood[1].moved.highest = (double)NAN;
    h->wood = wood;
    for (h->wood_count = 0; h->wood_count <= 2; h->wood_count++)
        for (int compared = 0; compared < 2; compared++) {
            h->compared = compared == 1;
            meeting.course[0].wood = -1;
            print_hours();
            says_if(h->wood_count > 0 && h->compared,
                    "joist: wettest 10 mm 18.8 % by mass, moved by 1.2 %, in "
                    "Mar (x 125 mm, y -250 mm), 123 h above 20 %; decay dose "
                    "of that year 4.5 d, moved by 0.2 d");
            says_if(
                h->wood_count > 0 && !h->compared,
                "joist: wettest 10 mm 18.8 % by mass in Mar (x 125 mm, y "
                "-250 mm), 123 h above 20 %; decay dose of that year 4.5 d");
            says_if(h->wood_count > 1,
                    "plate: wettest 10 mm 25.0 % by mass in Mar (x 125 mm, y "
                    "-250 mm), 123 h above 20 %; decay dose of that year 4.5 "
                    "d; it shows a face to the outside, not judged");
            says_if(h->wood_count > 1, "it shows a face to the outside");
        }
}
END_TEST

SUITE("told_hours", FACT(hours_are_told_where_they_were_asked_for),
      FACT(a_run_is_told_by_its_years_and_cells),
      FACT(what_a_coarser_grid_moved_is_told_with_its_cost),
      FACT(a_named_place_is_the_face_that_is_nearest),
      FACT(wood_at_a_place_is_told_by_its_most),
      FACT(the_mouldiest_faces_that_lie_apart_are_told),
      FACT(every_piece_of_wood_is_told))
