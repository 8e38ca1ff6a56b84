#include "arena.h"
#include "buf.h"
#include "command.h"
#include "keyring.h"
#include "nearest.h"
#include "publish.h"

#include <errno.h>
#include <string.h>
#include <sysexits.h>

static const struct option_row rows[] = {
    {"rotate", 0, NULL, "make a new key, and revoke all earlier ones"},
    {"revoke", 0, NULL, "revoke all keys of the feed"},
    {NULL, 0, NULL, NULL},
};

/* The id of the feed as the fleet file writes it, or, to revoke, as somebody
 * wrote it: a feed may be gone and its keys not. */
static const char *
feed_name(struct invocation *i, const struct pass *p, const char *id)
{
    const struct fleet *fleet = pass_fleet(p);
    const struct feed *feed = publish_find(p, id);
    struct nearest guess = nearest_start(id);

    if (feed != NULL)
        return feed->id;
    if (options_value(&i->options, "revoke") != NULL)
        return id;
    for (size_t k = 0; k < fleet->n_feeds; k++)
        nearest_offer(&guess, fleet->feeds[k].id);
    command_unknown(i, "feed", id, &guess);
    return NULL;
}

/* The key is shown here and nowhere else. */
static int
make(struct invocation *i, const struct pass *p, const char *name)
{
    char text[KEY_TEXT + 1];
    struct keyring_key key = {
        .kind = KEYRING_FEED, .name = name, .made = pass_moment(p).now};

    if (key_make(text))
        return fault_set(
            &i->fault, EX_OSERR, "cannot make a key: %s", strerror(errno));
    key_hash(text, KEY_TEXT, key.hash);
    if (keyring_add(pass_ledger(p), &key, &i->fault))
        return -1;
    buf_print(i->out, "/calendar/%s/%s.ics\n", text, name);
    explicit_bzero(text, sizeof text);
    return 0;
}

static int
change(struct invocation *i, const struct pass *p, const char *name)
{
    int rotate = options_value(&i->options, "rotate") != NULL;
    int revoke = options_value(&i->options, "revoke") != NULL;
    size_t n = 0;

    if ((rotate || revoke) && keyring_revoke(pass_ledger(p), KEYRING_FEED, name,
                                  pass_moment(p).now, &n, &i->fault))
        return -1;
    if (!revoke)
        return make(i, p, name);
    if (n == 0)
        return fault_set(
            &i->fault, EX_USAGE, "no key opens the feed '%s'", name);
    return 0;
}

/* All or nothing: a feed whose keys are revoked has its new one. */
static int
change_in_group(struct invocation *i, const struct pass *p, const char *name)
{
    struct ledger *l = pass_ledger(p);

    if (ledger_begin(l, &i->fault))
        return -1;
    if (change(i, p, name) == 0 && ledger_commit(l, &i->fault) == 0)
        return 0;
    ledger_rollback(l);
    buf_clear(i->out);
    return -1;
}

static int
list(struct invocation *i, const struct pass *p)
{
    const char *zone = pass_fleet(p)->site.time_zone;
    struct arena *a = arena_new();
    struct keyring_key *keys = NULL;
    size_t n = 0;
    char made[CLOCK_WORDS];
    char revoked[CLOCK_WORDS];

    if (a == NULL)
        return fault_set(&i->fault, EX_OSERR, "out of memory");
    int rc = keyring_list(pass_ledger(p), a, &keys, &n, &i->fault);
    for (size_t k = 0; k < n && rc == 0; k++)
        buf_print(i->out, "%-20s made %s%s%s\n", keys[k].name,
            clock_words(zone, keys[k].made, made),
            keys[k].revoked ? ", revoked " : "",
            keys[k].revoked ? clock_words(zone, keys[k].revoked, revoked) : "");
    arena_free(a);
    return rc;
}

static int
run_with(struct invocation *i, const struct pass *p, const char *word)
{
    if (word == NULL)
        return list(i, p);
    const char *name = feed_name(i, p, word);
    return name ? change_in_group(i, p, name) : -1;
}

static int
run(struct invocation *i)
{
    const char *word = options_operand(&i->options, 0);
    int rotate = options_value(&i->options, "rotate") != NULL;
    int revoke = options_value(&i->options, "revoke") != NULL;

    if ((rotate && revoke) || (word == NULL && (rotate || revoke)))
        return fault_set(&i->fault, EX_USAGE,
            "name one feed, with --rotate, --revoke or neither");
    struct pass *p = command_pass(i, word ? LEDGER_WRITE : LEDGER_READ);
    int rc = p ? run_with(i, p, word) : -1;
    pass_close(p);
    return rc;
}

const struct command cmd_key = {
    .name = "key",
    .operands = "[FEED]",
    .most = 1,
    .summary = "Make a key to subscribe to a feed by, or list or revoke them.",
    .options = rows,
    .run = run,
};
