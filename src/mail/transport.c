#include "transport.h"

#include <string.h>

static const struct transport transports[] = {
    {"folder", send_folder},
};

#define N_TRANSPORTS (sizeof transports / sizeof *transports)

const struct transport *
transport_find(const char *name)
{
    for (size_t i = 0; i < N_TRANSPORTS; i++)
        if (strcmp(transports[i].name, name) == 0)
            return &transports[i];
    return NULL;
}

const struct transport *
transport_at(size_t i)
{
    return i < N_TRANSPORTS ? &transports[i] : NULL;
}
