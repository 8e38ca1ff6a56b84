#ifndef ENCODED_H
#define ENCODED_H

struct buf;

/* Where a text stands: as a whole header, or as the name before an address,
 * where commas and the like have a meaning. */
enum encoded_place { ENCODED_TEXT, ENCODED_NAME };

/*
 * Append the UTF-8 @text as it may stand in a header: itself when it is short,
 * plain ASCII, otherwise as encoded words (RFC 2047) with LF blank between
 * them, so that no line has more than 76 octets, "Subject: " included.
 *
 * GMime's own encoder is not used: it takes a text that looks like an encoded
 * word for one, and it writes padded base64 words of which its own decoder,
 * and so the readers built on it, see only the first.
 */
void encoded_add(struct buf *out, enum encoded_place place, const char *text);

#endif
