#include "buf.h"
#include "caution.h"
#include "html.h"
#include "reminder_css.h"
#include "reminder_parts.h"
#include "wording.h"

#include <string.h>

/*
 * One column.  What must be so is on the elements, for readers that drop the
 * sheet; the sheet adds what they can do without, and the dark, which has to
 * shout (!important) over the elements.  A due is kept short, because some
 * readers cut a page off at 100 kB.  Headings go down by one each.  Colours
 * are on their ground at 4.5 to 1 or better.
 */

static const char *
colour(enum reminder_group g)
{
    if (g <= REMINDER_OVERDUE)
        return "#a31515";
    return g <= REMINDER_THIS_WEEK ? "#7a4a00" : "#0b4f8a";
}

static void
add_line(void *to, const char *label, const char *text)
{
    html_print(to, "<br><i>%s:</i> %s", label, text);
}

/* The last option stays whole: a line that ends with one of its dashes would be
 * copied wrong. */
static void
add_command(void *to, const char *label, const char *text)
{
    const char *option = strstr(text, "--");
    int before = (int)(option != NULL ? (size_t)(option - text) : strlen(text));

    html_print(to, "<div><i>%s:</i> <code>", label);
    html_print(to, "%.*s<span class=\"n\">%s</span></code></div>", before, text,
        text + before);
}

static void
add_h2(enum reminder_group g, const char *title, size_t n, struct buf *out)
{
    html_print(out,
        "<h2 class=\"g%d\" style=\"color:%s;font-size:20px;margin:28px 0 8px\">"
        "%s (%zu)</h2>\n",
        (int)g, colour(g), title, n);
}

static int
add_item(const struct reminder_mail *l, const struct reminder_item *item,
    enum reminder_group g, struct buf *out)
{
    const struct task *t = item->due->task;
    const struct subject *s = t->subject;

    html_print(out,
        "<div class=\"d g%d\" style=\"border-left:4px solid %s;"
        "padding-left:12px;margin:0 0 16px\"><h3 dir=\"auto\">%s %s</h3>%s",
        (int)g, colour(g), s->id, t->job->title,
        s->title ? s->title : fleet_kind_word(s->kind));
    if (reminder_lines(l, item, add_line, out) ||
        reminder_commands(item->due, add_command, out))
        return -1;
    html_print(out, "</div>\n");
    return 0;
}

/* The items of each group under its heading, the gravest group first. */
static int
add_groups(const struct reminder_mail *l, struct buf *out)
{
    for (int k = 0; k < REMINDER_GROUPS; k++) {
        enum reminder_group g = (enum reminder_group)k;
        size_t n = reminder_count(l, g);
        if (n == 0)
            continue;
        add_h2(g, reminder_heading(g), n, out);
        for (size_t i = 0; i < l->n; i++)
            if (reminder_group(l->items[i].due) == g &&
                add_item(l, &l->items[i], g, out))
                return -1;
    }
    return 0;
}

/* Dues that are only named, a line each; @text is room to make it in. */
static void
add_short(
    const struct due *const *dues, size_t n, struct buf *text, struct buf *out)
{
    if (n > 0)
        html_print(out, "<ul>\n");
    for (size_t i = 0; i < n; i++) {
        buf_clear(text);
        reminder_short(dues[i], text);
        html_print(out, "<li dir=\"auto\">%s</li>\n", buf_str(text));
    }
    if (n > 0)
        html_print(out, "</ul>\n");
}

static void
add_lists(const struct reminder_mail *l, struct buf *text, struct buf *out)
{
    static const char sentence[] = "margin:0 0 8px";

    if (l->n_under_way > 0) {
        add_h2(REMINDER_COMING, "Under way", l->n_under_way, out);
        html_print(
            out, "<p style=\"%s\">%s</p>\n", sentence, reminder_first_text);
        add_short(l->under_way, l->n_under_way, text, out);
    }
    if (l->outlook != DAY_NONE) {
        add_h2(REMINDER_COMING, "Outlook", l->n_coming, out);
        buf_clear(text);
        reminder_outlook(l, text);
        html_print(out, "<p style=\"%s\">%s</p>\n", sentence, buf_str(text));
        add_short(l->coming, l->n_coming, text, out);
    }
}

static void
add_top(const struct reminder_mail *l, struct buf *text, struct buf *out)
{
    char day[WORDING_DATE];

    html_print(out,
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n"
        "<meta name=\"supported-color-schemes\" content=\"light dark\">\n"
        "<style>\n");
    html_literal(out, REMINDER_CSS);
    html_print(out,
        "</style>\n<title>%s</title></head>\n"
        "<body style=\"background:#ffffff;color:#1b1b1b;"
        "font:16px/1.45 sans-serif;overflow-wrap:anywhere;"
        "word-break:break-word;max-width:600px;margin:0 auto;padding:16px\">\n"
        "<h1 dir=\"auto\" style=\"font-size:22px;margin:0\">%s</h1>\n"
        "<p class=\"m\" style=\"color:#4f4f4f;margin:0\">%s</p>\n",
        l->site, l->site, wording_date(l->today, day));
    if (l->n > 0) {
        buf_clear(text);
        reminder_summary(l, text);
        html_print(out,
            "<p style=\"margin:12px 0 0\"><strong>%s</strong></p>\n",
            buf_str(text));
    }
}

static int
add_all(const struct reminder_mail *l, struct buf *out)
{
    struct buf *text = buf_new();

    if (text == NULL)
        return -1;
    add_top(l, text, out);
    int failed = add_groups(l, out);
    add_lists(l, text, out);
    html_print(out, "<p class=\"m\" style=\"color:#4f4f4f;"
                    "border-top:1px solid #8a8f96;padding-top:12px;"
                    "margin:28px 0 0\">" CAUTION_TEXT "</p>\n</body></html>\n");
    failed = failed || buf_failed(text) || buf_failed(out);
    buf_free(text);
    return failed ? -1 : 0;
}

int
reminder_html(const struct reminder_mail *l, struct buf *out)
{
    return reminder_clean(l, add_all, out);
}
