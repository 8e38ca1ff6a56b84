#include "poster_parts.h"

#include <stdio.h>
#include <string.h>

#define DAY_SIZE 6.4
#define NAME_SIZE 4.7
#define CODE_SIZE 6.4
#define LABEL_LINE 7.6
#define CODE_LINE 7.8
#define PAD 1.6
#define GAP 1.5

double
poster_week_width(const struct poster *p)
{
    return (POSTER_WIDTH - 2 * POSTER_MARGIN - POSTER_NAMES) / p->weeks;
}

/* Append a code to the last line of the box, or to a new one where it does not
 * fit; @line is that line, of @size bytes. */
static void
add_code(struct poster *p, const char *code, double width, char *line,
    size_t size, struct box *b)
{
    char longer[64];
    size_t at = strlen(b->codes);

    snprintf(longer, sizeof longer, "%s%s%s", line, line[0] ? " " : "", code);
    int fits =
        line[0] != '\0' && poster_text_width(p, longer, CODE_SIZE) <= width;
    snprintf(line, size, "%s", fits ? longer : code);
    b->lines += !fits;
    snprintf(b->codes + at, sizeof b->codes - at, "%s%s",
        at == 0 ? ""
        : fits  ? " "
                : "\n",
        code);
}

/* Of a visit: the day, then its codes, as many on a line as go there.  The mark
 * of what failed stays on the line of its code: of two works of a visit one may
 * have failed. */
static void
make_box(struct poster *p, const struct visit *v, struct box *b)
{
    static const char *const days[] = {
        "Mo", "Tu", "We", "Th", "Fr", "Sa", "Su"};
    double width = poster_week_width(p) - 2 * PAD - GAP;
    char line[64] = "";

    *b = (struct box){.lines = 0};
    snprintf(b->day, sizeof b->day, "%d", day_ymd(v->day).day);
    b->weekday = days[day_weekday(v->day)];
    if (v->late)
        add_code(p, "!", width, line, sizeof line, b);
    if (v->fixed)
        add_code(p, "\xe2\x97\x8f", width, line, sizeof line, b);
    for (size_t i = 0; i < v->n; i++) {
        const struct task *t = fleet_plan_task(p->plan, v->bookings[i]->work);
        int failed = fleet_plan_failed(p->plan, v->bookings[i]) != DAY_NONE;
        char code[POSTER_CODE + sizeof POSTER_FAILED];
        snprintf(code, sizeof code, "%s%s", failed ? POSTER_FAILED : "",
            p->codes[t->job->index]);
        add_code(p, code, width, line, sizeof line, b);
    }
}

double
poster_box_height(struct poster *p, const struct visit *v)
{
    struct box b;

    make_box(p, v, &b);
    return LABEL_LINE + b.lines * CODE_LINE + 2 * PAD + GAP;
}

/* Thin, thick, dashed, double and dotted, in the order of the fleet file. */
void
poster_place_outline(struct poster *p, cairo_t *cr, size_t place, double x,
    double y, double width, double height)
{
    static const double dash[] = {2.6, 1.6};
    static const double dot[] = {0.6, 1.5};
    size_t style = place % 5;

    (void)p;
    cairo_save(cr);
    cairo_set_line_width(cr, style == 1 ? 1.7 : style == 3 ? 0.4 : 0.7);
    if (style == 2)
        cairo_set_dash(cr, dash, 2, 0);
    if (style == 4)
        cairo_set_dash(cr, dot, 2, 0);
    cairo_rectangle(cr, x, y, width, height);
    if (style == 3)
        cairo_rectangle(cr, x + 1.2, y + 1.2, width - 2.4, height - 2.4);
    cairo_stroke(cr);
    cairo_restore(cr);
}

void
poster_box_draw(
    struct poster *p, cairo_t *cr, const struct visit *v, double x, double y)
{
    struct box b;
    double width = poster_week_width(p) - GAP;

    make_box(p, v, &b);
    double height = LABEL_LINE + b.lines * CODE_LINE + 2 * PAD;
    if (!v->late) { /* so that what is under it does not show */
        cairo_set_source_rgb(cr, 1, 1, 1);
        cairo_rectangle(cr, x, y, width, height);
        cairo_fill(cr);
    }
    cairo_set_source_rgb(cr, 0, 0, 0);
    if (v->late) {
        cairo_rectangle(cr, x, y, width, height);
        cairo_fill(cr);
        cairo_set_source_rgb(cr, 1, 1, 1);
    } else if (!v->stays) {
        poster_place_outline(p, cr, v->place, x, y, width, height);
    }
    poster_text(p, cr, x + PAD, y + PAD - 0.8, b.day, DAY_SIZE, 1, 0);
    double after = width - PAD / 2 - poster_text_width(p, b.weekday, NAME_SIZE);
    poster_text(p, cr, x + after, y + PAD + 0.6, b.weekday, NAME_SIZE, 0, 0);
    poster_text(
        p, cr, x + PAD, y + PAD + LABEL_LINE - 1, b.codes, CODE_SIZE, 0, 0);
    cairo_set_source_rgb(cr, 0, 0, 0);
}
