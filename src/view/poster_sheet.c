#include "poster_parts.h"

#include "buf.h"
#include "caution.h"
#include "isoweek.h"
#include "wording.h"

#include <stdio.h>
#include <string.h>

#define LEGEND_COLUMN 188.0
#define LEGEND_LINE 10.0
#define LEGEND_SIZE 7.0
#define BLACK 0.0
#define GREY 0.55
#define PALE 0.9

#define INNER_WIDTH (POSTER_WIDTH - 2 * POSTER_MARGIN)
#define LEGEND_COLUMNS ((int)(INNER_WIDTH / LEGEND_COLUMN))

static int
legend_lines(const struct poster *p)
{
    int columns = LEGEND_COLUMNS;

    return ((int)p->n_codes + columns - 1) / columns;
}

/* The codes, the line of boxes, what has no day, and the caution. */
double
poster_foot_height(struct poster *p)
{
    return (legend_lines(p) + 1) * LEGEND_LINE + 38 +
           poster_paragraph(
               p, NULL, 0, 0, buf_str(p->undated), LEGEND_SIZE, INNER_WIDTH);
}

static void
ink(cairo_t *cr, double shade)
{
    cairo_set_source_rgb(cr, shade, shade, shade);
}

static void
line(cairo_t *cr, double x1, double y1, double x2, double y2, double width)
{
    cairo_set_line_width(cr, width);
    cairo_move_to(cr, x1, y1);
    cairo_line_to(cr, x2, y2);
    cairo_stroke(cr);
}

static double
week_x(const struct poster *p, int week)
{
    return POSTER_MARGIN + POSTER_NAMES + week * poster_week_width(p);
}

static void
draw_title(struct poster *p, cairo_t *cr, size_t sheet)
{
    const struct fleet_plan_options *o = fleet_plan_options(p->plan);
    char text[160];
    char day[DAY_WORDS];
    char until[DAY_WORDS];

    ink(cr, BLACK);
    snprintf(text, sizeof text, "%s: the year's work",
        fleet_plan_fleet(p->plan)->site.name);
    poster_text(
        p, cr, POSTER_MARGIN, POSTER_MARGIN, text, 17, 1, INNER_WIDTH * 0.6);
    snprintf(text, sizeof text, "drawn up on %s, to %s; sheet %zu of %zu",
        day_words(o->today, day), day_words(o->until, until), sheet + 1,
        p->n_sheets);
    double width = poster_text_width(p, text, 9);
    poster_text(p, cr, POSTER_WIDTH - POSTER_MARGIN - width, POSTER_MARGIN + 6,
        text, 9, 0, 0);
}

