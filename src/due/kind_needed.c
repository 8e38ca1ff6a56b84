#include "buf.h"
#include "calc_context.h"
#include "scan.h"

/* "when needed": work that is recorded when it happens and is never due. */

static int
parse(struct scan *s, struct arena *a, struct interval *out)
{
    (void)a;
    (void)out;
    return scan_word(s, "when") && scan_word(s, "needed") ? 0 : -1;
}

static void
print(const struct interval *every, struct buf *out)
{
    (void)every;
    buf_text(out, "when needed");
}

static void
first(
    const struct calc_context *r, const struct interval *every, struct limit *l)
{
    (void)r;
    (void)every;
    l->deadline = DAY_NONE;
}

static void
next(const struct calc_context *r, const struct interval *every, size_t i,
    struct limit *l)
{
    (void)i;
    first(r, every, l);
}

const struct interval_kind kind_needed = {
    .form = "when needed",
    .never_due = 1,
    .parse = parse,
    .print = print,
    .first = first,
    .next = next,
};
