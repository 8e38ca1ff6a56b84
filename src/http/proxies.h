#ifndef PROXIES_H
#define PROXIES_H

#include "address.h"
#include "fault.h"

enum { PROXIES_MOST = 16 };

/* The proxies that are trusted, for any thread to ask about while another
 * names new ones. */
struct proxies;

/* None yet; NULL when memory is out.  Free with proxies_free(). */
struct proxies *proxies_new(void);

/* Free @p; NULL is ignored. */
void proxies_free(struct proxies *p);

/*
 * Trust those in @list from now on and no others: addresses or "unix", then
 * NULL; NULL for none.  Returns 0, or -1 with @f set, and then trusts the same
 * as before.
 */
int proxies_trust(struct proxies *p, const char *const *list, struct fault *f);

/* Nonzero when @a is one. */
int proxies_have(struct proxies *p, const struct address *a);

/* address_forwarded() with them. */
struct address proxies_client(
    struct proxies *p, const struct address *peer, const char *field);

#endif
