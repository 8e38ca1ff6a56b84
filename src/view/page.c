#include "page.h"

#include "buf.h"
#include "caution.h"
#include "clean.h"
#include "html.h"
#include "isoweek.h"
#include "page_css.h"
#include "page_form.h"
#include "page_js.h"
#include "page_parts.h"
#include "page_sections.h"
#include "wording.h"

#include <string.h>

const char page_policy[] =
    "default-src 'none'; style-src 'unsafe-inline'; connect-src 'self'; "
    "script-src '" PAGE_JS_HASH "'; "
    "form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

static void
begin(const char *site, const char *part, struct buf *out)
{
    html_print(out,
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, "
        "initial-scale=1\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n<style>\n");
    html_literal(out, PAGE_CSS);
    html_print(out, "</style>\n<title>%s%s%s</title></head>\n<body>\n", site,
        part ? ", " : "", part ? part : "");
    html_print(out, "<a class=\"skip\" href=\"#work\">To the work</a>\n");
    page_shapes(out);
}

/* @drawn is when the page was made, or NULL on one that does not age. */
static void
end(const char *drawn, struct buf *out)
{
    html_print(out, "<footer>");
    if (drawn != NULL) {
        html_print(out, "<script>");
        html_literal(out, PAGE_JS);
        html_print(out,
            "</script>\n<p>As of <strong>%s</strong>. What was recorded later "
            "is not in it.</p>",
            drawn);
    }
    html_print(out,
        "<p class=\"caution\">" CAUTION_FIT "</p></footer>\n</body></html>\n");
}

/* Clean what is in @raw onto @out: 0 or -1. */
static int
finish(const struct buf *raw, struct buf *out)
{
    if (buf_failed(raw))
        return -1;
    clean_add(out, CLEAN_LINES, buf_str(raw), buf_len(raw));
    return buf_failed(out) ? -1 : 0;
}

static void
add_notice(const char *notice, struct buf *out)
{
    html_print(out,
        "<section class=\"notice\" aria-label=\"Notice\"><p>%s</p></section>\n",
        notice);
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

    html_print(out, "<header><h1><bdi>%s</bdi>",
        snapshot_fleet(p->dues->of)->site.name);
    if (p->part != NULL)
        html_print(out, " <span class=\"of\"><bdi>%s</bdi></span>", p->part);
    html_print(out, "</h1><p class=\"date\"><strong>%s</strong> week %d</p>",
        wording_date(today, day), isoweek_of(today).week);
    if (p->recorder != NULL)
        html_print(out,
            "<p class=\"who\">What you record here is signed: "
            "<bdi>%s</bdi></p>",
            p->recorder->person);
    /* For a screen that does not show it all. */
    html_print(out, "<nav aria-label=\"On this page\">");
    html_print(out, "<a href=\"#stop\">Not to be driven</a> ");
    if (page_has_failed(p))
        html_print(out, "<a href=\"#failed\">%s</a> ",
            wording_of(DUE_FAILED)->heading);
    if (page_has_hold(p))
        html_print(out, "<a href=\"#hold\">Not for use</a> ");
    html_print(
        out, "<a href=\"#late\">%s</a> ", wording_of(DUE_OVERDUE)->heading);
    if (page_has_unknown(p))
        html_print(out, "<a href=\"#open\">Not known</a> ");
    html_print(out, "<a href=\"#this\">This week</a> "
                    "<a href=\"#next\">Next week</a> "
                    "<a href=\"#year\">The year</a></nav></header>\n");
    html_print(out, PAGE_STALE);
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
    begin(snapshot_fleet(p->dues->of)->site.name, p->part, raw);
    add_masthead(p, raw);
    html_print(
        raw, "<main id=\"work\" tabindex=\"-1\"><div class=\"board\">\n");
    if (page_board(p, raw) == 0) {
        html_print(raw, "</div>\n");
        rc = page_year(p, raw);
        html_print(raw, "</main>\n");
        end(p->drawn, raw);
    }
    rc = rc || finish(raw, out) ? -1 : 0;
    buf_free(raw);
    return rc;
}

int
page_answer_html(const struct page_answer *a, struct buf *out)
{
    struct buf *raw = buf_new();

    if (raw == NULL)
        return -1;
    begin(a->site, a->heading, raw);
    html_print(raw,
        "<main id=\"work\" tabindex=\"-1\" class=\"answer\">\n"
        "<h1>%s</h1>\n<p role=\"status\">%s</p>\n",
        a->heading, a->text);
    /* What was refused can be put right here. */
    if (a->due != NULL && a->recorder != NULL) {
        html_print(raw, "<h2>");
        page_plate(a->due->task->subject, raw);
        html_print(raw, "<bdi>%s</bdi></h2>\n", a->due->task->job->title);
        page_form(a->recorder, a->due, a->today, a->fields, a->ask_sure, raw);
    }
    if (a->back != NULL)
        html_print(raw,
            "<p><a class=\"back\" href=\"%s\">Back to the page</a></p>\n",
            a->back);
    html_print(raw, "</main>\n");
    end(NULL, raw);
    int rc = finish(raw, out);
    buf_free(raw);
    return rc;
}
