#include "resource.h"

#include "http_date.h"

#include <microhttpd.h>
#include <nettle/sha2.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    TAG_BYTES = 16 /* of the hash, twice as many digits */
};

struct resource {
    atomic_int references;
    unsigned status;
    int64_t modified;
    struct MHD_Response *response;
    const char *bytes; /* the response's own */
    size_t len;
    char etag[2 * TAG_BYTES + 3];
};

static void
make_etag(const void *bytes, size_t len, char *etag)
{
    struct sha256_ctx sha;
    uint8_t digest[TAG_BYTES];

    sha256_init(&sha);
    sha256_update(&sha, len, bytes);
    sha256_digest(&sha, sizeof digest, digest);
    *etag++ = '"';
    for (int i = 0; i < TAG_BYTES; i++)
        etag += sprintf(etag, "%02x", digest[i]);
    *etag++ = '"';
    *etag = '\0';
}

struct head_line {
    const char *name;
    const char *value; /* NULL: leave it out */
};

static int
add_lines(struct resource *r, const struct head_line *lines, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (lines[i].value != NULL &&
            MHD_add_response_header(
                r->response, lines[i].name, lines[i].value) != MHD_YES)
            return -1;
    return 0;
}

static const char *
or_else(const char *value, const char *otherwise)
{
    return value ? value : otherwise;
}

static int
add_fields(struct resource *r, const struct resource_facts *facts)
{
    char date[HTTP_DATE + 1];

    http_date_print(facts->modified, date);
    const struct head_line lines[] = {
        {"Content-Type", or_else(facts->type, "text/plain; charset=utf-8")},
        {"ETag", r->status == 200 ? r->etag : NULL},
        {"Last-Modified", facts->modified ? date : NULL},
        {"Cache-Control", or_else(facts->cache, "private, max-age=300")},
        {"Content-Security-Policy",
            or_else(facts->policy, "default-src 'none'")},
        /* The address is the key: it goes to no other site, and is in no
         * search. */
        {"Referrer-Policy", or_else(facts->referrer, "no-referrer")},
        {"X-Robots-Tag", "noindex, nofollow"},
        {"X-Content-Type-Options", "nosniff"},
        {"Allow", facts->allow},
        {"Location", facts->location},
    };
    return add_lines(r, lines, sizeof lines / sizeof *lines);
}

/* Give the response a copy of the bytes, to free with it. */
static int
add_bytes(struct resource *r, const void *bytes, size_t len)
{
    char *copy = malloc(len + 1);

    if (copy == NULL)
        return -1;
    if (len > 0)
        memcpy(copy, bytes, len);
    r->bytes = copy;
    r->len = len;
    r->response =
        MHD_create_response_from_buffer(len, copy, MHD_RESPMEM_MUST_FREE);
    if (r->response == NULL)
        free(copy);
    return r->response ? 0 : -1;
}

struct resource *
resource_new(const struct resource_facts *facts, const void *bytes, size_t len)
{
    struct resource *r = calloc(1, sizeof *r);

    if (r == NULL)
        return NULL;
    r->references = 1;
    r->status = facts->status ? facts->status : 200;
    r->modified = facts->modified;
    make_etag(bytes, len, r->etag);
    if (add_bytes(r, bytes, len) || add_fields(r, facts)) {
        resource_drop(r);
        return NULL;
    }
    return r;
}

struct resource *
resource_ref(struct resource *r)
{
    atomic_fetch_add(&r->references, 1);
    return r;
}

void
resource_drop(struct resource *r)
{
    if (r == NULL || atomic_fetch_sub(&r->references, 1) > 1)
        return;
    if (r->response != NULL)
        MHD_destroy_response(r->response);
    free(r);
}

const char *
resource_etag(const struct resource *r)
{
    return r->etag;
}

unsigned
resource_status(const struct resource *r)
{
    return r->status;
}

int64_t
resource_modified(const struct resource *r)
{
    return r->modified;
}

const char *
resource_bytes(const struct resource *r, size_t *len)
{
    *len = r->len;
    return r->bytes;
}

struct MHD_Response *
resource_response(const struct resource *r)
{
    return r->response;
}
