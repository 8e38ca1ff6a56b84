#include "may_enter.h"

#include "people.h"

#include <string.h>

const char *
enter_refusal_text(enum defect_refusal refusal)
{
    static const char *const texts[] = {
        [ENTER_ALLOWED] = "it may be entered",
        [ENTER_NO_SUBJECT] = "the fleet file has no such vehicle or equipment; "
                             "`ostler due --json` lists them",
        [ENTER_NO_DEFECT] = "there is no defect with that number; `ostler "
                            "defects --all` lists them",
        [ENTER_IS_CLOSED] = "it is closed; if it is there again, report it "
                            "again",
        [ENTER_IS_REPAIRED] = "it is repaired; release it, or report it again "
                              "if it is not mended",
        [ENTER_NOT_REPAIRED] =
            "it is not repaired; enter the repair first, or assess it",
        [ENTER_NO_PERSON] = "that takes somebody whom the fleet file knows; "
                            "name a person by id or name",
        [ENTER_MAY_NOT_ASSESS] =
            "that takes somebody with `may = assess` for this vehicle",
        [ENTER_MAY_NOT_REPAIR] =
            "that takes somebody with `may = repair` for this vehicle",
        [ENTER_MAY_NOT_LIFT] = "that lifts a stop and takes somebody with "
                               "`may = release` for this vehicle",
        [ENTER_REPORTED_IT] = "whoever reported it does not lift its stop; "
                              "another person with `may = release` has to",
        [ENTER_REPAIRED_IT] = "whoever repaired it does not release it; "
                              "another person with `may = release` has to",
        [ENTER_SAY_ALONE] = "nobody else may do this; say that you are alone "
                            "with it, and why that will do",
        [ENTER_BEFORE_REPORT] =
            "that is before it was last reported; give the time it was done",
        [ENTER_BEFORE_REPAIR] =
            "that is before it was repaired; give the time it was done",
        [ENTER_UNTIL_PAST] = "that day is past; name one from the day of the "
                             "decision on",
        [ENTER_UNTIL_INSPECTION] = "that is after the next inspection; put it "
                                   "off to that day at most",
        [ENTER_UNTIL_TOO_LONG] = "that is longer than `defer-at-most` of the "
                                 "site allows; name an earlier day",
        [ENTER_UNANSWERED] = "a watched defect of this vehicle is not "
                             "answered; look at it and say how it is",
        [ENTER_NO_EVENT] = "there is no such event; `ostler history` shows "
                           "their numbers",
        [ENTER_VOIDED] = "that is voided already, or voids another",
        [ENTER_NOT_LAST] = "something was done since; only the last act is "
                           "voided, so begin with that one",
        [ENTER_HAS_DEFECTS] = "defects were found in it; void each of their "
                              "reports first",
        [ENTER_IS_THERE] = "that vehicle carries it already; name another",
        [ENTER_NEEDS_SURE] = "it has an open defect; mend it first, or say "
                             "--sure",
        [ENTER_MOVED_SINCE] = "it was moved since; give the day of the move, "
                              "or void the later one",
        [ENTER_RESTED_ON] = "what was missing that day is found by it; move it "
                            "to where it is instead",
    };

    return texts[refusal];
}

/* Whether anybody of that name is known: a person or a driver. */
static int
is_known(const struct defects *ds, const char *by)
{
    return by != NULL && people_id(defects_fleet(ds), by) != NULL;
}

static int
has_right(const struct defects *ds, const struct defect *d, const char *by,
    unsigned may)
{
    const struct person *p = people_find(defects_fleet(ds), by);

    return p != NULL && d->subject != NULL && people_may(p, may, d->subject);
}

/* Whether @by had a hand in the defect by an act of that kind that stands. */
static int
had_a_hand(const struct defects *ds, const struct defect *d,
    enum defect_kind kind, const char *by)
{
    size_t n;
    const struct defect_event *e = defects_events(ds, &n);

    for (size_t i = 0; i < n; i++)
        if (e[i].kind == kind && e[i].voided_by == 0 && e[i].by != NULL &&
            defects_of_event(ds, e[i].id) == d && strcmp(e[i].by, by) == 0)
            return 1;
    return 0;
}

/* Rule 2, for an act that lifts a stop or releases. */
static enum defect_refusal
by_another(const struct defects *ds, const struct defect *d,
    const struct defect_event *e, int lifts, int releases)
{
    int reported =
        (lifts || releases) && had_a_hand(ds, d, EVENT_REPORTED, e->by);
    int repaired = releases && had_a_hand(ds, d, EVENT_REPAIRED, e->by);

    if (!reported && !repaired)
        return ENTER_ALLOWED;
    if (people_count(defects_fleet(ds), MAY_RELEASE, d->subject) > 1)
        return repaired ? ENTER_REPAIRED_IT : ENTER_REPORTED_IT;
    return e->alone ? ENTER_ALLOWED : ENTER_SAY_ALONE;
}

