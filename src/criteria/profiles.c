#include "bothways/profile.h"

#include <string.h>

#include "text.h"

/* The national rule sets. Standards and codes were read through the sources
 * of others: "[S]" means that the figure was seen there, not that the code's
 * own text was opened. Limits of sd from other units: delta_0 = 2.0e-10
 * kg/(m s Pa), so 1 MN.s/g is 0.20 m and 60 ng/(Pa s m2) are 3.33 m. */

#define COUNT(a) (sizeof(a) / sizeof(a)[0])
#define LISTED "", BW_FOR_ALL, 0.0, "-", false, false

static const bw_profile_rule uk_nhbc[] = {
    {"steady-design-check", BW_FOR_ALL, 100.0, "%", true, true,
     "no interface at saturation in a steady check, 21 degC and 60 % RH "
     "inside, -2 degC outside",
     "NHBC Standards 2024, 6.2.12", "[S]"},
    {"breather-sd", BW_FOR_ALL, 0.12, "m", true, true,
     "breather membrane below 0.6 MN.s/g, that is sd 0.12 m",
     "NHBC Standards 2021, 6.2.13", "[S]"},
    {"cavity-width", BW_FOR_MASONRY_FACE, 50.0, "mm", false, true,
     "drained and vented cavity of 50 mm behind masonry",
     "NHBC Standards, 11.2.8 (edition not stated where it was read)", "[S]"},
    {"cavity-width", BW_FOR_OTHER_FACE, 25.0, "mm", false, true,
     "drained and vented cavity of 25 mm behind render on board, taken for "
     "every cladding but masonry",
     "NHBC Standards, 11.2.8 (edition not stated where it was read)", "[S]"},
    {"closing-moisture", BW_FOR_ALL, 20.0, "%", true, true,
     "vapour control layer only once framing is below 20 % moisture",
     "NHBC Standards 2024, 6.2.12", "[S]"},
    {"sd-ratio", BW_FOR_ALL, 5.0, "-", false, false,
     "inner resistance about 5 times the outer",
     "practice, seen in a trade article", "[W]"},
    {"frsi-least", BW_FOR_ALL, 0.75, "-", false, false,
     "surface temperature factor of dwellings at least 0.75",
     "BS 5250 practice", "[K]"},
};

static const bw_profile_rule de_din4108[] = {
    {"frsi-least", BW_FOR_ALL, 0.70, "-", false, true,
     "surface temperature factor at least 0.70 (-5 degC outside, 20 degC "
     "inside)",
     "DIN 4108-2 (edition not stated where it was read)", "[S]"},
    {"closing-moisture", BW_FOR_ALL, 20.0, "%", false, true,
     "timber at most 20 % moisture when built in",
     "DIN 68800-2 (edition not stated where it was read)", "[S]"},
    {LISTED,
     "condensate, its evaporation, moisture rise and drying reserve: these "
     "are the default criteria",
     "DIN 4108-3:2018, DIN 68800-2", "[S]"},
    {LISTED,
     "walls free of proof by their sd inside and outside: the table seen is "
     "that of timber roofs, the one of walls was not",
     "DIN 4108-3", "[K]"},
};

static const bw_profile_rule fr_2011[] = {
    {"inner-sd", BW_FOR_ALL, 18.0, "m", false, true,
     "vapour barrier of sd at least 18 m inside", "NF DTU 31.2, 2011", "[S]"},
    {LISTED, "sd at least 57 m where the design temperature is below -15 degC",
     "reported of NF DTU 31.2, conditions not seen", "[S]"},
};

static const bw_profile_rule fr_2019[] = {
    {"sd-ratio", BW_FOR_ALL, 5.0, "-", false, true,
     "inner sd at least 5 times the outer (its conditions were not seen)",
     "NF DTU 31.2, 2019", "[S]"},
    {LISTED, "a third of the insulation at most inside the vapour barrier",
     "French practice, as questioned for very cold places", "[S]"},
};

static const bw_profile_rule dk[] = {
    {"sd-ratio", BW_FOR_CLASS_1_TO_3, 5.0, "-", false, true,
     "inner sd at least 5 times the outer in humidity classes 1 to 3",
     "Danish rule as published in 2021", "[S]"},
    {"sd-ratio", BW_FOR_CLASS_4_TO_5, 10.0, "-", false, true,
     "inner sd at least 10 times the outer in humidity classes 4 and 5",
     "Danish rule as published in 2021", "[S]"},
    {LISTED,
     "the ratio falls as the outer resistance rises, and goes by class, U and "
     "kind of insulation: the newer rule, its figures not seen",
     "Danish work published in 2024", "[S]"},
};

