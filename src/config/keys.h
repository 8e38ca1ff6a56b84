#ifndef KEYS_H
#define KEYS_H

#include "buf.h"
#include "load_context.h"

/* The part of what a section describes that a key fills in. */
enum key_part {
    PART_WHOLE,    /* the section's object itself */
    PART_RULE,     /* the rule of a job; a subject may have its own */
    PART_BASELINE, /* what was so before the ledger, of one job of a subject */
    PART_ITEM      /* an item of a check */
};

struct key;
struct scan;

/*
 * One shape of value: how it is read, and how it is written out again.
 * @parse gives the value of the entry its meaning at @at, and adds what is
 * wrong to the problems.  A value that is one text and names nothing has @take
 * in its place, which is given that text and answers NULL, or what is wrong in
 * words that follow it.  With neither the value is read elsewhere.  @format
 * appends what is at @at, as it was understood; its entry is NULL where the
 * value is the usual one.  NULL where it is shown as it is written.
 */
struct value_type {
    void (*parse)(
        struct load_context *r, const struct key *k, struct entry *e, void *at);
    const char *(*take)(const struct key *k, struct scan *s, void *at);
    void (*format)(const struct load_context *r, const struct key *k,
        const struct entry *e, const void *at, struct buf *out);
};

/*
 * One key of the fleet file, all that is known of it.  What a row does not
 * name is 0 or NULL; the last six are for those types that say so (value.h).
 */
struct key {
    const char *word;
    unsigned sections; /* bits 1 << enum section_kind */
    int required;      /* it must be there in each of them */
    enum key_part part;
    const struct value_type *type;
    size_t offset;     /* of what it fills in, in that part */
    const char *form;  /* what to write after '=', for a message */
    const char *usual; /* the value where nothing is stated, as one would write
                          it; NULL for none, or for the first of @words */
    const char *unset; /* how to show that there is none; NULL for "none" */
    int (*applies)(const struct rule *rule); /* whether it says something
                                                beside the rest; NULL: yes */

    size_t count;                  /* of a list: the offset of its length */
    int64_t least;                 /* value, or length in its own unit */
    int64_t most;                  /* value, or length in days; 0 for any */
    const char *unit;              /* what is counted */
    const char *const *words;      /* of a choice, in the order of its enum */
    const char *wrong;             /* of a value that is refused, after it */
    int (*fits)(const char *text); /* nonzero for a text that is none such */
};

/* Every key there is: to add one, give it a row. */
extern const struct key key_table[];
extern const size_t key_table_size;

/* Give @object, which a section of @kind will describe, or with PART_RULE its
 * rule, the usual value of each key that has one. */
void keys_set_usual(struct load_context *r, enum section_kind kind,
    enum key_part part, void *object);

/*
 * Read the keys of a section but for those of the form JOB.KEY, or CODE.KEY in
 * a check: into @object,
 * and the ones of a rule into @rule, which is NULL where there is none.
 * Unknown and missing ones become problems.
 */
void keys_read(struct load_context *r, const struct section *s, void *object,
    struct rule *rule);

/* The key after the dot, @word: of a job that a subject may have otherwise, or
 * of its baseline, or of an item of a check; NULL when there is none, refused
 * with the nearest word. */
const struct key *keys_after_dot(struct load_context *r,
    const struct section *s, struct entry *e, const char *word);

/* Read one entry under its key into the part it belongs to. */
void keys_read_one(struct load_context *r, const struct section *s,
    const struct key *k, struct entry *e, void *part);

#endif
