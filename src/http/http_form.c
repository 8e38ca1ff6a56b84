#include "http_form.h"

#include "utf8.h"

#include <stdlib.h>
#include <string.h>

enum { FIELDS = 400 };

struct field {
    const char *name;
    const char *value;
};

struct http_form {
    size_t n;
    struct field fields[FIELDS];
    char text[]; /* names and values, each with its NUL */
};

static int
hex(char c)
{
    static const char digits[] = "0123456789abcdef";
    const char *at = c == '\0' ? NULL : strchr(digits, c);

    if (c >= 'A' && c <= 'F')
        return c - 'A' + 10;
    return at ? (int)(at - digits) : -1;
}

/* Undo the escapes of @text, in place. */
static int
unescape(char *text)
{
    char *out = text;

    for (; *text != '\0'; text++) {
        if (*text == '%') {
            int high = hex(text[1]);
            int low = high < 0 ? -1 : hex(text[2]);
            if (low < 0)
                return -1;
            *out++ = (char)(high * 16 + low);
            text += 2;
            /* A NUL would hide what follows it. */
            if (out[-1] == '\0')
                return -1;
        } else {
            char c = *text;
            if (c == '+')
                c = ' ';
            *out++ = c;
        }
    }
    *out = '\0';
    return 0;
}

/* Nonzero when @text is what a person can have written. */
static int
is_text(const char *text)
{
    const unsigned char *at = (const unsigned char *)text;
    size_t left = strlen(text);

    while (left > 0) {
        size_t n = utf8_length(at, left);
        if (n == 0 || *at == 0x7f ||
            (*at < 0x20 && strchr("\t\r\n", *at) == NULL))
            return 0;
        at += n;
        left -= n;
    }
    return 1;
}

static int
read_field(struct http_form *f, char *text)
{
    char *equals = strchr(text, '=');
    char *value = equals ? equals + 1 : text + strlen(text);

    if (equals != NULL)
        *equals = '\0';
    if (f->n == FIELDS || unescape(text) || unescape(value) || !is_text(text) ||
        !is_text(value))
        return -1;
    f->fields[f->n++] = (struct field){text, value};
    return 0;
}

struct http_form *
http_form_read(const char *body, size_t len)
{
    struct http_form *f = malloc(sizeof *f + len + 1);

    if (f == NULL)
        return NULL;
    f->n = 0;
    if (len > 0)
        memcpy(f->text, body, len);
    f->text[len] = '\0';
    char *at = f->text;
    while (at < f->text + len) {
        char *end = at + strcspn(at, "&");
        int is_nul = *end == '\0' && end < f->text + len;
        *end = '\0';
        if (is_nul || (end > at && read_field(f, at))) {
            free(f);
            return NULL;
        }
        at = end + 1;
    }
    return f;
}

void
http_form_free(struct http_form *f)
{
    free(f);
}

const char *
http_form_value(const struct http_form *f, const char *name)
{
    for (size_t i = 0; i < f->n; i++)
        if (strcmp(f->fields[i].name, name) == 0)
            return f->fields[i].value;
    return NULL;
}
