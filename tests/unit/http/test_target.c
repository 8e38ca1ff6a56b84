#include <stdlib.h>
#include <string.h>

#include "target.h"
#include "test.h"

static void
reads(const char *raw, const char *path, const char *pattern, const char *key)
{
    struct target t;

    assert_int_equal(target_read(raw, &t), 0);
    assert_string_equal(t.path, path);
    assert_string_equal(t.pattern, pattern);
    if (key == NULL) {
        assert_null(t.key);
    } else {
        assert_int_equal(t.key_len, strlen(key));
        assert_memory_equal(t.key, key, t.key_len);
    }
}

static void
paths_are_taken_as_they_are(void **state)
{
    (void)state;
    reads("/", "/", "", NULL);
    reads("/robots.txt", "/robots.txt", "", NULL);
    reads("/workshop/", "/workshop/", "", NULL);
    reads("/workshop/abc", "/workshop/abc", "", NULL);
    reads("/health?since=1&x=%20", "/health", "", NULL);
    reads("/a-b_c.D9", "/a-b_c.D9", "", NULL);
}

static void
the_second_segment_is_a_key(void **state)
{
    (void)state;
    reads("/calendar/k3y/harbour.ics", "/calendar/k3y/harbour.ics",
        "/calendar/*/harbour.ics", "k3y");
    reads("/workshop/k3y/", "/workshop/k3y/", "/workshop/*/", "k3y");
    reads("/a/b/c/d", "/a/b/c/d", "/a/*/c/d", "b");
    reads("/calendar/k3y/x.ics?t=5", "/calendar/k3y/x.ics", "/calendar/*/x.ics",
        "k3y");
}

/* As a proxy may ask: RFC 9112, section 3.2.2. */
static void
a_target_may_name_the_host(void **state)
{
    (void)state;
    reads("http://skerrow.example/health", "/health", "", NULL);
    reads("HTTPS://skerrow.example:8443/calendar/k/x.ics", "/calendar/k/x.ics",
        "/calendar/*/x.ics", "k");
    reads("http://[::1]:80/", "/", "", NULL);
}

static void
what_is_not_plain_is_refused(void **state)
{
    static const char *const raws[] = {"", "*", "health", "?", "//", "//host/x",
        "/a//b", "/a//", "/.", "/..", "/../x", "/a/../b", "/a/..", "/a/.",
        "/.hidden", "/a/.hidden", "/%00", "/a%00b", "/%2e", "/%2E%2E/x",
        "/a%2fb", "/%61", "/a\\b", "/a b", "/a\tb", "/a\x7f", "/\xc3\xa9", "/*",
        "/calendar/*/harbour.ics", "/a;b", "/a+b", "/a~b", "/a:b", "/a,b",
        "/a#b", "/a?b#c", "/a?b c", "/a?\xff", "/a?b\x01", "http:///x",
        "http://host", "http://", "ftp://host/x", "javascript:x", "http:/x",
        "host:80"};

    (void)state;
    for (size_t i = 0; i < sizeof raws / sizeof *raws; i++) {
        struct target t;
        if (target_read(raws[i], &t) != 400)
            fail_msg("'%s' is not refused", raws[i]);
        assert_string_equal(t.path, "");
        assert_string_equal(t.pattern, "");
        assert_null(t.key);
    }
}

static void
long_paths_are_refused_as_long(void **state)
{
    char raw[40002];
    struct target t;

    (void)state;
    memset(raw, 'a', sizeof raw);
    raw[0] = '/';
    raw[sizeof raw - 1] = '\0';
    assert_int_equal(target_read(raw, &t), 414);
    assert_string_equal(t.path, "");
    raw[TARGET_MOST + 1] = '\0';
    assert_int_equal(target_read(raw, &t), 414);
    raw[TARGET_MOST] = '\0';
    assert_int_equal(target_read(raw, &t), 0);
    assert_string_equal(t.path, raw);
    /* The query does not count. */
    raw[TARGET_MOST] = '?';
    raw[TARGET_MOST + 1] = 'a';
    assert_int_equal(target_read(raw, &t), 0);
    assert_int_equal(strlen(t.path), TARGET_MOST);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(paths_are_taken_as_they_are),
        cmocka_unit_test(the_second_segment_is_a_key),
        cmocka_unit_test(a_target_may_name_the_host),
        cmocka_unit_test(what_is_not_plain_is_refused),
        cmocka_unit_test(long_paths_are_refused_as_long),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
