/* --profile list: the rule sets as they stand in the library. */

#include <stdio.h>
#include <string.h>

#include "bothways/profile.h"
#include "number.h"
#include "settings.h"

static const char *case_words(bw_profile_case applies)
{
    switch (applies) {
    case BW_FOR_ALL:
        break;
    case BW_FOR_CLASS_1_TO_3:
        return " (humidity classes 1 to 3)";
    case BW_FOR_CLASS_4_TO_5:
        return " (humidity classes 4 and 5)";
    case BW_FOR_MASONRY_FACE:
        return " (walls with a masonry face)";
    case BW_FOR_OTHER_FACE:
        return " (walls with another face)";
    case BW_FOR_WALLS:
        return " (walls)";
    case BW_FOR_ROOFS:
        return " (roofs)";
    }
    return "";
}

static void print_rule(const bw_profile_rule *rule)
{
    char limit[64];
    bool listed = rule->criterion[0] == '\0';
    if (listed)
        fputs("  listed only: ", stdout);
    else
        printf("  %s, limit %s%s%s%s%s: ", rule->criterion,
               bw_number_g(limit, sizeof limit, rule->limit, 3),
               strcmp(rule->unit, "-") == 0 ? "" : " ",
               strcmp(rule->unit, "-") == 0 ? "" : rule->unit,
               case_words(rule->applies),
               rule->decides ? "" : ", decides nothing");
    printf("%s\n      %s %s\n", rule->text, rule->source, rule->mark);
}

void settings_print_profiles(void)
{
    puts("Rule sets. Each adds its rules to the default criteria and takes "
         "none away.\n"
         "[S] the figure was seen, mostly as others quote it; [W] seen in a "
         "weak source;\n"
         "[K] background knowledge. What is [W] or [K], or whose conditions "
         "are not known,\n"
         "is listed or shown and decides nothing.");
    for (size_t i = 0; i < bw_profile_count(); i++) {
        const bw_profile *profile = bw_profile_at(i);
        printf("\n%s - %s\n", profile->name, profile->title);
        for (size_t k = 0; k < profile->rule_count; k++)
            print_rule(&profile->rule[k]);
    }
}
