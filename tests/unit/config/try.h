#ifndef CONFIG_TRY_H
#define CONFIG_TRY_H

/*
 * For the tests of the fleet file: files written into a folder of their own,
 * from which the program then runs, so that problems name them shortly.
 */
#include "buf.h"
#include "config.h"
#include "problem.h"
#include "test.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const struct config_transport try_transports[] = {
    {"folder", "PATH", 0}, {"smtp", "SERVER", 1}};
static const struct config_options try_options = {try_transports, 2};

/* Group set-up: a new folder, and go there. */
static inline int
try_begin(void **state)
{
    char folder[] = "/tmp/ostler-config-XXXXXX";

    if (mkdtemp(folder) == NULL || chdir(folder) != 0)
        return -1;
    *state = strdup(folder);
    return *state == NULL ? -1 : 0;
}

/* Group tear-down: leave nothing behind. */
static inline int
try_end(void **state)
{
    char command[100];

    snprintf(command, sizeof command, "rm -rf '%s'", (char *)*state);
    free(*state);
    return chdir("/") != 0 || system(command) != 0;
}

static inline void
try_write_bytes(const char *path, const char *bytes, size_t len)
{
    FILE *f = fopen(path, "wb");

    assert_non_null(f);
    assert_int_equal(fwrite(bytes, 1, len, f), len);
    assert_int_equal(fclose(f), 0);
}

static inline void
try_write(const char *path, const char *text)
{
    try_write_bytes(path, text, strlen(text));
}

/* Read the fleet file at @path: the problems, to be given to free().  The
 * fleet is there exactly when none of them is an error. */
static inline char *
try_read(const char *path)
{
    struct problems *ps = problems_new();
    struct buf *out = buf_new();

    assert_non_null(ps);
    assert_non_null(out);
    struct config *c = config_read(path, &try_options, ps);
    int errors = problems_count(ps, PROBLEM_ERROR) > 0;
    assert_int_equal(c == NULL, errors);
    config_free(c);
    problems_print(ps, 1, out);
    char *text = strdup(buf_str(out));
    buf_free(out);
    problems_free(ps);
    assert_non_null(text);
    return text;
}

/* Read a fleet file that has no error: to be given to config_free(). */
static inline struct config *
try_good(const char *path)
{
    struct problems *ps = problems_new();

    assert_non_null(ps);
    struct config *c = config_read(path, &try_options, ps);
    problems_free(ps);
    assert_non_null(c);
    return c;
}

/* What a test needs around the thing it is about: lines of its own come
 * first, so that they are numbered from 1. */
static const char try_rest[] = "[site]\n"
                               "name = Skerrow Isles Transport\n"
                               "time-zone = Europe/London\n"
                               "ledger = ledger.db\n"
                               "[mail]\n"
                               "from = ostler@skerrow.example\n"
                               "by = folder outbox\n"
                               "[calendar workshop]\n"
                               "works = mon tue wed thu fri\n"
                               "holidays = none\n"
                               "[depot harbour]\n"
                               "calendar = workshop\n"
                               "[job check]\n"
                               "title = Check\n"
                               "class = own\n"
                               "every = 6 weeks\n"
                               "[vehicle K7]\n"
                               "depot = harbour\n"
                               "jobs = check\n";

/* One fleet file with its problems. */
struct try_case {
    const char *text;     /* stands before try_rest */
    const char *problems; /* "" for none */
};

static inline void
try_case(const struct try_case *c)
{
    char text[8192];

    int n = snprintf(text, sizeof text, "%s%s", c->text, try_rest);
    assert_true(n > 0 && (size_t)n < sizeof text);
    try_write("fleet.conf", text);
    char *problems = try_read("fleet.conf");
    if (strcmp(problems, c->problems) != 0)
        print_message("for the text\n%s", c->text);
    assert_string_equal(problems, c->problems);
    free(problems);
}

static inline void
try_cases(const struct try_case *cases, size_t n)
{
    for (size_t i = 0; i < n; i++)
        try_case(&cases[i]);
}

#define TRY_CASES(cases) try_cases(cases, sizeof(cases) / sizeof(cases)[0])

#endif
