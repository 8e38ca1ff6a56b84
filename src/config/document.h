#ifndef DOCUMENT_H
#define DOCUMENT_H

#include "arena.h"
#include "problem.h"

#include <stddef.h>

/*
 * The files of a fleet as written: sections with their keys, and each key's
 * value line by line.  What a value means is no concern of this module.
 */

/* The order is that in which they are given meaning: what is named comes
 * before what names it. */
enum section_kind {
    SECTION_SITE,
    SECTION_MAIL,
    SECTION_SERVER,
    SECTION_HOLIDAYS,
    SECTION_CALENDAR,
    SECTION_DEPOT,
    SECTION_JOB,
    SECTION_CHECK,
    SECTION_TYPE,
    SECTION_VEHICLE,
    SECTION_EQUIPMENT,
    SECTION_DRIVER,
    SECTION_PERSON,
    SECTION_FEED,
    SECTION_LIMIT,
    SECTION_KINDS
};

/* One line of a value, without blanks around it. */
struct value_line {
    const char *text;
    struct place place;
    const struct value_line *next;
};

struct entry {
    const char *key;
    struct place place;
    const struct value_line *lines; /* none of them empty; NULL for none */
    struct value_line *last_line;
    int again;   /* the section has the key already, which is refused */
    int refused; /* its value has a problem */
    struct entry *next;
};

struct section {
    enum section_kind kind;
    const char *id;    /* "" for the site, mail and server */
    const char *title; /* "[depot harbour]" */
    struct place place;
    struct entry *entries;
    struct entry *last_entry;
    int again;    /* there is such a section already, which is refused */
    int preset;   /* a preset, which nobody need use */
    void *object; /* what it describes; set by whoever gives it meaning */
    size_t index; /* among the sections of its group */
    size_t order; /* among all sections */
    struct section *next;
};

struct document {
    struct arena *arena;
    struct problems *problems;
    struct section *sections; /* in the order of the files */
    struct section *last_section;
    size_t n_sections;
    struct section **by_id;   /* once sealed, as the next */
    const char *const *files; /* the names of its files, by their numbers */
    struct section *open;     /* that the next key belongs to */
    int reading_presets;      /* what is being read are presets */
    int out_of_memory;
};

/* The longest id, in bytes. */
#define ID_MOST 40

/* A file begins: its keys belong to no section yet. */
void document_begin_file(struct document *d);

/*
 * A section begins: @name, of @len bytes, is what stands between brackets.
 * Returns 0, or -1 when the name was refused; its keys are to be left out.
 */
int document_section(
    struct document *d, const char *name, size_t len, struct place place);

/* A key with what stands on its line. */
void document_key(
    struct document *d, const char *key, const char *value, struct place place);

/* One more line of the value of the last key. */
void document_more(struct document *d, const char *value, struct place place);

/*
 * A line that was refused: the key of @len bytes at @key, whose value is not
 * known, or with NULL one more line of the last key.  That the key is there
 * is kept, so that nothing says it is missing.
 */
void document_refused(
    struct document *d, const char *key, size_t len, struct place place);

/* All files are read: refuse sections and keys that are there twice, make
 * document_find() work, and keep the files' names for when the problems are
 * gone. */
void document_seal(struct document *d);

/* The section of that kind and id, letters in either case, or NULL.  For a
 * vehicle, a piece of equipment or a driver any of these three is found. */
struct section *document_find(
    const struct document *d, enum section_kind kind, const char *id);

/* The id of a section of that kind that is closest to @id, or NULL. */
const char *document_nearest(
    const struct document *d, enum section_kind kind, const char *id);

/* What the section says under @key, letters in either case, or NULL. */
struct entry *section_entry(const struct section *s, const char *key);

/* What @s says of @job under @key, or NULL, as for no section: a job says it
 * by the key alone, a type or a subject by JOB.KEY.  Likewise what a check
 * says of the item of that code. */
struct entry *section_job_entry(
    const struct section *s, const char *job, const char *key);

/* The word for a kind of section. */
const char *section_word(enum section_kind kind);

/* The kinds that share one set of ids are one group, named by its first. */
enum section_kind section_group(enum section_kind kind);

#endif
