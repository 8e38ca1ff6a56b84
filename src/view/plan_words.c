#include "plan_words.h"

#include "buf.h"

void
plan_words_time(int minutes, struct buf *out)
{
    if (minutes < 60)
        buf_print(out, "%d min", minutes);
    else if (minutes % 60 == 0)
        buf_print(out, "%d h", minutes / 60);
    else
        buf_print(out, "%d h %02d", minutes / 60, minutes % 60);
}

void
plan_words_work(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out)
{
    const struct task *t = fleet_plan_task(a, b->work);

    buf_text(out, t->job->title);
    if (t->subject->carrier != NULL)
        buf_print(out, " (%s)", t->subject->id);
}

static const struct plan_place *
place_of(const struct fleet_plan *a, const struct plan_booking *b)
{
    const struct plan_problem *p = fleet_plan_problem(a);

    return &p->places[p->works[b->work].place];
}

/* What was in the way on the last day that was looked at. */
static void
say_limit(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out)
{
    const struct plan_place *place = place_of(a, b);

    switch (b->limit) {
    case PLAN_VEHICLES:
        buf_print(out, "%s has its %d vehicle%s", place->name, place->vehicles,
            place->vehicles == 1 ? "" : "s");
        break;
    case PLAN_MINUTES:
        buf_print(out, "%s has not the hours", place->name);
        break;
    case PLAN_AWAY:
        buf_print(out, "%s: no more may be away",
            fleet_plan_problem(a)->groups[b->group].name);
        break;
    case PLAN_ELSEWHERE:
        buf_print(
            out, "%s is at another place", fleet_plan_subject(a, b->work)->id);
        break;
    case PLAN_FREE:
    case PLAN_SHUT:
        buf_text(out, "no working day");
        return;
    }
    buf_print(out, ", as on %s", day_words(b->on, (char[DAY_WORDS]){0}));
}

static void
say_fixed(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out)
{
    const struct booked *d = fleet_plan_fixed(a, b);

    buf_text(out, "booked for that day");
    if (d != NULL && d->by != NULL)
        buf_print(out, " by %s", d->by);
    if (d != NULL && d->note != NULL)
        buf_print(out, " (%s)", d->note);
}

static void
say_together(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out)
{
    size_t n;
    const struct plan_booking *all = plan_bookings(fleet_plan_solution(a), &n);
    const struct plan_booking *with = &all[b->with];

    buf_text(out, "with ");
    plan_words_work(a, with, out);
    buf_print(out, ", due %s", day_words(with->call.to, (char[DAY_WORDS]){0}));
}

static void
say_late(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out)
{
    if (b->call.to < fleet_plan_options(a)->today) {
        buf_print(out, "overdue since %s",
            day_words(b->call.to, (char[DAY_WORDS]){0}));
        if (b->day == DAY_NONE)
            buf_text(out, ": no day is free for months");
        else if (b->first)
            buf_text(out, ": the first free day");
        return;
    }
    buf_print(out, "too late, no day was free by %s: ",
        day_words(b->call.to, (char[DAY_WORDS]){0}));
    say_limit(a, b, out);
}

static void
say_cause(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out)
{
    switch (b->cause) {
    case PLAN_FIXED:
        say_fixed(a, b, out);
        return;
    case PLAN_LAST_DAY:
        buf_text(out, "the last working day by its deadline");
        return;
    case PLAN_TOGETHER:
        say_together(a, b, out);
        return;
    case PLAN_CROWDED:
        buf_text(out, "no later day: ");
        say_limit(a, b, out);
        return;
    case PLAN_KEPT:
        buf_text(out, "as the plan before had it");
        return;
    case PLAN_EVEN:
        buf_text(out, "less is done then than on the days after it");
        return;
    case PLAN_LATE:
        say_late(a, b, out);
        return;
    }
}

/* Comes before why it is on its day, or has none: it is not merely planned. */
void
because_failed(day_t failed, struct buf *out)
{
    if (failed != DAY_NONE)
        buf_print(out, "failed on %s and not done since; ",
            day_words(failed, (char[DAY_WORDS]){0}));
}

void
plan_words_booking(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out)
{
    const struct task *t = fleet_plan_task(a, b->work);
    day_t passed = b->cycle == 0 ? fleet_plan_passed(a, t) : DAY_NONE;

    because_failed(fleet_plan_failed(a, b), out);
    say_cause(a, b, out);
    if (b->cause == PLAN_FIXED && b->day > b->call.to)
        buf_text(out, ", after the deadline");
    if (passed != DAY_NONE)
        buf_print(out, "; it was not done on %s, as was said before",
            day_words(passed, (char[DAY_WORDS]){0}));
    if (b->cause != PLAN_FIXED && b->day < b->call.from && b->day != DAY_NONE)
        buf_print(out, ", sooner than %s, which wastes some of its interval",
            day_words(b->call.from, (char[DAY_WORDS]){0}));
}

void
plan_words_calmly(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out)
{
    size_t n;

    if (b->cause == PLAN_FIXED) {
        say_fixed(a, b, out);
    } else if (b->cause == PLAN_TOGETHER) {
        buf_text(out, "in one visit with ");
        plan_words_work(
            a, &plan_bookings(fleet_plan_solution(a), &n)[b->with], out);
    } else {
        buf_text(out, "within the limits of the fleet; ostler plan says more");
    }
}

/* One more of what is short. */
static void
say_more(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *out)
{
    const struct plan_place *place = place_of(a, b);

    switch (b->limit) {
    case PLAN_MINUTES:
        buf_print(out, "more hours at %s", place->name);
        break;
    case PLAN_AWAY:
        buf_print(out, "one more away of %s",
            fleet_plan_problem(a)->groups[b->group].name);
        break;
    default:
        buf_print(out, "one more vehicle at %s", place->name);
    }
}

void
plan_words_cure(
    const struct fleet_plan *a, const struct plan_clash *c, struct buf *out)
{
    size_t n;
    const struct plan_booking *b =
        &plan_bookings(fleet_plan_solution(a), &n)[c->booking];

    if (b->call.to < fleet_plan_options(a)->today)
        buf_text(out, "nothing brings it back into time");
    else if (c->more == DAY_NONE && c->earlier == 0)
        buf_text(out, "no one change would do");
    if (b->call.to < fleet_plan_options(a)->today)
        return;
    if (c->more != DAY_NONE) {
        say_more(a, b, out);
        buf_print(
            out, " on %s would do", day_words(c->more, (char[DAY_WORDS]){0}));
    }
    if (c->earlier > 0)
        buf_print(out, "%s%d day%s earlier than it may be would do",
            c->more != DAY_NONE ? "; or " : "", c->earlier,
            c->earlier == 1 ? "" : "s");
}
