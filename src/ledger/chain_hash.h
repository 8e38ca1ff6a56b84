#ifndef CHAIN_HASH_H
#define CHAIN_HASH_H

#include <sqlite3.h>

/*
 * Let the statements of @db use chain_hash(BEFORE, COLUMN, ...), the hash of a
 * row as chain.h has it.  A function of SQL, so that a hash is made of the
 * very values that are stored.  For this layer only; a result code.
 */
int chain_hash_register(sqlite3 *db);

#endif
