#include "header_scan.h"

#include "num.h"

#include <string.h>
#include <strings.h>

static int
is_form(const char *type)
{
    static const char form[] = "application/x-www-form-urlencoded";
    size_t len = sizeof form - 1;

    return strncasecmp(type, form, len) == 0 &&
           strchr("; \t", type[len]) != NULL;
}

static enum MHD_Result
take(void *argument, enum MHD_ValueKind kind, const char *name,
    const char *value)
{
    struct header_scan *s = argument;

    (void)kind;
    if (value == NULL)
        value = "";
    /* "Content-Length :" is a length to some, and to the library is none. */
    s->is_odd |= strpbrk(name, " \t") != NULL;
    if (strcasecmp(name, "Host") == 0) {
        s->hosts++;
    } else if (strcasecmp(name, "Content-Length") == 0) {
        s->lengths++;
        s->has_content |= strcmp(value, "0") != 0;
        if (num_parse(value, strlen(value), 0, INT64_MAX, &s->length))
            s->length = INT64_MAX;
    } else if (strcasecmp(name, "Transfer-Encoding") == 0) {
        s->encodings++;
        s->has_content = 1;
        s->is_odd |= strcasecmp(value, "chunked") != 0;
    } else if (strcasecmp(name, "Content-Type") == 0) {
        s->is_form = is_form(value);
    } else if (strcasecmp(name, "Expect") == 0) {
        s->expects = 1;
    } else {
        conditional_field(&s->conditional, name, value);
    }
    return MHD_YES;
}

void
header_scan_fields(struct header_scan *s, struct MHD_Connection *connection)
{
    (void)MHD_get_connection_values(connection, MHD_HEADER_KIND, take, s);
}

unsigned
header_scan_fault(const struct header_scan *s, const char *version)
{
    int is_1_1 = strcmp(version, "HTTP/1.1") == 0;

    if (!is_1_1 && strcmp(version, "HTTP/1.0") != 0)
        return 505;
    if (s->hosts > 1 || (is_1_1 && s->hosts == 0))
        return 400;
    return s->is_odd || s->lengths + s->encodings > 1 ? 400 : 0;
}
