#ifndef ETAG_H
#define ETAG_H

/*
 * Nonzero when the strong entity tag @etag, quotes included, is in @list, the
 * value of an If-Match or If-None-Match field: tags parted by commas, or "*",
 * which stands for any.  With @weak a tag that is weak in the list fits as
 * well (RFC 9110 section 8.8.3.2).  A list that is no list ends where it goes
 * wrong.
 */
int etag_listed(const char *list, const char *etag, int weak);

#endif
