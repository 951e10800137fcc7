/* What a skeleton says of odd constructions: shares, films, names, long lists;
 * and which files are refused because one thing in them means two. */

#include "exchange_case.h"
#include "suite.h"

/* A construction of one layer with these materials in it. */
#define LAYER(inside)                                                          \
    OPEN "<Construction id='c'><LayerId layerIdRef='l'/></Construction>"       \
         "<Layer id='l'>" inside "</Layer>"
#define PART(id, share)                                                        \
    "<MaterialId materialIdRef='" id "' percentOfLayer='" share "'/>"
#define SOLID(id) "<Material id='" id "'><Thickness>0.1</Thickness></Material>"

static bool missing(const char *words)
{
    return mentions(skeleton->missing, skeleton->missing_count, words);
}

static bool noted(const char *words)
{
    return mentions(skeleton->note, skeleton->note_count, words);
}

/* ---- shares ------------------------------------------------------------ */

static const struct {
    const char *text, *says;
    bool full;
} shares[] = {
    {LAYER(PART("a", "85") PART("b", "15")) SOLID("a") SOLID("b") "</gbXML>",
     "15 % of it is b", true},
    {LAYER(PART("a", "15") PART("b", "85")) SOLID("a") SOLID("b") "</gbXML>",
     "15 % of it is a", true},
    {LAYER(PART("a", "50") PART("b", "50")) SOLID("a") SOLID("b") "</gbXML>",
     "50 % of it is b", true},
    {LAYER(PART("a", "66.6") PART("b", "33.3")) SOLID("a")
         SOLID("b") "</gbXML>",
     "33.3 % of it is b", true},
    {LAYER(PART("a", "85") PART("b", "10")) SOLID("a") SOLID("b") "</gbXML>",
     "is said to fill 95 % of it", false},
    {LAYER(PART("a", "85")) SOLID("a") "</gbXML>", "is said to fill 85 % of it",
     false},
    {LAYER(PART("a", "100")) SOLID("a") "</gbXML>", "Layer a: vapour", true},
};

START_TEST(parts_of_a_layer_are_listed_and_a_rest_unsaid_is_asked_for)
{
    take(write_file(shares[_i].text), NULL, NULL);
    ck_assert_msg(missing(shares[_i].says), "%s", shares[_i].says);
    ck_assert(missing("what fills the rest is not") != shares[_i].full);
    ck_assert_uint_eq(assembly->layer_count, 1);
}
END_TEST

/* ---- what kind of element a material is -------------------------------- */

#define VALUES(inside) MATERIAL("<Name>Thing</Name>" inside)
#define R "<R-value unit='SquareMeterKPerW'>0.2</R-value>"
#define LAMBDA "<Conductivity unit='WPerMeterK'>0.5</Conductivity>"

static const struct {
    const char *text, *says;
    bw_layer_kind kind;
    double thickness, resistance; /* resistance 0: none said */
} shapes[] = {
    {VALUES("<Thickness>0.1</Thickness>" LAMBDA R), NULL, BW_LAYER_SOLID, 0.1,
     0.0},
    {VALUES("<Thickness>0.1</Thickness>" R), NULL, BW_LAYER_SOLID, 0.1, 0.2},
    {VALUES(R), "gives no thickness: layer thing is written as a thermal",
     BW_LAYER_SOLID, 0.0, 0.2},
    {VALUES("<Thickness>0.00001</Thickness>" R),
     "gives the thickness of a film: layer thing is written as a thermal",
     BW_LAYER_SOLID, 0.0, 0.2},
    {VALUES("<Thickness>0.00001</Thickness>"), NULL, BW_LAYER_MEMBRANE, 1e-5,
     0.0},
    {VALUES("<Thickness>0.00005</Thickness>"), NULL, BW_LAYER_SOLID, 5e-5, 0.0},
    {VALUES(""), "gives no thickness: layer thing is written as a membrane",
     BW_LAYER_MEMBRANE, 0.0, 0.0},
    {VALUES("<Thickness>0</Thickness>" R),
     "<Thickness> is 0 mm; zero says nothing", BW_LAYER_SOLID, 0.0, 0.2},
    {VALUES("<Thickness>5</Thickness>"),
     "<Thickness> is 5000 mm; no material has that", BW_LAYER_MEMBRANE, 0.0,
     0.0},
};

