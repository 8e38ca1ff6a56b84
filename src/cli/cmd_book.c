#include "arena.h"
#include "arguments.h"
#include "booked.h"
#include "buf.h"
#include "dues.h"
#include "planning.h"
#include "records.h"
#include "select.h"

#include <sysexits.h>

static const struct option_row rows[] = {
    {"on", 0, "DAY", "the day to fix, 2026-12-02; or of what to take back"},
    {"by", 0, "NAME", "who booked it"},
    {"note", 0, "TEXT", "anything worth keeping"},
    ARGUMENT_SURE,
    {"cancel", 0, NULL, "instead: take the booking back"},
    {NULL, 0, NULL, NULL},
};

/* What is asked for. */
struct booking_asked {
    struct invocation *i;
    const struct run_context *run;
    const struct task *task;
    day_t day;
    const char *by;
    const char *note;
};

static int
is_sure(const struct booking_asked *b)
{
    return options_value(&b->i->options, "sure") != NULL;
}

/* What cannot be, and, unless --sure was given, what is unwise. */
static int
check(const struct booking_asked *b, const struct due *d)
{
    struct fault *f = &b->i->fault;
    char day[DAY_WORDS];
    char other[DAY_WORDS];
    const char *why = work_calendar_why(b->task->calendar, b->day);

    day_words(b->day, day);
    if (d == NULL)
        return fault_set(f, EX_DATAERR,
            "%s has no %s to be done by %s within the plan, which reaches to "
            "%s; see ostler plan",
            b->task->subject->id, b->task->job->id, day,
            day_words(planning_until(b->run), other));
    if (d->booked == b->day)
        return fault_set(f, EX_DATAERR, "it is booked for %s already", day);
    if (is_sure(b))
        return 0;
    if (b->day > d->deadline && !d->no_return &&
        d->deadline >= run_moment(b->run).today)
        return fault_set(f, EX_DATAERR,
            "%s is after the deadline, %s; give an earlier day, or --sure", day,
            day_words(d->deadline, other));
    if (!work_calendar_is_open(b->task->calendar, b->day))
        return fault_set(f, EX_DATAERR,
            "%s is not a working day for it%s%s; give another, or --sure", day,
            why ? ": " : "", why ? why : "");
    return 0;
}

/* What the booking is worth to those who made it. */
static int
say_early(const struct booking_asked *b, day_t deadline)
{
    const struct fleet_plan *a = planning_of_run(b->run, &b->i->fault);
    char day[DAY_WORDS];

    if (a == NULL)
        return -1;
    const struct plan_booking *p = fleet_plan_find(a, b->task, deadline);
    if (p != NULL && b->day < p->call.from)
        buf_print(b->i->out,
            "; earlier than %s, which wastes some of its interval",
            day_words(p->call.from, day));
    return 0;
}

static int
add(const struct booking_asked *b, const struct due *d)
{
    char cycle[CYCLE_TEXT];
    char day[DAY_WORDS];
    const struct record_value value = {
        .word = "cycle", .text = due_cycle_text(&d->cycle, cycle)};
    struct record new = {
        .kind = RECORD_BOOKED,
        .subject_id = b->task->subject->id,
        .job_id = b->task->job->id,
        .day = b->day,
        .until = DAY_NONE,
        .reading = -1,
        .entered = run_moment(b->run).now,
        .by = b->by,
        .note = b->note,
        .values = &value,
        .n_values = 1,
    };
    struct ledger *l = run_ledger(b->run);
    int64_t id;

    if (d->booking != 0
            ? records_replace(l, d->booking, &new, &id, &b->i->fault)
            : records_add(l, &new, &id, &b->i->fault))
        return -1;
    buf_print(b->i->out, "booking %lld: %s %s on %s", (long long)id,
        new.subject_id, new.job_id, day_words(b->day, day));
    if (d->booking != 0)
        buf_print(b->i->out, ", in place of %s", day_words(d->booked, day));
    if (d->deadline != DAY_NONE && !d->no_return && b->day > d->deadline)
        buf_print(
            b->i->out, ", after the deadline, %s", day_words(d->deadline, day));
    /* @d ends here: the plan is asked anew, as it is with this booking. */
    day_t deadline = d->deadline;
    dues_forget(b->run);
    if (say_early(b, deadline))
        return -1;
    buf_text(b->i->out, "\n");
    return 0;
}

/* The due of the task in that cycle, or NULL. */
static const struct due *
due_ahead(const struct snapshot *s, const struct task *t, int ahead)
{
    size_t n;
    const struct due *d = snapshot_dues(s, &n);

    for (size_t i = 0; i < n; i++)
        if (d[i].task == t && d[i].cycle.ahead == ahead)
            return &d[i];
    return NULL;
}

/* The first due of the task that takes the day for its own, or NULL. */
static const struct due *
taker(const struct booking_asked *b, const struct snapshot *s)
{
    day_t today = run_moment(b->run).today;
    day_t last = DAY_NONE;
    const struct due *d;

    for (int k = 0; (d = due_ahead(s, b->task, k)) != NULL; k++) {
        day_t by = d->no_return ? DAY_NONE : d->deadline;
        if (booked_takes(b->day, by, last, k == 0, today))
            return d;
        last = select_day(d);
    }
    return NULL;
}

