#include "arguments.h"
#include "buf.h"
#include "import_report.h"
#include "import_row.h"
#include "progress.h"
#include "reading_check.h"
#include "records.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

/* More bad rows than this are only counted. */
#define BAD_SHOWN 200
#define REST_UNREAD "; nothing after this row was read"

static const struct option_row rows[] = {
    {"add", 0, NULL, "really add them; without it, only show what would be"},
    {"days", 0, "ORDER", "iso (the default), day-first or month-first"},
    {"separator", 0, "S", ", or ; or tab; else as the first line has it"},
    {"subject-column", 0, "NAME", "where the subject is (subject)"},
    {"job-column", 0, "NAME", "where the job is (job)"},
    {"day-column", 0, "NAME", "where the day is (day)"},
    {"reading-column", 0, "NAME", "where the reading is (reading)"},
    {"result-column", 0, "NAME", "where the result is (result)"},
    {"by-column", 0, "NAME", "where it says by whom (by)"},
    {"reference-column", 0, "NAME", "where the reference is (reference)"},
    {"note-column", 0, "NAME", "where the note is (note)"},
    {"subject", 0, "SUBJECT", "the subject of every row"},
    {"job", 0, "JOB", "the job of every row"},
    {"hours", 0, NULL, "running hours; so taken where only hours count"},
    ARGUMENT_SURE,
    {NULL, 0, NULL, NULL},
};

/* What the user says of the sheet as a whole. */
struct manner {
    enum day_order days;
    char separator; /* 0 to find it */
    int add;
    int sure;
};

/* One sheet on its way into the ledger. */
struct import {
    struct invocation *i;
    const struct run_context *run; /* without the ledger's records: there may be
                                many, and none of them is looked through */
    struct ledger *ledger;
    struct manner manner;
    const char *name; /* of the sheet, and its number among the problems */
    int file;
    struct csv *sheet;
    struct import_map map;
    struct buf *unused;
    struct import_rows *rows;
    struct import_report tally;
    int64_t first_id; /* of the records added, 0 before that */
};

static int
read_manner(struct invocation *i, struct manner *m)
{
    const char *days = options_value(&i->options, "days");
    const char *separator = options_value(&i->options, "separator");

    m->add = options_value(&i->options, "add") != NULL;
    m->sure = options_value(&i->options, "sure") != NULL;
    if (days != NULL && import_day_order(days, &m->days))
        return fault_set(&i->fault, EX_USAGE,
            "--days: '%s' is neither iso, day-first nor month-first", days);
    if (separator == NULL)
        return 0;
    if (strcmp(separator, "tab") == 0)
        separator = "\t";
    if (strlen(separator) != 1 || strchr(",;\t", separator[0]) == NULL)
        return fault_set(&i->fault, EX_USAGE,
            "--separator: '%s' is neither a comma, a semicolon nor tab",
            separator);
    m->separator = separator[0];
    return 0;
}

/* What the options name for every row must be known. */
static int
check_words(struct invocation *i, const struct run_context *p)
{
    const char *subject = options_value(&i->options, "subject");
    const char *job = options_value(&i->options, "job");

    return (subject && argument_subject(i, p, subject) == NULL) ||
                   (job && argument_job(i, p, job) == NULL)
               ? -1
               : 0;
}

/* A fault of the sheet gets its place. */
static int
put_place(struct import *im, int line)
{
    struct fault f = im->i->fault;

    return fault_set(
        &im->i->fault, f.code, "%s:%d: %.400s", im->name, line, f.text);
}

/* Keep what is wrong with a row, and what @more to say of it, and go on: 0; or
 * -1 when the fault is not the row's. */
static int
refuse_row(struct import *im, const char *more)
{
    struct fault *f = &im->i->fault;
    struct place where = {im->file, csv_line(im->sheet)};

    if (f->code != EX_USAGE && f->code != EX_DATAERR)
        return put_place(im, where.line);
    if (im->tally.bad++ < BAD_SHOWN)
        problems_add(
            im->i->problems, PROBLEM_ERROR, where, "%s%s", f->text, more);
    else
        import_rows_hush(im->rows);
    *f = (struct fault){0};
    return 0;
}

/* Nonzero when the record of that number is not yet more than a row here. */
static int
is_row(const struct import *im, int64_t id)
{
    return im->first_id != 0 && id >= im->first_id;
}

/* Where a row of the same sheet speaks against it, that has no number that
 * could be voided. */
static int
refuse_reading(
    struct import *im, const struct record *r, const struct reading_doubt *s)
{
    const struct known_reading *k = &s->against;
    char day[DAY_WORDS];
    char own[DAY_WORDS];

    if (!is_row(im, k->id))
        (void)reading_check_refuse(r, s, "add --sure", &im->i->fault);
    else
        fault_fill(&im->i->fault, EX_DATAERR,
            "%s showed %lld on %s by another row of the sheet, so %lld on %s "
            "is %s; mend the row that is wrong; if both are right, add --sure",
            r->subject_id, (long long)k->value, day_words(k->day, day),
            (long long)r->reading, day_words(r->day, own), s->why);
    return refuse_row(im, "");
}

