#include "buf.h"
#include "command.h"
#include "problem.h"
#include "suggest.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sysexits.h>

#define VERSION "0.1"

/* Nonzero when all of @b went to @to. */
static int
put(const struct buf *b, FILE *to)
{
    size_t n = buf_len(b);

    return fwrite(buf_str(b), 1, n, to) == n && fflush(to) == 0;
}

static int
say_usage(const char *what, const char *command)
{
    fprintf(stderr, "ostler: %s\ntry: ostler%s%s --help\n", what,
        command ? " " : "", command ? command : "");
    return EX_USAGE;
}

static int
say_no_command(const char *name)
{
    struct suggest guess = suggest_start(name);
    char text[160];

    for (size_t i = 0; command_at(i) != NULL; i++)
        suggest_offer(&guess, command_at(i)->name);
    const char *best = suggest_best(&guess);
    snprintf(text, sizeof text, "there is no command '%.60s'%s%s%s", name,
        best ? "; did you mean '" : "", best ? best : "", best ? "'?" : "");
    return say_usage(text, NULL);
}

/* Show what the command left: its output, its notes, then what went wrong. */
static int
finish(const struct command *c, struct invocation *i, int failed)
{
    int lost = buf_failed(i->out) || !put(i->out, stdout);
    int write_error = errno;

    /* Warnings are for whoever edits the file, not for cron's mail. */
    problems_print(i->problems, c == &cmd_check, i->notes);
    if (failed)
        buf_print(i->notes, "ostler: %s\n", i->fault.text);
    (void)put(i->notes, stderr);
    if (failed)
        return i->fault.code;
    /* Whoever reads may stop early, as head does; that is no failure. */
    if (lost && write_error != EPIPE) {
        fprintf(stderr, "ostler: cannot write the output: %s\n",
            strerror(write_error));
        return EX_IOERR;
    }
    return EX_OK;
}

static int
run(const struct command *c, struct invocation *i)
{
    if (options_value(&i->options, "help") != NULL) {
        command_help(c, i->out);
        return finish(c, i, 0);
    }
    if (i->options.n_operands < c->least || i->options.n_operands > c->most) {
        char text[160];
        snprintf(text, sizeof text, "%s takes %s%s", c->name,
            c->most == 0 ? "no operands" : "the operands ", c->operands);
        return say_usage(text, c->name);
    }
    return finish(c, i, c->run(i));
}

static int
run_command(const struct command *c, int argc, char **argv)
{
    struct invocation i = {
        .out = buf_new(), .notes = buf_new(), .problems = problems_new()};
    struct buf *mistake = buf_new();
    int code = EX_OSERR;

    options_know(&i.options, c->options);
    options_know(&i.options, command_common);
    if (i.out == NULL || i.notes == NULL || i.problems == NULL ||
        mistake == NULL)
        fputs("ostler: out of memory\n", stderr);
    else if (options_read(&i.options, argc, argv, mistake))
        code = say_usage(buf_str(mistake), c->name);
    else
        code = run(c, &i);
    buf_free(mistake);
    problems_free(i.problems);
    buf_free(i.notes);
    buf_free(i.out);
    return code;
}

/* "ostler --help", "ostler --version" and "ostler" alone. */
static int
run_bare(const char *word)
{
    struct buf *help = buf_new();
    int asked = word != NULL &&
                (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0);

    if (word != NULL && strcmp(word, "--version") == 0)
        puts("ostler " VERSION);
    else if (word != NULL && !asked) {
        buf_free(help);
        return say_no_command(word);
    } else if (help != NULL) {
        if (word == NULL)
            buf_text(help, "ostler: no command is given\n\n");
        command_help(NULL, help);
        (void)put(help, asked ? stdout : stderr);
    }
    buf_free(help);
    return word == NULL ? EX_USAGE : EX_OK;
}

/*
 * The command is the first word that is one, so that the common options may
 * stand before it: "ostler -c fleet.conf due".
 */
static int
command_index(int argc, char **argv)
{
    int at = 1;

    while (at < argc && argv[at][0] == '-') {
        int takes_value = strcmp(argv[at], "-c") == 0 ||
                          strcmp(argv[at], "--config") == 0 ||
                          strcmp(argv[at], "--today") == 0;
        if (!takes_value && strncmp(argv[at], "--config=", 9) != 0 &&
            strncmp(argv[at], "--today=", 8) != 0)
            break;
        at += takes_value ? 2 : 1;
    }
    return at;
}

int
main(int argc, char **argv)
{
    int at = command_index(argc, argv);
    const struct command *c = at < argc ? command_find(argv[at]) : NULL;

    if (c == NULL)
        return run_bare(at < argc ? argv[at] : NULL);
    /* Close the gap, so that options stand together. */
    memmove(&argv[at], &argv[at + 1], (size_t)(argc - at - 1) * sizeof argv[0]);
    return run_command(c, argc - 2, argv + 1);
}
