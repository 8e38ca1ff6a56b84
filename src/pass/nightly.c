#include "nightly.h"

#include "publish.h"
#include "remind.h"

static int
remind(const struct pass *p, struct fault *f)
{
    struct snapshot *s = pass_snapshot(p, DAY_NONE, f);
    int rc = s ? remind_all(p, s, f) : -1;

    snapshot_free(s);
    return rc;
}

int
nightly_run(const struct pass *p, struct fault *f)
{
    int rc = publish_all(p, f);

    if (remind(p, rc ? NULL : f))
        rc = -1;
    if (remind_send(p, rc ? NULL : f))
        rc = -1;
    return rc;
}
