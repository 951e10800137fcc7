#ifndef BW_BASE_UTF8_H
#define BW_BASE_UTF8_H

/* Characters of UTF-8 as a page meets them: what they are, how wide they are
 * printed, and which must not reach a reader as they are. */

#include <stdbool.h>
#include <stddef.h>

/* Bytes of the character at the start of bytes, at most length; its code in
 * *code. A byte that begins none stands for itself. length > 0. */
size_t bw_utf8_next(const char *bytes, size_t length, unsigned *code);

/* Bytes of the character at the start of text, of which `length` (1 at least)
 * may be read; 0: no character of UTF-8 that a page or an XML file may hold
 * stands there (or a control character does). */
size_t bw_utf8_valid(const char *text, size_t length);

/* Whether the bytes that bw_utf8_next took are no character of UTF-8, and how
 * each of them is shown then: "\\xe4", in every output the same. */
bool bw_utf8_broken(const char *bytes, size_t count);
void bw_utf8_escape(char text[5], char byte);

/* Takes a character off the end of a text that was cut within it. */
void bw_utf8_trim(char *text);

/* Controls (C0, DEL, C1) and the marks that turn the direction of a line or
 * end it: with them a name could show the words after it in another order. */
bool bw_utf8_steers(unsigned code);

/* Columns of a fixed-width page: 0 for what is put over the character before
 * it, 2 for the wide ones of East Asia, else 1. */
size_t bw_utf8_columns(unsigned code);

#endif
