#include "walk_round.h"

#include "check_page.h"
#include "defect_events.h"
#include "defect_input.h"
#include "drafts.h"
#include "dues.h"
#include "fitness.h"
#include "num.h"
#include "people.h"
#include "records.h"
#include "submissions.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

#define SAY_SURE "tick \"yes, really\""

struct walk_round {
    const struct run_context *run;
    const struct defects *defects;
    const struct conditions *conditions;
};

/* Everything about a form while it is taken. */
struct check_taking {
    const struct walk_round_key *key;
    const struct run_context *run;
    const struct record_form *form;
    struct walk_round *now; /* as things stand */
    const struct subject *vehicle;
    const struct check_sheet *sheet;
    struct draft draft;
    int has_draft;
    struct check_part *parts;
    size_t n_parts;
    const char *heading;
    struct buf *text;
    struct fault refusal;
};

static int
no_memory(struct fault *f)
{
    return fault_set(f, EX_OSERR, "out of memory");
}

/* --- keys ----------------------------------------------------------------- */

int
walk_round_driver(
    const struct fleet *fleet, const char *id, struct walk_round_key *out)
{
    *out = (struct walk_round_key){.driver = people_id(fleet, id)};
    return out->driver ? 0 : -1;
}

int
walk_round_vehicle(
    const struct fleet *fleet, const char *id, struct walk_round_key *out)
{
    const struct subject *s = fleet_subject(fleet, id);

    *out = (struct walk_round_key){.vehicle = s};
    return s != NULL && s->kind == SUBJECT_VEHICLE ? 0 : -1;
}

/* How whoever signs by that id is called. */
static const char *
name_of(const struct fleet *f, const char *id)
{
    const struct person *p = people_find(f, id);
    const struct subject *s = fleet_subject(f, id);

    if (p != NULL)
        return p->name ? p->name : p->id;
    return s != NULL && s->title != NULL ? s->title : id;
}

/* --- how things stand ----------------------------------------------------- */

struct walk_round *
walk_round_begin(const struct run_context *p, struct fault *f)
{
    struct walk_round *w = calloc(1, sizeof *w);

    if (w == NULL) {
        no_memory(f);
        return NULL;
    }
    w->run = p;
    w->conditions = fitness_of_run(p, f);
    w->defects = fitness_defects(p);
    if (w->conditions != NULL)
        return w;
    free(w);
    return NULL;
}

void
walk_round_end(struct walk_round *w)
{
    free(w);
}

/* --- what is looked at ---------------------------------------------------- */

/* The answer to @line in the draft: a line of it is CODE, GRADE and TEXT with
 * tabs between them. */
static int
read_answer(struct check_line *line, const char *answers, struct arena *a)
{
    size_t len = strlen(line->code);

    for (const char *at = answers; at != NULL && *at != '\0';) {
        const char *next = strchr(at, '\n');
        if (strncmp(at, line->code, len) == 0 && at[len] == '\t') {
            const char *grade = at + len + 1;
            size_t n = strcspn(grade, "\t\n");
            const char *text = grade[n] == '\t' ? grade + n + 1 : grade + n;
            size_t m = strcspn(text, "\n");
            line->answered = 1;
            if (m == 0)
                return 0;
            line->grade = arena_text(a, grade, n);
            line->text = arena_text(a, text, m);
            return line->grade && line->text ? 0 : -1;
        }
        at = next ? next + 1 : NULL;
    }
    return 0;
}

/* Add @line with its answer to @part, whose lines grow. */
static int
add_line(
    struct check_taking *t, struct check_part *part, struct check_line line)
{
    struct arena *a = run_arena(t->run);
    struct check_line *lines =
        arena_one_more(a, part->lines, part->n, sizeof *lines);

    if (lines == NULL || line.code == NULL ||
        read_answer(&line, t->has_draft ? t->draft.answers : NULL, a))
        return -1;
    part->lines = lines;
    lines[part->n++] = line;
    return 0;
}