START_TEST(whatever_a_material_gives_the_layer_can_be_read)
{
    take(write_file(shapes[_i].text), NULL, NULL);
    const bw_layer *layer = &assembly->layer[0];
    ck_assert_int_eq(layer->kind, shapes[_i].kind);
    ck_assert_double_eq_tol(layer->thickness, shapes[_i].thickness, 1e-12);
    ck_assert(layer->resistance.known == (shapes[_i].resistance > 0.0));
    if (layer->resistance.known)
        ck_assert_double_eq_tol(layer->resistance.value, shapes[_i].resistance,
                                1e-9);
    if (shapes[_i].says != NULL)
        ck_assert_msg(noted(shapes[_i].says), "%s", skeleton->xml);
}
END_TEST

START_TEST(an_r_value_that_disagrees_with_the_rest_is_noted)
{
    take(write_file(VALUES("<Thickness>0.1</Thickness>" LAMBDA R)), NULL, NULL);
    ck_assert(!noted("R-value")); /* 0.1 / 0.5 = 0.2 m2 K/W */
    release();
    take(write_file(VALUES("<Thickness>0.2</Thickness>" LAMBDA R)), NULL, NULL);
    ck_assert(noted("its <R-value> of 0.2 m2.K/W is not its thickness over its "
                    "conductivity, 0.4 m2.K/W"));
}
END_TEST

START_TEST(a_permeance_beyond_measure_is_left_out_and_said)
{
    take(write_file(VALUES("<Thickness>0.1</Thickness>"
                           "<Permeance unit='PermIP'>0</Permeance>")),
         NULL, NULL);
    ck_assert(noted("a permeance of 0 usperm is beyond what an assembly may"));
    ck_assert(missing("Layer thing: vapour resistance"));
    release();
    take(write_file(VALUES("<Thickness>0.1</Thickness>")), NULL, "usperm");
    ck_assert(noted("No material here has a permeance in PermSI"));
}
END_TEST

/* ---- what the surfaces say --------------------------------------------- */

#define SURFACE(kind) "<Surface surfaceType='" kind "' constructionIdRef='c'/>"

static const struct {
    const char *surfaces, *says; /* says NULL: nothing of surfaces */
    bw_element element;
} uses[] = {
    {"", "No surface of the model uses this", BW_ELEMENT_WALL},
    {"<Surface surfaceType='Roof' constructionIdRef='other'/>"
     "<Surface surfaceType='Roof'/>",
     "No surface of the model uses this", BW_ELEMENT_WALL},
    {SURFACE("ExteriorWall"), NULL, BW_ELEMENT_WALL},
    {"<Surface constructionIdRef='c'/>", NULL, BW_ELEMENT_WALL},
    {SURFACE("Roof") SURFACE("Roof"), NULL, BW_ELEMENT_ROOF},
    {SURFACE("RaisedFloor"), NULL, BW_ELEMENT_FLOOR},
    {SURFACE("Roof") SURFACE("ExteriorWall"), "Surfaces of several kinds",
     BW_ELEMENT_ROOF},
    {SURFACE("InteriorWall") SURFACE("ExteriorWall"),
     "1 of 2 surfaces with this construction lie inside", BW_ELEMENT_WALL},
    {SURFACE("SlabOnGrade"), "1 of 1 surfaces with this construction touch",
     BW_ELEMENT_WALL},
};

