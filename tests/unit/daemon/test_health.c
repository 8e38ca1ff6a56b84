/* What /health says of how things stand. */
#include "health.h"
#include "resource.h"
#include "test.h"

static const struct health well = {.passed = 1796169600,
    .pass = 1,
    .fleet = 1,
    .feeds = 1,
    .reminders = 1,
    .sending = 1};

static unsigned
status_of(struct health h)
{
    struct resource *r = health_page(&h);

    assert_non_null(r);
    unsigned status = resource_status(r);
    resource_drop(r);
    return status;
}

static void
all_is_well(void **state)
{
    struct health h = well;

    (void)state;
    assert_int_equal(status_of(h), 200);
    /* Mail that waits for its next try needs nobody yet. */
    h.waiting = 3;
    assert_int_equal(status_of(h), 200);
}

/* A monitor has to hear of each by itself. */
static void
each_trouble_alone_is_told(void **state)
{
    struct health pass = well;
    struct health fleet = well;
    struct health feeds = well;
    struct health reminders = well;
    struct health sending = well;
    struct health given_up = well;

    (void)state;
    pass.pass = fleet.fleet = feeds.feeds = reminders.reminders = 0;
    sending.sending = 0;
    given_up.given_up = 1;
    assert_int_equal(status_of(pass), 503);
    assert_int_equal(status_of(fleet), 503);
    assert_int_equal(status_of(feeds), 503);
    assert_int_equal(status_of(reminders), 503);
    assert_int_equal(status_of(sending), 503);
    assert_int_equal(status_of(given_up), 503);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_is_well),
        cmocka_unit_test(each_trouble_alone_is_told),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