/* An item, or each piece of equipment that it asks for. */
static int
add_item(struct check_taking *t, struct check_part *part,
    const struct check_item *item)
{
    const struct fleet *f = run_fleet(t->run);
    struct check_line line = {.code = item->code, .item = item};

    if (!sheet_asks(f, t->vehicle, item))
        return 0;
    if (item->carried == NULL)
        return add_line(t, part, line);
    while ((line.about = sheet_carried(f, t->vehicle, item, line.about))) {
        line.code =
            arena_print(run_arena(t->run), "%s/%s", item->code, line.about->id);
        if (add_line(t, part, line))
            return -1;
    }
    return 0;
}

/* All parts: those of the sheet in walking order, then the defects that are
 * watched. */
static int
lay_out(struct check_taking *t, struct fault *f)
{
    struct arena *a = run_arena(t->run);
    const struct defect *d = NULL;
    struct check_part *part;

    t->n_parts = 0;
    t->parts = arena_take(a, (t->sheet->n_groups + 1) * sizeof *t->parts);
    if (t->parts == NULL)
        return no_memory(f);
    for (size_t g = 0; g < t->sheet->n_groups; g++) {
        const struct check_group *group = &t->sheet->groups[g];
        part = &t->parts[t->n_parts];
        *part = (struct check_part){
            .title = group->title ? group->title : t->sheet->title};
        for (size_t i = 0; i < group->n; i++)
            if (add_item(t, part, &t->sheet->items[group->first + i]))
                return no_memory(f);
        t->n_parts += part->n > 0;
    }
    part = &t->parts[t->n_parts];
    *part = (struct check_part){.title = "Watched defects"};
    while ((d = defects_open_on(t->now->defects, t->vehicle, d)) != NULL)
        if (d->state == DEFECT_WATCH &&
            add_line(t, part,
                (struct check_line){
                    .code = arena_print(a, "#%lld", (long long)d->number),
                    .watched = d}))
            return no_memory(f);
    t->n_parts += part->n > 0;
    return 0;
}

/* --- fields --------------------------------------------------------------- */

static int
refuse(struct check_taking *t, const char *why)
{
    return fault_set(&t->refusal, EX_DATAERR, "%s", why);
}

/* What was written there without what would break a line and blanks around
 * it, in the arena; NULL for nothing. */
static const char *
field(const struct check_taking *t, const char *name)
{
    const char *value = t->form->value(t->form->from, name);
    char *text;

    if (value == NULL)
        return NULL;
    value += strspn(value, " \t\r\n");
    text = arena_text(run_arena(t->run), value, strlen(value));
    if (text == NULL || *text == '\0')
        return NULL;
    for (char *c = text; *c != '\0'; c++)
        if ((unsigned char)*c < ' ')
            *c = ' ';
    for (size_t n = strlen(text); n > 0 && text[n - 1] == ' ';)
        text[--n] = '\0';
    return text;
}

static struct record_input
input_of(struct check_taking *t)
{
    return (struct record_input){.run = t->run,
        .mark = "the field ",
        .say_sure = SAY_SURE,
        .sure = field(t, CHECK_SURE) != NULL,
        .fault = &t->refusal};
}

static const char *
zone_of(const struct check_taking *t)
{
    return defect_events_zone(t->run, t->vehicle);
}

/* Who signs a report: a driver by their key; initials are part of the note. */
static const char *
signed_text(const struct check_taking *t, const char *text)
{
    return t->key->driver
               ? text
               : arena_print(run_arena(t->run), "%s (%s)", text, t->draft.who);
}

static struct defect_input
who_of(struct check_taking *t)
{
    return (struct defect_input){
        .by = t->draft.who, .is_vehicle = t->key->driver == NULL};
}

/* The minute of @day at which clocks showed @when, or -1 when that was on
 * another day. */
static int
minute_of(const struct check_taking *t, int64_t when, day_t day)
{
    const char *zone = zone_of(t);

    return clock_day(zone, when) == day ? clock_minute(zone, when) : -1;
}

/* --- steps ---------------------------------------------------------------- */

