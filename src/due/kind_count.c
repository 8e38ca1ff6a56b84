#include "buf.h"
#include "calc_context.h"
#include "calendar_interval.h"
#include "reasons.h"
#include "scan.h"
#include "span.h"

/*
 * "4 within 12 months": in any twelve months there must be four, each on a day
 * of its own.  The next is due when the fourth last is twelve months old.
 * "apart 4 months": and no more than that lies between two of them, so that
 * four in one month do not last a year.
 */

static int
parse(struct scan *s, struct arena *a, struct interval *out)
{
    (void)a;
    if (!scan_number(s, 2, 400, &out->amount) || !scan_word(s, "within") ||
        !span_scan(s, &out->span) || out->span.n == 0)
        return -1;
    if (!scan_word(s, ","))
        return 0;
    if (!scan_word(s, "apart") || !span_scan(s, &out->apart))
        return -1;
    return out->apart.n > 0 ? 0 : -1;
}

static void
print(const struct interval *every, struct buf *out)
{
    char text[SPAN_TEXT];

    buf_print(out, "%lld within %s", (long long)every->amount,
        span_text(every->span, text));
    if (every->apart.n > 0)
        buf_print(out, ", apart %s", span_text(every->apart, text));
}

/* The completions of the day of that at @i begin here. */
static size_t
day_begins(const struct calc_context *r, size_t i)
{
    while (i > 0 && r->done[i - 1].day == r->done[i].day)
        i--;
    return i;
}

/* Nonzero when all from @first to @last are of the job that also counts. */
static int
only_also(const struct calc_context *r, size_t first, size_t last)
{
    while (first <= last && r->done[first].also)
        first++;
    return first > last;
}

/*
 * Walk back from the day of the completion at @i to the one that makes @amount
 * of them: the index of one of its completions, or -1 and @counted days when
 * there are fewer.  What is on record twice for a day counts once.  Of the job
 * that also counts only so many days may be among them, and a day on which the
 * job itself was done is none of these.
 */
static int64_t
walk_back(const struct calc_context *r, int64_t amount, size_t i, int *counted)
{
    int also_left = r->task->job->also_counts.most;

    *counted = 0;
    for (size_t end = i + 1; end > 0;) {
        size_t first = day_begins(r, end - 1);
        int also = only_also(r, first, end - 1);
        end = first;
        if (also && also_left-- <= 0)
            continue;
        if (++*counted == amount)
            return (int64_t)first;
    }
    return -1;
}

/* An equal share of the length, rounded down: three months of a year. */
static struct span
share(struct span length, int64_t amount)
{
    static const int days[] = {1, 7, 28, 365};

    if (length.n % amount == 0)
        return (struct span){(int32_t)(length.n / amount), length.unit};
    int64_t n = (int64_t)length.n * days[length.unit] / amount;
    return (struct span){(int32_t)(n > 0 ? n : 1), STEP_DAYS};
}

/* As if the rest were spread evenly. */
static day_t
before(
    const struct calc_context *r, const struct interval *every, day_t deadline)
{
    (void)r;
    return step_span(
        deadline, share(every->span, every->amount), -1, MONTH_END_CLAMP);
}

static void
first(
    const struct calc_context *r, const struct interval *every, struct limit *l)
{
    (void)every;
    l->deadline = calendar_interval_first(r);
}

/* The deadline by the number alone: when the one that makes it drops out, or
 * while there are fewer, after an equal share. */
static day_t
by_number(const struct calc_context *r, const struct interval *every, size_t i)
{
    const struct rule *rule = r->task->rule;
    const char *class = fleet_class_word(r->task->job->class);
    day_t day = r->done[i].day;
    int counted;
    int64_t oldest = walk_back(r, every->amount, i, &counted);

    if (oldest >= 0) {
        day_t from = r->done[oldest].day;
        day_t until = calendar_interval_end(
            from, every->span, rule->ends, rule->month_end);
        reasons_add(r->why, REASON_INTERVAL, day, until,
            "%s (%s): the one of %s is the %lldth last and then drops out",
            every->text, class, day_words(from, (char[DAY_WORDS]){0}),
            (long long)every->amount);
        return until;
    }
    struct span part = share(every->span, every->amount);
    day_t until = calendar_interval_end(day, part, rule->ends, rule->month_end);
    reasons_add(r->why, REASON_INTERVAL, day, until,
        "%s (%s): only %d on record, so the rest are spread evenly, one "
        "every %s",
        every->text, class, counted, span_text(part, (char[SPAN_TEXT]){0}));
    return until;
}

/* To the very day, whatever the kind of end: it is the most there may be. */
static void
next(const struct calc_context *r, const struct interval *every, size_t i,
    struct limit *l)
{
    day_t day = r->done[i].day;

    l->deadline = by_number(r, every, i);
    if (every->apart.n == 0)
        return;
    day_t apart = step_span(day, every->apart, 1, MONTH_END_CLAMP);
    if (day_earlier(apart, l->deadline) == l->deadline)
        return;
    reasons_add(r->why, REASON_INTERVAL, l->deadline, apart,
        "no more than %s apart, and the last was on %s",
        span_text(every->apart, (char[SPAN_TEXT]){0}),
        day_words(day, (char[DAY_WORDS]){0}));
    l->deadline = apart;
}

const struct interval_kind kind_count = {
    .form = "N within LENGTH[, apart LENGTH]",
    .looks_back = 1,
    .by_length = 1,
    .parse = parse,
    .print = print,
    .before = before,
    .first = first,
    .next = next,
};
