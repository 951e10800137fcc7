#ifndef BW_TESTS_CASE_QUANTITY_H
#define BW_TESTS_CASE_QUANTITY_H

/* What a case may expect: names, units, and of what result they are members. */

#include "case_run.h"

/* value in SI = (value - zero) * factor; of one kind the SI unit is first. */
typedef struct case_unit {
    const char *name, *kind;
    double factor, zero;
} case_unit;

/* What a value is a member of: says which place and time it needs, too. */
typedef enum case_origin {
    OF_ELEMENT, /* ISO 6946 */
    OF_PATH,    /* of that, by place: between-studs, through-stud */
    OF_WALL,    /* the monthly method */
    OF_FACE,    /* place: a face */
    OF_CHOICE,  /* place: a face: whether it is the plane of that index */
    OF_MONTH,   /* place: a face; when: a month */
    OF_LAYER,   /* place: a layer; when: a month: its sd */
    OF_SLAB,    /* place: a layer */
    OF_DRYING,  /* place: both-ways, outwards, inwards */
    OF_PERIOD,  /* the period balance */
    OF_EDGE,    /* place: a face */
    OF_SURFACE, /* of the room */
    OF_SURFACE_MONTH,
    OF_SIMULATION,
    OF_MONITOR, /* place: a face */
    OF_MONITOR_MONTH,
    OF_STORE, /* place: a layer */
    OF_STORE_MONTH,
    OF_HOUR, /* when: 100 h or 7 d after the start */
    OF_AIR,  /* place: a temperature or pressure, by name */
} case_origin;

/* As what it stands there. */
typedef enum case_form {
    NUMBER,
    YES_NO,
    MONTH,
    WORD,
    COUNTED,
    WHOLE
} case_form;

typedef struct case_quantity {
    const char *name, *kind;
    case_origin of;
    case_form as;
    size_t offset;
} case_quantity;

/* A row on its way to an answer. */
typedef struct case_request {
    case_run *run;
    const case_row *row;
    const case_quantity *quantity;
    int month;
    double hour;
    double air;  /* of OF_AIR */
    bool chosen; /* of OF_CHOICE */
} case_request;

/* "0.0034 kg/m2": a number and a unit of that kind. */
bool case_number(double *out, const case_unit **unit, const char *text,
                 const char *kind);

/* The i-th name that a case may expect; NULL behind the last. */
const char *case_quantity_name(size_t i);

/* NULL: told, with the nearest name. */
const case_quantity *case_find_quantity(case_run *run, const case_row *row);

/* Adds a fault of the row. Returns false. */
bool case_request_fault(const case_request *q, const char *what);

/* The member that the row asks for; NULL: told. */
const void *case_value(case_request *q);

/* Reads the time of a row, and refuses a place or time that is missing or says
 * nothing. */
bool case_request_read(case_request *q);

#endif
