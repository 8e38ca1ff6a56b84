#include "check_page.h"

#include "buf.h"
#include "caution.h"
#include "check_page_css.h"
#include "clean.h"
#include "html.h"
#include "page.h"
#include "people.h"
#include "wording.h"

#include <stdio.h>
#include <string.h>

const char check_page_policy[] =
    "default-src 'none'; style-src 'unsafe-inline'; form-action 'self'; "
    "frame-ancestors 'none'; base-uri 'none'";

const char *
check_text_field(const struct check_line *line, char out[CHECK_FIELD])
{
    (void)snprintf(out, CHECK_FIELD, "n.%s", line->code);
    return out;
}

const char *
check_grade_field(const struct check_line *line, char out[CHECK_FIELD])
{
    (void)snprintf(out, CHECK_FIELD, "g.%s", line->code);
    return out;
}

int
check_part_done(const struct check_part *part)
{
    for (size_t i = 0; i < part->n; i++)
        if (!part->lines[i].answered)
            return 0;
    return 1;
}

static size_t
parts_done(const struct check_page *p)
{
    size_t n = 0;

    for (size_t i = 0; i < p->n_parts; i++)
        n += (size_t)check_part_done(&p->parts[i]);
    return n;
}

/* --- whether it may be driven --------------------------------------------- */

/* Who can be told: all who may lift a stop of @v. */
static void
add_whom_to_tell(const struct check_page *p, struct buf *out)
{
    const struct fleet *f = defects_fleet(p->defects);
    int n = 0;

    for (size_t i = 0; i < f->n_persons; i++) {
        const struct person *who = &f->persons[i];
        if (!people_may(who, MAY_RELEASE, p->vehicle))
            continue;
        html_print(
            out, "%s%s", n++ ? ", or " : "", who->name ? who->name : who->id);
    }
    if (n == 0)
        html_print(out, "whoever answers for the vehicle");
}

static void
add_stop(const struct stop *s, struct buf *out)
{
    struct buf *text = buf_new();

    if (text == NULL)
        return;
    stop_say(s, text);
    html_print(out, "<p>%s. Lifted by: %s.</p>", buf_str(text),
        stop_lifted_by(s->kind));
    buf_free(text);
}

/* Before anything else: nobody who opens the page can miss it. */
static void
add_condition(const struct check_page *p, struct buf *out)
{
    const struct vehicle_condition *c =
        conditions_of(p->conditions, p->vehicle);

    if (c == NULL)
        return;
    int stopped = c->condition == CONDITION_NOT_TO_BE_DRIVEN;
    html_print(out, "<section class=\"state%s\" aria-label=\"Condition\">%s",
        stopped                               ? " stop"
        : c->condition == CONDITION_NOT_KNOWN ? " unsure"
                                              : "",
        stopped ? "NOT TO BE DRIVEN" : "");
    if (!stopped)
        html_print(out, "%s", condition_said(c->condition));
    for (size_t i = 0; i < c->n_stops; i++)
        if (c->stops[i].makes == c->condition)
            add_stop(&c->stops[i], out);
    if (stopped || c->condition == CONDITION_NOT_KNOWN) {
        html_print(out, "<p><strong>%s ",
            stopped ? "Do not drive it. Tell" : "Before you drive it, ask");
        add_whom_to_tell(p, out);
        html_print(out, ".</strong></p>");
    }
    html_print(out, "</section>\n");
}

static void
add_defects(const struct check_page *p, struct buf *out)
{
    const struct defect *d = NULL;
    char day[WORDING_DATE];
    int n = 0;

    html_print(out, "<h2>Known defects</h2>\n");
    while ((d = defects_open_on(p->defects, p->vehicle, d)) != NULL) {
        const struct check_item *item = sheet_item(p->vehicle, d->item);
        if (n++ == 0)
            html_print(out, "<ul>\n");
        html_print(out,
            "<li><b>%lld: %s</b> %s<span class=\"meta\">%s, %s%s, since "
            "%s%s%s</span>",
            (long long)d->number, d->item, item ? item->text : "",
            d->subject_id, sheet_grade_word(d->grade),
            defect_stops(d, p->today) ? ", it stops the vehicle" : "",
            wording_date(d->reported.at.day, day), d->reported.note ? ": " : "",
            d->reported.note ? d->reported.note : "");
        if (d->state != DEFECT_REPORTED)
            html_print(out, "<span class=\"meta\">%s%s%s</span>",
                defect_state_word(d->state), d->decided.note ? ": " : "",
                d->decided.note ? d->decided.note : "");
        html_print(out, "</li>\n");
    }
    if (n > 0)
        html_print(out, "</ul>\n");
    else
        html_print(out, "<p>None is open.</p>\n");
}

/* --- forms ---------------------------------------------------------------- */

static const char *
typed(const struct check_page *p, const char *name)
{
    return p->refused && p->typed ? p->typed(p->from, name) : NULL;
}

static void
add_hidden(const char *name, const char *value, struct buf *out)
{
    html_print(
        out, "<input type=\"hidden\" name=\"%s\" value=\"%s\">", name, value);
}

