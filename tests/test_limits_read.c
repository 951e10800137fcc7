/* Both ends of what an attribute may be: the end itself is read, what is just
 * beyond it is refused. Those of docs/input.md from there; the others are
 * regression values, for nothing outside says how tall a framed bay may be. */

#define FILE_OF_SUITE "limits-read-test.xml"
#include "input_case.h"
#include "suite.h"

typedef struct limit_row {
    const char *from, *before, *after; /* of the value, in the sound file */
    const char *below, *least, *most, *above; /* NULL: another rule is nearer */
} limit_row;

static const limit_row rows[] = {
    {"=\"SW\"", "=\"", " deg\"", "-0.1", "0", "360", "360.1"},
    {"faces=\"SW\"", "faces=\"SW\" height=\"", "\"", "0.499 m", "0.5 m",
     "500 m", "500.1 m"},
    {"=\"0.6\"", "=\"", "\"", "-0.01", "0", "1", "1.01"},
    {"=\"20 degC\"", "=\"", "\"", "-30.1 degC", "-30 degC", "60 degC",
     "60.1 degC"},
    {"humidity-class=\"3\"", "humidity-class=\"", "\"", "0", "1", "5", "6"},
    {"humidity-class=\"3\"", "relative-humidity=\"", "\"", "0.9 %", "1 %",
     "100 %", "100.1 %"},
    {"=\"45 mm\"", "=\"", "\"", "0.9 mm", "1 mm", NULL, NULL},
    {"=\"600 mm\"", "=\"", "\"", NULL, NULL, "10 m", "10.1 m"},
    {"width=\"45 mm\" spacing=\"600 mm\"", "fraction=\"", "\"", "0.009 %",
     "0.01 %", "99.99 %", "99.991 %"},
    {"=\"12.5 mm\"", "=\"", "\"", "0.049 mm", "0.05 mm", "3 m", "3.01 m"},
    {"=\"50 mm\"", "=\"", "\"", "0.49 mm", "0.5 mm", "2 m", "2.01 m"},
    {"ventilation=\"none\"", "ventilation=\"none\" emissivity=\"", "\"",
     "0.019", "0.02", "0.95", "0.951"},
    {"=\"3 m3/(m2.h)\"", "=\"", " m3/(m2.h)\"", "-0.1", "0", "100", "100.1"},
    {"=\"5 m\"", "=\"", " m\"", "0.09", "0.1", "200", "200.1"},
    {"=\"0.5 kg/m2\"", "=\"", " kg/m2\"", "0.0009", "0.001", "100", "100.1"},
    {"start-month=\"10\"", "start-month=\"", "\"", "0", "1", "12", "13"},
    {"=\"1 %\"", "=\"", " %\"", "-0.1", "0", "100", "100.1"},
    {"=\"18 %\"", "=\"", " %\"", "0.09", "0.1", NULL, NULL},
    {"=\"20 %\"", "=\"", " %\"", NULL, NULL, "300", "300.1"},
    {"=\"16.5 %\"", "=\"", " %\"", "-0.1", "0", "300", "300.1"},
    {"depth=\"20 mm\"", "depth=\"", "\"", "-1 mm", "0 mm", "1 m", "1.01 m"},
    {"depth=\"20 mm\"", "depth=\"20 mm\" wood-temperature=\"", "\"",
     "-40.1 degC", "-40 degC", "80 degC", "80.1 degC"},
    {"=\"0.8 m3/(m2.h)\"", "=\"", " m3/(m2.h)\"", "-0.1", "0", "100", "100.1"},
};

static bool is_read(const limit_row *row, const char *value)
{
    char to[128];
    bw_assembly *a = NULL;
    bw_error err = {0};
    snprintf(to, sizeof to, "%s%s%s", row->before, value, row->after);
    put_changed(row->from, to);
    const bw_status status = bw_assembly_read(&a, file_name, library, &err);
    unlink(file_name);
    bw_assembly_free(a);
    /* and says what may be */
    ck_assert_msg(status == BW_OK || strpbrk(err.message, "0123456789") != NULL,
                  "%s: %s", to, err.message);
    return status == BW_OK;
}

START_TEST(an_end_is_read_and_what_lies_beyond_it_is_not)
{
    const limit_row *row = &rows[_i];
    if (row->least != NULL) {
        ck_assert_msg(is_read(row, row->least), "%s%s", row->before,
                      row->least);
        ck_assert_msg(!is_read(row, row->below), "%s%s", row->before,
                      row->below);
    }
    if (row->most != NULL) {
        ck_assert_msg(is_read(row, row->most), "%s%s", row->before, row->most);
        ck_assert_msg(!is_read(row, row->above), "%s%s", row->before,
                      row->above);
    }
}
END_TEST

SUITE_AROUND("limits_read", read_library, free_library,
             EACH(an_end_is_read_and_what_lies_beyond_it_is_not, COUNT(rows)))
