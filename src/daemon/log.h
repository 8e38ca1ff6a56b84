#ifndef LOG_H
#define LOG_H

/*
 * The log: a line a time on the standard error.  Under systemd each begins with
 * its priority, as sd-daemon(3) has it.  Never give it a key.
 */
enum log_level { LOG_ERROR = 3, LOG_WARNING = 4, LOG_INFO = 6 };

/* Write one line, in any thread; what could end it or forge another is
 * written as "?". */
void log_line(enum log_level level, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* Write each line of @text so. */
void log_lines(enum log_level level, const char *text);

#endif
