#include "take_form.h"

#include "check_page.h"
#include "http_request.h"
#include "log.h"
#include "reopen.h"
#include "resource.h"

#include <string.h>

static const char *
value(const void *from, const char *name)
{
    return http_form_value(from, name);
}

/* The page stands at the very path that was posted to; a link by its last
 * segment leads there without our knowing the key. */
static const char *
way_back(const struct http_request *form)
{
    return strrchr(http_request_path(form), '/') + 1;
}

static struct resource *
page(unsigned status, const struct buf *html, const char *policy)
{
    const struct resource_facts facts = {
        .status = status,
        .type = "text/html; charset=utf-8",
        .cache = "no-store",
        .policy = policy,
        .referrer = "same-origin",
    };

    return buf_failed(html)
               ? NULL
               : resource_new(&facts, buf_str(html), buf_len(html));
}

/* That it was not taken, and nothing more. */
static struct resource *
refuse(const struct run_context *p, unsigned status, const char *text,
    const char *back, struct buf *out)
{
    const struct page_answer a = {
        .site = run_fleet(p)->site.name,
        .heading = "Not recorded",
        .text = text,
        .back = back,
    };

    buf_clear(out);
    return page_answer_html(&a, out) ? NULL : page(status, out, page_policy);
}

static struct resource *
fail(const struct run_context *p, const struct http_request *form,
    const struct fault *f, struct buf *out)
{
    log_line(LOG_ERROR, "a form could not be recorded: %s", f->text);
    return refuse(p, 503,
        "The ledger cannot be written now. Send the form again in a minute: "
        "it is taken once.",
        way_back(form), out);
}

/* By @d from the workshop page, or by @k from the driver's. */
static struct resource *
take(const struct recorder *d, const struct walk_round_key *k,
    struct run_context *p, const struct http_request *form, struct buf *out)
{
    static const unsigned statuses[] = {
        [FORM_REFUSED] = 422, [FORM_RECORDED] = 200, [FORM_AGAIN] = 200};
    const struct record_form fields = {
        value, http_request_form(form), way_back(form)};
    struct fault f;

    if (reopen(p, 1, d ? RUN_LATER : RUN_NEEDED, &f))
        return fail(p, form, &f, out);
    enum form_outcome outcome = d ? record_form_take(d, p, &fields, out, &f)
                                  : walk_round_take(k, p, &fields, out, &f);
    struct resource *answer =
        outcome == FORM_FAILED
            ? fail(p, form, &f, out)
            : page(statuses[outcome], out, d ? page_policy : check_page_policy);
    run_rest(p);
    return answer;
}

struct resource *
take_form(const struct served_site *d, struct run_context *p,
    const struct http_request *form)
{
    struct buf *out = buf_new();
    struct resource *answer;
    struct recorder recorder;
    struct walk_round_key checker;

    if (out == NULL)
        return NULL;
    if (!http_request_is_own(form))
        answer = refuse(p, 403,
            "The form was sent from another site, or by no browser. Open the "
            "page and record it there.",
            NULL, out);
    else if (served_site_recorder(d, run_fleet(p), http_request_path(form),
                 http_request_key(form), &recorder) == 0)
        answer = take(&recorder, NULL, p, form, out);
    else if (served_site_checker(d, run_fleet(p), http_request_path(form),
                 http_request_key(form), &checker) == 0)
        answer = take(NULL, &checker, p, form, out);
    else
        answer =
            refuse(p, 404, "There is no such page, or no more.", NULL, out);
    buf_free(out);
    return answer;
}
