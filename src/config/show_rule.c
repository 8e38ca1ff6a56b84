#include "show.h"

#include "kind.h"
#include "span.h"

static void
show_intervals(const struct interval *list, int n, struct buf *out)
{
    for (int i = 0; i < n; i++) {
        buf_text(out, i > 0 ? " or " : "");
        kind_print(&list[i], out);
    }
}

SHOW_WRITER(show_every)
{
    const struct rule *rule = at;

    show_intervals(rule->every, rule->n_every, out);
}

SHOW_WRITER(show_at_most)
{
    const struct rule *rule = at;

    show_intervals(rule->at_most, rule->n_at_most, out);
}

SHOW_WRITER(show_first)
{
    static const char *const words[] = {
        "", "registered", "built", "in-service", "earliest"};
    const struct first *first = &((const struct rule *)at)->first;
    char text[SPAN_TEXT];
    char day[DAY_TEXT];

    if (first->origin == ORIGIN_NONE)
        buf_text(out, "none");
    else if (first->origin == ORIGIN_ON)
        buf_print(out, "on %s", day_text(first->on, day));
    else
        buf_print(out, "%s from %s", span_text(first->after, text),
            words[first->origin]);
}

SHOW_WRITER(show_ages)
{
    const struct rule *rule = at;
    char age[SPAN_TEXT];
    char every[SPAN_TEXT];

    if (rule->n_ages == 0)
        buf_text(out, "none");
    for (int i = 0; i < rule->n_ages; i++)
        buf_print(out, "%s%s: %s", i > 0 ? ", " : "",
            span_text(rule->ages[i].age, age),
            span_text(rule->ages[i].every, every));
}

SHOW_WRITER(show_place)
{
    const struct rule *rule = at;

    buf_text(out, rule->place ? rule->place : "the depot's");
}

SHOW_WRITER(show_lead)
{
    const struct lead *lead = &((const struct rule *)at)->lead;
    char text[SPAN_TEXT];

    if (lead->span.n == 0)
        buf_text(out, "none");
    else if (lead->working)
        buf_print(out, "%d working day%s", lead->span.n,
            lead->span.n == 1 ? "" : "s");
    else
        buf_text(out, span_text(lead->span, text));
}

SHOW_WRITER(show_reminders)
{
    const struct reminders *remind = &((const struct rule *)at)->remind;
    const char *gap = "";
    char text[SPAN_TEXT];

    if (remind->n_before == 0 && remind->overdue_every.n == 0)
        buf_text(out, "none");
    for (int i = 0; i < remind->n_before; i++) {
        buf_print(out, "%s%s", gap, span_text(remind->before[i], text));
        gap = ", ";
    }
    if (remind->overdue_every.n > 0)
        buf_print(out, "%soverdue every %s", gap,
            span_text(remind->overdue_every, text));
}
