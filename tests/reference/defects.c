/*
 * The fold over defects, asked line by line: the protocol stands in README.md
 * beside this.  Reads questions and events from standard input and prints what
 * `second-defects` compares with a fold that was written apart.
 */

#include "arena.h"
#include "may_enter.h"
#include "missing.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MOST 64

struct told {
    struct arena *arena;
    struct fleet fleet;
    struct subject subjects[MOST];
    struct person persons[MOST];
    struct subject_type types[MOST];
    struct check_item items[MOST];
    struct check_group group;
    struct check_sheet sheet;
    const struct check_sheet *sheets[1];
    day_t inspections[MOST];
    struct defects *defects;
    day_t newest; /* that was entered or asked for */
    int64_t next_id;
    const char *names[100000]; /* of events, by their id */
};

static char *
keep(struct told *t, const char *text)
{
    char *kept = arena_text(t->arena, text, strlen(text));

    if (kept == NULL)
        exit(1);
    return kept;
}

static void
wrong(const char *what)
{
    fprintf(stderr, "defects: cannot read %s\n", what ? what : "the line");
    exit(1);
}

static char *
word(char **rest)
{
    char *w = strtok_r(NULL, " \n", rest);

    if (w == NULL)
        wrong(NULL);
    return w;
}

static struct subject *
find_subject(struct told *t, const char *id)
{
    for (size_t i = 0; i < t->fleet.n_subjects; i++)
        if (strcmp(t->subjects[i].id, id) == 0)
            return &t->subjects[i];
    return NULL;
}

static struct subject *
subject(struct told *t, const char *id)
{
    struct subject *s = find_subject(t, id);

    if (s == NULL)
        wrong(id);
    return s;
}

static struct subject *
add_subject(struct told *t, const char *id, enum subject_kind kind)
{
    struct subject *s = &t->subjects[t->fleet.n_subjects];

    if (t->fleet.n_subjects == MOST)
        wrong("so many subjects");
    *s = (struct subject){.id = keep(t, id),
        .kind = kind,
        .index = t->fleet.n_subjects,
        .sheets = t->sheets,
        .n_sheets = kind == SUBJECT_VEHICLE};
    t->inspections[t->fleet.n_subjects++] = DAY_NONE;
    return s;
}

/* The type of equipment that the sheet of every vehicle asks for by that
 * item. */
static const struct subject_type *
type(struct told *t, const char *item)
{
    for (size_t i = 0; i < t->sheet.n_items; i++)
        if (strcmp(t->items[i].code, item) == 0)
            return t->items[i].carried;
    size_t n = t->sheet.n_items++;
    t->types[n] = (struct subject_type){.id = keep(t, item), .index = n};
    t->items[n] = (struct check_item){.code = t->types[n].id,
        .text = t->types[n].id,
        .grade = GRADE_STOPS,
        .carried = &t->types[n]};
    return &t->types[n];
}

static day_t
day(const char *text)
{
    day_t d = day_parse(text, strlen(text));

    if (d == DAY_NONE)
        wrong(text);
    return d;
}

static void
read_moment(struct day_time *m, char **rest)
{
    int hour, minute;

    m->day = day(word(rest));
    const char *at = word(rest);
    if (sscanf(at, "%2d:%2d", &hour, &minute) != 2)
        wrong(at);
    m->minute = hour * 60 + minute;
}

static const char *
read_by(struct told *t, char **rest)
{
    const char *by = word(rest);

    return strcmp(by, "key") == 0 ? NULL : keep(t, by);
}

static int64_t
id_of(const struct told *t, const char *name)
{
    for (int64_t i = 1; i < t->next_id; i++)
        if (t->names[i] != NULL && strcmp(t->names[i], name) == 0)
            return i;
    return -1;
}

static int64_t
first_of(const struct told *t, const char *number)
{
    const struct defect *d =
        defects_numbered(t->defects, strtoll(number, NULL, 10));

    return d ? d->first : -1;
}

static void
read_subject(struct told *t, struct defect_event *e, char **rest)
{
    e->subject = find_subject(t, word(rest));
    e->subject_id = e->subject ? e->subject->id : NULL;
}

static void
read_verdict(struct defect_event *e, const char *text)
{
    const char *colon = strrchr(text, ':');

    e->reading = -1;
    e->until = DAY_NONE;
    e->verdict = VERDICT_UNTIL;
    if (colon != NULL) {
        e->until = day(colon + 1);
        if (strncmp(text, "km:", 3) == 0)
            e->reading = strtoll(text + 3, NULL, 10);
        return;
    }
    int verdict = defect_verdict_find(text);
    if (verdict < 0)
        wrong(text);
    e->verdict = (enum defect_verdict)verdict;
}

