#ifndef HTML_H
#define HTML_H

struct buf;

/* Append @text as it may stand in HTML, also between double quotes. */
void html_add(const char *text, struct buf *out);

#endif