/* The vehicle, the sheet and who it is that the form names; and the draft of
 * these. */
static int
find_draft(struct check_taking *t, struct fault *f)
{
    const char *sheet = field(t, CHECK_SHEET);
    const char *who = t->key->driver ? t->key->driver : field(t, CHECK_WHO);

    for (size_t i = 0; sheet != NULL && i < t->vehicle->n_sheets; i++)
        if (strcasecmp(t->vehicle->sheets[i]->id, sheet) == 0)
            t->sheet = t->vehicle->sheets[i];
    if (t->sheet == NULL)
        return refuse(t, "that is no check sheet of this vehicle any more; "
                         "load the page anew");
    if (who == NULL) {
        t->sheet = NULL;
        return refuse(t, "your initials are missing");
    }
    t->draft = (struct draft){
        .subject = t->vehicle->id, .sheet = t->sheet->id, .who = who};
    t->has_draft =
        drafts_find(run_ledger(t->run), run_arena(t->run), &t->draft, f);
    return t->has_draft < 0 ? -1 : 0;
}

/* A new one, opened now. */
static void
start_draft(struct check_taking *t)
{
    t->draft.opened = run_moment(t->run).now;
    t->draft.sent = 0;
    t->draft.reading = field(t, CHECK_READING);
    t->draft.answers = "";
    t->has_draft = 1;
}

static int
step_begin(struct check_taking *t, struct fault *f)
{
    const char *reading = field(t, CHECK_READING);
    struct ledger *l = run_ledger(t->run);

    if (drafts_drop_old(l, run_moment(t->run).now - FORM_SECONDS, f) ||
        find_draft(t, f))
        return -1;
    if (reading != NULL && record_input_number("what the odometer shows",
                               reading, &t->refusal) < 0) {
        t->sheet = NULL;
        return -1;
    }
    if (!t->has_draft)
        start_draft(t);
    else if (reading != NULL)
        t->draft.reading = reading;
    return drafts_keep(l, &t->draft, f) || lay_out(t, f) ? -1 : 0;
}

/* By which it is known that a form was taken. */
static const char *
token_of(const struct check_taking *t, int64_t opened, const char *of)
{
    return arena_print(run_arena(t->run), "check/%s/%s/%s/%lld/%s",
        t->draft.subject, t->draft.sheet, t->draft.who, (long long)opened, of);
}

/* The draft that the form belongs to: 1 when the check was sent, and is on
 * record; 0, or -1. */
static int
open_draft(struct check_taking *t, struct fault *f)
{
    const char *text = field(t, CHECK_OPENED);
    int64_t opened = 0;
    int64_t id = 0;

    if (find_draft(t, f))
        return -1;
    if (text == NULL || num_parse(text, strlen(text), 0, INT64_MAX, &opened)) {
        t->sheet = NULL;
        return refuse(t, "this is not a form of this page; load it anew");
    }
    const char *token = token_of(t, opened, "sent");
    int sent = token ? submissions_find(run_ledger(t->run), token, &id, f)
                     : no_memory(f);
    if (sent != 0) {
        t->sheet = NULL;
        t->heading = "Sent before";
        buf_print(
            t->text, "This check is on record as number %lld.", (long long)id);
        return sent;
    }
    if (!t->has_draft) {
        start_draft(t);
        t->draft.opened = opened;
    }
    return lay_out(t, f);
}

/* What the lines of the part say now; they are those whose fields the form
 * has. */
static int
read_part(struct check_taking *t, struct check_part *part)
{
    char name[CHECK_FIELD];
    const char *all = field(t, CHECK_ALL);
    int right = all != NULL && strcmp(all, "right") == 0;
    size_t wrong = 0;

    for (size_t i = 0; i < part->n; i++) {
        struct check_line *line = &part->lines[i];
        const char *text = field(t, check_text_field(line, name));
        if (text != NULL && right)
            return fault_set(&t->refusal, EX_DATAERR,
                "something is written at %s, and yet all is as it should be: "
                "press the other button, or empty the field",
                line->code);
        wrong += text != NULL;
    }
    if (!right && wrong == 0)
        return refuse(t, "write beside the item what is wrong with it");
    for (size_t i = 0; i < part->n; i++) {
        struct check_line *line = &part->lines[i];
        line->answered = 1;
        line->text = field(t, check_text_field(line, name));
        line->grade = field(t, check_grade_field(line, name));
        if (line->grade == NULL || sheet_grade_find(line->grade) < 0)
            line->grade = sheet_grade_word(
                line->item ? line->item->grade : line->watched->grade);
    }
    return 0;
}

