#include "record_form.h"

#include "dues.h"
#include "num.h"
#include "record_input.h"
#include "records.h"
#include "stop_mail.h"
#include "submissions.h"

#include <nettle/hmac.h>
#include <nettle/memops.h>
#include <stdio.h>
#include <string.h>
#include <sysexits.h>

#define SAY_SURE "tick \"yes, really\""

/* Everything about a form while it is taken. */
struct taking {
    const struct recorder *recorder;
    struct run_context *run;
    struct page_fields fields; /* empty ones are NULL */
    const char *back;
    const struct task *task;
    struct snapshot *snapshot;
    const struct due *due; /* the current one of the task, or NULL */
    struct buf *by;
    struct fault refusal;
};

/* The token of a form: what is signed has its length before each text, so that
 * no two forms sign the same bytes. */
static void
sign(const struct recorder *d, int64_t made, const struct task *t,
    const char *cycle, char out[PAGE_TOKEN])
{
    const char *const texts[] = {t->subject->id, t->job->id, cycle};
    struct hmac_sha256_ctx mac;
    uint8_t digest[SHA256_DIGEST_SIZE];
    char number[32];

    hmac_sha256_set_key(&mac, sizeof d->secret, d->secret);
    hmac_sha256_update(&mac, sizeof d->key, d->key);
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        size_t len = strlen(texts[i]);
        int n = snprintf(number, sizeof number, "%zu:", len);
        hmac_sha256_update(&mac, (size_t)n, (const uint8_t *)number);
        hmac_sha256_update(&mac, len, (const uint8_t *)texts[i]);
    }
    int n = snprintf(number, sizeof number, "%lld", (long long)made);
    hmac_sha256_update(&mac, (size_t)n, (const uint8_t *)number);
    hmac_sha256_digest(&mac, sizeof digest, digest);
    for (size_t i = 0; i < sizeof digest; i++)
        snprintf(out + 2 * i, 3, "%02x", digest[i]);
}

static void
make_token(const struct page_recorder *page, const struct due *due,
    char out[PAGE_TOKEN])
{
    char cycle[CYCLE_TEXT];

    sign((const struct recorder *)page, page->made, due->task,
        due_cycle_text(&due->cycle, cycle), out);
}

struct recorder
recorder_of(const uint8_t secret[FORM_SECRET], const uint8_t key[KEY_HASH],
    const char *person, int64_t made)
{
    struct recorder d = {
        .page = {.person = person, .made = made, .token = make_token}};

    memcpy(d.secret, secret, sizeof d.secret);
    memcpy(d.key, key, sizeof d.key);
    return d;
}

static const char *
field(const struct record_form *form, const char *name)
{
    const char *value = form->value(form->from, name);

    return value != NULL && value[0] != '\0' ? value : NULL;
}

static int
refuse(struct taking *t, const char *why)
{
    return fault_set(&t->refusal, EX_DATAERR, "%s", why);
}

/* Find what the form is about, and the due as it is now. */
static int
find_due(struct taking *t, struct fault *f)
{
    const struct fleet *fleet = run_fleet(t->run);
    const struct page_fields *w = &t->fields;
    const struct subject *s =
        w->subject ? fleet_subject(fleet, w->subject) : NULL;
    const struct job *j = w->job ? fleet_job(fleet, w->job) : NULL;
    size_t n;

    t->task = s != NULL && j != NULL ? fleet_task(fleet, s, j) : NULL;
    if (t->task == NULL)
        return refuse(t, "the fleet file has no such job any more; go back to "
                         "the page and load it anew");
    /* Which cycle it is does not depend on the plan. */
    t->snapshot = dues_of_task(t->run, t->task, 0, NULL, f);
    if (t->snapshot == NULL)
        return -1;
    const struct due *dues = snapshot_dues(t->snapshot, &n);
    t->due = n > 0 ? dues : NULL;
    return 0;
}

