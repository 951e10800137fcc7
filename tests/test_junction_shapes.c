/* Junctions made of walls, as they are drawn: what lies along lines through
 * each kind, by lengths added up by hand; where its places with a name are and
 * where it is cut. Outside lies below, of sections from above to below to the
 * left. A wall goes on for three times its thickness, or a metre. */

#include <math.h>
#include <string.h>

#define MADE "junction-shapes"
#include "junction/draw.h"
#include "junction_made.h"
#include "suite.h"

/* ---- what lies at a place -------------------------------------------------
 */

static bool holds(const bw_rectangle *r, double x, double y)
{
    return x > r->x0 && x < r->x1 && y > r->y0 && y < r->y1;
}

/* The last that is drawn there; of materials their id or that of their layer.
 * "-": nothing. */
static const char *at(const bw_junction *j, double x, double y)
{
    for (size_t k = j->filling_count; k-- > 0;)
        if (holds(&j->filling[k].at, x, y))
            return j->material[j->filling[k].material].name;
    for (size_t k = j->space_count; k-- > 0;)
        if (holds(&j->space[k].at, x, y))
            return j->environment[j->space[k].environment].id;
    return "-";
}

/* Along a line at so many mm: names with the mm at which they end. */
static void check_line(const bw_junction *j, bool upright, double mm,
                       const char *said)
{
    char name[64], next[64] = "-";
    double end = -1e6;
    for (int used = 0; sscanf(said, " %63[^:]:%lf%n", name, &end, &used) == 2;
         said += used) {
        for (int side = 0; side < 2; side++) {
            const double along = 1e-3 * (end + (side == 0 ? -0.2 : 0.2));
            const char *is = upright ? at(j, 1e-3 * mm, along)
                                     : at(j, along, 1e-3 * mm);
            if (side == 1 && sscanf(said + used, " %63[^:]", next) != 1)
                strcpy(next, "-");
            const char *due = side == 0 ? name : next;
            ck_assert_msg(strncmp(is, due, strlen(due)) == 0,
                          "%s %g mm, at %g mm: %s, not %s", upright ? "x" : "y",
                          mm, 1e3 * along, is, due);
        }
    }
}

/* ---- kinds ----------------------------------------------------------------
 */

enum { LINES = 7, SPOTS = 4 };

typedef struct kind {
    const char *wall, *junction;
    struct {
        bool upright;
        double mm;
        const char *said;
    } line[LINES];
    const char *cut; /* of left, right, below, above */
    size_t spots;
    double spot[SPOTS][2]; /* mm */
} kind;

#define OUTER "outside:0 brick:330 ins:410 board:422.5 room:"
#define FRAME                                                                  \
    "<frame material=\"softwood\" width=\"70 mm\" depth=\"80 mm\" "            \
    "setback=\"100 mm\"/>"
#define LINING "<lining material=\"hemp-batt\" thickness=\"20 mm\"/>"
#define SECOND(more) "<wall file=\"./" MADE "-wall.xml\"" more "/>"
#define HALF(id)                                                               \
    "<layer id=\"" id "\" thickness=\"120 mm\" material=\"dense-block\"/>"
#define STUDS(depth)                                                           \
    "<layer id=\"osb\" thickness=\"9 mm\" lambda=\"0.13 W/(m.K)\" mu=\"50\" "  \
    "kind=\"mineral\"/>"                                                       \
    "<layer id=\"bay\" thickness=\"140 mm\" lambda=\"0.035 W/(m.K)\" "         \
    "mu=\"1\" kind=\"mineral\"><framing material=\"softwood\" "                \
    "width=\"45 mm\" spacing=\"600 mm\"" depth "/></layer>"                    \
    "<layer id=\"board\" thickness=\"12.5 mm\" lambda=\"0.25 W/(m.K)\" "       \
    "mu=\"8\" kind=\"mineral\"/>"

