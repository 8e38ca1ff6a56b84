#include "show.h"
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
#define SHOWS_FORM "all, depot DEPOT, subject SUBJECT, job JOB or person PERSON"

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
static const char *const urgent_words[] = {"never", "law overdue", NULL};
static const char *const unit_words[] = {"km", "miles", NULL};
static const char *const form_words[] = {"events", "to-dos", NULL};
/* After SERVER_TLS_USUAL, which is to write nothing. */
static const char *const tls_words[] = {
    "", "starttls", "implicit", "none", NULL};
static const char *const switch_words[] = {"off", "on", NULL};
static const char *const yes_words[] = {"no", "yes", NULL};
/* After ORIGIN_NONE, which nobody writes. */
static const char *const origin_words[] = {
    "", "registered", "built", "in-service", "earliest", NULL};

#define CLASS_FORM "law, recommendation, maker or own"
#define ENDS_FORM "same day, day before, month end or week end"
#define ORIGIN_FORM "registered, built, in-service or earliest"

/* How a value is read, and how it is shown. */
#define SORT(read, show) value_##read, show_##show

#define PLAIN(sections, required, word, sort, offset, form)                    \
    {                                                                          \
        word, sections, required, PART_WHOLE, sort, offset, form, NULL         \
    }
#define RULE(word, sort, offset, form)                                         \
    {                                                                          \
        word, IN(JOB), 0, PART_RULE, sort, offset, form, NULL                  \
    }
#define RULE_CHOICE(word, member, words, form)                                 \
    {                                                                          \
        word, IN(JOB), 0, PART_RULE, SORT(choice, choice), AT(rule, member),   \
            form, words                                                        \
    }
#define BASELINE(word, sort, member, form)                                     \
    {                                                                          \
        word, 0, 0, PART_BASELINE, sort, AT(baseline, member), form, NULL      \
    }

