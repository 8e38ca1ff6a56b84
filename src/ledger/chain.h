#ifndef CHAIN_H
#define CHAIN_H

#include "fault.h"

#include <stdint.h>

struct ledger;

#define CHAIN_HASH 32

/*
 * The chain of records: each carries the SHA-256 hash (FIPS 180-4) of the hash
 * of the record before it, 32 zero bytes for the first, followed by its own
 * columns: id, kind, subject, job, day, until, meter, reading, entered, voids,
 * about, by_whom, reference, note, other, body, form.  A column is written as
 * its length in bytes, a colon, its text or decimal digits, and a comma; a NULL
 * is "-,".  Whoever changes, drops or inserts a record, voided ones and
 * voidings included, must therefore make every hash after it anew.
 *
 * That is form 2.  Records of ledgers before version 3 are of form 1: their
 * hash leaves out about, body and form, and of these they have but the form.
 * None of form 1 comes after one of form 2.
 */
struct chain {
    int64_t records;                /* that fit, from the first on */
    int64_t broken;                 /* the first that does not, or 0 */
    unsigned char last[CHAIN_HASH]; /* of the last that fits */
};

/*
 * Work the chain out anew.  Returns 0 when it is whole.  Where it breaks the
 * fault names the first record that does not fit, with EX_DATAERR, and the
 * answer is -1, as it is when the ledger cannot be read.
 */
int chain_verify(struct ledger *l, struct chain *out, struct fault *f);

#endif
