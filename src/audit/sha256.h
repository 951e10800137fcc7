#ifndef BW_AUDIT_SHA256_H
#define BW_AUDIT_SHA256_H

/* SHA-256 of FIPS 180-4, for fingerprints of files; not meant for secrets. */

#include <stddef.h>
#include <stdint.h>

enum { BW_SHA256_BLOCK = 64, BW_SHA256_TEXT = 65 };

typedef struct bw_sha256 {
    uint32_t state[8];
    uint64_t bytes; /* taken so far */
    unsigned char block[BW_SHA256_BLOCK];
} bw_sha256;

void bw_sha256_start(bw_sha256 *hash);

void bw_sha256_add(bw_sha256 *hash, const void *bytes, size_t length);

/* The digest as 64 lower-case hexadecimal digits. The hash is used up. */
void bw_sha256_finish(bw_sha256 *hash, char text[BW_SHA256_TEXT]);

#endif