START_TEST(the_element_follows_the_surfaces_that_use_the_construction)
{
    static const char head[] = OPEN CHAIN
        "<Material id='m'><Thickness>0.1</Thickness></Material><Campus>";
    char text[2048];
    snprintf(text, sizeof text, "%s%s</Campus></gbXML>", head,
             uses[_i].surfaces);
    take(write_file(text), NULL, NULL);
    ck_assert_int_eq(assembly->element, uses[_i].element);
    ck_assert(uses[_i].says == NULL ? !noted("urface") : noted(uses[_i].says));
}
END_TEST

static const struct {
    const char *version, *says;
} versions[] = {
    {"version='0.37'", "The file says it is gbXML 0.37; it is read as 6.01"},
    {"", "The file says it is gbXML of no version"},
};

START_TEST(another_version_is_read_and_said)
{
    char text[1024];
    snprintf(text, sizeof text,
             "<gbXML xmlns='http://www.gbxml.org/schema' %s "
             "lengthUnit='Meters'>" CHAIN "<Material id='m'><Thickness>0.1"
             "</Thickness></Material></gbXML>",
             versions[_i].version);
    take(write_file(text), NULL, NULL);
    ck_assert(noted(versions[_i].says));
}
END_TEST

/* ---- names ------------------------------------------------------------- */

START_TEST(layers_of_one_name_get_ids_of_their_own)
{
    take(write_file(OPEN
                    "<Construction id='c'><LayerId layerIdRef='l'/>"
                    "<LayerId layerIdRef='l'/><LayerId layerIdRef='k'/>"
                    "<LayerId layerIdRef='j'/></Construction>"
                    "<Layer id='l'><MaterialId materialIdRef='m'/></Layer>"
                    "<Layer id='k'><MaterialId materialIdRef='n'/></Layer>"
                    "<Layer id='j'><Name>Jay</Name><MaterialId "
                    "materialIdRef='_'/></Layer>"
                    "<Material id='m'><Name>Board</Name><Thickness>0.1"
                    "</Thickness></Material>"
                    "<Material id='n'><Name>\xd0\xb4\xd0\xbe\xd0\xbc</Name>"
                    "<Thickness>0.1</Thickness></Material>"
                    "<Material id='_'><Thickness>0.1</Thickness></Material>"
                    "</gbXML>"),
         NULL, NULL);
    static const char *const ids[] = {"board", "board-2", "n", "layer"};
    for (size_t i = 0; i < COUNT(ids); i++)
        ck_assert_str_eq(assembly->layer[i].id, ids[i]);
    ck_assert_str_eq(assembly->layer[2].name, "\xd0\xb4\xd0\xbe\xd0\xbc");
    ck_assert_str_eq(assembly->layer[3].name, "Jay");
    ck_assert_str_eq(assembly->id, "c");
}
END_TEST

/* A sentence is cut to fit; the cut must not leave half a character in a file
 * that says it is UTF-8. Names of 1 to 4 bytes a character more or less hit
 * every phase of the cut. */
START_TEST(a_long_name_in_any_alphabet_leaves_the_skeleton_readable)
{
    static const char *const letters[] = {"x", "\xc3\xa9", "\xe2\x82\xac",
                                          "\xf0\x9f\x8f\xa0"};
    char name[1300], text[4096];
    for (int before = 0; before < 4; before++) {
        size_t length = strlen(letters[_i]), used = (size_t)before;
        memset(name, 'y', used);
        while (used < 1200) {
            memcpy(name + used, letters[_i], length);
            used += length;
        }
        name[used] = '\0';
        snprintf(text, sizeof text,
                 "%s" SOLID("a") "<Material id='b'><Name>%s</Name><Thickness>"
                                 "0.1</Thickness></Material></gbXML>",
                 LAYER(PART("a", "85") PART("b", "15")), name);
        take(write_file(text), NULL, NULL);
        ck_assert(missing("15 % of it is "));
        ck_assert_ptr_nonnull(strstr(skeleton->xml, name));
        release();
    }
}
END_TEST

