#ifndef UTF8_H
#define UTF8_H

#include <stddef.h>

/*
 * How many bytes the UTF-8 character at @s takes, of the @len that are there;
 * 0 when it is none (RFC 3629: no surrogate, no longer form than needed).
 */
size_t utf8_length(const unsigned char *s, size_t len);

#endif
