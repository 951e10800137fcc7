#ifndef BW_BASE_SHA256_H
#define BW_BASE_SHA256_H

/* SHA-256 of FIPS 180-4, for fingerprints of files; not meant for secrets. */

#include <stddef.h>
#include <stdint.h>

#include "bothways/error.h"
#include "writer.h"

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

/* A sink that hashes what passes on its way to another one. */
typedef struct bw_sha256_tee {
    bw_sha256 hash;
    bw_write_bytes *sink;
    void *payload;
} bw_sha256_tee;

/* Starts the hash; the payload of bw_sha256_pass is the tee. */
void bw_sha256_tee_start(bw_sha256_tee *tee, bw_write_bytes *sink,
                         void *payload);
bool bw_sha256_pass(void *tee, const char *bytes, size_t length);

/* The digest of a file, byte for byte. BW_ERR_INPUT: it cannot be read;
 * BW_ERR_IO: the machine could not; BW_ERR_MEMORY. */
bw_status bw_sha256_file(char text[BW_SHA256_TEXT], const char *path,
                         bw_error *err);

#endif
