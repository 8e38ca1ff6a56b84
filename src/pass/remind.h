#ifndef REMIND_H
#define REMIND_H

#include "pass.h"

/*
 * Decide who is to hear of what today and put one message a person into the
 * ledger's outbox, together with the note of what it tells: a crash loses
 * neither.  A stage is told once; of several that have passed since the last
 * run, only the latest.  A deadline that has moved since it was told is told
 * again.  Every person is tried; returns 0, or -1 with @f set to the first
 * failure.
 */
int remind_all(const struct pass *p, const struct snapshot *s, struct fault *f);

#endif