/* The file's own name stands in the skeleton, in whatever bytes it has. */
START_TEST(a_file_name_that_is_no_utf_8_leaves_the_skeleton_readable)
{
    const char *odd = "./skeleton-\xe9t\xe9 --\x01.xml";
    const char *text = MATERIAL("<Thickness>0.1</Thickness>");
    FILE *to = fopen(odd, "w");
    if (to == NULL) {
        fprintf(stderr, "SKIPPED: this file system takes UTF-8 alone\n");
        return;
    }
    fputs(text, to);
    fclose(to);
    bw_status status = import(odd, NULL, NULL);
    unlink(odd);
    ck_assert_int_eq(status, BW_OK);
    char *whole = completed(skeleton->xml);
    ck_assert_msg(read_text(whole) == BW_OK, "line %ld: %s", err.line,
                  err.message);
    free(whole);
    ck_assert_str_eq(assembly->layer[0].source,
                     "gbXML file skeleton-?t? --?.xml, material m");
}
END_TEST

/* ---- many -------------------------------------------------------------- */

/* `count` layers of one material each. */
static char *wall_of(int count)
{
    enum { ROOM = 20000 };
    char *text = malloc(ROOM);
    ck_assert_ptr_nonnull(text);
    size_t used = (size_t)snprintf(text, ROOM, "%s<Construction id='c'>", OPEN);
    for (int i = 0; i < count; i++)
        used += (size_t)snprintf(text + used, ROOM - used,
                                 "<LayerId layerIdRef='l'/>");
    snprintf(text + used, ROOM - used,
             "</Construction><Layer id='l'><MaterialId materialIdRef='m'/>"
             "</Layer><Material id='m'><Name>B</Name></Material></gbXML>");
    return text;
}

START_TEST(sixty_four_layers_are_read_and_no_more)
{
    char *text = wall_of(64);
    take(write_file(text), NULL, NULL);
    ck_assert_uint_eq(assembly->layer_count, 64);
    ck_assert_str_eq(assembly->layer[63].id, "b-64");
    free(text);
    release();
    text = wall_of(65);
    ck_assert_int_eq(import(write_file(text), NULL, NULL), BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "one layer too many: 64"));
    free(text);
}
END_TEST

START_TEST(eight_parts_of_a_layer_are_read_and_no_more)
{
    char text[4096], parts[9 * 64 + 1] = "";
    for (int count = 8; count <= 9; count++) {
        parts[0] = '\0';
        for (int i = 0; i < count; i++)
            strcat(parts, PART("m", "11"));
        snprintf(text, sizeof text,
                 OPEN "<Construction id='c'><LayerId layerIdRef='l'/>"
                      "</Construction><Layer id='l'>%s</Layer>" SOLID(
                          "m") "</gbXML>",
                 parts);
        bw_status status = import(write_file(text), NULL, NULL);
        ck_assert_int_eq(status, count == 8 ? BW_OK : BW_ERR_INPUT);
        release();
    }
    ck_assert_ptr_nonnull(strstr(err.message, "one part of a layer too many"));
}
END_TEST

/* 64 layers of 8 parts each miss more than a list has room for. */
START_TEST(a_list_that_is_full_says_that_there_is_more)
{
    enum { ROOM = 20000 };
    char *text = malloc(ROOM), parts[8 * 64 + 1] = "";
    ck_assert_ptr_nonnull(text);
    for (int i = 0; i < 8; i++)
        strcat(parts, PART("m", "12.5"));
    size_t used = (size_t)snprintf(text, ROOM, "%s<Construction id='c'>", OPEN);
    for (int i = 0; i < 64; i++)
        used += (size_t)snprintf(text + used, ROOM - used,
                                 "<LayerId layerIdRef='l'/>");
    snprintf(text + used, ROOM - used,
             "</Construction><Layer id='l'>%s</Layer>" SOLID("m") "</gbXML>",
             parts);
    take(write_file(text), NULL, NULL);
    free(text);
    ck_assert_uint_eq(skeleton->missing_count, 512);
    ck_assert_str_eq(skeleton->missing[511], "And more.");
    ck_assert_str_ne(skeleton->missing[510], "And more.");
    ck_assert_uint_eq(assembly->layer_count, 64);
}
END_TEST

