/* Several faults of one assembly file, told in one run. */

#define FILE_OF_SUITE "test-faults.xml"
#include "input_case.h"

#include "bothways/edit.h"
#include "suite.h"

static bw_faults faults;
static bw_error first;

static bw_status read_again(void)
{
    bw_assembly *a = NULL;
    bw_status status = bw_assembly_read_faults(&a, file_name, library, NULL, 0,
                                               &faults, &first);
    unlink(file_name);
    ck_assert((status == BW_OK) == (a != NULL));
    bw_assembly_free(a);
    return status;
}

static void expect(size_t i, long line, const char *fragment)
{
    ck_assert_uint_lt(i, faults.count);
    const bw_error *f = &faults.fault[i];
    ck_assert_str_eq(f->file, file_name);
    ck_assert_msg(f->line == line && strstr(f->message, fragment) != NULL,
                  "%zu: line %ld: %s", i, f->line, f->message);
}

START_TEST(a_sound_file_has_no_fault)
{
    put_changed("id=\"test\"", "id=\"test\"");
    ck_assert_int_eq(read_again(), BW_OK);
    ck_assert_uint_eq(faults.count, 0);
    ck_assert_uint_eq(faults.more, 0);
}
END_TEST

START_TEST(faults_of_all_elements_are_told_by_line)
{
    static const char text[] =
        "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"test\">\n"
        "<air-leakage q50=\"3\" connected-height=\"5 m\"/>\n"
        "<outdoors driving-rain=\"heavy\" height=\"5 ft\"/>\n"
        "<indoors temperature=\"20 degC\" humidity-class=\"7\"/>\n"
        "<layers listed=\"inside-outside\">\n"
        "<layer material=\"gypsum-tset\" thickness=\"0.5 in\"/>\n"
        "<cavity thickness=\"30\" ventilation=\"strong\"/>\n"
        "<layer material=\"test-board\"/>\n"
        "</layers>\n</assembly>\n";
    put(file_name, text, sizeof text - 1);
    ck_assert_int_eq(read_again(), BW_ERR_INPUT);
    expect(0, 2, "q50=\"3\" has no unit");
    expect(1, 3, "height=\"5 ft\"");
    expect(2, 3, "driving-rain=\"heavy\" is not known");
    expect(3, 4, "humidity-class=\"7\"");
    expect(4, 5, "did you mean inside-to-outside");
    expect(5, 6, "did you mean gypsum-test");
    expect(6, 6, "thickness=\"0.5 in\"");
    expect(7, 7, "thickness=\"30\" has no unit");
    expect(8, 7, "ventilation=\"strong\" is not known");
    expect(9, 8, "has no thickness=");
    ck_assert_uint_eq(faults.count, 10);
    ck_assert_uint_eq(faults.more, 0);
    ck_assert_str_eq(first.message, faults.fault[0].message);
}
END_TEST

/* mu-wet= wants a mu= beside it: one that is wrong is there, all the same. */
START_TEST(a_fault_makes_no_second_one_of_its_own)
{
    put_changed("thickness=\"20 mm\"",
                "thickness=\"20 mm\" mu=\"x\" mu-wet=\"3\"");
    ck_assert_int_eq(read_again(), BW_ERR_INPUT);
    ck_assert_uint_eq(faults.count, 1);
    expect(0, 6, "mu=\"x\"");
}
END_TEST

START_TEST(what_refers_to_a_faulty_layer_is_still_read)
{
    put_changed("thickness=\"20 mm\"", "thickness=\"20\"");
    ck_assert_int_eq(read_again(), BW_ERR_INPUT);
    ck_assert_uint_eq(faults.count, 1);
    expect(0, 6, "thickness=\"20\" has no unit");
}
END_TEST

START_TEST(a_file_that_is_no_wall_has_one_fault)
{
    put(file_name, "<wall/>", 7);
    ck_assert_int_eq(read_again(), BW_ERR_INPUT);
    ck_assert_uint_eq(faults.count, 1);
    ck_assert_str_eq(first.message, faults.fault[0].message);
}
END_TEST

START_TEST(beyond_twenty_faults_are_counted)
{
    char many[40 * 40] = "";
    for (int i = 0; i < 25; i++)
        strcat(many, "<membrane name=\"m\" sd=\"1\"/>");
    put_changed("<membrane id=\"foil\" material=\"test-foil\"/>", many);
    ck_assert_int_eq(read_again(), BW_ERR_INPUT);
    ck_assert_uint_eq(faults.count, BW_MOST_FAULTS);
    ck_assert_uint_eq(faults.more, 5);
}
END_TEST

START_TEST(an_element_of_nothing_but_slips_comes_to_an_end)
{
    char many[2048] = "<membrane ";
    for (int i = 0; i < 60; i++)
        snprintf(many + strlen(many), sizeof many - strlen(many), "x%d=\"\" ",
                 i);
    strcat(many, "/>");
    put_changed("<membrane id=\"foil\" material=\"test-foil\"/>", many);
    ck_assert_int_eq(read_again(), BW_ERR_INPUT);
    ck_assert_uint_eq(faults.count, BW_MOST_FAULTS);
}
END_TEST

/* Every byte of the sound file spoilt: with one fault or all, refused alike. */
START_TEST(one_fault_and_all_refuse_the_same_files)
{
    char text[sizeof sound];
    static const char spoil[] = {'"', '9', '-', 'x', '\x01'};
    for (size_t i = 0; i + 1 < sizeof sound; i += 2) {
        bw_assembly *a = NULL;
        bw_error err = {0};
        memcpy(text, sound, sizeof sound);
        text[i] = spoil[i / 2 % sizeof spoil];
        put(file_name, text, sizeof sound - 1);
        bw_status status = bw_assembly_read(&a, file_name, library, &err);
        ck_assert_int_eq(read_again(), status);
        ck_assert((status == BW_OK) == (faults.count == 0));
        bw_assembly_free(a);
    }
}
END_TEST

SUITE_AROUND("every_fault", read_library, free_library,
             FACT(a_sound_file_has_no_fault),
             FACT(faults_of_all_elements_are_told_by_line),
             FACT(a_fault_makes_no_second_one_of_its_own),
             FACT(what_refers_to_a_faulty_layer_is_still_read),
             FACT(a_file_that_is_no_wall_has_one_fault),
             FACT(beyond_twenty_faults_are_counted),
             FACT(an_element_of_nothing_but_slips_comes_to_an_end),
             FACT(one_fault_and_all_refuse_the_same_files))