static int
keep_answers(struct check_taking *t, struct fault *f)
{
    struct buf *b = buf_new();

    if (b == NULL)
        return no_memory(f);
    for (size_t i = 0; i < t->n_parts; i++)
        for (size_t k = 0; k < t->parts[i].n; k++) {
            const struct check_line *line = &t->parts[i].lines[k];
            if (line->answered)
                buf_print(b, "%s\t%s\t%s\n", line->code,
                    line->grade ? line->grade : "",
                    line->text ? line->text : "");
        }
    t->draft.answers =
        buf_failed(b) ? NULL
                      : arena_text(run_arena(t->run), buf_str(b), buf_len(b));
    buf_free(b);
    if (t->draft.answers == NULL)
        return no_memory(f);
    if (t->draft.sent == 0)
        t->draft.sent = run_moment(t->run).now;
    return drafts_keep(run_ledger(t->run), &t->draft, f);
}

/* As defect_input.h wants it, of a line that is wrong. */
static int
found_of(const struct check_taking *t, const struct check_line *line,
    struct defect_input_found *out)
{
    const struct defect *d = line->watched;

    *out = (struct defect_input_found){.item = line->code,
        .text = signed_text(t, line->text),
        .grade = line->grade};
    if (d != NULL)
        out->item = d->subject == t->vehicle
                        ? d->item
                        : arena_print(run_arena(t->run), "%s/%s", d->item,
                              d->subject_id);
    return out->item && out->text ? 0 : -1;
}

/* By which it is known that what is wrong with @line was reported. */
static const char *
report_token(const struct check_taking *t, const struct check_line *line)
{
    const char *what = arena_print(
        run_arena(t->run), "%s/%s/%s", line->code, line->grade, line->text);

    return what ? token_of(t, t->draft.opened, what) : NULL;
}

/* Report what is wrong, each thing once however often it is sent: the check may
 * never be finished. */
static int
report_at_once(
    struct check_taking *t, const struct check_part *part, struct fault *f)
{
    const struct record_input e = input_of(t);
    const struct defect_input who = who_of(t);
    struct ledger *l = run_ledger(t->run);

    for (size_t i = 0; i < part->n; i++) {
        const struct check_line *line = &part->lines[i];
        struct defect_input_found found;
        int64_t id = 0;
        if (line->text == NULL)
            continue;
        const char *token = report_token(t, line);
        if (token == NULL || found_of(t, line, &found))
            return no_memory(f);
        int again = submissions_find(l, token, &id, f);
        if (again < 0)
            return -1;
        if (again > 0)
            continue;
        if (records_last_id(l, &id, f) ||
            defect_input_report(&e, t->vehicle, &who, &found, t->text) ||
            submissions_keep(l, token, id + 1, f))
            return -1;
        t->heading = "Reported at once";
    }
    return 0;
}

static int
step_part(struct check_taking *t, struct fault *f)
{
    char name[CHECK_FIELD];
    int rc = open_draft(t, f);

    if (rc != 0)
        return rc < 0 ? -1 : 0;
    for (size_t i = 0; i < t->n_parts; i++) {
        struct check_part *part = &t->parts[i];
        if (t->form->value(
                t->form->from, check_text_field(&part->lines[0], name)) != NULL)
            return read_part(t, part) || report_at_once(t, part, f) ||
                           keep_answers(t, f)
                       ? -1
                       : 0;
    }
    return refuse(t, "what that form asked for is not on the sheet any more; "
                     "go on with what is");
}

