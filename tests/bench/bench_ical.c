/*
 * bench_ical MODE N FILE: write N events into the file and print the seconds
 * of processor that took and the most memory, in KiB.  MODE is "ours"; "one",
 * plain libical with one component at a time; "tree", plain libical with all
 * of them in one calendar; or "input", which makes what "ours" is given and
 * writes nothing, for its memory.
 *
 * The peers write the same properties with the same texts, and get these texts
 * ready made.
 */
#include "arena.h"
#include "buf.h"
#include "ical.h"
#include "ical_item.h"

#include <libical/ical.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define JOBS 10
#define TEXTS 1000
#define TODAY 20789      /* 2026-12-02 */
#define STAMP 1796169600 /* that day, as seconds */
#define SITE "Skerrow Isles Transport"

static const char *const titles[JOBS] = {"Annual test", "Safety inspection",
    "Engine oil and filter", "Extinguisher: yearly service",
    "Passenger lift: thorough examination", "First-aid kit: contents, expiry",
    "Tachograph: inspection", "Laden brake test", "Tyres; tread and age",
    "Wheel nuts: check torque"};

static const struct reason reasons[] = {
    {.text = "completed on that day (by the fleet file)"},
    {.text = "every 12 months (recommendation), ends day before"},
    {.text = "the station, which works on tue thu, is shut: Boxing Day"},
    {.text = "to be booked 10 working days ahead"},
};

struct world {
    struct depot depot;
    struct rule rule;
    struct job jobs[JOBS];
    struct subject *subjects;
    struct task *tasks;
    struct due *dues;
    const struct due **list;
    struct ical_stamp *stamps;
    size_t n;
};

