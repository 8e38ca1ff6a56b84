#include "stop_mail.h"

#include "buf.h"
#include "condition.h"
#include "defect_events.h"
#include "dues.h"
#include "fitness.h"
#include "mailing.h"
#include "people.h"
#include "records.h"
#include "stop_letter.h"

#include <stdio.h>
#include <string.h>
#include <sysexits.h>

/* Room for "stopped-" or "lapsed-" and a number or two. */
#define STAGE_ROOM 64

struct stop_mail_before {
    int64_t most; /* the highest number of a defect */
    char stops[]; /* by number */
};

/* What is to be told, of one vehicle. */
struct stop_news {
    const struct run_context *run;
    struct stop_letter letter;
    const char *stage;
    struct buf *show;
};

static int
no_memory(struct fault *f)
{
    return fault_set(f, EX_OSERR, "out of memory");
}

static int
is_told_of(const struct person *person, const struct subject *vehicle)
{
    return person->mail != NULL && person->n_told > 0 &&
           people_may(person, 0, vehicle);
}

static struct sent_reminder
told_to(const struct stop_news *n, const struct person *person)
{
    /* With the day for a deadline when it was stopped and without one when it
     * was let go, the last one says what the person knows of it. */
    return (struct sent_reminder){.subject = n->letter.vehicle->id,
        .job = "-",
        .cycle = SENT_REMINDER_CONDITION,
        .stage = n->stage,
        .person = person->id,
        .deadline = n->letter.condition == CONDITION_NOT_TO_BE_DRIVEN
                        ? n->letter.today
                        : DAY_NONE};
}

/* --- One message ---------------------------------------------------------- */

static int
put(const struct stop_news *n, const struct person *person, struct buf *subject,
    struct buf *text, struct buf *seed, struct fault *f)
{
    struct sent_reminder told = told_to(n, person);
    struct mailing mailing = {.person = person->id,
        .address = person->mail,
        .seed = seed,
        .subject = subject,
        .text = text};

    if (stop_letter_subject(&n->letter, subject) ||
        stop_letter_text(&n->letter, text))
        return no_memory(f);
    if (n->show != NULL) {
        buf_print(n->show, "to %s, %s: %s\n", person->id, person->mail,
            buf_str(subject));
        return 0;
    }
    buf_print(seed, "%s %s %s", person->id, told.subject, told.stage);
    return mailing_put(n->run, &mailing, &told, 1, f);
}

static int
tell_person(
    const struct stop_news *n, const struct person *person, struct fault *f)
{
    struct sent_reminder told = told_to(n, person);
    int had = sent_reminder_has(run_ledger(n->run), &told, f);

    if (had != 0)
        return had < 0 ? -1 : 0;
    struct buf *subject = buf_new();
    struct buf *text = buf_new();
    struct buf *seed = buf_new();
    int rc = subject && text && seed ? put(n, person, subject, text, seed, f)
                                     : no_memory(f);
    buf_free(seed);
    buf_free(text);
    buf_free(subject);
    return rc;
}

/* Who may lift a stop of @vehicle, for people to ask; NULL for nobody. */
static const char *
lifters(const struct run_context *p, const struct subject *vehicle)
{
    const struct fleet *fleet = run_fleet(p);
    struct buf *names = buf_new();
    const char *out = NULL;

    for (size_t i = 0; names != NULL && i < fleet->n_persons; i++) {
        const struct person *who = &fleet->persons[i];
        if (people_may(who, MAY_RELEASE, vehicle))
            buf_print(names, "%s%s", buf_len(names) > 0 ? ", " : "",
                who->name ? who->name : who->id);
    }
    if (names != NULL && buf_len(names) > 0)
        out = arena_text(run_arena(p), buf_str(names), buf_len(names));
    buf_free(names);
    return out;
}

/* The rest of the letter, and of all that is the same for everybody. */
static void
address(struct stop_news *n)
{
    const struct site *site = &run_fleet(n->run)->site;

    n->letter.site = site->name;
    n->letter.page_url = site->page_url;
    n->letter.today = run_moment(n->run).today;
    n->letter.lifters = lifters(n->run, n->letter.vehicle);
}

static int
tell_all(struct stop_news *n, struct fault *f)
{
    const struct fleet *fleet = run_fleet(n->run);

    if (fleet->site.mail.from == NULL)
        return 0;
    address(n);
    for (size_t i = 0; i < fleet->n_persons; i++)
        if (is_told_of(&fleet->persons[i], n->letter.vehicle) &&
            tell_person(n, &fleet->persons[i], f))
            return -1;
    return 0;
}

/* --- After an event ------------------------------------------------------- */

