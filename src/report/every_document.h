#ifndef BW_EVERY_DOCUMENT_H
#define BW_EVERY_DOCUMENT_H

/* Which parts each document holds, in their order, and how soon a reader needs
 * them: a brief part stands in the shortest report, too. */

/* clang-format off */

/* A page has its picture on the first sheet, then courses, then figures; the
 * method that does not decide is drawn last. A text leaves out what is drawn. */
#define CHECK(LEAST, SCREEN, FULL) \
    LEAST(title)            \
    LEAST(verdict)          \
    LEAST(figures)          \
    FULL(year)              \
    FULL(care)              \
    FULL(contents)          \
    SCREEN(simulated)       \
    LEAST(junctions)        \
    SCREEN(asked)           \
    SCREEN(by_months)       \
    LEAST(mind)             \
    SCREEN(advice)          \
    FULL(place)             \
    FULL(wood)              \
    FULL(mould)             \
    FULL(years)             \
    FULL(wetting)           \
    FULL(other_years)       \
    FULL(criteria)          \
    FULL(cross_check)       \
    FULL(scope)             \
    FULL(layers)            \
    FULL(thermal)           \
    FULL(transient)         \
    FULL(frost)             \
    FULL(water)             \
    FULL(months)            \
    FULL(directions)        \
    FULL(drying)            \
    FULL(membranes)         \
    FULL(surface)           \
    FULL(hours)             \
    FULL(vapour)            \
    FULL(drawing)           \
    FULL(junctions_drawn)   \
    FULL(assumptions)       \
    FULL(sources)           \
    FULL(cautions)          \
    SCREEN(where)           \
    LEAST(caution)          \
    LEAST(verdict_again)

#define WALLS(LEAST, SCREEN, FULL) \
    LEAST(each_wall)

#define AUDIT(LEAST, SCREEN, FULL) \
    LEAST(audit_title)      \
    LEAST(release)          \
    LEAST(verdict)          \
    SCREEN(simulated)       \
    SCREEN(identity)        \
    SCREEN(methods)         \
    SCREEN(scope)           \
    SCREEN(layers)          \
    SCREEN(values)          \
    SCREEN(thermal)         \
    SCREEN(climate)         \
    SCREEN(moisture)        \
    SCREEN(months)          \
    SCREEN(criteria)        \
    SCREEN(junctions)       \
    SCREEN(cross_check)     \
    SCREEN(directions)      \
    SCREEN(sensitivity)     \
    SCREEN(bars)            \
    SCREEN(map)             \
    SCREEN(map_drawn)       \
    SCREEN(surface)         \
    SCREEN(transient)       \
    SCREEN(frost)           \
    SCREEN(air_test)        \
    SCREEN(readings)        \
    SCREEN(readings_drawn)  \
    SCREEN(forecast)        \
    SCREEN(as_built)        \
    SCREEN(needed)          \
    SCREEN(audit_junctions) \
    SCREEN(hold_point)      \
    SCREEN(assumptions)     \
    SCREEN(working)         \
    SCREEN(sources)         \
    SCREEN(cautions)        \
    SCREEN(year)            \
    SCREEN(place)           \
    SCREEN(wood)            \
    SCREEN(mould)           \
    SCREEN(years)           \
    SCREEN(wetting)         \
    SCREEN(other_years)     \
    SCREEN(water)           \
    SCREEN(drying)          \
    SCREEN(membranes)       \
    SCREEN(hours)           \
    SCREEN(vapour)          \
    SCREEN(drawing)         \
    SCREEN(junctions_drawn) \
    SCREEN(digests)

#define PLAN(LEAST, SCREEN, FULL) \
    LEAST(plan_title)       \
    LEAST(plan)             \
    LEAST(plan_junctions)   \
    SCREEN(plan_wanted)     \
    SCREEN(plan_form)       \
    SCREEN(cautions)

#define HOUSE(LEAST, SCREEN, FULL) \
    LEAST(house_title)      \
    LEAST(house_release)    \
    LEAST(house_walls)      \
    SCREEN(house_open)      \
    SCREEN(house_identity)  \
    SCREEN(house_sign)      \
    SCREEN(cautions)        \
    SCREEN(digests)