static int
book(const struct booking_asked *b)
{
    const struct snapshot *s = dues_of_run(b->run, &b->i->fault);

    if (s == NULL)
        return -1;
    const struct due *d = taker(b, s);
    return check(b, d) ? -1 : add(b, d);
}

/* The bookings that stand. */
static int
read_all(const struct run_context *p, struct record **out, size_t *n,
    struct fault *f)
{
    return records_standing(run_ledger(p), run_fleet(p),
        RECORD_BIT(RECORD_BOOKED), NULL, run_arena(p), out, n, f);
}

static int
is_asked_for(const struct booking_asked *b, const struct record *k)
{
    return k->subject == b->task->subject && k->job == b->task->job &&
           (b->day == DAY_NONE || k->day == b->day);
}

/* The one booking that stands and is meant, or NULL. */
static const struct record *
find(const struct booking_asked *b, const struct record *all, size_t n)
{
    const struct record *found = NULL;
    char one[DAY_WORDS];
    char two[DAY_WORDS];

    for (size_t k = 0; k < n; k++) {
        if (!is_asked_for(b, &all[k]))
            continue;
        if (found != NULL) {
            fault_fill(&b->i->fault, EX_USAGE,
                "it is booked for %s and for %s; say which with --on DAY",
                day_words(found->day, one), day_words(all[k].day, two));
            return NULL;
        }
        found = &all[k];
    }
    if (found == NULL)
        fault_fill(&b->i->fault, EX_DATAERR, "%s %s is not booked%s",
            b->task->subject->id, b->task->job->id,
            b->day == DAY_NONE ? "" : " for that day");
    return found;
}

static int
cancel(const struct booking_asked *b)
{
    struct record *all;
    size_t n;
    char day[DAY_WORDS];

    if (read_all(b->run, &all, &n, &b->i->fault))
        return -1;
    const struct record *found = find(b, all, n);
    if (found == NULL)
        return -1;
    struct record back = *found;
    back.kind = RECORD_UNBOOKED;
    back.entered = run_moment(b->run).now;
    back.by = b->by;
    back.note = b->note;
    if (records_replace(
            run_ledger(b->run), found->id, &back, NULL, &b->i->fault))
        return -1;
    buf_print(b->i->out, "taken back: booking %lld, %s %s on %s\n",
        (long long)found->id, found->subject_id, found->job_id,
        day_words(found->day, day));
    return 0;
}

/* What has become of a booking, if anything: its due says it. */
static void
say_fate(const struct snapshot *s, const struct record *k, struct buf *out)
{
    size_t n;
    const struct due *d = snapshot_dues(s, &n);

    for (size_t i = 0; i < n; i++)
        if (d[i].booking == k->id) {
            buf_text(out,
                d[i].warnings & WARN_BOOKED_LATE ? ", after the deadline" : "");
            buf_text(out,
                d[i].warnings & WARN_BOOKED_PASSED ? ", which has passed" : "");
            return;
        }
    buf_text(out, ", over");
}

static void
list_all(const struct snapshot *s, const struct record *all, size_t n,
    struct buf *out)
{
    char day[DAY_WORDS];

    for (size_t k = 0; k < n; k++) {
        buf_print(out, "%5lld  %s  %s %s%s%s%s%s", (long long)all[k].id,
            day_words(all[k].day, day), all[k].subject_id, all[k].job_id,
            all[k].by ? ", by " : "", all[k].by ? all[k].by : "",
            all[k].note ? ": " : "", all[k].note ? all[k].note : "");
        say_fate(s, &all[k], out);
        buf_text(out, "\n");
    }
    if (n == 0)
        buf_text(out, "Nothing is booked.\n");
}

static int
list(struct invocation *i, const struct run_context *p)
{
    struct record *all;
    size_t n;

    if (read_all(p, &all, &n, &i->fault))
        return -1;
    const struct snapshot *s = dues_of_run(p, &i->fault);
    if (s == NULL)
        return -1;
    list_all(s, all, n, i->out);
    return 0;
}

static int
run_for(struct invocation *i, const struct run_context *p)
{
    int back = options_value(&i->options, "cancel") != NULL;
    struct booking_asked b = {.i = i, .run = p};

    b.task = argument_task(
        i, p, options_operand(&i->options, 0), options_operand(&i->options, 1));
    if (b.task == NULL)
        return -1;
    b.day = argument_day(i, p, "on", !back);
    b.by = i->fault.code ? NULL : argument_text(i, "by");
    b.note = i->fault.code ? NULL : argument_text(i, "note");
    if (i->fault.code)
        return -1;
    if (back)
        return cancel(&b);
    if (b.day < run_moment(p).today)
        return fault_set(&i->fault, EX_DATAERR,
            "that day is past; record work that was done with ostler record");
    return book(&b);
}

static int
run(struct invocation *i)
{
    size_t n = i->options.n_operands;
    int rc = -1;

    if (n == 1)
        return fault_set(&i->fault, EX_USAGE,
            "book takes the operands SUBJECT JOB, or none to list");
    struct run_context *p =
        command_run(i, n ? LEDGER_WRITE : LEDGER_READ, RUN_NEEDED, RUN_PLAN);
    if (p != NULL)
        rc = n ? run_for(i, p) : list(i, p);
    run_close(p);
    return rc;
}

const struct command cmd_book = {
    .name = "book",
    .operands = "[SUBJECT JOB]",
    .most = 2,
    .summary = "Fix a day for work, take it back, or list what is booked.",
    .options = rows,
    .run = run,
};
