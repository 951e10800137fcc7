/* Drawings of junctions that cannot be, each refused in its whole sentence, and
 * the films of one that can. Limits are those of docs/input.md; sentences
 * are the program's own (regression values as to wording). */

#include <math.h>
#include <stdio.h>
#include <string.h>

#define MADE "junction-said"
#include "junction_made.h"
#include "suite.h"

static const char sound[] = TWO_LAYERS_DRAWN "</drawing>\n"
                                             "</junction>\n";

#define LEFT "<symmetry side=\"left\"/>"

static const struct {
    const char *from, *to;
    long line;
    const char *says;
} refused[] = {
    {"x=\"0 mm\" y=\"100 mm\"", "x=\"-1001 m\" y=\"100 mm\"", 6,
     "<rectangle> x=\"-1001 m\" lies outside what is possible here, -100 m to "
     "100 m"},
    {"width=\"600 mm\" height=\"100 mm\"/>\n<rectangle",
     "width=\"0 mm\" height=\"100 mm\"/>\n<rectangle", 5,
     "<rectangle> width=\"0 mm\" lies outside what is possible here, 0.1 mm to "
     "100000 mm"},
    {"height=\"100 mm\"/>\n<rectangle", "height=\"90 mm\"/>\n<rectangle", 5,
     "\"Softwood, across the grain, 450 kg/m3\" has an edge to nothing at x 0 "
     "to 600 mm, y 90 mm: a gap; fill it with a material, or draw a space of a "
     "room or of outside there"},
    {"y=\"100 mm\" width", "y=\"90 mm\" width", 6,
     "\"Hemp fibre batt with polymer support fibre\" overlaps \"Softwood, "
     "across the grain, 450 kg/m3\" (line 5) at x 0 to 600 mm, y 90 to 100 mm; "
     "if it is meant to take its place, say over=\"yes\""},
    {"y=\"200 mm\" width", "y=\"150 mm\" width", 6,
     "\"Hemp fibre batt with polymer support fibre\" overlaps the space of "
     "\"room\" (line 8) at x 0 to 600 mm, y 150 to 200 mm: a room inside a "
     "wall; if the material is meant to stand in it, say over=\"yes\""},
    {"<symmetry side=\"right\"/>", "", 5,
     "\"Softwood, across the grain, 450 kg/m3\" has an edge to nothing at x "
     "600 mm, y 0 to 100 mm, the side of the drawing called right; draw the "
     "space beyond it, or say <symmetry side=\"right\"/> where it goes on the "
     "same"},
    {"<space of=\"room\"", "<space of=\"outside\"", 0,
     "\"room\" touches no material of the drawing"},
    {"of=\"room\"", "of=\"rom\"", 8,
     "<space> of=\"rom\" is not known (did you mean room?); write one of: "
     "outside, room"},
    {"side=\"right\"", "side=\"rigth\"", 10,
     "<symmetry> side=\"rigth\" is not known (did you mean right?); write one "
     "of: left, right, below, above"},
    {"x=\"300 mm\"", "x=\"700 mm\"", 11,
     "<spot name=\"joint\"> lies in no material of the drawing"},
    {"<spot name=\"joint\"", "<spot", 11,
     "<spot> has no name=, which it needs; write for example name=\"beam "
     "end\""},
    {"id=\"test\"", "id=\"test\" kind=\"inner-corer\"", 1,
     "<junction> kind=\"inner-corer\" is not known (did you mean "
     "inner-corner?); write one of: outer-corner, inner-corner, window-jamb, "
     "window-head, window-sill, partition, joist-end, stud, balcony, "
     "filled-opening, wall-foot"},
    {"id=\"test\"", "id=\"test\" kind=\"stud\"", 2,
     "<outdoors> is not an element of <junction>; allowed: wall, drawing, "
     "rain-leak, room-air"},
    {"id=\"test\"", "", 1,
     "<junction> has no id=, which it needs; write for example "
     "id=\"north-corner\""},
    {"<rectangle material=\"softwood\"",
     "<rectangle material=\"pe-foil-0-15mm\"", 5,
     "<rectangle> material=\"pe-foil-0-15mm\" has no conductivity in the "
     "library; give lambda=\"0.13 W/(m.K)\""},
    {"<rectangle material=\"softwood\"",
     "<rectangle material=\"softwood\" lambda=\"501 W/(m.K)\"", 5,
     "<rectangle> lambda=\"501 W/(m.K)\" lies outside what is possible here, "
     "0.001 W/(m.K) to 500 W/(m.K)"},
    {LEFT, "<film material=\"pe-foil-0-15mm\" x=\"0 mm\" y=\"100 mm\"/>" LEFT,
     9,
     "<film> is a line; give one of width= (it lies level) and height= (it "
     "stands)"},
    {LEFT,
     "<film material=\"pe-foil-0-15mm\" x=\"0 mm\" y=\"100 mm\" width=\"1 m\" "
     "height=\"1 m\"/>" LEFT,
     9,
     "<film> is a line; give one of width= (it lies level) and height= (it "
     "stands)"},
    {LEFT,
     "<film material=\"softwood\" x=\"0 mm\" y=\"100 mm\" width=\"600 "
     "mm\"/>" LEFT,
     9,
     "<film> material=\"softwood\" is no film: the library has no sd of it; "
     "draw a <rectangle>"},
    {LEFT,
     "<film material=\"pe-foil-0-15mm\" x=\"0 mm\" y=\"220 mm\" width=\"600 "
     "mm\"/>" LEFT,
     9,
     "the film \"Polyethylene foil 0.15 mm\" at x 0 to 600 mm, y 220 mm lies "
     "on no material"},
    {LEFT,
     "<space of=\"room\" x=\"300 mm\" y=\"-50 mm\" width=\"100 mm\" "
     "height=\"250 mm\" over=\"yes\"/>" LEFT,
     9,
     "the spaces of \"outside\" and \"room\" lie open to each other at x 300 "
     "mm, y -50 to 0 mm; draw what stands between them"},
    {"<space of=\"room\"",
     "<rectangle material=\"softwood\" x=\"0 mm\" y=\"0 mm\" width=\"600 mm\" "
     "height=\"200 mm\" over=\"yes\"/><space of=\"room\"",
     5,
     "\"Softwood, across the grain, 450 kg/m3\" lies wholly below others that "
     "are drawn over it, and is nowhere"},
    {"<space of=\"room\"",
     "<space of=\"outside\" x=\"0 mm\" y=\"200 mm\" width=\"60 mm\" "
     "height=\"50 mm\"/><space of=\"room\"",
     8,
     "the space of \"room\" overlaps that of \"outside\" (line 8) at x 0 to 60 "
     "mm, y 200 to 250 mm; a place has one air (over=\"yes\" takes its place)"},
    {"<drawing>", "<drawing colour=\"red\">", 4,
     "<drawing> colour=\"red\" cannot stand in <drawing>, which has no "
     "attributes"},
    {"<drawing>",
     "<room id=\"room\"><indoors temperature=\"15 degC\" "
     "humidity-class=\"2\"/></room><drawing>",
     4,
     "<indoors> is of a <room> called \"room\", which is the name of the room "
     "of the junction's own <indoors>; give the room another id"},
    {"<drawing>",
     "<room id=\"outside\"><indoors temperature=\"15 degC\" "
     "humidity-class=\"2\"/></room><drawing>",
     4,
     "<indoors> is of a <room> called \"outside\", which is the name of the "
     "outdoor air; give the room another id"},
    {"<drawing>",
     "<room id=\"b\"><indoors temperature=\"15 degC\" "
     "humidity-class=\"2\"/></room><room id=\"b\"><indoors temperature=\"15 "
     "degC\" humidity-class=\"2\"/></room><drawing>",
     4, "<indoors> id=\"b\" stands twice; every room needs an id of its own"},
    {"<drawing>", "<room id=\"b\"/><drawing>", 4,
     "<room> has no <indoors>, which it needs"},
    {LEFT, "<rain-leak fraction=\"101 %\"/>" LEFT, 9,
     "<rain-leak> is not an element of <drawing>; allowed: rectangle, film, "
     "space, symmetry, spot"},
};

