#ifndef STOP_LETTER_H
#define STOP_LETTER_H

#include "condition.h"

struct buf;

/*
 * The message that tells at once that a vehicle is not to be driven, or that it
 * may be again.
 */
struct stop_letter {
    const char *site;
    const char *page_url; /* or NULL */
    day_t today;
    const struct subject *vehicle;
    enum fitness condition;   /* as it is now */
    const struct stop *stops; /* what stops it; none when nothing does */
    size_t n_stops;
    const struct defect *const *news; /* the defects that it is sent for */
    size_t n_news;
    const char *reading; /* what the odometer showed then, or NULL */
    const char *lifters; /* who may lift a stop of it, by name, or NULL */
};

/* Append the subject, which begins with the condition, and the text.  Both are
 * clean.  0, or -1 when memory is out. */
int stop_letter_subject(const struct stop_letter *m, struct buf *out);
int stop_letter_text(const struct stop_letter *m, struct buf *out);

#endif
