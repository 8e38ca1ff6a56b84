#include <stdio.h>
#include <string.h>

#include "resource.h"
#include "routes.h"
#include "target.h"
#include "test.h"

static struct resource *
resource(const char *text)
{
    const struct resource_facts facts = {.type = "text/calendar"};
    struct resource *r = resource_new(&facts, text, strlen(text));

    assert_non_null(r);
    return r;
}

static void
put(struct routes *s, const char *path)
{
    struct resource *r = resource(path);

    assert_int_equal(routes_add(s, path, r), 0);
    resource_drop(r);
}

static void
grant(struct routes *s, const char *key, const char *path)
{
    uint8_t hash[KEY_HASH];

    key_hash(key, strlen(key), hash);
    assert_int_equal(routes_grant(s, hash, path), 0);
}

static int
finds(const struct routes *s, const char *raw, const char *path)
{
    struct target t;
    struct route_spot spot;

    assert_int_equal(target_read(raw, &t), 0);
    if (routes_find(s, &t, &spot))
        return 0;
    assert_string_equal(spot.path, path);
    return 1;
}

static void
each_key_opens_its_own(void **state)
{
    struct routes *s = routes_new();

    (void)state;
    put(s, "/robots.txt");
    put(s, "/calendar/*/harbour.ics");
    put(s, "/calendar/*/all.ics");
    put(s, "/workshop/*/");
    grant(s, "anna", "/calendar/*/harbour.ics");
    grant(s, "anna", "/workshop/*/");
    grant(s, "bert", "/calendar/*/all.ics");
    grant(s, "bert", "/calendar/*/gone.ics");
    assert_true(finds(s, "/robots.txt", "/robots.txt"));
    assert_true(
        finds(s, "/calendar/anna/harbour.ics", "/calendar/*/harbour.ics"));
    assert_true(finds(s, "/workshop/anna/", "/workshop/*/"));
    assert_true(finds(s, "/calendar/bert/all.ics", "/calendar/*/all.ics"));
    assert_false(finds(s, "/calendar/anna/all.ics", ""));
    assert_false(finds(s, "/calendar/bert/harbour.ics", ""));
    assert_false(finds(s, "/calendar/bert/gone.ics", ""));
    assert_false(finds(s, "/calendar/ann/harbour.ics", ""));
    assert_false(finds(s, "/calendar/annax/harbour.ics", ""));
    assert_false(finds(s, "/other/anna/harbour.ics", ""));
    assert_false(finds(s, "/workshop/bert/", ""));
    assert_false(finds(s, "/robots", ""));
    assert_false(finds(s, "/", ""));
    routes_free(s);
}

static void
a_spot_says_what_may_be_done(void **state)
{
    struct routes *s = routes_new();
    struct target t;
    struct route_spot spot;

    (void)state;
    put(s, "/workshop/*/record");
    assert_int_equal(routes_accept(s, "/workshop/*/record"), 0);
    assert_int_equal(routes_accept(s, "/workshop/*/only"), 0);
    grant(s, "k", "/workshop/*/record");
    grant(s, "k", "/workshop/*/only");
    target_read("/workshop/k/record", &t);
    assert_int_equal(routes_find(s, &t, &spot), 0);
    assert_non_null(spot.get);
    assert_true(spot.accepts);
    target_read("/workshop/k/only", &t);
    assert_int_equal(routes_find(s, &t, &spot), 0);
    assert_null(spot.get);
    assert_true(spot.accepts);
    routes_free(s);
    routes_free(NULL);
}

static void
many_are_found(void **state)
{
    struct routes *s = routes_new();
    char path[64];

    (void)state;
    /* 7 and 500 have no common divisor: each path once, in no order. */
    for (int i = 0; i < 500; i++) {
        sprintf(path, "/calendar/*/feed-%d.ics", i * 7 % 500);
        put(s, path);
        grant(s, "k", path);
    }
    for (int i = 0; i < 500; i++) {
        char raw[64];
        sprintf(path, "/calendar/*/feed-%d.ics", i);
        sprintf(raw, "/calendar/k/feed-%d.ics", i);
        assert_true(finds(s, raw, path));
    }
    routes_free(s);
}

static void
a_resource_outlives_the_routes(void **state)
{
    struct routes *s = routes_new();
    struct resource *r = resource("bytes");
    struct resource *same = resource("bytes");
    struct resource *other = resource("Bytes");

    (void)state;
    routes_add(s, "/x", r);
    routes_add(s, "/x", r);
    routes_free(s);
    assert_int_equal(resource_status(r), 200);
    assert_string_equal(resource_etag(r), resource_etag(same));
    assert_string_not_equal(resource_etag(r), resource_etag(other));
    assert_int_equal(strlen(resource_etag(r)), 34);
    resource_drop(r);
    resource_drop(same);
    resource_drop(other);
    resource_drop(NULL);
}

/* A value with a line break in it would be two fields. */
static void
a_fact_that_no_field_may_hold_is_refused(void **state)
{
    const struct resource_facts facts = {.location = "/x\r\nSet-Cookie: a=b"};

    (void)state;
    assert_null(resource_new(&facts, "", 0));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_key_opens_its_own),
        cmocka_unit_test(a_spot_says_what_may_be_done),
        cmocka_unit_test(many_are_found),
        cmocka_unit_test(a_resource_outlives_the_routes),
        cmocka_unit_test(a_fact_that_no_field_may_hold_is_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
