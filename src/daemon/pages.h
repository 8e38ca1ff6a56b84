#ifndef PAGES_H
#define PAGES_H

#include "keyring.h"
#include "record_form.h"

struct routes;

/*
 * The workshop pages to which there are keys.  Once nothing newer can be made
 * they can be shown as old ones, which say so.  A page of a person has forms.
 */
struct pages;

/* How the forms of all pages are signed. */
struct pages_seal {
    uint8_t secret[FORM_SECRET];
    int64_t made; /* of the forms last made; each version has its own */
};

/* A secret that nobody knows: 0, or -1 with errno set. */
int pages_seal(struct pages_seal *seal);

/* The pages that the @n keys at @keys open which are not revoked, with @notice
 * at their top unless it is NULL.  NULL with @f set on failure.  Free with
 * pages_free(). */
struct pages *pages_make(const struct run_context *p,
    const struct keyring_key *keys, size_t n, struct pages_seal *seal,
    const char *notice, struct fault *f);

/* Free @g; NULL, of no pages, is ignored, and by the next three as well. */
void pages_free(struct pages *g);

/* The path of that page among the routes, valid as long as @g, or NULL. */
const char *pages_path(
    const struct pages *g, enum keyring_kind kind, const char *name);

/* Whose forms are taken at @path, or NULL: the id of a person or driver, or of
 * a vehicle, by @kind. */
const char *pages_signer(
    const struct pages *g, const char *path, enum keyring_kind *kind);

/* What a key of that kind opens the driver's page for: 0, or -1. */
struct walk_round_key;
int pages_check_key(const struct fleet *fleet, enum keyring_kind kind,
    const char *name, struct walk_round_key *out);

/* Put them among the routes, as old ones when @are_old.  0 or -1. */
int pages_put(struct pages *g, int are_old, struct routes *s);

/* Where @person records. */
struct recorder pages_recorder(
    const struct pages_seal *seal, const struct person *person);

#endif
