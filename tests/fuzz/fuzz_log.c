/* A logger's record. A day has 24 rows and more, too many to mutate: with '+'
 * as first byte, the lines from the first that holds @D on are repeated for
 * three days, @D @H in them the day and the hour. What is read is replayed
 * against an invented wall, and every output of it holds numbers. */

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bothways/bothways.h"
#include "fuzz.h"

enum { MOST_ROWS = 8, MOST_BYTES = 4096, HOURS = 72, MOST_TEXT = 1 << 20 };

static const char WALL[] =
    "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"invented\"><outdoors/>"
    "<indoors temperature=\"20 degC\" humidity-class=\"2\"/>"
    "<layers listed=\"outside-to-inside\">"
    "<layer id=\"face\" name=\"f\" kind=\"mineral\" thickness=\"50 mm\" "
    "lambda=\"1 W/(m.K)\" mu=\"20\" density=\"1700 kg/m3\" "
    "specific-heat=\"1000 J/(kg.K)\"/>"
    "<cavity id=\"gap\" thickness=\"30 mm\" ventilation=\"well\"/>"
    "<layer id=\"a\" name=\"a\" kind=\"mineral-wool\" thickness=\"50 mm\" "
    "lambda=\"0.04 W/(m.K)\" mu=\"1\" density=\"20 kg/m3\" "
    "specific-heat=\"1000 J/(kg.K)\"/>"
    "<layer id=\"b\" name=\"b\" kind=\"mineral-wool\" thickness=\"50 mm\" "
    "lambda=\"0.1 W/(m.K)\" mu=\"20\" density=\"20 kg/m3\" "
    "specific-heat=\"1000 J/(kg.K)\"/>"
    "</layers></assembly>";

static bool swallow(void *payload, const char *bytes, size_t length)
{
    *(size_t *)payload += length;
    return bytes != NULL;
}

static void check_log(const bw_log *log)
{
    FUZZ_REQUIRE(log->count >= 2 && log->channel_count <= BW_LOG_CHANNELS);
    for (size_t i = 0; i < log->count; i++) {
        FUZZ_REQUIRE(i == 0 || log->time[i] > log->time[i - 1]);
        FUZZ_REQUIRE(log->line[i] > log->header_line);
    }
    for (size_t c = 0; c < log->channel_count; c++) {
        const bw_log_channel *of = &log->channel[c];
        FUZZ_REQUIRE(of->has_temperature || of->has_humidity);
        for (size_t i = 0; of->has_temperature && i < log->count; i++)
            FUZZ_REQUIRE(isnan(of->theta[i]) ||
                         (of->theta[i] >= -60 && of->theta[i] <= 90));
        for (size_t i = 0; of->has_humidity && i < log->count; i++)
            FUZZ_REQUIRE(isnan(of->rh[i]) ||
                         (of->rh[i] >= 0 && of->rh[i] <= 1.05));
    }
}

static void check_replay(const bw_replay *replay)
{
    const bw_results results = {.replay = replay};
    size_t length = 0;
    FUZZ_REQUIRE(replay->compared <= replay->hour_count);
    for (size_t p = 0; p < replay->place_count; p++)
        for (size_t h = 0; h < replay->hour_count; h++) {
            FUZZ_REQUIRE(isfinite(replay->place[p].hour[h].theta_computed));
            FUZZ_REQUIRE(isfinite(replay->place[p].hour[h].rh_computed));
        }
    for (int form = BW_FORM_TEXT; form <= BW_FORM_PAGE; form++)
        FUZZ_REQUIRE(bw_report(&results, BW_DOCUMENT_REPLAY, (bw_form)form,
                               NULL, swallow, &length, NULL) == BW_OK);
    FUZZ_REQUIRE(bw_report_json(&results, swallow, &length, NULL) == BW_OK);
}

/* Read once; the shipped library has nothing to do with the wall. */
static const bw_assembly *the_wall(void)
{
    static bw_library *library;
    static bw_assembly *wall;
    static const char *const path[] = {BW_SOURCE_DIR "/materials"};
    if (wall == NULL) {
        FUZZ_REQUIRE(bw_library_read(&library, path, 1, NULL) == BW_OK);
        FUZZ_REQUIRE(bw_assembly_read_text(&wall, WALL, "wall.xml", library,
                                           NULL, 0, NULL) == BW_OK);
    }
    return wall;
}

/* With trials: what would explain the difference is looked for, too. */
static void try_log(const char *text, bool trials)
{
    const bw_replay_options options = {
        .run_in = 24, .threads = 1, .no_trials = !trials};
    bw_log *log = NULL;
    bw_replay *replay = NULL;
    bw_error err = {0};
    bw_status status = bw_log_read_text(&log, text, "log.csv", NULL, &err);
    if (status != BW_OK) {
        FUZZ_REQUIRE(log == NULL);
        fuzz_check_refusal(status, &err);
        return;
    }
    check_log(log);
    const double hours = (log->time[log->count - 1] - log->time[0]) / 3600;
    if (hours < 2000) {
        status = bw_replay_make(&replay, the_wall(), log, NULL, &options, &err);
        if (status == BW_OK)
            check_replay(replay);
        else
            FUZZ_REQUIRE(replay == NULL && err.message[0] != '\0');
    }
    bw_replay_free(replay);
    bw_log_free(log);
}

static void put_row(char *to, size_t *used, const char *row, int hour)
{
    for (const char *c = row; *c != '\0' && *used + 8 < MOST_TEXT; c++) {
        const bool day = *c == '@' && c[1] == 'D';
        if (!day && !(*c == '@' && c[1] == 'H')) {
            to[(*used)++] = *c;
            continue;
        }
        *used += (size_t)snprintf(to + *used, 8, "%02d",
                                  day ? 1 + hour / 24 : hour % 24);
        c++;
    }
    to[(*used)++] = '\n';
}

static void run_days(const uint8_t *data, size_t size)
{
    static char text[MOST_BYTES + 1], whole[MOST_TEXT + 16];
    char *row[MOST_ROWS];
    int rows = 0;
    size_t used = 0;
    if (size > MOST_BYTES)
        return;
    memcpy(text, data, size);
    text[size] = '\0';
    for (char *line = strtok(text, "\n"); line != NULL && rows < MOST_ROWS;
         line = strtok(NULL, "\n")) {
        if (rows > 0 || strstr(line, "@D") != NULL)
            row[rows++] = line;
        else
            put_row(whole, &used, line, 0);
    }
    for (int hour = 0; rows > 0 && hour < HOURS; hour++)
        put_row(whole, &used, row[hour % rows], hour);
    whole[used] = '\0';
    try_log(whole, size % 8 == 7);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static char text[1 << 16];
    if (size > 0 && data[0] == '+') {
        run_days(data + 1, size - 1);
    } else if (size < sizeof text) {
        memcpy(text, data, size);
        text[size] = '\0';
        try_log(text, size % 8 == 0);
    }
    return 0;
}
