/* The plan to pin up: how many sheets, the same bytes, and what is drawn as
 * text.  What the sheets say in full is read back by tests/scenarios. */
#include "fleet_plan_fixture.h"
#include "poster.h"
#include "test.h"

static struct job *
one_job(struct shop *s)
{
    struct job *j = world_loose_job(s->w, "safety-check", "12 weeks");

    shop_has(s, s->k7, j, "2025-12-29");
    return j;
}

static struct buf *
pdf_of(struct shop *s)
{
    struct poster *p = poster_new(shop_plan(s));
    struct buf *out = buf_new();

    s->w->fleet.site.name = "Skerrow Isles";
    assert_non_null(p);
    assert_int_equal(poster_pdf(p, out), 0);
    poster_free(p);
    return out;
}

static void
the_same_plan_gives_the_same_bytes(void **state)
{
    struct shop *s = *state;

    one_job(s);
    struct buf *a = pdf_of(s);
    struct buf *b = pdf_of(s);
    assert_int_equal(buf_len(a), buf_len(b));
    assert_memory_equal(buf_str(a), buf_str(b), buf_len(a));
    assert_memory_equal(buf_str(a), "%PDF-", 5);
    buf_free(a);
    buf_free(b);
}

static void
a_small_fleet_is_one_sheet(void **state)
{
    struct shop *s = *state;

    one_job(s);
    struct poster *p = poster_new(shop_plan(s));
    assert_int_equal(poster_sheets(p), 1);
    poster_free(p);
}

static void
a_plan_of_nothing_is_still_a_sheet(void **state)
{
    struct shop *s = *state;
    struct poster *p = poster_new(shop_plan(s));
    struct buf *out = buf_new();

    assert_int_equal(poster_sheets(p), 1);
    assert_int_equal(poster_svg(p, 0, out), 0);
    assert_non_null(strstr(buf_str(out), "</svg>"));
    buf_free(out);
    poster_free(p);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        SHOP_TEST(the_same_plan_gives_the_same_bytes),
        SHOP_TEST(a_small_fleet_is_one_sheet),
        SHOP_TEST(a_plan_of_nothing_is_still_a_sheet),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
