/* The keys of [server]: where to listen, whom to trust, when to remind. */
#include "config/try.h"

#define SITE "[site]\nname = x\ntime-zone = Etc/UTC\nledger = x\n"
#define F "fleet.conf:"

/* Write the fleet file with @lines in [server]; the first is line 6. */
static void
write_server(const char *lines)
{
    char text[2000];

    snprintf(text, sizeof text, SITE "[server]\n%s%s", lines,
        strstr(try_rest, "[calendar"));
    try_write("fleet.conf", text);
}

static void
what_is_not_stated(void **state)
{
    (void)state;
    write_server("");
    struct config *c = try_good("fleet.conf");
    const struct server_settings *s = &config_fleet(c)->site.server;
    /* Loopback alone, nobody trusted, at seven. */
    assert_string_equal(s->listen, "127.0.0.1:8080");
    assert_null(s->proxies);
    assert_int_equal(s->remind_at, 420);
    config_free(c);
}

static void
what_is_stated(void **state)
{
    static const char *const places[] = {"127.0.0.1:0", "0.0.0.0:65535",
        "[::1]:8080", "unix:/run/ostler/http.sock"};
    char line[200];

    (void)state;
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        snprintf(line, sizeof line, "listen = %s\n", places[i]);
        write_server(line);
        struct config *c = try_good("fleet.conf");
        assert_string_equal(config_fleet(c)->site.server.listen, places[i]);
        config_free(c);
    }
    write_server("proxies = 127.0.0.1 ::1\n  unix\nremind-at = 23:59\n");
    struct config *c = try_good("fleet.conf");
    const struct server_settings *s = &config_fleet(c)->site.server;
    assert_string_equal(s->proxies[0], "127.0.0.1");
    assert_string_equal(s->proxies[1], "::1");
    assert_string_equal(s->proxies[2], "unix");
    assert_null(s->proxies[3]);
    assert_int_equal(s->remind_at, 23 * 60 + 59);
    config_free(c);
}

static void
what_is_refused(void **state)
{
    static const char *const places[] = {"8080", "127.0.0.1", "localhost:8080",
        "127.0.0.1:65536", "::1:8080", "[::1]", "unix:run/http.sock",
        "256.0.0.1:80", "[127.0.0.1:80"};
    static const char *const times[] = {
        "7:00", "24:00", "07.00", "07:60", "07:00 ", "-1:00", "0700"};
    char line[200];
    char problem[300];

    (void)state;
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        snprintf(line, sizeof line, "listen = %s\n", places[i]);
        snprintf(problem, sizeof problem,
            F "6: error: 'listen': '%s' is no place to listen; expected "
              "ADDRESS:PORT or unix:/PATH, such as 127.0.0.1:8080\n",
            places[i]);
        write_server(line);
        char *said = try_read("fleet.conf");
        assert_string_equal(said, problem);
        free(said);
    }
    for (size_t i = 0; i < sizeof times / sizeof *times; i++) {
        snprintf(line, sizeof line, "remind-at = %s\n", times[i]);
        write_server(line);
        char *said = try_read("fleet.conf");
        /* A blank at the end is no part of it. */
        if (times[i][strlen(times[i]) - 1] != ' ')
            assert_non_null(strstr(said, "6: error: 'remind-at': "));
        else
            assert_string_equal(said, "");
        free(said);
    }
    write_server("proxies = 127.0.0.1 proxy.example\n");
    char *said = try_read("fleet.conf");
    assert_string_equal(said,
        F "6: error: 'proxies': 'proxy.example' is no address of a proxy; "
          "expected ADDRESS... or unix\n");
    free(said);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_not_stated),
        cmocka_unit_test(what_is_stated),
        cmocka_unit_test(what_is_refused),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
