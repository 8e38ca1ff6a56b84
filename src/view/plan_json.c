#include "buf.h"
#include "caution.h"
#include "plan_view.h"
#include "plan_words.h"

#include <jansson.h>
#include <stdlib.h>

/*
 * One object with "schema", "today", "until", "bookings", "clashes",
 * "undated" and "covered".  Keys may be added under the same schema number.
 */

static json_t *
day_value(day_t d)
{
    char text[DAY_TEXT];

    return d == DAY_NONE ? json_null() : json_string(day_text(d, text));
}

/* What @say appends about a booking or clash, as a value. */
#define SAID(say, a, what, text)                                               \
    (buf_clear(text), say((a), (what), (text)), json_string(buf_str(text)))

static const char *
cause_word(enum plan_cause cause)
{
    static const char *const words[] = {[PLAN_FIXED] = "fixed",
        [PLAN_LAST_DAY] = "last-day",
        [PLAN_TOGETHER] = "together",
        [PLAN_CROWDED] = "crowded",
        [PLAN_KEPT] = "kept",
        [PLAN_EVEN] = "even",
        [PLAN_LATE] = "late"};

    return words[cause];
}

/* Which cycle of its task a booking is for, 0 the one that is due now: that one
 * has no booking of its own where a wider job completes it. */
static int
cycle_of(const struct fleet_plan *a, const struct plan_booking *b)
{
    size_t n;
    const struct fleet_plan_covered *c = fleet_plan_covered(a, &n);
    int covered = 0;

    for (size_t i = 0; i < n && !covered; i++)
        covered = c[i].task == fleet_plan_task(a, b->work);
    return (int)b->cycle + covered;
}

static json_t *
booking_value(
    const struct fleet_plan *a, const struct plan_booking *b, struct buf *text)
{
    const struct plan_problem *p = fleet_plan_problem(a);
    const struct plan_work *w = &p->works[b->work];
    const struct task *t = fleet_plan_task(a, b->work);

    return json_pack("{s:o, s:s, s:s, s:s, s:s, s:s, s:i, s:b, s:i, s:o, s:o,"
                     " s:b, s:s, s:o, s:o}",
        "day", day_value(b->day), "vehicle", fleet_plan_subject(a, b->work)->id,
        "subject", t->subject->id, "job", t->job->id, "title", t->job->title,
        "place", p->places[w->place].name, "minutes", w->minutes, "stays",
        w->stays, "cycle", cycle_of(a, b), "from", day_value(b->call.from),
        "deadline", day_value(b->call.to), "late", plan_is_late(b), "cause",
        cause_word(b->cause), "why", SAID(plan_words_booking, a, b, text),
        "failed", day_value(fleet_plan_failed(a, b)));
}

static json_t *
bookings_value(const struct fleet_plan *a, struct buf *text)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(fleet_plan_solution(a), &n);
    json_t *list = json_array();

    for (size_t i = 0; i < n; i++)
        json_array_append_new(list, booking_value(a, &b[i], text));
    return list;
}

static json_t *
clashes_value(const struct fleet_plan *a, struct buf *text)
{
    size_t n;
    size_t n_bookings;
    const struct plan_clash *c = plan_clashes(fleet_plan_solution(a), &n);
    const struct plan_booking *b =
        plan_bookings(fleet_plan_solution(a), &n_bookings);
    json_t *list = json_array();

    for (size_t i = 0; i < n; i++)
        json_array_append_new(
            list, json_pack("{s:i, s:o, s:o, s:o, s:i, s:o}", "booking",
                      (int)c[i].booking, "why",
                      SAID(plan_words_booking, a, &b[c[i].booking], text), "on",
                      day_value(b[c[i].booking].on), "more_on",
                      day_value(c[i].more), "days_earlier", c[i].earlier,
                      "change", SAID(plan_words_cure, a, &c[i], text)));
    return list;
}

static json_t *
undated_value(const struct fleet_plan *a)
{
    size_t n;
    const struct fleet_plan_undated *u = fleet_plan_undated(a, &n);
    json_t *list = json_array();

    for (size_t i = 0; i < n; i++)
        json_array_append_new(list,
            json_pack("{s:s, s:s, s:s, s:o, s:s}", "subject",
                u[i].task->subject->id, "job", u[i].task->job->id, "title",
                u[i].task->job->title, "failed", day_value(u[i].failed),
                "advice", plan_view_advice(&u[i])));
    return list;
}

/* What a wider job does for. */
static json_t *
covered_value(const struct fleet_plan *a)
{
    size_t n;
    const struct fleet_plan_covered *c = fleet_plan_covered(a, &n);
    json_t *list = json_array();

    for (size_t i = 0; i < n; i++) {
        const struct plan_booking *b = fleet_plan_wider(a, &c[i]);
        json_array_append_new(list,
            json_pack("{s:s, s:s, s:s, s:o, s:o, s:s, s:o}", "subject",
                c[i].task->subject->id, "job", c[i].task->job->id, "title",
                c[i].task->job->title, "failed", day_value(c[i].failed),
                "deadline", day_value(c[i].deadline), "with",
                c[i].with->job->id, "day", day_value(b ? b->day : DAY_NONE)));
    }
    return list;
}

int
plan_view_json(const struct fleet_plan *a, struct buf *out)
{
    const struct fleet_plan_options *o = fleet_plan_options(a);
    struct buf *said = buf_new();

    if (said == NULL)
        return -1;
    json_t *top = json_pack("{s:i, s:o, s:o, s:i, s:s, s:o, s:o, s:o, s:o}",
        "schema", 1, "today", day_value(o->today), "until", day_value(o->until),
        "visits", (int)plan_visits(fleet_plan_solution(a)), "caution",
        CAUTION_TEXT, "bookings", bookings_value(a, said), "clashes",
        clashes_value(a, said), "undated", undated_value(a), "covered",
        covered_value(a));
    char *text = top ? json_dumps(top, JSON_INDENT(2)) : NULL;
    if (text != NULL)
        buf_print(out, "%s\n", text);
    int failed = text == NULL || buf_failed(out) || buf_failed(said);
    free(text);
    json_decref(top);
    buf_free(said);
    return failed ? -1 : 0;
}