/* Only this recorder can have made the form, for this due, and not long ago. */
static int
check_token(struct taking *t)
{
    const struct page_fields *w = &t->fields;
    int64_t now = run_moment(t->run).now;
    char token[PAGE_TOKEN];
    int64_t made;

    if (w->token == NULL || w->cycle == NULL || w->made == NULL ||
        strlen(w->token) != PAGE_TOKEN - 1 ||
        num_parse(w->made, strlen(w->made), 0, INT64_MAX, &made))
        return refuse(t, "this is not a form of this page");
    sign(t->recorder, made, t->task, w->cycle, token);
    if (!memeql_sec(token, w->token, PAGE_TOKEN - 1) ||
        now - made > FORM_SECONDS)
        return refuse(t, "the form is too old, or was not made for you; look "
                         "it over and send it again");
    return 0;
}

/* Two who record the same thing do not see each other. */
static int
check_cycle(struct taking *t)
{
    char cycle[CYCLE_TEXT];

    if (t->fields.sure != NULL)
        return 0;
    if (t->due != NULL &&
        strcmp(due_cycle_text(&t->due->cycle, cycle), t->fields.cycle) == 0)
        return 0;
    /* Done once, a follow-on is not asked for again. */
    if (t->due == NULL)
        return refuse(t, "it has been recorded since this page was made, or "
                         "is not asked for any more; look at the page");
    return refuse(t, "it has been recorded since this page was made, so "
                     "perhaps it is done twice; look at the page, or " SAY_SURE
                     " if it is to be recorded again");
}

/* By whom: the person of the key, and the initials of who held the spanner. */
static const char *
by_whom(struct taking *t)
{
    buf_print(t->by, "%s, %s", t->recorder->page.person, t->fields.initials);
    return buf_str(t->by);
}

/* Several may share the screen on which the page is open. */
static int
check_initials(struct taking *t)
{
    const char *initials = t->fields.initials;

    if (initials != NULL && initials[strspn(initials, " ")] != '\0')
        return 0;
    return refuse(t, "the field initials is missing: those of whoever did it");
}

/* A reading without any work, see the command "reading". */
static int
read_meter(
    const struct record_input *e, const struct taking *t, struct record *r)
{
    const struct subject *s = t->task->subject;
    int named = t->due != NULL && t->due->to_read != METER_NONE;

    if (t->fields.reading == NULL)
        return fault_set(e->fault, EX_USAGE,
            "what the meter shows is missing, and nothing else was done");
    r->kind = RECORD_READING;
    r->job = NULL;
    r->job_id = NULL;
    r->meter =
        named ? t->due->to_read : record_input_meter(run_fleet(t->run), s);
    r->other_unit = record_input_other_unit(r);
    r->reading = record_input_number(
        "what the meter shows", t->fields.reading, e->fault);
    return r->reading < 0 ? -1 : record_input_check_reading(e, r);
}

/* Fill @r from the fields, or refuse them as the command line does. */
static int
read_record(struct taking *t, struct record *r)
{
    const struct page_fields *w = &t->fields;
    int bare = w->result != NULL && strcmp(w->result, "reading") == 0;
    const struct record_input e = {.run = t->run,
        .mark = "the field ",
        .say_sure = SAY_SURE,
        .sure = w->sure != NULL,
        .fault = &t->refusal};
    const struct record_input_work work = {.day = w->on,
        .result = bare ? NULL : w->result,
        .reading = bare ? NULL : w->reading,
        .by = by_whom(t),
        .reference = w->reference,
        .note = w->note};

    if (w->result == NULL)
        return refuse(t, "the result is missing: completed or failed");
    if (record_input_work(&e, t->task, &work, r))
        return -1;
    return bare ? read_meter(&e, t, r) : record_input_check_twice(&e, r);
}

static int
answer(const struct taking *t, const char *heading, const char *text,
    struct buf *out, struct fault *f)
{
    int refused = t->refusal.code != 0;
    const struct page_answer a = {
        .site = run_fleet(t->run)->site.name,
        .heading = heading,
        .text = text,
        .back = t->back,
        .recorder = refused ? &t->recorder->page : NULL,
        .due = t->due,
        .today = run_moment(t->run).today,
        .fields = &t->fields,
        .ask_sure = strstr(text, SAY_SURE) != NULL,
    };

