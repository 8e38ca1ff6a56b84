#ifndef FROM_RECORDS_H
#define FROM_RECORDS_H

#include "defects.h"

/*
 * Fold @n records of the ledger into @ds: all of them in the order of entry,
 * those that were voided and those that void them too.  Those of other kinds
 * are passed over.  Texts are borrowed, lists are taken from @a.  0, or -1 when
 * memory is out.
 */
struct arena;
int defects_read(struct defects *ds, struct arena *a,
    const struct record *records, size_t n);

#endif