#define FLOOR_FILE "<wall file=\"./" MADE "-floor.xml\"/>"

static const char floor_of_all[] =
    "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"f\" element=\"floor\">"
    "<outdoors climate=\"c.csv\" driving-rain=\"none\"/>"
    "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>"
    "<layers listed=\"outside-to-inside\"><layer id=\"slab\" "
    "thickness=\"180 mm\" lambda=\"1.5 W/(m.K)\" mu=\"80\" "
    "kind=\"mineral\"/><layer id=\"screed\" thickness=\"60 mm\" "
    "lambda=\"1.4 W/(m.K)\" mu=\"15\" kind=\"mineral\"/></layers></assembly>";

static const kind kinds[] = {
    {WALL(BRICK INSIDE),
     JUNCTION("outer-corner", ""),
     {{true, 500,
       "-:-522.5 outside:-422.5 brick:-92.5 ins:-12.5 board:0 room:1267.5"},
      {false, 500,
       "-:-522.5 outside:-422.5 brick:-92.5 ins:-12.5 board:0 room:1267.5"},
      {false, -50, "-:-522.5 outside:-422.5 brick:-92.5 ins:1267.5"},
      {true, -50, "-:-522.5 outside:-422.5 brick:-92.5 ins:1267.5"},
      {false, -6, "outside:-422.5 brick:-92.5 ins:-12.5 board:1267.5"},
      {false, -480, "-:-522.5 outside:1267.5"}},
     "RA",
     1,
     {{0, 0}}},
    {WALL(BRICK INSIDE),
     JUNCTION("inner-corner", ""),
     {{true, 500,
       "-:-522.5 room:-422.5 board:-410 ins:-330 brick:0 outside:1267.5"},
      {false, 500,
       "-:-522.5 room:-422.5 board:-410 ins:-330 brick:0 outside:1267.5"},
      {false, -370, "room:-422.5 board:-410 ins:1267.5"}},
     "RA",
     1,
     {{0, 0}}},
    {WALL(BRICK INSIDE),
     JUNCTION("window-jamb", FRAME LINING),
     {{true, -30, "-:-100 outside:100 Softwood:180 room:522.5"},
      {true, -10, "-:-100 outside:100 Softwood:180 Hemp:422.5 room:522.5"},
      {true, 600, "-:-100 " OUTER "522.5"},
      {false, 140, "-:-70 Softwood:0 brick:1267.5"},
      {false, 300, "-:-70 room:-20 Hemp:0 brick:1267.5"},
      {false, 50, "-:-70 outside:0 brick:1267.5"},
      {false, 500, "-:-70 room:1267.5"}},
     "LR",
     1,
     {{-20, 180}}},
    {WALL(BRICK INSIDE),
     JUNCTION("window-head", FRAME),
     {{false, -30, "-:-100 outside:100 Softwood:180 room:522.5"},
      {true, 140, "-:-70 Softwood:0 brick:1267.5"}},
     "BA",
     1,
     {{180, 0}}},
    {WALL(BRICK INSIDE),
     JUNCTION("window-sill", FRAME LINING),
     {{false, 30, "-:-100 outside:100 Softwood:180 room:522.5"},
      {false, 10, "-:-100 outside:100 Softwood:180 Hemp:422.5 room:522.5"},
      {true, 140, "-:-1267.5 brick:0 Softwood:70"}},
     "BA",
     1,
     {{180, 20}}},
    {WALL(BRICK INSIDE),
     JUNCTION("partition", "<partition material=\"softwood\" "
                           "thickness=\"110 mm\" up-to=\"brick\"/>"),
     {{true, 0, "-:-100 outside:0 brick:330 Softwood:1690"},
      {true, 60, "-:-100 " OUTER "1690"},
      {false, 400, "-:-1322.5 ins:-55 Softwood:55 ins:1322.5"}},
     "LRA",
     2,
     {{0, 330}, {55, 422.5}}},
    /* two layers that are alike are two all the same */
    {WALL(HALF("one") HALF("two")),
     JUNCTION("partition", "<partition material=\"softwood\" "
                           "thickness=\"110 mm\" up-to=\"one\"/>"),
     {{true, 0, "outside:0 Block:120 Softwood:1240"},
      {true, 60, "outside:0 Block:120 Block:240 room:1240"}},
     "LRA",
     2,
     {{0, 120}, {55, 240}}},
    {WALL(BRICK INSIDE),
     JUNCTION("joist-end", "<joist material=\"softwood\" height=\"225 mm\" "
                           "bearing=\"120 mm\" in=\"brick\"/>"),
     {{false, 0, "-:-100 outside:0 brick:210 Softwood:1690"},
      {false, 120, "-:-100 " OUTER "1690"},
      {true, 300, "-:-1380 brick:-112.5 Softwood:112.5 brick:1380"}},
     "RBA",
     2,
     {{210, 0}, {422.5, 112.5}}},
    {WALL(BRICK INSIDE),
     JUNCTION("balcony", "<slab material=\"softwood\" thickness=\"200 mm\" "
                         "reach=\"1200 mm\"/>"),
     {{false, 0, "-:-1300 outside:-1200 Softwood:1690"},
      {false, 150, "-:-1300 " OUTER "1690"}},
     "RBA",
     2,
     {{-1200, 0}, {422.5, 100}}},
    {WALL(STUDS("")),
     JUNCTION("stud", ""),
     {{true, 0, "-:-100 outside:0 osb:9 Softwood:149 board:161.5 room:261.5"},
      {true, 30, "-:-100 outside:0 osb:9 bay:149 board:161.5 room:261.5"},
      {false, 80, "-:-300 bay:-22.5 Softwood:22.5 bay:300"}},
     "LR",
     2,
     {{0, 161.5}, {300, 161.5}}},
    {WALL(STUDS(" depth=\"90 mm\"")),
     JUNCTION("stud", ""),
     {{true, 0, "outside:0 osb:9 bay:59 Softwood:149 board:161.5 room:261.5"}},
     "LR",
     2,
     {{0, 161.5}, {300, 161.5}}},
    {WALL(BRICK INSIDE),
     JUNCTION("filled-opening", SECOND(" offset=\"50 mm\"")),
     {{true, -500, "-:-100 " OUTER "572.5"},
      {true, 500, "-:-100 outside:50 brick:380 ins:460 board:472.5 room:572.5"},
      {false, 20, "-:-1267.5 brick:0 outside:1267.5"}},
     "LR",
     1,
     {{0, 422.5}}},
    {WALL(BRICK INSIDE),
     JUNCTION("filled-opening", SECOND(" offset=\"-60 mm\"")),
     {{true, -500, "-:-160 " OUTER "522.5"},
      {true, 500,
       "-:-160 outside:-60 brick:270 ins:350 board:362.5 room:522.5"}},
     "LR",
     1,
     {{0, 362.5}}},
    /* a foot: the wall's outer face is x 0, the plinth's top y 0 */
    {WALL(BRICK INSIDE),
     JUNCTION("wall-foot", FLOOR_FILE
              "<plinth material=\"softwood\" "
              "width=\"200 mm\" height=\"500 mm\" above-ground=\"150 mm\"/>"),
     {{true, 100, "-:-600 void:-500 Softwood:0 brick:1267.5"},
      {false, 300, "-:-100 outside:0 brick:330 ins:410 board:422.5 room:1690"},
      {false, -50, "-:-100 outside:0 Softwood:200 void:1690"},
      {true, 800, "-:-600 void:0 slab:180 screed:240 room:1267.5"}},
     "RA",
     1,
     {{422.5, 240}}},
    {WALL(BRICK INSIDE),
     JUNCTION("wall-foot", FLOOR_FILE
              "<plate material=\"softwood\" height=\"60 mm\" "
              "in=\"ins\"/><plinth material=\"softwood\" "
              "width=\"450 mm\" height=\"500 mm\" above-ground=\"150 mm\" "
              "level-with=\"slab\"/>"),
     {{true, 370, "Softwood:60 ins:1267.5"},
      {true, 800, "-:-600 void:-180 slab:0 screed:60 room:1267.5"},
      {false, -100, "outside:0 Softwood:450 slab:1717.5"},
      {false, 30,
       "outside:0 brick:330 Softwood:410 board:422.5 screed:1717.5"}},
     "RA",
     4,
     {{340, 0}, {400, 0}, {370, 30}, {422.5, 60}}},
    {WALL(BRICK), /* a thin wall goes on for a metre; this one does not */
     JUNCTION("filled-opening", SECOND("")),
     {{false, 100, "-:-1000 brick:1000"}},
     "LR",
     1,
     {{0, 330}}},
};

