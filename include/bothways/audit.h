#ifndef BOTHWAYS_AUDIT_H
#define BOTHWAYS_AUDIT_H

/** @file
 * The reviewer's sheet: identity, evidence, hold point.
 *
 * The hold point before closing up is released only if the verdict is neither
 * `fails` nor `not assessed`, all evidence that the wall asks for is there and
 * of its time, the interim air test is evidenced, every member is accepted by
 * its readings, and nothing that nobody has shown makes the wall fail within
 * its range. It never opens by knowing less: what is missing keeps it shut.
 */

#include "bothways/assessment.h"
#include "bothways/margin.h"
#include "bothways/profile.h"

BW_BEGIN_C

/** The decision on one member's moisture readings. */
typedef enum bw_reading_decision {
    BW_READING_ACCEPT,        /**< every reading at or below allowed */
    BW_READING_DRY_AND_READ,  /**< between allowed and critical */
    BW_READING_INSPECT,       /**< above critical: look for damage */
    BW_READING_NOT_EVIDENCED, /**< no readings, or no limit */
} bw_reading_decision;

/** "accept", "dry and read again", ...; never NULL. */
BW_API const char *bw_reading_decision_text(bw_reading_decision decision);

/** One member; the numbers are of the readings that count. */
typedef struct bw_member_decision {
    const char *member;
    bw_wall_part part;     /**< what of the wall it is; layer -1: nothing */
    size_t reading_count;  /**< that count */
    size_t earlier_count;  /**< kept in the log, superseded by a later one */
    bool has_limit;        /**< in the file */
    bool limit_looser;     /**< than the rule set's: the file's decides nothing */
    double file_allowed, file_critical; /**< kg/kg, as the file says */
    double allowed, critical; /**< kg/kg, that decide: of wood at most
                                   BW_WOOD_ALLOWED and BW_WOOD_CRITICAL */
    double highest;        /**< kg/kg */
    double share_within;               /**< of readings at or below allowed */
    bool statistical_rule;             /**< >= 90 % within, rest within 0.02:
                                shown beside the decision, releases nothing */
    bw_reading_decision decision;
} bw_member_decision;

/** When a reading was taken, against the interim air test. */
typedef enum bw_reading_when {
    BW_READ_NO_TEST, BW_READ_BEFORE_TEST, BW_READ_SAME_DAY, BW_READ_AFTER_TEST,
} bw_reading_when;

/** One reading of the log, in the order of the file. */
typedef struct bw_reading_entry {
    const bw_reading *reading; /**< borrowed from the assembly */
    bool counts;               /**< false: a later reading of the same member
                                    and place, at least as deep, counts */
    bw_reading_when when;
    bw_reading_decision decision; /**< of this reading alone */
} bw_reading_entry;

/** One input file and its fingerprint. */
typedef struct bw_input_file {
    const char *path;
    char sha256[65];
} bw_input_file;

