/* What lies outside and inside: no field of it may differ between two walls
 * without the words differing, which is how `compare` sees it. */

#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "beyond.h"
#include "file_text.h"
#include "side.h"
#include "suite.h"

static bw_arena arena;

static bw_assembly given(void)
{
    bw_assembly a = {.outdoors = {.has_facing = true,
                                  .azimuth = 45,
                                  .tilt = 90,
                                  .has_solar_absorptance = true,
                                  .solar_absorptance = 0.6,
                                  .emissivity = 0.9,
                                  .driving_rain = BW_RAIN_SHELTERED,
                                  .has_rain_share = true,
                                  .rain_share = 0.7,
                                  .has_terrain = true,
                                  .has_height = true,
                                  .height = 5,
                                  .has_surface_resistance = true,
                                  .surface_resistance = 0.04,
                                  .below = BW_BELOW_OPEN_AIR},
                     .indoors = {.has_surface_resistance = true,
                                 .surface_resistance = 0.13}};
    return a;
}

static const char *words_of(const bw_assembly *a, int fact)
{
    const char *words = bw_side_words(&arena, a, (bw_side_fact)fact);
    ck_assert_ptr_nonnull(words);
    return words;
}

static bool alike(const bw_assembly *a, const bw_assembly *b)
{
    bool same = true;
    for (int i = 0; i < BW_SIDE_COUNT; i++)
        same = same && bw_side_same(a, words_of(a, i), b, words_of(b, i),
                                    (bw_side_fact)i);
    return same;
}

/* Where a field lies and how large it is; has_driving_rain says only whether
 * the file or the default chose, climates are compared by their figures. */
typedef struct field {
    size_t at, size;
    bool counts;
} field;

#define OUT(name, seen)                                                        \
    {                                                                          \
        offsetof(bw_outdoors, name), sizeof((bw_outdoors *)0)->name, seen      \
    }
#define IN(name)                                                               \
    {                                                                          \
        offsetof(bw_indoors, name), sizeof((bw_indoors *)0)->name, true        \
    }

static const field outside[] = {OUT(climate_path, false),
                                OUT(has_facing, true),
                                OUT(azimuth, true),
                                OUT(tilt, true),
                                OUT(has_solar_absorptance, true),
                                OUT(solar_absorptance, true),
                                OUT(emissivity, true),
                                OUT(driving_rain, true),
                                OUT(has_driving_rain, false),
                                OUT(has_rain_share, true),
                                OUT(rain_share, true),
                                OUT(has_terrain, true),
                                OUT(terrain, true),
                                OUT(has_height, true),
                                OUT(height, true),
                                OUT(open_sky, true),
                                OUT(has_surface_resistance, true),
                                OUT(surface_resistance, true),
                                OUT(below, true)};

static const field inside[] = {IN(kind),
                               IN(temperature),
                               IN(humidity_class),
                               IN(relative_humidity),
                               IN(margin),
                               IN(en15026_high),
                               IN(month_temperature),
                               IN(month_vapour_pressure),
                               IN(has_surface_resistance),
                               IN(surface_resistance)};

/* The lists above leave no byte out but padding before the next field. */
static void whole(const field *list, size_t count, size_t size)
{
    size_t end = 0;
    for (size_t i = 0; i < count; i++) {
        ck_assert_uint_ge(list[i].at, end);
        ck_assert_uint_lt(list[i].at - end, 8);
        end = list[i].at + list[i].size;
    }
    ck_assert_uint_lt(size - end, 8);
}

START_TEST(every_field_is_listed_here)
{
    whole(outside, COUNT(outside), sizeof(bw_outdoors));
    whole(inside, COUNT(inside), sizeof(bw_indoors));
}
END_TEST

/* One field another: a flag turned, a number a part in a thousand more. */
static void change(void *record, const field *f)
{
    char *at = (char *)record + f->at;
    bool flag;
    int word;
    double number;
    if (f->size == sizeof flag) {
        memcpy(&flag, at, sizeof flag);
        flag = !flag;
        memcpy(at, &flag, sizeof flag);
    } else if (f->size == sizeof word) {
        memcpy(&word, at, sizeof word);
        word = word > 0 ? word - 1 : word + 1;
        memcpy(at, &word, sizeof word);
    } else {
        memcpy(&number, at, sizeof number);
        number = number * 1.001 + 0.001;
        memcpy(at, &number, sizeof number);
    }
}

START_TEST(no_field_outside_differs_unseen)
{
    bw_assembly a = given(), b = given();
    ck_assert(alike(&a, &b));
    change(&b.outdoors, &outside[_i]);
    ck_assert_msg(alike(&a, &b) != outside[_i].counts, "field %d", _i);
}
END_TEST

/* The middle of what is allowed; of a word the last. */
static double middle(const bw_beyond_attribute *a)
{
    int last = 0;
    while (a->words[last] != NULL)
        last++;
    return a->sort == BW_BEYOND_QUANTITY ? 0.5 * (a->low + a->high)
           : a->sort == BW_BEYOND_WORD   ? last - 1
                                         : -1;
}

