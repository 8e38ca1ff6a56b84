#include "evidence_sheet.h"

#include "buf.h"
#include "caution.h"
#include "csv_write.h"
#include "evidence_css.h"
#include "html.h"

#include <stdio.h>
#include <stdlib.h>

#define HOW_TEXT 48

/* "3 days early", "on its last day", "NOT DONE", "FAILED". */
static const char *
how(const struct proof *p, char out[HOW_TEXT])
{
    int days = p->deadline == DAY_NONE || p->done == DAY_NONE
                   ? 0
                   : p->deadline - p->done;

    if (p->open)
        snprintf(out, HOW_TEXT, "still open");
    else if (p->done == DAY_NONE)
        snprintf(out, HOW_TEXT, "NOT DONE");
    else if (p->failed)
        snprintf(out, HOW_TEXT, "FAILED");
    else if (p->extra)
        snprintf(out, HOW_TEXT, "an extra");
    else if (p->needed)
        snprintf(out, HOW_TEXT, "when needed");
    else if (p->over > 0 && days >= 0)
        snprintf(out, HOW_TEXT, "%lld %s LATE", (long long)p->over,
            fleet_meter_word(p->task->subject, p->meter));
    else if (p->deadline == DAY_NONE)
        snprintf(out, HOW_TEXT, "the first known");
    else if (days == 0)
        snprintf(out, HOW_TEXT, "on its last day");
    else
        snprintf(out, HOW_TEXT, "%d day%s %s", abs(days),
            abs(days) == 1 ? "" : "s", days > 0 ? "early" : "LATE");
    return out;
}

/* Nonzero when both days are there to be compared. */
static int
has_both(const struct proof *p)
{
    return p->deadline != DAY_NONE && p->done != DAY_NONE && !p->failed;
}

static const char *
text_of(const char *text)
{
    return text != NULL ? text : "";
}

static const char *
by_of(const struct proof *p)
{
    return p->record != NULL ? text_of(p->record->by) : "";
}

static const char *
reference_of(const struct proof *p)
{
    return p->record != NULL ? text_of(p->record->reference) : "";
}

static const char *
result_of(const struct proof *p)
{
    if (p->failed)
        return "failed";
    return p->done != DAY_NONE ? "completed" : NULL;
}

/* How many had a deadline to meet, and how many of them met it. */
static void
count(const struct evidence_sheet *s, size_t *had, size_t *met)
{
    size_t n;
    const struct proof *p = evidence_proofs(s->evidence, &n);

    *had = *met = 0;
    for (size_t i = 0; i < n; i++) {
        int none = p[i].deadline == DAY_NONE && p[i].over == 0;
        if (none || p[i].failed || p[i].open)
            continue;
        ++*had;
        *met += (size_t)(evidence_in_time(&p[i]) != 0);
    }
}

static void
add_share(const struct evidence_sheet *s, struct buf *out)
{
    size_t had;
    size_t met;

    count(s, &had, &met);
    if (had == 0)
        buf_text(out, "Nothing with a deadline was done or due.");
    else
        buf_print(out, "%zu of %zu done in time (%zu %%).", met, had,
            100 * met / had);
}

static void
text_line(const struct proof *p, struct buf *out)
{
    char done[DAY_WORDS];
    char deadline[DAY_WORDS];
    char words[HOW_TEXT];

    buf_print(out, "  %-14s  %-14s  %-18s  %s (%s)", day_words(p->done, done),
        day_words(p->deadline, deadline), how(p, words), p->task->job->title,
        fleet_class_word(p->task->job->class));
    if (by_of(p)[0] != '\0')
        buf_print(out, "  by %s", by_of(p));
    if (reference_of(p)[0] != '\0')
        buf_print(out, "  ref %s", reference_of(p));
    if (p->record != NULL)
        buf_print(out, "  record %lld", (long long)p->record->id);
    else if (p->done != DAY_NONE)
        buf_text(out, "  by the fleet file");
    if (p->called != DAY_NONE)
        buf_print(out, "  called for on %s", day_words(p->called, done));
    if (p->by_call != NULL)
        buf_print(out, " (record %lld)", (long long)p->by_call->id);
    buf_text(out, "\n");
}

int
evidence_sheet_text(const struct evidence_sheet *s, struct buf *out)
{
    char from[DAY_TEXT];
    char to[DAY_TEXT];
    char today[DAY_TEXT];
    size_t n;
    const struct proof *p = evidence_proofs(s->evidence, &n);

    buf_print(out, "%s: work on %s from %s to %s, drawn up on %s\n\n", s->site,
        s->subject->id, day_text(s->from, from), day_text(s->to, to),
        day_text(s->today, today));
    buf_print(out, "  %-14s  %-14s\n", "done", "deadline");
    for (size_t i = 0; i < n; i++)
        text_line(&p[i], out);
    buf_text(out, "\n");
    add_share(s, out);
    buf_print(out, "\n%s\n", CAUTION_TEXT);
    return buf_failed(out) ? -1 : 0;
}

