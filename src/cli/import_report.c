#include "import_report.h"

#include "buf.h"

#define ROWS_SHOWN 10

int
import_report_start(struct import_report *t)
{
    *t = (struct import_report){
        .first = DAY_NONE, .last = DAY_NONE, .rows = buf_new()};
    return t->rows == NULL ? -1 : 0;
}

void
import_report_free(struct import_report *t)
{
    buf_free(t->rows);
    t->rows = NULL;
}

int64_t
import_report_added(const struct import_report *t)
{
    int64_t n = 0;

    for (int k = 0; k < RECORD_KINDS; k++)
        n += t->added[k];
    return n;
}

static void
show(struct import_report *t, int line, const struct record *r)
{
    char day[DAY_WORDS];

    buf_print(t->rows, "  line %d: %s  %s  %s%s%s", line,
        day_words(r->day, day), r->subject_id, record_kind_word(r->kind),
        r->job_id ? " " : "", r->job_id ? r->job_id : "");
    record_say(r, t->rows);
    buf_text(t->rows, "\n");
}

void
import_report_add(struct import_report *t, int line, const struct record *r)
{
    if (import_report_added(t) < ROWS_SHOWN)
        show(t, line, r);
    t->added[r->kind]++;
    t->first = day_earlier(t->first, r->day);
    t->last = day_later(t->last, r->day);
}

/* Append "N WHAT", with @before unless it is the first, or nothing for 0. */
static void
count(
    struct buf *out, int *any, const char *before, int64_t n, const char *what)
{
    if (n == 0)
        return;
    buf_print(out, "%s%lld %s", *any ? ", " : before, (long long)n, what);
    *any = 1;
}

static void
report_added(const struct import_report *t, int trial, struct buf *out)
{
    int64_t n = import_report_added(t);
    char first[DAY_WORDS];
    char last[DAY_WORDS];
    int any = 0;

    if (n == 0) {
        buf_text(out, trial ? "nothing to add\n" : "nothing was added\n");
        return;
    }
    buf_print(out, "%lld %s %s, %s to %s", (long long)n,
        n == 1 ? "record" : "records",
        trial    ? "to add"
        : n == 1 ? "was added"
                 : "were added",
        day_words(t->first, first), day_words(t->last, last));
    for (int k = 0; k < RECORD_KINDS; k++)
        count(out, &any, ": ", t->added[k],
            record_kind_word((enum record_kind)k));
    buf_text(out, "\n");
}

void
import_report_report(const struct import_report *t, const char *sheet,
    const char *unused, int trial, struct buf *out)
{
    int64_t more = import_report_added(t) - ROWS_SHOWN;
    int any = 0;

    buf_print(out, "%s: ", sheet);
    report_added(t, trial, out);
    count(out, &any, "", t->there, "there already");
    count(out, &any, "", t->twice, "twice in the sheet");
    count(out, &any, "", t->empty, t->empty == 1 ? "empty row" : "empty rows");
    count(out, &any, "", t->bad, t->bad == 1 ? "bad row" : "bad rows");
    if (any)
        buf_text(out, "\n");
    if (unused[0] != '\0')
        buf_print(out, "columns not used: %s\n", unused);
    if (!trial)
        return;
    buf_text(out, buf_str(t->rows));
    if (more > 0)
        buf_print(out, "  and %lld more\n", (long long)more);
    buf_text(out, "This was a trial: the ledger is as it was.\n");
}