struct stop_mail_before *
stop_mail_look(const struct run_context *p, const struct defects *ds)
{
    size_t n;
    const struct defect *all = defects_all(ds, &n);
    int64_t most = defects_next_number(ds);
    struct stop_mail_before *b =
        arena_take(run_arena(p), sizeof *b + (size_t)most + 1);

    if (b == NULL)
        return NULL;
    b->most = most - 1;
    memset(b->stops, 0, (size_t)most + 1);
    for (size_t i = 0; i < n; i++)
        b->stops[all[i].number] =
            (char)defect_stops(&all[i], run_moment(p).today);
    return b;
}

/* The defects that stop the vehicle of @n as its reasons, those of its news
 * first; its subject names the first. */
static int
list_stops(struct stop_news *n, const struct defects *ds, struct fault *f)
{
    day_t today = run_moment(n->run).today;
    size_t count;
    const struct defect *d = NULL;

    (void)defects_all(ds, &count);
    struct stop *stops =
        arena_take(run_arena(n->run), (count + 1) * sizeof *stops);
    if (stops == NULL)
        return no_memory(f);
    for (size_t i = 0; i < n->letter.n_news; i++)
        stops[n->letter.n_stops++] = stop_by_defect(n->letter.news[i], today);
    while ((d = defects_open_on(ds, n->letter.vehicle, d)) != NULL) {
        int is_news = 0;
        for (size_t i = 0; i < n->letter.n_news; i++)
            is_news |= n->letter.news[i] == d;
        if (!is_news && defect_stops(d, today))
            stops[n->letter.n_stops++] = stop_by_defect(d, today);
    }
    n->letter.stops = stops;
    n->letter.condition = CONDITION_NOT_TO_BE_DRIVEN;
    return 0;
}

/* What lifted a stop is told when it was the last one, whatever the others
 * were: a job, a spell. */
static int
tell_lifted(struct stop_news *n, const struct defects *ds, struct fault *f)
{
    const struct snapshot *s = dues_of_run(n->run, f);
    struct conditions *c = s ? fitness_make(n->run, s, ds, f) : NULL;

    if (c == NULL)
        return -1;
    const struct vehicle_condition *v = conditions_of(c, n->letter.vehicle);
    int rc = 0;
    if (v != NULL && v->condition != CONDITION_NOT_TO_BE_DRIVEN) {
        n->letter.condition = v->condition;
        rc = tell_all(n, f);
    }
    conditions_free(c);
    return rc;
}

static const char *
reading_text(
    const struct run_context *p, const struct subject *vehicle, int64_t reading)
{
    const struct record r = {.kind = RECORD_READING,
        .subject = vehicle,
        .meter = METER_DISTANCE,
        .day = run_moment(p).today};
    char text[48];

    if (reading < 0)
        return NULL;
    int len = snprintf(
        text, sizeof text, "%lld %s", (long long)reading, record_unit_word(&r));
    return arena_text(run_arena(p), text, (size_t)len);
}

/* The defects that stop now and did not (@stops), or the other way round; sets
 * @n.  Those of one event are of one vehicle and what it carries. */
static const struct defect **
changed(const struct run_context *p, const struct stop_mail_before *before,
    const struct defects *ds, int stops, size_t *n)
{
    size_t count;
    const struct defect *all = defects_all(ds, &count);
    const struct defect **list =
        arena_take(run_arena(p), (count + 1) * sizeof(void *));

    *n = 0;
    for (size_t i = 0; list != NULL && i < count; i++) {
        const struct defect *d = &all[i];
        int was = d->number <= before->most && before->stops[d->number];
        int is = defect_stops(d, run_moment(p).today) != 0;
        if (d->subject != NULL && was != is && is == stops)
            list[(*n)++] = d;
    }
    return list;
}

int
stop_mail_after(const struct run_context *p,
    const struct stop_mail_before *before, const struct defects *ds, int64_t id,
    int64_t reading, struct fault *f)
{
    char stage[STAGE_ROOM];
    struct stop_news n = {.run = p, .stage = stage};
    size_t count;

    for (int stops = 1; stops >= 0; stops--) {
        const struct defect **list = changed(p, before, ds, stops, &count);
        if (list == NULL)
            return no_memory(f);
        if (count == 0)
            continue;
        n.letter.vehicle = defects_carrier(ds, list[0]->subject);
        if (n.letter.vehicle == NULL)
            continue;
        n.letter.news = list;
        n.letter.n_news = count;
        n.letter.reading = reading_text(p, n.letter.vehicle, reading);
        snprintf(stage, sizeof stage, "%s-%lld", stops ? "stopped" : "lifted",
            (long long)id);
        if (!stops)
            return tell_lifted(&n, ds, f);
        return list_stops(&n, ds, f) || tell_all(&n, f) ? -1 : 0;
    }
    return 0;
}

