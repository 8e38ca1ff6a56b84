#ifndef NIGHTLY_H
#define NIGHTLY_H

#include "pass.h"

/*
 * The whole pass once: feeds written, reminders decided and sent.  One part
 * that fails does not keep the others from running.  Returns 0, or -1 with
 * @f set to the first failure.
 */
int nightly_run(const struct pass *p, struct fault *f);

#endif
