#include "stop_letter.h"

#include "buf.h"
#include "caution.h"
#include "clean.h"
#include "defect_list.h"
#include "wording.h"

#include <stdio.h>
#include <string.h>

/* What a message calls a defect or a job of @vehicle, shortly. */
static void
name_stop(const struct stop *s, const struct subject *vehicle, struct buf *out)
{
    if (s->defect != NULL && s->subject != vehicle)
        buf_print(out, "%s ", s->defect->subject_id);
    if (s->defect != NULL)
        defect_list_item(s->defect, out);
    else if (s->due != NULL)
        buf_print(out, "%s %s", s->due->task->job->title, stop_word(s->kind));
    else
        buf_text(out, stop_word(s->kind));
}

/* A telephone shows the first words only, so the state goes first.  What is not
 * known is not called fit because one defect of it was released. */
static void
write_subject(const struct stop_letter *m, struct buf *out)
{
    const char *id = m->vehicle->id;

    if (m->condition == CONDITION_NOT_KNOWN)
        buf_print(out, "Not known, ask: %s, what stopped it is lifted", id);
    else if (m->condition != CONDITION_NOT_TO_BE_DRIVEN)
        buf_print(out, "May be driven again: %s", id);
    else {
        buf_print(out, "Not to be driven: %s", id);
        if (m->n_stops > 0) {
            buf_text(out, ", ");
            name_stop(&m->stops[0], m->vehicle, out);
        }
        if (m->n_stops > 1)
            buf_print(out, " and %zu more", m->n_stops - 1);
    }
}

/* One reason: what it is, who found it and decided what, and who ends it. */
static void
write_stop(const struct stop_letter *m, const struct stop *s, struct buf *out)
{
    buf_text(out, "- ");
    stop_say(s, out);
    buf_text(out, "\n");
    if (s->defect != NULL)
        defect_list_steps(s->defect, out);
    else if (s->due != NULL && s->due->failed != NULL) {
        buf_text(out, "    ");
        wording_failure(s->due, out);
        buf_text(out, "\n");
    }
    buf_print(out, "    Who can lift it: %s%s%s\n", stop_lifted_by(s->kind),
        m->lifters ? ": " : "", m->lifters ? m->lifters : "");
}

static void
write_news(const struct stop_letter *m, struct buf *out)
{
    char day[DAY_WORDS];

    for (size_t i = 0; i < m->n_news; i++) {
        const struct defect *d = m->news[i];
        buf_print(
            out, "- defect %lld, %s ", (long long)d->number, d->subject_id);
        defect_list_item(d, out);
        buf_print(out, ", %s%s%s\n", defect_state_word(d->state),
            d->state == DEFECT_UNTIL ? " " : "",
            d->state == DEFECT_UNTIL ? day_words(d->until, day) : "");
        defect_list_steps(d, out);
    }
}

static void
write_text(const struct stop_letter *m, struct buf *out)
{
    char day[WORDING_DATE];

    buf_print(out, "%s, %s\n\n", m->site, wording_date(m->today, day));
    wording_subject(m->vehicle, out);
    buf_print(out, ": %s.\n", condition_said(m->condition));
    if (m->reading != NULL)
        buf_print(out, "The odometer showed %s.\n", m->reading);
    if (m->n_stops > 0)
        buf_text(out, "\nWhat stops it:\n");
    for (size_t i = 0; i < m->n_stops; i++)
        write_stop(m, &m->stops[i], out);
    if (m->n_stops == 0 && m->n_news > 0) {
        buf_text(out, "\nWhat was decided or done:\n");
        write_news(m, out);
    }
    if (m->page_url != NULL)
        buf_print(out, "\nThe page: %s\n", m->page_url);
    buf_print(out, "\n%s\n", CAUTION_FIT);
}

/* Append what @write says, clean: what people typed is in it. */
static int
write_clean(void (*write)(const struct stop_letter *m, struct buf *out),
    const struct stop_letter *m, enum clean how, struct buf *out)
{
    struct buf *raw = buf_new();

    if (raw == NULL)
        return -1;
    write(m, raw);
    clean_add(out, how, buf_str(raw), buf_len(raw));
    int rc = buf_failed(raw) || buf_failed(out) ? -1 : 0;
    buf_free(raw);
    return rc;
}

int
stop_letter_subject(const struct stop_letter *m, struct buf *out)
{
    return write_clean(write_subject, m, CLEAN_LINE, out);
}

int
stop_letter_text(const struct stop_letter *m, struct buf *out)
{
    return write_clean(write_text, m, CLEAN_LINES, out);
}
