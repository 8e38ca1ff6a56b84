/*
 * Reads what a coverage-guided fuzzer makes up as the parts of a request that
 * a client writes: the target, the preconditions, a form, and whom a proxy
 * names.  The first byte says which; what must hold of each is checked.
 */
#include "address.h"
#include "conditional.h"
#include "etag.h"
#include "http_date.h"
#include "http_form.h"
#include "target.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static void
must(int is_so)
{
    if (!is_so)
        abort();
}

/* A path that is let through is plain, and stands in what was sent. */
static void
try_target(const char *text)
{
    struct target t;
    unsigned status = target_read(text, &t);
    size_t len = strlen(t.path);

    must(status == 0 || ((status == 400 || status == 414) && len == 0));
    if (status != 0)
        return;
    must(t.path[0] == '/' && strstr(text, t.path) != NULL);
    must(strstr(t.path, "//") == NULL && strstr(t.path, "/.") == NULL);
    must(strcspn(t.path, "%\\*?#; \r\n") == len);
    if (t.key != NULL) {
        must(t.key > t.path && t.key + t.key_len < t.path + len);
        must(strlen(t.pattern) + t.key_len == len + 1);
        must(memchr(t.key, '/', t.key_len) == NULL && t.key_len > 0);
    }
}

/* What is let through is what would be sent, or one of the two old forms. */
static void
try_date(const char *text)
{
    int64_t seconds;
    int64_t again;
    char printed[HTTP_DATE + 1];

    if (http_date_parse(text, &seconds) || seconds < 0)
        return;
    http_date_print(seconds, printed);
    must(http_date_parse(printed, &again) == 0 && again == seconds);
}

/* A tag in the list is in its text; a weak one does not fit a strong one. */
static void
try_conditional(const char *text)
{
    struct conditional c;

    must(!etag_listed(text, "\"a\"", 1) || strstr(text, "\"a\"") != NULL ||
         strchr(text, '*') != NULL);
    must(!etag_listed(text, "\"a\"", 0) || etag_listed(text, "\"a\"", 1));
    conditional_start(&c, "\"a\"", 784111777);
    conditional_field(&c, "If-None-Match", text);
    conditional_field(&c, "If-Modified-Since", text);
    (void)conditional_decide(&c);
}

static void
try_form(const char *text, size_t len)
{
    struct http_form *f = http_form_read(text, len);

    if (f == NULL)
        return;
    const char *value = http_form_value(f, "a");
    must(value == NULL || strlen(value) <= len);
    http_form_free(f);
}

static void
try_proxy(const char *text)
{
    struct address proxies[1];
    struct address peer;
    char printed[ADDRESS_TEXT];

    must(address_parse("127.0.0.1", 9, &proxies[0]) == 0);
    peer = address_forwarded(&proxies[0], text, proxies, 1);
    address_print(&peer, printed);
    must(address_parse(printed, strlen(printed), &peer) == 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);

    must(text != NULL);
    memcpy(text, data, size);
    text[size] = '\0';
    switch (size > 0 ? text[0] : 0) {
    case 'd':
        try_date(text + 1);
        break;
    case 'c':
        try_conditional(text + 1);
        break;
    case 'f':
        try_form(text + 1, size - 1);
        break;
    case 'p':
        try_proxy(text + 1);
        break;
    default:
        try_target(text);
    }
    free(text);
    return 0;
}
