#ifndef BOTHWAYS_AUDIT_H
#define BOTHWAYS_AUDIT_H

/** @file
 * The reviewer's sheet: identity, evidence, hold point.
 *
 * The hold point before closing up is released only if the verdict is neither
 * `fails` nor `not assessed`, the interim air test is evidenced, every member
 * is accepted by its readings, and nothing that is only assumed makes the wall
 * fail within its range. Missing evidence never passes.
 */

#include "bothways/assessment.h"
#include "bothways/margin.h"
#include "bothways/profile.h"
#include "bothways/report.h"

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
    size_t reading_count;  /**< that count */
    size_t earlier_count;  /**< kept in the log, superseded by a later one */
    bool has_limit;
    double allowed, critical, highest; /**< kg/kg */
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

/** One reason the hold point stays closed. */
typedef struct bw_open_item {
    const char *text;
} bw_open_item;

/** One line of the sensitivity. */
typedef struct bw_audit_unknown {
    const bw_unknown *unknown; /**< borrowed from the margin */
    bool assumed;              /**< nobody looked or measured */
    bool decides;              /**< within its range the wall starts to fail */
} bw_audit_unknown;

typedef struct bw_audit {
    const bw_assessment *assessment; /**< borrowed from the audit */
    const bw_margin *margin;         /**< borrowed; NULL if not run */
    const bw_profile *profile;       /**< never NULL */
    const char *command_line;
    const char *date;                /**< "" if not given */
    size_t file_count;
    const bw_input_file *file;
    const bw_air_test *air_test;     /**< the latest interim one, or NULL */
    bool air_test_evidenced;         /**< membrane-exposed, with leak search,
                                          no leakier than assumed */
    const char *air_test_text;       /**< what there is, or what is missing */
    size_t member_count;
    const bw_member_decision *member;
    size_t reading_count;
    const bw_reading_entry *reading;
    size_t unknown_count;            /**< those that decide and are assumed
                                          first, then those that decide */
    const bw_audit_unknown *unknown;
    size_t open_count;
    const bw_open_item *open;
    bool released;                   /**< the hold point before closing up */
} bw_audit;

typedef struct bw_audit_options {
    bw_assessment_options assessment;
    const char *command_line;        /**< "" or NULL: not from a command */
    const char *date;                /**< of the sheet; "" or NULL: left blank */
    size_t file_count;
    const char *const *file;         /**< paths of every input read; NULL: those
                                          the assembly, its materials and the
                                          climate were read from */
    bool no_margin;
    int threads;
} bw_audit_options;

/** @param options NULL: the defaults
 *  @return BW_OK; BW_ERR_INPUT: a file cannot be read any more, or a member's
 *          critical moisture is below its allowed one; what bw_assess and
 *          bw_margin_make say */
BW_API bw_status bw_audit_make(bw_audit **out, const bw_assembly *assembly,
                               const bw_climate *climate,
                               const bw_audit_options *options, bw_error *err);

/** Frees an audit; NULL is allowed. */
BW_API void bw_audit_free(bw_audit *audit);

/** The sheet as text. */
BW_API bw_status bw_report_audit_text(const bw_audit *audit,
                                      const bw_report_options *options,
                                      bw_sink *sink, void *payload,
                                      bw_error *err);

/** The same as one HTML page, as bw_report_html does. */
BW_API bw_status bw_report_audit_html(const bw_audit *audit,
                                      const bw_report_options *options,
                                      bw_sink *sink, void *payload,
                                      bw_error *err);

BW_END_C

#endif