    return page_answer_html(&a, out) ? fault_set(f, EX_OSERR, "out of memory")
                                     : 0;
}

/* Say that it was recorded, now or by the same form before. */
static int
answer_recorded(const struct taking *t, const struct record *r, int64_t id,
    struct buf *out, struct fault *f)
{
    struct buf *text = buf_new();
    char day[DAY_WORDS];

    if (text == NULL)
        return fault_set(f, EX_OSERR, "out of memory");
    if (r->kind == RECORD_READING)
        buf_print(text, "Record %lld: %s showed %lld %s on %s, by %s.",
            (long long)id, r->subject->id, (long long)r->reading,
            record_unit_word(r), day_words(r->day, day), r->by);
    else
        buf_print(text, "Record %lld: %s %s, %s on %s, by %s.", (long long)id,
            r->subject->id, r->job->title, record_kind_word(r->kind),
            day_words(r->day, day), r->by);
    buf_print(text,
        " If that is wrong, void it: ostler record --void %lld "
        "--note TEXT.",
        (long long)id);
    int rc = answer(t, "Recorded", buf_str(text), out, f);
    buf_free(text);
    return rc;
}

static int
answer_again(
    const struct taking *t, int64_t id, struct buf *out, struct fault *f)
{
    char text[160];

    snprintf(text, sizeof text,
        "This form was recorded before, as record %lld. To record another, go "
        "back and load the page anew.",
        (long long)id);
    return answer(t, "Recorded before", text, out, f);
}

/* Find out whether the form was taken before, and if not, take it: sets @r and
 * @id. */
static enum form_outcome
take(struct taking *t, struct record *r, int64_t *id, struct fault *f)
{
    struct ledger *l = run_ledger(t->run);
    const char *token = t->fields.token;
    int again = token != NULL ? submissions_find(l, token, id, f) : 0;

    if (again != 0)
        return again < 0 ? FORM_FAILED : FORM_AGAIN;
    if (find_due(t, f) || check_token(t) || check_cycle(t) ||
        check_initials(t) || read_record(t, r)) {
        int code = t->refusal.code;
        if (code == EX_USAGE || code == EX_DATAERR)
            return FORM_REFUSED;
        if (code != 0) /* else it is in @f */
            *f = t->refusal;
        return FORM_FAILED;
    }
    if (records_add(l, r, id, f) || submissions_keep(l, token, *id, f) ||
        stop_mail_failed(t->run, t->task, r, *id, f))
        return FORM_FAILED;
    return FORM_RECORDED;
}

/* In one group, so that of two who send the same form only one records it. */
static enum form_outcome
take_and_answer(struct taking *t, struct buf *out, struct fault *f)
{
    struct ledger *l = run_ledger(t->run);
    struct record r = {0};
    int64_t id = 0;
    int rc = -1;

    if (ledger_begin(l, f))
        return FORM_FAILED;
    enum form_outcome outcome = take(t, &r, &id, f);
    if (outcome != FORM_RECORDED)
        ledger_rollback(l);
    else if (ledger_commit(l, f))
        return FORM_FAILED;
    if (outcome == FORM_REFUSED)
        rc = answer(t, "Not recorded", t->refusal.text, out, f);
    else if (outcome == FORM_AGAIN)
        rc = answer_again(t, id, out, f);
    else if (outcome == FORM_RECORDED)
        rc = answer_recorded(t, &r, id, out, f);
    return rc ? FORM_FAILED : outcome;
}

enum form_outcome
record_form_take(const struct recorder *d, struct run_context *p,
    const struct record_form *form, struct buf *out, struct fault *f)
{
    struct taking t = {
        .recorder = d,
        .run = p,
#define X(name) .fields.name = field(form, #name),
        PAGE_FIELDS
#undef X
            .back = form->back,
        .by = buf_new(),
    };
    enum form_outcome outcome = FORM_FAILED;

    if (t.by == NULL)
        fault_fill(f, EX_OSERR, "out of memory");
    else
        outcome = take_and_answer(&t, out, f);
    snapshot_free(t.snapshot);
    buf_free(t.by);
    return outcome;
}
