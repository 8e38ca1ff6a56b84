/* How much of the processor a year's plan takes, from a hundred vehicles to ten
 * thousand, and again after one change, as a share of the whole. */
#include "plan.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define KINDS 10

/* Days from one time to the next, how early at most, and minutes. */
static const int kinds[KINDS][3] = {{42, 5, 120}, {365, 28, 180}, {182, 14, 60},
    {365, 28, 30}, {91, 7, 60}, {365, 28, 60}, {730, 28, 120}, {365, 28, 90},
    {182, 14, 45}, {91, 7, 20}};

struct fleet_of {
    struct plan_problem plan;
    day_t *first;     /* deadline of each work */
    day_t (*was)[16]; /* where the last plan had each cycle */
};

static int
next_call(
    void *with, size_t work, const day_t *done, size_t n, struct plan_call *out)
{
    const struct fleet_of *f = with;
    const int *kind = kinds[work % KINDS];
    day_t to = n ? done[n - 1] + kind[0] : f->first[work];

    if (to > f->plan.until)
        return 0;
    *out = (struct plan_call){
        to - kind[1], to, DAY_NONE, n < 16 ? f->was[work][n] : DAY_NONE, 0};
    return 1;
}

static double
now(void)
{
    struct timespec t;

    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static struct plan *
timed(struct fleet_of *f, double *seconds)
{
    double start = now();
    struct plan *p = plan_new(&f->plan);

    *seconds = now() - start;
    return p;
}

static void
keep(struct fleet_of *f, const struct plan *p)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(p, &n);

    for (size_t i = 0; i < n; i++)
        if (b[i].cycle < 16)
            f->was[b[i].work][b[i].cycle] = b[i].day;
}

static int
count_moved(const struct fleet_of *f, const struct plan *p)
{
    size_t n;
    const struct plan_booking *b = plan_bookings(p, &n);
    int moved = 0;

    for (size_t i = 0; i < n; i++)
        moved += b[i].cycle < 16 && f->was[b[i].work][b[i].cycle] != b[i].day;
    return moved;
}

static void
run(size_t vehicles, const struct work_calendar *open)
{
    size_t workshops = vehicles / 20 + 1;
    size_t works = vehicles * KINDS;
    struct plan_place *places = calloc(workshops, sizeof *places);
    struct plan_group *groups = calloc(workshops, sizeof *groups);
    struct plan_unit *units = calloc(vehicles, sizeof *units);
    size_t *group_of = calloc(vehicles, sizeof *group_of);
    struct plan_work *list = calloc(works, sizeof *list);
    struct fleet_of f = {.first = calloc(works, sizeof(day_t)),
        .was = calloc(works, sizeof(day_t[16]))};

    for (size_t i = 0; i < workshops; i++) {
        places[i] = (struct plan_place){"workshop", 3, 600};
        groups[i] = (struct plan_group){"buses", open, 3};
    }
    for (size_t v = 0; v < vehicles; v++) {
        group_of[v] = v % workshops;
        units[v] = (struct plan_unit){"bus", &group_of[v], 1};
    }
    srand(20261202);
    for (size_t w = 0; w < works; w++) {
        list[w] = (struct plan_work){
            w / KINDS, w / KINDS % workshops, kinds[w % KINDS][2], 0, open};
        f.first[w] = 20789 + 1 + rand() % kinds[w % KINDS][0];
        for (int k = 0; k < 16; k++)
            f.was[w][k] = DAY_NONE;
    }
    f.plan = (struct plan_problem){20789, 20789 + 365, places, workshops,
        groups, workshops, units, vehicles, list, works, next_call, &f};

    double full;
    double again;
    double change;
    size_t n;
    size_t late;
    struct plan *p = timed(&f, &full);
    (void)plan_bookings(p, &n);
    (void)plan_clashes(p, &late);
    size_t visits = plan_visits(p);
    keep(&f, p);
    plan_free(p);
    p = timed(&f, &again);
    int moved_none = count_moved(&f, p);
    plan_free(p);
    f.first[7] -= 20;
    p = timed(&f, &change);
    printf("%6zu vehicles %7zu bookings %6zu visits %4zu late: %8.1f ms, "
           "again %7.1f ms (%d moved), one change %7.1f ms (%.2f, %d moved)\n",
        vehicles, n, visits, late, full * 1e3, again * 1e3, moved_none,
        change * 1e3, change / full, count_moved(&f, p));
    plan_free(p);
    free(places);
    free(groups);
    free(units);
    free(group_of);
    free(list);
    free(f.first);
    free(f.was);
}

int
main(void)
{
    struct work_calendar_plan weekdays = {.works = 0x1f};
    struct work_calendar *open = work_calendar_new(&weekdays);

    setvbuf(stdout, NULL, _IOLBF, 0);

    for (size_t n = 100; n <= 10000; n *= 10)
        run(n, open);
    work_calendar_free(open);
    return 0;
}