/* Of this process alone, whatever else the machine does. */
static double
seconds(void)
{
    struct timespec t;

    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static void *
room(size_t n, size_t size)
{
    void *p = calloc(n, size);

    if (p == NULL)
        abort();
    return p;
}

static void
make_due(struct world *w, size_t i)
{
    struct due *d = &w->dues[i];

    w->tasks[i] = (struct task){.subject = &w->subjects[i / JOBS],
        .job = &w->jobs[i % JOBS],
        .rule = &w->rule};
    *d = (struct due){.task = &w->tasks[i],
        .cycle = {.record = (int64_t)i + 1, .start = DAY_NONE},
        .state = DUE_AHEAD,
        .deadline = TODAY + (day_t)(i % 540),
        .plan_day = TODAY + (day_t)(i % 540),
        .book_by = TODAY + (day_t)(i % 540) - 14,
        .last_done = TODAY - (day_t)(i % 300),
        .due_reading = -1,
        .reasons = reasons,
        .n_reasons = sizeof reasons / sizeof *reasons};
    w->list[i] = d;
    w->stamps[i] = (struct ical_stamp){(int)(i % 7), STAMP};
}

static void
make_world(struct world *w, struct arena *a, size_t n)
{
    *w = (struct world){.depot = {.id = "harbour"}, .n = n};
    for (size_t k = 0; k < JOBS; k++)
        w->jobs[k] = (struct job){.id = titles[k],
            .title = titles[k],
            .class = CLASS_RECOMMENDATION,
            .authority = "a competent engineer; ask the local authority",
            .caution = "Stored pressure, spring and gas: qualified people"};
    w->subjects = room(n / JOBS + 1, sizeof *w->subjects);
    w->tasks = room(n, sizeof *w->tasks);
    w->dues = room(n, sizeof *w->dues);
    w->list = room(n, sizeof *w->list);
    w->stamps = room(n + 1, sizeof *w->stamps);
    for (size_t s = 0; s <= n / JOBS; s++)
        w->subjects[s] = (struct subject){
            .id = arena_print(a, "K%zu", s), .depot = &w->depot};
    for (size_t i = 0; i < n; i++)
        make_due(w, i);
}

/* --- ours ------------------------------------------------------------------
 */

/* As a pass does it, which empties the buffer at times. */
static void
flush(struct buf *out, FILE *file)
{
    if (buf_failed(out))
        abort();
    fwrite(buf_str(out), 1, buf_len(out), file);
    buf_clear(out);
}

static void
ours(const struct world *w, FILE *file)
{
    struct ical_feed feed = {.site = SITE,
        .id = "all",
        .title = "Everything",
        .alarm = {-1, STEP_DAYS}};
    struct ical *c = ical_new(&feed);
    struct buf *out = buf_new();
    struct buf *content = buf_new();

    if (c == NULL || out == NULL || content == NULL || ical_begin(c, out))
        abort();
    for (size_t i = 0; i < w->n; i++) {
        struct ical_item item = {.kind = ICAL_DUE, .due = w->list[i]};
        buf_clear(content);
        if (ical_content(c, &item, content) ||
            ical_stamped(c, &item, content, &w->stamps[i], out))
            abort();
        flush(out, file);
    }
    ical_end(out);
    flush(out, file);
    buf_free(content);
    buf_free(out);
    ical_free(c);
}

/* --- plain libical -----------------------------------------------------------
 */

struct texts {
    char *summary;
    char *description;
    char *categories;
};

static char *
text_of(
    void (*write)(const struct ical_item *, struct buf *), const struct due *d)
{
    struct ical_item item = {.kind = ICAL_DUE, .due = d};
    struct buf *b = buf_new();

    if (b == NULL)
        abort();
    write(&item, b);
    char *copy = strdup(buf_str(b));
    buf_free(b);
    return copy;
}

static void
add(icalcomponent *c, icalproperty *p)
{
    if (p == NULL)
        abort();
    icalcomponent_add_property(c, p);
}

static void
add_x(icalcomponent *c, const char *name, const char *value)
{
    icalproperty *p = icalproperty_new_x(value);

    icalproperty_set_x_name(p, name);
    add(c, p);
}

static icalcomponent *
event(const struct world *w, size_t i, const struct texts *t)
{
    icalcomponent *c = icalcomponent_new(ICAL_VEVENT_COMPONENT);
    struct icaltimetype stamp = icaltime_from_timet_with_zone(
        STAMP, 0, icaltimezone_get_utc_timezone());
    struct ymd date = day_ymd(w->dues[i].plan_day);
    struct icaltimetype day = icaltime_null_date();
    char uid[48];

    snprintf(uid, sizeof uid, "534025b3-d4fa-5124-be19-%012zu", i);
    day.year = date.year;
    day.month = date.month;
    day.day = date.day;
    add(c, icalproperty_new_uid(uid));
    add(c, icalproperty_new_dtstamp(stamp));
    add(c, icalproperty_new_lastmodified(stamp));
    add(c, icalproperty_new_sequence((int)w->stamps[i].sequence));
    add(c, icalproperty_new_dtstart(day));
    icaltime_adjust(&day, 1, 0, 0, 0);
    add(c, icalproperty_new_dtend(day));
    add(c, icalproperty_new_summary(t->summary));
    add(c, icalproperty_new_description(t->description));
    add(c, icalproperty_new_categories(t->categories));
    add(c, icalproperty_new_status(ICAL_STATUS_CONFIRMED));
    add(c, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
    add_x(c, "X-MICROSOFT-CDO-BUSYSTATUS", "FREE");
    return c;
}

static void
write_component(icalcomponent *c, FILE *file)
{
    char *text = icalcomponent_as_ical_string_r(c);

    if (text == NULL)
        abort();
    fputs(text, file);
    free(text);
    icalcomponent_free(c);
}

static void
one_by_one(const struct world *w, const struct texts *texts, FILE *file)
{
    fputs("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\n", file);
    for (size_t i = 0; i < w->n; i++)
        write_component(event(w, i, &texts[i % TEXTS]), file);
    fputs("END:VCALENDAR\r\n", file);
}

static void
whole_tree(const struct world *w, const struct texts *texts, FILE *file)
{
    icalcomponent *calendar = icalcomponent_new_vcalendar();

    add(calendar, icalproperty_new_version("2.0"));
    add(calendar, icalproperty_new_prodid("x"));
    for (size_t i = 0; i < w->n; i++)
        icalcomponent_add_component(calendar, event(w, i, &texts[i % TEXTS]));
    write_component(calendar, file);
}

/* The most memory this process ever had, in KiB.  What getrusage() says begins
 * with that of the process that started it. */
static long
peak(void)
{
    FILE *file = fopen("/proc/self/status", "r");
    char line[256];
    long kib = -1;

    while (file != NULL && kib < 0 && fgets(line, sizeof line, file) != NULL)
        if (sscanf(line, "VmHWM: %ld", &kib) != 1)
            kib = -1;
    if (file != NULL)
        fclose(file);
    return kib;
}

int
main(int argc, char **argv)
{
    struct arena *a = arena_new();
    struct world w;
    struct texts texts[TEXTS] = {{NULL, NULL, NULL}};

    if (argc != 4 || a == NULL)
        return 64;
    make_world(&w, a, strtoul(argv[2], NULL, 10));
    const char *mode = argv[1];
    int plain = strcmp(mode, "one") == 0 || strcmp(mode, "tree") == 0;
    for (size_t i = 0; plain && i < TEXTS && i < w.n; i++)
        texts[i] = (struct texts){text_of(ical_summary, &w.dues[i]),
            text_of(ical_description, &w.dues[i]),
            text_of(ical_categories, &w.dues[i])};
    FILE *file = fopen(argv[3], "wb");
    if (file == NULL)
        return 73;
    double start = seconds();
    if (strcmp(mode, "ours") == 0)
        ours(&w, file);
    else if (strcmp(mode, "one") == 0)
        one_by_one(&w, texts, file);
    else if (strcmp(mode, "tree") == 0)
        whole_tree(&w, texts, file);
    if (fclose(file))
        return 74;
    printf("%.6f %ld\n", seconds() - start, peak());
    return 0;
}
