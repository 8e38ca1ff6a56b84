/* Where a server listens, and whether that is this machine. */
#include "server.h"
#include "test.h"

static void
servers(void **state)
{
    static const struct {
        const char *text;
        const char *host;
        int port;
        int loopback;
    } rows[] = {
        {"mail.skerrow.example:587", "mail.skerrow.example", 587, 0},
        {"mail.skerrow.example", "mail.skerrow.example", 0, 0},
        {"localhost:25", "localhost", 25, 1},
        {"LOCALHOST", "LOCALHOST", 0, 1},
        {"127.0.0.1:2525", "127.0.0.1", 2525, 1},
        {"127.9.9.9", "127.9.9.9", 0, 1}, /* RFC 1122, 3.2.1.3: all of 127 */
        {"128.0.0.1", "128.0.0.1", 0, 0},
        {"[::1]:25", "[::1]", 25, 1},
        {"[2001:db8::1]", "[2001:db8::1]", 0, 0},
        {"localhost.skerrow.example", "localhost.skerrow.example", 0, 0},
        {"127.0.0.1.skerrow.example", "127.0.0.1.skerrow.example", 0, 0},
        {"x:65535", "x", 65535, 0},
    };
    struct server s;

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_int_equal(server_parse(rows[i].text, &s), 0);
        assert_string_equal(s.host, rows[i].host);
        assert_int_equal(s.port, rows[i].port);
        assert_int_equal(server_is_loopback(&s), rows[i].loopback);
    }
}

static void
what_is_none(void **state)
{
    static const char *const bad[] = {"", ":25", "x:", "x:0", "x:65536", "x:y",
        "x:25:26", "x/y", "a b", "user@x", "::1", "[::1", "[]", "[x]:25",
        "[::1]x", ".x", "x.", "x..y", "-x", "x%41", "x?", "x#", "x\n",
        "\xc3\xa9"};
    struct server s;

    (void)state;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        assert_int_equal(server_parse(bad[i], &s), -1);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(servers),
        cmocka_unit_test(what_is_none),
    };

    return cmocka_run_group_tests_name("server", tests, NULL, NULL);
}
