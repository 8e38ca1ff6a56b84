#include "check_digits.h"

/* The remainder by 97 of the number that the characters spell. */
static int
remainder_of(const char *text, size_t len)
{
    int r = 0;

    for (size_t i = 0; i < len; i++) {
        int c = (unsigned char)text[i];
        if (c >= '0' && c <= '9')
            r = (r * 10 + c - '0') % 97;
        else if (c >= 'A' && c <= 'Z')
            r = (r * 100 + c - 'A' + 10) % 97;
        else if (c >= 'a' && c <= 'z')
            r = (r * 100 + c - 'a' + 10) % 97;
    }
    return r;
}

int
check_digits(const char *text, size_t len)
{
    return 98 - remainder_of(text, len) * 100 % 97;
}

int
check_digits_good(const char *text, size_t len)
{
    return remainder_of(text, len) == 1;
}
