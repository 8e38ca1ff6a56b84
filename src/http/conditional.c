#include "conditional.h"

#include "etag.h"
#include "http_date.h"

#include <strings.h>

void
conditional_start(struct conditional *c, const char *etag, int64_t modified)
{
    *c = (struct conditional){.etag = etag, .modified = modified};
}

/* A field may come in several lines, which make one list. */
static void
either(enum condition *c, int is_true)
{
    if (*c != CONDITION_TRUE)
        *c = is_true ? CONDITION_TRUE : CONDITION_FALSE;
}

static void
compare_date(struct conditional *c, enum condition *field, const char *value,
    int true_when_newer)
{
    int64_t asked;

    if (c->modified == 0 || http_date_parse(value, &asked))
        return;
    int newer = c->modified > asked;
    *field = newer == true_when_newer ? CONDITION_TRUE : CONDITION_FALSE;
}

void
conditional_field(struct conditional *c, const char *name, const char *value)
{
    if ((*name | 0x20) != 'i') /* most fields, at little cost */
        return;
    if (strcasecmp(name, "If-None-Match") == 0)
        either(&c->none_match, etag_listed(value, c->etag, 1));
    else if (strcasecmp(name, "If-Match") == 0)
        either(&c->match, etag_listed(value, c->etag, 0));
    else if (strcasecmp(name, "If-Modified-Since") == 0)
        compare_date(c, &c->modified_since, value, 1);
    else if (strcasecmp(name, "If-Unmodified-Since") == 0)
        compare_date(c, &c->unmodified_since, value, 0);
}

/* In the order of RFC 9110 section 13.2.2. */
enum conditional_answer
conditional_decide(const struct conditional *c)
{
    if (c->match == CONDITION_FALSE)
        return CONDITIONAL_FAILED;
    if (c->match == CONDITION_ABSENT && c->unmodified_since == CONDITION_FALSE)
        return CONDITIONAL_FAILED;
    if (c->none_match != CONDITION_ABSENT)
        return c->none_match == CONDITION_TRUE ? CONDITIONAL_SAME
                                               : CONDITIONAL_SEND;
    return c->modified_since == CONDITION_FALSE ? CONDITIONAL_SAME
                                                : CONDITIONAL_SEND;
}
