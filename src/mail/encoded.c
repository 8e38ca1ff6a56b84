#include "encoded.h"

#include "buf.h"

#include <glib.h>
#include <string.h>

#define PLAIN_OCTETS 67
#define BEGIN "=?utf-8?q?"
#define END "?="
/* A word takes one more character, of 12 octets at most, up to here: with its
 * end it then has 64 at most. */
#define WORD_FULL 50

static int
is_plain(enum encoded_place place, const char *text)
{
    if (strlen(text) > PLAIN_OCTETS || strstr(text, "=?") != NULL)
        return 0;
    for (; *text != '\0'; text++) {
        if (!g_ascii_isprint(*text))
            return 0;
        if (place == ENCODED_NAME && !g_ascii_isalnum(*text) &&
            strchr(" -", *text) == NULL)
            return 0;
    }
    return 1;
}

/* How one octet stands in an encoded word (RFC 2047, 4.2 and 5, rule 3). */
static void
add_octet(struct buf *out, char octet)
{
    if (octet == ' ')
        buf_text(out, "_");
    else if (g_ascii_isalnum(octet))
        buf_add(out, &octet, 1);
    else
        buf_print(out, "=%02X", (unsigned)(unsigned char)octet);
}

/* Append one word that holds whole characters only; returns what is left. */
static const char *
add_word(struct buf *out, const char *text)
{
    size_t begin = buf_len(out);

    buf_text(out, BEGIN);
    do {
        for (const char *next = g_utf8_next_char(text); text < next; text++)
            add_octet(out, *text);
    } while (*text != '\0' && buf_len(out) - begin <= WORD_FULL);
    buf_text(out, END);
    return text;
}

void
encoded_add(struct buf *out, enum encoded_place place, const char *text)
{
    if (is_plain(place, text)) {
        buf_text(out, text);
        return;
    }
    text = add_word(out, text);
    while (*text != '\0') {
        buf_text(out, "\n ");
        text = add_word(out, text);
    }
}