static const bw_profile_rule norway[] = {
    {"inner-sd", BW_FOR_ALL, 10.0, "m", false, true,
     "vapour barrier of sd at least 10 m inside, preferably more",
     "Norwegian practice, seen in a trade journal of 2016", "[S]"},
};

static const bw_profile_rule sweden[] = {
    {"sd-ratio", BW_FOR_WALLS, 5.0, "-", false, false,
     "inner sd 5 times the outer in walls", "Swedish practice", "[W]"},
    {"sd-ratio", BW_FOR_ROOFS, 10.0, "-", false, false,
     "inner sd 10 times the outer in roofs", "Swedish practice", "[W]"},
    {LISTED, "75 % RH where a material's critical humidity is not known",
     "Swedish building rules, seen at second hand", "[W]"},
};

static const bw_profile_rule us_irc[] = {
    {"inner-sd", BW_FOR_ALL, 3.5, "m", false, false,
     "retarder of class II (at most 1 US perm, sd 3.5 m) or better inside in "
     "the colder climate zones; which zone this is, is not known here",
     "IRC 2021, R702.7: the classes seen, the table of zones not", "[K]"},
    {"closing-moisture", BW_FOR_ALL, 18.0, "%", false, true,
     "framing at most 18 % moisture when enclosed",
     "US programme for efficient new homes, as seen", "[S]"},
    {LISTED,
     "class I on both sides needs an approved design unless the inner one "
     "answers to humidity",
     "IRC, as others quote it", "[W]"},
};

static const bw_profile_rule ca_obc[] = {
    {"inner-sd", BW_FOR_ALL, 10.0 / 3.0, "m", false, true,
     "vapour barrier of at most 60 ng/(Pa.s.m2), that is sd 3.33 m, inside",
     "Ontario Building Code (edition not stated where it was read)", "[S]"},
    {LISTED,
     "low-permeance outer layers by the ratio of R outside and inside to the "
     "degree-days: the table was not legible",
     "National Building Code of Canada", "[S]"},
};

static const bw_profile_rule au_ncc[] = {
    {"closing-moisture", BW_FOR_ALL, 15.0, "%", true, true,
     "timber below 15 % moisture when lined", "AS 2589:2017", "[S]"},
    {LISTED, "mould index not above 3: this is a default criterion",
     "NCC 2022, verification method", "[S]"},
};

static const bw_profile profiles[] = {
    {"default", "the criteria of docs/methods.md alone", 0, NULL},
    {"au-ncc", "Australia", COUNT(au_ncc), au_ncc},
    {"ca-obc", "Canada, Ontario", COUNT(ca_obc), ca_obc},
    {"de-din4108", "Germany", COUNT(de_din4108), de_din4108},
    {"dk", "Denmark", COUNT(dk), dk},
    {"fr-2011", "France, rules of 2011", COUNT(fr_2011), fr_2011},
    {"fr-2019", "France, rules of 2019", COUNT(fr_2019), fr_2019},
    {"no", "Norway", COUNT(norway), norway},
    {"se", "Sweden", COUNT(sweden), sweden},
    {"uk-nhbc", "United Kingdom, new homes under warranty", COUNT(uk_nhbc),
     uk_nhbc},
    {"us-irc", "United States", COUNT(us_irc), us_irc},
};

size_t bw_profile_count(void)
{
    return COUNT(profiles);
}

const bw_profile *bw_profile_at(size_t i)
{
    return i < COUNT(profiles) ? &profiles[i] : NULL;
}

const bw_profile *bw_profile_find(const char *name)
{
    if (name == NULL)
        return &profiles[0];
    for (size_t i = 0; i < COUNT(profiles); i++)
        if (strcmp(name, profiles[i].name) == 0)
            return &profiles[i];
    return NULL;
}

const char *bw_profile_suggest(const char *name)
{
    const char *names[COUNT(profiles)];
    for (size_t i = 0; i < COUNT(profiles); i++)
        names[i] = profiles[i].name;
    return bw_text_nearest(name, names, COUNT(names));
}
