#include "arena.h"
#include "arguments.h"
#include "buf.h"
#include "command.h"
#include "suggest.h"
#include "url_path.h"

#include <errno.h>
#include <string.h>
#include <strings.h>
#include <sysexits.h>

static const struct option_row rows[] = {
    {"page", 0, NULL, "a key to read the page by, of the fleet or a depot"},
    {"person", 0, NULL, "a key by which that person may record from the page"},
    {"driver", 0, NULL, "a key by which that person may check vehicles"},
    {"vehicle", 0, NULL, "a key to check that vehicle by, for a code in it"},
    {"rotate", 0, NULL, "make a new key, and revoke all earlier ones"},
    {"revoke", 0, NULL, "revoke all keys of that thing"},
    {NULL, 0, NULL, NULL},
};

/* What a key is for. */
struct thing {
    enum keyring_kind kind;
    const char *name;
};

static int
is_given(const struct invocation *i, const char *option)
{
    return options_value(&i->options, option) != NULL;
}

/* The thing as the fleet file writes it, or, to revoke, as somebody wrote it:
 * a feed may be gone and its keys not. */
static int
find(struct invocation *i, const struct run_context *p, struct thing *t)
{
    const struct fleet *fleet = run_fleet(p);
    struct suggest guess = suggest_start(t->name);
    const char *known;

    for (size_t k = 0; (known = url_path_name(fleet, t->kind, k)) != NULL;
         k++) {
        if (strcasecmp(known, t->name) == 0) {
            t->name = known;
            return 0;
        }
        suggest_offer(&guess, known);
    }
    if (is_given(i, "revoke"))
        return 0;
    argument_unknown(i, url_path_word(t->kind), t->name, &guess);
    return -1;
}

/* The key is shown here and nowhere else. */
static int
make(struct invocation *i, const struct run_context *p, const struct thing *t)
{
    char text[KEY_TEXT + 1];
    struct keyring_key key = {
        .kind = t->kind, .name = t->name, .made = run_moment(p).now};

    if (key_make(text))
        return fault_set(
            &i->fault, EX_OSERR, "cannot make a key: %s", strerror(errno));
    key_hash(text, KEY_TEXT, key.hash);
    if (keyring_add(run_ledger(p), &key, &i->fault))
        return -1;
    url_path(t->kind, text, t->name, i->out);
    buf_text(i->out, "\n");
    explicit_bzero(text, sizeof text);
    return 0;
}

static int
change(struct invocation *i, const struct run_context *p, const struct thing *t)
{
    int revoke = is_given(i, "revoke");
    size_t n = 0;

    if ((is_given(i, "rotate") || revoke) &&
        keyring_revoke(
            run_ledger(p), t->kind, t->name, run_moment(p).now, &n, &i->fault))
        return -1;
    if (!revoke)
        return make(i, p, t);
    if (n == 0)
        return fault_set(&i->fault, EX_USAGE, "no key opens the %s '%s'",
            url_path_word(t->kind), t->name);
    return 0;
}

/* All or nothing: a feed whose keys are revoked has its new one. */
static int
change_in_group(
    struct invocation *i, const struct run_context *p, const struct thing *t)
{
    struct ledger *l = run_ledger(p);

    if (ledger_begin(l, &i->fault))
        return -1;
    if (change(i, p, t) == 0 && ledger_commit(l, &i->fault) == 0)
        return 0;
    ledger_rollback(l);
    buf_clear(i->out);
    return -1;
}

static int
list(struct invocation *i, const struct run_context *p)
{
    const char *zone = run_fleet(p)->site.time_zone;
    struct arena *a = arena_new();
    struct keyring_key *keys = NULL;
    size_t n = 0;
    char made[CLOCK_WORDS];
    char revoked[CLOCK_WORDS];

    if (a == NULL)
        return fault_set(&i->fault, EX_OSERR, "out of memory");
    int rc = keyring_list(run_ledger(p), a, &keys, &n, &i->fault);
    for (size_t k = 0; k < n && rc == 0; k++)
        buf_print(i->out, "%-20s %-7s made %s%s%s\n", keys[k].name,
            url_path_word(keys[k].kind), clock_words(zone, keys[k].made, made),
            keys[k].revoked ? ", revoked " : "",
            keys[k].revoked ? clock_words(zone, keys[k].revoked, revoked) : "");
    arena_free(a);
    return rc;
}

/* What the command line names; without a name, nothing. */
static int
read_thing(struct invocation *i, struct thing *t)
{
    static const struct {
        const char *option;
        enum keyring_kind kind;
        const char *operand;
    } kinds[] = {
        {"page", KEYRING_DEPOT, NULL},
        {"person", KEYRING_PERSON, "PERSON"},
        {"driver", KEYRING_DRIVER, "PERSON"},
        {"vehicle", KEYRING_VEHICLE, "VEHICLE"},
    };
    int given = 0;

    *t = (struct thing){KEYRING_FEED, options_operand(&i->options, 0)};
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
        if (!is_given(i, kinds[k].option))
            continue;
        given++;
        t->kind = kinds[k].kind;
        if (t->name == NULL && kinds[k].operand != NULL)
            return fault_set(&i->fault, EX_USAGE, "--%s takes a %s",
                kinds[k].option, kinds[k].operand);
    }
    if (given > 1)
        return fault_set(&i->fault, EX_USAGE,
            "a key is for one of --page, to read, --person, to record, and "
            "--driver and --vehicle, to check");
    if (t->kind == KEYRING_DEPOT && t->name == NULL)
        *t = (struct thing){KEYRING_FLEET, KEYRING_ALL};
    if (is_given(i, "rotate") && is_given(i, "revoke"))
        return fault_set(
            &i->fault, EX_USAGE, "--rotate or --revoke, not both at once");
    if (t->name == NULL && (is_given(i, "rotate") || is_given(i, "revoke")))
        return fault_set(&i->fault, EX_USAGE,
            "--rotate and --revoke need a FEED, --page, "
            "--person, --driver or --vehicle");
    return 0;
}

static int
run_with(struct invocation *i, const struct run_context *p, struct thing *t)
{
    if (t->name == NULL)
        return list(i, p);
    return find(i, p, t) ? -1 : change_in_group(i, p, t);
}

static int
run(struct invocation *i)
{
    struct thing t;

    if (read_thing(i, &t))
        return -1;
    struct run_context *p =
        command_run(i, t.name ? LEDGER_WRITE : LEDGER_READ, RUN_LATER, 0);
    int rc = p ? run_with(i, p, &t) : -1;
    run_close(p);
    return rc;
}

const struct command cmd_key = {
    .name = "key",
    .operands = "[FEED | --page [DEPOT] | --person PERSON | --driver PERSON | "
                "--vehicle VEHICLE]",
    .most = 1,
    .summary = "Make a key to a feed or to the page, or list or revoke them.",
    .options = rows,
    .run = run,
};
