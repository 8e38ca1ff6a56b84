#include "page_form.h"

#include "buf.h"
#include "html.h"
#include "wording.h"

#include <string.h>

static void
add_hidden(const char *name, const char *value, struct buf *out)
{
    html_print(
        out, "<input type=\"hidden\" name=\"%s\" value=\"%s\">", name, value);
}

/* What the form is of, and that we made it: whoever takes it trusts nothing
 * else in it. */
static void
add_identity(
    const struct page_recorder *recorder, const struct due *d, struct buf *out)
{
    char cycle[CYCLE_TEXT];
    char token[PAGE_TOKEN];

    add_hidden("subject", d->task->subject->id, out);
    add_hidden("job", d->task->job->id, out);
    add_hidden("cycle", due_cycle_text(&d->cycle, cycle), out);
    html_print(out, "<input type=\"hidden\" name=\"made\" value=\"%lld\">",
        (long long)recorder->made);
    recorder->token(recorder, d, token);
    add_hidden("token", token, out);
}

/* The results to choose from; a reading alone is one where a reading is
 * missing. */
static void
add_results(const struct due *d, const char *chosen, struct buf *out)
{
    static const char *const results[][2] = {{"completed", "completed"},
        {"failed", "failed"}, {"reading", "only the reading"}};
    int n = d->to_read != METER_NONE ? 3 : 2;

    html_print(out, "<fieldset><legend>Result</legend>");
    for (int i = 0; i < n; i++) {
        int checked = chosen != NULL && strcmp(chosen, results[i][0]) == 0;
        html_print(out,
            "<label class=\"pick\"><input type=\"radio\" name=\"result\" "
            "value=\"%s\" required%s> %s</label>",
            results[i][0], checked ? " checked" : "", results[i][1]);
    }
    html_print(out, "</fieldset>");
}

/* Append the value a field was filled in with, if it was, and end it. */
static void
end_field(const char *value, struct buf *out)
{
    if (value != NULL)
        html_print(out, " value=\"%s\"", value);
    html_print(out, "></label>");
}

/* An extinguisher has no meter, and somebody asked for its reading would go and
 * look for one. */
static int
has_meter(const struct due *d)
{
    return d->task->subject->kind == SUBJECT_VEHICLE ||
           d->meter != METER_NONE || d->to_read != METER_NONE;
}

void
page_form(const struct page_recorder *recorder, const struct due *d,
    day_t today, const struct page_fields *fields, int ask_sure,
    struct buf *out)
{
    static const struct page_fields empty = {0};
    const struct page_fields *f = fields ? fields : &empty;
    char day[DAY_TEXT];
    char words[WORDING_DATE];

    html_print(out, "<form method=\"post\">");
    add_identity(recorder, d, out);
    add_results(d, f->result, out);
    /* A browser shows the day in an order of its own. */
    html_print(out,
        "<label>Day (today is %s) <input type=\"date\" name=\"on\" required",
        wording_short_date(today, words));
    end_field(f->on ? f->on : day_text(today, day), out);
    if (has_meter(d)) {
        html_print(out,
            "<label>Reading of the meter <input name=\"reading\" "
            "autocomplete=\"off\" inputmode=\"numeric\" maxlength=\"8\" "
            "size=\"9\"");
        end_field(f->reading, out);
    }
    html_print(out, "<label>Initials <input name=\"initials\" "
                    "autocomplete=\"off\" required maxlength=\"12\" "
                    "size=\"6\"");
    end_field(f->initials, out);
    html_print(out, "<label>Sheet or certificate number <input "
                    "name=\"reference\" autocomplete=\"off\" maxlength=\"80\"");
    end_field(f->reference, out);
    html_print(out, "<label>Note <input name=\"note\" autocomplete=\"off\" "
                    "maxlength=\"400\"");
    end_field(f->note, out);
    if (ask_sure)
        html_print(out, "<label class=\"pick\"><input type=\"checkbox\" "
                        "name=\"sure\" value=\"yes\"> yes, really: it is "
                        "right</label>");
    html_print(out, "<button>Record it</button></form>");
}

/* Only the next time can be recorded: the times after it follow from that. */
void
page_record(const struct page *p, const struct due *d, struct buf *out)
{
    if (p->recorder == NULL || d->cycle.ahead > 0)
        return;
    html_print(out,
        "<details><summary>Record<span class=\"v\"> %s %s</span></summary>",
        d->task->subject->id, d->task->job->title);
    page_form(p->recorder, d, snapshot_today(p->dues->of), NULL, 0, out);
    html_print(out, "</details>");
}