static void
begin_form(const struct check_page *p, const char *step, struct buf *out)
{
    html_print(out, "<form method=\"post\">");
    add_hidden(CHECK_STEP, step, out);
    if (p->driver != NULL && p->vehicle != NULL)
        add_hidden(CHECK_VEHICLE, p->vehicle->id, out);
    if (p->sheet == NULL)
        return;
    add_hidden(CHECK_SHEET, p->sheet->id, out);
    if (p->driver == NULL)
        add_hidden(CHECK_WHO, p->who, out);
    html_print(out,
        "<input type=\"hidden\" name=\"" CHECK_OPENED "\" value=\"%lld\">",
        (long long)p->opened);
}

static void
add_reading(const struct check_page *p, const char *value, struct buf *out)
{
    html_print(out,
        "<label>What the odometer shows, %s <input name=\"" CHECK_READING
        "\" inputmode=\"numeric\" autocomplete=\"off\" maxlength=\"8\" "
        "value=\"%s\"></label>",
        fleet_meter_word(p->vehicle, METER_DISTANCE), value ? value : "");
}

/* One button a sheet: mostly there is one. */
static void
add_begin(const struct check_page *p, struct buf *out)
{
    const char *who = typed(p, CHECK_WHO);

    html_print(out, "<h2>Walk-round check</h2>\n");
    if (p->vehicle->n_sheets == 0) {
        html_print(out, "<p>The fleet file has no check sheet for it.</p>\n");
        return;
    }
    begin_form(p, "begin", out);
    if (p->driver == NULL)
        html_print(out,
            "<label>Your initials <input name=\"" CHECK_WHO
            "\" required maxlength=\"12\" autocomplete=\"off\" "
            "value=\"%s\"></label>",
            who ? who : "");
    else
        html_print(out, "<p>Signed by <b>%s</b>.</p>", p->driver);
    add_reading(p, typed(p, CHECK_READING), out);
    for (size_t i = 0; i < p->vehicle->n_sheets; i++)
        html_print(out,
            "<button class=\"go\" name=\"" CHECK_SHEET
            "\" value=\"%s\">Begin, or go on: %s</button>",
            p->vehicle->sheets[i]->id, p->vehicle->sheets[i]->title);
    html_print(out, "</form>\n");
}

/* The graver grades only: nobody makes less of an item by a form. */
static void
add_grades(const struct check_line *line, const char *chosen, struct buf *out)
{
    char name[CHECK_FIELD];
    enum grade own = line->item ? line->item->grade : line->watched->grade;

    html_print(out, "<select name=\"%s\" aria-label=\"Grade of %s\">",
        check_grade_field(line, name), line->code);
    for (int g = (int)own; g <= (int)GRADE_STOPS; g++) {
        const char *word = sheet_grade_word((enum grade)g);
        html_print(out, "<option%s>%s",
            chosen && strcmp(chosen, word) == 0 ? " selected" : "", word);
    }
    html_print(out, "</select>");
}

static void
add_line(
    const struct check_page *p, const struct check_line *line, struct buf *out)
{
    char name[CHECK_FIELD];
    char grade_name[CHECK_FIELD];
    const char *text = typed(p, check_text_field(line, name));
    const char *grade = typed(p, check_grade_field(line, grade_name));

    html_print(out, "<li><label for=\"%s\"><b>%s</b> ", name, line->code);
    if (line->watched != NULL) {
        const struct check_item *item =
            sheet_item(p->vehicle, line->watched->item);
        html_print(out, "%s: %s<small>Is it worse?</small>",
            item ? item->text : line->watched->item,
            line->watched->reported.note ? line->watched->reported.note : "");
    } else {
        html_print(out, "%s", line->item->text);
        if (line->about != NULL)
            html_print(out, " (%s)", line->about->id);
        if (line->item->right != NULL)
            html_print(out, "<small>%s</small>", line->item->right);
    }
    if (text == NULL)
        text = line->text;
    html_print(out,
        "</label><div class=\"two\"><input id=\"%s\" name=\"%s\" "
        "maxlength=\"200\" value=\"%s\">",
        name, name, text ? text : "");
    add_grades(line, grade ? grade : line->grade, out);
    html_print(out, "</div></li>\n");
}

static void
add_part(const struct check_page *p, size_t nth, int open, struct buf *out)
{
    const struct check_part *part = &p->parts[nth];
    size_t wrong = 0;

    for (size_t i = 0; i < part->n; i++)
        wrong += part->lines[i].text != NULL;
    html_print(out, "<details id=\"part%zu\"%s><summary>%zu. %s: ", nth,
        open ? " open" : "", nth + 1, part->title);
    if (!check_part_done(part))
        html_print(out, "to do");
    else if (wrong == 0)
        html_print(out, "as it should be");
    else
        html_print(out, "%zu wrong", wrong);
    html_print(out, "</summary>");
    begin_form(p, "part", out);
    html_print(out,
        "<input type=\"hidden\" name=\"" CHECK_PART "\" value=\"%zu\"><ul>\n",
        nth);
    for (size_t i = 0; i < part->n; i++)
        add_line(p, &part->lines[i], out);
    /* The first button is what Enter in a field presses. */
    html_print(out,
        "</ul><button name=\"" CHECK_ALL
        "\" value=\"wrong\">Something is wrong, as written above</button>"
        "<button class=\"go\" name=\"" CHECK_ALL
        "\" value=\"right\">%s</button></form></details>\n",
        part->lines[0].watched ? "All are as they were, none is worse"
                               : "All as it should be here");
}

