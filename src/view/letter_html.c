#include "buf.h"
#include "caution.h"
#include "html.h"
#include "letter_parts.h"
#include "wording.h"

#include <string.h>

/*
 * One column.  What must be so is on the elements, for readers that drop the
 * sheet; the sheet adds what they can do without, and the dark, which has to
 * shout (!important) over the elements.  A due is kept short, because some
 * readers cut a page off at 100 kB.  Headings go down by one each.  Colours
 * are on their ground at 4.5 to 1 or better.
 */

static const char head[] =
    "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width\">\n"
    "<meta name=\"color-scheme\" content=\"light dark\">\n"
    "<meta name=\"supported-color-schemes\" content=\"light dark\">\n"
    "<style>\n"
    ":root{color-scheme:light dark}\n"
    "h3{font-size:17px;margin:0}\n"
    "i{font-style:normal;color:#4f4f4f}\n"
    "ul{margin:0;padding-left:20px}\n"
    "code{display:inline-block;font-size:14px;background:#eef0f2;padding:2px "
    "6px;"
    "margin:2px 0}\n"
    ".n{white-space:nowrap}\n"
    "@media (prefers-color-scheme:dark){\n"
    "body{background:#17191c!important;color:#ececec!important}\n"
    "i,.m{color:#b9bdc3!important}\n"
    "code{background:#2a2e33!important}\n"
    ".g0,.g1,.g2{color:#ff9a8f!important;border-color:#ff9a8f!important}\n"
    ".g3,.g4,.g5{color:#ffc069!important;border-color:#ffc069!important}\n"
    ".g6,.g7{color:#8cc4ff!important;border-color:#8cc4ff!important}\n"
    "div.d{color:#ececec!important}\n"
    "}\n"
    "</style>\n<title>";

static const char *
colour(enum letter_group g)
{
    if (g <= LETTER_OVERDUE)
        return "#a31515";
    return g <= LETTER_THIS_WEEK ? "#7a4a00" : "#0b4f8a";
}

static void
add_line(void *to, const char *label, const char *text)
{
    buf_text(to, "<br><i>");
    html_add(label, to);
    buf_text(to, ":</i> ");
    html_add(text, to);
}

/* What is typed is made of ids, which need no escaping.  The last option stays
 * whole: a line that ends with one of its dashes would be copied wrong. */
static void
add_command(void *to, const char *label, const char *text)
{
    const char *option = strstr(text, "--");
    size_t before = option != NULL ? (size_t)(option - text) : strlen(text);

    buf_text(to, "<div><i>");
    html_add(label, to);
    buf_text(to, ":</i> <code>");
    buf_add(to, text, before);
    buf_print(to, "<span class=\"n\">%s</span></code></div>", text + before);
}

static void
add_h2(enum letter_group g, const char *title, size_t n, struct buf *out)
{
    buf_print(out,
        "<h2 class=\"g%d\" style=\"color:%s;font-size:20px;margin:28px 0 8px\">"
        "%s (%zu)</h2>\n",
        (int)g, colour(g), title, n);
}

static int
add_item(const struct letter *l, const struct letter_item *item,
    enum letter_group g, struct buf *out)
{
    const struct task *t = item->due->task;

    buf_print(out,
        "<div class=\"d g%d\" style=\"border-left:4px solid %s;"
        "padding-left:12px;margin:0 0 16px\"><h3 dir=\"auto\">",
        (int)g, colour(g));
    html_add(t->subject->id, out);
    buf_text(out, " ");
    html_add(t->job->title, out);
    buf_text(out, "</h3>");
    html_add(t->subject->title ? t->subject->title
                               : fleet_kind_word(t->subject->kind),
        out);
    if (letter_lines(l, item, add_line, out) ||
        letter_commands(item->due, add_command, out))
        return -1;
    buf_text(out, "</div>\n");
    return 0;
}

static int
add_group(const struct letter *l, enum letter_group g, struct buf *out)
{
    size_t n = letter_count(l, g);

    if (n == 0)
        return 0;
    add_h2(g, letter_heading(g), n, out);
    for (size_t i = 0; i < l->n; i++)
        if (letter_group(l->items[i].due) == g &&
            add_item(l, &l->items[i], g, out))
            return -1;
    return 0;
}

static int
add_short(const struct due *const *dues, size_t n, struct buf *out)
{
    struct buf *text = buf_new();

    if (text == NULL)
        return -1;
    buf_text(out, n > 0 ? "<ul>\n" : "");
    for (size_t i = 0; i < n; i++) {
        buf_clear(text);
        letter_short(dues[i], text);
        buf_text(out, "<li dir=\"auto\">");
        html_add(buf_str(text), out);
        buf_text(out, "</li>\n");
    }
    buf_text(out, n > 0 ? "</ul>\n" : "");
    int failed = buf_failed(text);
    buf_free(text);
    return failed ? -1 : 0;
}

static int
add_lists(const struct letter *l, struct buf *out)
{
    if (l->n_under_way > 0) {
        add_h2(LETTER_COMING, "Under way", l->n_under_way, out);
        buf_print(
            out, "<p style=\"margin:0 0 8px\">%s</p>\n", letter_first_text);
        if (add_short(l->under_way, l->n_under_way, out))
            return -1;
    }
    if (l->outlook == DAY_NONE)
        return 0;
    add_h2(LETTER_COMING, "Outlook", l->n_coming, out);
    buf_text(out, "<p style=\"margin:0 0 8px\">");
    letter_outlook(l, out);
    buf_text(out, "</p>\n");
    return add_short(l->coming, l->n_coming, out);
}

static void
add_top(const struct letter *l, struct buf *out)
{
    char day[WORDING_DATE];

    buf_text(out, head);
    html_add(l->site, out);
    buf_text(out,
        "</title></head>\n<body style=\"background:#ffffff;color:#1b1b1b;"
        "font:16px/1.45 sans-serif;overflow-wrap:anywhere;"
        "word-break:break-word;max-width:600px;margin:0 auto;padding:16px\">\n"
        "<h1 dir=\"auto\" style=\"font-size:22px;margin:0\">");
    html_add(l->site, out);
    buf_print(out,
        "</h1>\n<p class=\"m\" style=\"color:#4f4f4f;margin:0\">%s</p>\n",
        wording_date(l->today, day));
    if (l->n > 0) {
        buf_text(out, "<p style=\"margin:12px 0 0\"><strong>");
        letter_summary(l, out);
        buf_text(out, "</strong></p>\n");
    }
}

static int
add_all(const struct letter *l, struct buf *out)
{
    add_top(l, out);
    for (int g = 0; g < LETTER_GROUPS; g++)
        if (add_group(l, (enum letter_group)g, out))
            return -1;
    if (add_lists(l, out))
        return -1;
    buf_text(out, "<p class=\"m\" style=\"color:#4f4f4f;"
                  "border-top:1px solid #8a8f96;padding-top:12px;"
                  "margin:28px 0 0\">" CAUTION_TEXT "</p>\n</body></html>\n");
    return buf_failed(out) ? -1 : 0;
}

int
letter_html(const struct letter *l, struct buf *out)
{
    return letter_clean(l, add_all, out);
}
