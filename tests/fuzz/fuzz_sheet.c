/* A sheet, or the list of digests beside one, from a stranger: refused well, or
 * every file it names is told the same, changed or missing. With '+' as first
 * byte a true digest of what stands above is put in the place of "@own", and of
 * two files in those of "@one" and "@two", so that sheets that agree are met.
 */

#include <string.h>

#include "base/sha256.h"
#include "bothways/audit.h"
#include "fuzz.h"

enum { MOST = 8192 };

typedef struct sheet {
    char text[2 * MOST + 65 * MOST / 4];
    size_t used;
} sheet;

static void digest(char out[BW_SHA256_TEXT], const void *data, size_t size)
{
    bw_sha256 sum;
    bw_sha256_start(&sum);
    bw_sha256_add(&sum, data, size);
    bw_sha256_finish(&sum, out);
}

static void put(sheet *s, const char *bytes, size_t length)
{
    FUZZ_REQUIRE(s->used + length < sizeof s->text);
    memcpy(s->text + s->used, bytes, length);
    s->used += length;
}

static void fill(sheet *s, const uint8_t *data, size_t size)
{
    char of[BW_SHA256_TEXT];
    const char *at = (const char *)data, *end = at + size;
    s->used = 0;
    while (at < end) {
        const size_t left = (size_t)(end - at);
        if (left >= 4 && memcmp(at, "@own", 4) == 0) {
            size_t above = s->used;
            while (above > 0 && s->text[above - 1] != '\n')
                above--;
            digest(of, s->text, above);
        } else if (left >= 4 && memcmp(at, "@one", 4) == 0) {
            digest(of, "one", 3);
        } else {
            put(s, at++, 1);
            continue;
        }
        put(s, of, strlen(of));
        at += 4;
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static sheet s;
    if (size > MOST)
        return 0;
    s.used = 0;
    if (size > 0 && data[0] == '+')
        fill(&s, data + 1, size - 1);
    else
        put(&s, (const char *)data, size);
    bw_verification *made = NULL;
    bw_error err = {0};
    fuzz_second_file("one", 3);
    const bw_status status = bw_audit_verify(&made, fuzz_file(s.text, s.used),
                                             &err);
    if (status != BW_OK) {
        FUZZ_REQUIRE(made == NULL);
        fuzz_check_refusal(status, &err);
        return 0;
    }
    size_t changes = made->edited + made->other_program;
    for (size_t i = 0; i < made->digest_count; i++) {
        const bw_digest *d = &made->digest[i];
        FUZZ_REQUIRE(strlen(d->sha256) == 64 && d->path[0] != '\0');
        FUZZ_REQUIRE(d->state != BW_DIGEST_MISSING || d->why[0] != '\0');
        changes += d->state != BW_DIGEST_SAME;
    }
    FUZZ_REQUIRE(made->changes == changes);
    FUZZ_REQUIRE(made->digest_count > 0 || made->changes > 0 || !made->is_list);
    bw_verification_free(made);
    return 0;
}
