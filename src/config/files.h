#ifndef FILES_H
#define FILES_H

#include "document.h"

/*
 * Read the fleet file at @path, the files that its [site] includes, and those
 * that it names as presets, in order, into @d.  A file is read once; a pattern
 * that finds it again, or finds nothing, becomes a problem.  Returns 0, or -1
 * when the file at @path itself could not be read.
 */
int files_read(struct document *d, const char *path);

/* @path as seen from where we run, when it was written in the file numbered
 * @file: relative to that file's folder.  Taken from the document's arena,
 * NULL when memory is out. */
const char *files_path(struct document *d, int file, const char *path);

#endif