static void
read_check(struct told *t, struct defect_event *e, char **rest)
{
    int64_t *answered = arena_take(t->arena, MOST * sizeof *answered);
    char *w;

    e->kind = EVENT_CHECKED;
    read_subject(t, e, rest);
    read_moment(&e->at, rest);
    e->by = read_by(t, rest);
    (void)word(rest);
    e->paper = strcmp(word(rest), "paper") == 0;
    while ((w = strtok_r(NULL, " \n", rest)) != NULL)
        if (strcmp(w, "answered") != 0 && e->n_answered < MOST)
            answered[e->n_answered++] = strtoll(w, NULL, 10);
    e->answered = answered;
}

static void
read_report(struct told *t, struct defect_event *e, char **rest)
{
    char *w;

    e->kind = EVENT_REPORTED;
    read_subject(t, e, rest);
    e->item = keep(t, word(rest));
    const char *grade = word(rest);
    if (sheet_grade_find(grade) < 0)
        wrong(grade);
    e->grade = (enum grade)sheet_grade_find(grade);
    read_moment(&e->at, rest);
    e->by = read_by(t, rest);
    e->paper = strcmp(word(rest), "paper") == 0;
    if ((w = strtok_r(NULL, " \n", rest)) != NULL)
        e->cause = id_of(t, word(rest));
}

static void
read_act(struct told *t, struct defect_event *e, char **rest)
{
    e->about = first_of(t, word(rest));
    if (e->kind == EVENT_ASSESSED)
        read_verdict(e, word(rest));
    read_moment(&e->at, rest);
    e->by = read_by(t, rest);
    e->alone = strtok_r(NULL, " \n", rest) != NULL;
}

static void
read_event(struct told *t, struct defect_event *e, char **rest)
{
    const char *kind = word(rest);

    *e = (struct defect_event){.until = DAY_NONE, .reading = -1};
    e->at.day = t->newest;
    if (strcmp(kind, "checked") == 0)
        read_check(t, e, rest);
    else if (strcmp(kind, "reported") == 0)
        read_report(t, e, rest);
    else if (strcmp(kind, "voided") == 0) {
        e->kind = EVENT_VOIDED;
        e->about = id_of(t, word(rest));
        e->by = read_by(t, rest);
        e->alone = strtok_r(NULL, " \n", rest) != NULL;
    } else if (strcmp(kind, "moved") == 0) {
        e->kind = EVENT_MOVED;
        read_subject(t, e, rest);
        e->other = find_subject(t, word(rest));
        e->at.day = day(word(rest));
        e->whole_day = 1;
        e->sure = strtok_r(NULL, " \n", rest) != NULL;
    } else {
        e->kind = strcmp(kind, "assessed") == 0   ? EVENT_ASSESSED
                  : strcmp(kind, "repaired") == 0 ? EVENT_REPAIRED
                                                  : EVENT_RELEASED;
        read_act(t, e, rest);
    }
}

static int64_t
enter(struct told *t, struct defect_event *e, const char *name)
{
    if ((size_t)t->next_id >= sizeof t->names / sizeof *t->names)
        wrong("so many events");
    e->id = t->next_id++;
    t->names[e->id] = name;
    if (e->kind == EVENT_REPORTED) {
        const struct defect *joins = defects_joined(t->defects, e);
        e->about = joins ? joins->first : 0;
        e->number = joins ? 0 : defects_next_number(t->defects);
    }
    if (defects_add(t->defects, e))
        exit(1);
    t->newest = day_later(t->newest, e->at.day);
    return e->id;
}

/* A move with all that comes of it. */
static void
enter_move(struct told *t, struct defect_event *e, const char *name)
{
    struct move_brings b = missing_by_move(t->defects, e);
    int64_t found = b.found ? b.found->first : 0;

    e->cause = b.excused_by;
    int64_t id = enter(t, e, name);
    if (found != 0) {
        struct defect_event undo = {
            .kind = EVENT_VOIDED, .about = found, .cause = id, .at = e->at};
        enter(t, &undo, NULL);
    }
    if (b.lacking != NULL) {
        struct defect_event missing = {.kind = EVENT_REPORTED,
            .cause = id,
            .at = e->at,
            .whole_day = 1,
            .subject_id = b.lacking->id,
            .subject = b.lacking,
            .item = b.item->code,
            .grade = GRADE_STOPS,
            .until = DAY_NONE};
        enter(t, &missing, NULL);
    }
}

/* The void of a move takes what was missing by it along. */
static void
enter_void(struct told *t, struct defect_event *e, const char *name)
{
    const struct defect_event *was = defects_event(t->defects, e->about);
    int64_t missing = 0;
    size_t n;
    const struct defect_event *all = defects_events(t->defects, &n);

    for (size_t i = 0; was->kind == EVENT_MOVED && i < n; i++)
        if (all[i].kind == EVENT_REPORTED && all[i].cause == was->id &&
            all[i].voided_by == 0)
            missing = all[i].id;
    if (missing != 0) {
        struct defect_event undo = *e;
        undo.about = missing;
        enter(t, &undo, NULL);
    }
    enter(t, e, name);
}

/* The inspection of what carries the subject of @e bounds a deferral. */
static day_t
inspection(const struct told *t, const struct defect_event *e)
{
    const struct defect *d = defects_of_event(t->defects, e->about);

    return d ? t->inspections[defects_carrier(t->defects, d->subject)->index]
             : DAY_NONE;
}

