#ifndef BOTHWAYS_AUDIT_H
#define BOTHWAYS_AUDIT_H

/** @file The reviewer's sheet: identity, evidence, hold point. */

#include "bothways/assessment.h"
#include "bothways/margin.h"

/** The decision on one member's moisture readings. */
typedef enum bw_reading_decision {
    BW_READING_ACCEPT,        /**< every reading at or below allowed */
    BW_READING_DRY_AND_READ,  /**< between allowed and critical */
    BW_READING_INSPECT,       /**< above critical: look for damage */
    BW_READING_NOT_EVIDENCED, /**< no readings, or no limit */
} bw_reading_decision;

BW_API const char *bw_reading_decision_text(bw_reading_decision decision);

typedef struct bw_member_decision {
    const char *member;
    size_t reading_count;
    double allowed, critical, highest; /**< kg/kg */
    double share_within;               /**< of readings at or below allowed */
    bool statistical_rule;             /**< >= 90 % within, rest within 0.02 */
    bw_reading_decision decision;
} bw_member_decision;

/** One input file and its fingerprint. */
typedef struct bw_input_file {
    const char *path;
    char sha256[65];
} bw_input_file;

/** One reason the hold point stays closed. */
typedef struct bw_open_item {
    const char *text;
} bw_open_item;

typedef struct bw_audit {
    const bw_assessment *assessment; /**< borrowed from the audit */
    const bw_margin *margin;         /**< borrowed; NULL if not run */
    const char *command_line;
    size_t file_count;
    const bw_input_file *file;
    bool air_test_evidenced;         /**< membrane-exposed, with leak search */
    const char *air_test_text;
    size_t member_count;
    const bw_member_decision *member;
    size_t open_count;
    const bw_open_item *open;
    bool released;                   /**< the hold point before closing up */
} bw_audit;

typedef struct bw_audit_options {
    bw_assessment_options assessment;
    const char *command_line;        /**< "" if not from a command */
    size_t file_count;
    const char *const *file;         /**< paths of every input read */
    bool no_margin;
    int threads;
} bw_audit_options;

BW_API bw_status bw_audit_make(bw_audit **out, const bw_assembly *assembly,
                               const bw_climate *climate,
                               const bw_audit_options *options, bw_error *err);

/** Frees an audit; NULL is allowed. */
BW_API void bw_audit_free(bw_audit *audit);

#endif
