#ifndef KEYS_H
#define KEYS_H

#include "buf.h"
#include "reading.h"

/* The part of what a section describes that a key fills in. */
enum key_part {
    PART_WHOLE,   /* the section's object itself */
    PART_RULE,    /* the rule of a job; a subject may have its own */
    PART_BASELINE /* what was so before the ledger, of one job of a subject */
};

/*
 * One key of the fleet file.  @read gives the value of the entry its meaning
 * at @at, which lies @offset into the part; what is wrong it adds to the
 * problems.  @show appends what is at @at, as it was understood; its entry is
 * NULL where the value is the default.
 */
struct key {
    const char *word;
    unsigned sections; /* bits 1 << enum section_kind */
    unsigned required; /* the same: in which of them it must be there */
    enum key_part part;
    void (*read)(
        struct reading *r, const struct key *k, struct entry *e, void *at);
    void (*show)(const struct reading *r, const struct key *k,
        const struct entry *e, const void *at, struct buf *out);
    size_t offset;
    const char *form;         /* what to write after '=', for a message */
    const char *const *words; /* of a choice, in the order of its enum */
};

/* Every key there is: to add one, give it a row. */
extern const struct key key_table[];
extern const size_t key_table_size;

/*
 * Read the keys of a section but for those of the form JOB.KEY: into @object,
 * and the ones of a rule into @rule, which is NULL where there is none.
 * Unknown and missing ones become problems.
 */
void keys_read(struct reading *r, const struct section *s, void *object,
    struct rule *rule);

/* The key of a job that a subject may have otherwise, or of its baseline; NULL
 * when there is none, refused with the nearest word. */
const struct key *keys_of_job(struct reading *r, const struct section *s,
    struct entry *e, const char *word);

/* Read one entry under its key into the part it belongs to. */
void keys_read_one(struct reading *r, const struct section *s,
    const struct key *k, struct entry *e, void *part);

#endif
