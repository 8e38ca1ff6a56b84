#ifndef HANDLER_H
#define HANDLER_H

#include <microhttpd.h>

/*
 * The callbacks of libmicrohttpd, with a struct serving as their argument: a
 * connection may come in; one begins or ends; the first line of a request is
 * there, and with it the raw target; its fields are there, or a part of its
 * body, or all of it; it has been answered, or never will be.
 */
enum MHD_Result handler_admit(
    void *serving, const struct sockaddr *from, socklen_t len);
void handler_connection(void *serving, struct MHD_Connection *connection,
    void **visit, enum MHD_ConnectionNotificationCode what);
void *handler_line(
    void *serving, const char *target, struct MHD_Connection *connection);
enum MHD_Result handler_request(void *serving,
    struct MHD_Connection *connection, const char *path, const char *method,
    const char *version, const char *body, size_t *len, void **request);
void handler_done(void *serving, struct MHD_Connection *connection,
    void **request, enum MHD_RequestTerminationCode why);

#endif
