/* Malformed files beyond single lines and values: what another program might
 * write, what stands there twice, what is not there, and what leads back to
 * itself. */
#include "config/try.h"

#define F "fleet.conf:"

/* The bytes before try_rest, NUL among them. */
struct bytes_case {
    const char *bytes;
    size_t len;
    const char *problems;
};

#define BYTES(text) text, sizeof(text) - 1

/* Of other encodings and other systems. */
static void
other_text(void **state)
{
    static const struct bytes_case cases[] = {
        {BYTES("[feed a]\nshows = all\ntitle = a\0b\n"),
            F "3: error: byte 10 is NUL; this is not a text file\n"},
        {BYTES("[feed a\0]\nshows = nothing\n"),
            F "1: error: byte 8 is NUL; this is not a text file\n"},
        {BYTES("\0\n"), F "1: error: byte 1 is NUL; this is not a text file\n"},
        /* UTF-16: its byte order mark, then every other byte a NUL. */
        {BYTES("\xff\xfe[\0f\0\n\0\n"),
            F "1: error: byte 1 (0xff) is not UTF-8; save the file as UTF-8\n" F
              "2: error: byte 1 is NUL; this is not a text file\n"},
        {BYTES("\xfe\xff\0[\0f\n"),
            F "1: error: byte 1 (0xfe) is not UTF-8; save the file as UTF-8\n"},
        /* A byte order mark where a file was pasted in. */
        {BYTES("[feed a]\n\xef\xbb\xbfshows = all\n"),
            F "1: error: [feed a] has no 'shows'; add shows = all, depot "
              "DEPOT, subject SUBJECT, job JOB or person PERSON\n" F
              "2: error: unknown key '\xef\xbb\xbfshows' in [feed a]; did you "
              "mean 'shows'?\n"},
        {BYTES("\xef\xbb\xbf\xef\xbb\xbf[feed a]\n"),
            F "1: error: expected key = value, [section] or # comment\n"},
        /* Lines that end with CR alone are one line. */
        {BYTES("[feed a]\rshows = all\r[feed b]\rshows = all\r\n"),
            F "1: error: byte 9 is a carriage return; end each line with LF "
              "or CRLF\n"},
        {BYTES("[feed a]\r\r\nshows = nothing\n"),
            F "1: error: byte 9 is a carriage return; end each line with LF "
              "or CRLF\n"},
        {BYTES("\r\r\n"), F "1: error: byte 1 is a carriage return; end each "
                            "line with LF or CRLF\n"},
        {BYTES("[feed a]\nshows = all\n\x0c\n"),
            F "3: error: byte 1 begins a control character; take it out\n"},
        {BYTES("# \x1b[31m\n"),
            F "1: error: byte 3 begins a control character; take it out\n"},
        {BYTES("# \xe2\x80\xa8 is no line end here\n"), ""},
        {BYTES("# \xf0\x9f\x9a\x8c\n"), ""},
        {BYTES("# \xf8\x88\x80\x80\x80\n"),
            F "1: error: byte 3 (0xf8) is not UTF-8; save the file as "
              "UTF-8\n"},
        {BYTES("# \x80\n"), F "1: error: byte 3 (0x80) is not UTF-8; save the "
                              "file as UTF-8\n"},
    };
    static const size_t rest = sizeof try_rest - 1;
    char text[2048];

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        memcpy(text, cases[i].bytes, cases[i].len);
        memcpy(text + cases[i].len, try_rest, rest);
        try_write_bytes("fleet.conf", text, cases[i].len + rest);
        char *problems = try_read("fleet.conf");
        if (strcmp(problems, cases[i].problems) != 0)
            print_message("in row %zu\n", i);
        assert_string_equal(problems, cases[i].problems);
        free(problems);
    }
}

#define X10 "xxxxxxxxxx"
#define X40 X10 X10 X10 X10
#define X200 X40 X40 X40 X40 X40

