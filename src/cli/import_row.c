#include "import_row.h"
#include "arguments.h"

#include "buf.h"
#include "lookup.h"
#include "num.h"

#include <stdlib.h>
#include <string.h>
#include <sysexits.h>

#define READING_MOST 99999999

struct import_rows {
    struct invocation *i;
    const struct run_context *run;
    const struct import_map *map;
    enum day_order order;
    int hours;
    int hushed;
    struct lookup *subjects;
    struct buf *cells[IMPORT_COLUMNS]; /* of the row at hand */
};

struct import_rows *
import_rows_new(struct invocation *i, const struct run_context *p,
    const struct import_map *map, enum day_order order)
{
    const struct fleet *f = run_fleet(p);
    struct import_rows *rows = calloc(1, sizeof *rows);
    int failed = 0;

    if (rows == NULL)
        return NULL;
    rows->i = i;
    rows->run = p;
    rows->map = map;
    rows->order = order;
    rows->hours = options_value(&i->options, "hours") != NULL;
    rows->subjects = lookup_new(f->n_subjects);
    for (int c = 0; c < IMPORT_COLUMNS; c++)
        failed |= (rows->cells[c] = buf_new()) == NULL;
    if (failed || rows->subjects == NULL) {
        import_rows_free(rows);
        return NULL;
    }
    for (size_t k = 0; k < f->n_subjects; k++)
        lookup_add(rows->subjects, f->subjects[k].id, &f->subjects[k]);
    return rows;
}

void
import_rows_free(struct import_rows *rows)
{
    if (rows == NULL)
        return;
    for (int c = 0; c < IMPORT_COLUMNS; c++)
        buf_free(rows->cells[c]);
    lookup_free(rows->subjects);
    free(rows);
}

void
import_rows_hush(struct import_rows *rows)
{
    rows->hushed = 1;
}

static int
is_empty(const struct csv *sheet)
{
    for (size_t k = 0; k < csv_count(sheet); k++)
        if (csv_field(sheet, k)[strspn(csv_field(sheet, k), " \t\r\n")] != '\0')
            return 0;
    return 1;
}

static int
take_cells(struct import_rows *rows, const struct csv *sheet)
{
    const struct import_map *map = rows->map;

    if (csv_count(sheet) != map->width)
        return fault_set(&rows->i->fault, EX_DATAERR,
            "the row has %zu cells, and the first line %zu", csv_count(sheet),
            map->width);
    for (int c = 0; c < IMPORT_COLUMNS; c++) {
        buf_clear(rows->cells[c]);
        if (map->cell[c] < 0)
            continue;
        size_t at = (size_t)map->cell[c];
        if (import_clean(csv_field(sheet, at), rows->cells[c]))
            return fault_set(&rows->i->fault, EX_DATAERR,
                "cell %zu has a control character", at + 1);
        if (buf_failed(rows->cells[c]))
            return fault_set(&rows->i->fault, EX_OSERR, "out of memory");
    }
    return 0;
}

/* The text of a cell, or NULL when it is empty. */
static const char *
text(const struct import_rows *rows, enum import_column c)
{
    return buf_len(rows->cells[c]) > 0 ? buf_str(rows->cells[c]) : NULL;
}

static const struct subject *
find_subject(struct import_rows *rows)
{
    const char *id = text(rows, COLUMN_SUBJECT);

    if (id == NULL)
        id = rows->map->subject;
    if (id == NULL) {
        fault_fill(&rows->i->fault, EX_DATAERR, "the subject is missing");
        return NULL;
    }
    const struct subject *s = lookup_find(rows->subjects, id);
    if (s == NULL && rows->hushed)
        fault_fill(&rows->i->fault, EX_USAGE, "the subject is unknown");
    else if (s == NULL) /* the slow way knows how to say what is wrong */
        s = argument_subject(rows->i, rows->run, id);
    return s;
}

