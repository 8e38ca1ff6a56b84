#ifndef ENTRY_H
#define ENTRY_H

#include "command.h"
#include "records.h"

/*
 * What the commands that write a record share: the options that go with any
 * record, and what is refused.
 */

/* Fill in who, reference, note and the moment of entry; a text that is empty
 * or would break a line is refused. */
int entry_sign(struct invocation *i, const struct pass *p, struct record *r);

/* The text of an option, checked like that; NULL without a fault when it is
 * not given. */
const char *entry_text(struct invocation *i, const char *option);

/* Refuse a day before the subject existed, unless --sure was given. */
int entry_check_existed(
    struct invocation *i, const struct record *r, day_t day);

/* Refuse a day that is still to come, or, unless --sure was given, before the
 * subject existed. */
int entry_check_day(
    struct invocation *i, const struct pass *p, const struct record *r);

/* The meter of a reading of @s that nobody named: distance, unless its jobs go
 * by hours alone. */
enum meter entry_meter(const struct fleet *f, const struct subject *s);

/* Nonzero for a day on which the odometer of @r's subject still counted another
 * unit. */
int entry_other_unit(const struct record *r);

/* Refuse a reading that cannot be, see suspect.h, unless --sure was given. */
int entry_check_reading(
    struct invocation *i, const struct pass *p, const struct record *r);

/* The row of --sure, for the options of whoever uses these. */
#define ENTRY_SURE                                                             \
    {                                                                          \
        "sure", 0, NULL, "yes, really: though it looks wrong"                  \
    }

#endif
