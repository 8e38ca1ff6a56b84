#include "poster.h"
#include "poster_parts.h"

#include "buf.h"
#include "isoweek.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <stdlib.h>

#define ROW_LEAST 24.0
#define ROW_PAD 3.0
#define SPREAD_MOST 1.4

/* Vehicles always; what else work comes for only when it has some. */
static int
is_shown(const struct poster *p, size_t unit)
{
    for (size_t i = 0; i < p->visits.n; i++)
        if (p->visits.list[i].unit == unit)
            return 1;
    return fleet_plan_unit_subject(p->plan, unit)->kind == SUBJECT_VEHICLE;
}

/* The boxes of a week stand one under the other. */
static double
row_height(struct poster *p, size_t unit)
{
    double most = ROW_LEAST;
    double height = 0;
    day_t week = DAY_NONE;

    for (size_t i = 0; i < p->visits.n; i++) {
        const struct visit *v = &p->visits.list[i];
        if (v->unit != unit)
            continue;
        if (isoweek_first(v->day) != week)
            height = ROW_PAD;
        week = isoweek_first(v->day);
        height += poster_box_height(p, v);
        if (height > most)
            most = height;
    }
    return most;
}

static int
make_rows(struct poster *p)
{
    size_t n = p->problem->n_units;

    p->rows = calloc(n + 1, sizeof *p->rows);
    p->heights = calloc(n + 1, sizeof *p->heights);
    p->starts = calloc(n + 2, sizeof *p->starts);
    if (p->rows == NULL || p->heights == NULL || p->starts == NULL)
        return -1;
    for (size_t unit = 0; unit < n; unit++)
        if (is_shown(p, unit)) {
            p->rows[p->n_rows] = unit;
            p->heights[p->n_rows++] = row_height(p, unit);
        }
    return 0;
}

/* A sheet that is not full has higher rows, with room to write in. */
static void
spread_rows(struct poster *p, double room)
{
    for (size_t s = 0; s < p->n_sheets; s++) {
        size_t first = p->starts[s];
        size_t end = p->starts[s + 1];
        double used = 0;
        for (size_t i = first; i < end; i++)
            used += p->heights[i];
        double more = used > 0 && used < room ? room / used : 1;
        for (size_t i = first; i < end; i++)
            p->heights[i] *= more < SPREAD_MOST ? more : SPREAD_MOST;
    }
}

/* As many rows on a sheet as go there, at least one. */
static void
break_rows(struct poster *p)
{
    double room =
        POSTER_HEIGHT - 2 * POSTER_MARGIN - POSTER_HEAD - poster_foot_height(p);
    double used = 0;

    p->n_sheets = 1;
    for (size_t i = 0; i < p->n_rows; i++) {
        if (used + p->heights[i] > room && i > p->starts[p->n_sheets - 1]) {
            p->starts[p->n_sheets++] = i;
            used = 0;
        }
        used += p->heights[i];
    }
    p->starts[p->n_sheets] = p->n_rows;
    spread_rows(p, room);
}

/* What has no day, by subject: "V1: Engine oil and filter; K9: ...". */
static int
tell_undated(struct poster *p)
{
    size_t n;
    const struct fleet_plan_undated *u = fleet_plan_undated(p->plan, &n);

    p->undated = buf_new();
    if (p->undated == NULL)
        return -1;
    for (size_t i = 0; i < n; i++) {
        const struct task *t = u[i].task;
        int again = i > 0 && u[i - 1].task->subject == t->subject;
        const char *mark = u[i].failed != DAY_NONE ? POSTER_FAILED : "";
        if (again)
            buf_print(p->undated, ", %s%s", mark, t->job->title);
        else
            buf_print(p->undated, "%s%s: %s%s",
                i == 0 ? "Not planned, for want of a record, a reading or a "
                         "return - "
                       : "; ",
                t->subject->id, mark, t->job->title);
    }
    return buf_failed(p->undated) ? -1 : 0;
}

