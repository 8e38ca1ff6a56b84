/* Which proxies are trusted, while that changes. */
#include <string.h>

#include "proxies.h"
#include "test.h"

static struct address
address(const char *text)
{
    struct address a;

    assert_int_equal(address_parse(text, strlen(text), &a), 0);
    return a;
}

static int
has(struct proxies *p, const char *text)
{
    struct address a = address(text);

    return proxies_have(p, &a);
}

static void
assert_client(struct proxies *p, const char *peer, const char *client)
{
    struct address from = address(peer);
    struct address got = proxies_client(p, &from, "203.0.113.7");
    char text[ADDRESS_TEXT];

    address_print(&got, text);
    assert_string_equal(text, client);
}

static void
the_last_list_counts(void **state)
{
    static const char *const first[] = {"127.0.0.1", "unix", NULL};
    static const char *const second[] = {"192.0.2.1", NULL};
    struct proxies *p = proxies_new();
    struct fault f;

    (void)state;
    assert_non_null(p);
    assert_false(has(p, "127.0.0.1"));
    assert_client(p, "127.0.0.1", "127.0.0.1");

    assert_int_equal(proxies_trust(p, first, &f), 0);
    assert_true(has(p, "127.0.0.1"));
    assert_true(has(p, "unix"));
    assert_client(p, "127.0.0.1", "203.0.113.7");

    assert_int_equal(proxies_trust(p, second, &f), 0);
    assert_false(has(p, "127.0.0.1"));
    assert_client(p, "127.0.0.1", "127.0.0.1");
    assert_client(p, "192.0.2.1", "203.0.113.7");

    assert_int_equal(proxies_trust(p, NULL, &f), 0);
    assert_client(p, "192.0.2.1", "192.0.2.1");
    proxies_free(p);
}

static void
a_wrong_list_changes_nothing(void **state)
{
    static const char *const good[] = {"127.0.0.1", NULL};
    static const char *const bad[] = {"192.0.2.1", "proxy.example", NULL};
    const char *many[PROXIES_MOST + 2];
    struct proxies *p = proxies_new();
    struct fault f;

    (void)state;
    assert_non_null(p);
    for (size_t i = 0; i <= PROXIES_MOST; i++)
        many[i] = "192.0.2.1";
    many[PROXIES_MOST + 1] = NULL;
    assert_int_equal(proxies_trust(p, good, &f), 0);
    assert_int_equal(proxies_trust(p, bad, &f), -1);
    assert_non_null(strstr(f.text, "'proxy.example'"));
    assert_int_equal(proxies_trust(p, many, &f), -1);
    assert_true(has(p, "127.0.0.1"));
    assert_false(has(p, "192.0.2.1"));
    many[PROXIES_MOST] = NULL;
    assert_int_equal(proxies_trust(p, many, &f), 0);
    assert_true(has(p, "192.0.2.1"));
    proxies_free(p);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_last_list_counts),
        cmocka_unit_test(a_wrong_list_changes_nothing),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