static void
add_record(const struct record *k, struct buf *out)
{
    char number[24];

    snprintf(number, sizeof number, "%lld", k ? (long long)k->id : 0);
    csv_write_field(k ? number : NULL, out);
}

int
evidence_sheet_csv(const struct evidence_sheet *s, struct buf *out)
{
    char number[24];
    size_t n;
    const struct proof *p = evidence_proofs(s->evidence, &n);

    buf_text(out, "subject,job,title,class,deadline,done,days_early,by,"
                  "reference,record,result,called,called_by,over\r\n");
    for (size_t i = 0; i < n; i++) {
        const struct job *job = p[i].task->job;
        csv_write_field(s->subject->id, out);
        csv_write_field(job->id, out);
        csv_write_field(job->title, out);
        csv_write_field(fleet_class_word(job->class), out);
        csv_write_day(p[i].deadline, out);
        csv_write_day(p[i].done, out);
        int early = has_both(&p[i]) ? p[i].deadline - p[i].done : 0;
        snprintf(number, sizeof number, "%d", early);
        csv_write_field(has_both(&p[i]) ? number : NULL, out);
        csv_write_field(by_of(&p[i]), out);
        csv_write_field(reference_of(&p[i]), out);
        add_record(p[i].record, out);
        csv_write_field(result_of(&p[i]), out);
        csv_write_day(p[i].called, out);
        add_record(p[i].by_call, out);
        snprintf(number, sizeof number, "%lld", (long long)p[i].over);
        csv_write_field(p[i].over > 0 ? number : NULL, out);
        buf_text(out, "\r\n");
    }
    return buf_failed(out) ? -1 : 0;
}

static void
cell(const char *text, struct buf *out)
{
    html_print(out, "<td>%s</td>", text);
}

static void
html_row(const struct proof *p, struct buf *out)
{
    char done[DAY_WORDS];
    char day[DAY_WORDS];
    char words[HOW_TEXT];

    if (!p->open && !evidence_in_time(p))
        html_print(out, "<tr class=\"missed\">");
    else
        html_print(out, "<tr>");
    html_print(out, "<td class=\"day\">%s</td><td class=\"day\">%s</td>",
        day_words(p->done, done), day_words(p->deadline, day));
    html_print(out, "<td>%s", how(p, words));
    if (p->called != DAY_NONE)
        html_print(out, "; called for on %s", day_words(p->called, day));
    html_print(out, "</td>");
    cell(p->task->job->title, out);
    cell(fleet_class_word(p->task->job->class), out);
    cell(by_of(p), out);
    cell(reference_of(p), out);
    html_print(out, "</tr>\n");
}

/* The page: black on white, one table, its head again on every sheet. */
int
evidence_sheet_html(const struct evidence_sheet *s, struct buf *out)
{
    const struct subject *subject = s->subject;
    char from[DAY_TEXT];
    char to[DAY_TEXT];
    char today[DAY_TEXT];
    size_t n;
    const struct proof *p = evidence_proofs(s->evidence, &n);
    struct buf *share = buf_new();

    if (share == NULL)
        return -1;
    add_share(s, share);
    html_print(out,
        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width\">\n<style>\n");
    html_literal(out, EVIDENCE_CSS);
    html_print(out,
        "</style>\n<title>%s: work done and due</title></head><body>\n"
        "<h1>%s</h1>\n<h2>%s%s%s</h2>\n",
        subject->id, s->site, subject->id, subject->title ? ", " : "",
        text_of(subject->title));
    html_print(out, "<p>Work done and due from %s to %s, drawn up on %s.</p>\n",
        day_text(s->from, from), day_text(s->to, to),
        day_text(s->today, today));
    html_print(out,
        "<table><caption>%s</caption><thead><tr><th scope=\"col\">Done</th>"
        "<th scope=\"col\">Deadline</th><th scope=\"col\">How</th>"
        "<th scope=\"col\">Work</th><th scope=\"col\">Class</th>"
        "<th scope=\"col\">By</th>"
        "<th scope=\"col\">Reference</th></tr></thead><tbody>\n",
        buf_str(share));
    for (size_t i = 0; i < n; i++)
        html_row(&p[i], out);
    html_print(
        out, "</tbody></table>\n<p>%s</p>\n</body></html>\n", CAUTION_TEXT);
    int failed = buf_failed(share) || buf_failed(out);
    buf_free(share);
    return failed ? -1 : 0;
}
