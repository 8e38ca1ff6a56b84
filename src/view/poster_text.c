#include "poster_parts.h"

static void
set(struct poster *p, const char *text, double size, int bold, double most)
{
    PangoFontDescription *font = pango_font_description_new();

    pango_font_description_set_family_static(font, "Sans");
    pango_font_description_set_weight(
        font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font, size * PANGO_SCALE);
    pango_layout_set_font_description(p->layout, font);
    pango_font_description_free(font);
    pango_layout_set_width(
        p->layout, most > 0 ? (int)(most * PANGO_SCALE) : -1);
    pango_layout_set_ellipsize(
        p->layout, most > 0 ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
    pango_layout_set_text(p->layout, text, -1);
}

double
poster_text_width(struct poster *p, const char *text, double size)
{
    int width;

    set(p, text, size, 0, 0);
    pango_layout_get_size(p->layout, &width, NULL);
    return (double)width / PANGO_SCALE;
}

void
poster_text(struct poster *p, cairo_t *cr, double x, double y, const char *text,
    double size, int bold, double most)
{
    set(p, text, size, bold, most);
    cairo_move_to(cr, x, y);
    pango_cairo_show_layout(cr, p->layout);
}

double
poster_paragraph(struct poster *p, cairo_t *cr, double x, double y,
    const char *text, double size, double width)
{
    int height;

    if (text[0] == '\0')
        return 0;
    set(p, text, size, 0, width);
    pango_layout_set_ellipsize(p->layout, PANGO_ELLIPSIZE_NONE);
    pango_layout_set_wrap(p->layout, PANGO_WRAP_WORD_CHAR);
    pango_layout_get_size(p->layout, NULL, &height);
    if (cr != NULL) {
        cairo_move_to(cr, x, y);
        pango_cairo_show_layout(cr, p->layout);
    }
    return (double)height / PANGO_SCALE;
}