/* Rule 6: the last day that a deferral may reach. */
static day_t
defer_most(const struct defects *ds, const struct defect_event *e,
    const struct enter_now *now)
{
    day_t most = step_span(
        e->at.day, defects_fleet(ds)->site.defer_at_most, 1, MONTH_END_CLAMP);

    return day_earlier(most, now->inspection);
}

static enum defect_refusal
deferral(const struct defect_event *e, day_t most, day_t inspection)
{
    if (e->until == DAY_NONE || e->until < e->at.day)
        return ENTER_UNTIL_PAST;
    if (e->until <= most)
        return ENTER_ALLOWED;
    return most == inspection ? ENTER_UNTIL_INSPECTION : ENTER_UNTIL_TOO_LONG;
}

/* What the table of states refuses, in words. */
static enum defect_refusal
state_refuses(const struct defect *d, const struct defect_event *e)
{
    if (defect_takes(d, e))
        return ENTER_ALLOWED;
    if (!defect_is_open(d))
        return ENTER_IS_CLOSED;
    return d->state == DEFECT_REPAIRED ? ENTER_IS_REPAIRED : ENTER_NOT_REPAIRED;
}

/* Rule 3: by the moments, not by the order of entry.  A stop is in time
 * whenever. */
static enum defect_refusal
in_time(const struct defect *d, const struct defect_event *e)
{
    if (e->kind == EVENT_ASSESSED && e->verdict == VERDICT_STOP)
        return ENTER_ALLOWED;
    if (day_time_compare(e->at, d->seen.at) < 0)
        return ENTER_BEFORE_REPORT;
    if (d->state == DEFECT_REPAIRED && e->kind != EVENT_REPAIRED &&
        day_time_compare(e->at, d->repaired.at) < 0)
        return ENTER_BEFORE_REPAIR;
    return ENTER_ALLOWED;
}

/* Whether it stops before, and after it no more. */
static int
is_lifted(const struct defect *before, const struct defect *after, day_t today)
{
    return defect_stops(before, today) && !defect_stops(after, today);
}

/* The right that the act takes beside the one for lifting. */
static enum defect_refusal
act_right(const struct defects *ds, const struct defect *d,
    const struct defect_event *e, int lifts)
{
    int releases = e->kind == EVENT_RELEASED ||
                   (e->kind == EVENT_ASSESSED && d->state == DEFECT_REPAIRED);

    if (lifts || releases)
        return has_right(ds, d, e->by, MAY_RELEASE) ? ENTER_ALLOWED
                                                    : ENTER_MAY_NOT_LIFT;
    if (e->kind == EVENT_REPAIRED)
        return has_right(ds, d, e->by, MAY_REPAIR) ? ENTER_ALLOWED
                                                   : ENTER_MAY_NOT_REPAIR;
    if (e->kind == EVENT_ASSESSED && e->verdict != VERDICT_STOP)
        return has_right(ds, d, e->by, MAY_ASSESS) ? ENTER_ALLOWED
                                                   : ENTER_MAY_NOT_ASSESS;
    return ENTER_ALLOWED;
}

/* Rule 9: what failed is its own stop, and is let go by a release. */
static enum defect_refusal
may_release_failure(const struct defects *ds, const struct defect_event *e,
    const struct defect_event *failed)
{
    const struct fleet *f = defects_fleet(ds);
    const struct person *p = e->by ? people_find(f, e->by) : NULL;
    int is_same = p && failed->by && strcmp(failed->by, p->id) == 0;

    if (failed->voided_by != 0 || failed->subject == NULL)
        return ENTER_NO_EVENT;
    if (!is_known(ds, e->by))
        return ENTER_NO_PERSON;
    if (defects_released_failure(ds, failed->id) != NULL)
        return ENTER_IS_CLOSED;
    if (p == NULL || !people_may(p, MAY_RELEASE, failed->subject))
        return ENTER_MAY_NOT_LIFT;
    if (day_time_compare(e->at, failed->at) < 0)
        return ENTER_BEFORE_REPORT;
    if (!is_same)
        return ENTER_ALLOWED;
    if (people_count(f, MAY_RELEASE, failed->subject) > 1)
        return ENTER_REPORTED_IT;
    return e->alone ? ENTER_ALLOWED : ENTER_SAY_ALONE;
}