START_TEST(a_name_of_other_letters_still_gives_an_id)
{
    const char *plain = "skeleton-plain.xml";
    FILE *to = fopen(plain, "w");
    ck_assert_ptr_nonnull(to);
    fputs(OPEN "<Construction id='c'><Name>\xd0\xb4\xd0\xbe\xd0\xbc</Name>"
               "<LayerId layerIdRef='l'/></Construction><Layer id='l'>"
               "<MaterialId materialIdRef='m'/></Layer><Material id='m'>"
               "<Name>Board<!-- a note --> <![CDATA[& batt]]>\r\n\t two </Name>"
               "<Thickness> 0.1 </Thickness></Material></gbXML>",
          to);
    fclose(to);
    take(plain, NULL, NULL);
    unlink(plain);
    ck_assert_str_eq(assembly->id, "imported");
    ck_assert_str_eq(assembly->title, "\xd0\xb4\xd0\xbe\xd0\xbc");
    ck_assert_str_eq(assembly->layer[0].name, "Board & batt two");
    ck_assert_str_eq(assembly->layer[0].source,
                     "gbXML file skeleton-plain.xml, material m");
}
END_TEST

/* ---- refusals ---------------------------------------------------------- */

static const struct {
    const char *text, *says;
} refused[] = {
    {LAYER(PART("a", "85") PART("b", "25")) SOLID("a") SOLID("b") "</gbXML>",
     "holds materials of 110 % in all; side by side they fill 100 % at most"},
    {LAYER(PART("a", "0")) SOLID("a") "</gbXML>", "above 0 and up to 100"},
    {LAYER(PART("a", "-5")) SOLID("a") "</gbXML>", "above 0 and up to 100"},
    {LAYER(PART("a", "half")) SOLID("a") "</gbXML>", "above 0 and up to 100"},
    {LAYER(PART("a", "50%")) SOLID("a") "</gbXML>", "above 0 and up to 100"},
    {LAYER(PART("a", "")) SOLID("a") "</gbXML>", "above 0 and up to 100"},
    {LAYER("<MaterialId materialIdRef=' '/>") "</gbXML>", "is empty"},
    {LAYER("<MaterialId materialIdRef='a'/>") "<Material/><Material id='xyz'/>"
                                              "</gbXML>",
     "refers to no <Material> of this file"},
    {OPEN "<Construction id='c'/><Construction id='d'/></gbXML>",
     "holds 2 <Construction>s but no layers in any of them"},
    {MATERIAL("<Density unit='KgPerCubicM'>nan</Density>"), "no number"},
    {MATERIAL("<Density unit='KgPerCubicM'>1e999</Density>"), "no number"},
    {MATERIAL("<Density unit='KgPerCubicM'>5 kg</Density>"), "no number"},
    {MATERIAL("<Density unit='KgPerCubicM'/>"), "holds \"\", which is no"},
    {MATERIAL("<Thickness unit='Inch'>5</Thickness>"), "did you mean Inches?"},
    {MATERIAL("<R-value unit='WPerMeterK'>5</R-value>"), "SquareMeterKPerW"},
};

START_TEST(what_means_two_things_or_none_is_refused)
{
    ck_assert_int_eq(import(write_file(refused[_i].text), NULL, NULL),
                     BW_ERR_INPUT);
    ck_assert_msg(strstr(err.message, refused[_i].says) != NULL,
                  "'%s' does not say '%s'", err.message, refused[_i].says);
    ck_assert_int_eq(err.line, 1);
}
END_TEST