/* The job of the row; a row without one is a reading. */
static int
take_job(struct import_rows *rows, struct record *r)
{
    const char *id = text(rows, COLUMN_JOB);

    if (id == NULL)
        id = rows->map->job;
    if (id == NULL) {
        r->kind = RECORD_READING;
        return 0;
    }
    const struct fleet *f = run_fleet(rows->run);
    r->job = fleet_job(f, id);
    int has = r->job != NULL && fleet_task(f, r->subject, r->job) != NULL;
    if (!has && rows->hushed)
        return fault_set(&rows->i->fault, EX_USAGE, "the job is unknown");
    if (!has)
        return argument_task(rows->i, rows->run, r->subject_id, id) ? 0 : -1;
    r->job_id = r->job->id;
    return 0;
}

/* A row may say any kind that the table of kinds gives to sheets. */
static int
take_result(struct import_rows *rows, struct record *r)
{
    const char *result = text(rows, COLUMN_RESULT);

    if (result == NULL)
        return 0;
    int kind = record_imported(result);
    if (kind < 0)
        return fault_set(&rows->i->fault, EX_DATAERR,
            "the result '%.60s' is neither completed nor failed", result);
    r->kind = (enum record_kind)kind;
    if (r->job == NULL && (record_kind(r->kind)->needs & RECORD_HAS_JOB))
        return fault_set(&rows->i->fault, EX_DATAERR,
            "the result '%.60s' has no job; a row without a job is a reading",
            result);
    return 0;
}

static int
take_reading(struct import_rows *rows, struct record *r)
{
    const char *reading = text(rows, COLUMN_READING);

    r->reading = -1;
    if (reading == NULL && r->job == NULL && r->kind == RECORD_READING)
        return fault_set(&rows->i->fault, EX_DATAERR,
            "there is neither a job nor a reading in the row");
    if (reading == NULL)
        return 0;
    if (num_parse(reading, strlen(reading), 0, READING_MOST, &r->reading))
        return fault_set(&rows->i->fault, EX_DATAERR,
            "the reading '%.40s' is not a whole number from 0 to %d; write "
            "digits alone, as 84210, without marks between thousands, "
            "decimals or a unit",
            reading, READING_MOST);
    r->meter = rows->hours
                   ? METER_HOURS
                   : record_input_meter(run_fleet(rows->run), r->subject);
    r->other_unit = record_input_other_unit(r);
    return 0;
}

static int
take_day(struct import_rows *rows, struct record *r)
{
    const char *day = text(rows, COLUMN_DAY);

    if (day == NULL)
        return fault_set(&rows->i->fault, EX_DATAERR, "the day is missing");
    r->day = import_day(rows->order, day, &rows->i->fault);
    if (r->day == DAY_NONE)
        return -1;
    struct record_input e = argument_input(rows->i, rows->run);
    return record_input_check_day(&e, r);
}

/* Whatever else its kind does not allow is the row's fault, not the ledger's.
 */
static int
fits(const struct import_rows *rows, const struct record *r)
{
    const char *field = NULL;
    const char *type = NULL;
    enum record_amiss amiss = record_amiss(r, 0, &field, &type);

    if (amiss == RECORD_FITS)
        return 0;
    return fault_set(&rows->i->fault, EX_DATAERR, "a row that says '%s' %s %s",
        record_kind_word(r->kind),
        amiss == RECORD_LACKS ? "has to have a" : "has no", field);
}

enum import_row
import_row_read(
    struct import_rows *rows, const struct csv *sheet, struct record *r)
{
    if (is_empty(sheet))
        return ROW_EMPTY;
    *r = (struct record){
        .kind = RECORD_COMPLETED,
        .until = DAY_NONE,
        .entered = run_moment(rows->run).now,
    };
    if (take_cells(rows, sheet) || (r->subject = find_subject(rows)) == NULL)
        return ROW_BAD;
    r->subject_id = r->subject->id;
    if (take_job(rows, r) || take_day(rows, r) || take_result(rows, r) ||
        take_reading(rows, r) || fits(rows, r))
        return ROW_BAD;
    r->by = text(rows, COLUMN_BY);
    r->reference = text(rows, COLUMN_REFERENCE);
    r->note = text(rows, COLUMN_NOTE);
    return ROW_RECORD;
}
