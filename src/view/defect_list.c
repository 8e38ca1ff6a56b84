#include "defect_list.h"

#include "buf.h"
#include "caution.h"
#include "csv_write.h"
#include "select.h"
#include "wording.h"

#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* --- which, in which order ------------------------------------------------ */

static int
is_asked(const struct defect_list *list, const struct defect *d)
{
    const struct subject *s = d->subject;

    if (!list->all && !defect_is_open(d))
        return 0;
    if (list->filter != NULL && s != NULL &&
        !select_vehicle(list->filter, defects_carrier(list->of, s)))
        return 0;
    return list->subject == NULL || s == list->subject ||
           (s != NULL && defects_carrier(list->of, s) == list->subject);
}

/* What stops goes first, then what is open, then by grade; of the same the
 * oldest. */
static int
graver_first(const void *left, const void *right)
{
    const struct defect *a = *(const struct defect *const *)left;
    const struct defect *b = *(const struct defect *const *)right;
    int open_a = defect_is_open(a);
    int open_b = defect_is_open(b);

    if (open_a != open_b)
        return open_b - open_a;
    if (a->grade != b->grade)
        return (int)b->grade - (int)a->grade;
    int order = day_time_compare(a->reported.at, b->reported.at);
    return order ? order : (a->number > b->number) - (a->number < b->number);
}

static const struct defect **
choose(const struct defect_list *list, size_t *n)
{
    size_t count;
    const struct defect *all = defects_all(list->of, &count);
    const struct defect **chosen = calloc(count + 1, sizeof *chosen);
    size_t stops = 0;

    *n = 0;
    if (chosen == NULL)
        return NULL;
    for (size_t i = 0; i < count; i++)
        if (is_asked(list, &all[i]) && defect_stops(&all[i], list->today))
            chosen[stops++] = &all[i];
    *n = stops;
    for (size_t i = 0; i < count; i++)
        if (is_asked(list, &all[i]) && !defect_stops(&all[i], list->today))
            chosen[(*n)++] = &all[i];
    if (stops > 1)
        qsort(chosen, stops, sizeof *chosen, graver_first);
    if (*n - stops > 1)
        qsort(chosen + stops, *n - stops, sizeof *chosen, graver_first);
    return chosen;
}

/* --- text ----------------------------------------------------------------- */

/* "reported Wed 2026-12-02 07:40 by D1: what was said". */
static void
say_step(const char *what, const struct defect_step *step, struct buf *out)
{
    char day[DAY_WORDS];

    if (step->id == 0)
        return;
    buf_print(out, "    %s %s %02d:%02d by %s%s%s%s\n", what,
        day_words(step->at.day, day), step->at.minute / 60,
        step->at.minute % 60, step->by ? step->by : "the vehicle's key",
        step->alone ? ", alone" : "", step->note ? ": " : "",
        step->note ? step->note : "");
}

void
defect_list_steps(const struct defect *d, struct buf *out)
{
    say_step("reported", &d->reported, out);
    if (d->seen.id != d->reported.id)
        say_step("seen again", &d->seen, out);
    say_step("decided", &d->decided, out);
    say_step("repaired", &d->repaired, out);
    if (d->released.id != d->decided.id)
        say_step("released", &d->released, out);
}

void
defect_list_item(const struct defect *d, struct buf *out)
{
    const struct subject *s = d->subject;
    const struct check_item *item =
        s ? sheet_item(s->carrier ? s->carrier : s, d->item) : NULL;

    buf_text(out, d->item);
    if (item != NULL)
        buf_print(out, " %.*s", (int)strcspn(item->text, ":"), item->text);
}

static void
say_state(const struct defect *d, day_t today, struct buf *out)
{
    char day[DAY_WORDS];

    buf_print(out, "%s", defect_state_word(d->state));
    if (d->state == DEFECT_UNTIL)
        buf_print(out, " %s%s", day_words(d->until, day),
            defect_lapsed(d, today) ? ", which has passed" : "");
    if (defect_stops(d, today))
        buf_text(out, ": not to be driven");
}

static void
say_defect(
    const struct defect_list *list, const struct defect *d, struct buf *out)
{
    const struct subject *v =
        d->subject ? defects_carrier(list->of, d->subject) : NULL;

    buf_print(out, "%lld  %s", (long long)d->number, d->subject_id);
    if (v != NULL && v != d->subject)
        buf_print(out, " on %s", v->id);
    buf_print(out, "  %s  %s  ", d->item, sheet_grade_word(d->grade));
    say_state(d, list->today, out);
    if (d->again != 0)
        buf_print(out, "  (again, was %lld)", (long long)d->again);
    if (d->late_paper)
        buf_text(out, "  (from paper, typed in later)");
    buf_text(out, "\n");
    defect_list_steps(d, out);
}

static void
as_text(const struct defect_list *list, const struct defect **all, size_t n,
    struct buf *out)
{
    if (n == 0)
        buf_text(out, list->all ? "no defect was ever reported\n"
                                : "no defect is open\n");
    for (size_t i = 0; i < n; i++)
        say_defect(list, all[i], out);
    buf_print(out, "\n%s\n", CAUTION_TEXT);
}