/* What inih would cut so that two become one. */
static void
long_and_merged(void **state)
{
    static const struct try_case cases[] = {
        /* These two differ after the 49th byte alone. */
        {"[feed " X40 "xxxxA]\nshows = all\n[feed " X40
         "xxxxB]\nshows = nothing\n",
            F "1: error: the name between '[' and ']' has 50 bytes; expected "
              "at most 49\n" F "3: error: the name between '[' and ']' has 50 "
              "bytes; expected at most 49\n"},
        {"[feed a" X200 "]\nshows = nothing\n",
            F "1: error: line of more than 199 bytes; go on over indented "
              "lines\n"},
        {"a" X200 " = x\n", F "1: error: line of more than 199 bytes; go on "
                              "over indented lines\n"},
        {"[feed a]\nshows = all\ntitle = x\n  a" X200 "\n",
            F "4: error: line of more than 199 bytes; go on over indented "
              "lines\n"},
        {"[feed a]\nshows = all\n" X40 X40 " = x\n",
            F "3: error: unknown key '" X40 X40
              "' in [feed a]; ostler-fleet(5) lists what there is\n"},
        {"[feed a]\n[feed b]\nshows = all\n",
            F "1: error: [feed a] has no 'shows'; add shows = all, depot "
              "DEPOT, subject SUBJECT, job JOB or person PERSON\n"},
        /* A file that ends in the middle of a section's name. */
        {"[feed a", "fleet.conf: error: there is no [site]; add it with name, "
                    "time-zone and ledger\n" F
                    "1: error: 'a[site' is not a name; expected letters, "
                    "digits, '-' and '_'\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
there_twice(void **state)
{
    static const struct try_case cases[] = {
        /* Nothing can be carried by two: the key takes one vehicle. */
        {"[equipment E]\njobs = check\ncarried-by = K7\ncarried-by = K8\n"
         "[vehicle K8]\ndepot = harbour\njobs = check\n",
            F "4: error: 'carried-by' again; it stands at fleet.conf:3 "
              "already\n"},
        {"[equipment E]\njobs = check\ncarried-by = K7 K8\n"
         "[vehicle K8]\ndepot = harbour\njobs = check\n",
            F "3: error: 'carried-by': there is no vehicle, equipment or "
              "driver 'K7 K8'; correct it or add its section\n"},
        {"[equipment E]\njobs = check\ncarried-by = K7\n[equipment E]\n"
         "jobs = check\ncarried-by = K8\n[vehicle K8]\ndepot = harbour\n"
         "jobs = check\n",
            F "4: error: [equipment E] again; it stands at fleet.conf:1 "
              "already\n"},
        {"[job j]\ntitle = J\n[job J]\ntitle = J\nclass = own\n",
            F "1: error: [job j] has no 'class'; add class = law, "
              "recommendation, maker or own\n" F
              "1: error: [job j] has no 'every'; add every = INTERVAL, or "
              "'follows' and 'within' for work that another job makes due\n" F
              "1: warning: nobody has the job 'j'; add it to the 'jobs' of a "
              "subject\n" F
              "3: error: [job J] again; it stands at fleet.conf:1 already\n"},
        {"[calendar Workshop]\nworks = sat\n",
            F "10: error: [calendar workshop] again; it stands at "
              "fleet.conf:1 already\n"},
        {"[vehicle V]\ndepot = harbour\njobs = check\n"
         "check.every = 1 week\nCHECK.every = 2 weeks\n",
            F "5: error: 'CHECK.every' again; it stands at fleet.conf:4 "
              "already\n"},
        {"[vehicle V]\ndepot = harbour\njobs = check check\n",
            F "3: error: 'jobs': 'check' stands there twice; take one out\n"},
        {"[driver D]\ndepot = harbour\njobs = check\n[vehicle d]\n"
         "depot = harbour\njobs = check\n",
            F "4: error: 'd' again; it stands at fleet.conf:1 already\n"},
        {"[person p]\nmail = a@b.example\ntold = all\n[person p]\n"
         "mail = a@b.example\n[person p]\n",
            F "4: error: [person p] again; it stands at fleet.conf:1 "
              "already\n" F "6: error: [person p] again; it stands at "
              "fleet.conf:1 already\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
not_there(void **state)
{
#define JOB                                                                    \
    "[driver D1]\ndepot = harbour\njobs = j\n[job j]\ntitle = J\n"             \
    "class = own\nevery = 1 year\n"
    static const struct try_case cases[] = {
        {"[calendar c]\nworks = mon\nholidays = bank\n",
            F "3: error: 'holidays': there is no holidays 'bank'; correct it "
              "or add its section\n"},
        {"[depot d]\ncalendar = workshp\n",
            F "2: error: 'calendar': there is no calendar 'workshp'; did you "
              "mean 'workshop'?\n"},
        {JOB "calendar = moon\n",
            F "8: error: 'calendar': there is no calendar 'moon'; correct it "
              "or add its section\n"},
        {JOB "covers = chek, check\n",
            F "8: error: 'covers': there is no job 'chek'; did you mean "
              "'check'?\n"},
        {"[driver D1]\ndepot = harbour\njobs = j\n[job j]\ntitle = J\n"
         "class = own\nfollows = wheel\nwithin = 2 days\n",
            F "7: error: 'follows': there is no job 'wheel'; correct it or "
              "add its section\n"},
        {"[feed f]\nshows = depot north\n",
            F "2: error: 'shows': there is no depot 'north'; correct it or "
              "add its section\n"},
        {"[feed f]\nshows = subject Q\n",
            F "2: error: 'shows': there is no vehicle, equipment or driver "
              "'Q'; correct it or add its section\n"},
        {"[feed f]\nshows = job oil\n",
            F "2: error: 'shows': there is no job 'oil'; correct it or add "
              "its section\n"},
        {"[feed f]\nshows = K7\n",
            F "2: error: 'shows': 'K7' is not what can be shown; expected "
              "all, depot DEPOT, subject SUBJECT, job JOB or person PERSON\n"},
        {"[feed f]\nshows = depot\n",
            F "2: error: 'shows': 'depot' is not what can be shown; expected "
              "all, depot DEPOT, subject SUBJECT, job JOB or person PERSON\n"},
        /* A type is no subject. */
        {"[type t]\njobs = check\n[feed f]\nshows = subject t\n",
            F "4: error: 'shows': there is no vehicle, equipment or driver "
              "'t'; correct it or add its section\n"},
        {"[vehicle V]\ntype = K7\ndepot = harbour\njobs = check\n",
            F "2: error: 'type': there is no type 'K7'; correct it or add its "
              "section\n"},
        {"[vehicle V]\ndepot = harbour\njobs = paint\n",
            F "3: error: 'jobs': there is no job 'paint'; correct it or add "
              "its section\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
circles(void **state)
{
#undef JOB
#define JOB(id, covers)                                                        \
    "[job " id "]\ntitle = J\nclass = own\nevery = 1 year\ncovers = " covers   \
    "\n"
    static const struct try_case cases[] = {
        {"[driver D]\ndepot = harbour\njobs = a b c\n" JOB("a", "b")
                JOB("b", "c") JOB("c", "a"),
            F "8: error: 'covers': jobs cover each other in a circle: a "
              "covers b covers c covers a\n"},
        /* Two circles, and one that only leads into the first. */
        {"[driver D]\ndepot = harbour\njobs = a b c d e\n" JOB("e", "a")
                JOB("a", "b") JOB("b", "a") JOB("c", "d") JOB("d", "c"),
            F "13: error: 'covers': jobs cover each other in a circle: a "
              "covers b covers a\n" F
              "23: error: 'covers': jobs cover each other in a circle: c "
              "covers d covers c\n"},
        {"[driver D]\ndepot = harbour\njobs = a\n" JOB("a", "a"),
            F "8: error: 'covers': jobs cover each other in a circle: a "
              "covers a\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
assert_problems(const char *path, const char *expected)
{
    char *problems = try_read(path);

    assert_string_equal(problems, expected);
    free(problems);
}

#define SITE "[site]\nname = x\ntime-zone = Europe/London\nledger = l\n"

/* A file that leads back to one that is read, by whatever name. */
static void
circles_of_files(void **state)
{
    (void)state;
    try_write("rest.conf", strstr(try_rest, "[mail]"));
    try_write("top.conf", SITE "include = rest.conf same.conf loop.conf\n");
    assert_int_equal(link("top.conf", "same.conf"), 0);
    assert_int_equal(symlink("loop.conf", "loop.conf"), 0);
    assert_problems("top.conf",
        "top.conf:5: error: 'include': 'same.conf' finds top.conf, which is "
        "read already; name each file once\n"
        "loop.conf: error: cannot be read: Too many levels of symbolic "
        "links\n");
    /* Only the first file includes: there is one site. */
    try_write("second.conf", "[site]\ninclude = first.conf\n");
    try_write("first.conf", SITE "include = rest.conf second.conf\n");
    assert_problems("first.conf",
        "second.conf:1: error: [site] again; it stands at first.conf:1 "
        "already\n");
    try_write("nowhere.conf", SITE "include = rest.conf gone.conf\n");
    assert_int_equal(symlink("nobody", "gone.conf"), 0);
    assert_problems("nowhere.conf",
        "gone.conf: error: cannot be read: No such file or directory\n");
    mkdir("sub", 0755);
    try_write("dirs.conf", SITE "include = rest.conf sub\n");
    assert_problems("dirs.conf", "sub: error: is not a regular file\n");
}

/* Root may read everything that is there, but not this: a process has nothing
 * at its address 0. */
static void
unreadable(void **state)
{
    (void)state;
    assert_problems("/proc/self/mem",
        "/proc/self/mem: error: cannot be read: Input/output error\n");
    assert_problems("/dev/zero", "/dev/zero: error: is not a regular file\n");
    assert_problems("", ": error: cannot be read: No such file or directory\n");
    assert_int_equal(symlink("/proc/self/mem", "mem.conf"), 0);
    try_write("fleet.conf", SITE "include = rest.conf mem.conf\n");
    assert_problems(
        "fleet.conf", "mem.conf: error: cannot be read: Input/output error\n");
    try_write("fleet.conf", "[holidays h]\nfile = mem.conf\n");
    try_case(&(struct try_case){"[holidays h]\nfile = mem.conf\n",
        F "2: error: 'file': mem.conf cannot be read: Input/output error\n"});
    try_case(&(struct try_case){"[holidays h]\nfile = .\n",
        F "2: error: 'file': . is not a regular file\n"});
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(other_text),
        cmocka_unit_test(long_and_merged),
        cmocka_unit_test(there_twice),
        cmocka_unit_test(not_there),
        cmocka_unit_test(circles),
        cmocka_unit_test(circles_of_files),
        cmocka_unit_test(unreadable),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
