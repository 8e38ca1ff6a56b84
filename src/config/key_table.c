#include "intervals.h"
#include "kind.h"
#include "server.h"
#include "value.h"

#include <stddef.h>

#define IN(kind) (1u << SECTION_##kind)
#define SUBJECTS (IN(VEHICLE) | IN(EQUIPMENT) | IN(DRIVER))
#define SUBJECTS_AND_TYPES (SUBJECTS | IN(TYPE))

#define AT(object, member) offsetof(struct object, member)
#define LIST(object, list)                                                     \
    .offset = AT(object, list), .count = AT(object, n_##list)

#define SPAN_FORM "N days|weeks|months|years"
#define INTERVAL_FORM "INTERVAL [or INTERVAL]"
#define DAY_FORM "YYYY-MM-DD"
#define URL_FORM "https://HOST/..."
#define LISTEN_FORM "ADDRESS:PORT or unix:/PATH"

/* The words of each choice stand in the order of its enum. */
#define WORDS(...)                                                             \
    .words = (const char *const[])                                             \
    {                                                                          \
        __VA_ARGS__, NULL                                                      \
    }
#define ENDS                                                                   \
    .form = "same day, day before, month end or week end",                     \
    WORDS("same day", "day before", "month end", "week end")
#define YES_OR_NO .form = "yes or no", WORDS("no", "yes")

/* When a key of a rule says something beside the rest of it: without that it
 * is only shown where somebody states it. */

static int
has_length(const struct rule *rule)
{
    for (int i = 0; i < rule->n_every; i++)
        if (kind_is_length(&rule->every[i]))
            return 1;
    return 0;
}

static int
has_meter(const struct rule *rule)
{
    return intervals_metered(rule, METER_DISTANCE) != NULL ||
           intervals_metered(rule, METER_HOURS) != NULL;
}

static int
has_most(const struct rule *rule)
{
    return rule->n_at_most > 0;
}

static int
has_ages(const struct rule *rule)
{
    return rule->n_ages > 0;
}

static int
has_window(const struct rule *rule)
{
    return rule->window.n > 0;
}

static int
counts_first(const struct rule *rule)
{
    return rule->first.origin != ORIGIN_NONE && rule->first.origin != ORIGIN_ON;
}

static int
runs_from_something(const struct rule *rule)
{
    return intervals_calendar_rule(rule) == NULL;
}

static int
can_be_early(const struct rule *rule)
{
    return intervals_calendar_rule(rule) != NULL ||
           rule->runs_from != FROM_COMPLETION;
}

static int
keeps_date(const struct rule *rule)
{
    return rule->runs_from == KEEPS_DATE;
}

static int
keeps_first(const struct rule *rule)
{
    return keeps_date(rule) && rule->first.origin != ORIGIN_NONE;
}

static int
keeps_late(const struct rule *rule)
{
    return rule->late == LATE_KEEPS_DATE;
}

#define KEY(in, name, shape, ...)                                              \
    {                                                                          \
        .word = (name), .sections = (in), .type = &value_##shape, __VA_ARGS__  \
    }
#define RULE(name, shape, ...)                                                 \
    KEY(IN(JOB), name, shape, .part = PART_RULE, __VA_ARGS__)
#define BASELINE(name, shape, ...)                                             \
    KEY(0, name, shape, .part = PART_BASELINE, __VA_ARGS__)

/* A choice whose first word is not for the fleet file has "" there. */
const struct key key_table[] = {
    KEY(IN(SITE), "name", text, .required = 1, .offset = AT(site, name),
        .form = "TEXT"),
    KEY(IN(SITE), "time-zone", text, .required = 1,
        .offset = AT(site, time_zone), .form = "ZONE", .fits = value_is_zone,
        .wrong = "is no time zone that this machine knows; expected a name of "
                 "tzdata such as Europe/London"),
    KEY(IN(SITE), "ledger", path, .required = 1, .offset = AT(site, ledger),
        .form = "PATH"),
    KEY(IN(SITE), "include", written, .form = "PATTERN..."),
    KEY(IN(SITE), "presets", written, .form = "PATTERN..."),
    KEY(IN(SITE), "feed-folder", path, .offset = AT(site, feed_folder),
        .form = "PATH"),
    /* What is held back longer is not calm, but out of date. */
    KEY(IN(SITE), "calm", span, .offset = AT(site, calm), .form = SPAN_FORM,
        .usual = "3 days", .most = 31,
        .wrong = "is too long to hold a date back; expected at most 1 month"),
    KEY(IN(SITE), "page-url", text, .offset = AT(site, page_url),
        .form = URL_FORM, .fits = value_is_url,
        .wrong = "is not the address of a page; expected " URL_FORM),
    KEY(IN(SITE), "planner", choice, .offset = AT(site, planner),
        .form = "on or off", WORDS("off", "on")),
    KEY(IN(SITE), "plan-ahead", span, .offset = AT(site, plan_ahead),
        .form = SPAN_FORM, .usual = "12 months", .least = 1),
    /* Long enough for a part to come; whoever wants longer mends it. */
    KEY(IN(SITE), "defer-at-most", span, .offset = AT(site, defer_at_most),
        .form = SPAN_FORM, .usual = "4 weeks", .least = 1, .most = 366,
        .wrong = "is too long to put a defect off; expected at most 1 year"),

#define MAIL_ADDRESS                                                           \
    .form = "ADDRESS", .fits = value_is_mail_address,                          \
    .wrong = "is not a mail address; expected one such as "                    \
             "manager@skerrow.example and nothing around it"
    KEY(IN(MAIL), "from", text, .required = 1,
        .offset = AT(mail_settings, from), MAIL_ADDRESS),
    KEY(IN(MAIL), "reply-to", text, .offset = AT(mail_settings, reply_to),
        MAIL_ADDRESS),
    KEY(IN(MAIL), "keeper", text, .offset = AT(mail_settings, keeper),
        MAIL_ADDRESS),
    KEY(IN(MAIL), "by", transport, .required = 1,
        .form = "folder PATH, sendmail PROGRAM or smtp HOST[:PORT]"),
    /* After SERVER_TLS_USUAL, which is to write nothing. */
    KEY(IN(MAIL), "tls", choice, .offset = AT(mail_settings, tls),
        .form = "starttls, implicit or none",
        WORDS("", "starttls", "implicit", "none")),
    KEY(IN(MAIL), "login", text, .offset = AT(mail_settings, login),
        .form = "NAME"),
    KEY(IN(MAIL), "password-file", secret,
        .offset = AT(mail_settings, password_file), .form = "PATH"),
    KEY(IN(MAIL), "ca-file", path, .offset = AT(mail_settings, ca_file),
        .form = "PATH"),
    KEY(IN(MAIL), "ehlo", text, .offset = AT(mail_settings, ehlo),
        .form = "NAME", .fits = server_is_name,
        .wrong = "is no name of a host; expected one such as "
                 "buses.skerrow.example"),
    /* RFC 5321, 4.5.3.2, has five minutes for most of what is said. */
    KEY(IN(MAIL), "timeout", seconds, .offset = AT(mail_settings, timeout),
        .form = "N seconds|minutes", .usual = "5 minutes", .most = 3600,
        .wrong = "is not a time to wait; expected N seconds|minutes, an hour "
                 "at most"),

    KEY(IN(SERVER), "listen", text, .offset = AT(server_settings, listen),
        .form = LISTEN_FORM, .usual = "127.0.0.1:8080",
        .fits = value_is_listener,
        .wrong = "is no place to listen; expected " LISTEN_FORM
                 ", such as 127.0.0.1:8080"),
    KEY(IN(SERVER), "proxies", proxies, .offset = AT(server_settings, proxies),
        .form = "ADDRESS... or unix"),
    /* When people begin. */
    KEY(IN(SERVER), "remind-at", clock,
        .offset = AT(server_settings, remind_at), .form = "HH:MM",
        .usual = "07:00"),

    KEY(IN(HOLIDAYS), "day", rules,
        .form = "RULE [, substitute] [, NAME], one a line"),
    KEY(IN(HOLIDAYS), "add", added, .form = "YYYY-MM-DD NAME, one a line"),
    KEY(IN(HOLIDAYS), "remove", days, .offset = AT(holidays, set.removed),
        .count = AT(holidays, set.n_removed), .form = "YYYY-MM-DD..."),
    KEY(IN(HOLIDAYS), "file", published, .form = "PATH"),
    KEY(IN(HOLIDAYS), "known-until", day,
        .offset = AT(holidays, set.known_until), .form = DAY_FORM),

    KEY(IN(CALENDAR), "title", text, .offset = AT(calendar, title),
        .form = "TEXT"),
    KEY(IN(CALENDAR), "works", weekdays, .required = 1,
        .offset = AT(calendar, plan.works), .form = "WEEKDAY... or none"),
    KEY(IN(CALENDAR), "holidays", holidays, .form = "HOLIDAYS... or none"),
    KEY(IN(CALENDAR), "closed", closed,
        .form = "YYYY-MM-DD[..YYYY-MM-DD] NAME, one a line"),
    KEY(IN(CALENDAR), "open", days, .offset = AT(calendar, plan.open),
        .count = AT(calendar, plan.n_open), .form = "YYYY-MM-DD..."),

    KEY(IN(CALENDAR), "vehicles-a-day", number,
        .offset = AT(calendar, vehicles), .form = "N", .least = 1, .most = 1000,
        .unit = "vehicles", .unset = "no limit"),
    KEY(IN(CALENDAR), "hours-a-day", work, .offset = AT(calendar, minutes),
        .form = "HOURS", .unit = "hours", .unset = "no limit",
        .wrong = "is not the hours of a working day; expected HOURS up to 24, "
                 "such as 7.5"),

    KEY(IN(DEPOT), "title", text, .offset = AT(depot, title), .form = "TEXT"),
    KEY(IN(DEPOT), "calendar", calendar, .required = 1,
        .offset = AT(depot, calendar), .form = "CALENDAR"),
    KEY(IN(DEPOT), "time-zone", text, .offset = AT(depot, time_zone),
        .form = "ZONE", .fits = value_is_zone,
        .wrong = "is no time zone that this machine knows; expected a name of "
                 "tzdata such as Europe/London"),

    KEY(IN(JOB), "title", text, .required = 1, .offset = AT(job, title),
        .form = "TEXT"),
    KEY(IN(JOB), "class", choice, .required = 1, .offset = AT(job, class),
        .form = "law, recommendation, maker or own",
        WORDS("law", "recommendation", "maker", "own")),
    KEY(IN(JOB), "authority", text, .offset = AT(job, authority),
        .form = "TEXT"),
    KEY(IN(JOB), "source", text, .offset = AT(job, source), .form = "TEXT"),
    KEY(IN(JOB), "caution", text, .offset = AT(job, caution), .form = "TEXT"),
    KEY(IN(JOB), "covers", job_list, LIST(job, covers), .form = "JOB..."),
    KEY(IN(JOB), "follows", job_list, LIST(job, follows), .form = "JOB..."),
    KEY(IN(JOB), "also-counts", also_counts, .form = "N JOB"),
    KEY(IN(JOB), "inspection", choice, .offset = AT(job, inspection),
        YES_OR_NO),
    /* After the usual one, which is to write nothing. */
    KEY(IN(JOB), "failure", choice, .offset = AT(job, failure),
        .form = "stops or tells", WORDS("", "stops", "tells")),
    KEY(IN(JOB), "overdue", choice, .offset = AT(job, overdue),
        .form = "stops or warns", WORDS("", "stops", "warns")),
    RULE("every", every, .form = INTERVAL_FORM),
    RULE("within", every, .form = INTERVAL_FORM),
    RULE("at-most", at_most, .form = INTERVAL_FORM, .applies = has_most),
    RULE("ends", choice, .offset = AT(rule, ends), ENDS, .applies = has_length),
    RULE("first-ends", choice, .offset = AT(rule, first_ends), ENDS,
        .applies = counts_first),
    RULE("month-end", choice, .offset = AT(rule, month_end),
        .form = "clamp or sticky", WORDS("clamp", "sticky"),
        .applies = has_length),
    RULE("runs-from", choice, .offset = AT(rule, runs_from),
        .form = "completion, deadline or keeping the date",
        WORDS("completion", "deadline", "keeping the date"),
        .applies = runs_from_something),
    RULE("window", span, .offset = AT(rule, window), .form = SPAN_FORM,
        .applies = can_be_early),
    RULE("window-opens", choice, .offset = AT(rule, window_opens),
        .form = "safer, day after or same day",
        WORDS("safer", "day after", "same day"), .applies = has_window),
    RULE("late", choice, .offset = AT(rule, late),
        .form = "restarts or keeps the date",
        WORDS("restarts", "keeps the date"), .applies = keeps_date),
    RULE("shortest", span, .offset = AT(rule, shortest), .form = SPAN_FORM,
        .applies = keeps_late),
    RULE("first", first,
        .form = "SPAN from registered|built|in-service|earliest, or on DAY"),
    RULE("first-kept", choice, .offset = AT(rule, first_kept), YES_OR_NO,
        .applies = keeps_first),
    RULE("from-age", ages, .form = "SPAN: SPAN", .applies = has_length),
    /* After ORIGIN_NONE, which nobody writes. */
    RULE("age-from", choice, .offset = AT(rule, age_from),
        .form = "registered, built, in-service or earliest",
        WORDS("", "registered", "built", "in-service", "earliest"),
        .usual = "earliest", .applies = has_ages),
    RULE("off-road", choice, .offset = AT(rule, off_road),
        .form = "runs on or waits", WORDS("runs on", "waits"),
        .applies = has_length),
    RULE("calendar", place, .form = "CALENDAR", .unset = "the depot's"),
    RULE("roll", choice, .offset = AT(rule, roll),
        .form = "preceding, following or nearest",
        WORDS("preceding", "following", "nearest")),
    RULE("forecast", choice, .offset = AT(rule, forecast),
        .form = "early, likely or late", WORDS("early", "likely", "late"),
        .applies = has_meter),
    RULE("reading-within", span, .offset = AT(rule, reading_within),
        .form = SPAN_FORM, .applies = has_meter),
    RULE("lead", lead, .form = "N working days, or " SPAN_FORM),
    RULE("remind", reminders, .form = "SPAN..., overdue every SPAN"),
    RULE("takes", work, .offset = AT(rule, takes),
        .form = "N minutes, or HOURS hours", .unset = "not said",
        .wrong = "is not how long work takes; expected N minutes or HOURS "
                 "hours, at most 24 hours"),
    RULE("early", span, .offset = AT(rule, early), .form = SPAN_FORM,
        .least = 1, .unset = "as its interval allows"),
    RULE("vehicle-stays", choice, .offset = AT(rule, stays), YES_OR_NO),
    BASELINE("last", day, .offset = AT(baseline, last), .form = DAY_FORM),
    BASELINE("last-reading", readings, .form = "N, or N km|miles, N hours",
        .applies = has_meter),
    BASELINE(
        "deadline", day, .offset = AT(baseline, deadline), .form = DAY_FORM),

    KEY(IN(CHECK), "title", text, .required = 1,
        .offset = AT(sheet_def, sheet.title), .form = "TEXT"),
    KEY(IN(CHECK), "class", choice, .offset = AT(sheet_def, sheet.class),
        .form = "law, recommendation, maker or own",
        WORDS("law", "recommendation", "maker", "own"), .usual = "own"),
    KEY(IN(CHECK), "authority", text, .offset = AT(sheet_def, sheet.authority),
        .form = "TEXT"),
    KEY(IN(CHECK), "source", text, .offset = AT(sheet_def, sheet.source),
        .form = "TEXT"),
    KEY(IN(CHECK), "when", choice, .offset = AT(sheet_def, sheet.when),
        .form = "each driver each day, each use or each week",
        WORDS("each driver each day", "each use", "each week")),
    /* In doubt there is something to show. */
    KEY(IN(CHECK), "nil", choice, .offset = AT(sheet_def, sheet.nil_recorded),
        .form = "recorded or not needed", WORDS("not needed", "recorded"),
        .usual = "recorded"),
    KEY(IN(CHECK), "end-reading", choice,
        .offset = AT(sheet_def, sheet.end_reading), YES_OR_NO),
    KEY(IN(CHECK), "items", items, .required = 1,
        .form = "CODE, TEXT, GRADE, one a line"),
    KEY(0, "right", text, .part = PART_ITEM, .offset = AT(check_item, right),
        .form = "TEXT"),
    KEY(0, "carried", carried, .part = PART_ITEM,
        .offset = AT(check_item, carried), .form = "TYPE"),

    KEY(SUBJECTS_AND_TYPES, "title", text,
        .offset = AT(subject_def, subject.title), .form = "TEXT"),
    KEY(SUBJECTS, "type", written, .form = "TYPE"),
    KEY(SUBJECTS, "registered", day,
        .offset = AT(subject_def, subject.registered), .form = DAY_FORM),
    KEY(SUBJECTS, "built", day, .offset = AT(subject_def, subject.built),
        .form = DAY_FORM),
    KEY(SUBJECTS, "in-service", day,
        .offset = AT(subject_def, subject.in_service), .form = DAY_FORM),
    KEY(SUBJECTS_AND_TYPES, "depot", depot, .form = "DEPOT"),
    KEY(IN(EQUIPMENT) | IN(TYPE), "carried-by", carrier, .form = "VEHICLE"),
    KEY(SUBJECTS_AND_TYPES, "distance-unit", choice,
        .offset = AT(subject_def, subject.unit), .form = "km or miles",
        WORDS("km", "miles")),
    KEY(SUBJECTS, "unit-since", day,
        .offset = AT(subject_def, subject.unit_since), .form = DAY_FORM),
    KEY(SUBJECTS_AND_TYPES, "yearly-distance", yearly, .form = "N km|miles",
        .least = 1, .most = 2000000,
        .wrong = "is not a distance; expected N km or N miles, at most "
                 "2000000"),
    /* At most the hours of a leap year. */
    KEY(SUBJECTS_AND_TYPES, "yearly-hours", number,
        .offset = AT(subject_def, subject.yearly_hours), .form = "N",
        .least = 1, .most = 8784),
    KEY(SUBJECTS_AND_TYPES, "jobs", jobs, .form = "JOB..."),
    KEY(IN(VEHICLE) | IN(EQUIPMENT) | IN(TYPE), "check", sheets,
        .form = "CHECK..."),
    KEY(IN(VEHICLE) | IN(TYPE), "first-use", choice,
        .offset = AT(subject_def, subject.first_use),
        .form = "nothing, check or inspection",
        WORDS("nothing", "check", "inspection")),

    KEY(IN(PERSON), "name", text, .offset = AT(person, name), .form = "TEXT"),
    KEY(IN(PERSON), "mail", text, .offset = AT(person, mail), MAIL_ADDRESS),
    KEY(IN(PERSON), "told", scopes, LIST(person, told),
        .form = "all, depot DEPOT, subject SUBJECT or job JOB",
        .unset = "nothing"),
    KEY(IN(PERSON), "may", bits, .offset = AT(person, may),
        .form = "assess, repair or release", .unset = "nothing but report",
        WORDS("assess", "repair", "release")),
    /* All stages, however long before the deadline the first may be. */
    KEY(IN(PERSON), "stages", stages, .form = "SPAN onward",
        .usual = "60 years onward", .unset = "all"),
    KEY(IN(PERSON), "days", weekdays, .offset = AT(person, days),
        .form = "WEEKDAY...", .usual = "mon tue wed thu fri sat sun",
        .least = 1),
    KEY(IN(PERSON), "calendar", calendar, .offset = AT(person, calendar),
        .form = "CALENDAR"),
    KEY(IN(PERSON), "urgent", choice, .offset = AT(person, urgent),
        .form = "never or law overdue", WORDS("never", "law overdue")),
    KEY(IN(PERSON), "outlook", weekdays, .offset = AT(person, outlook),
        .form = "WEEKDAY...", .least = 1),

    KEY(IN(FEED), "title", text, .offset = AT(feed, title), .form = "TEXT"),
    KEY(IN(FEED), "shows", scopes, .required = 1, LIST(feed, shows),
        .form = "all, depot DEPOT, subject SUBJECT, job JOB or person PERSON"),
    KEY(IN(FEED), "as", choice, .offset = AT(feed, form),
        .form = "events or to-dos", WORDS("events", "to-dos")),
    KEY(IN(FEED), "key-file", secret, .offset = AT(feed, key_file),
        .form = "PATH"),
    /* The next three are what calendar services are known to take whole. */
    KEY(IN(FEED), "horizon", span, .offset = AT(feed, horizon),
        .form = SPAN_FORM, .usual = "18 months", .least = 1),
    KEY(IN(FEED), "history", span, .offset = AT(feed, history),
        .form = SPAN_FORM),
    KEY(IN(FEED), "alarm", alarm, .offset = AT(feed, alarm), .form = SPAN_FORM),
    KEY(IN(FEED), "most-events", number, .offset = AT(feed, most_events),
        .form = "N", .usual = "1000", .least = 10, .most = 1000000),
    KEY(IN(FEED), "most-kilobytes", number, .offset = AT(feed, most_kilobytes),
        .form = "N", .usual = "900", .least = 10, .most = 1000000),

    KEY(IN(LIMIT), "title", text, .offset = AT(away_limit, title),
        .form = "TEXT"),
    KEY(IN(LIMIT), "of", limited, .required = 1,
        .form = "all, depot DEPOT, type TYPE or subject VEHICLE"),
    KEY(IN(LIMIT), "away", number, .required = 1,
        .offset = AT(away_limit, away), .form = "N", .most = 1000,
        .unit = "vehicles"),
    KEY(IN(LIMIT), "on", on, .form = "CALENDAR", .unset = "all days"),
};

const size_t key_table_size = sizeof key_table / sizeof key_table[0];