/* A decision, a repair or a release. */
static void
may_act(const struct defects *ds, const struct defect_event *e,
    const struct enter_now *now, struct enter_answer *a)
{
    const struct defect *d = defects_of_event(ds, e->about);
    const struct defect_event *of = defects_event(ds, e->about);
    enum defect_refusal *r = &a->refusal;

    if (of != NULL && of->kind == EVENT_FAILED && e->kind == EVENT_RELEASED) {
        *r = may_release_failure(ds, e, of);
        a->lifts = 1;
        return;
    }
    a->defect = d;
    *r = d == NULL || d->state == DEFECT_VOID ? ENTER_NO_DEFECT
         : !is_known(ds, e->by)               ? ENTER_NO_PERSON
                                              : state_refuses(d, e);
    if (*r != ENTER_ALLOWED)
        return;
    struct defect after = *d;
    defect_step(&after, e);
    a->lifts = is_lifted(d, &after, day_later(now->today, e->at.day));
    *r = act_right(ds, d, e, a->lifts);
    if (*r == ENTER_ALLOWED)
        *r = in_time(d, e);
    if (*r == ENTER_ALLOWED)
        *r = by_another(ds, d, e, a->lifts,
            d->state == DEFECT_REPAIRED && after.state == DEFECT_CLOSED);
    if (*r == ENTER_ALLOWED && after.state == DEFECT_UNTIL) {
        a->most = defer_most(ds, e, now);
        *r = deferral(e, a->most, now->inspection);
    }
}

/* A report: what it was found in has to stand. */
static void
may_report(const struct defects *ds, const struct defect_event *e,
    struct enter_answer *a)
{
    const struct defect_event *cause = defects_event(ds, e->cause);

    a->defect = defects_joined(ds, e);
    if (e->cause != 0 &&
        (cause == NULL || cause->voided_by != 0 ||
            (cause->kind != EVENT_CHECKED && cause->kind != EVENT_FAILED &&
                cause->kind != EVENT_MOVED)))
        a->refusal = ENTER_NO_EVENT;
}

/* Rule 4: a nil, or any other form, that is silent on what is watched. */
static void
may_check(const struct defects *ds, const struct defect_event *e,
    struct enter_answer *a)
{
    const struct defect *d = NULL;

    while (!e->paper && e->subject != NULL &&
           (d = defects_open_on(ds, e->subject, d)) != NULL) {
        int answered = d->state != DEFECT_WATCH;
        for (size_t i = 0; i < e->n_answered; i++)
            answered |= e->answered[i] == d->number;
        if (!answered) {
            a->defect = d;
            a->refusal = ENTER_UNANSWERED;
            return;
        }
    }
}

/* Rule 7, and moves are entered in the order of their days. */
static void
may_move(const struct defects *ds, const struct defect_event *e,
    struct enter_answer *a)
{
    size_t n;
    const struct defect_event *all = defects_events(ds, &n);

    if (defects_carrier(ds, e->subject) == e->other)
        a->refusal = ENTER_IS_THERE;
    for (size_t i = 0; i < n; i++)
        if (all[i].kind == EVENT_MOVED && all[i].voided_by == 0 &&
            all[i].subject == e->subject && all[i].at.day > e->at.day)
            a->refusal = ENTER_MOVED_SINCE;
    const struct defect *d = NULL;
    while (a->refusal == ENTER_ALLOWED && !e->sure &&
           (d = defects_open_on(ds, e->subject, d)) != NULL)
        if (d->subject == e->subject) {
            a->defect = d;
            a->refusal = ENTER_NEEDS_SURE;
        }
}

/* The first event of that kind that stands and came of that one, or NULL. */
static const struct defect_event *
that_came_of(const struct defects *ds, int64_t id, enum defect_kind kind)
{
    size_t n;
    const struct defect_event *e = defects_events(ds, &n);

    for (size_t i = 0; i < n; i++)
        if (e[i].kind == kind && e[i].voided_by == 0 && e[i].cause == id)
            return &e[i];
    return NULL;
}

/* Whether @by may take the stop of @d off a vehicle, by rules 1 and 2. */
static enum defect_refusal
may_lift(const struct defects *ds, const struct defect_event *e,
    const struct defect *d)
{
    if (!has_right(ds, d, e->by, MAY_RELEASE))
        return ENTER_MAY_NOT_LIFT;
    return by_another(ds, d, e, 1, 0);
}

/* The void of an act on a defect: of the last one alone, and it may lift a
 * stop. */
static enum defect_refusal
may_void_act(const struct defects *ds, const struct defect_event *e,
    const struct defect_event *was, const struct enter_now *now,
    struct enter_answer *a)
{
    const struct defect *d = a->defect;
    struct defect after = defects_without(ds, was->id);

    if (defects_is_late(ds, was->id))
        return ENTER_ALLOWED;
    if (d->last != was->id)
        return ENTER_NOT_LAST;
    a->lifts = is_lifted(d, &after, day_later(now->today, e->at.day));
    if (!a->lifts)
        return ENTER_ALLOWED;
    return may_lift(ds, e, d);
}

