#include "value.h"

#include <stddef.h>

#define IN(kind) (1u << SECTION_##kind)
#define SUBJECTS (IN(VEHICLE) | IN(EQUIPMENT) | IN(DRIVER))
#define HOLDERS (SUBJECTS | IN(TYPE))

#define AT(object, member) offsetof(struct object, member)

#define SPAN_FORM "N days|weeks|months|years"
#define INTERVAL_FORM "INTERVAL [or INTERVAL]"
#define DAY_FORM "YYYY-MM-DD"
#define SCOPE_FORM "all, depot DEPOT, subject SUBJECT or job JOB"

/* The words of each choice stand in the order of its enum. */
static const char *const class_words[] = {
    "law", "recommendation", "maker", "own", NULL};
static const char *const ends_words[] = {
    "same day", "day before", "month end", "week end", NULL};
static const char *const month_end_words[] = {"clamp", "sticky", NULL};
static const char *const runs_words[] = {
    "completion", "deadline", "keeping the date", NULL};
static const char *const opens_words[] = {
    "safer", "day after", "same day", NULL};
static const char *const late_words[] = {"restarts", "keeps the date", NULL};
static const char *const road_words[] = {"runs on", "waits", NULL};
static const char *const roll_words[] = {
    "preceding", "following", "nearest", NULL};
static const char *const forecast_words[] = {"early", "likely", "late", NULL};
static const char *const unit_words[] = {"km", "miles", NULL};
/* After ORIGIN_NONE, which nobody writes. */
static const char *const origin_words[] = {
    "", "registered", "built", "in-service", "earliest", NULL};

#define CLASS_FORM "law, recommendation, maker or own"
#define ENDS_FORM "same day, day before, month end or week end"
#define ORIGIN_FORM "registered, built, in-service or earliest"

#define PLAIN(sections, required, word, read, offset, form)                    \
    {                                                                          \
        word, sections, required, PART_WHOLE, read, offset, form, NULL         \
    }
#define RULE(word, read, offset, form)                                         \
    {                                                                          \
        word, IN(JOB), 0, PART_RULE, read, offset, form, NULL                  \
    }
#define RULE_CHOICE(word, member, words, form)                                 \
    {                                                                          \
        word, IN(JOB), 0, PART_RULE, value_choice, AT(rule, member), form,     \
            words                                                              \
    }
#define BASELINE(word, read, member, form)                                     \
    {                                                                          \
        word, 0, 0, PART_BASELINE, read, AT(baseline, member), form, NULL      \
    }