START_TEST(a_drawing_that_cannot_be_is_refused_in_this_sentence)
{
    char text[8192];
    bw_junction *j = NULL;
    bw_error err = {0};
    replaced(text, sizeof text, sound, "", refused[_i].from, refused[_i].to);
    write_file(FILE_NAME, text);
    ck_assert_int_eq(bw_junction_read(&j, FILE_NAME, library, &err),
                     BW_ERR_INPUT);
    ck_assert_str_eq(err.message, refused[_i].says);
    ck_assert_int_eq(err.line, refused[_i].line);
    ck_assert_ptr_null(j);
}
END_TEST

/* A film is a line: level by its width, standing by its height. */
START_TEST(a_film_lies_level_or_stands)
{
    char text[8192];
    replaced(text, sizeof text, sound, "", LEFT,
             "<film material=\"pe-foil-0-15mm\" x=\"100 mm\" y=\"100 mm\" "
             "width=\"300 mm\"/>\n<film material=\"pe-foil-0-15mm\" "
             "x=\"200 mm\" y=\"20 mm\" height=\"70 mm\"/>" LEFT);
    bw_junction *j = read_text(text);
    ck_assert_uint_eq(j->film_line_count, 2);
    const double level[] = {0.1, 0.4, 0.1, 0.1},
                 stands[] = {0.2, 0.2, 0.02, 0.09};
    for (int i = 0; i < 2; i++) {
        const bw_film_line *f = &j->film_line[i];
        const double *is = i == 0 ? level : stands;
        ck_assert_double_eq_tol(f->x0, is[0], 1e-12);
        ck_assert_double_eq_tol(f->x1, is[1], 1e-12);
        ck_assert_double_eq_tol(f->y0, is[2], 1e-12);
        ck_assert_double_eq_tol(f->y1, is[3], 1e-12);
        ck_assert_str_eq(j->film[f->film].name, "Polyethylene foil 0.15 mm");
    }
    bw_junction_free(j);
}
END_TEST

SUITE_AROUND("junction_said", start, end,
             EACH(a_drawing_that_cannot_be_is_refused_in_this_sentence,
                  COUNT(refused)),
             FACT(a_film_lies_level_or_stands))