const struct key key_table[] = {
    PLAIN(IN(SITE), IN(SITE), "name", SORT(text, text), AT(site, name), "TEXT"),
    PLAIN(IN(SITE), IN(SITE), "time-zone", SORT(zone, text),
        AT(site, time_zone), "ZONE"),
    PLAIN(IN(SITE), IN(SITE), "ledger", SORT(path, text), AT(site, ledger),
        "PATH"),
    PLAIN(IN(SITE), 0, "include", SORT(nothing, written), 0, "PATTERN..."),
    PLAIN(IN(SITE), 0, "presets", SORT(nothing, written), 0, "PATTERN..."),
    PLAIN(IN(SITE), 0, "feed-folder", SORT(path, text), AT(site, feed_folder),
        "PATH"),
    PLAIN(IN(SITE), 0, "calm", SORT(calm, span), AT(site, calm), SPAN_FORM),
    PLAIN(IN(SITE), 0, "page-url", SORT(url, text), AT(site, page_url),
        "https://HOST/..."),

    {"planner", IN(SITE), 0, PART_WHOLE, SORT(choice, choice),
        AT(site, planner), "on or off", switch_words},
    PLAIN(IN(SITE), 0, "plan-ahead", SORT(span, span), AT(site, plan_ahead),
        SPAN_FORM),

    PLAIN(IN(MAIL), IN(MAIL), "from", SORT(address, text),
        AT(mail_settings, from), "ADDRESS"),
    PLAIN(IN(MAIL), 0, "reply-to", SORT(address, text),
        AT(mail_settings, reply_to), "ADDRESS"),
    PLAIN(IN(MAIL), 0, "keeper", SORT(address, text), AT(mail_settings, keeper),
        "ADDRESS"),
    PLAIN(IN(MAIL), IN(MAIL), "by", SORT(transport, transport), 0,
        "folder PATH, sendmail PROGRAM or smtp HOST[:PORT]"),
    {"tls", IN(MAIL), 0, PART_WHOLE, SORT(choice, choice),
        AT(mail_settings, tls), "starttls, implicit or none", tls_words},
    PLAIN(IN(MAIL), 0, "login", SORT(text, text), AT(mail_settings, login),
        "NAME"),
    PLAIN(IN(MAIL), 0, "password-file", SORT(secret, text),
        AT(mail_settings, password_file), "PATH"),
    PLAIN(IN(MAIL), 0, "ca-file", SORT(path, text), AT(mail_settings, ca_file),
        "PATH"),
    PLAIN(
        IN(MAIL), 0, "ehlo", SORT(host, text), AT(mail_settings, ehlo), "NAME"),
    PLAIN(IN(MAIL), 0, "timeout", SORT(wait, wait), AT(mail_settings, timeout),
        "N seconds|minutes"),

    PLAIN(IN(SERVER), 0, "listen", SORT(listen, text),
        AT(server_settings, listen), "ADDRESS:PORT or unix:/PATH"),
    PLAIN(IN(SERVER), 0, "proxies", SORT(proxies, written),
        AT(server_settings, proxies), "ADDRESS... or unix"),
    PLAIN(IN(SERVER), 0, "remind-at", SORT(minute, minute),
        AT(server_settings, remind_at), "HH:MM"),

    PLAIN(IN(HOLIDAYS), 0, "day", SORT(rules, rules), 0,
        "RULE [, substitute] [, NAME], one a line"),
    PLAIN(IN(HOLIDAYS), 0, "add", SORT(added, added), 0,
        "YYYY-MM-DD NAME, one a line"),
    PLAIN(
        IN(HOLIDAYS), 0, "remove", SORT(removed, removed), 0, "YYYY-MM-DD..."),
    PLAIN(IN(HOLIDAYS), 0, "file", SORT(holiday_file, published), 0, "PATH"),
    PLAIN(IN(HOLIDAYS), 0, "known-until", SORT(day, day),
        AT(holidays, set.known_until), DAY_FORM),

    PLAIN(IN(CALENDAR), 0, "title", SORT(text, text), AT(calendar, title),
        "TEXT"),
    PLAIN(IN(CALENDAR), IN(CALENDAR), "works", SORT(works, weekdays),
        AT(calendar, plan.works), "WEEKDAY... or none"),
    PLAIN(IN(CALENDAR), 0, "holidays", SORT(holidays, holidays), 0,
        "HOLIDAYS... or none"),
    PLAIN(IN(CALENDAR), 0, "closed", SORT(closed, closed), 0,
        "YYYY-MM-DD[..YYYY-MM-DD] NAME, one a line"),
    PLAIN(IN(CALENDAR), 0, "open", SORT(open, open), 0, "YYYY-MM-DD..."),

    PLAIN(IN(CALENDAR), 0, "vehicles-a-day", SORT(few, few),
        AT(calendar, vehicles), "N"),
    PLAIN(IN(CALENDAR), 0, "hours-a-day", SORT(hours_a_day, room),
        AT(calendar, minutes), "HOURS"),

    PLAIN(IN(DEPOT), 0, "title", SORT(text, text), AT(depot, title), "TEXT"),
    PLAIN(IN(DEPOT), IN(DEPOT), "calendar", SORT(calendar, calendar),
        AT(depot, calendar), "CALENDAR"),
    PLAIN(IN(DEPOT), 0, "time-zone", SORT(zone, text), AT(depot, time_zone),
        "ZONE"),

    PLAIN(IN(JOB), IN(JOB), "title", SORT(text, text), AT(job, title), "TEXT"),
    {"class", IN(JOB), IN(JOB), PART_WHOLE, SORT(choice, choice),
        AT(job, class), CLASS_FORM, class_words},
    PLAIN(
        IN(JOB), 0, "authority", SORT(text, text), AT(job, authority), "TEXT"),
    PLAIN(IN(JOB), 0, "source", SORT(text, text), AT(job, source), "TEXT"),
    PLAIN(IN(JOB), 0, "caution", SORT(text, text), AT(job, caution), "TEXT"),
    PLAIN(IN(JOB), 0, "covers", SORT(covers, covers), 0, "JOB..."),
    PLAIN(IN(JOB), 0, "follows", SORT(follows, follows), 0, "JOB..."),
    PLAIN(
        IN(JOB), 0, "also-counts", SORT(also_counts, also_counts), 0, "N JOB"),
    RULE("every", SORT(every, every), 0, INTERVAL_FORM),
    RULE("within", SORT(every, every), 0, INTERVAL_FORM),
    RULE("at-most", SORT(at_most, at_most), 0, INTERVAL_FORM),
    RULE_CHOICE("ends", ends, ends_words, ENDS_FORM),
    RULE_CHOICE("first-ends", first_ends, ends_words, ENDS_FORM),
    RULE_CHOICE("month-end", month_end, month_end_words, "clamp or sticky"),
    RULE_CHOICE("runs-from", runs_from, runs_words,
        "completion, deadline or keeping the date"),
    RULE("window", SORT(any_span, span), AT(rule, window), SPAN_FORM),
    RULE_CHOICE("window-opens", window_opens, opens_words,
        "safer, day after or same day"),
    RULE_CHOICE("late", late, late_words, "restarts or keeps the date"),
    RULE("shortest", SORT(any_span, span), AT(rule, shortest), SPAN_FORM),
    RULE("first", SORT(first, first), 0,
        "SPAN from registered|built|in-service|earliest, or on DAY"),
    RULE_CHOICE("first-kept", first_kept, yes_words, "yes or no"),
    RULE("from-age", SORT(ages, ages), 0, "SPAN: SPAN"),
    RULE_CHOICE("age-from", age_from, origin_words, ORIGIN_FORM),
    RULE_CHOICE("off-road", off_road, road_words, "runs on or waits"),
    RULE("calendar", SORT(place, place), 0, "CALENDAR"),
    RULE_CHOICE("roll", roll, roll_words, "preceding, following or nearest"),
    RULE_CHOICE("forecast", forecast, forecast_words, "early, likely or late"),
    RULE("reading-within", SORT(any_span, span), AT(rule, reading_within),
        SPAN_FORM),
    RULE("lead", SORT(lead, lead), 0, "N working days, or " SPAN_FORM),
    RULE(
        "remind", SORT(reminders, reminders), 0, "SPAN..., overdue every SPAN"),
    RULE("takes", SORT(takes, minutes), AT(rule, takes),
        "N minutes, or HOURS hours"),
    RULE("early", SORT(span, early), AT(rule, early), SPAN_FORM),
    RULE_CHOICE("vehicle-stays", stays, yes_words, "yes or no"),
    BASELINE("last", SORT(day, day), last, DAY_FORM),
    BASELINE("last-reading", SORT(readings, readings), last,
        "N, or N km|miles, N hours"),
    BASELINE("deadline", SORT(day, day), deadline, DAY_FORM),

    PLAIN(HOLDERS, 0, "title", SORT(text, text), AT(holder, subject.title),
        "TEXT"),
    PLAIN(SUBJECTS, 0, "type", SORT(nothing, written), 0, "TYPE"),
    PLAIN(SUBJECTS, 0, "registered", SORT(day, day),
        AT(holder, subject.registered), DAY_FORM),
    PLAIN(SUBJECTS, 0, "built", SORT(day, day), AT(holder, subject.built),
        DAY_FORM),
    PLAIN(SUBJECTS, 0, "in-service", SORT(day, day),
        AT(holder, subject.in_service), DAY_FORM),
    PLAIN(HOLDERS, 0, "depot", SORT(depot, depot), 0, "DEPOT"),
    PLAIN(IN(EQUIPMENT) | IN(TYPE), 0, "carried-by", SORT(carrier, carrier), 0,
        "VEHICLE"),
    {"distance-unit", HOLDERS, 0, PART_WHOLE, SORT(choice, choice),
        AT(holder, subject.unit), "km or miles", unit_words},
    PLAIN(SUBJECTS, 0, "unit-since", SORT(day, day),
        AT(holder, subject.unit_since), DAY_FORM),
    PLAIN(HOLDERS, 0, "yearly-distance", SORT(yearly, yearly), 0, "N km|miles"),
    PLAIN(HOLDERS, 0, "yearly-hours", SORT(hours, count),
        AT(holder, subject.yearly_hours), "N"),
    PLAIN(HOLDERS, 0, "jobs", SORT(jobs, jobs), 0, "JOB..."),

    PLAIN(IN(PERSON), 0, "name", SORT(text, text), AT(person, name), "TEXT"),
    PLAIN(IN(PERSON), IN(PERSON), "mail", SORT(address, text), AT(person, mail),
        "ADDRESS"),
    PLAIN(IN(PERSON), IN(PERSON), "told", SORT(told, told), 0, SCOPE_FORM),
    PLAIN(IN(PERSON), 0, "stages", SORT(stages, stages), 0, "SPAN onward"),
    PLAIN(IN(PERSON), 0, "days", SORT(weekdays, weekdays), AT(person, days),
        "WEEKDAY..."),
    PLAIN(IN(PERSON), 0, "calendar", SORT(calendar, calendar),
        AT(person, calendar), "CALENDAR"),
    {"urgent", IN(PERSON), 0, PART_WHOLE, SORT(choice, choice),
        AT(person, urgent), "never or law overdue", urgent_words},
    PLAIN(IN(PERSON), 0, "outlook", SORT(weekdays, weekdays),
        AT(person, outlook), "WEEKDAY..."),

    PLAIN(IN(FEED), 0, "title", SORT(text, text), AT(feed, title), "TEXT"),
    PLAIN(IN(FEED), IN(FEED), "shows", SORT(shows, shows), 0, SHOWS_FORM),
    {"as", IN(FEED), 0, PART_WHOLE, SORT(choice, choice), AT(feed, form),
        "events or to-dos", form_words},
    PLAIN(IN(FEED), 0, "key-file", SORT(secret, text), AT(feed, key_file),
        "PATH"),
    PLAIN(
        IN(FEED), 0, "horizon", SORT(span, span), AT(feed, horizon), SPAN_FORM),
    PLAIN(IN(FEED), 0, "history", SORT(any_span, span), AT(feed, history),
        SPAN_FORM),
    PLAIN(IN(FEED), 0, "alarm", SORT(any_span, alarm), AT(feed, alarm),
        SPAN_FORM),
    PLAIN(IN(FEED), 0, "most-events", SORT(most, count), AT(feed, most_events),
        "N"),
    PLAIN(IN(FEED), 0, "most-kilobytes", SORT(most, count),
        AT(feed, most_kilobytes), "N"),

    PLAIN(
        IN(LIMIT), 0, "title", SORT(text, text), AT(away_limit, title), "TEXT"),
    PLAIN(IN(LIMIT), IN(LIMIT), "of", SORT(limited, limited), 0,
        "all, depot DEPOT, type TYPE or subject VEHICLE"),
    PLAIN(IN(LIMIT), IN(LIMIT), "away", SORT(away, away), AT(away_limit, away),
        "N"),
    PLAIN(IN(LIMIT), 0, "on", SORT(on, on), 0, "CALENDAR"),
};

const size_t key_table_size = sizeof key_table / sizeof key_table[0];