/* Where whoever sends one part goes on: the next that is not done. */
static void
add_check(const struct check_page *p, struct buf *out)
{
    size_t done = parts_done(p);
    size_t next = p->n_parts;
    const char *refused_part = typed(p, CHECK_PART);
    const char *reading = typed(p, CHECK_READING);

    html_print(out,
        "<h2 id=\"work\">%s</h2>\n<p>%zu of %zu places done. By %s.</p>\n"
        "<p class=\"meta\">Write what is wrong beside the item; leave the rest "
        "empty. What you write is reported as soon as you send it.</p>\n",
        p->sheet->title, done, p->n_parts, p->who);
    for (size_t i = 0; i < p->n_parts && next == p->n_parts; i++)
        if (!check_part_done(&p->parts[i]))
            next = i;
    for (size_t i = 0; i < p->n_parts; i++) {
        char number[24];
        (void)snprintf(number, sizeof number, "%zu", i);
        add_part(p, i,
            refused_part ? strcmp(refused_part, number) == 0 : i == next, out);
    }
    html_print(out, "<h2>Send the check</h2>\n");
    if (done < p->n_parts)
        html_print(out, "<p>Once every place is done.</p>\n");
    begin_form(p, "send", out);
    add_reading(p, reading ? reading : p->reading, out);
    if (p->ask_sure)
        html_print(out,
            "<label class=\"pick\"><input type=\"checkbox\" name=\"" CHECK_SURE
            "\" value=\"yes\"> yes, really: it is right</label>");
    html_print(out, "<button%s>Send the check</button></form>\n",
        done < p->n_parts ? "" : " class=\"go\"");
}

/* --- the list for a driver's key ------------------------------------------ */

static void
add_vehicles(const struct check_page *p, struct buf *out)
{
    size_t n;
    const struct vehicle_condition *all = conditions_all(p->conditions, &n);

    html_print(out, "<h1>Which vehicle?</h1>\n<p>For %s.</p>\n", p->driver);
    begin_form(p, "show", out);
    html_print(out, "<ul>\n");
    for (size_t i = 0; i < n; i++) {
        const struct subject *v = all[i].vehicle;
        if (!people_check(defects_fleet(p->defects), p->driver_id, v))
            continue;
        html_print(out,
            "<li><button name=\"" CHECK_VEHICLE
            "\" value=\"%s\">%s%s%s: %s</button></li>\n",
            v->id, v->id, v->title ? " " : "", v->title ? v->title : "",
            all[i].condition == CONDITION_NOT_TO_BE_DRIVEN
                ? "NOT TO BE DRIVEN"
                : condition_said(all[i].condition));
    }
    html_print(out, "</ul></form>\n");
}

/* --- the whole ------------------------------------------------------------ */

static void
begin(const struct check_page *p, struct buf *out)
{
    html_print(out,
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, "
        "initial-scale=1\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n<style>\n");
    html_literal(out, CHECK_PAGE_CSS);
    html_print(out,
        "</style>\n<title>%s%s, %s</title></head>\n<body>\n<main>\n",
        p->vehicle ? "Check of " : "Checks", p->vehicle ? p->vehicle->id : "",
        p->site);
    html_print(out, PAGE_STALE);
    if (p->vehicle != NULL)
        html_print(out, "<h1>%s %s</h1>\n", p->vehicle->id,
            p->vehicle->title ? p->vehicle->title : "");
    if (p->heading != NULL)
        html_print(out,
            "<section class=\"notice\" role=\"%s\"><h2>%s</h2><p>%s</p>"
            "</section>\n",
            p->refused ? "alert" : "status", p->heading, p->text);
}

int
check_page_html(const struct check_page *p, struct buf *out)
{
    struct buf *raw = buf_new();

    if (raw == NULL)
        return -1;
    begin(p, raw);
    if (p->vehicle == NULL)
        add_vehicles(p, raw);
    else {
        add_condition(p, raw);
        add_defects(p, raw);
        if (p->sheet != NULL)
            add_check(p, raw);
        else
            add_begin(p, raw);
    }
    html_print(raw,
        "</main>\n<footer><p>As of <strong>%s</strong>.</p><p>" CAUTION_FIT
        "</p></footer>\n</body></html>\n",
        p->drawn);
    int rc = buf_failed(raw) ? -1 : 0;
    if (rc == 0)
        clean_add(out, CLEAN_LINES, buf_str(raw), buf_len(raw));
    buf_free(raw);
    return rc || buf_failed(out) ? -1 : 0;
}
