#ifndef SHEETS_H
#define SHEETS_H

#include "load_context.h"

/* What [check NAME] describes, before its keys are read, or NULL. */
struct sheet_def *sheets_new(struct load_context *r, const struct section *s);

/* Read the section of a check into its sheet, and put that into the fleet. */
void sheets_read(struct load_context *r, const struct section *s);

/* Nonzero when some subject has the sheet of that section. */
int sheets_used(const struct load_context *r, const struct section *s);

/* Refuse two sheets of @h that have an item in common and differ in it: a
 * defect is known by its code. */
void sheets_check(struct load_context *r, const struct subject_def *h);

#endif
