#include "proof.h"

#include "buf.h"
#include "caution.h"
#include "html.h"
#include "sheet.h"

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
count(const struct proof_sheet *s, size_t *had, size_t *met)
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
add_share(const struct proof_sheet *s, struct buf *out)
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
proof_text(const struct proof_sheet *s, struct buf *out)
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
    sheet_field(k ? number : NULL, out);
}

int
proof_csv(const struct proof_sheet *s, struct buf *out)
{
    char number[24];
    size_t n;
    const struct proof *p = evidence_proofs(s->evidence, &n);

    buf_text(out, "subject,job,title,class,deadline,done,days_early,by,"
                  "reference,record,result,called,called_by,over\r\n");
    for (size_t i = 0; i < n; i++) {
        const struct job *job = p[i].task->job;
        sheet_field(s->subject->id, out);
        sheet_field(job->id, out);
        sheet_field(job->title, out);
        sheet_field(fleet_class_word(job->class), out);
        sheet_day(p[i].deadline, out);
        sheet_day(p[i].done, out);
        int early = has_both(&p[i]) ? p[i].deadline - p[i].done : 0;
        snprintf(number, sizeof number, "%d", early);
        sheet_field(has_both(&p[i]) ? number : NULL, out);
        sheet_field(by_of(&p[i]), out);
        sheet_field(reference_of(&p[i]), out);
        add_record(p[i].record, out);
        sheet_field(result_of(&p[i]), out);
        sheet_day(p[i].called, out);
        add_record(p[i].by_call, out);
        snprintf(number, sizeof number, "%lld", (long long)p[i].over);
        sheet_field(p[i].over > 0 ? number : NULL, out);
        buf_text(out, "\r\n");
    }
    return buf_failed(out) ? -1 : 0;
}

/* The page: black on white, one table, its head again on every sheet. */
static const char page_head[] =
    "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
    "<meta name=\"viewport\" content=\"width=device-width\">\n"
    "<style>\n"
    "body { font: 11pt/1.4 Georgia, serif; max-width: 60em; margin: 2em auto;"
    " padding: 0 1em }\n"
    "table { border-collapse: collapse; width: 100%; margin: 1.5em 0 }\n"
    "caption { text-align: left; padding-bottom: .5em }\n"
    "th, td { text-align: left; padding: .3em .6em .3em 0;"
    " border-bottom: 1px solid #999; vertical-align: top }\n"
    "td.day { white-space: nowrap }\n"
    "tr.missed td { font-weight: bold }\n"
    "@media print { body { margin: 0; max-width: none; font-size: 9pt }\n"
    " thead { display: table-header-group } tr { break-inside: avoid } }\n"
    "@page { margin: 18mm }\n"
    "</style>\n";

static void
cell(const char *class, const char *text, struct buf *out)
{
    buf_print(out, "<td%s>", class);
    html_add(text, out);
    buf_text(out, "</td>");
}

static void
how_cell(const struct proof *p, struct buf *out)
{
    char day[DAY_WORDS];
    char words[HOW_TEXT];
    char text[HOW_TEXT + DAY_WORDS + 16];

    if (p->called == DAY_NONE)
        snprintf(text, sizeof text, "%s", how(p, words));
    else
        snprintf(text, sizeof text, "%s; called for on %s", how(p, words),
            day_words(p->called, day));
    cell("", text, out);
}

static void
html_row(const struct proof *p, struct buf *out)
{
    char day[DAY_WORDS];
    int missed = !p->open && !evidence_in_time(p);

    buf_print(out, "<tr%s>", missed ? " class=\"missed\"" : "");
    cell(" class=\"day\"", day_words(p->done, day), out);
    cell(" class=\"day\"", day_words(p->deadline, day), out);
    how_cell(p, out);
    cell("", p->task->job->title, out);
    cell("", fleet_class_word(p->task->job->class), out);
    cell("", by_of(p), out);
    cell("", reference_of(p), out);
    buf_text(out, "</tr>\n");
}

static void
html_heading(const struct proof_sheet *s, struct buf *out)
{
    char from[DAY_TEXT];
    char to[DAY_TEXT];
    char today[DAY_TEXT];

    buf_text(out, page_head);
    buf_text(out, "<title>");
    html_add(s->subject->id, out);
    buf_text(out, ": work done and due</title></head><body>\n<h1>");
    html_add(s->site, out);
    buf_text(out, "</h1>\n<h2>");
    html_add(s->subject->id, out);
    if (s->subject->title != NULL) {
        buf_text(out, ", ");
        html_add(s->subject->title, out);
    }
    buf_print(out,
        "</h2>\n<p>Work done and due from %s to %s, drawn up on %s.</p>\n",
        day_text(s->from, from), day_text(s->to, to),
        day_text(s->today, today));
}

int
proof_html(const struct proof_sheet *s, struct buf *out)
{
    size_t n;
    const struct proof *p = evidence_proofs(s->evidence, &n);

    html_heading(s, out);
    buf_text(out, "<table><caption>");
    add_share(s, out);
    buf_text(out, "</caption><thead><tr><th scope=\"col\">Done</th>"
                  "<th scope=\"col\">Deadline</th><th scope=\"col\">How</th>"
                  "<th scope=\"col\">Work</th><th scope=\"col\">Class</th>"
                  "<th scope=\"col\">By</th>"
                  "<th scope=\"col\">Reference</th></tr></thead><tbody>\n");
    for (size_t i = 0; i < n; i++)
        html_row(&p[i], out);
    buf_text(out, "</tbody></table>\n<p>");
    html_add(CAUTION_TEXT, out);
    buf_text(out, "</p>\n</body></html>\n");
    return buf_failed(out) ? -1 : 0;
}
