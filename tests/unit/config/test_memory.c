/*
 * Memory that runs out while a recurrence rule or a holiday file is read:
 * either the fleet is refused, or its days are the ones that it has otherwise.
 * libical says of no failure whether memory was out, and reads on.
 */
#include "out_of_memory.h"
#include "recur.h"
#include "test.h"
#include "try.h"
#include "work_calendar.h"

#if OWN_MALLOC
#include <signal.h>
#include <sys/wait.h>

/* Two calendars in a file, texts folded and escaped, an event of two days, one
 * that is cancelled: what libical has a list or a string of its own for. */
static const char holidays_ics[] =
    "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Skerrow//EN\r\n"
    "BEGIN:VEVENT\r\nUID:1@skerrow.example\r\nDTSTART;VALUE=DATE:20261225\r\n"
    "DTEND;VALUE=DATE:20261227\r\nSUMMARY;LANGUAGE=en:Christmas\\, and the day "
    "\r\n"
    " after it\r\nEND:VEVENT\r\n"
    "BEGIN:VEVENT\r\nUID:2@skerrow.example\r\nDTSTART;VALUE=DATE:20270615\r\n"
    "DURATION:P1D\r\nSUMMARY:Regatta\r\nEND:VEVENT\r\n"
    "BEGIN:VEVENT\r\nUID:3@skerrow.example\r\nSTATUS:CANCELLED\r\n"
    "DTSTART;VALUE=DATE:20270616\r\nSUMMARY:No regatta\r\nEND:VEVENT\r\n"
    "END:VCALENDAR\r\n"
    "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Skerrow//EN\r\n"
    "BEGIN:VEVENT\r\nUID:4@skerrow.example\r\nDTSTART;VALUE=DATE:20260826\r\n"
    "SUMMARY:Lifeboat day\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n";

static const char fleet_conf[] =
    "[site]\nname = Skerrow Isles Transport\ntime-zone = Europe/London\n"
    "ledger = ledger.db\n"
    "[holidays skerrow]\nfile = holidays.ics\n"
    "[calendar workshop]\nworks = mon tue wed thu fri sat sun\n"
    "holidays = skerrow\n"
    "[depot harbour]\ncalendar = workshop\n"
    "[job check]\ntitle = Check\nclass = own\n"
    "every = rule RSCALE=GREGORIAN;FREQ=MONTHLY;BYMONTHDAY=31;SKIP=BACKWARD "
    "from 2026-01-31 or "
    "rule FREQ=YEARLY;BYMONTH=4,10;BYDAY=2TU,-1FR;UNTIL=20281231;WKST=SU "
    "from 2026-04-14\n"
    "first = on 2026-01-31\n"
    "[vehicle K7]\ndepot = harbour\njobs = check\n";

#define FROM "2026-01-01"
#define DAYS 1096 /* to the end of 2028 */

/* Of each day whether it is closed, and whether it is one of each rule. */
struct days {
    unsigned char closed[DAYS];
    unsigned char rules[2][DAYS];
    day_t known_until;
};

static struct days
days_of(const struct fleet *f)
{
    struct days out = {
        .known_until = work_calendar_known_until(f->depots[0].calendar)};
    day_t from = day_parse(FROM, strlen(FROM));
    const struct rule *rule = f->tasks[0].rule;

    assert_int_equal(rule->n_every, 2);
    for (int i = 0; i < DAYS; i++) {
        out.closed[i] = !work_calendar_is_open(f->depots[0].calendar, from + i);
        for (int k = 0; k < 2; k++)
            out.rules[k][i] =
                recur_from(rule->every[k].recur, from + i) == from + i;
    }
    return out;
}

static int
count(const unsigned char days[DAYS])
{
    int n = 0;

    for (int i = 0; i < DAYS; i++)
        n += days[i];
    return n;
}

enum { SAME, REFUSED, OTHERS, ALL_GIVEN, OUTCOMES };

/* Read with the allocation @n, counted from 0, failing: what comes of it. */
static int
outcome_of(long n, const struct days *right)
{
    struct problems *ps = problems_new();

    left = n;
    struct config *c = config_read("fleet.conf", &try_options, ps);
    int all_given = left >= 0;
    left = -1;
    if (c == NULL)
        return problems_count(ps, PROBLEM_ERROR) > 0 ? REFUSED : OTHERS;
    struct days got = days_of(config_fleet(c));
    if (memcmp(&got, right, sizeof got) != 0)
        return OTHERS;
    return all_given ? ALL_GIVEN : SAME;
}

/* The same in a process of its own: libical goes on with what it was not given,
 * and a signal that ends the program is no wrong day. */
static int
outcome_apart(long n, const struct days *right)
{
    int status;
    pid_t child = fork();

    assert_true(child >= 0);
    if (child == 0) {
        signal(SIGSEGV, SIG_DFL); /* cmocka has its own */
        signal(SIGABRT, SIG_DFL);
        _exit(outcome_of(n, right));
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    return WIFEXITED(status) ? WEXITSTATUS(status) : REFUSED;
}

static void
no_day_is_lost(void **state)
{
    int outcomes[OUTCOMES] = {0};
    long n = 0;

    (void)state;
    try_write("holidays.ics", holidays_ics);
    try_write("fleet.conf", fleet_conf);
    struct config *c = try_good("fleet.conf");
    struct days right = days_of(config_fleet(c));
    config_free(c);
    /* Christmas and the day after, the regatta, Lifeboat day; the last of each
     * of 36 months; from the first one on, the second Tuesday and the last
     * Friday of April and October of three years. */
    assert_int_equal(count(right.closed), 4);
    assert_int_equal(count(right.rules[0]), 36);
    assert_int_equal(count(right.rules[1]), 12);
    while (outcomes[ALL_GIVEN] == 0) {
        int outcome = outcome_apart(n, &right);
        if (outcome == OTHERS)
            print_message(
                "allocation %ld failed, and the days are others\n", n);
        outcomes[outcome]++;
        n++;
    }
    assert_int_equal(outcomes[OTHERS], 0);
    assert_true(outcomes[REFUSED] > n / 2);
}

#else
static void
no_day_is_lost(void **state)
{
    (void)state;
}
#endif

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_day_is_lost),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
