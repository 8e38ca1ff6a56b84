#include "length.h"
#include "reasons.h"
#include "reckon.h"
#include "scan.h"
#include "span.h"

/*
 * "4 within 12 months": in any twelve months there must be four.  The next is
 * due when the fourth last is twelve months old.
 */

static int
parse(struct scan *s, struct arena *a, struct interval *out)
{
    (void)a;
    if (!scan_number(s, 2, 400, &out->amount) || !scan_word(s, "within"))
        return -1;
    return span_scan(s, &out->span) && out->span.n > 0 ? 0 : -1;
}

/*
 * Walk back from the completion at @i to the one that makes @amount of them:
 * its index, or -1 and @counted of them when there are fewer.  Of the job that
 * also counts only so many may be among them.
 */
static int64_t
walk_back(const struct reckoning *r, int64_t amount, size_t i, int *counted)
{
    int also_left = r->task->job->also_counts.most;

    *counted = 0;
    for (size_t k = i + 1; k-- > 0;) {
        if (r->done[k].also && also_left-- <= 0)
            continue;
        if (++*counted == amount)
            return (int64_t)k;
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

static void
first(const struct reckoning *r, const struct interval *every, struct limit *l)
{
    (void)every;
    l->deadline = length_first(r);
}

static void
next(const struct reckoning *r, const struct interval *every, size_t i,
    struct limit *l)
{
    const struct rule *rule = r->task->rule;
    const char *class = fleet_class_word(r->task->job->class);
    day_t day = r->done[i].day;
    int counted;
    int64_t oldest = walk_back(r, every->amount, i, &counted);

    if (oldest >= 0) {
        day_t from = r->done[oldest].day;
        l->deadline =
            length_end(from, every->span, rule->ends, rule->month_end);
        reasons_add(r->why, REASON_INTERVAL, day, l->deadline,
            "%s (%s): the one of %s is the %lldth last and then drops out",
            every->text, class, day_words(from, (char[DAY_WORDS]){0}),
            (long long)every->amount);
        return;
    }
    struct span part = share(every->span, every->amount);
    l->deadline = length_end(day, part, rule->ends, rule->month_end);
    reasons_add(r->why, REASON_INTERVAL, day, l->deadline,
        "%s (%s): only %d on record, so the rest are spread evenly, one "
        "every %s",
        every->text, class, counted, span_text(part, (char[SPAN_TEXT]){0}));
}

const struct interval_kind kind_count = {
    .form = "N within LENGTH",
    .looks_back = 1,
    .parse = parse,
    .first = first,
    .next = next,
};
