#ifndef WALK_ROUND_H
#define WALK_ROUND_H

#include "record_form.h"

/*
 * The driver's page: the walk-round check of a vehicle, part by part.  What was
 * sent is kept as a draft until the whole check is entered; what is wrong is
 * reported as soon as its part is sent, for a check may never be finished.
 */

/* What a key opens it for: all vehicles to a driver, or one to anybody. */
struct walk_round_key {
    const char *driver;            /* the id that signs, or NULL */
    const struct subject *vehicle; /* or NULL */
};

/* That of a driver or person with that id, or of a vehicle: 0, or -1 when the
 * fleet file has none.  Borrows @fleet. */
int walk_round_driver(
    const struct fleet *fleet, const char *id, struct walk_round_key *out);
int walk_round_vehicle(
    const struct fleet *fleet, const char *id, struct walk_round_key *out);

/* What pages of one moment have in common; NULL with @f set.  Free with
 * walk_round_end(), before the run. */
struct walk_round;
struct walk_round *walk_round_begin(
    const struct run_context *p, struct fault *f);
void walk_round_end(struct walk_round *w);

/* Append the page that the key opens, before any form was sent: 0, or -1 with
 * @f set. */
int walk_round_front(const struct walk_round *w,
    const struct walk_round_key *key, struct buf *out, struct fault *f);

/*
 * Take a form of that page, in the ledger of @p, which read RUN_NEEDED and is
 * open to write, and append the page that says what became of it, with what
 * was typed after a refusal.  However often one is sent, it is taken once.
 */
enum form_outcome walk_round_take(const struct walk_round_key *key,
    const struct run_context *p, const struct record_form *form,
    struct buf *out, struct fault *f);

#endif
