#include "what_if.h"

#include "buf.h"
#include "caution.h"
#include "plan_words.h"

#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *
plural(size_t n)
{
    return n == 1 ? "" : "s";
}

/* How many of each sort there are. */
static void
add_sums(const struct comparison *c, struct buf *out)
{
    buf_print(out, "%zu date%s move%s", c->moved, plural(c->moved),
        c->moved == 1 ? "s" : "");
    if (c->gone > 0)
        buf_print(out, ", %zu fall%s away", c->gone, c->gone == 1 ? "s" : "");
    if (c->added > 0)
        buf_print(
            out, ", %zu %s added", c->added, c->added == 1 ? "is" : "are");
    buf_print(out, "; %zu come%s too late, now %zu\n", c->late_after,
        c->late_after == 1 ? "s" : "", c->late_before);
}

static void
say_day(const struct plan_booking *b, char out[DAY_WORDS])
{
    if (b->day == DAY_NONE)
        snprintf(out, DAY_WORDS, "no day");
    else
        day_words(b->day, out);
}

static void
add_difference(const struct difference *d, int width, struct buf *out)
{
    char before[DAY_WORDS] = "";
    char after[DAY_WORDS] = "";

    if (d->before != NULL)
        say_day(d->before, before);
    if (d->after != NULL)
        say_day(d->after, after);
    buf_print(out, "  %-14s  ->  %-14s  %-*s  %s%s\n",
        before[0] ? before : "not planned", after[0] ? after : "no more", width,
        d->task->subject->id, d->task->job->title,
        compare_is_late(d->after) ? ", LATE" : "");
}

static void
add_differences(const struct comparison *c, struct buf *out)
{
    int width = 0;

    for (size_t i = 0; i < c->n; i++) {
        int len = (int)strlen(c->list[i].task->subject->id);
        if (len > width)
            width = len;
    }
    if (c->n > 0)
        buf_text(out, "\nWhat changes\n");
    for (size_t i = 0; i < c->n; i++)
        add_difference(&c->list[i], width, out);
}

static void
add_late(const struct fleet_plan *after, struct buf *out)
{
    size_t n;
    size_t n_bookings;
    const struct plan_clash *c = plan_clashes(fleet_plan_solution(after), &n);
    const struct plan_booking *b =
        plan_bookings(fleet_plan_solution(after), &n_bookings);

    if (n > 0)
        buf_text(out, "\nToo late then\n");
    for (size_t i = 0; i < n; i++) {
        const struct plan_booking *late = &b[c[i].booking];
        char day[DAY_WORDS];
        say_day(late, day);
        buf_print(
            out, "  %s  %s  ", day, fleet_plan_subject(after, late->work)->id);
        plan_words_work(after, late, out);
        buf_print(out, "\n%18s- ", "");
        plan_words_booking(after, late, out);
        if (late->call.to >= fleet_plan_options(after)->today) {
            buf_print(out, "\n%18s- ", "");
            plan_words_cure(after, &c[i], out);
        }
        buf_text(out, "\n");
    }
}

int
what_if_text(const struct comparison *c, const struct fleet_plan *after,
    const char *said, struct buf *out)
{
    buf_print(out, "What if: %s\n", said);
    add_sums(c, out);
    add_late(after, out);
    add_differences(c, out);
    buf_print(out, "\n%s\n", CAUTION_TEXT);
    return buf_failed(out) ? -1 : 0;
}

static json_t *
day_of_booking(const struct plan_booking *b)
{
    char text[DAY_TEXT];

    return b == NULL || b->day == DAY_NONE
               ? json_null()
               : json_string(day_text(b->day, text));
}

static json_t *
differences_value(const struct comparison *c)
{
    json_t *list = json_array();

    for (size_t i = 0; i < c->n; i++) {
        const struct difference *d = &c->list[i];
        json_array_append_new(
            list, json_pack("{s:s, s:s, s:s, s:o, s:o, s:b}", "subject",
                      d->task->subject->id, "job", d->task->job->id, "title",
                      d->task->job->title, "before", day_of_booking(d->before),
                      "after", day_of_booking(d->after), "late",
                      compare_is_late(d->after)));
    }
    return list;
}

int
what_if_json(const struct comparison *c, const struct fleet_plan *after,
    const char *said, struct buf *out)
{
    (void)after;
    json_t *top = json_pack("{s:i, s:s, s:i, s:i, s:i, s:i, s:i, s:s, s:o}",
        "schema", 1, "what_if", said, "moved", (int)c->moved, "gone",
        (int)c->gone, "added", (int)c->added, "late_before",
        (int)c->late_before, "late_after", (int)c->late_after, "caution",
        CAUTION_TEXT, "changes", differences_value(c));
    char *text = top ? json_dumps(top, JSON_INDENT(2)) : NULL;
    if (text != NULL)
        buf_print(out, "%s\n", text);
    int failed = text == NULL || buf_failed(out);
    free(text);
    json_decref(top);
    return failed ? -1 : 0;
}
