/*
 * record_form FLEET TODAY MADE page [NOTICE]: the workshop page of a person, with
 * its forms; record_form FLEET TODAY MADE post: take the form on the standard
 * input; record_form FLEET TODAY MADE policy: what the page may do.  What ostlerd
 * does with a page, for tests in a browser and without one.
 */
#include "record_form.h"
#include "dues.h"
#include "http_form.h"
#include "ledger.h"
#include "page.h"
#include "workshop.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const uint8_t secret[FORM_SECRET] = {7};
static const uint8_t key[KEY_HASH] = {9};

static const char *
value(const void *from, const char *name)
{
    return http_form_value(from, name);
}

static int
show(const struct run_context *p, const struct recorder *d, const char *notice,
    struct buf *out, struct fault *f)
{
    const struct workshop w = {.notice = notice, .recorder = &d->page};
    const struct snapshot *s = dues_of_run(p, f);

    return s ? workshop_page(p, s, &w, out, f) : -1;
}

static int
take(struct run_context *p, const struct recorder *d, struct buf *out,
    struct fault *f)
{
    static char body[16384];
    size_t len = fread(body, 1, sizeof body, stdin);
    struct http_form *form = http_form_read(body, len);
    const struct record_form fields = {value, form, "/"};

    if (form == NULL)
        return -1;
    enum form_outcome outcome = record_form_take(d, p, &fields, out, f);
    http_form_free(form);
    return outcome == FORM_FAILED ? -1 : 0;
}

int
main(int argc, char **argv)
{
    struct problems *problems = problems_new();
    struct buf *out = buf_new();
    struct fault f = {0};
    int rc = -1;

    if (argc < 5 || problems == NULL || out == NULL)
        return 64;
    if (strcmp(argv[4], "policy") == 0)
        return puts(page_policy) == EOF;
    int posts = strcmp(argv[4], "post") == 0;
    const struct run_options o = {.fleet_file = argv[1],
        .today = day_parse(argv[2], strlen(argv[2])),
        .ledger = LEDGER_WRITE,
        .reads = posts ? RUN_LATER : RUN_NEEDED,
        .serves = RUN_PAGES};
    struct run_context *p = run_open(&o, problems, &f);
    struct recorder d = recorder_of(secret, key, "R. Teal", atoll(argv[3]));
    if (p != NULL)
        rc = posts ? take(p, &d, out, &f) : show(p, &d, argv[5], out, &f);
    fwrite(buf_str(out), 1, buf_len(out), stdout);
    if (rc != 0)
        fprintf(stderr, "%s\n", f.text);
    run_close(p);
    buf_free(out);
    problems_free(problems);
    return rc != 0;
}