static void
event(struct told *t, char **rest)
{
    const char *name = keep(t, word(rest));
    struct defect_event e;

    read_event(t, &e, rest);
    struct enter_now now = {day_later(t->newest, e.at.day), inspection(t, &e)};
    struct enter_answer a = may_enter(t->defects, &e, &now);
    printf("%s %s\n", name, a.refusal == ENTER_ALLOWED ? "ok" : "refused");
    if (a.refusal != ENTER_ALLOWED) {
        if (getenv("WHY") != NULL)
            fprintf(stderr, "%s: %s\n", name, enter_refusal_text(a.refusal));
        return;
    }
    if (e.kind == EVENT_MOVED)
        enter_move(t, &e, name);
    else if (e.kind == EVENT_VOIDED)
        enter_void(t, &e, name);
    else
        enter(t, &e, name);
}

static int
by_name(const void *a, const void *b)
{
    const struct subject *const *left = a;
    const struct subject *const *right = b;

    return strcmp((*left)->id, (*right)->id);
}

static void
ask(struct told *t, char **rest)
{
    const struct subject *vehicles[MOST];
    size_t n;
    size_t n_vehicles = 0;
    const char *on = word(rest);
    t->newest = day_later(t->newest, day_parse(on, strlen(on)));
    const struct defect *all = defects_all(t->defects, &n);
    for (size_t i = 0; i < n; i++)
        printf("defect %lld %s %s %s %s%s%s\n", (long long)all[i].number,
            all[i].subject_id, all[i].item, defect_state_word(all[i].state),
            sheet_grade_word(all[i].grade), all[i].again ? " again" : "",
            defect_lapsed(&all[i], t->newest) ? " lapsed" : "");
    for (size_t i = 0; i < t->fleet.n_subjects; i++)
        if (t->subjects[i].kind == SUBJECT_VEHICLE)
            vehicles[n_vehicles++] = &t->subjects[i];
    qsort(vehicles, n_vehicles, sizeof *vehicles, by_name);
    for (size_t i = 0; i < n_vehicles; i++) {
        const struct defect *d = NULL;
        int stopped = 0;
        while ((d = defects_open_on(t->defects, vehicles[i], d)) != NULL)
            stopped |= defect_stops(d, t->newest);
        printf(
            "vehicle %s %s\n", vehicles[i]->id, stopped ? "stopped" : "drive");
    }
}

static void
rights(struct told *t, char **rest)
{
    struct person *p = &t->persons[t->fleet.n_persons++];
    const char *w;

    *p = (struct person){.id = keep(t, word(rest))};
    while ((w = strtok_r(NULL, " \n", rest)) != NULL)
        p->may |= strcmp(w, "assess") == 0   ? MAY_ASSESS
                  : strcmp(w, "repair") == 0 ? MAY_REPAIR
                                             : MAY_RELEASE;
}

static void
carried(struct told *t, char **rest)
{
    struct subject *s = add_subject(t, word(rest), SUBJECT_EQUIPMENT);

    s->carrier = s->first_carrier = subject(t, word(rest));
    s->type = type(t, word(rest));
}

static void
line(struct told *t, char *text)
{
    char *rest = NULL;
    const char *what = strtok_r(text, " \n", &rest);

    if (what == NULL)
        return;
    int is_head = strcmp(what, "event") != 0 && strcmp(what, "ask") != 0;
    if (!is_head && t->defects == NULL)
        t->defects = defects_new(&t->fleet);
    if (strcmp(what, "rights") == 0)
        rights(t, &rest);
    else if (strcmp(what, "vehicle") == 0)
        add_subject(t, word(&rest), SUBJECT_VEHICLE);
    else if (strcmp(what, "carried") == 0)
        carried(t, &rest);
    else if (strcmp(what, "inspection") == 0) {
        size_t at = subject(t, word(&rest))->index;
        t->inspections[at] = day(word(&rest));
    } else if (strcmp(what, "defer-at-most") == 0)
        t->fleet.site.defer_at_most.n = (int32_t)strtol(word(&rest), NULL, 10);
    else if (strcmp(what, "event") == 0)
        event(t, &rest);
    else if (strcmp(what, "ask") == 0)
        ask(t, &rest);
    else
        wrong(what);
}

int
main(void)
{
    static struct told t;
    char text[4096];

    t.arena = arena_new();
    t.next_id = 1;
    t.newest = DAY_NONE;
    t.sheet = (struct check_sheet){.id = "walk-round",
        .groups = &t.group,
        .n_groups = 1,
        .items = t.items};
    t.sheets[0] = &t.sheet;
    t.fleet.subjects = t.subjects;
    t.fleet.persons = t.persons;
    t.fleet.site.defer_at_most = (struct span){28, STEP_DAYS};
    if (t.arena == NULL)
        return 1;
    while (fgets(text, sizeof text, stdin) != NULL)
        line(&t, text);
    defects_free(t.defects);
    arena_free(t.arena);
    return 0;
}