/** What a reason to keep the hold point closed is. */
typedef enum bw_open_id {
    BW_OPEN_VERDICT,           /**< fails, or not assessed */
    BW_OPEN_NOT_SIMULATED,     /**< what sees leaking air was not run */
    BW_OPEN_AS_BUILT,          /**< it fails as built, in service */
    BW_OPEN_CHANGED,           /**< the file is not what was judged */
    BW_OPEN_NO_DATE,           /**< the sheet has none to count ages to */
    BW_OPEN_AIR_TEST,          /**< none, without search, leakier than assumed */
    BW_OPEN_AIR_IMPOSSIBLE,    /**< less than a test can find */
    BW_OPEN_AIR_UNATTRIBUTED,  /**< nobody, or no protocol, named */
    BW_OPEN_AIR_WORSE,         /**< a later test found more than an earlier one */
    BW_OPEN_CONTRADICTION,     /**< two of one day say different things */
    BW_OPEN_AHEAD,             /**< dated after the sheet */
    BW_OPEN_STALE,             /**< older than may be */
    BW_OPEN_BEFORE_WETTING,    /**< wet since */
    BW_OPEN_NO_MEMBER,         /**< nothing was read, nothing has a limit */
    BW_OPEN_MEMBER,            /**< one that is no layer or framing */
    BW_OPEN_NOT_EVIDENCED,     /**< a limit without reading, or the reverse */
    BW_OPEN_WET,               /**< above allowed */
    BW_OPEN_INSPECT,           /**< above critical */
    BW_OPEN_RULE_SET,          /**< above what the rule set allows */
    BW_OPEN_LIMIT_LOOSER,      /**< than the rule set's */
    BW_OPEN_READING_IMPOSSIBLE, /**< drier than a meter tells */
    BW_OPEN_DEPTH,             /**< deeper than the member */
    BW_OPEN_UNATTRIBUTED,      /**< no meter or no reader named */
    BW_OPEN_RAW,               /**< uncorrected, and nothing to correct it by */
    BW_OPEN_JUMP,              /**< too fast to be drying, not explained */
    BW_OPEN_REFERENCE,         /**< evidence without one, or one twice */
    BW_OPEN_NEED_LIMIT, BW_OPEN_NEED_READINGS, BW_OPEN_NEED_PHOTOGRAPH,
    BW_OPEN_NEED_INSPECTION, BW_OPEN_NEED_BARRIER,
    BW_OPEN_NEED_CAVITY,       /**< of the list of what is needed, missing */
    BW_OPEN_MEASURED,          /**< called measured, without a source */
    BW_OPEN_ASSUMED,           /**< the verdict rests on it */
    BW_OPEN_UNKNOWN,           /**< a layer that nothing is known of */
    BW_OPEN_COUNT,
} bw_open_id;

/** "verdict", "air-test", ...: part of the contract; never NULL. */
BW_API const char *bw_open_id_text(bw_open_id id);

/** One reason the hold point stays closed. */
typedef struct bw_open_item {
    bw_open_id id;
    const char *text;
} bw_open_item;

/** What evidence is needed of. */
typedef enum bw_need_kind {
    BW_NEED_LIMIT,      /**< allowed and critical moisture of a member */
    BW_NEED_READINGS,   /**< its moisture at the wettest places */
    BW_NEED_PHOTOGRAPH, /**< of it where it is read */
    BW_NEED_INSPECTION, /**< it was above critical: damage looked for */
    BW_NEED_AIR_TEST,   /**< with leak search while the barrier is exposed */
    BW_NEED_BARRIER,    /**< a photograph of its joints and penetrations */
    BW_NEED_CAVITY,     /**< a photograph: clear from foot to head */
    BW_NEED_LAYER,      /**< that it is what is drawn */
} bw_need_kind;

/** "limit", "readings", ...: part of the contract; never NULL. */
BW_API const char *bw_need_kind_text(bw_need_kind kind);

/** One piece of evidence that this wall asks for before it is closed. Known
 *  before work starts. */
typedef struct bw_need {
    bw_need_kind kind;
    bw_wall_part part;   /**< of what; layer -1: of the wall */
    const char *of;      /**< the same in words */
    const char *what;    /**< to do */
    const char *where;   /**< "" or the places */
    const char *why;
    const char *form;    /**< how the file says it */
    bool required;       /**< missing, it keeps the hold point closed; else what
                              it would show is varied */
    bool present;
    const char *lacks;   /**< "" or what is missing */
} bw_need;

/** Allowed and critical moisture of wood, kg/kg, where a file's limit is looser
 *  or missing: 18 %, as the US programme and New Zealand ask at lining (after
 *  AS 2589), and 20 %, below which NHBC 6.2.12 asks the framing to be; all [S],
 *  seen as quoted by others. */
#define BW_WOOD_ALLOWED 0.18
#define BW_WOOD_CRITICAL 0.20

/** How old evidence may be at the date of the sheet, days: common practice
 *  without a source. */
enum { BW_READING_DAYS = 14, BW_TEST_DAYS = 90 };

/** Places of each member with wood that are read at least: three points a stud,
 *  as builders do [S]. */
enum { BW_PLACES_LEAST = 3 };

/** One line of the sensitivity. */
typedef struct bw_audit_unknown {
    const bw_unknown *unknown; /**< borrowed from the margin */
    bool assumed;              /**< nobody looked or measured */
    bool decides;              /**< within its range the wall starts to fail */
} bw_audit_unknown;

