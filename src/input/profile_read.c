#include "profile_reader.h"

#include <string.h>

#include "fail.h"
#include "folder.h"
#include "text.h"

/* Layout: <profile id country scope> holds <rule> and <method> elements, whose
 * text is what they ask. docs/profile.xsd is the same for editors.
 *
 * Invariant: a profile read passes bw_profile_check; every rule has a text, a
 * source with its edition, and a mark; what was not seen decides nothing. */

#define NAME_SPACE "urn:bothways:profile:1"
static bw_status keep(const char **out, const bw_profile_reader *r,
                      const char *text)
{
    *out = bw_arena_copy(r->arena, text);
    return *out != NULL ? BW_OK : bw_fail_memory(r->err);
}

/* ---- rules ------------------------------------------------------------- */

/* source=, edition= and mark=. An edition of "none" is that of a practice. */
static bw_status read_origin(bw_profile_rule *rule, const bw_profile_reader *r,
                             const xmlNode *node)
{
    static const char *const marks[] = {"[S]", "[W]", "[K]"};
    const char *source, *edition;
    int mark;
    BW_TRY(bw_read_required(r, &source, node, "source", "EN 1234, 5.6"));
    BW_TRY(bw_read_required(r, &edition, node, "edition", "2024"));
    BW_TRY(bw_read_word(r, &mark, NULL, node, "mark", "S", "W", "K"));
    rule->mark = marks[mark];
    bool none = strcmp(edition, "none") == 0;
    BW_TRY(keep(&rule->edition, r, none ? "" : edition));
    rule->source = none ? bw_arena_copy(r->arena, source)
                        : bw_arena_printf(r->arena, "%s (edition %s)", source,
                                          edition);
    BW_TRY_MEMORY(rule->source != NULL, r->err);
    return bw_xml_only_text(&rule->text, &r->xml, r->arena, node, r->err);
}

static bw_status read_decides(bw_profile_rule *rule, const bw_profile_reader *r,
                              const xmlNode *node)
{
    int index;
    BW_TRY(bw_read_word(r, &index, NULL, node, "decides", "no", "yes"));
    rule->decides = index == 1;
    if (rule->decides && strcmp(rule->mark, "[S]") != 0)
        return bw_refuse_at(r, node, "decides",
                            "needs mark=\"S\": what was not seen, or only in a "
                            "weak source, decides nothing");
    return BW_OK;
}

static bw_status read_case(bw_profile_rule *rule, const bw_profile_reader *r,
                           const xmlNode *node)
{
    static const char *const words[] = {
        [BW_FOR_ALL] = "all",
        [BW_FOR_CLASS_1_TO_3] = "humidity-classes-1-to-3",
        [BW_FOR_CLASS_4_TO_5] = "humidity-classes-4-to-5",
        [BW_FOR_MASONRY_FACE] = "walls-with-masonry-face",
        [BW_FOR_OTHER_FACE] = "walls-with-other-face",
        [BW_FOR_WALLS] = "walls",
        [BW_FOR_ROOFS] = "roofs",
    };
    bool given;
    int index = BW_FOR_ALL;
    BW_TRY(bw_xml_word(&index, &given, &r->xml, node, "applies-to", words,
                       BW_COUNT(words), r->err));
    rule->applies = (bw_profile_case)index;
    return BW_OK;
}

static const char *const steady_names[] = {
    "indoor-temperature", "indoor-humidity", "outdoor-temperature",
    "outdoor-humidity"};

static bw_status refuse_steady(const bw_profile_reader *r, const xmlNode *node)
{
    for (size_t i = 0; i < BW_COUNT(steady_names); i++)
        if (bw_xml_value(node, steady_names[i]) != NULL)
            return bw_refuse_at(r, node, steady_names[i],
                                "belongs to a rule on " BW_STEADY_CRITERION);
    return BW_OK;
}

static bw_status find_term(const bw_criterion_facts **out,
                           const bw_profile_reader *r, const xmlNode *node)
{
    enum { LIST = 480 };
    const char *names[BW_C_COUNT];
    char list[LIST];
    const char *criterion = bw_xml_value(node, "criterion");
    *out = bw_profile_term(criterion);
    if (*out != NULL)
        return BW_OK;
    const size_t count = bw_profile_term_names(names);
    return bw_refuse_at(
        r, node, "criterion",
        "is none that a rule can limit%s; write one of: %s",
        bw_text_meant((char[BW_MEANT]){0}, criterion, names, count),
        bw_xml_list(list, sizeof list, names, count));
}

