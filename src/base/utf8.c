#include "utf8.h"

/* How many bytes a character takes that begins with @lead; 0 for none. */
static size_t
length_by(unsigned char lead)
{
    if (lead < 0x80)
        return 1;
    if (lead < 0xc2)
        return 0; /* a byte from the middle, or a longer form than needed */
    if (lead < 0xe0)
        return 2;
    if (lead < 0xf0)
        return 3;
    return lead < 0xf5 ? 4 : 0;
}

/* What the second byte must lie between depends on the first: the table of
 * RFC 3629, section 4. */
static int
second_fits(unsigned char lead, unsigned char second)
{
    unsigned least = lead == 0xe0 ? 0xa0 : lead == 0xf0 ? 0x90 : 0x80;
    unsigned most = lead == 0xed ? 0x9f : lead == 0xf4 ? 0x8f : 0xbf;

    return second >= least && second <= most;
}

size_t
utf8_length(const unsigned char *s, size_t len)
{
    size_t n = len > 0 ? length_by(s[0]) : 0;

    if (n > len || (n > 1 && !second_fits(s[0], s[1])))
        return 0;
    for (size_t i = 2; i < n; i++)
        if ((s[i] & 0xc0) != 0x80)
            return 0;
    return n;
}