/** A change that makes the wall as drawn the wall as built, in service. */
typedef struct bw_as_built_change {
    const char *change, *why;
    bool decides; /**< at the hold point: the site can still answer it */
} bw_as_built_change;

/** A criterion that decides in either run; NULL: not judged in that one. */
typedef struct bw_as_built_row {
    const bw_criterion *drawn, *built; /**< borrowed */
} bw_as_built_row;

/** The wall as built, in service: its cavities blocked, wet at the start, as
 *  leaky as tested, its room a step damper. */
typedef struct bw_as_built {
    size_t change_count;
    const bw_as_built_change *change;
    const bw_assessment *assessment; /**< with all changes; NULL: not run */
    const bw_assessment *deciding;   /**< with those alone that decide; NULL:
                                          the other tells all */
    size_t row_count;
    const bw_as_built_row *row;
    const char *closes;              /**< why it keeps the hold point closed;
                                          NULL: it does not */
    const char *spares;              /**< why, though it fails, it does not;
                                          NULL */
} bw_as_built;

/** What a reading by resistance may be wrong by [kg/kg]: 2 points of moisture
 *  (common practice, no source). */
#define BW_METER_ERROR 0.02

/** How a member is left to dry. */
typedef enum bw_site_way {
    BW_SITE_CLOSED, /**< as drawn, its room in use */
    BW_SITE_OPEN,   /**< without the layers on its room side, before the room is
                         heated: air as outside, month by month, rain kept off */
    BW_SITE_HEATED, /**< the same in the room's own air */
    BW_SITE_WAYS
} bw_site_way;

/** "closed as drawn", ...; never NULL. */
BW_API const char *bw_site_way_text(bw_site_way way);

/** When a member that was read will be below its limit. */
typedef struct bw_drying_forecast {
    const char *member;
    bw_wall_part part;
    const bw_reading *reading; /**< the highest that counts, from whose day on
                                    days are counted */
    double moisture, allowed;  /**< kg/kg */
    bool dry;                  /**< it is, by more than the meter's error:
                                    nothing was simulated */
    const char *reason;        /**< NULL, or why nothing was */
    const char *way_reason[BW_SITE_WAYS]; /**< NULL, or why not this way */
    double days[BW_SITE_WAYS][3]; /**< for the reading less its error, as it is,
                                    and with the error on top; -1: not within
                                    a year */
} bw_drying_forecast;

typedef struct bw_audit {
    const bw_assessment *assessment; /**< borrowed from the audit */
    const bw_margin *margin;         /**< borrowed; NULL if not run */
    const bw_profile *profile;       /**< never NULL; borrowed from the
                                          caller */
    const char *command_line;
    const char *date;                /**< "" if not given */
    size_t file_count;
    const bw_input_file *file;
    const bw_air_test *air_test;     /**< the latest interim one, the worst of
                                          its day, or NULL */
    bool air_test_evidenced;         /**< membrane-exposed, with leak search,
                                          no leakier than assumed */
    const char *air_test_text;       /**< what there is, or what is missing */
    double computed_q50;             /**< m3/(m2 s), with the test's
                                          uncertainty, that the wall was
                                          computed with in the place of what the
                                          file assumes; 0: as the file assumes */
    size_t member_count;
    const bw_member_decision *member;
    size_t reading_count;
    const bw_reading_entry *reading;
    size_t unknown_count;            /**< those that decide and are assumed
                                          first, then those that decide */
    const bw_audit_unknown *unknown;
    bw_as_built as_built;
    size_t forecast_count;           /**< members with a limit that were read */
    const bw_drying_forecast *forecast;
    size_t need_count;
    const bw_need *need;             /**< in the order of work */
    size_t open_count;
    const bw_open_item *open;
    bool plan;                       /**< made before work: no open items */
    bool released;                   /**< the hold point before closing up */
} bw_audit;