START_TEST(a_construction_that_stands_twice_is_not_chosen_between)
{
    const char *text = OPEN
        "<Construction id='c'><LayerId layerIdRef='l'/></Construction>\n"
        "<Construction id='d'><LayerId layerIdRef='l'/></Construction>\n"
        "<Construction id='c'><LayerId layerIdRef='k'/></Construction>\n"
        "<Layer id='l'><MaterialId materialIdRef='m'/></Layer>"
        "<Layer id='k'/>" SOLID("m") "</gbXML>";
    ck_assert_int_eq(import(write_file(text), "c", NULL), BW_ERR_INPUT);
    ck_assert_ptr_nonnull(
        strstr(err.message, "id=\"c\" stands twice (also in line 1)"));
    ck_assert_int_eq(err.line, 3);
    release();
    take(write_file(text), "d", NULL);
}
END_TEST

START_TEST(an_unknown_construction_is_refused_with_what_there_is)
{
    const char *text = MATERIAL("<Thickness>0.1</Thickness>");
    ck_assert_int_eq(import(write_file(text), "xyzxyz", NULL), BW_ERR_USAGE);
    ck_assert_ptr_nonnull(
        strstr(err.message, "no construction 'xyzxyz'; it holds: c"));
    bw_gbxml_free(NULL);
    bw_skeleton_free(NULL);
    ck_assert_int_eq(bw_gbxml_skeleton(&skeleton, file, NULL, &err), BW_OK);
}
END_TEST

/* ---- proposals --------------------------------------------------------- */

START_TEST(materials_are_proposed_by_name_and_none_is_taken)
{
    take(write_file(MATERIAL("<Name>Timber, planed</Name>"
                             "<Thickness>0.02</Thickness>")),
         NULL, NULL);
    const char *proposed = strstr(skeleton->xml,
                                  "<!-- by its name perhaps material=\"");
    ck_assert_ptr_nonnull(proposed);
    ck_assert_ptr_nonnull(strstr(proposed, "<layer"));
    ck_assert_str_ne(assembly->layer[0].material->id, "softwood");
}
END_TEST

START_TEST(a_name_that_says_nothing_brings_no_proposal)
{
    take(write_file(MATERIAL("<Name>M 31</Name><Thickness>0.02</Thickness>")),
         NULL, NULL);
    ck_assert_ptr_null(strstr(skeleton->xml, "perhaps"));
}
END_TEST

SUITE_AROUND(
    "skeleton", setup, teardown,
    {parts_of_a_layer_are_listed_and_a_rest_unsaid_is_asked_for, COUNT(shares)},
    EACH(whatever_a_material_gives_the_layer_can_be_read, COUNT(shapes)),
    FACT(an_r_value_that_disagrees_with_the_rest_is_noted),
    FACT(a_permeance_beyond_measure_is_left_out_and_said),
    {the_element_follows_the_surfaces_that_use_the_construction, COUNT(uses)},
    EACH(another_version_is_read_and_said, COUNT(versions)),
    FACT(layers_of_one_name_get_ids_of_their_own),
    EACH(a_long_name_in_any_alphabet_leaves_the_skeleton_readable, 4),
    FACT(a_file_name_that_is_no_utf_8_leaves_the_skeleton_readable),
    FACT(sixty_four_layers_are_read_and_no_more),
    FACT(eight_parts_of_a_layer_are_read_and_no_more),
    FACT(a_list_that_is_full_says_that_there_is_more),
    FACT(a_name_of_other_letters_still_gives_an_id),
    EACH(what_means_two_things_or_none_is_refused, COUNT(refused)),
    FACT(a_construction_that_stands_twice_is_not_chosen_between),
    FACT(an_unknown_construction_is_refused_with_what_there_is),
    FACT(materials_are_proposed_by_name_and_none_is_taken),
    FACT(a_name_that_says_nothing_brings_no_proposal))