/* A default limit holds for every wall; a rule that decided nothing would
 * stand in its place. */
static bw_status check_standard(const bw_profile_rule *rule,
                                const bw_profile_reader *r, const xmlNode *node)
{
    if (!rule->decides)
        return bw_refuse_at(
            r, node, "decides",
            "does not fit: %s is a default criterion, which decides; to "
            "mention a rule on it, leave out criterion=",
            rule->criterion);
    if (rule->applies != BW_FOR_ALL)
        return bw_refuse_at(r, node, "applies-to",
                            "does not fit: %s is a default criterion, whose "
                            "limit is tightened for all walls",
                            rule->criterion);
    return BW_OK;
}

/* The climates of the steady check, which no other rule has. */
static bw_status read_steady(bw_profile_rule *rule, const bw_profile_reader *r,
                             const xmlNode *node)
{
    bw_profile_steady *at = &rule->steady;
    bool given;
    if (strcmp(rule->criterion, BW_STEADY_CRITERION) != 0)
        return refuse_steady(r, node);
    BW_TRY(bw_read_quantity(r, &at->theta_i, NULL, node, steady_names[0],
                            BW_DIM_TEMPERATURE, BW_STEADY_COLDEST,
                            BW_STEADY_WARMEST));
    BW_TRY(bw_read_quantity(r, &at->phi_i, NULL, node, steady_names[1],
                            BW_DIM_FRACTION, 0.01, 1.0));
    BW_TRY(bw_read_quantity(r, &at->theta_e, NULL, node, steady_names[2],
                            BW_DIM_TEMPERATURE, BW_STEADY_COLDEST,
                            BW_STEADY_WARMEST));
    return bw_read_quantity(r, &at->phi_e, &given, node, steady_names[3],
                            BW_DIM_FRACTION, 0.01, 1.0);
}

static bw_status read_limited(bw_profile_rule *rule, const bw_profile_reader *r,
                              const xmlNode *node)
{
    const bw_criterion_facts *term;
    BW_TRY(find_term(&term, r, node));
    rule->criterion = term->name;
    BW_TRY(read_case(rule, r, node));
    BW_TRY(bw_profile_limit(rule, r, node, term));
    BW_TRY(read_steady(rule, r, node));
    BW_TRY(read_decides(rule, r, node));
    return bw_profile_standard(term) ? check_standard(rule, r, node) : BW_OK;
}

/* Listed only: there is nothing to judge by. */
static bw_status read_listed(const bw_profile_reader *r, const xmlNode *node)
{
    static const char *const without[] = {"applies-to", "least", "most",
                                          "below", "decides"};
    for (size_t i = 0; i < BW_COUNT(without); i++)
        if (bw_xml_value(node, without[i]) != NULL)
            return bw_refuse_at(r, node, without[i],
                                "needs a criterion=; a rule without one is "
                                "listed and judges nothing");
    return refuse_steady(r, node);
}

static bw_status read_rule(bw_profile_rule *rule, const bw_profile_reader *r,
                           const xmlNode *node)
{
    BW_TRY(bw_read_attributes(r, node, "criterion", "applies-to", "least",
                              "most", "below", "decides", "indoor-temperature",
                              "indoor-humidity", "outdoor-temperature",
                              "outdoor-humidity", "source", "edition", "mark"));
    BW_TRY(read_origin(rule, r, node));
    return bw_xml_value(node, "criterion") != NULL ? read_limited(rule, r, node)
                                                   : read_listed(r, node);
}

static bw_status read_method(bw_profile_rule *rule, const bw_profile_reader *r,
                             const xmlNode *node)
{
    static const bw_profile_demand demands[] = {BW_DEMANDS_MONTHLY,
                                                BW_DEMANDS_PERIOD};
    const char *name = bw_xml_value(node, "name");
    int index;
    BW_TRY(bw_read_attributes(r, node, "name", "source", "edition", "mark"));
    if (name != NULL && strcmp(name, "steady") == 0)
        return bw_refuse_at(
            r, node, "name",
            "is asked for by its rule: write <rule "
            "criterion=\"steady-design-check\" below=\"100 %%\" ...>");
    BW_TRY(bw_read_word(r, &index, NULL, node, "name", "monthly", "period"));
    BW_TRY(read_origin(rule, r, node));
    if (strcmp(rule->mark, "[S]") != 0)
        return bw_refuse_at(r, node, "mark",
                            "makes no method decide: what was not seen, or "
                            "only in a weak source, decides nothing; write "
                            "<rule> without criterion= to list it");
    rule->demands = demands[index];
    rule->decides = true;
    return BW_OK;
}