#define COMPARE(LEAST, SCREEN, FULL) \
    LEAST(compare_title)    \
    LEAST(which)            \
    LEAST(compare_unlike)   \
    SCREEN(compare_equal)   \
    SCREEN(compare_brief)   \
    SCREEN(stresses)        \
    LEAST(compare_mind)     \
    FULL(compare_years)     \
    FULL(compare_drying)    \
    FULL(compare_table)     \
    FULL(sentences)         \
    FULL(compare_bars)      \
    FULL(cautions)          \
    SCREEN(where)           \
    LEAST(caution)          \
    LEAST(which_again)

#define MARGIN(LEAST, SCREEN, FULL) \
    LEAST(margin_title)     \
    LEAST(margin_answer)    \
    SCREEN(telling)         \
    LEAST(mind)             \
    FULL(cases)             \
    FULL(bars)              \
    FULL(unknowns)          \
    FULL(combination)       \
    FULL(map)               \
    FULL(map_drawn)         \
    FULL(ensemble)          \
    FULL(cautions)          \
    SCREEN(where)           \
    LEAST(caution)          \
    LEAST(verdict_again)

#define CHOOSE(LEAST, SCREEN, FULL) \
    LEAST(choose_title)     \
    LEAST(choose_answer)    \
    FULL(choose_drawn)      \
    SCREEN(choose_front)    \
    SCREEN(choose_findings) \
    FULL(choose_worst)      \
    SCREEN(choose_dropped)  \
    SCREEN(choose_held)     \
    LEAST(mind)             \
    FULL(cautions)          \
    SCREEN(where)           \
    LEAST(caution)          \
    LEAST(choose_again)

#define JUNCTION(LEAST, SCREEN, FULL) \
    LEAST(junction_title)    \
    LEAST(junction_verdict)  \
    SCREEN(junction_sense)   \
    SCREEN(junction_drawn)   \
    SCREEN(junction_surface) \
    SCREEN(junction_leaks)   \
    SCREEN(junction_air)     \
    SCREEN(junction_hours)   \
    SCREEN(junction_year)    \
    SCREEN(junction_water)   \
    SCREEN(junction_heat)    \
    SCREEN(junction_spots)   \
    FULL(junction_materials) \
    FULL(junction_criteria)  \
    SCREEN(junction_mind)    \
    FULL(cautions)           \
    LEAST(caution)

#define REPLAY(LEAST, SCREEN, FULL) \
    LEAST(replay_title)     \
    LEAST(replay_answer)    \
    LEAST(replay_doubts)    \
    SCREEN(replay_figures)  \
    SCREEN(replay_drawn)    \
    SCREEN(replay_months)   \
    SCREEN(replay_input)    \
    FULL(replay_inputs)     \
    SCREEN(replay_notes)    \
    FULL(replay_wall)       \
    FULL(cautions)          \
    LEAST(caution)

/* A row each: what it is called where it cannot be written, and on its page;
 * whether its text ends with a digest of what stands above; what the results
 * must hold. */
#define EVERY_DOCUMENT(DOCUMENT) \
    DOCUMENT(CHECK, "the report", "Moisture check", false, wall) \
    DOCUMENT(WALLS, "the list of walls", "Moisture check", false, wall) \
    DOCUMENT(AUDIT, "the audit sheet", "Audit sheet", true, wall && of->audit) \
    DOCUMENT(PLAN, "the plan", "Plan of evidence", false, wall && of->audit) \
    DOCUMENT(HOUSE, "the cover sheet", "Audit of a house", true, of->house) \
    DOCUMENT(COMPARE, "the comparison", "Comparison", false, of->comparison) \
    DOCUMENT(MARGIN, "the margin", "Margin", false, wall && of->margin) \
    DOCUMENT(CHOOSE, "the choice", "Choice", false, wall && of->chosen) \
    DOCUMENT(JUNCTION, "the report", "Junction", false, of->junction) \
    DOCUMENT(REPLAY, "the report", "Replay", false, of->replay)

/* clang-format on */

#endif
