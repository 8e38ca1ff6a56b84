#include "page_parts.h"

#include "buf.h"
#include "caution.h"
#include "clean.h"
#include "html.h"
#include "isoweek.h"
#include "wording.h"

#include <string.h>

static const char head[] =
    "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
    "<meta name=\"color-scheme\" content=\"light dark\">\n<style>\n";

void
page_begin(const char *site, const char *part, struct buf *out)
{
    buf_text(out, head);
    buf_text(out, page_style);
    buf_text(out, "</style>\n<title>");
    html_add(site, out);
    if (part != NULL) {
        buf_text(out, ", ");
        html_add(part, out);
    }
    buf_text(out, "</title></head>\n<body>\n"
                  "<a class=\"skip\" href=\"#work\">To the work</a>\n");
    page_shapes(out);
}

void
page_end(const char *drawn, struct buf *out)
{
    buf_text(out, "<footer>");
    if (drawn != NULL) {
        buf_print(out, "<script>%s</script>\n", page_script);
        buf_text(out, "<p>As of <strong>");
        html_add(drawn, out);
        buf_text(out, "</strong>. What was recorded later is not in it.</p>");
    }
    buf_text(out,
        "<p class=\"caution\">" CAUTION_TEXT "</p></footer>\n</body></html>\n");
}

int
page_finish(const struct buf *raw, struct buf *out)
{
    if (buf_failed(raw))
        return -1;
    clean_add(out, CLEAN_LINES, buf_str(raw), buf_len(raw));
    return buf_failed(out) ? -1 : 0;
}

static void
add_notice(const char *notice, struct buf *out)
{
    buf_text(out, "<section class=\"notice\" aria-label=\"Notice\"><p>");
    html_add(notice, out);
    buf_text(out, "</p></section>\n");
}

int
page_add_notice(
    const char *html, size_t len, const char *notice, struct buf *out)
{
    /* No text of a user can look like this one. */
    static const char place[] = PAGE_STALE;
    const char *at = memmem(html, len, place, sizeof place - 1);

    if (at == NULL)
        return -1;
    size_t before = (size_t)(at - html);
    buf_add(out, html, before);
    add_notice(notice, out);
    buf_add(out, at, len - before);
    return buf_failed(out) ? -1 : 0;
}

static void
add_masthead(const struct page *p, struct buf *out)
{
    day_t today = snapshot_today(p->dues->of);
    char day[WORDING_DATE];

    buf_text(out, "<header><h1><bdi>");
    html_add(snapshot_fleet(p->dues->of)->site.name, out);
    buf_text(out, "</bdi>");
    if (p->part != NULL) {
        buf_text(out, " <span class=\"of\"><bdi>");
        html_add(p->part, out);
        buf_text(out, "</bdi></span>");
    }
    buf_print(out, "</h1><p class=\"date\"><strong>%s</strong> week %d</p>",
        wording_date(today, day), isoweek_of(today).week);
    if (p->desk != NULL) {
        buf_text(out, "<p class=\"who\">What you record here is signed: <bdi>");
        html_add(p->desk->person, out);
        buf_text(out, "</bdi></p>");
    }
    /* For a screen that does not show it all. */
    buf_print(out,
        "<nav aria-label=\"On this page\">%s<a href=\"#stop\">Not for use</a> "
        "<a href=\"#late\">Overdue</a> %s<a href=\"#this\">This week</a> "
        "<a href=\"#next\">Next week</a> <a href=\"#year\">The year</a></nav>"
        "</header>\n",
        page_has_failed(p) ? "<a href=\"#failed\">Failed</a> " : "",
        page_has_unknown(p) ? "<a href=\"#open\">Not known</a> " : "");
    buf_text(out, PAGE_STALE);
    if (p->notice != NULL)
        add_notice(p->notice, out);
}

int
page_html(const struct page *p, struct buf *out)
{
    struct buf *raw = buf_new();
    int rc = -1;

    if (raw == NULL)
        return -1;
    page_begin(snapshot_fleet(p->dues->of)->site.name, p->part, raw);
    add_masthead(p, raw);
    buf_text(raw, "<main id=\"work\" tabindex=\"-1\"><div class=\"board\">\n");
    if (page_urgent(p, raw) == 0 && page_weeks(p, raw) == 0) {
        buf_text(raw, "</div>\n");
        rc = page_year(p, raw);
        buf_text(raw, "</main>\n");
        page_end(p->drawn, raw);
    }
    rc = rc || page_finish(raw, out) ? -1 : 0;
    buf_free(raw);
    return rc;
}