/* Points are the unit, on whatever screen this is worked out. */
static int
make_text(struct poster *p)
{
    PangoFontMap *fonts = pango_cairo_font_map_new();
    if (fonts == NULL)
        return -1;
    p->context = pango_font_map_create_context(fonts);
    g_object_unref(fonts); /* the context keeps it */
    if (p->context == NULL)
        return -1;
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    pango_cairo_context_set_font_options(p->context, options);
    cairo_font_options_destroy(options);
    pango_cairo_context_set_resolution(p->context, 72);
    p->layout = pango_layout_new(p->context);
    return p->layout ? 0 : -1;
}

struct poster *
poster_new(const struct fleet_plan *a)
{
    struct poster *p = calloc(1, sizeof *p);

    if (p == NULL)
        return NULL;
    p->plan = a;
    p->problem = fleet_plan_problem(a);
    p->first = isoweek_first(fleet_plan_options(a)->today);
    if (make_text(p) || visits_make(a, &p->visits)) {
        poster_free(p);
        return NULL;
    }
    day_t last = fleet_plan_options(a)->until;
    for (size_t i = 0; i < p->visits.n; i++)
        last = day_later(last, p->visits.list[i].day);
    p->weeks = (last - p->first) / 7 + 1;
    if (poster_make_codes(p) || tell_undated(p) || make_rows(p)) {
        poster_free(p);
        return NULL;
    }
    break_rows(p);
    return p;
}

void
poster_free(struct poster *p)
{
    if (p == NULL)
        return;
    if (p->layout != NULL)
        g_object_unref(p->layout);
    if (p->context != NULL)
        g_object_unref(p->context);
    visits_free(&p->visits);
    buf_free(p->undated);
    free(p->codes);
    free(p->rows);
    free(p->heights);
    free(p->starts);
    free(p);
}

size_t
poster_sheets(const struct poster *p)
{
    return p->n_sheets;
}

static cairo_status_t
take_bytes(void *with, const unsigned char *bytes, unsigned n)
{
    buf_add(with, bytes, n);
    return CAIRO_STATUS_SUCCESS;
}

/* Finish what was drawn: 0, or -1 when something went wrong. */
static int
finish(cairo_t *cr, cairo_surface_t *surface, const struct buf *out)
{
    cairo_status_t drawn = cairo_status(cr);

    cairo_destroy(cr);
    cairo_surface_finish(surface);
    cairo_status_t written = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    return drawn || written || buf_failed(out) ? -1 : 0;
}

int
poster_pdf(struct poster *p, struct buf *out)
{
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(
        take_bytes, out, POSTER_WIDTH, POSTER_HEIGHT);
    cairo_t *cr = cairo_create(surface);
    char when[DAY_TEXT + 16];

    /* Not the moment of writing, which would make each file another. */
    snprintf(when, sizeof when, "%sT00:00:00Z",
        day_text(fleet_plan_options(p->plan)->today, (char[DAY_TEXT]){0}));
    cairo_pdf_surface_set_metadata(
        surface, CAIRO_PDF_METADATA_CREATE_DATE, when);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE,
        fleet_plan_fleet(p->plan)->site.name);
    for (size_t i = 0; i < p->n_sheets; i++) {
        poster_draw(p, cr, i);
        cairo_show_page(cr);
    }
    return finish(cr, surface, out);
}

int
poster_svg(struct poster *p, size_t n, struct buf *out)
{
    cairo_surface_t *surface = cairo_svg_surface_create_for_stream(
        take_bytes, out, POSTER_WIDTH, POSTER_HEIGHT);

    cairo_svg_surface_set_document_unit(surface, CAIRO_SVG_UNIT_PT);
    cairo_t *cr = cairo_create(surface);
    poster_draw(p, cr, n);
    return finish(cr, surface, out);
}