typedef struct bw_audit_options {
    bw_assessment_options assessment;
    const char *command_line;        /**< "" or NULL: not from a command */
    const char *date;                /**< of the sheet, to which ages are
                                          counted; "" or NULL: none, and what
                                          has an age keeps it closed */
    size_t file_count;
    const char *const *file;         /**< paths of every input read; NULL: those
                                          the assembly, its materials, the
                                          climate and the profile were read
                                          from */
    bool no_margin;
    bool plan;                       /**< only what is needed: the monthly
                                          method, no margin, and nothing is
                                          said of the hold point */
    const char *name;                /**< of a house; "" or NULL: none */
} bw_audit_options;

/** One wall of a house: what the cover sheet says of it. */
typedef struct bw_house_wall {
    const bw_assembly *assembly; /**< borrowed from the caller */
    bw_verdict verdict;
    const char *verdict_reason;
    size_t open_count;
    const bw_open_item *open;
    bool released;
    size_t file_count;
    const bw_input_file *file;
} bw_house_wall;

/** The walls of a house, each audited by itself. */
typedef struct bw_house {
    const char *name;
    const char *command_line;
    const char *date;          /**< "" if not given */
    const bw_profile *profile; /**< never NULL; borrowed from the caller */
    size_t wall_count;
    const bw_house_wall *wall; /**< in the order given */
    size_t released_count;
    bool released;             /**< every wall is, and there is one */
    size_t file_count;
    const bw_input_file *file; /**< of all walls, each once */
} bw_house;

/** Audits walls one by one, on so many threads as the options say; of each
 *  only what stands in bw_house_wall is kept.
 *  @return as bw_audit_make, for the first wall that fails: then there is no
 *          house. BW_ERR_INPUT also where a file was changed meanwhile */
BW_API bw_status bw_house_make(bw_house **out,
                               const bw_assembly *const *assembly,
                               const bw_climate *const *climate, size_t count,
                               const bw_audit_options *options,
                               bw_error *err);

/** Frees it; NULL is allowed. */
BW_API void bw_house_free(bw_house *house);

/** What became of one file that a sheet names. */
typedef enum bw_digest_state {
    BW_DIGEST_SAME,
    BW_DIGEST_CHANGED,
    BW_DIGEST_MISSING, /**< or not to be read; `why` says so */
} bw_digest_state;

/** One file that a sheet names. */
typedef struct bw_digest {
    const char *path;
    char sha256[65]; /**< when the sheet was made */
    bw_digest_state state;
    const char *why; /**< "" where it could be read */
} bw_digest;

/** A sheet read back. */
typedef struct bw_verification {
    const char *sheet;     /**< its path */
    bool is_list;          /**< a list of digests, beside a sheet: whether the
                                list itself was edited it cannot tell */
    bool edited;           /**< the sheet is not what was written */
    const char *program;   /**< the version that made it */
    bool other_program;    /**< than this one */
    size_t digest_count;
    const bw_digest *digest;
    size_t changes;        /**< files changed or missing, the sheet edited, the
                                version another; 0: all is as it was */
} bw_verification;

/** Reads a sheet that was written as text, or the list of digests beside one,
 *  and every file it names, by the paths as they stand there: from the folder
 *  in which it was made. A digest is no signature: who changes a sheet can
 *  make a new one for it.
 *  @return BW_OK, also where something changed; BW_ERR_INPUT: not a sheet, or
 *          one that names what no sheet does (a control character, more than
 *          4096 bytes, a file twice); BW_ERR_IO, BW_ERR_MEMORY */
BW_API bw_status bw_audit_verify(bw_verification **out, const char *path,
                                 bw_error *err);

/** Frees it; NULL is allowed. */
BW_API void bw_verification_free(bw_verification *verification);

/** @param options NULL: the defaults
 *  @return BW_OK; BW_ERR_INPUT: a file cannot be read any more, a member's
 *          critical moisture is below its allowed one, or the date is no day;
 *          what bw_assess and
 *          bw_margin_make say */
BW_API bw_status bw_audit_make(bw_audit **out, const bw_assembly *assembly,
                               const bw_climate *climate,
                               const bw_audit_options *options, bw_error *err);

/** Frees an audit; NULL is allowed. */
BW_API void bw_audit_free(bw_audit *audit);

BW_END_C

#endif