/* ---- profiles ---------------------------------------------------------- */

static bw_status read_names(bw_profile *profile, const bw_profile_reader *r)
{
    const xmlNode *root = r->xml.root;
    const char *id, *country, *scope = bw_xml_value(root, "scope");
    BW_TRY(bw_read_attributes(r, root, "id", "country", "scope"));
    BW_TRY(bw_xml_id(&id, &r->xml, root, "dk", r->err));
    BW_TRY(bw_read_required(r, &country, root, "country", "Denmark"));
    if (strcmp(id, "list") == 0)
        return bw_refuse_at(r, root, "id",
                            "is what lists all of them; choose another");
    BW_TRY(keep(&profile->name, r, id));
    profile->title = scope == NULL || *scope == '\0'
                         ? bw_arena_copy(r->arena, country)
                         : bw_arena_printf(r->arena, "%s, %s", country, scope);
    return profile->title != NULL ? BW_OK : bw_fail_memory(r->err);
}

static bw_status read_rules(bw_profile *profile, const bw_profile_reader *r)
{
    static const bw_profile_rule fresh = {.criterion = "", .unit = "-"};
    const xmlNode *root = r->xml.root;
    size_t count = 0;
    BW_TRY(bw_read_children(r, root, "rule", "method"));
    for (const xmlNode *n = bw_xml_first(root); n != NULL; n = bw_xml_next(n))
        count++;
    if (count == 0)
        return bw_refuse(r, root,
                         "holds no <rule>; without one it is the default");
    bw_profile_rule *rule = BW_NEW(r->arena, bw_profile_rule, count);
    BW_TRY_MEMORY(rule != NULL, r->err);
    profile->rule = rule;
    for (const xmlNode *n = bw_xml_first(root); n != NULL; n = bw_xml_next(n)) {
        *rule = fresh;
        rule->line = bw_xml_line(n);
        BW_TRY(bw_xml_is(n, "rule") ? read_rule(rule, r, n)
                                    : read_method(rule, r, n));
        rule++;
        profile->rule_count++;
    }
    return BW_OK;
}

static bw_status read_root(const bw_profile_reader *r)
{
    bw_profile profile = {.line = bw_xml_line(r->xml.root)};
    BW_TRY(keep(&profile.file, r, r->xml.path));
    BW_TRY(read_names(&profile, r));
    BW_TRY(read_rules(&profile, r));
    BW_TRY(bw_profile_check(&profile, r->err));
    return bw_profiles_add(r->set, &profile, r->err);
}

/* text NULL: of the file */
static bw_status read_one(bw_profiles *set, const char *path, const char *text,
                          bw_error *err)
{
    static const char what[] = "rule set", root[] = "profile";
    bw_profile_reader r = {
        .set = set, .arena = bw_profiles_arena(set), .err = err};
    BW_TRY(bw_xml_open(&r.xml, path, text, what, root, NAME_SPACE, err));
    bw_status status = read_root(&r);
    bw_xml_close(&r.xml);
    return status;
}

static bw_status read_files(bw_profiles *set, const char *const *path,
                            size_t count, bw_error *err)
{
    for (size_t i = 0; i < count; i++)
        BW_TRY(read_one(set, path[i], NULL, err));
    return BW_OK;
}

static bw_status finish(bw_profiles **out, bw_profiles *set, bw_status status)
{
    if (status == BW_OK)
        *out = set;
    else
        bw_profiles_free(set);
    return status;
}

bw_status bw_profiles_read(bw_profiles **out, const char *folder, bw_error *err)
{
    bw_profiles *set = bw_profiles_new();
    bw_folder_files list;
    BW_TRY_MEMORY(set != NULL, err);
    bw_status status = bw_folder_list(&list, bw_profiles_arena(set), folder,
                                      false, "rule sets", err);
    if (status == BW_OK)
        status = read_files(set, list.path, list.count, err);
    return finish(out, set, status);
}

bw_status bw_profiles_read_file(bw_profiles **out, const char *file,
                                bw_error *err)
{
    bw_profiles *set = bw_profiles_new();
    BW_TRY_MEMORY(set != NULL, err);
    return finish(out, set, read_files(set, &file, 1, err));
}

bw_status bw_profiles_read_text(bw_profiles **out, const char *text,
                                const char *name, bw_error *err)
{
    bw_profiles *set = bw_profiles_new();
    BW_TRY_MEMORY(set != NULL, err);
    return finish(out, set, read_one(set, name, text, err));
}
