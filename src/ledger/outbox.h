#ifndef OUTBOX_H
#define OUTBOX_H

#include "fault.h"
#include "told.h"

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
    int64_t created;   /* this and tried are seconds since 1970 */
    int attempts;      /* that failed */
    int64_t tried;     /* the last of them, 0 for none */
    const char *error; /* what it failed with, or NULL */
};

/*
 * Write the message @m and the @n_told things that it tells, all or nothing.
 * Of @m its person, message_id, recipient, bytes, len and created are read.
 * Returns 0 or -1; a thing already told or a message-id already used is
 * refused with EX_DATAERR.
 */
int outbox_add(struct ledger *l, const struct outbox_message *m,
    const struct told *told, size_t n_told, struct fault *f);

/* The messages not sent yet, the oldest first, in @a.  Returns 0 or -1. */
int outbox_waiting(struct ledger *l, struct arena *a,
    struct outbox_message **out, size_t *n, struct fault *f);

/* Note that message @id was sent at @when, unless that was noted before.
 * Returns 0 or -1. */
int outbox_sent(struct ledger *l, int64_t id, int64_t when, struct fault *f);

/* Note that sending message @id failed at @when with @error; it goes on
 * waiting.  Returns 0 or -1. */
int outbox_failed(struct ledger *l, int64_t id, int64_t when, const char *error,
    struct fault *f);

#endif
