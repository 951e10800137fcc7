#ifndef BW_BASE_DIGESTS_H
#define BW_BASE_DIGESTS_H

/* How digests stand in a sheet and in a list beside it, for the writer and for
 * the reader: lines of "64 hexadecimal digits, two blanks, a path", as
 * sha256sum takes them, between two that it passes over. */

#define BW_DIGESTS_BEGIN "# bothways "      /* and the version */
#define BW_DIGESTS_ABOVE "# of all above: " /* and a digest: of the text */

#endif
