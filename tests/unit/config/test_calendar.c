/* Holidays and calendars: each value with what is said when it is wrong. */
#include "config/try.h"

#define F "fleet.conf:"

#define NOT_A_DAY                                                              \
    " is not a day; expected YYYY-MM-DD from 1900-01-01 to 2199-12-31\n"

#define NOT_A_RULE                                                             \
    " is not a yearly holiday; expected D MONTH, "                             \
    "first|second|third|fourth|fifth|last WEEKDAY of MONTH, or easter "        \
    "+N|-N\n"

static void
holidays(void **state)
{
    static const struct try_case cases[] = {
        {"[holidays h]\nday =\n 29 feb\n easter\n easter +250\n fifth sun of "
         "may, Substitute\n",
            ""},
        {"[holidays h]\nday =\n 30 feb\n 1 jan 2026\n sixth mon of may\n first "
         "mon in may\n last may\n easter 1\n easter +251\n easter monday\n",
            F "3: error: 'day': '30 feb'" NOT_A_RULE F
              "4: error: 'day': '1 jan 2026'" NOT_A_RULE F
              "5: error: 'day': 'sixth mon of may'" NOT_A_RULE F
              "6: error: 'day': 'first mon in may'" NOT_A_RULE F
              "7: error: 'day': 'last may'" NOT_A_RULE F
              "8: error: 'day': 'easter 1'" NOT_A_RULE F
              "9: error: 'day': 'easter +251'" NOT_A_RULE F
              "10: error: 'day': 'easter monday'" NOT_A_RULE},
        /* A calendar is made without the rule that was refused. */
        {"[calendar c]\nworks = mon\nholidays = h\n[holidays h]\nday = last "
         "mon "
         "of mai\n",
            F "5: error: 'day': 'last mon of mai'" NOT_A_RULE},
        {"[holidays h]\nadd =\n 2026-06-15\n 2026-06-31 Fair\n",
            F "3: error: 'add': '2026-06-15' is not a day added; expected "
              "YYYY-MM-DD NAME, one a line\n" F
              "4: error: 'add': '2026-06-31 Fair' is not a day added; "
              "expected YYYY-MM-DD NAME, one a line\n"},
        {"[holidays h]\nday = 1 jan\nremove = 2026-01-01 2026-13-01\n",
            F "3: error: 'remove': '2026-13-01'" NOT_A_DAY},
        {"[holidays h]\nknown-until = 2030-12-31\n",
            F "1: warning: [holidays h] has no day; add 'day', 'add' or "
              "'file'\n"},
        {"[holidays h]\nfile = none.ics\n",
            F "2: error: 'file': none.ics cannot be read: No such file or "
              "directory\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

#define NOT_A_CLOSURE                                                          \
    " is not a closure; expected YYYY-MM-DD NAME or YYYY-MM-DD..YYYY-MM-DD "   \
    "NAME, one a line\n"

static void
calendars(void **state)
{
    static const struct try_case cases[] = {
        {"[calendar c]\ntitle = C\n",
            F "1: error: [calendar c] has no 'works'; add works = WEEKDAY... "
              "or none\n"},
        {"[calendar c]\nworks = monday-friday\n",
            F "2: error: 'works': 'monday-friday' is not a weekday; expected "
              "mon, tue, wed, thu, fri, sat or sun\n"},
        {"[calendar c]\nworks = none\n",
            F "1: error: [calendar c] never works; name a weekday in 'works' "
              "or a day in 'open'\n"},
        {"[calendar c]\nworks = none\nopen = 2026-05-05\n", ""},
        {"[calendar c]\nworks = mon\nopen = 2026-05-05, may\n",
            F "3: error: 'open': 'may'" NOT_A_DAY},
        {"[calendar c]\nworks = mon\nholidays = skerow\n[holidays skerrow]\n"
         "day = 1 jan\n",
            F "3: error: 'holidays': there is no holidays 'skerow'; did you "
              "mean 'skerrow'?\n"},
        {"[calendar c]\nworks = mon\nclosed =\n 2026-01-02\n 2026-01-02.. X\n "
         "2026-1-2..2026-01-03 X\n 2026-01-02...2026-01-03 X\n",
            F "4: error: 'closed': '2026-01-02'" NOT_A_CLOSURE F
              "5: error: 'closed': '2026-01-02.. X'" NOT_A_CLOSURE F
              "6: error: 'closed': '2026-1-2..2026-01-03 X'" NOT_A_CLOSURE F
              "7: error: 'closed': '2026-01-02...2026-01-03 X'" NOT_A_CLOSURE},
        {"[calendar c]\nworks = mon\nclosed = 2026-02-01..2026-01-31 X\n",
            F "3: error: 'closed': '2026-02-01..2026-01-31 X' ends before it "
              "begins\n"},
        {"[calendar c]\nworks = mon\nclosed = 2026-01-01..2126-01-01 X\n",
            F "3: error: 'closed': '2026-01-01..2126-01-01 X' is longer than "
              "ten years; correct it or write several\n"},
        {"[depot d]\ncalendar = wrkshop\n",
            F "2: error: 'calendar': there is no calendar 'wrkshop'; did you "
              "mean 'workshop'?\n"},
        {"[depot d]\n",
            F "1: error: [depot d] has no 'calendar'; add calendar = "
              "CALENDAR\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

/* Sixty-five days in one year, of which a set may have sixty-four. */
static void
too_many_holidays(void **state)
{
    char text[4096] = "[holidays h]\nday = 25 dec\nadd =\n";

    (void)state;
    for (int i = 0; i < 63; i++)
        snprintf(text + strlen(text), sizeof text - strlen(text),
            " 2026-%02d-%02d X\n", i / 28 + 1, i % 28 + 1);
    try_case(&(struct try_case){text, ""});
    strcat(text, " 2026-11-30 X\n");
    try_case(&(struct try_case){text,
        F "1: error: [holidays h] has 65 days in 2026; expected at most "
          "64 a year\n"});
}

#define ICS(events) "BEGIN:VCALENDAR\nVERSION:2.0\n" events "END:VCALENDAR\n"
#define EVENT(lines) "BEGIN:VEVENT\nUID:1\n" lines "END:VEVENT\n"

#define GOOD ICS(EVENT("DTSTART;VALUE=DATE:20260101\nSUMMARY:X\n"))

static void
published(void **state)
{
    static const struct {
        const char *file;
        const char *problem;
    } cases[] = {
        {ICS(EVENT("DTSTART;VALUE=DATE:20260101\nSUMMARY:New year\n")), ""},
        {ICS(EVENT("DTSTART;VALUE=DATE:20260101\n")), ""},
        {"", F "2: error: 'file': h.ics is not an iCalendar file; fetch it "
               "again or take it out\n"},
        {"\xef\xbb\xbf" GOOD, ""},
        /* A second calendar that is cut short would be lost without a word. */
        {GOOD "BEGIN:VCALENDAR\nBEGIN:VEVENT\nDTSTART;VALUE=DATE:2026",
            F "2: error: 'file': h.ics is not an iCalendar file; fetch it "
              "again or take it out\n"},
        {GOOD "END:VCALENDAR\nBEGIN:VCALENDAR\n",
            F "2: error: 'file': h.ics is not an iCalendar file; fetch it "
              "again or take it out\n"},
        {"<html>Not found</html>\n",
            F "2: error: 'file': h.ics is not an iCalendar file; fetch it "
              "again or take it out\n"},
        {ICS(""), F "2: error: 'file': h.ics has no all-day event; is it the "
                    "right file?\n"},
        {ICS(EVENT("DTSTART:20260101T090000Z\nSUMMARY:Tea\n")),
            F "2: warning: 'file': h.ics: the event 'Tea' is not all day and "
              "is left out\n" F
              "2: error: 'file': h.ics has no all-day event; is it the right "
              "file?\n"},
        {ICS(EVENT("DTSTART;VALUE=DATE:20260101\nSUMMARY:X\n"
                   "RRULE:FREQ=YEARLY\n")),
            F "2: error: 'file': h.ics: the event 'X' repeats, which is not "
              "read here; write it as a 'day' rule\n"},
        {ICS(EVENT("DTSTART;VALUE=DATE:20260231\nSUMMARY:X\n")),
            F "2: error: 'file': h.ics: the event 'X' has no day from "
              "1900-01-01 to 2199-12-31\n"},
        {ICS(EVENT("SUMMARY:X\n")),
            F "2: error: 'file': h.ics: the event 'X' has no day from "
              "1900-01-01 to 2199-12-31\n"},
        {ICS(EVENT("DTSTART;VALUE=DATE:20260105\nSUMMARY:X\n"
                   "DTEND;VALUE=DATE:20260101\n")),
            F "2: error: 'file': h.ics: the event 'X' does not end within a "
              "year after it begins\n"},
        {ICS(EVENT("DTSTART;VALUE=DATE:20260105\nSUMMARY:X\n"
                   "DTEND;VALUE=DATE:tomorrow\n")),
            F "2: error: 'file': h.ics: the event 'X' has a line that cannot "
              "be read\n"},
        {ICS(EVENT("DTSTART;VALUE=DATE:20260105\nSUMMARY:caf\xe9\n")),
            F "2: error: 'file': h.ics: an event on 2026-01-05 has a name "
              "that is not UTF-8 text\n"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        try_write("h.ics", cases[i].file);
        try_case(&(struct try_case){
            "[holidays h]\nfile = h.ics\n", cases[i].problem});
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(holidays),
        cmocka_unit_test(calendars),
        cmocka_unit_test(too_many_holidays),
        cmocka_unit_test(published),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
