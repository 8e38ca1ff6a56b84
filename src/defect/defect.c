#include "defect.h"

#include <strings.h>

/* The rows and columns of the table of states.  A void is no column: the fold
 * goes over what stands, so it leads back by itself. */
enum row { ROW_REPORTED, ROW_DECIDED, ROW_REPAIRED, ROW_CLOSED, ROWS };
enum column {
    COLUMN_SEEN,
    COLUMN_ASSESS,
    COLUMN_REPAIR,
    COLUMN_RELEASE,
    COLUMN_NOTHING,
    COLUMNS
};

/* What a cell of it says. */
enum cell {
    REFUSED,
    STAYS,
    AS_DECIDED,
    TO_REPAIRED,
    TO_CLOSED,
    BACK_IF_WORSE, /* to reported; else it stays */
    BACK_IF_LATER,
    NEW_NUMBER /* another defect, or it says nothing new */
};

static const enum cell table[ROWS][COLUMNS] = {
    [ROW_REPORTED] = {STAYS, AS_DECIDED, TO_REPAIRED, REFUSED, TO_CLOSED},
    [ROW_DECIDED] = {BACK_IF_WORSE, AS_DECIDED, TO_REPAIRED, REFUSED,
        TO_CLOSED},
    [ROW_REPAIRED] = {BACK_IF_LATER, REFUSED, TO_REPAIRED, TO_CLOSED,
        TO_CLOSED},
    [ROW_CLOSED] = {NEW_NUMBER, REFUSED, REFUSED, REFUSED, REFUSED},
};

static const struct {
    const char *word;
    enum row row;
} states[] = {
    [DEFECT_REPORTED] = {"reported", ROW_REPORTED},
    [DEFECT_STOP] = {"stop", ROW_DECIDED},
    [DEFECT_UNTIL] = {"until", ROW_DECIDED},
    [DEFECT_WATCH] = {"watch", ROW_DECIDED},
    [DEFECT_REPAIRED] = {"repaired", ROW_REPAIRED},
    [DEFECT_CLOSED] = {"closed", ROW_CLOSED},
    [DEFECT_VOID] = {"void", ROW_CLOSED},
};

static const char *const verdicts[] = {
    [VERDICT_STOP] = "stop",
    [VERDICT_UNTIL] = "until",
    [VERDICT_WATCH] = "watch",
    [VERDICT_NONE] = "nothing",
};

int
day_time_compare(struct day_time a, struct day_time b)
{
    if (a.day != b.day)
        return a.day < b.day ? -1 : 1;
    return (a.minute > b.minute) - (a.minute < b.minute);
}

const char *
defect_state_word(enum defect_state state)
{
    return states[state].word;
}

const char *
defect_verdict_word(enum defect_verdict verdict)
{
    return verdicts[verdict];
}

int
defect_verdict_find(const char *word)
{
    for (int i = VERDICT_STOP; i <= VERDICT_NONE; i++)
        if (strcasecmp(verdicts[i], word) == 0)
            return i;
    return -1;
}

int
defect_is_open(const struct defect *d)
{
    return states[d->state].row != ROW_CLOSED;
}

int
defect_lapsed(const struct defect *d, day_t today)
{
    return d->state == DEFECT_UNTIL && today > d->until;
}

/* Rule 12 for what nobody decided on.  A repair lifts nothing, and neither does
 * a report after it: what was held by a decision stays so until somebody with
 * the right says otherwise (rule 1). */
int
defect_stops(const struct defect *d, day_t today)
{
    int is_held = d->held != DAY_NONE && today >= d->held;

    if (d->state == DEFECT_REPORTED || d->state == DEFECT_REPAIRED)
        return d->grade >= GRADE_MAJOR || is_held;
    return defect_is_open(d) && is_held;
}

static enum cell
cell_of(const struct defect *d, const struct defect_event *e)
{
    enum column column = COLUMN_SEEN;

    if (e->kind == EVENT_ASSESSED)
        column = e->verdict == VERDICT_NONE ? COLUMN_NOTHING : COLUMN_ASSESS;
    else if (e->kind == EVENT_REPAIRED)
        column = COLUMN_REPAIR;
    else if (e->kind == EVENT_RELEASED)
        column = COLUMN_RELEASE;
    return table[states[d->state].row][column];
}

int
defect_takes(const struct defect *d, const struct defect_event *e)
{
    return cell_of(d, e) != REFUSED;
}

static struct defect_step
step_of(const struct defect_event *e)
{
    return (struct defect_step){e->id, e->at, e->by, e->note, e->alone};
}

static void
open_defect(struct defect *d, const struct defect_event *e)
{
    int64_t again = d->again;

    *d = (struct defect){.number = e->number,
        .first = e->id,
        .last = e->id,
        .subject_id = e->subject_id,
        .subject = e->subject,
        .item = e->item,
        .grade = e->grade,
        .state = DEFECT_REPORTED,
        .until = DAY_NONE,
        .reading = -1,
        .held = DAY_NONE,
        .again = again,
        .cause = e->cause,
        .late_paper = e->paper,
        .reported = step_of(e),
        .seen = step_of(e)};
}

static void
decide(struct defect *d, const struct defect_event *e)
{
    static const enum defect_state leads_to[] = {[VERDICT_STOP] = DEFECT_STOP,
        [VERDICT_UNTIL] = DEFECT_UNTIL,
        [VERDICT_WATCH] = DEFECT_WATCH,
        [VERDICT_NONE] = DEFECT_CLOSED};

    d->state = leads_to[e->verdict];
    d->until = e->verdict == VERDICT_UNTIL ? e->until : DAY_NONE;
    d->reading = e->verdict == VERDICT_UNTIL ? e->reading : -1;
    d->held = e->verdict == VERDICT_STOP    ? DAY_FIRST
              : e->verdict == VERDICT_UNTIL ? e->until + 1
                                            : DAY_NONE;
    d->decided = step_of(e);
}

/* One more report of it.  What was some time that day may have been later. */
static void
see_again(struct defect *d, const struct defect_event *e, enum cell cell)
{
    struct day_time at = e->at;

    if (e->whole_day)
        at.minute = 24 * 60 - 1;
    int is_back =
        (cell == BACK_IF_WORSE && e->grade > d->grade) ||
        (cell == BACK_IF_LATER && day_time_compare(at, d->repaired.at) >= 0);

    if (is_back)
        d->state = DEFECT_REPORTED;
    if (e->grade > d->grade)
        d->grade = e->grade;
    if (day_time_compare(e->at, d->reported.at) < 0)
        d->reported = step_of(e);
    if (day_time_compare(e->at, d->seen.at) >= 0)
        d->seen = step_of(e);
}

void
defect_step(struct defect *d, const struct defect_event *e)
{
    if (d->first == 0) {
        open_defect(d, e);
        return;
    }
    enum cell cell = cell_of(d, e);
    if (cell == NEW_NUMBER || cell == REFUSED)
        return; /* it joined what was closed, and says nothing new */
    d->last = e->id;
    if (e->kind == EVENT_REPORTED)
        see_again(d, e, cell);
    else if (cell == AS_DECIDED)
        decide(d, e);
    else if (cell == TO_REPAIRED) {
        if (d->state != DEFECT_REPAIRED ||
            day_time_compare(e->at, d->repaired.at) >= 0)
            d->repaired = step_of(e);
        d->state = DEFECT_REPAIRED;
    } else {
        d->state = DEFECT_CLOSED;
        d->released = step_of(e);
    }
}