const struct key key_table[] = {
    PLAIN(IN(SITE), IN(SITE), "name", value_text, AT(site, name), "TEXT"),
    PLAIN(IN(SITE), IN(SITE), "time-zone", value_zone, AT(site, time_zone),
        "ZONE"),
    PLAIN(IN(SITE), IN(SITE), "ledger", value_path, AT(site, ledger), "PATH"),
    PLAIN(IN(SITE), 0, "include", value_nothing, 0, "PATTERN..."),
    PLAIN(IN(SITE), 0, "presets", value_nothing, 0, "PATTERN..."),
    PLAIN(
        IN(SITE), 0, "feed-folder", value_path, AT(site, feed_folder), "PATH"),

    PLAIN(IN(MAIL), IN(MAIL), "from", value_address, AT(mail_settings, from),
        "ADDRESS"),
    PLAIN(IN(MAIL), 0, "reply-to", value_address, AT(mail_settings, reply_to),
        "ADDRESS"),
    PLAIN(IN(MAIL), IN(MAIL), "by", value_transport, 0, "TRANSPORT PATH"),

    PLAIN(IN(HOLIDAYS), 0, "day", value_rules, 0,
        "RULE [, substitute] [, NAME], one a line"),
    PLAIN(
        IN(HOLIDAYS), 0, "add", value_added, 0, "YYYY-MM-DD NAME, one a line"),
    PLAIN(IN(HOLIDAYS), 0, "remove", value_removed, 0, "YYYY-MM-DD..."),
    PLAIN(IN(HOLIDAYS), 0, "file", value_holiday_file, 0, "PATH"),
    PLAIN(IN(HOLIDAYS), 0, "known-until", value_day,
        AT(holidays, set.known_until), DAY_FORM),

    PLAIN(IN(CALENDAR), 0, "title", value_text, AT(calendar, title), "TEXT"),
    PLAIN(IN(CALENDAR), IN(CALENDAR), "works", value_works,
        AT(calendar, plan.works), "WEEKDAY... or none"),
    PLAIN(IN(CALENDAR), 0, "holidays", value_holidays, 0, "HOLIDAYS..."),
    PLAIN(IN(CALENDAR), 0, "closed", value_closed, 0,
        "YYYY-MM-DD[..YYYY-MM-DD] NAME, one a line"),
    PLAIN(IN(CALENDAR), 0, "open", value_open, 0, "YYYY-MM-DD..."),

    PLAIN(IN(DEPOT), 0, "title", value_text, AT(depot, title), "TEXT"),
    PLAIN(IN(DEPOT), IN(DEPOT), "calendar", value_calendar, 0, "CALENDAR"),
    PLAIN(IN(DEPOT), 0, "time-zone", value_zone, AT(depot, time_zone), "ZONE"),

    PLAIN(IN(JOB), IN(JOB), "title", value_text, AT(job, title), "TEXT"),
    {"class", IN(JOB), IN(JOB), PART_WHOLE, value_choice, AT(job, class),
        CLASS_FORM, class_words},
    PLAIN(IN(JOB), 0, "authority", value_text, AT(job, authority), "TEXT"),
    PLAIN(IN(JOB), 0, "source", value_text, AT(job, source), "TEXT"),
    PLAIN(IN(JOB), 0, "caution", value_text, AT(job, caution), "TEXT"),
    PLAIN(IN(JOB), 0, "covers", value_covers, 0, "JOB..."),
    PLAIN(IN(JOB), 0, "follows", value_follows, 0, "JOB..."),
    PLAIN(IN(JOB), 0, "also-counts", value_also_counts, 0, "N JOB"),
    RULE("every", value_every, 0, INTERVAL_FORM),
    RULE("within", value_every, 0, INTERVAL_FORM),
    RULE_CHOICE("ends", ends, ends_words, ENDS_FORM),
    RULE_CHOICE("first-ends", first_ends, ends_words, ENDS_FORM),
    RULE_CHOICE("month-end", month_end, month_end_words, "clamp or sticky"),
    RULE_CHOICE("runs-from", runs_from, runs_words,
        "completion, deadline or keeping the date"),
    RULE("window", value_any_span, AT(rule, window), SPAN_FORM),
    RULE_CHOICE("window-opens", window_opens, opens_words,
        "safer, day after or same day"),
    RULE_CHOICE("late", late, late_words, "restarts or keeps the date"),
    RULE("shortest", value_any_span, AT(rule, shortest), SPAN_FORM),
    RULE("first", value_first, 0,
        "SPAN from registered|built|in-service|earliest, or on DAY"),
    RULE("from-age", value_ages, 0, "SPAN: SPAN"),
    RULE_CHOICE("age-from", age_from, origin_words, ORIGIN_FORM),
    RULE_CHOICE("off-road", off_road, road_words, "runs on or waits"),
    RULE("calendar", value_place, 0, "CALENDAR"),
    RULE_CHOICE("roll", roll, roll_words, "preceding, following or nearest"),
    RULE_CHOICE("forecast", forecast, forecast_words, "early, likely or late"),
    RULE("reading-within", value_any_span, AT(rule, reading_within), SPAN_FORM),
    RULE("lead", value_lead, 0, "N working days, or " SPAN_FORM),
    RULE("remind", value_reminders, 0, "SPAN..., overdue every SPAN"),
    BASELINE("last", value_day, last, DAY_FORM),
    BASELINE("last-reading", value_count, last_reading, "N"),
    BASELINE("deadline", value_day, deadline, DAY_FORM),

    PLAIN(HOLDERS, 0, "title", value_text, AT(holder, subject.title), "TEXT"),
    PLAIN(SUBJECTS, 0, "type", value_nothing, 0, "TYPE"),
    PLAIN(SUBJECTS, 0, "registered", value_day, AT(holder, subject.registered),
        DAY_FORM),
    PLAIN(SUBJECTS, 0, "built", value_day, AT(holder, subject.built), DAY_FORM),
    PLAIN(SUBJECTS, 0, "in-service", value_day, AT(holder, subject.in_service),
        DAY_FORM),
    PLAIN(HOLDERS, 0, "depot", value_depot, 0, "DEPOT"),
    PLAIN(
        IN(EQUIPMENT) | IN(TYPE), 0, "carried-by", value_carrier, 0, "VEHICLE"),
    {"distance-unit", HOLDERS, 0, PART_WHOLE, value_choice,
        AT(holder, subject.unit), "km or miles", unit_words},
    PLAIN(HOLDERS, 0, "yearly-distance", value_yearly, 0, "N km|miles"),
    PLAIN(HOLDERS, 0, "yearly-hours", value_hours,
        AT(holder, subject.yearly_hours), "N"),
    PLAIN(HOLDERS, 0, "jobs", value_jobs, 0, "JOB..."),

    PLAIN(IN(PERSON), 0, "name", value_text, AT(person, name), "TEXT"),
    PLAIN(IN(PERSON), IN(PERSON), "mail", value_address, AT(person, mail),
        "ADDRESS"),
    PLAIN(IN(PERSON), IN(PERSON), "told", value_told, 0, SCOPE_FORM),
    PLAIN(IN(PERSON), 0, "stages", value_stages, 0, "SPAN onward"),
    PLAIN(
        IN(PERSON), 0, "days", value_weekdays, AT(person, days), "WEEKDAY..."),

    PLAIN(IN(FEED), 0, "title", value_text, AT(feed, title), "TEXT"),
    PLAIN(IN(FEED), IN(FEED), "shows", value_shows, 0, SCOPE_FORM),
    PLAIN(IN(FEED), 0, "horizon", value_span, AT(feed, horizon), SPAN_FORM),
};

const size_t key_table_size = sizeof key_table / sizeof key_table[0];