/* Enter the check on the day of its first sending. */
static int
enter(struct check_taking *t, const struct defect_input_check *check)
{
    const struct record_input e = input_of(t);
    struct defect_input who = who_of(t);
    day_t day = clock_day(zone_of(t), t->draft.sent);
    int minute = minute_of(t, t->draft.sent, day);
    char on[DAY_TEXT];
    char at[16];

    (void)snprintf(at, sizeof at, "%02d:%02d", minute / 60, minute % 60);
    who.day = day_text(day, on);
    who.at = at;
    if (t->key->driver == NULL)
        who.note = arena_print(run_arena(t->run), "initials %s", t->draft.who);
    return defect_input_check(&e, t->vehicle, &who, check, t->text);
}

/* What the check says of each line: the watched defects that it answers, and
 * the records by which what is wrong was reported. */
static int
gather(
    struct check_taking *t, struct defect_input_check *check, struct fault *f)
{
    struct arena *a = run_arena(t->run);
    size_t n = 0;
    int64_t id = 0;

    for (size_t i = 0; i < t->n_parts; i++)
        n += t->parts[i].n;
    const char **reported = arena_take(a, (n + 1) * sizeof *reported);
    int64_t *answered = arena_take(a, (n + 1) * sizeof *answered);
    if (reported == NULL || answered == NULL)
        return no_memory(f);
    check->reported = reported;
    check->answered = answered;
    for (size_t i = 0; i < t->n_parts; i++)
        for (size_t k = 0; k < t->parts[i].n; k++) {
            const struct check_line *line = &t->parts[i].lines[k];
            if (line->watched != NULL)
                answered[check->n_answered++] = line->watched->number;
            if (line->text == NULL)
                continue;
            const char *token = report_token(t, line);
            if (token == NULL)
                return no_memory(f);
            int known = submissions_find(run_ledger(t->run), token, &id, f);
            if (known < 0)
                return -1;
            if (known == 0)
                return fault_set(&t->refusal, EX_DATAERR,
                    "what is wrong with %s is not on record; send \"%s\" once "
                    "more",
                    line->code, t->parts[i].title);
            const char *number = arena_print(a, "%lld", (long long)id);
            if (number == NULL)
                return no_memory(f);
            reported[check->n_reported++] = number;
        }
    check->nil = check->n_reported == 0;
    return 0;
}

static int
step_send(struct check_taking *t, struct fault *f)
{
    struct ledger *l = run_ledger(t->run);
    int64_t id = 0;
    int rc = open_draft(t, f);

    if (rc != 0)
        return rc < 0 ? -1 : 0;
    for (size_t i = 0; i < t->n_parts; i++)
        if (!check_part_done(&t->parts[i]))
            return fault_set(&t->refusal, EX_DATAERR,
                "\"%s\" is still to do; the check is sent when every place is "
                "done",
                t->parts[i].title);
    const char *token = token_of(t, t->draft.opened, "sent");
    if (token == NULL)
        return no_memory(f);
    t->draft.reading = field(t, CHECK_READING);
    struct defect_input_check check = {.sheet = t->sheet->id,
        .reading = t->draft.reading,
        .opened = minute_of(
            t, t->draft.opened, clock_day(zone_of(t), t->draft.sent))};
    if (gather(t, &check, f) || records_last_id(l, &id, f) ||
        enter(t, &check) || submissions_keep(l, token, id + 1, f) ||
        drafts_drop(l, &t->draft, f))
        return -1;
    t->heading = "The check is on record";
    t->sheet = NULL;
    return 0;
}

/* --- the answer ----------------------------------------------------------- */

static int
print(const struct walk_round *w, const struct walk_round_key *key,
    struct check_page *page, struct buf *out, struct fault *f)
{
    const struct fleet *fleet = run_fleet(w->run);
    char drawn[CLOCK_WORDS];

