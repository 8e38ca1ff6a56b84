#include "page_parts.h"

#include "buf.h"
#include "html.h"
#include "wording.h"

#include <string.h>

/* What a field held, or @otherwise. */
static void
add_value(const char *value, const char *otherwise, struct buf *out)
{
    buf_text(out, " value=\"");
    html_add(value ? value : otherwise, out);
    buf_text(out, "\"");
}

static void
add_hidden(const char *name, const char *value, struct buf *out)
{
    buf_print(out, "<input type=\"hidden\" name=\"%s\"", name);
    add_value(value, "", out);
    buf_text(out, ">");
}

/* By what a form is known: the due, and that we made it. */
static void
add_identity(const struct page_desk *desk, const struct due *d, struct buf *out)
{
    char cycle[CYCLE_TEXT];
    char token[PAGE_TOKEN];

    add_hidden("subject", d->task->subject->id, out);
    add_hidden("job", d->task->job->id, out);
    add_hidden("cycle", due_cycle_text(&d->cycle, cycle), out);
    buf_print(out, "<input type=\"hidden\" name=\"made\" value=\"%lld\">",
        (long long)desk->made);
    desk->token(desk, d, token);
    add_hidden("token", token, out);
}

/* The results there are to choose from; a reading alone where one is missing.
 */
static void
add_results(const struct due *d, const char *chosen, struct buf *out)
{
    static const char *const results[][2] = {{"completed", "completed"},
        {"failed", "failed"}, {"reading", "only the reading"}};
    int n = d->to_read != METER_NONE ? 3 : 2;

    buf_text(out, "<fieldset><legend>Result</legend>");
    for (int i = 0; i < n; i++)
        buf_print(out,
            "<label class=\"pick\"><input type=\"radio\" name=\"result\" "
            "value=\"%s\" required%s> %s</label>",
            results[i][0],
            chosen != NULL && strcmp(chosen, results[i][0]) == 0 ? " checked"
                                                                 : "",
            results[i][1]);
    buf_text(out, "</fieldset>");
}

static void
add_text(const char *label, const char *name, const char *value,
    const char *more, struct buf *out)
{
    buf_print(out, "<label>%s <input name=\"%s\" autocomplete=\"off\"%s", label,
        name, more);
    if (value != NULL)
        add_value(value, "", out);
    buf_text(out, "></label>");
}

/* An extinguisher shows none, and who is asked for it would look for one. */
static int
has_meter(const struct due *d)
{
    return d->task->subject->kind == SUBJECT_VEHICLE ||
           d->meter != METER_NONE || d->to_read != METER_NONE;
}

void
page_form(const struct page_desk *desk, const struct due *d, day_t today,
    const struct page_fields *fields, int ask_sure, struct buf *out)
{
    static const struct page_fields empty = {0};
    const struct page_fields *f = fields ? fields : &empty;
    char day[DAY_TEXT];
    char words[WORDING_DATE];

    buf_text(out, "<form method=\"post\">");
    add_identity(desk, d, out);
    add_results(d, f->result, out);
    /* A browser shows the day in an order of its own. */
    buf_print(out,
        "<label>Day (today is %s) <input type=\"date\" name=\"on\" required",
        wording_short_date(today, words));
    add_value(f->on, day_text(today, day), out);
    buf_text(out, "></label>");
    if (has_meter(d))
        add_text("Reading of the meter", "reading", f->reading,
            " inputmode=\"numeric\" maxlength=\"8\" size=\"9\"", out);
    add_text("Initials", "initials", f->initials,
        " required maxlength=\"12\" size=\"6\"", out);
    add_text("Sheet or certificate number", "reference", f->reference,
        " maxlength=\"80\"", out);
    add_text("Note", "note", f->note, " maxlength=\"400\"", out);
    if (ask_sure)
        buf_text(out, "<label class=\"pick\"><input type=\"checkbox\" "
                      "name=\"sure\" value=\"yes\"> yes, really: it is "
                      "right</label>");
    buf_text(out, "<button>Record it</button></form>");
}

void
page_record(const struct page *p, const struct due *d, struct buf *out)
{
    if (p->desk == NULL || d->cycle.ahead > 0)
        return;
    buf_text(out, "<details><summary>Record<span class=\"v\"> ");
    html_add(d->task->subject->id, out);
    buf_text(out, " ");
    html_add(d->task->job->title, out);
    buf_text(out, "</span></summary>");
    page_form(p->desk, d, snapshot_today(p->dues->of), NULL, 0, out);
    buf_text(out, "</details>");
}

/* What was refused can be put right here. */
static void
add_again(const struct page_answer *a, struct buf *out)
{
    buf_text(out, "<h2>");
    page_plate(a->due->task->subject, out);
    buf_text(out, "<bdi>");
    html_add(a->due->task->job->title, out);
    buf_text(out, "</bdi></h2>\n");
    page_form(a->desk, a->due, a->today, a->fields, a->ask_sure, out);
}

int
page_answer_html(const struct page_answer *a, struct buf *out)
{
    struct buf *raw = buf_new();

    if (raw == NULL)
        return -1;
    page_begin(a->site, a->heading, raw);
    buf_text(raw, "<main id=\"work\" tabindex=\"-1\" class=\"answer\">\n<h1>");
    html_add(a->heading, raw);
    buf_text(raw, "</h1>\n<p role=\"status\">");
    html_add(a->text, raw);
    buf_text(raw, "</p>\n");
    if (a->due != NULL && a->desk != NULL)
        add_again(a, raw);
    if (a->back != NULL) {
        buf_text(raw, "<p><a class=\"back\" href=\"");
        html_add(a->back, raw);
        buf_text(raw, "\">Back to the page</a></p>\n");
    }
    buf_text(raw, "</main>\n");
    page_end(NULL, raw);
    int rc = page_finish(raw, out);
    buf_free(raw);
    return rc;
}
