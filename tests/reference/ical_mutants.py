"""The checks are checked: a sound feed is spoilt in one way at a time, and each
time somebody has to notice."""
import re

from ical_compare import agree
from ical_readers import read_all
from ical_rfc5545 import house_rules, problems


def without(line):
    return lambda feed: re.sub(line + rb"[^\r]*\r\n", b"", feed, count=1)


def sub(old, new):
    return lambda feed: re.sub(old, new, feed, count=1)


def fold_inside_a_character(feed):
    char = "\U0001f68c".encode()
    return feed.replace(char, char[:2] + b"\r\n " + char[2:], 1)


def same_uid(feed):
    uids = re.findall(rb"UID:([^\r\n]+)", feed)
    return feed.replace(uids[1], uids[0], 1)


MUTANTS = {
    "a comma without its backslash": sub(rb"(SUMMARY:[^\r]*)\\,", rb"\1,"),
    "a semicolon in the categories": sub(rb"CATEGORIES:Due", b"CATEGORIES:D;"),
    "an escape that is none": sub(rb"SUMMARY:", rb"SUMMARY:\\q"),
    "a fold inside a character": fold_inside_a_character,
    "no DTEND": without(rb"DTEND"),
    "a DTEND on the same day": sub(rb"DTEND;VALUE=DATE:\d{8}",
                                   b"DTEND;VALUE=DATE:20260227"),
    "a day that is none": sub(rb"DTSTART;VALUE=DATE:\d{8}",
                              b"DTSTART;VALUE=DATE:20260230"),
    "no DTSTAMP": without(rb"DTSTAMP"),
    "no UID": without(rb"UID"),
    "two DTSTART": sub(rb"(DTSTART[^\r]*\r\n)", rb"\1\1"),
    "a time of day without Z": sub(rb"(DTSTAMP:\d{8}T\d{6})Z", rb"\1"),
    "a day without VALUE": sub(rb"DTSTART;VALUE=DATE:", b"DTSTART:"),
    "LF alone": lambda feed: feed.replace(b"\r\n", b"\n"),
    "one LF alone": sub(rb"\r\nSUMMARY", b"\nSUMMARY"),
    "no end": lambda feed: feed[:-2],
    "cut short": lambda feed: feed[:len(feed) // 2],
    "a UID twice": same_uid,
    "76 octets": sub(rb"STATUS:", b"X-LONG:" + b"x" * 69 + b"\r\nSTATUS:"),
    "a NUL": sub(rb"SUMMARY:", b"SUMMARY:\0"),
    "a lone CR": sub(rb"SUMMARY:", b"SUMMARY:\r"),
    "NEL": sub(rb"SUMMARY:", b"SUMMARY:\xc2\x85"),
    "a line separator": sub(rb"SUMMARY:", b"SUMMARY:\xe2\x80\xa8"),
    "a mark that turns the writing": sub(rb"SUMMARY:",
                                         b"SUMMARY:\xe2\x80\xae"),
    "a byte that is not UTF-8": sub(rb"SUMMARY:", b"SUMMARY:\xff"),
    "a byte order mark": lambda feed: b"\xef\xbb\xbf" + feed,
    "a line of blanks": sub(rb"SUMMARY:", b"SUMMARY:\r\n     \r\n "),
    "METHOD": sub(rb"CALSCALE", b"METHOD:PUBLISH\r\nCALSCALE"),
    "CANCELLED": sub(rb"STATUS:CONFIRMED", b"STATUS:CANCELLED"),
    "a comma in the name": sub(rb"X-WR-CALNAME:", b"X-WR-CALNAME:a,"),
    "an unknown property": sub(rb"SUMMARY:", b"SUMMERY:x\r\nSUMMARY:"),
    "no version": without(rb"VERSION"),
    "two calendars": lambda feed: feed + feed,
    "no component": lambda feed: re.sub(
        rb"BEGIN:VEVENT\r\n.*END:VEVENT\r\n", b"", feed, flags=re.DOTALL),
}


class Silent:
    """A tally that only remembers whether anything failed."""

    failed = False

    def check(self, _what, ok, _seen=""):
        self.failed = self.failed or not ok


def check(path, tally):
    feed = path.read_bytes()
    for what, spoil in MUTANTS.items():
        spoilt = spoil(feed)
        tally.check("each mutant differs", spoilt != feed, what)
        tally.check("each mutant of a feed is noticed in its octets",
                    problems(spoilt) or house_rules(spoilt), what)

    # A reader that loses an event, or reads another text, is noticed too.
    readings = read_all([path])[0]
    for reader, reading in readings.items():
        for change in ({"events": reading["events"][:-1]}, {"name": "x"},
                       *({"events": [{**e, **other} if e is first else e
                                     for e in reading["events"]]}
                         for first in reading["events"][:1]
                         for other in ({"summary": "x"}, {"end": "x"},
                                       {"description": "x"},
                                       {"start": "2026-01-01"}))):
            silent = Silent()
            agree(path, {**readings, reader: {**reading, **change}}, silent)
            tally.check("a reader that reads otherwise is noticed",
                        silent.failed, (reader, change))
