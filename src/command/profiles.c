/* --profile: a name among the shipped rule sets, or a file; or their list. */

#include "profiles.h"

#include <stdio.h>
#include <string.h>

#include "bothways/criterion.h"
#include "fail.h"
#include "library.h"
#include "number.h"
#include "targets.h"
#include "text.h"

/* ---- reading ----------------------------------------------------------- */

/* A path, and no name, has a slash or ends in .xml. */
static bool is_file(const char *value)
{
    size_t length = strlen(value);
    return strchr(value, '/') != NULL ||
           (length > 4 && strcmp(value + length - 4, ".xml") == 0);
}

static bw_status read_shipped(bw_profiles **out, const settings *given,
                              bw_error *err)
{
    char folder[DATA_PATH];
    BW_TRY(data_folder(folder, sizeof folder, "assemblies/profiles",
                       "rule sets", err));
    BW_TRY(targets_spare_folder(given, folder, err));
    return bw_profiles_read(out, folder, err);
}

static bw_status read_file(bw_profiles **out, const char *path,
                           const settings *given, bw_error *err)
{
    BW_TRY(targets_spare(given, path, err));
    return bw_profiles_read_file(out, path, err);
}

static bw_status refuse(const bw_profiles *set, const char *name, bw_error *err)
{
    const char *near = bw_profiles_suggest(set, name);
    return bw_fail_usage(err,
                         "--profile '%s' is not known%s%s%s; --profile list "
                         "shows them with their sources",
                         name, near != NULL ? "; did you mean " : "",
                         near != NULL ? near : "", near != NULL ? "?" : "");
}

bw_status profiles_read(bw_profiles **out, const bw_profile **profile,
                        const settings *given, bw_error *err)
{
    const char *name = given->profile;
    if (name == NULL || strcmp(name, bw_profile_default()->name) == 0)
        return BW_OK;
    if (is_file(name)) {
        BW_TRY(read_file(out, name, given, err));
        *profile = bw_profiles_at(*out, 1);
    } else {
        BW_TRY(read_shipped(out, given, err));
        *profile = bw_profiles_find(*out, name);
    }
    return *profile != NULL ? BW_OK : refuse(*out, name, err);
}

/* ---- the list ---------------------------------------------------------- */

static const char *case_words(bw_profile_case applies)
{
    static const char *const words[] = {
        [BW_FOR_ALL] = "",
        [BW_FOR_CLASS_1_TO_3] = " (humidity classes 1 to 3)",
        [BW_FOR_CLASS_4_TO_5] = " (humidity classes 4 and 5)",
        [BW_FOR_MASONRY_FACE] = " (walls with a masonry face)",
        [BW_FOR_OTHER_FACE] = " (walls with another face)",
        [BW_FOR_WALLS] = " (walls)",
        [BW_FOR_ROOFS] = " (roofs)"};
    return BW_WORD(words, applies, "");
}

static void print_limit(const bw_profile_rule *rule)
{
    bool bare = strcmp(rule->unit, "-") == 0;
    printf("  %s, limit %s%s%s%s%s: ", rule->criterion,
           BW_NUMBER_G(rule->limit, 3), bare ? "" : " ", bare ? "" : rule->unit,
           case_words(rule->applies), rule->decides ? "" : ", decides nothing");
}

static void print_rule(const bw_profile_rule *rule)
{
    if (rule->criterion[0] != '\0')
        print_limit(rule);
    else if (rule->demands != BW_DEMANDS_NOTHING)
        printf("  method %s, decides: ",
               rule->demands == BW_DEMANDS_PERIOD ? "period" : "monthly");
    else
        fputs("  listed only: ", stdout);
    printf("%s\n      %s %s\n", rule->text, rule->source, rule->mark);
}

/* One of the default's; what a rule set alone brings stands with that. */
static void print_criterion(const bw_criterion_facts *facts)
{
    char limit[BW_LIMIT_TEXT];
    if (facts->limit_count == 0 && facts->may_be[1] > 0.0)
        return;
    bw_criterion_limit_text(limit, sizeof limit, facts);
    printf("  %s%s%s%s: %s\n      %s\n", facts->name,
           limit[0] != '\0' ? ", " : "", limit,
           facts->informative            ? ", decides nothing"
           : facts->role == BW_BY_BLOCKS ? ", decides where demanded"
                                         : "",
           facts->title, facts->rule);
}

static void print_profile(const bw_profile *profile)
{
    printf("\n%s - %s\n", profile->name, profile->title);
    if (profile->file != NULL)
        printf("  (%s)\n", profile->file);
    for (size_t k = 0; k < profile->rule_count; k++)
        print_rule(&profile->rule[k]);
}

/* `own`: of a file that is tried, without what does not change. */
static void print_all(const bw_profiles *set, bool own)
{
    puts("Rule sets. Each adds its rules to the default criteria and takes "
         "none away.\n"
         "[S] the figure was seen, mostly as others quote it; [W] seen in a "
         "weak source;\n"
         "[K] background knowledge. What is [W] or [K], or whose conditions "
         "are not known,\n"
         "is listed or shown and decides nothing. Your own: --profile "
         "FILE.xml.");
    for (size_t i = 0; i < bw_profiles_count(set); i++) {
        print_profile(bw_profiles_at(set, i));
        for (size_t k = 0; i == 0 && !own && k < bw_criteria_count(); k++)
            print_criterion(bw_criteria_at(k));
    }
}

bw_status profiles_list(const settings *given, bw_error *err)
{
    bw_profiles *set = NULL;
    bool own = given->profile != NULL && is_file(given->profile);
    bw_status status =
        given->output != NULL || given->tables != NULL
            ? bw_fail_usage(
                  err, "--profile list goes to standard output; leave out %s",
                  given->output != NULL ? "--output" : "--tables")
        : own ? read_file(&set, given->profile, given, err)
              : read_shipped(&set, given, err);
    if (status == BW_OK)
        print_all(set, own);
    bw_profiles_free(set);
    return status;
}
