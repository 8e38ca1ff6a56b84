/* Lines, sections and files: what inih would cut, merge or overlook is
 * refused, each with its line, and reading goes on. */
#include "config/try.h"

#define F "fleet.conf:"

/* 199 bytes with their newline are the most that inih reads whole. */
#define X10 "xxxxxxxxxx"
#define X50 X10 X10 X10 X10 X10
#define X190 X50 X50 X50 X10 X10 X10 X10

static void
good_lines(void **state)
{
    static const struct try_case cases[] = {
        {"", ""},
        {"# comment\n; comment\n\n   \n\t\n  # indented comment\n", ""},
        {"\xef\xbb\xbf# a byte order mark\n", ""},
        {"[feed a]\r\nshows = all\r\n", ""},
        {"[feed a]\nshows = all\ntitle = a;b # c\n", ""},
        {"[feed a]\nshows=all\ntitle=\n", F "3: error: 'title': no value; "
                                            "expected TEXT\n"},
        {"[ feed   a ] \t\nSHOWS = ALL\n", ""},
        {"#3456789" X190 "\n", ""}, /* 198 bytes and a newline */
        {"[feed a]\nshows = all\ntitle = \xc3\xa9t\xc3\xa9\n", ""},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
bad_lines(void **state)
{
    static const struct try_case cases[] = {
        {"#34567890" X190 "\n", F "1: error: line of more than 199 bytes; "
                                  "go on over indented lines\n"},
        {"#3456789" X190 "\r\n", F "1: error: line of more than 199 bytes; "
                                   "go on over indented lines\n"},
        /* What stands beyond must not become a key of its own. */
        {"[feed a]\nshows = all\n#34567890" X190 "\nhorizon = 1 year\n",
            F "3: error: line of more than 199 bytes; "
              "go on over indented lines\n"},
        {"[feed a]\nshows = all\ntitle  = " X190 "\n  and more\n",
            F "3: error: line of more than 199 bytes; "
              "go on over indented lines\n"},
        {"[feed a]\nshows = all\rtitle = x\n",
            F "2: error: byte 12 is a carriage return; "
              "end each line with LF or CRLF\n"},
        {"# \x01\n",
            F "1: error: byte 3 begins a control character; take it out\n"},
        {"# \x7f\n",
            F "1: error: byte 3 begins a control character; take it out\n"},
        {"# \xc2\x85\n",
            F "1: error: byte 3 begins a control character; take it out\n"},
        {"# caf\xe9\n",
            F "1: error: byte 6 (0xe9) is not UTF-8; save the file as "
              "UTF-8\n"},
        {"# \xc0\xaf\n",
            F "1: error: byte 3 (0xc0) is not UTF-8; save the file as "
              "UTF-8\n"},
        {"# \xed\xa0\x80\n",
            F "1: error: byte 3 (0xed) is not UTF-8; save the file as "
              "UTF-8\n"},
        {"# \xf4\x90\x80\x80\n",
            F "1: error: byte 3 (0xf4) is not UTF-8; save the file as "
              "UTF-8\n"},
        {"# \xe2\x82\n",
            F "1: error: byte 3 (0xe2) is not UTF-8; save the file as "
              "UTF-8\n"},
        {"[feed a]\nshows = all ; everything\ntitle = x\n",
            F "2: error: ';' after a blank; a comment stands on a line of "
              "its own\n"},
        {"[feed a]\nshows = all\ntitle = x\n  y\t; z\n",
            F "4: error: ';' after a blank; a comment stands on a line of "
              "its own\n"},
        {"[feed a]\nshows = all\ntitle = ;\n",
            F "3: error: ';' after a blank; a comment stands on a line of "
              "its own\n"},
        {"  shows = all\n",
            F "1: error: an indented line with no key above; begin a key at "
              "the start of the line\n"},
        {"[feed a]\n  shows = all\nshows = all\n",
            F "2: error: an indented line with no key above; begin a key at "
              "the start of the line\n"},
        {"[feed a]\nshows = all\n  [feed b]\n",
            F "3: error: an indented line goes on with the value above; "
              "move '[' to the start of the line\n"},
        {"[feed a]\ntitle = Harbour\n  shows = all\nhorizon = 1 year\n",
            F "1: error: [feed a] has no 'shows'; add shows = all, "
              "depot DEPOT, subject SUBJECT, job JOB or person PERSON\n" F
              "3: error: 'title': the indented line 'shows = all' goes on "
              "with this value; begin a key at the start of the line\n"},
        {"[feed a]\nshows = all\njust words\n",
            F "3: error: expected key = value, [section] or # comment\n"},
        {"[feed a]\nshows = all\ntitle: Harbour = x\n",
            F "3: error: expected key = value, [section] or # comment\n"},
        {"[feed a]\nshows = all\n= x\n",
            F "3: error: no key before '='; expected key = value\n"},
        {"title = x\n  y\n",
            F "1: error: 'title' stands before any section; begin with a "
              "line such as [site]\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
bad_sections(void **state)
{
    static const struct try_case cases[] = {
        {"[feed a\nshows = nothing\n",
            F "1: error: '[' without ']'; expected [kind name]\n"},
        {"[feed a] x\nshows = nothing\n",
            F "1: error: text after ']'; a section stands on a line of its "
              "own\n"},
        {"[feed a]]\n", F "1: error: text after ']'; a section stands on a "
                          "line of its own\n"},
        {"[feed a] ; x\n",
            F "1: error: ';' after a blank; a comment stands on a line of "
              "its own\n"},
        {"[feed 67890" X10 X10 X10 X10 "]\n",
            F "1: error: the name between '[' and ']' has 50 bytes; "
              "expected at most 49\n"},
        {"[feed 6789" X10 X10 X10 X10 "]\n",
            F "1: error: '6789" X10 X10 X10 X10
              "' has 44 letters; a name has at most 40\n"},
        {"[feeed a]\nshows = nothing\n",
            F "1: error: unknown section 'feeed'; did you mean 'feed'?\n"},
        {"[lorry L1]\n",
            F "1: error: unknown section 'lorry'; expected site, mail, "
              "server, holidays, calendar, depot, job, check, type, vehicle, "
              "equipment, driver, person, feed or limit\n"},
        {"[]\n",
            F "1: error: unknown section ''; expected site, mail, "
              "server, holidays, calendar, depot, job, check, type, vehicle, "
              "equipment, driver, person, feed or limit\n"},
        {"[feed]\nshows = all\n",
            F "1: error: [feed] without a name; expected [feed NAME]\n"},
        {"[mail x]\nfrom = x\n",
            F "1: error: [mail] takes no name; expected [mail]\n"},
        {"[feed a b]\n",
            F "1: error: 'a b' is not a name; expected letters, digits, '-' "
              "and '_'\n"},
        {"[feed a.b]\n",
            F "1: error: 'a.b' is not a name; expected letters, digits, '-' "
              "and '_'\n"},
        {"[feed \xc3\xa9]\n",
            F "1: error: '\xc3\xa9' is not a name; expected letters, digits, "
              "'-' and '_'\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
again(void **state)
{
    static const struct try_case cases[] = {
        {"[feed a]\nshows = all\n[feed A]\nshows = nothing\n",
            F "3: error: [feed A] again; it stands at fleet.conf:1 "
              "already\n"},
        {"[equipment k7]\n",
            F "1: warning: [equipment k7] has no job, so it is never due; "
              "add jobs = JOB...\n" F
              "14: warning: nobody has the job 'check'; add it to the 'jobs' "
              "of a subject\n" F
              "18: error: 'K7' again; it stands at fleet.conf:1 already\n"},
        {"[mail]\nfrom = a@b.example\nby = folder x\n",
            F "8: error: [mail] again; it stands at fleet.conf:1 already\n"},
        {"[feed a]\nshows = all\nShows = nothing\n  at all\n",
            F "3: error: 'Shows' again; it stands at fleet.conf:2 "
              "already\n"},
        /* The same name for things of different kinds is fine. */
        {"[feed harbour]\nshows = all\n", ""},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
nul_bytes(void **state)
{
    static const char text[] = "# a\0b\n[site]\nname = x\n";

    (void)state;
    try_write_bytes("nul.conf", text, sizeof text - 1);
    char *problems = try_read("nul.conf");
    assert_non_null(strstr(problems,
        "nul.conf:1: error: byte 4 is NUL; this is not a text file\n"));
    free(problems);
}

static void
assert_problems(const char *path, const char *expected)
{
    char *problems = try_read(path);

    assert_string_equal(problems, expected);
    free(problems);
}

static void
unreadable_files(void **state)
{
    (void)state;
    assert_problems("none.conf",
        "none.conf: error: cannot be read: No such file or directory\n");
    mkdir("folder.conf", 0755);
    assert_problems(
        "folder.conf", "folder.conf: error: is not a regular file\n");
    assert_int_equal(mkfifo("pipe.conf", 0600), 0);
    assert_problems("pipe.conf", "pipe.conf: error: is not a regular file\n");
    try_write("empty.conf", "");
    assert_problems("empty.conf",
        "empty.conf: error: there is no [site]; add it with name, time-zone "
        "and ledger\n"
        "empty.conf: warning: there is no vehicle, equipment or driver, so "
        "nothing is ever due\n");
}

/* A file of one MiB is read, one byte more is not. */
static void
large_files(void **state)
{
    size_t most = (size_t)1 << 20;
    size_t rest = strlen(try_rest);
    char *text = malloc(most + 1);

    (void)state;
    assert_non_null(text);
    memset(text, '\n', most + 1);
    memcpy(text, try_rest, rest);
    try_write_bytes("large.conf", text, most);
    assert_problems("large.conf", "");
    try_write_bytes("large.conf", text, most + 1);
    assert_problems("large.conf", "large.conf: error: is larger than 1 MiB\n");
    free(text);
}

/* A section at the end of one file does not go on in the next. */
static void
includes(void **state)
{
    (void)state;
    mkdir("etc", 0755);
    mkdir("etc/more [1]", 0755);
    mkdir("etc/more [1]/d", 0755);
    try_write("etc/more [1]/main.conf",
        "[site]\nname = x\ntime-zone = Europe/London\nledger = l\n"
        "include = d/*.conf\n");
    try_write("etc/more [1]/d/b.conf", "title = late\n");
    try_write("etc/more [1]/d/a.conf", try_rest);
    assert_problems("etc/more [1]/main.conf",
        "etc/more [1]/d/a.conf:1: error: [site] again; it stands at "
        "etc/more [1]/main.conf:1 already\n"
        "etc/more [1]/d/b.conf:1: error: 'title' stands before any section; "
        "begin with a line such as [site]\n");
}

static void
bad_includes(void **state)
{
    (void)state;
    mkdir("inc", 0755);
    try_write("inc/rest.conf", strstr(try_rest, "[mail]"));
    try_write("self.conf", "[site]\nname = x\ntime-zone = Europe/London\n"
                           "ledger = l\ninclude =\n"
                           "  inc/*.conf\n"
                           "  none/*.conf\n"
                           "  inc/rest.conf\n"
                           "  self.conf\n"
                           "  ./inc\n");
    assert_problems("self.conf",
        "self.conf:7: error: 'include': 'none/*.conf' finds no file; correct "
        "it or take it out\n"
        "self.conf:8: error: 'include': 'inc/rest.conf' finds inc/rest.conf, "
        "which is read already; name each file once\n"
        "self.conf:9: error: 'include': 'self.conf' finds self.conf, which "
        "is read already; name each file once\n"
        "./inc: error: is not a regular file\n");
}

#define SITE "[site]\nname = x\ntime-zone = Europe/London\nledger = l\n"

/* What is on offer need not be used; what is wrong with it is said. */
static void
presets(void **state)
{
    (void)state;
    mkdir("presets", 0755);
    mkdir("own", 0755);
    try_write("presets/jobs.conf",
        "[job spare]\ntitle = Spare\nclass = own\n"
        "every = 1 year\n"
        "[holidays unkept]\nday = 6 jan\n"
        "[calendar unused]\nworks = sat\nholidays = none\n");
    try_write("own/jobs.conf", "[job idle]\ntitle = Idle\nclass = own\n"
                               "every = 1 year\n");
    try_write("own/rest.conf", strstr(try_rest, "[mail]"));
    try_write("good.conf", SITE "include = own/rest.conf\n"
                                "presets =\n  presets/*.conf\n");
    assert_problems("good.conf", "");
    /* In whatever order the two keys stand. */
    try_write("idle.conf", SITE "presets = presets/*.conf\n"
                                "include = own/*.conf\n");
    assert_problems("idle.conf",
        "own/jobs.conf:1: warning: nobody has the job 'idle'; add it to the "
        "'jobs' of a subject\n");
    try_write("bad.conf", SITE "include = own/rest.conf\n"
                               "presets = jobs.conf own/rest.conf\n"
                               "  presets/*.conf bad.conf\n"
                               "[job Spare]\ntitle = S\nclass = own\n"
                               "every = 2 years\n");
    assert_problems("bad.conf",
        "bad.conf:6: error: 'presets': 'jobs.conf' finds no file; correct it "
        "or take it out\n"
        "bad.conf:6: error: 'presets': 'own/rest.conf' finds own/rest.conf, "
        "which is read already; name each file once\n"
        "bad.conf:7: error: 'presets': 'bad.conf' finds bad.conf, which is "
        "read already; name each file once\n"
        "bad.conf:8: warning: nobody has the job 'Spare'; add it to the "
        "'jobs' of a subject\n"
        "presets/jobs.conf:1: error: [job spare] again; it stands at "
        "bad.conf:8 already\n");
    try_write("site.conf", SITE "presets =\n");
    assert_problems("site.conf",
        "site.conf: warning: there is no vehicle, equipment or driver, so "
        "nothing is ever due\n"
        "site.conf:5: error: 'presets': no value; expected PATTERN...\n");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(good_lines),
        cmocka_unit_test(bad_lines),
        cmocka_unit_test(bad_sections),
        cmocka_unit_test(again),
        cmocka_unit_test(nul_bytes),
        cmocka_unit_test(unreadable_files),
        cmocka_unit_test(large_files),
        cmocka_unit_test(includes),
        cmocka_unit_test(bad_includes),
        cmocka_unit_test(presets),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
