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

/* A room by its months, the first of them open; choices of the batt. */
#define FROM_ROOM "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>"
#define ROOM_OF "<indoors><month "
#define MONTH(n)                                                               \
    "<month number=\"" n                                                       \
    "\" temperature=\"20 degC\" relative-humidity=\"50 %\"/>"
#define MONTHS                                                                 \
    "/>" MONTH("2") MONTH("3") MONTH("4") MONTH("5") MONTH("6") MONTH("7")     \
        MONTH("8") MONTH("9") MONTH("10") MONTH("11") MONTH("12") "</indoors>"
#define CHOOSE "<choices><choice layer=\"bay\"><option/></choice>"
#define BATT                                                                   \
    "<layer material=\"test-batt\"/></option></choice></choices></assembly>"
#define PRICED                                                                 \
    "<choices currency=\"EUR\"><choice layer=\"bay\"><option price=\"1 /m2\" " \
    "price-source=\"s\"/></choice>"

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
    {"faces=\"SW\"", "faces=\"SW\" tilt=\"", " deg\"", "-0.1", "0", "180",
     "180.1"},
    {"faces=\"SW\"", "emissivity=\"", "\"", "-0.01", "0", "1", "1.01"},
    {"faces=\"SW\"", "surface-resistance=\"", " m2.K/W\"", "0.0099", "0.01",
     "1", "1.01"},
    {"faces=\"SW\"", "rain-share=\"", " %\"", "0.99", "1", "100", "100.1"},
    {"humidity-class=\"3\"", "humidity-class=\"3\" surface-resistance=\"",
     " m2.K/W\"", "0.0099", "0.01", "2", "2.01"},
    {"date=\"2031-05-02\"", "date=\"2031-05-02\" uncertainty=\"", " %\"",
     "-0.1", "0", "100", "100.1"},
    /* neither below the other */
    {"critical=\"20 %\"", "critical=\"", " %\"", "17.9", "18", NULL, NULL},
    {"=\"45 mm\" spacing=\"600 mm\"", "=\"45 mm\" spacing=\"", " mm\"", "45",
     "45.1", NULL, NULL},
    {"=\"45 mm\" spacing=\"600 mm\"", "=\"1 mm\" spacing=\"", " mm\"", "9.9",
     "10", NULL, NULL},
    {"=\"45 mm\" spacing=\"600 mm\"", "=\"", " m\" spacing=\"10 m\"", NULL,
     NULL, "2", "2.01"},
    /* no deeper than the layer that it stands in */
    {"spacing=\"600 mm\"", "spacing=\"600 mm\" depth=\"", " mm\"", "0.9", "1",
     "90", "90.1"},
    {"=\"9 mm\"", "=\"", " mm\"", "0.049", "0.05", "3000", "3001"},
    {"=\"90 mm\"", "=\"90 mm\" resistance=\"", " m2.K/W\"", "-0.1", "0", "100",
     "100.1"},
    {"=\"90 mm\"", "=\"90 mm\" sold-thicknesses=\"", " m\"", "0.0009", "0.001",
     "3", "3.01"},
    {"=\"90 mm\"", "=\"90 mm\" initial-relative-humidity=\"", " %\"", "-0.1",
     "0", "100", "100.1"},
    {"=\"90 mm\"", "=\"90 mm\" initial-moisture=\"", " kg/kg\"", "-0.1", "0",
     "10", "10.1"},
    /* ISO 6946: 500 to 1500 mm2/m are slightly ventilated */
    {"=\"none\"", "=\"slight\" openings=\"", " mm2/m\"", "499", "500", "1500",
     "1501"},
    {"=\"none\"", "=\"none\" openings=\"", " mm2/m\"", "-1", "0", "1000000",
     "1000001"},
    {"=\"none\"", "=\"none\" resistance=\"", " m2.K/W\"", "-0.1", "0", "10",
     "10.1"},
    {"=\"none\"", "=\"none\" filled-with=\"test-timber\" blocked=\"", " %\"",
     "0.0099", "0.01", "99.99", "99.991"},
    {"=\"none\"", "=\"well\" air-change=\"", " 1/h\"", "-0.1", "0", "3600",
     "3601"},
    {"=\"50 mm\" ventilation=\"none\"", "=\"", " mm\" ventilation=\"well\"",
     "9.8", "10", NULL, NULL},
    {FROM_ROOM, ROOM_OF "number=\"",
     "\" temperature=\"20 degC\" relative-humidity=\"50 %\"" MONTHS, "0", "1",
     NULL, "13"},
    {FROM_ROOM,
     ROOM_OF "number=\"1\" relative-humidity=\"50 %\" temperature=\"",
     " degC\"" MONTHS, "-30.1", "-30", "60", "60.1"},
    {FROM_ROOM,
     ROOM_OF "number=\"1\" temperature=\"20 degC\" relative-humidity=\"",
     " %\"" MONTHS, "0.9", "1", "100", "100.1"},
    /* saturation at 20 degC: 610.5 exp(17.269 x 20 / 257.3) = 2336.9 Pa (ISO
       13788) */
    {FROM_ROOM,
     ROOM_OF "number=\"1\" temperature=\"20 degC\" vapour-pressure=\"",
     " Pa\"" MONTHS, "0.9", "1", "2336", "2338"},
    {"</assembly>", CHOOSE "<limits thickness=\"",
     " m\"/></choices></assembly>", "0.0000009", "0.000001", "10", "10.1"},
    {"</assembly>", CHOOSE "<limits u=\"", " W/(m2.K)\"/></choices></assembly>",
     "0.0000009", "0.000001", "20", "20.1"},
    {"</assembly>", CHOOSE "<weights u=\"", "\"/></choices></assembly>", "-0.1",
     "0.1", "1000000", "1000001"},
    {"</assembly>", "<choices><choice layer=\"bay\"><option thicknesses=\"",
     " m\">" BATT, "0.000049", "0.00005", "3", "3.01"},
    {"</assembly>",
     "<choices><choice layer=\"bay\"><option thickness-to=\"3 m\" "
     "thickness-step=\"3 m\" thickness-from=\"",
     " m\">" BATT, "0.000049", "0.00005", "3", "3.01"},
    {"</assembly>",
     "<choices><choice layer=\"bay\"><option thickness-from=\"0.05 mm\" "
     "thickness-step=\"1 m\" thickness-to=\"",
     " m\">" BATT, "0.000049", "0.00005", "3", "3.01"},
    {"</assembly>",
     "<choices><choice layer=\"bay\"><option thickness-from=\"1 mm\" "
     "thickness-to=\"1 mm\" thickness-step=\"",
     " m\">" BATT, "0.000049", "0.00005", "3", "3.01"},
    {"</assembly>",
     "<choices currency=\"EUR\"><choice layer=\"bay\"><option "
     "price-source=\"s\" price=\"",
     " /m2\"/></choice></choices></assembly>", NULL, NULL, "1000000",
     "1000001"},
    {"</assembly>",
     "<choices currency=\"EUR\"><choice layer=\"bay\"><option "
     "price-source=\"s\" price=\"",
     " /m2\"/></choice></choices></assembly>", "-1000001", "-1000000", NULL,
     NULL},
    {"</assembly>",
     "<choices currency=\"EUR\"><choice layer=\"bay\"><option "
     "price-source=\"s\" price-by-volume=\"",
     " /m3\"/></choice></choices></assembly>", "-1000001", "-1000000",
     "1000000", "1000001"},
    {"</assembly>", PRICED "<limits price=\"", " /m2\"/></choices></assembly>",
     "0.0000009", "0.000001", "1000000000", "1000000001"},
};

static bool is_read(const limit_row *row, const char *value)
{
    char to[2048];
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
