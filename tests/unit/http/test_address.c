#include <arpa/inet.h>
#include <netinet/in.h>
#include <string.h>

#include "address.h"
#include "test.h"

static struct address
address(const char *text)
{
    struct address a;

    assert_int_equal(address_parse(text, strlen(text), &a), 0);
    return a;
}

static void
addresses_are_read_back(void **state)
{
    static const char *const texts[] = {
        "192.0.2.7", "127.0.0.1", "2001:db8::7", "::1", "unix"};
    static const char *const wrong[] = {"", "192.0.2", "192.0.2.7:80", "[::1]",
        "192.0.2.256", "host.example", "2001:db8::7%eth0",
        "1111111111111111111111111111111111111111111111111"};

    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        char text[ADDRESS_TEXT];
        struct address a = address(texts[i]);
        address_print(&a, text);
        assert_string_equal(text, texts[i]);
    }
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        struct address a;
        assert_int_equal(address_parse(wrong[i], strlen(wrong[i]), &a), -1);
    }
}

static void
a_socket_has_the_address_it_shows(void **state)
{
    struct sockaddr_in in = {.sin_family = AF_INET};
    struct sockaddr_in6 in6 = {.sin6_family = AF_INET6};
    struct sockaddr local = {.sa_family = AF_UNIX};
    struct address a;
    struct address b;

    (void)state;
    inet_pton(AF_INET, "192.0.2.7", &in.sin_addr);
    a = address_of((const struct sockaddr *)&in);
    b = address("192.0.2.7");
    assert_true(address_same(&a, &b));
    inet_pton(AF_INET6, "2001:db8::7", &in6.sin6_addr);
    a = address_of((const struct sockaddr *)&in6);
    b = address("2001:db8::7");
    assert_true(address_same(&a, &b));
    /* As a socket for both kinds shows an IPv4 client. */
    inet_pton(AF_INET6, "::ffff:192.0.2.7", &in6.sin6_addr);
    a = address_of((const struct sockaddr *)&in6);
    b = address("192.0.2.7");
    assert_true(address_same(&a, &b));
    b = address("unix");
    a = address_of(&local);
    assert_true(address_same(&a, &b));
    a = address_of(NULL);
    assert_true(address_same(&a, &b));
}

static int
near(const char *left, const char *right)
{
    struct address a = address(left);
    struct address b = address(right);

    return address_near(&a, &b);
}

static void
a_network_counts_as_one(void **state)
{
    (void)state;
    assert_true(near("192.0.2.7", "192.0.2.7"));
    assert_false(near("192.0.2.7", "192.0.2.8"));
    assert_true(near("2001:db8:1:2::7", "2001:db8:1:2:ffff::1"));
    assert_false(near("2001:db8:1:2::7", "2001:db8:1:3::7"));
    /* All IPv4 addresses lie in one /64, and so does ::1. */
    assert_false(near("::1", "192.0.2.7"));
    assert_false(near("192.0.2.7", "::1"));
}

static void
forwarded(const char *peer, const char *field, const char *client)
{
    struct address proxies[] = {address("127.0.0.1"), address("192.0.2.1")};
    struct address from = address(peer);
    struct address got = address_forwarded(&from, field, proxies, 2);
    char text[ADDRESS_TEXT];

    address_print(&got, text);
    assert_string_equal(text, client);
}

static void
only_a_trusted_proxy_is_believed(void **state)
{
    (void)state;
    forwarded("203.0.113.9", NULL, "203.0.113.9");
    forwarded("203.0.113.9", "198.51.100.1", "203.0.113.9");
    forwarded("127.0.0.1", NULL, "127.0.0.1");
    forwarded("127.0.0.1", "", "127.0.0.1");
    forwarded("127.0.0.1", "203.0.113.9", "203.0.113.9");
    /* The client may have written the first one itself. */
    forwarded("127.0.0.1", "198.51.100.1, 203.0.113.9", "203.0.113.9");
    /* One proxy behind another. */
    forwarded("127.0.0.1", "203.0.113.9, 192.0.2.1", "203.0.113.9");
    forwarded(
        "127.0.0.1", "198.51.100.1 ,203.0.113.9,192.0.2.1 ", "203.0.113.9");
    forwarded("127.0.0.1", "2001:db8::7", "2001:db8::7");
    /* What is no address is not believed either. */
    forwarded("127.0.0.1", "unknown", "127.0.0.1");
    forwarded("127.0.0.1", "203.0.113.9, nonsense", "127.0.0.1");
    forwarded("127.0.0.1", ",,,", "127.0.0.1");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(addresses_are_read_back),
        cmocka_unit_test(a_socket_has_the_address_it_shows),
        cmocka_unit_test(a_network_counts_as_one),
        cmocka_unit_test(only_a_trusted_proxy_is_believed),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