/* Whether a later move of the same equipment stands. */
static int
was_moved_since(const struct defects *ds, const struct defect_event *move)
{
    size_t n;
    const struct defect_event *e = defects_events(ds, &n);

    for (size_t i = 0; i < n; i++)
        if (e[i].kind == EVENT_MOVED && e[i].voided_by == 0 &&
            e[i].subject == move->subject && e[i].id > move->id)
            return 1;
    return 0;
}

/* Whether something was missing at the new carrier that day and was voided
 * after
 * @move came.  The list of records has no voids of its own, so what a void came
 * of cannot be asked: one too many is refused rather than a stop lost. */
static int
found_something(const struct defects *ds, const struct defect_event *move)
{
    size_t n;
    const struct defect_event *e = defects_events(ds, &n);

    for (size_t i = 0; i < n; i++) {
        if (e[i].kind != EVENT_REPORTED || e[i].voided_by <= move->id ||
            e[i].subject != move->other)
            continue;
        const struct defect_event *cause = defects_event(ds, e[i].cause);
        if (cause != NULL && cause->kind == EVENT_MOVED &&
            cause->id < move->id && cause->at.day == move->at.day)
            return 1;
    }
    return 0;
}

/* Rule 7, backwards: what is missing by the move is found again, and what the
 * equipment has stops its carrier no more. */
static void
may_void_move(const struct defects *ds, const struct defect_event *e,
    const struct defect_event *move, const struct enter_now *now,
    struct enter_answer *a)
{
    const struct defect_event *missing =
        that_came_of(ds, move->id, EVENT_REPORTED);
    const struct defect *d = NULL;

    if (was_moved_since(ds, move))
        a->refusal = ENTER_NOT_LAST;
    else if (that_came_of(ds, move->id, EVENT_MOVED) ||
             found_something(ds, move))
        a->refusal = ENTER_RESTED_ON;
    else if (missing != NULL) {
        a->defect = defects_of_event(ds, missing->id);
        a->refusal = may_void_act(ds, e, missing, now, a);
    }
    while (a->refusal == ENTER_ALLOWED &&
           (d = defects_open_on(ds, move->subject, d)) != NULL)
        if (d->subject == move->subject &&
            defect_stops(d, day_later(now->today, e->at.day))) {
            a->defect = d;
            a->lifts = 1;
            a->refusal = may_lift(ds, e, d);
        }
}

/* Rule 8 for a check; rule 7 for a move; the table for the rest. */
static void
may_void(const struct defects *ds, const struct defect_event *e,
    const struct enter_now *now, struct enter_answer *a)
{
    const struct defect_event *was = defects_event(ds, e->about);

    a->defect = was ? defects_of_event(ds, was->id) : NULL;
    if (was == NULL)
        a->refusal = ENTER_NO_EVENT;
    else if (!is_known(ds, e->by))
        a->refusal = ENTER_NO_PERSON;
    else if (was->voided_by != 0 || was->kind == EVENT_VOIDED)
        a->refusal = ENTER_VOIDED;
    else if (was->kind == EVENT_CHECKED)
        a->refusal = that_came_of(ds, was->id, EVENT_REPORTED)
                         ? ENTER_HAS_DEFECTS
                         : ENTER_ALLOWED;
    else if (was->kind == EVENT_MOVED)
        may_void_move(ds, e, was, now, a);
    else if (a->defect != NULL)
        a->refusal = may_void_act(ds, e, was, now, a);
}

struct enter_answer
may_enter(const struct defects *ds, const struct defect_event *e,
    const struct enter_now *now)
{
    struct enter_answer a = {.most = DAY_NONE};
    int needs_subject = e->kind == EVENT_CHECKED || e->kind == EVENT_REPORTED ||
                        e->kind == EVENT_MOVED;

    if (needs_subject &&
        (e->subject == NULL || (e->kind == EVENT_MOVED && e->other == NULL))) {
        a.refusal = ENTER_NO_SUBJECT;
        return a;
    }
    switch (e->kind) {
    case EVENT_CHECKED:
        may_check(ds, e, &a);
        break;
    case EVENT_FAILED: /* a fact, asked nothing */
        break;
    case EVENT_REPORTED:
        may_report(ds, e, &a);
        break;
    case EVENT_ASSESSED:
    case EVENT_REPAIRED:
    case EVENT_RELEASED:
        may_act(ds, e, now, &a);
        break;
    case EVENT_MOVED:
        may_move(ds, e, &a);
        break;
    case EVENT_VOIDED:
        may_void(ds, e, now, &a);
        break;
    }
    return a;
}
