#include "sign.h"

struct entry
sign_entry(struct invocation *i, const struct pass *p)
{
    return (struct entry){
        .pass = p,
        .mark = "--",
        .say_sure = "add --sure",
        .sure = options_value(&i->options, "sure") != NULL,
        .fault = &i->fault,
    };
}

const char *
sign_text(struct invocation *i, const char *option)
{
    struct entry e = sign_entry(i, NULL);
    const char *text = options_value(&i->options, option);

    (void)entry_text(&e, option, text); /* the fault says so */
    return text;
}

int
sign_record(struct invocation *i, const struct pass *p, struct record *r)
{
    r->entered = pass_moment(p).now;
    r->by = sign_text(i, "by");
    r->note = sign_text(i, "note");
    return i->fault.code ? -1 : 0;
}
