#include "chain.h"

#include "chain_hash.h"
#include "query.h"
#include "rows.h"

#include <nettle/sha2.h>
#include <stdio.h>
#include <string.h>
#include <sysexits.h>

/* One column, so written that no two rows read alike: 0, or -1 when memory is
 * out. */
static int
add_column(struct sha256_ctx *sha, sqlite3_value *value)
{
    char length[24];

    if (sqlite3_value_type(value) == SQLITE_NULL) {
        sha256_update(sha, 2, (const uint8_t *)"-,");
        return 0;
    }
    const unsigned char *text = sqlite3_value_text(value);
    int n = sqlite3_value_bytes(value);
    if (text == NULL)
        return -1;
    int digits = snprintf(length, sizeof length, "%d:", n);
    sha256_update(sha, (size_t)digits, (const uint8_t *)length);
    sha256_update(sha, (size_t)n, text);
    sha256_update(sha, 1, (const uint8_t *)",");
    return 0;
}

/* chain_hash(hash before, column, ...) */
static void
hash_row(sqlite3_context *context, int n, sqlite3_value **values)
{
    struct sha256_ctx sha;
    uint8_t digest[CHAIN_HASH];

    sha256_init(&sha);
    sha256_update(&sha, (size_t)sqlite3_value_bytes(values[0]),
        sqlite3_value_blob(values[0]));
    for (int i = 1; i < n; i++)
        if (add_column(&sha, values[i]) != 0) {
            sqlite3_result_error_nomem(context);
            return;
        }
    sha256_digest(&sha, sizeof digest, digest);
    sqlite3_result_blob(context, digest, sizeof digest, SQLITE_TRANSIENT);
}

int
chain_hash_register(sqlite3 *db)
{
    return sqlite3_create_function(db, "chain_hash", -1,
        SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_DIRECTONLY, NULL, hash_row,
        NULL, NULL);
}

/* Take the row at hand: 0 when it fits what came before. */
static int
take_row(const struct query *q, struct chain *out, struct fault *f)
{
    int64_t next = out->records + 1;
    int missing = query_int_at(q, 0) != next;

    if (missing || query_int_at(q, 1) != 1) {
        out->broken = next;
        return fault_set(f, EX_DATAERR,
            "%s: the chain of records breaks at record %lld, which %s: keep "
            "the file and restore a backup",
            q->ledger->path, (long long)next,
            missing ? "is missing" : "is not as it was written");
    }
    memcpy(out->last, sqlite3_column_blob(q->statement, 2), CHAIN_HASH);
    out->records = next;
    return 0;
}

int
chain_verify(struct ledger *l, struct chain *out, struct fault *f)
{
    struct query q = query_start(l, CHAIN_ROWS);
    int row;

    *out = (struct chain){0};
    while ((row = query_row(&q, f)) > 0)
        if (take_row(&q, out, f) != 0) {
            query_end(&q);
            return -1;
        }
    return row;
}
