#include "show.h"

#include "span.h"

SHOW_WRITER(show_few)
{
    int64_t n = *(const int64_t *)at;

    if (n == 0)
        buf_text(out, "no limit");
    else
        buf_print(out, "%lld", (long long)n);
}

SHOW_WRITER(show_away)
{
    buf_print(out, "%lld", (long long)*(const int64_t *)at);
}

static void
add_minutes(int64_t n, const char *none, struct buf *out)
{
    if (n == 0)
        buf_text(out, none);
    else if (n % 60 == 0)
        buf_print(out, "%lld hour%s", (long long)(n / 60), n == 60 ? "" : "s");
    else
        buf_print(out, "%lld minute%s", (long long)n, n == 1 ? "" : "s");
}

SHOW_WRITER(show_room)
{
    add_minutes(*(const int64_t *)at, "no limit", out);
}

SHOW_WRITER(show_minutes)
{
    add_minutes(*(const int64_t *)at, "not said", out);
}

SHOW_WRITER(show_early)
{
    const struct span *s = at;
    char text[SPAN_TEXT];

    buf_text(out, s->n == 0 ? "as its interval allows" : span_text(*s, text));
}

/* The vehicles that it came to. */
SHOW_WRITER(show_limited)
{
    const struct away_limit *l = at;

    for (size_t i = 0; i < l->n_of; i++)
        buf_print(out, "%s%s", i > 0 ? " " : "", l->of[i]->id);
}

SHOW_WRITER(show_on)
{
    const struct away_limit *l = at;

    buf_text(out, l->on ? l->on->id : "all days");
}
