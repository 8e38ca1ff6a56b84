#ifndef SCHEMA_H
#define SCHEMA_H

#include "query.h"

/* The number by which file(1) and we know a ledger: "OSTL". */
#define SCHEMA_APPLICATION 0x4F53544C

/* The version of the tables that this program makes and knows. */
#define SCHEMA_VERSION 4

/*
 * Bring the tables of @l up to date, from nothing if it has none.  A ledger
 * made by a newer version is refused.  For this layer only.
 */
int schema_update(struct ledger *l, struct fault *f);

/* Refuse a file that is not a ledger. */
int schema_recognise(struct ledger *l, struct fault *f);

#endif