    page->site = fleet->site.name;
    page->today = run_moment(w->run).today;
    page->drawn =
        clock_words(fleet->site.time_zone, run_moment(w->run).now, drawn);
    page->conditions = w->conditions;
    page->defects = w->defects;
    page->driver_id = key->driver;
    page->driver = key->driver ? name_of(fleet, key->driver) : NULL;
    return check_page_html(page, out) ? no_memory(f) : 0;
}

int
walk_round_front(const struct walk_round *w, const struct walk_round_key *key,
    struct buf *out, struct fault *f)
{
    struct check_page page = {.vehicle = key->vehicle};

    return print(w, key, &page, out, f);
}

static int
answer(struct check_taking *t, struct buf *out, struct fault *f)
{
    int refused = t->refusal.code != 0;
    struct check_page page = {.vehicle = t->vehicle,
        .sheet = t->sheet,
        .who = t->key->driver ? name_of(run_fleet(t->run), t->key->driver)
                              : t->draft.who,
        .opened = t->draft.opened,
        .reading = t->draft.reading,
        .parts = t->parts,
        .n_parts = t->n_parts,
        .heading = refused ? "Not taken" : t->heading,
        .text = refused ? t->refusal.text : buf_str(t->text),
        .refused = refused,
        .ask_sure = refused && strstr(t->refusal.text, SAY_SURE) != NULL,
        .typed = t->form->value,
        .from = t->form->from};

    return print(t->now, t->key, &page, out, f);
}

static int
take(struct check_taking *t, struct fault *f)
{
    const char *step = field(t, CHECK_STEP);
    const char *vehicle = field(t, CHECK_VEHICLE);

    t->vehicle = t->key->vehicle;
    if (t->vehicle == NULL && vehicle != NULL)
        t->vehicle = fleet_subject(run_fleet(t->run), vehicle);
    if (t->vehicle != NULL && t->key->driver != NULL &&
        !people_check(run_fleet(t->run), t->key->driver, t->vehicle))
        t->vehicle = NULL;
    if (t->vehicle == NULL || t->vehicle->kind != SUBJECT_VEHICLE ||
        step == NULL) {
        t->vehicle = t->key->vehicle;
        return refuse(t, "this is not a form of this page; load it anew");
    }
    if (strcmp(step, "begin") == 0)
        return step_begin(t, f);
    if (strcmp(step, "part") == 0)
        return step_part(t, f);
    if (strcmp(step, "send") == 0)
        return step_send(t, f);
    return 0;
}

/* In one group, so that all of a form is taken or nothing. */
static enum form_outcome
take_whole(struct check_taking *t, struct fault *f)
{
    struct ledger *l = run_ledger(t->run);

    if (ledger_begin(l, f))
        return FORM_FAILED;
    if (take(t, f) == 0)
        return ledger_commit(l, f) ? FORM_FAILED : FORM_RECORDED;
    ledger_rollback(l);
    int code = t->refusal.code;
    /* The page shows the draft as it was, and what was typed. */
    if (code == EX_USAGE || code == EX_DATAERR)
        return t->sheet != NULL && lay_out(t, f) ? FORM_FAILED : FORM_REFUSED;
    if (code != 0) /* else it is in @f */
        *f = t->refusal;
    return FORM_FAILED;
}

enum form_outcome
walk_round_take(const struct walk_round_key *key, const struct run_context *p,
    const struct record_form *form, struct buf *out, struct fault *f)
{
    struct check_taking t = {
        .key = key, .run = p, .form = form, .text = buf_new()};
    enum form_outcome outcome = FORM_FAILED;

    if (t.text == NULL)
        no_memory(f);
    else if ((t.now = walk_round_begin(p, f)) != NULL)
        outcome = take_whole(&t, f);
    if (outcome == FORM_RECORDED) {
        /* What was entered may stop the vehicle. */
        walk_round_end(t.now);
        dues_forget(p);
        t.now = walk_round_begin(p, f);
    }
    if (outcome != FORM_FAILED && (t.now == NULL || answer(&t, out, f)))
        outcome = FORM_FAILED;
    walk_round_end(t.now);
    buf_free(t.text);
    return outcome;
}