/* The words alone, and the values; a layer has a name, see below. */
START_TEST(no_value_beyond_the_face_differs_unseen)
{
    const bw_beyond_kind *kind = bw_beyond_kind_at((size_t)_i);
    bw_assembly a = given();
    a.beyond.kind = kind;
    for (int i = 0; kind->attribute[i].name != NULL; i++)
        a.beyond.value[i] = middle(&kind->attribute[i]);
    const char *air = words_of(&(bw_assembly){0}, BW_SIDE_BEYOND);
    ck_assert_str_ne(words_of(&a, BW_SIDE_BEYOND), air);
    for (int i = 0; kind->attribute[i].name != NULL; i++) {
        bw_assembly b = a;
        ck_assert(alike(&a, &b));
        if (kind->attribute[i].sort == BW_BEYOND_TIGHT_LAYER)
            continue;
        b.beyond.value[i] -= kind->attribute[i].sort == BW_BEYOND_WORD
                                 ? 1.0
                                 : 0.01 * b.beyond.value[i];
        ck_assert_msg(!alike(&a, &b), "%s", kind->attribute[i].name);
        ck_assert_str_ne(words_of(&a, BW_SIDE_BEYOND),
                         words_of(&b, BW_SIDE_BEYOND));
    }
}
END_TEST

/* Schema and reference know every kind and its attributes. */
START_TEST(what_lies_beyond_is_in_schema_and_reference)
{
    const bw_beyond_kind *kind = bw_beyond_kind_at((size_t)_i);
    char *schema = file_text(BW_SOURCE_DIR "/docs/assembly.xsd");
    char *reference = file_text(BW_SOURCE_DIR "/docs/input.md");
    char head[80];
    snprintf(head, sizeof head, "<xs:complexType name=\"%s\">", kind->element);
    const char *type = strstr(schema, head);
    snprintf(head, sizeof head, "### `%s`", kind->element);
    const char *section = strstr(reference, head);
    ck_assert_msg(type != NULL && section != NULL, "%s", kind->element);
    *strstr(type, "</xs:complexType>") = '\0';
    for (int i = 0; kind->attribute[i].name != NULL; i++) {
        snprintf(head, sizeof head, "name=\"%s\"", kind->attribute[i].name);
        ck_assert_msg(strstr(type, head) != NULL, "schema: %s", head);
        snprintf(head, sizeof head, "| `%s` |", kind->attribute[i].name);
        ck_assert_msg(strstr(section, head) != NULL, "reference: %s", head);
    }
    free(schema);
    free(reference);
}
END_TEST

START_TEST(waterproofing_differs_by_the_layer_it_is)
{
    static const bw_layer layer[] = {{.id = "sheet"}, {.id = "coat"}};
    bw_assembly a = given(), b;
    a.layer = layer;
    a.layer_count = 2;
    a.beyond = (bw_beyond){&bw_beyond_ground, {1.3, 1.0, 1.0, 0.0}};
    b = a;
    b.beyond.value[3] = 1;
    ck_assert(!alike(&a, &b));
    b.beyond.value[3] = -1;
    ck_assert(!alike(&a, &b));
    ck_assert_str_eq(bw_side_words(&arena, &b, BW_SIDE_BEYOND),
                     "soil (sand or gravel), 1.3 m below its surface, its air "
                     "at 100 % relative humidity, nothing stated to keep its "
                     "water out");
}
END_TEST

/* Each of the kinds of room uses fields of its own. */
START_TEST(no_field_inside_differs_unseen)
{
    bool seen = false;
    for (int kind = BW_INDOOR_CLASS; kind <= BW_INDOOR_MONTHS; kind++) {
        bw_assembly a = given(), b = given();
        a.indoors.kind = b.indoors.kind = (bw_indoor_kind)kind;
        ck_assert(alike(&a, &b));
        change(&b.indoors, &inside[_i]);
        seen = seen || !alike(&a, &b);
    }
    ck_assert_msg(seen, "field %d", _i);
}
END_TEST

/* The means are the same, the months are not. */
START_TEST(rooms_are_compared_month_by_month)
{
    bw_assembly a = given(), b = given();
    a.indoors.kind = b.indoors.kind = BW_INDOOR_MONTHS;
    a.indoors.month_temperature[0] = 20;
    b.indoors.month_temperature[6] = 20;
    ck_assert(!alike(&a, &b));
}
END_TEST

START_TEST(words_say_what_the_file_says)
{
    bw_assembly a = given();
    a.indoors = (bw_indoors){.kind = BW_INDOOR_CLASS,
                             .temperature = 20,
                             .humidity_class = 3,
                             .margin = true};
    a.outdoors.azimuth = 225;
    a.outdoors.open_sky = true;
    const char *const words[BW_SIDE_COUNT] = {
        [BW_SIDE_ROOM] =
            "20 degC, humidity class 3 of ISO 13788 with its safety margin",
        [BW_SIDE_FACING] = "SW",
        [BW_SIDE_RAIN] =
            "sheltered, 70 % of it stays, open terrain, 5 m above ground",
        [BW_SIDE_FACE] =
            ("emissivity 0.9, solar absorptance 0.6, a light roof under open "
             "sky, surface resistance 0.04 m2.K/W"),
        [BW_SIDE_BEYOND] = "open air below the floor"};
    for (int i = 0; i < BW_SIDE_COUNT; i++)
        ck_assert_str_eq(bw_side_words(&arena, &a, (bw_side_fact)i), words[i]);
}
END_TEST

static void teardown(void)
{
    bw_arena_release(&arena);
}

SUITE_AROUND("side", NULL, teardown, FACT(every_field_is_listed_here),
             EACH(no_field_outside_differs_unseen, COUNT(outside)),
             EACH(no_field_inside_differs_unseen, COUNT(inside)),
             EACH(no_value_beyond_the_face_differs_unseen, BW_BEYOND_KINDS),
             EACH(what_lies_beyond_is_in_schema_and_reference, BW_BEYOND_KINDS),
             FACT(waterproofing_differs_by_the_layer_it_is),
             FACT(rooms_are_compared_month_by_month),
             FACT(words_say_what_the_file_says))
