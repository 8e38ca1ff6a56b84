#ifndef JOURNAL_H
#define JOURNAL_H

/*
 * The log: a line a time on the standard error.  Under systemd each begins with
 * its priority, as sd-daemon(3) has it.  Never give it a key.
 */
enum journal_level { JOURNAL_ERROR = 3, JOURNAL_WARNING = 4, JOURNAL_INFO = 6 };

/* Write one line, in any thread; what could end it or forge another is
 * written as "?". */
void journal(enum journal_level level, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Write each line of @text so. */
void journal_lines(enum journal_level level, const char *text);

#endif
