#ifndef HTML_H
#define HTML_H

struct buf;

/*
 * The one writer of HTML.  Tags stand in templates, which are literals; every
 * text that a template takes in is escaped.  So nothing that a user wrote can
 * become a tag, and a page reads in the code as it reads in a browser:
 *
 *     html_print(out, "<td class=\"%s\">%s</td>", class, title);
 */

/*
 * Append the template, a string literal, and what it takes in: %s, a text,
 * escaped so that it may also stand between double quotes; %.*s, the beginning
 * of a text that is no shorter, escaped likewise; %d, %zu and %lld, numbers.
 */
#define html_print(out, ...) html_fill((out), "" __VA_ARGS__)

/* Append a literal as it stands, percent signs and all: a style sheet or a
 * script that the build has embedded. */
#define html_literal(out, literal) html_asis((out), "" literal)

/* What the two above call; nothing else does. */
void html_fill(struct buf *out, const char *template, ...)
    __attribute__((format(printf, 2, 3)));
void html_asis(struct buf *out, const char *literal);

#endif
