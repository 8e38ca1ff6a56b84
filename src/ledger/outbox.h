#ifndef OUTBOX_H
#define OUTBOX_H

#include "fault.h"
#include "sent_reminder.h"

#include <stddef.h>
#include <stdint.h>

struct arena;
struct ledger;

/*
 * Finished messages on their way out.  A message is written here before the
 * first attempt to send it, and every attempt sends the same bytes.
 */
struct outbox_message {
    int64_t id; /* from 1, in the order of writing */
    const char *person;
    const char *message_id; /* no two messages have the same */
    const char *recipient;  /* the address */
    const char *bytes;      /* the whole message */
    size_t len;
    int64_t created;   /* this and what follows: seconds since 1970, 0: never */
    int64_t tried;     /* when the last attempt began */
    int64_t next_try;  /* not before, unless somebody asks for it */
    int64_t gave_up;   /* since when nobody tries any more */
    int64_t dropped;   /* when somebody said that it is not to go out */
    int attempts;      /* that were begun */
    const char *error; /* what the last one failed with, or NULL */
    const char *note;  /* why it was dropped, or NULL */
};

/*
 * Write the message @m and the @n_told things that it tells, all or nothing.
 * Of @m its person, message_id, recipient, bytes, len and created are read.
 * Returns 0 or -1; a thing already told or a message-id already used is
 * refused with EX_DATAERR.
 */
int outbox_add(struct ledger *l, const struct outbox_message *m,
    const struct sent_reminder *told, size_t n_told, struct fault *f);

/* The messages neither sent nor dropped, the oldest first, in @a: those that
 * wait, and those given up.  Returns 0 or -1. */
int outbox_open(struct ledger *l, struct arena *a, struct outbox_message **out,
    size_t *n, struct fault *f);

/* The messages that were dropped, likewise. */
int outbox_dropped(struct ledger *l, struct arena *a,
    struct outbox_message **out, size_t *n, struct fault *f);

/*
 * Note that an attempt to send message @id begins at @when, before anything is
 * sent: what cannot be noted must not go out, or it would go out again and
 * again.  When nothing further is noted of it, the error is @if_lost, and the
 * next attempt at @next.  Returns 0 or -1.
 */
int outbox_try(struct ledger *l, int64_t id, int64_t when, int64_t next,
    const char *if_lost, struct fault *f);

/*
 * Note how the attempt ended: it was sent; it failed with @error and goes on
 * waiting; or that, and nobody tries any more.  Of a message already sent or
 * dropped nothing is noted.  Each returns 0 or -1.
 */
int outbox_sent(struct ledger *l, int64_t id, int64_t when, struct fault *f);
int outbox_failed(
    struct ledger *l, int64_t id, const char *error, struct fault *f);
int outbox_give_up(struct ledger *l, int64_t id, int64_t when,
    const char *error, struct fault *f);

/* Note that message @id is not to go out, and why; it stays to be seen.
 * Returns 0, or -1 with EX_DATAERR when there is none that is still open. */
int outbox_drop(struct ledger *l, int64_t id, int64_t when, const char *note,
    struct fault *f);

#endif
