#include "show.h"

#include "span.h"

#include <string.h>

/* What stands for a value that there is not. */
static const char none[] = "none";

SHOW_WRITER(show_written)
{
    if (e == NULL)
        buf_text(out, none);
    for (const struct value_line *l = e ? e->lines : NULL; l; l = l->next)
        buf_print(out, "%s%s", l == e->lines ? "" : " ", l->text);
}

SHOW_WRITER(show_text)
{
    const char *text = *(const char *const *)at;

    buf_text(out, text ? text : none);
}

SHOW_WRITER(show_day)
{
    day_t day = *(const day_t *)at;
    char text[DAY_TEXT];

    buf_text(out, day == DAY_NONE ? none : day_text(day, text));
}

SHOW_WRITER(show_readings)
{
    const struct baseline *b = at;
    int64_t distance = b->last_reading[METER_DISTANCE];
    int64_t hours = b->last_reading[METER_HOURS];

    if (distance < 0 && hours < 0)
        buf_text(out, none);
    if (distance >= 0)
        buf_print(
            out, "%lld %s", (long long)distance, fleet_unit_word(b->unit));
    if (hours >= 0)
        buf_print(
            out, "%s%lld hours", distance >= 0 ? ", " : "", (long long)hours);
}

SHOW_WRITER(show_count)
{
    int64_t n = *(const int64_t *)at;

    if (n == 0)
        buf_text(out, none);
    else
        buf_print(out, "%lld", (long long)n);
}

SHOW_WRITER(show_choice)
{
    int i;

    memcpy(&i, at, sizeof i);
    buf_text(out, k->words[i]);
}

SHOW_WRITER(show_span)
{
    const struct span *s = at;
    char text[SPAN_TEXT];

    buf_text(out, s->n == 0 ? none : span_text(*s, text));
}

SHOW_WRITER(show_alarm)
{
    const struct span *s = at;
    char text[SPAN_TEXT];

    buf_text(out, s->n < 0 ? none : span_text(*s, text));
}

SHOW_WRITER(show_weekdays)
{
    static const char *const names[] = {
        "mon", "tue", "wed", "thu", "fri", "sat", "sun"};
    weekdays_t days = *(const weekdays_t *)at;
    const char *gap = "";

    if (days == 0)
        buf_text(out, none);
    for (unsigned i = 0; i < 7; i++)
        if (days >> i & 1) {
            buf_print(out, "%s%s", gap, names[i]);
            gap = " ";
        }
}

SHOW_WRITER(show_transport)
{
    const struct mail_settings *m = at;

    buf_print(out, "%s %s", m->transport, m->argument);
}

SHOW_WRITER(show_wait)
{
    int64_t n = *(const int64_t *)at;

    buf_print(out, "%lld second%s", (long long)n, n == 1 ? "" : "s");
}

SHOW_WRITER(show_minute)
{
    int64_t n = *(const int64_t *)at;

    buf_print(out, "%02d:%02d", (int)(n / 60), (int)(n % 60));
}

SHOW_WRITER(show_calendar)
{
    const struct workcal *calendar = *(const struct workcal *const *)at;
    const struct section *s = calendar ? r->document->sections : NULL;

    while (s != NULL &&
           (s->kind != SECTION_CALENDAR ||
               ((const struct calendar *)s->object)->made != calendar))
        s = s->next;
    buf_text(out, s ? s->id : none);
}

static void
show_list(const struct job *const *jobs, size_t n, struct buf *out)
{
    if (n == 0)
        buf_text(out, none);
    for (size_t i = 0; i < n; i++)
        buf_print(out, "%s%s", i > 0 ? " " : "", jobs[i]->id);
}

SHOW_WRITER(show_covers)
{
    const struct job *job = at;

    show_list(job->covers, job->n_covers, out);
}

SHOW_WRITER(show_follows)
{
    const struct job *job = at;

    show_list(job->follows, job->n_follows, out);
}

SHOW_WRITER(show_also_counts)
{
    const struct also_counts *also = &((const struct job *)at)->also_counts;

    if (also->job == NULL)
        buf_text(out, none);
    else
        buf_print(out, "%d %s", also->most, also->job->id);
}

SHOW_WRITER(show_depot)
{
    const struct depot *d = fleet_depot(&((const struct holder *)at)->subject);

    buf_text(out, d ? d->id : none);
}

SHOW_WRITER(show_carrier)
{
    const struct subject *s = ((const struct holder *)at)->subject.carrier;

    buf_text(out, s ? s->id : none);
}

SHOW_WRITER(show_jobs)
{
    const struct holder *h = at;

    if (h->n_uses == 0)
        buf_text(out, none);
    for (size_t i = 0; i < h->n_uses; i++)
        buf_print(out, "%s%s", i > 0 ? " " : "", h->uses[i].job->id);
}

SHOW_WRITER(show_yearly)
{
    const struct subject *s = &((const struct holder *)at)->subject;

    if (s->yearly_distance == 0)
        buf_text(out, none);
    else
        buf_print(out, "%lld %s", (long long)s->yearly_distance,
            fleet_unit_word(s->unit));
}

static const char *
id_of(const struct scope *s)
{
    switch (s->kind) {
    case SCOPE_DEPOT:
        return ((const struct depot *)s->which)->id;
    case SCOPE_SUBJECT:
        return ((const struct subject *)s->which)->id;
    case SCOPE_JOB:
        return ((const struct job *)s->which)->id;
    case SCOPE_PERSON:
        return ((const struct person *)s->which)->id;
    case SCOPE_ALL:
        break;
    }
    return "";
}

static void
show_scopes(const struct scope *scopes, size_t n, struct buf *out)
{
    static const char *const words[] = {
        "all", "depot ", "subject ", "job ", "person "};

    for (size_t i = 0; i < n; i++)
        buf_print(out, "%s%s%s", i > 0 ? ", " : "", words[scopes[i].kind],
            id_of(&scopes[i]));
}

SHOW_WRITER(show_told)
{
    const struct person *p = at;

    show_scopes(p->told, p->n_told, out);
}

SHOW_WRITER(show_shows)
{
    const struct feed *f = at;

    show_scopes(f->shows, f->n_shows, out);
}

SHOW_WRITER(show_stages)
{
    const struct person *p = at;
    char text[SPAN_TEXT];

    if (e == NULL)
        buf_text(out, "all");
    else if (p->from_overdue && p->from.n == 0)
        buf_text(out, "overdue onward");
    else
        buf_print(out, "%s%s onward", p->from_overdue ? "overdue " : "",
            span_text(p->from, text));
}
