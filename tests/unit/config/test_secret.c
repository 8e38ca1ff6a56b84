/* Secrets stand in files of their own, which others must not be able to use,
 * and no message shows one. */
#include "config/try.h"

#define F "fleet.conf:"
#define FEED "[feed f]\nshows = all\nkey-file = keys/f\n"
#define SECRET "hunter-of-skerries"

static void
assert_file(const char *secret, mode_t mode, const char *expected)
{
    try_write("keys/f", secret);
    assert_int_equal(chmod("keys/f", mode), 0);
    try_case(&(struct try_case){FEED, expected});
}

#define X50 "abcdefghij1234567890ABCDEFGHIJ!#$%&'()*+,-./:;<= ?"
#define X200 X50 X50 X50 X50

static void
good_secrets(void **state)
{
    (void)state;
    assert_file(SECRET "\n", 0600, "");
    assert_file(SECRET, 0400, "");
    assert_file("x", 0600, "");
    assert_file(X200 "\n", 0600, "");
    struct config *c = try_good("fleet.conf");
    const struct feed *f = config_fleet(c)->feeds;
    assert_string_equal(f->key_file, "keys/f");
    config_free(c);
    try_case(&(struct try_case){"[feed f]\nshows = all\n", ""});
    c = try_good("fleet.conf");
    assert_null(config_fleet(c)->feeds->key_file);
    config_free(c);
}

#define OPEN_TO_OTHERS(mode)                                                   \
    F "3: error: 'key-file': the file may be read or written by others "       \
      "(mode " mode "); run chmod 600 on it\n"
#define NOT_A_LINE                                                             \
    F "3: error: 'key-file': the file is not one line of 1 to 200 printable "  \
      "ASCII characters\n"

static void
bad_modes(void **state)
{
    (void)state;
    assert_file(SECRET, 0644, OPEN_TO_OTHERS("0644"));
    assert_file(SECRET, 0640, OPEN_TO_OTHERS("0640"));
    assert_file(SECRET, 0620, OPEN_TO_OTHERS("0620"));
    assert_file(SECRET, 0604, OPEN_TO_OTHERS("0604"));
    assert_file(SECRET, 0602, OPEN_TO_OTHERS("0602"));
    assert_file(SECRET, 0601, OPEN_TO_OTHERS("0601"));
}

static void
bad_contents(void **state)
{
    (void)state;
    assert_file("", 0600, NOT_A_LINE);
    assert_file("\n", 0600, NOT_A_LINE);
    assert_file(SECRET "\n" SECRET "\n", 0600, NOT_A_LINE);
    assert_file(SECRET "\n\n", 0600, NOT_A_LINE);
    assert_file(SECRET "\r\n", 0600, NOT_A_LINE);
    assert_file(SECRET "\t", 0600, NOT_A_LINE);
    assert_file("caf\xc3\xa9", 0600, NOT_A_LINE);
    assert_file(X200 "x", 0600, NOT_A_LINE);
    assert_file(X200 "x\n", 0600, NOT_A_LINE);
    assert_file(X200 X200, 0600, NOT_A_LINE);
}

static void
no_such_file(void **state)
{
    static const struct try_case cases[] = {
        {"[feed f]\nshows = all\nkey-file = keys/none\n",
            F "3: warning: 'key-file': the file cannot be read: No such file "
              "or directory; whoever uses it must be able to\n"},
        {"[feed f]\nshows = all\nkey-file = keys\n",
            F "3: error: 'key-file': the file is not a regular file\n"},
        {"[feed f]\nshows = all\nkey-file =\n",
            F "3: error: 'key-file': no value; expected PATH\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

/* As another user who can see the file's name and no more; root could read
 * every file. */
static void
not_ours(void **state)
{
    (void)state;
    if (geteuid() != 0) {
        skip();
        return;
    }
    assert_int_equal(chmod(".", 0755), 0);
    assert_file(SECRET, 0600, "");
    assert_int_equal(seteuid(65534), 0);
    char *roots = try_read("fleet.conf");
    assert_int_equal(seteuid(0), 0);
    assert_int_equal(chown("keys/f", 12345, 12345), 0);
    assert_int_equal(seteuid(65534), 0);
    char *others = try_read("fleet.conf");
    assert_int_equal(seteuid(0), 0);
    assert_int_equal(chmod("keys", 0700), 0);
    assert_int_equal(seteuid(65534), 0);
    char *hidden = try_read("fleet.conf");
    assert_int_equal(seteuid(0), 0);
    assert_string_equal(roots,
        F "3: warning: 'key-file': the file cannot be read: Permission "
          "denied; whoever uses it must be able to\n");
    assert_string_equal(others, F "3: warning: 'key-file': the file belongs "
                                  "to another user; whoever uses it must be "
                                  "able to\n");
    assert_string_equal(hidden, roots);
    free(roots);
    free(others);
    free(hidden);
    assert_int_equal(unlink("keys/f"), 0);
}

#define ADVICE                                                                 \
    "a secret stands in a file of its own that only you can read; take it "    \
    "out and add key-file = PATH\n"

static void
never_in_the_fleet_file(void **state)
{
    static const struct try_case cases[] = {
        {"[feed f]\nshows = all\nkey = " SECRET "\n",
            F "3: error: 'key': " ADVICE},
        {"[feed f]\nshows = all\nKEY = " SECRET "\n  more\n",
            F "3: error: 'KEY': " ADVICE},
        {"[feed f]\nshows = all\ntitle = F\n  key = " SECRET "\n",
            F "4: error: 'title': " ADVICE},
        {"[feed f]\nshows = all\nkey = a\nkey = " SECRET "\n",
            F "3: error: 'key': " ADVICE F
              "4: error: 'key' again; it stands at fleet.conf:3 already\n"},
        {"[feed f]\nshows = all\nkey: " SECRET "\n",
            F "3: error: expected key = value, [section] or # comment\n"},
        /* Where the path belongs: the path is not shown either. */
        {"[feed f]\nshows = all\nkey-file = " SECRET "\n",
            F "3: warning: 'key-file': the file cannot be read: No such file "
              "or directory; whoever uses it must be able to\n"},
    };

    (void)state;
    TRY_CASES(cases);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        assert_null(strstr(cases[i].problems, SECRET));
}

static int
begin(void **state)
{
    return try_begin(state) || mkdir("keys", 0755);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(good_secrets),
        cmocka_unit_test(bad_modes),
        cmocka_unit_test(bad_contents),
        cmocka_unit_test(no_such_file),
        cmocka_unit_test(never_in_the_fleet_file),
        cmocka_unit_test(not_ours),
    };

    return cmocka_run_group_tests(tests, begin, try_end);
}