/* Hold a reading against those around it, then add the record. */
static int
add_record(struct import *im, const struct record *r)
{
    struct fault *f = &im->i->fault;
    struct reading_doubt s;
    int64_t id;

    if (r->reading >= 0 && !im->manner.sure) {
        int doubted = reading_check(run_fleet(im->run), im->ledger, r, &s, f);
        if (doubted != 0)
            return doubted < 0 ? -1 : refuse_reading(im, r, &s);
    }
    if (records_add(im->ledger, r, &id, f))
        return -1;
    if (im->first_id == 0)
        im->first_id = id;
    import_report_add(&im->tally, csv_line(im->sheet), r);
    return 0;
}

static int
take_record(struct import *im, const struct record *r)
{
    int64_t id;
    int has = records_find(im->ledger, r, &id, &im->i->fault);

    if (has < 0)
        return -1;
    if (!has)
        return add_record(im, r);
    if (is_row(im, id))
        im->tally.twice++;
    else
        im->tally.there++;
    return 0;
}

static int
take_row(struct import *im)
{
    struct record r;

    switch (import_row_read(im->rows, im->sheet, &r)) {
    case ROW_EMPTY:
        im->tally.empty++;
        return 0;
    case ROW_RECORD:
        return take_record(im, &r);
    default:
        return refuse_row(im, "");
    }
}

static int
take_rows(struct import *im)
{
    struct progress progress = progress_start("rows");
    enum csv_got got = CSV_RECORD;
    int rc = 0;

    for (int64_t n = 1; rc == 0 && got != CSV_BROKEN; n++) {
        got = csv_next(im->sheet, &im->i->fault);
        if (got == CSV_END)
            break;
        rc = got == CSV_RECORD
                 ? take_row(im)
                 : refuse_row(im, got == CSV_BROKEN ? REST_UNREAD : "");
        progress_tell(&progress, n);
    }
    progress_end(&progress);
    return rc;
}

/* All of it happens in one group, that of a trial too: it is undone. */
static int
take_sheet(struct import *im)
{
    struct fault *f = &im->i->fault;

    im->ledger = ledger_open(run_fleet(im->run)->site.ledger,
        im->manner.add ? LEDGER_WRITE : LEDGER_TRIAL, f);
    if (im->ledger == NULL || ledger_begin(im->ledger, f))
        return -1;
    if (take_rows(im) == 0 && im->tally.bad == 0 && im->manner.add)
        return ledger_commit(im->ledger, f);
    ledger_rollback(im->ledger);
    return f->code ? -1 : 0;
}

static int
read_header(struct import *im)
{
    struct invocation *i = im->i;
    enum csv_got got = csv_next(im->sheet, &i->fault);

    if (got == CSV_END)
        return fault_set(&i->fault, EX_DATAERR,
            "%s: is empty; its first line is to name the columns", im->name);
    if (got != CSV_RECORD || import_map_read(&im->map, i, im->sheet))
        return put_place(im, csv_line(im->sheet));
    import_map_unused(&im->map, im->sheet, im->unused);
    return 0;
}

static int
report(struct import *im)
{
    const struct import_report *t = &im->tally;

    /* What was to be done and was not is no output, only a failure. */
    if (t->bad == 0 || !im->manner.add)
        import_report_report(
            t, im->name, buf_str(im->unused), !im->manner.add, im->i->out);
    if (t->bad == 0)
        return 0;
    return fault_set(&im->i->fault, EX_DATAERR,
        "%s: %lld %s bad%s, so nothing was added; mend the sheet and try again",
        im->name, (long long)t->bad, t->bad == 1 ? "row is" : "rows are",
        t->bad > BAD_SHOWN ? ", the first 200 are shown" : "");
}

static int
import(struct import *im, FILE *from)
{
    struct invocation *i = im->i;
    int rc = -1;

    im->file = problems_file(i->problems, im->name);
    im->sheet = csv_new(from, im->manner.separator);
    im->unused = buf_new();
    im->rows = import_rows_new(i, im->run, &im->map, im->manner.days);
    if (import_report_start(&im->tally) || im->file < 0 || im->sheet == NULL ||
        im->unused == NULL || im->rows == NULL)
        fault_fill(&i->fault, EX_OSERR, "out of memory");
    else if (read_header(im) == 0 && take_sheet(im) == 0)
        rc = report(im);
    ledger_close(im->ledger);
    import_report_free(&im->tally);
    import_rows_free(im->rows);
    buf_free(im->unused);
    csv_free(im->sheet);
    return rc;
}

static int
import_file(struct import *im, const char *path)
{
    int standard = strcmp(path, "-") == 0;
    FILE *from = standard ? stdin : fopen(path, "re");

    im->name = standard ? "standard input" : path;
    if (from == NULL)
        return fault_set(&im->i->fault, EX_NOINPUT, "%s: cannot be opened: %s",
            path, strerror(errno));
    int rc = import(im, from);
    if (!standard)
        fclose(from);
    return rc;
}

static int
run(struct invocation *i)
{
    struct import im = {.i = i};

    if (read_manner(i, &im.manner))
        return -1;
    struct run_context *p = command_run(i, LEDGER_READ, RUN_FLEET, 0);
    im.run = p;
    int rc = p == NULL || check_words(i, p)
                 ? -1
                 : import_file(&im, options_operand(&i->options, 0));
    run_close(p);
    return rc;
}

const struct command cmd_import = {
    .name = "import",
    .operands = "FILE",
    .least = 1,
    .most = 1,
    .summary = "Add the records in a spreadsheet's CSV, after a trial.",
    .options = rows,
    .run = run,
};
