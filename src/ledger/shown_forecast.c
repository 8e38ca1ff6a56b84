#include "shown_forecast.h"

#include "ledger.h"
#include "query.h"
#include "rows.h"

#include <string.h>
#include <sysexits.h>

/* Only these waver, so only these are held. */
static const char *const basis_words[] = {
    [FORECAST_STATED] = "stated",
    [FORECAST_READINGS] = "readings",
};

#define BASES (sizeof basis_words / sizeof *basis_words)

static const char *
text_at(const struct query *q, int column)
{
    const unsigned char *text = sqlite3_column_text(q->statement, column);

    return text == NULL ? "" : (const char *)text;
}

static enum forecast_basis
basis_at(const struct query *q, int column)
{
    for (size_t i = 0; i < BASES; i++)
        if (basis_words[i] && strcmp(basis_words[i], text_at(q, column)) == 0)
            return (enum forecast_basis)i;
    return FORECAST_NONE;
}

int
shown_forecast_read(struct ledger *l, struct calm *c, struct fault *f)
{
    struct query q = query_start(l, HELD_ALL);
    int row;

    while ((row = query_row(&q, f)) > 0) {
        int hours = strcmp(text_at(&q, 3), query_meter_word(METER_HOURS)) == 0;
        struct held h = {
            .subject = text_at(&q, 0),
            .job = text_at(&q, 1),
            .cycle = text_at(&q, 2),
            .meter = hours ? METER_HOURS : METER_DISTANCE,
            .forecast = {.basis = basis_at(&q, 4),
                .early = query_day_at(&q, 5),
                .likely = query_day_at(&q, 6),
                .late = query_day_at(&q, 7)},
        };
        calm_add(c, &h);
    }
    if (row == 0 && calm_failed(c))
        return fault_set(f, EX_OSERR, "out of memory");
    return row;
}

static int
write_one(struct ledger *l, const struct held *h, struct fault *f)
{
    struct query q = query_start(l, HELD_SET);

    query_text(&q, h->subject);
    query_text(&q, h->job);
    query_text(&q, h->cycle);
    query_text(&q, query_meter_word(h->meter));
    query_text(&q, basis_words[h->forecast.basis]);
    query_day(&q, h->forecast.early);
    query_day(&q, h->forecast.likely);
    query_day(&q, h->forecast.late);
    return query_run(&q, f);
}

/* Once a cycle is in force, what was held of those before it, and of those that
 * were foretold from them, is never asked for again. */
static int
drop_past(struct ledger *l, const struct held *h, struct fault *f)
{
    if (strchr(h->cycle, '+') != NULL)
        return 0;
    struct query q = query_start(l, HELD_DROP_PAST);
    query_text(&q, h->subject);
    query_text(&q, h->job);
    query_text(&q, h->cycle);
    return query_run(&q, f);
}

int
shown_forecast_write(struct ledger *l, const struct calm *c, struct fault *f)
{
    size_t n;
    const struct held *changes = calm_changes(c, &n);

    if (calm_failed(c))
        return fault_set(f, EX_OSERR, "out of memory");
    if (n == 0)
        return 0;
    if (ledger_begin(l, f) != 0)
        return -1;
    for (size_t i = 0; i < n; i++)
        if (write_one(l, &changes[i], f) != 0 ||
            drop_past(l, &changes[i], f) != 0) {
            ledger_rollback(l);
            return -1;
        }
    return ledger_commit(l, f);
}
