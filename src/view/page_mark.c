#include "page_parts.h"

#include "buf.h"
#include "html.h"

/* By class: law, recommendation, maker, own. */
static const char letters[][2] = {"L", "R", "M", "O"};

/* A square for law, a circle for a recommendation, a triangle for the maker, a
 * lozenge for our own. */
static const char *const shapes[] = {
    "<rect x=\"2.5\" y=\"2.5\" width=\"19\" height=\"19\" rx=\"2\"/>",
    "<circle cx=\"12\" cy=\"12\" r=\"10\"/>",
    "<path d=\"M12 1.5 23 22H1z\"/>",
    "<path d=\"M12 .8 23.2 12 12 23.2 .8 12z\"/>",
};

static const struct {
    const char *name;   /* in the style sheet */
    const char *letter; /* in place of the class's */
} looks[] = {
    {"next", NULL},
    {"later", NULL},
    {"fail", "X"},
    {"over", "!"},
    {"open", "?"},
    {"parked", "P"},
};

void
page_shapes(struct buf *out)
{
    buf_text(out, "<svg class=\"v\" aria-hidden=\"true\"><defs>\n");
    for (int c = 0; c <= CLASS_OWN; c++)
        for (int k = 0; k <= LOOK_PARKED; k++)
            buf_print(out,
                "<symbol id=\"%s%d\" viewBox=\"0 0 24 24\">%s"
                "<text class=\"t\" x=\"12\" y=\"%d\">%s</text></symbol>\n",
                letters[c], k, shapes[c],
                c == CLASS_MAKER ? 19 : 17, /* it is widest below */
                looks[k].letter ? looks[k].letter : letters[c]);
    buf_text(out, "</defs></svg>\n");
}

enum page_look
page_look(const struct due *d)
{
    switch (d->state) {
    case DUE_FAILED:
        return LOOK_FAILED;
    case DUE_NO_RECORD:
    case DUE_NEEDS_READING:
        return LOOK_UNKNOWN;
    case DUE_OVERDUE:
        return LOOK_OVERDUE;
    case DUE_BEFORE_RETURN:
        return LOOK_PARKED;
    case DUE_NOW:
    case DUE_AHEAD:
        break;
    }
    return d->cycle.ahead > 0 ? LOOK_LATER : LOOK_NEXT;
}

void
page_mark(enum job_class class, enum page_look look, const char *title,
    struct buf *out)
{
    buf_print(out, "<svg class=\"m %s %s\" ", letters[class], looks[look].name);
    if (title == NULL)
        buf_text(out, "aria-hidden=\"true\">");
    else {
        buf_text(out, "role=\"img\"><title>");
        html_add(title, out);
        buf_text(out, "</title>");
    }
    buf_print(out, "<use href=\"#%s%d\"/></svg>", letters[class], (int)look);
}
