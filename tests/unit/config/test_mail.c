/* How mail leaves: the keys of [mail], and which of them go together. */
#include "config/try.h"

#define SITE "[site]\nname = x\ntime-zone = Etc/UTC\nledger = x\n"
#define FROM "[mail]\nfrom = a@buses.example\n"
#define F "fleet.conf:"

/* Write the fleet file with @lines in [mail]; the first of them is line 7. */
static void
write_mail(const char *from, const char *lines)
{
    char text[2000];

    snprintf(text, sizeof text, SITE "%s%s%s", from, lines,
        strstr(try_rest, "[calendar"));
    try_write("fleet.conf", text);
}

static void
refused(const char *from, const char *lines, const char *problems)
{
    write_mail(from, lines);
    char *said = try_read("fleet.conf");
    assert_string_equal(said, problems);
    free(said);
}

static void
what_is_not_stated(void **state)
{
    static const struct {
        const char *by;
        enum server_tls tls;
        const char *argument;
    } rows[] = {
        {"by = smtp mail.skerrow.example:587\n", SERVER_STARTTLS,
            "mail.skerrow.example:587"},
        {"by = SMTP mail.skerrow.example\n", SERVER_STARTTLS,
            "mail.skerrow.example"},
        {"by = smtp localhost\n", SERVER_TLS_NONE, "localhost"},
        {"by = smtp 127.0.0.1:2525\n", SERVER_TLS_NONE, "127.0.0.1:2525"},
        {"by = smtp [::1]\n", SERVER_TLS_NONE, "[::1]"},
        {"by = smtp localhost\ntls = starttls\n", SERVER_STARTTLS, "localhost"},
        {"by = smtp x\ntls = Implicit\n", SERVER_TLS_IMPLICIT, "x"},
        {"by = folder out\n", SERVER_TLS_NONE, "out"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        write_mail(FROM, rows[i].by);
        struct config *c = try_good("fleet.conf");
        const struct mail_settings *m = &config_fleet(c)->site.mail;
        assert_int_equal(m->tls, rows[i].tls);
        assert_string_equal(m->argument, rows[i].argument);
        assert_int_equal(m->timeout, 300);
        assert_null(m->login);
        if (strcmp(m->transport, "smtp") == 0)
            assert_string_equal(m->ehlo, "buses.example");
        config_free(c);
    }
}

static void
what_is_stated(void **state)
{
    (void)state;
    try_write("password", "herring\n");
    assert_int_equal(chmod("password", 0600), 0);
    write_mail(FROM, "by = smtp x:465\ntls = implicit\nlogin = buses\n"
                     "password-file = password\nca-file = ca.pem\n"
                     "ehlo = depot.skerrow.example\ntimeout = 2 minutes\n");
    struct config *c = try_good("fleet.conf");
    const struct mail_settings *m = &config_fleet(c)->site.mail;
    assert_string_equal(m->login, "buses");
    assert_string_equal(m->password_file, "password");
    assert_string_equal(m->ca_file, "ca.pem");
    assert_string_equal(m->ehlo, "depot.skerrow.example");
    assert_int_equal(m->timeout, 120);
    config_free(c);
}

static void
what_does_not_go(void **state)
{
    static const struct {
        const char *lines;
        const char *problems;
    } rows[] = {
        {"by = smtp a/b\n", F "7: error: 'by': 'a/b' is no server; expected "
                              "one such as mail.skerrow.example:587\n"},
        {"by = smtp a:70000\n", F "7: error: 'by': 'a:70000' is no server; "
                                  "expected one such as "
                                  "mail.skerrow.example:587\n"},
        {"by = smtp a b\n", F "7: error: 'by': 'a b' is no server; expected "
                              "one such as mail.skerrow.example:587\n"},
        {"by = smtp x\ntls = maybe\n", F "8: error: 'tls': 'maybe' is none of "
                                         "starttls, implicit or none\n"},
        {"by = smtp x\ntimeout = 5\n",
            F "8: error: 'timeout': '5' is not a time to wait; expected N "
              "seconds|minutes, an hour at most\n"},
        {"by = smtp x\ntimeout = 61 minutes\n",
            F "8: error: 'timeout': '61 minutes' is not a time to wait; "
              "expected N seconds|minutes, an hour at most\n"},
        {"by = smtp x\nehlo = a_b\n", F "8: error: 'ehlo': 'a_b' is no name "
                                        "of a host; expected one such as "
                                        "buses.skerrow.example\n"},
        {"by = smtp x\nlogin = buses\n",
            F "8: error: 'login': there is no password for it; add "
              "password-file = PATH\n"},
        {"by = smtp x\npassword-file = password\n",
            F "8: error: 'password-file': there is no login for it; add login "
              "= NAME\n"},
        {"by = smtp x\ntls = none\n", F "8: warning: 'tls': mail goes to x for "
                                        "everybody on the way to read; "
                                        "expected starttls or implicit\n"},
        {"by = smtp x\nlogin = buses\npassword-file = password\ntls = none\n",
            F "8: error: 'login': without TLS everybody on the way reads the "
              "password; write tls = starttls or tls = implicit\n" F
              "10: warning: 'tls': mail goes to x for everybody on the way to "
              "read; expected starttls or implicit\n"},
        {"by = folder out\ntls = none\n",
            F "8: error: 'tls': 'folder' has no server to say this to; take it "
              "out, or write by = smtp HOST:PORT\n"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        refused(FROM, rows[i].lines, rows[i].problems);
    refused("[mail]\nfrom = a@b_c.example\n", "by = smtp x\n",
        F "5: error: 'b_c.example' cannot be said to a server; add ehlo = "
          "NAME\n");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_not_stated),
        cmocka_unit_test(what_is_stated),
        cmocka_unit_test(what_does_not_go),
    };

    return cmocka_run_group_tests_name(
        "config_mail", tests, try_begin, try_end);
}
