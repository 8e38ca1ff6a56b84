#ifndef STATED_H
#define STATED_H

#include "due.h"

/*
 * What became of the first deadlines that the fleet file states, by the
 * records: for whoever keeps the file.
 */
struct stated {
    const struct task *task;
    day_t deadline;              /* that is stated */
    day_t done;                  /* the work in question */
    const struct record *record; /* NULL when the fleet file has it */
    int overtaken; /* it counts, and the deadline no more; else it came too
                      early, though after the deadline before, or for a day
                      that no certificate states */
    day_t next;    /* the deadline since */
    int begins;    /* the stated one is where later ones are counted from */
    int late;      /* done after the deadline before the next */
};

typedef void stated_seen(void *with, const struct stated *s);

/* Tell of each task of which there is something to say, in the order of the
 * file.  Returns 0, or -1 when memory is out. */
int stated_look(const struct facts *facts, stated_seen *seen, void *with);

#endif
