#ifndef MODEL_H
#define MODEL_H

#include "rate.h"

/* What the readings of one meter come to. */
struct model {
    struct screened readings;
    struct reading newest; /* of these; its day is DAY_NONE for none */
    struct seasonality seasonality;
    struct effective_days effective;
    struct rate rate; /* as stated when the readings tell none */
    enum forecast_basis basis;
};

/* Work it out for who asks of @asked; it points to itself and to @u. */
void model_make(struct model *m, const struct usage *u, day_t asked);

#endif