/* Nonzero when the task was done since, so that the failure stops nothing. */
static int
was_done_since(const struct run_context *p, const struct task *t, day_t day)
{
    const struct facts *facts = run_facts(p);
    size_t first = facts->first[t->subject->index];
    size_t end = facts->first[t->subject->index + 1];

    for (size_t i = first; i < end; i++)
        if (facts->records[i].kind == RECORD_COMPLETED &&
            facts->records[i].job == t->job && facts->records[i].day > day)
            return 1;
    return 0;
}

int
stop_mail_failed(const struct run_context *p, const struct task *t,
    const struct record *r, int64_t id, struct fault *f)
{
    char stage[STAGE_ROOM];
    struct record failed = *r;
    struct due d = {.task = t, .failed = &failed, .deadline = DAY_NONE};
    const struct subject *v = t->subject;
    struct stop stop = {.kind = STOP_FAILED,
        .makes = CONDITION_NOT_TO_BE_DRIVEN,
        .subject = v,
        .since = r->day,
        .due = &d};

    while (v->kind == SUBJECT_EQUIPMENT && v->carrier != NULL)
        v = v->carrier;
    if (r->kind != RECORD_FAILED || t->job->failure != FAILURE_STOPS ||
        v->kind != SUBJECT_VEHICLE || was_done_since(p, t, r->day))
        return 0;
    failed.id = id;
    snprintf(stage, sizeof stage, "stopped-%lld", (long long)id);
    struct stop_news n = {.run = p,
        .stage = stage,
        .letter = {.vehicle = v,
            .condition = CONDITION_NOT_TO_BE_DRIVEN,
            .stops = &stop,
            .n_stops = 1,
            .reading = reading_text(p, v, r->reading)}};
    return tell_all(&n, f);
}

/* --- In a round ----------------------------------------------------------- */

/* Tell of each deferral of @v that lapsed; those told before are skipped. */
static int
tell_lapsed(const struct run_context *p, const struct vehicle_condition *v,
    struct buf *show, struct fault *f)
{
    char stage[STAGE_ROOM];
    char day[DAY_TEXT];

    for (size_t i = 0; i < v->n_stops; i++) {
        const struct defect *d = v->stops[i].defect;
        if (v->stops[i].kind != STOP_LAPSED)
            continue;
        snprintf(stage, sizeof stage, "lapsed-%lld-%s", (long long)d->number,
            day_text(d->until, day));
        struct stop_news n = {.run = p,
            .stage = stage,
            .show = show,
            .letter = {.vehicle = v->vehicle,
                .condition = CONDITION_NOT_TO_BE_DRIVEN,
                .stops = &v->stops[i],
                .n_stops = 1}};
        if (tell_all(&n, f))
            return -1;
    }
    return 0;
}

/* Whoever was told last that @v is stopped hears that it is so no more. */
static int
tell_freed(const struct run_context *p, const struct vehicle_condition *v,
    struct buf *show, struct fault *f)
{
    const struct fleet *fleet = run_fleet(p);
    char stage[STAGE_ROOM];
    struct stop_news n = {.run = p,
        .stage = stage,
        .show = show,
        .letter = {.vehicle = v->vehicle, .condition = v->condition}};

    if (v->condition == CONDITION_NOT_TO_BE_DRIVEN)
        return 0;
    /* There may be another such day for the same vehicle. */
    snprintf(
        stage, sizeof stage, "lifted-at-%lld", (long long)run_moment(p).now);
    address(&n);
    for (size_t i = 0; i < fleet->n_persons; i++) {
        const struct person *who = &fleet->persons[i];
        struct sent_reminder told = told_to(&n, who);
        day_t stopped;
        if (!is_told_of(who, v->vehicle))
            continue;
        if (sent_reminder_last_deadline(run_ledger(p), &told, &stopped, f) ||
            (stopped != DAY_NONE && tell_person(&n, who, f)))
            return -1;
    }
    return 0;
}

int
stop_mail_round(const struct run_context *p, struct buf *show, struct fault *f)
{
    if (run_fleet(p)->site.mail.from == NULL)
        return 0;
    const struct conditions *c = fitness_of_run(p, f);
    int rc = c ? 0 : -1;
    size_t n = 0;
    const struct vehicle_condition *all = c ? conditions_all(c, &n) : NULL;

    for (size_t i = 0; i < n && rc == 0; i++)
        if (tell_lapsed(p, &all[i], show, f) || tell_freed(p, &all[i], show, f))
            rc = -1;
    return rc;
}