/* --- JSON ----------------------------------------------------------------- */

static json_t *
day_value(day_t d)
{
    char text[DAY_TEXT];

    return d == DAY_NONE ? json_null() : json_string(day_text(d, text));
}

static json_t *
text_value(const char *text)
{
    return text ? json_string(text) : json_null();
}

static json_t *
step_value(const struct defect_step *s)
{
    char at[16];

    if (s->id == 0)
        return json_null();
    snprintf(
        at, sizeof at, "%02d:%02d", s->at.minute / 60 % 24, s->at.minute % 60);
    return json_pack("{s:I, s:o, s:s, s:o, s:o, s:b}", "record",
        (json_int_t)s->id, "day", day_value(s->at.day), "at", at, "by",
        text_value(s->by), "note", text_value(s->note), "alone", s->alone);
}

static json_t *
defect_value(const struct defect_list *list, const struct defect *d)
{
    const struct subject *v =
        d->subject ? defects_carrier(list->of, d->subject) : NULL;

    return json_pack("{s:I, s:s, s:o, s:s, s:s, s:s, s:o, s:b, s:b, s:o, s:b,"
                     " s:o, s:o, s:o, s:o, s:o}",
        "number", (json_int_t)d->number, "subject", d->subject_id, "vehicle",
        text_value(v ? v->id : NULL), "item", d->item, "grade",
        sheet_grade_word(d->grade), "state", defect_state_word(d->state),
        "until", d->state == DEFECT_UNTIL ? day_value(d->until) : json_null(),
        "lapsed", defect_lapsed(d, list->today), "stops",
        defect_stops(d, list->today), "again",
        d->again ? json_integer(d->again) : json_null(), "late_paper",
        d->late_paper, "reported", step_value(&d->reported), "seen",
        step_value(&d->seen), "decided", step_value(&d->decided), "repaired",
        step_value(&d->repaired), "released", step_value(&d->released));
}

struct json_t *
defect_list_array(const struct defect_list *list)
{
    size_t n;
    const struct defect **all = choose(list, &n);
    json_t *array = all ? json_array() : NULL;

    for (size_t i = 0; array != NULL && i < n; i++)
        json_array_append_new(array, defect_value(list, all[i]));
    free(all);
    return array;
}

static int
as_json(const struct defect_list *list, struct buf *out)
{
    json_t *array = defect_list_array(list);
    json_t *root = json_pack("{s:i, s:o, s:s, s:o}", "schema", 1, "today",
        day_value(list->today), "caution", CAUTION_TEXT, "defects", array);
    char *text = root ? json_dumps(root, JSON_INDENT(2)) : NULL;
    if (text != NULL)
        buf_print(out, "%s\n", text);
    free(text);
    json_decref(root);
    return text ? 0 : -1;
}

/* --- a table -------------------------------------------------------------- */

static void
csv_step(const struct defect_step *s, struct buf *out)
{
    char at[16] = "";

    if (s->id != 0)
        snprintf(at, sizeof at, "%02d:%02d", s->at.minute / 60 % 24,
            s->at.minute % 60);
    csv_write_day(s->id ? s->at.day : DAY_NONE, out);
    csv_write_field(at, out);
    csv_write_field(s->id ? s->by : NULL, out);
    csv_write_field(s->id ? s->note : NULL, out);
}

static void
as_csv(const struct defect_list *list, const struct defect **all, size_t n,
    struct buf *out)
{
    char number[24];

    buf_text(out, "number,subject,item,grade,state,until,stops,"
                  "reported,reported_at,reported_by,reported_note,"
                  "decided,decided_at,decided_by,decided_note,"
                  "repaired,repaired_at,repaired_by,repaired_note,"
                  "released,released_at,released_by,released_note\r\n");
    for (size_t i = 0; i < n; i++) {
        const struct defect *d = all[i];
        snprintf(number, sizeof number, "%lld", (long long)d->number);
        csv_write_field(number, out);
        csv_write_field(d->subject_id, out);
        csv_write_field(d->item, out);
        csv_write_field(sheet_grade_word(d->grade), out);
        csv_write_field(defect_state_word(d->state), out);
        csv_write_day(d->state == DEFECT_UNTIL ? d->until : DAY_NONE, out);
        csv_write_field(defect_stops(d, list->today) ? "yes" : "no", out);
        csv_step(&d->reported, out);
        csv_step(&d->decided, out);
        csv_step(&d->repaired, out);
        csv_step(&d->released, out);
        buf_text(out, "\r\n");
    }
}

int
defect_list(
    const struct defect_list *list, enum defect_list_form form, struct buf *out)
{
    size_t n;

    if (form == DEFECT_LIST_JSON)
        return as_json(list, out) != 0 || buf_failed(out) ? -1 : 0;
    const struct defect **all = choose(list, &n);
    if (all == NULL)
        return -1;
    if (form == DEFECT_LIST_TEXT)
        as_text(list, all, n, out);
    else
        as_csv(list, all, n, out);
    free(all);
    return buf_failed(out) ? -1 : 0;
}
