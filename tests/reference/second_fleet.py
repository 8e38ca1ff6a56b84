"""The fleet file and the ledger, as the second calculator reads them."""
import os
import sqlite3
from collections import namedtuple
from datetime import date, timedelta

import second_working_days

DAY = timedelta(1)
EPOCH = date(1970, 1, 1)

# until is the last day off the road, or None while that is not known; other is
# the vehicle that equipment was moved to.
Record = namedtuple("Record", "id kind subject job day until voids other",
                    defaults=(None, None, None, None, None, None))


def read_sections(path):
    """{kind: {id: {key: [line, ...]}}} of a fleet file."""
    sections = {}
    with open(path, encoding="utf-8") as lines:
        for line in lines:
            text = line.strip()
            if not text or text[0] in "#;":
                continue
            if line[0] == "[":
                kind, _, name = text.strip("[]").partition(" ")
                here = sections.setdefault(kind, {}).setdefault(name, {})
            elif line[0] in " \t":
                here[key].append(text)
            else:
                key, _, value = (part.strip() for part in text.partition("="))
                here[key] = [value] if value else []
    return sections


def words(lines):
    return " ".join(lines or []).replace(",", " ").split()


class Fleet:
    def __init__(self, path):
        self.sections = read_sections(path)
        self.jobs = self.sections.get("job", {})
        self.subjects = {}
        for kind in ("vehicle", "equipment", "driver"):
            for name, keys in self.sections.get(kind, {}).items():
                self.subjects[name] = (kind, keys)
        self.working = second_working_days.Calendars(
            self.sections, os.path.dirname(path))
        self.ledger = os.path.join(
            os.path.dirname(path), self.sections["site"][""]["ledger"][0])

    def key(self, subject, key):
        """A subject's own value, or its type's."""
        keys = self.subjects[subject][1]
        if key in keys or "type" not in keys:
            return keys.get(key)
        return self.sections["type"][keys["type"][0]].get(key)

    def jobs_of(self, subject):
        keys = self.subjects[subject][1]
        shared = []
        if "type" in keys:
            shared = words(self.sections["type"][keys["type"][0]].get("jobs"))
        return list(dict.fromkeys(shared + words(keys.get("jobs"))))

    def carrier(self, subject):
        return (self.key(subject, "carried-by") or [None])[0]

    def wider(self, job):
        """The job, and every job whose completion counts as its own."""
        found = [job]
        for narrow in found:
            found += [name for name, keys in self.jobs.items()
                      if narrow in words(keys.get("covers"))
                      and name not in found]
        return found


def read_ledger(path):
    rows = sqlite3.connect(path).execute(
        "SELECT id, kind, subject, job, day, until, voids, other FROM event"
        " WHERE kind NOT IN ('booked', 'unbooked') ORDER BY id")
    return [Record(*row[:4],
                   *(None if day is None else EPOCH + day * DAY
                     for day in row[4:6]), *row[6:]) for row in rows]
