#ifndef FLEET_PLAN_FIXTURE_H
#define FLEET_PLAN_FIXTURE_H

/*
 * A fleet to plan for: two vehicles, K7 and K8, whose depot is a place.  Today
 * is Monday 2026-03-02.
 */

#include "buf.h"
#include "fixture.h"
#include "fleet_plan.h"
#include "plan_words.h"
#include "test.h"
#include "visits.h"

struct shop {
    struct world *w;
    struct subject *k7;
    struct subject *k8;
    struct workplace places[2]; /* the depot's, and one elsewhere */
    struct away_limit limit;
    const struct subject *of[WORLD_SUBJECTS];
    struct booked fixed[4];
    struct fleet_plan_day kept[4];
    struct fleet_plan_options options;
    struct fleet_plan *plan;
};

static inline int
shop_setup(void **state)
{
    struct shop *s = calloc(1, sizeof *s);

    if (s == NULL)
        return -1;
    s->w = world_new();
    s->k7 = &s->w->subjects[0];
    s->k8 = world_subject(s->w, "K8");
    s->places[0] = (struct workplace){"yard", "The yard", s->w->calendar, 0, 0};
    s->places[1] =
        (struct workplace){"station", "The station", s->w->calendar, 0, 0};
    s->w->depot.at = &s->places[0];
    s->limit =
        (struct away_limit){.id = "buses", .title = "Buses", .of = s->of};
    s->options = (struct fleet_plan_options){.today = date("2026-03-02"),
        .until = date("2026-06-30"),
        .fixed = s->fixed,
        .kept = s->kept};
    *state = s;
    return 0;
}

static inline int
shop_teardown(void **state)
{
    struct shop *s = *state;

    fleet_plan_free(s->plan);
    world_free(s->w);
    free(s);
    return 0;
}

#define SHOP_TEST(f)                                                           \
    cmocka_unit_test_setup_teardown(f, shop_setup, shop_teardown)

/* The job of a subject that was last done on that day. */
static inline void
shop_has(struct shop *s, struct subject *of, struct job *j, const char *last)
{
    struct task *t = world_task(s->w, of, j);

    t->baseline.last = date(last);
}

static inline void
shop_limit(struct shop *s, int away)
{
    s->of[0] = s->k7;
    s->of[1] = s->k8;
    s->limit.n_of = 2;
    s->limit.away = away;
}

static inline const struct fleet_plan *
shop_plan(struct shop *s)
{
    fleet_plan_free(s->plan);
    world_group(s->w);
    s->w->fleet.workplaces = s->places;
    s->w->fleet.n_workplaces = 2;
    s->w->fleet.limits = &s->limit;
    s->w->fleet.n_limits = s->limit.n_of > 0;
    s->plan = fleet_plan_new(&s->w->facts, &s->options);
    assert_non_null(s->plan);
    return s->plan;
}

/* The task of the fleet as it was grouped last. */
static inline const struct task *
shop_task(const struct shop *s, const struct subject *of, const struct job *j)
{
    return fleet_task(&s->w->fleet, of, j);
}

/* The booking of a subject's job in that cycle, or NULL. */
static inline const struct plan_booking *
shop_find(const struct shop *s, const struct subject *of, const struct job *j,
    size_t cycle)
{
    size_t n;
    const struct plan_booking *b =
        plan_bookings(fleet_plan_solution(s->plan), &n);

    for (size_t i = 0; i < n; i++) {
        const struct task *t = fleet_plan_task(s->plan, b[i].work);
        if (t->subject == of && t->job == j && b[i].cycle == cycle)
            return &b[i];
    }
    return NULL;
}

#define assert_booked(s, of, j, cycle, text)                                   \
    do {                                                                       \
        const struct plan_booking *b_ = shop_find((s), (of), (j), (cycle));    \
        assert_non_null(b_);                                                   \
        assert_day(b_->day, (text));                                           \
    } while (0)

/* Fail unless that is why. */
#define assert_because(s, of, j, text)                                         \
    do {                                                                       \
        struct buf *said_ = buf_new();                                         \
        plan_words_booking((s)->plan, shop_find((s), (of), (j), 0), said_);    \
        assert_string_equal(buf_str(said_), (text));                           \
        buf_free(said_);                                                       \
    } while (0)

#endif
