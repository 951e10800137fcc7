#ifndef BW_BASE_NUMBER_H
#define BW_BASE_NUMBER_H

/* Numbers as text, the same in every locale. */

#include <stdbool.h>
#include <stddef.h>

/* Reads a decimal number ("-12.5", "3e-10") from the start of text.
 * Not accepted: hex, nan, inf, a decimal comma, leading blanks.
 * On success *value is finite and *end points behind the number.
 * False: no number there, or it is too large for a double; *value is left as
 * it was. */
bool bw_number_read(const char *text, double *value, const char **end);

/* The number of exactly so many digits; -1 where one is none. */
int bw_number_digits(const char *text, size_t digits);

/* Writes value into buffer (at least 32 bytes) with printf's %.*g or %.*f,
 * always with '.'; "-0" becomes "0". Returns buffer. */
char *bw_number_g(char *buffer, size_t size, double value, int digits);
char *bw_number_f(char *buffer, size_t size, double value, int decimals);

/* The same where it is said, kept until the block ends. */
#define BW_NUMBER_G(value, digits)                                             \
    bw_number_g((char[64]){0}, 64, (value), (digits))
#define BW_NUMBER_F(value, decimals)                                           \
    bw_number_f((char[64]){0}, 64, (value), (decimals))

#endif
