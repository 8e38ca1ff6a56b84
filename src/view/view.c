#include "view.h"

#include <string.h>

static const struct view *const views[] = {
    &view_list, /* for a terminal */
    &view_why,  /* every reason, for reading */
    &view_json, /* the contract for other programs */
    &view_csv,  /* for a spreadsheet */
};

const struct view *
view_find(const char *name)
{
    for (size_t i = 0; i < sizeof views / sizeof views[0]; i++)
        if (strcmp(views[i]->name, name) == 0)
            return views[i];
    return NULL;
}
