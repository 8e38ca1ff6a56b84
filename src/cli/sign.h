#ifndef SIGN_H
#define SIGN_H

#include "command.h"
#include "entry.h"

/* What the commands that write a record share: the options that go with any
 * record. */

/* How the user of @i asks for it, see entry.h. */
struct entry sign_entry(struct invocation *i, const struct pass *p);

/* The text of an option; NULL without a fault when it is not given. */
const char *sign_text(struct invocation *i, const char *option);

/* Fill in who, note and the moment of entry: 0 or -1. */
int sign_record(struct invocation *i, const struct pass *p, struct record *r);

/* The row of --sure, for the options of whoever uses these. */
#define SIGN_SURE                                                              \
    {                                                                          \
        "sure", 0, NULL, "yes, really: though it looks wrong"                  \
    }

#endif
