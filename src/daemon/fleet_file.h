#ifndef FLEET_FILE_H
#define FLEET_FILE_H

#include "fault.h"
#include "run_context.h"

struct file_watch;

/* Where the fleet comes from. */
struct fleet_source {
    const char *file;
    day_t today; /* DAY_NONE to go by the clock; else nobody is told
                    anything */
    struct file_watch *watch; /* is told what to watch */
};

/*
 * Read the fleet file, and watch it and all that it includes.  What is wrong
 * with it goes into the log, the first of it into @f.  @before is the fleet
 * that stands, or NULL: some of it cannot change.  Returns a run that has no
 * ledger yet, see run_again(), or NULL with @f set.
 */
struct run_context *fleet_file_read(const struct fleet_source *from,
    const struct run_context *before, struct fault *f);

#endif
