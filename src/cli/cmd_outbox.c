#include "arena.h"
#include "arguments.h"
#include "buf.h"
#include "command.h"
#include "lock.h"
#include "outbox.h"
#include "run_lock.h"
#include "send.h"

#include <sysexits.h>

static const struct option_row rows[] = {
    {"send", 0, NULL, "send what is to be tried again by now; for cron"},
    {"retry", 0, NULL, "try now what waits, or message N, even if given up"},
    {"drop", 0, NULL, "message N is not to go out"},
    {"note", 0, "TEXT", "why; --drop needs it"},
    {"dropped", 0, NULL, "list what was dropped"},
    {NULL, 0, NULL, NULL},
};

/* One listing: its messages and where they go. */
struct listing {
    const struct run_context *run;
    struct buf *out;
};

static void
add_time(const struct listing *l, const char *what, int64_t when)
{
    char words[CLOCK_WORDS];

    buf_print(l->out, "%s%s", what,
        clock_words(run_fleet(l->run)->site.time_zone, when, words));
}

static void
add_times(const struct listing *l, const struct outbox_message *m)
{
    add_time(l, "       written ", m->created);
    if (m->attempts > 0) {
        buf_print(l->out, ", tried %d time%s", m->attempts,
            m->attempts == 1 ? "" : "s");
        add_time(l, ", last ", m->tried);
    }
    buf_text(l->out, "\n");
    if (m->dropped != 0)
        add_time(l, "       dropped ", m->dropped);
    else if (m->gave_up != 0)
        add_time(l, "       given up ", m->gave_up);
    else if (m->next_try != 0)
        add_time(l, "       next try not before ", m->next_try);
    else
        buf_text(l->out, "       next try with the next run");
    buf_text(l->out, "\n");
}

static void
add_message(const struct listing *l, const struct outbox_message *m)
{
    buf_print(
        l->out, "%5lld  %s  %s\n", (long long)m->id, m->person, m->recipient);
    add_times(l, m);
    if (m->error != NULL)
        buf_print(l->out, "       %s\n", m->error);
    if (m->note != NULL)
        buf_print(l->out, "       \"%s\"\n", m->note);
}

/* Those that were given up, or those that were not, under @title. */
static void
add_part(const struct listing *l, const char *title,
    const struct outbox_message *m, size_t n, int gave_up)
{
    int any = 0;

    for (size_t k = 0; k < n; k++)
        if ((m[k].gave_up != 0) == gave_up) {
            if (!any)
                buf_print(l->out, "%s%s\n", buf_len(l->out) ? "\n" : "", title);
            any = 1;
            add_message(l, &m[k]);
        }
}

static int
list(struct invocation *i, const struct run_context *p, int dropped)
{
    struct listing l = {p, i->out};
    struct arena *a = arena_new();
    struct outbox_message *m = NULL;
    size_t n = 0;

    if (a == NULL)
        return fault_set(&i->fault, EX_OSERR, "out of memory");
    int rc = (dropped ? outbox_dropped : outbox_open)(
        run_ledger(p), a, &m, &n, &i->fault);
    for (size_t k = 0; dropped && k < n; k++)
        add_message(&l, &m[k]);
    if (!dropped) {
        add_part(&l, "Waiting", m, n, 0);
        add_part(&l, "Given up", m, n, 1);
    }
    arena_free(a);
    return rc;
}

/* Only what will not mend itself is said: cron would mail the rest each time,
 * and nightly says it once a day. */
static int
send_timely(struct invocation *i, const struct run_context *p)
{
    struct send_tally tally;

    if (send_mail(p, &(struct send_request){.timely = 1}, &tally, &i->fault) ==
        0)
        return 0;
    return i->fault.code == EX_TEMPFAIL ? 0 : -1;
}

static int
retry(struct invocation *i, const struct run_context *p, int64_t only)
{
    struct send_tally tally;
    struct send_request request = {.only = only};
    int rc = send_mail(p, &request, &tally, &i->fault);

    buf_print(i->out, "%zu sent, %zu waiting, %zu given up\n", tally.sent,
        tally.waiting, tally.gave_up);
    if (rc == 0 && only != 0 && tally.sent == 0)
        return fault_set(&i->fault, EX_USAGE,
            "there is no message %lld that waits or was given up; see ostler "
            "outbox",
            (long long)only);
    return rc;
}

static int
drop(struct invocation *i, const struct run_context *p, int64_t id)
{
    const char *note = options_value(&i->options, "note");
    struct ledger *l = run_ledger(p);

    if (outbox_drop(l, id, run_moment(p).now, note, &i->fault))
        return -1;
    buf_print(i->out,
        "message %lld is dropped; what it told is not told again\n",
        (long long)id);
    return 0;
}

enum action { LIST, DROPPED, SEND, RETRY, DROP };

/* What is asked for, and of which message, 0 for none; -1 with the fault set
 * when it does not go together. */
static int
read_words(struct invocation *i, int64_t *id)
{
    static const char *const flags[] = {[DROPPED] = "dropped",
        [SEND] = "send",
        [RETRY] = "retry",
        [DROP] = "drop"};
    const char *word = options_operand(&i->options, 0);
    int action = LIST;
    int asked = 0;

    for (int k = DROPPED; k <= DROP; k++)
        if (options_value(&i->options, flags[k]) != NULL) {
            action = k;
            asked++;
        }
    *id = word ? argument_number(i, "N", word) : 0;
    if (*id < 0)
        return -1;
    if (asked > 1)
        return fault_set(&i->fault, EX_USAGE,
            "--send, --retry, --drop and --dropped do not go together");
    if (word != NULL && action != RETRY && action != DROP)
        return fault_set(
            &i->fault, EX_USAGE, "N goes with --retry or --drop only");
    const char *note = options_value(&i->options, "note");
    if (action == DROP && (*id == 0 || note == NULL || *note == '\0'))
        return fault_set(&i->fault, EX_USAGE,
            "--drop needs the number of a message, and --note TEXT, why");
    return action;
}

static int
act(struct invocation *i, const struct run_context *p, int action, int64_t id)
{
    if (action == LIST || action == DROPPED)
        return list(i, p, action == DROPPED);
    if (run_fleet(p)->site.mail.from == NULL && action != DROP)
        return fault_set(
            &i->fault, EX_CONFIG, "there is no [mail] in the fleet file");
    int turn = run_lock_take(p, &i->fault);
    if (turn < 0)
        return action == SEND && i->fault.code == EX_TEMPFAIL ? 0 : -1;
    int rc = action == SEND    ? send_timely(i, p)
             : action == RETRY ? retry(i, p, id)
                               : drop(i, p, id);
    lock_drop(turn);
    return rc;
}

static int
run(struct invocation *i)
{
    int64_t id;
    int action = read_words(i, &id);

    if (action < 0)
        return -1;
    int looks = action == LIST || action == DROPPED;
    struct run_context *p =
        command_run(i, looks ? LEDGER_READ : LEDGER_WRITE, RUN_LATER, 0);
    int rc = p != NULL ? act(i, p, action, id) : -1;
    run_close(p);
    return rc;
}

const struct command cmd_outbox = {
    .name = "outbox",
    .operands = "[N]",
    .most = 1,
    .summary = "List the mail that waits or was given up, retry or drop it.",
    .options = rows,
    .run = run,
};