/* Above the weeks: the months, each over the weeks whose Mondays it has. */
static void
draw_months(struct poster *p, cairo_t *cr, double y, double bottom)
{
    static const char *const names[] = {"Jan", "Feb", "Mar", "Apr", "May",
        "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    char text[32];

    for (int week = 0; week < p->weeks; week++) {
        struct ymd now = day_ymd(p->first + 7 * week);
        struct ymd before = day_ymd(p->first + 7 * (week - 1));
        if (week > 0 && now.month == before.month)
            continue;
        int room = 1;
        while (week + room < p->weeks &&
               day_ymd(p->first + 7 * (week + room)).month == now.month)
            room++;
        snprintf(text, sizeof text, "%s", names[now.month - 1]);
        if (room > 2)
            snprintf(
                text, sizeof text, "%s %d", names[now.month - 1], now.year);
        ink(cr, BLACK);
        poster_text(p, cr, week_x(p, week) + 2, y, text, 8, 1,
            room > 1 ? room * poster_week_width(p) - 3 : 0);
        line(cr, week_x(p, week), y, week_x(p, week), bottom, 0.9);
    }
}

/* Each week by its number and the day of its Monday. */
static void
draw_weeks(struct poster *p, cairo_t *cr, double y, double bottom)
{
    char text[16];

    for (int week = 0; week < p->weeks; week++) {
        day_t monday = p->first + 7 * week;
        double x = week_x(p, week);
        ink(cr, BLACK);
        snprintf(text, sizeof text, "%02d", isoweek_of(monday).week);
        poster_text(p, cr, x + 2, y, text, 7.5, 1, 0);
        snprintf(text, sizeof text, "%d", day_ymd(monday).day);
        poster_text(p, cr, x + 2, y + 9, text, 6, 0, 0);
        ink(cr, GREY);
        line(cr, x, y, x, bottom, 0.25);
    }
}

/* Slanting lines over the weeks in which it is off the road from Monday to
 * Friday. */
static void
draw_off_road(
    struct poster *p, cairo_t *cr, size_t unit, double y, double height)
{
    const struct subject *s = fleet_plan_unit_subject(p->plan, unit);

    for (int week = 0; week < p->weeks; week++) {
        int off = 1;
        for (day_t d = p->first + 7 * week; d < p->first + 7 * week + 5; d++)
            off &= fleet_plan_is_off_road(p->plan, s, d);
        if (!off)
            continue;
        double x = week_x(p, week);
        cairo_save(cr);
        cairo_rectangle(cr, x, y, poster_week_width(p), height);
        cairo_clip(cr);
        ink(cr, GREY);
        int lines = (int)((poster_week_width(p) + height) / 4) + 1;
        for (int i = 0; i < lines; i++)
            line(cr, x - height + 4 * i, y + height, x + 4 * i, y, 0.3);
        cairo_restore(cr);
    }
}

static void
draw_name(struct poster *p, cairo_t *cr, size_t unit, double y)
{
    const struct subject *s = fleet_plan_unit_subject(p->plan, unit);

    ink(cr, BLACK);
    poster_text(
        p, cr, POSTER_MARGIN + 2, y + 2, s->id, 10, 1, POSTER_NAMES - 6);
    if (s->title != NULL)
        poster_text(p, cr, POSTER_MARGIN + 2, y + 14, s->title, 6.5, 0,
            POSTER_NAMES - 6);
}

static void
draw_visits(struct poster *p, cairo_t *cr, size_t unit, double y)
{
    day_t week = DAY_NONE;
    double at = y;

    for (size_t i = 0; i < p->visits.n; i++) {
        const struct visit *v = &p->visits.list[i];
        if (v->unit != unit)
            continue;
        if (isoweek_first(v->day) != week)
            at = y + 1.5;
        week = isoweek_first(v->day);
        poster_box_draw(p, cr, v, week_x(p, (week - p->first) / 7) + 0.75, at);
        at += poster_box_height(p, v);
    }
}

/* Returns where the rows end. */
static double
draw_rows(struct poster *p, cairo_t *cr, size_t sheet, double y)
{
    double right = POSTER_WIDTH - POSTER_MARGIN;

    for (size_t i = p->starts[sheet]; i < p->starts[sheet + 1]; i++) {
        if (i % 2 == 1) {
            ink(cr, PALE);
            cairo_rectangle(
                cr, POSTER_MARGIN, y, right - POSTER_MARGIN, p->heights[i]);
            cairo_fill(cr);
        }
        draw_off_road(p, cr, p->rows[i], y, p->heights[i]);
        draw_name(p, cr, p->rows[i], y);
        ink(cr, BLACK);
        line(cr, POSTER_MARGIN, y, right, y, 0.5);
        y += p->heights[i];
    }
    line(cr, POSTER_MARGIN, y, right, y, 0.5);
    return y;
}

static void
draw_all_visits(struct poster *p, cairo_t *cr, size_t sheet, double y)
{
    for (size_t i = p->starts[sheet]; i < p->starts[sheet + 1]; i++) {
        draw_visits(p, cr, p->rows[i], y);
        y += p->heights[i];
    }
}

static void
draw_codes(struct poster *p, cairo_t *cr, double y)
{
    const struct fleet *f = fleet_plan_fleet(p->plan);
    int columns = LEGEND_COLUMNS;
    int n = 0;

    for (size_t i = 0; i < f->n_jobs; i++) {
        if (p->codes[i][0] == '\0')
            continue;
        double x = POSTER_MARGIN + (n % columns) * LEGEND_COLUMN;
        int row = n / columns;
        double at = y + row * LEGEND_LINE;
        poster_text(p, cr, x, at, p->codes[i], LEGEND_SIZE, 1, 0);
        poster_text(p, cr, x + 24, at, f->jobs[i].title, LEGEND_SIZE, 0,
            LEGEND_COLUMN - 28);
        n++;
    }
}

static int
has_visits(const struct poster *p, size_t place)
{
    for (size_t i = 0; i < p->visits.n; i++)
        if (p->visits.list[i].place == place && !p->visits.list[i].stays)
            return 1;
    return 0;
}

static double
draw_sign(struct poster *p, cairo_t *cr, double x, double y, const char *text)
{
    poster_text(p, cr, x, y, text, LEGEND_SIZE, 0, 0);
    return x + poster_text_width(p, text, LEGEND_SIZE) + 16;
}

/* What the shapes mean. */
static void
draw_signs(struct poster *p, cairo_t *cr, double y)
{
    double x = POSTER_MARGIN;
    char text[64];

    for (size_t i = 0; i < p->problem->n_places; i++)
        if (has_visits(p, i)) {
            poster_place_outline(p, cr, i, x, y + 0.5, 14, 8);
            x = draw_sign(p, cr, x + 18, y, p->problem->places[i].name);
        }
    x = draw_sign(p, cr, x, y, "no box: stays in use");
    cairo_rectangle(cr, x, y + 0.5, 14, 8);
    cairo_fill(cr);
    x = draw_sign(p, cr, x + 18, y, "! after its deadline");
    snprintf(text, sizeof text, POSTER_FAILED "%s, not done since",
        wording_of(DUE_FAILED)->title);
    x = draw_sign(p, cr, x, y, text);
    x = draw_sign(p, cr, x, y, "\xe2\x97\x8f booked by somebody");
    (void)draw_sign(p, cr, x, y, "slanting lines: off the road");
}

void
poster_draw(struct poster *p, cairo_t *cr, size_t sheet)
{
    double head = POSTER_MARGIN + 26;
    double top = POSTER_MARGIN + POSTER_HEAD;
    double foot = POSTER_HEIGHT - POSTER_MARGIN - poster_foot_height(p);

    pango_cairo_update_context(cr, p->context);
    pango_layout_context_changed(p->layout);
    draw_title(p, cr, sheet);
    double bottom = draw_rows(p, cr, sheet, top);
    draw_weeks(p, cr, head + 13, bottom);
    draw_months(p, cr, head, bottom);
    draw_all_visits(p, cr, sheet, top);
    ink(cr, BLACK);
    draw_codes(p, cr, foot + 8);
    double below = foot + 12 + legend_lines(p) * LEGEND_LINE;
    draw_signs(p, cr, below);
    poster_paragraph(p, cr, POSTER_MARGIN, below + LEGEND_LINE + 2,
        buf_str(p->undated), LEGEND_SIZE, INNER_WIDTH);
    poster_text(p, cr, POSTER_MARGIN, POSTER_HEIGHT - POSTER_MARGIN - 9,
        CAUTION_TEXT, 7.5, 1, INNER_WIDTH);
}
