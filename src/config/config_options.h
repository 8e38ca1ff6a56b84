#ifndef CONFIG_OPTIONS_H
#define CONFIG_OPTIONS_H

#include <stddef.h>

/* What the fleet file may name that this layer does not know by itself. */

/* A way to send mail. */
struct config_transport {
    const char *name;
    const char *form; /* what it takes, for a message */
    int takes_server; /* that is a server, not a path */
};

struct config_options {
    const struct config_transport *transports;
    size_t n_transports;
};

#endif
