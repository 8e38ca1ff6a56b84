#ifndef EVIDENCE_SHEET_H
#define EVIDENCE_SHEET_H

#include "evidence.h"

struct buf;

/* What an auditor is shown, besides the cycles themselves. */
struct evidence_sheet {
    const char *site;
    const struct subject *subject;
    day_t from;
    day_t to;
    day_t today; /* on which it was drawn up */
    const struct evidence *evidence;
};

/*
 * Append the sheet as text for a terminal, as CSV (RFC 4180), or as an HTML
 * page that prints well and needs nothing from elsewhere.  Returns 0, or -1
 * when memory is out.
 */
int evidence_sheet_text(const struct evidence_sheet *s, struct buf *out);
int evidence_sheet_csv(const struct evidence_sheet *s, struct buf *out);
int evidence_sheet_html(const struct evidence_sheet *s, struct buf *out);

#endif
