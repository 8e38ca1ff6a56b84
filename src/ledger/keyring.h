#ifndef KEYRING_H
#define KEYRING_H

#include "fault.h"
#include "key.h"

#include <stdint.h>

struct arena;
struct ledger;

/* What a key opens. */
enum keyring_kind {
    KEYRING_FEED,
    KEYRING_FLEET,  /* the page of the whole fleet, to read */
    KEYRING_DEPOT,  /* that of a depot, to read */
    KEYRING_PERSON, /* the page on which that person may record */
    KEYRING_DRIVER, /* checks and reports by that person or driver, of vehicles
                       that they are told of, or all when told nothing */
    KEYRING_VEHICLE /* checks and reports of that vehicle, and nothing else */
};

/* The name of the only thing of the kind KEYRING_FLEET. */
#define KEYRING_ALL "fleet"

/* A key that was made: its hash, never the key itself. */
struct keyring_key {
    int64_t id; /* from 1, in the order of making */
    enum keyring_kind kind;
    const char *name; /* the id of the feed, depot, person, driver or
                         vehicle */
    uint8_t hash[KEY_HASH];
    int64_t made;    /* seconds since 1970 */
    int64_t revoked; /* the same, or 0 while it opens */
};

/* Keep the key of that hash, for the thing of @kind called @name.  Returns 0
 * or -1. */
int keyring_add(
    struct ledger *l, const struct keyring_key *key, struct fault *f);

/* Revoke at @when all keys of that thing that still open it, and set @n to how
 * many there were.  Returns 0 or -1. */
int keyring_revoke(struct ledger *l, enum keyring_kind kind, const char *name,
    int64_t when, size_t *n, struct fault *f);

/* All of them, the oldest first, in @a: 0 or -1. */
int keyring_list(struct ledger *l, struct arena *a, struct keyring_key **out,
    size_t *n, struct fault *f);

#endif