START_TEST(each_kind_is_drawn_as_its_lengths_add_up)
{
    const kind *k = &kinds[_i];
    write_file(WALL_NAME, k->wall);
    write_file(FLOOR_NAME, floor_of_all);
    bw_junction *j = read_text(k->junction);
    for (size_t i = 0; i < LINES && k->line[i].said != NULL; i++)
        check_line(j, k->line[i].upright, k->line[i].mm, k->line[i].said);
    for (int e = 0; e < BW_EDGES; e++)
        ck_assert_int_eq(j->symmetry[e], strchr(k->cut, "LRBA"[e]) != NULL);
    ck_assert_uint_eq(j->spot_count, k->spots);
    for (size_t i = 0; i < k->spots; i++) {
        bool found = false;
        for (size_t s = 0; s < j->spot_count; s++)
            found |= hypot(1e3 * j->spot[s].x - k->spot[i][0],
                           1e3 * j->spot[s].y - k->spot[i][1]) < 1e-6;
        ck_assert_msg(found, "no spot at %g, %g mm", k->spot[i][0],
                      k->spot[i][1]);
    }
    bw_junction_free(j);
}
END_TEST

/* What is known of a material as it is drawn; the dry cup stands for the wet
 * one, and that for it, where one is not known. */
static const struct {
    bool lambda, dry, wet;
    double value;
    bool drawn;
    double mu_dry, mu_wet;
} drawn[] = {
    {true, true, true, 0.1, true, 8, 4},
    {true, true, false, 0.1, true, 8, 8},
    {true, false, true, 0.1, true, 4, 4},
    {true, false, false, 0.1, true, 0, 0},
    {false, true, true, 0.1, false, 0, 0},
    {true, true, true, 0.0, false, 0, 0},
    {true, true, true, -1, false, 0, 0},
};

START_TEST(a_material_is_drawn_with_what_is_known_of_it)
{
    const bw_material m = {.name = "m",
                           .thermal_conductivity = {.known = drawn[_i].lambda,
                                                    .value = drawn[_i].value},
                           .mu_dry = {.known = drawn[_i].dry, .value = 8},
                           .mu_wet = {.known = drawn[_i].wet, .value = 4}};
    bw_drawn_material is;
    ck_assert_int_eq(bw_drawn_as_is(&is, &m), drawn[_i].drawn);
    if (!drawn[_i].drawn)
        return;
    ck_assert_ptr_eq(is.material, &m);
    ck_assert_double_eq(is.conductivity, drawn[_i].value);
    ck_assert_double_eq(is.mu_dry, drawn[_i].mu_dry);
    ck_assert_double_eq(is.mu_wet, drawn[_i].mu_wet);
}
END_TEST

SUITE_AROUND("junction_shapes", start, end,
             EACH(each_kind_is_drawn_as_its_lengths_add_up, COUNT(kinds)),
             EACH(a_material_is_drawn_with_what_is_known_of_it, COUNT(drawn)))
