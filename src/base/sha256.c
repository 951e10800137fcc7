#include "sha256.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "fail.h"
#include "file.h"

/* FIPS 180-4, sections 4.1.2, 4.2.2, 5.1.1, 5.3.3 and 6.2 [M-hi]; checked in
 * the tests against its published examples. */

static const uint32_t K[64] = {
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1,
    0x923f82a4, 0xab1c5ed5, 0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3,
    0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174, 0xe49b69c1, 0xefbe4786,
    0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147,
    0x06ca6351, 0x14292967, 0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13,
    0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85, 0xa2bfe8a1, 0xa81a664b,
    0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a,
    0x5b9cca4f, 0x682e6ff3, 0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208,
    0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2,
};

void bw_sha256_start(bw_sha256 *hash)
{
    static const uint32_t start[8] = {0x6a09e667, 0xbb67ae85, 0x3c6ef372,
                                      0xa54ff53a, 0x510e527f, 0x9b05688c,
                                      0x1f83d9ab, 0x5be0cd19};
    memcpy(hash->state, start, sizeof start);
    hash->bytes = 0;
}

static uint32_t rotate(uint32_t x, int n)
{
    return (x >> n) | (x << (32 - n));
}

static void expand(uint32_t w[64], const unsigned char *block)
{
    for (size_t t = 0; t < 16; t++, block += 4)
        w[t] = (uint32_t)block[0] << 24 | (uint32_t)block[1] << 16 |
               (uint32_t)block[2] << 8 | (uint32_t)block[3];
    for (int t = 16; t < 64; t++) {
        uint32_t s0 = rotate(w[t - 15], 7) ^ rotate(w[t - 15], 18) ^
                      w[t - 15] >> 3;
        uint32_t s1 = rotate(w[t - 2], 17) ^ rotate(w[t - 2], 19) ^
                      w[t - 2] >> 10;
        w[t] = s1 + w[t - 7] + s0 + w[t - 16];
    }
}

static void compress(uint32_t state[8], const unsigned char *block)
{
    uint32_t w[64] = {0}, s[8];
    expand(w, block);
    memcpy(s, state, sizeof s);
    for (int t = 0; t < 64; t++) {
        uint32_t sum1 = rotate(s[4], 6) ^ rotate(s[4], 11) ^ rotate(s[4], 25);
        uint32_t choice = (s[4] & s[5]) ^ (~s[4] & s[6]);
        uint32_t t1 = s[7] + sum1 + choice + K[t] + w[t];
        uint32_t sum0 = rotate(s[0], 2) ^ rotate(s[0], 13) ^ rotate(s[0], 22);
        uint32_t majority = (s[0] & s[1]) ^ (s[0] & s[2]) ^ (s[1] & s[2]);
        memmove(s + 1, s, 7 * sizeof s[0]);
        s[4] += t1;
        s[0] = t1 + sum0 + majority;
    }
    for (int i = 0; i < 8; i++)
        state[i] += s[i];
}

void bw_sha256_add(bw_sha256 *hash, const void *bytes, size_t length)
{
    const unsigned char *from = bytes;
    size_t used = (size_t)(hash->bytes % BW_SHA256_BLOCK);
    hash->bytes += length;
    while (length > 0) {
        size_t room = BW_SHA256_BLOCK - used;
        size_t part = length < room ? length : room;
        memcpy(hash->block + used, from, part);
        from += part;
        length -= part;
        used += part;
        if (used == BW_SHA256_BLOCK) {
            compress(hash->state, hash->block);
            used = 0;
        }
    }
}

void bw_sha256_finish(bw_sha256 *hash, char text[BW_SHA256_TEXT])
{
    static const char digits[] = "0123456789abcdef";
    static const unsigned char padding[BW_SHA256_BLOCK] = {0x80};
    uint64_t bits = hash->bytes * 8;
    size_t used = (size_t)(hash->bytes % BW_SHA256_BLOCK);
    unsigned char length[8];
    for (int i = 0; i < 8; i++)
        length[i] = (unsigned char)(bits >> (56 - 8 * i) & 0xff);
    bw_sha256_add(hash, padding, used < 56 ? 56 - used : 120 - used);
    bw_sha256_add(hash, length, sizeof length);
    for (int i = 0; i < 64; i++)
        text[i] = digits[hash->state[i / 8] >> (28 - 4 * (i % 8)) & 0xf];
    text[64] = '\0';
}

void bw_sha256_tee_start(bw_sha256_tee *tee, bw_write_bytes *sink,
                         void *payload)
{
    *tee = (bw_sha256_tee){.sink = sink, .payload = payload};
    bw_sha256_start(&tee->hash);
}

bool bw_sha256_pass(void *payload, const char *bytes, size_t length)
{
    bw_sha256_tee *tee = payload;
    bw_sha256_add(&tee->hash, bytes, length);
    return tee->sink(tee->payload, bytes, length);
}

bw_status bw_sha256_file(char text[BW_SHA256_TEXT], const char *path,
                         bw_error *err)
{
    unsigned char part[16384];
    bw_sha256 hash;
    FILE *file = fopen(path, "rb");
    int fault = errno;
    if (file == NULL && fault == ENOMEM)
        return bw_fail_memory(err);
    if (file == NULL)
        return bw_fail(
            err, bw_fault_of_machine(fault) ? BW_ERR_IO : BW_ERR_INPUT, path, 0,
            "cannot read this file for its fingerprint: %s", strerror(fault));
    bw_sha256_start(&hash);
    size_t got = 0;
    while ((got = fread(part, 1, sizeof part, file)) > 0)
        bw_sha256_add(&hash, part, got);
    bool failed = ferror(file) != 0;
    fclose(file);
    if (failed)
        return bw_fail(err, BW_ERR_INPUT, path, 0,
                       "reading this file for its fingerprint broke off");
    bw_sha256_finish(&hash, text);
    return BW_OK;
}
