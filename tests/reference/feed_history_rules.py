"""What subscribers must see from one published feed to the next: the rules
of RFC 5545 (3.8.7.2 to 3.8.7.4), of the design and of ostler(1), "CALENDAR
FEEDS".

A Judge keeps, for one feed, what the ledger knows of each UID and what a
subscriber has, and is shown the file before and after each pass.  When the
ledger is put back, so is what it knows; what stands in the file still counts.
"""
from collections import namedtuple
from datetime import timedelta

import icalendar

STAMPS = ("DTSTAMP", "LAST-MODIFIED", "SEQUENCE")
# content is everything but the stamps.
Event = namedtuple("Event", "uid sequence modified content component")
STATUS_CATEGORIES = ("Done", "Nothing", "End")


class Broken(Exception):
    """A rule that does not hold."""


def require(holds, rule, *what):
    if not holds:
        raise Broken(rule + ": " + " ".join(str(w) for w in what))


def read(octets):
    """The events, or to-dos, of a feed by their UIDs, and its own lines."""
    calendar = icalendar.Calendar.from_ical(octets)
    events = {}
    for c in calendar.subcomponents:
        require(c.name in ("VEVENT", "VTODO"), "a component", c.name)
        stamp, modified = c["DTSTAMP"].dt, c["LAST-MODIFIED"].dt
        require(stamp == modified, "one time for both stamps", stamp, modified)
        # What has no day stands on the day of its stamp.
        left_out = STAMPS + (("DTSTART", "DTEND") if str(
            c["CATEGORIES"].cats[0]) in ("Undated", "Nothing") else ())
        content = tuple(
            (name, value) for name, value in lines(c) if name not in left_out)
        uid = str(c["UID"])
        require(uid not in events, "UIDs are unique", uid)
        events[uid] = Event(uid, int(c["SEQUENCE"]), modified, content, c)
    require(events, "a feed is never empty")
    require(len({c.name for c in calendar.subcomponents}) == 1,
            "events or to-dos, not both")
    own = tuple((name, value) for name, value in lines(calendar, False))
    return events, own


def lines(component, deep=True):
    return [(name, value if isinstance(value, str) else
             value.to_ical() if hasattr(value, "to_ical") else str(value))
            for name, value in component.property_items(recursive=deep)]


def category(event):
    return str(event.component["CATEGORIES"].cats[0])


def is_due(event):
    return not category(event).startswith(STATUS_CATEGORIES)


def day_of(event):
    c = event.component
    if c.name == "VEVENT":
        return c["DTSTART"].dt
    return c["DUE"].dt if "DUE" in c else None


def is_below(a, b):
    return a.sequence <= b.sequence and a.modified <= b.modified


def is_settled(k, known):
    """Nothing else that is known could be as new as k."""
    return all(is_below(other, k) and (
        other.content == k.content or other.sequence < k.sequence
        and other.modified < k.modified) for other in known)


def judge_stamps(event, known):
    """Its stamps follow from all that is known of its UID."""
    what = (event.component["SUMMARY"], event[:3], *[k[:3] for k in known])
    for k in known:
        require(is_below(k, event), "stamps never go back", *what)
        if k.content != event.content:
            require(event.sequence > k.sequence
                    and event.modified > k.modified,
                    "what changed has higher stamps", *what, k.content,
                    event.content)
        # That nothing is due is dated by its stamp: a ledger that knows better
        # since when it was so says it anew.
        if k.content == event.content and is_settled(k, known) \
                and category(event) != "Nothing":
            require(event[:3] == k[:3],
                    "what did not change keeps its stamps", *what)


def judge_form(event):
    """All-day, one day long, or a to-do that says when."""
    c = event.component
    what = c["SUMMARY"]
    if c.name == "VEVENT":
        start, end = c["DTSTART"], c["DTEND"]
        require(start.params.get("VALUE") == "DATE"
                and end.params.get("VALUE") == "DATE"
                and end.dt - start.dt == timedelta(1), "one day long", what)
        return
    require("DTSTART" not in c and "DTEND" not in c, "a to-do has no start",
            what)
    require(str(c["STATUS"]) == ("NEEDS-ACTION" if category(event) not in (
        "Done", "Nothing") else "COMPLETED"), "the status of a to-do", what)


# When a subscriber takes an event for a newer one than it has.
SUBSCRIBERS = (
    lambda e, has: e.sequence > has.sequence or e.modified > has.modified,
    lambda e, has: e.sequence > has.sequence,
    lambda e, has: e.modified > has.modified,
)


class Judge:
    """Of one feed, over time."""

    def __init__(self):
        self.ledger = {}  # UID: the events that the ledger knows of
        self.has = [{} for _ in SUBSCRIBERS]

    def known(self, uid, before):
        out = self.ledger.get(uid, [])
        event = before.get(uid)
        return out + [event] if event and event not in out else out

    def learn(self, before):
        """What stands in the file is known, even if it stays as it is."""
        for uid in before:
            self.ledger[uid] = self.known(uid, before)

    def published(self, before, after):
        """The file had the events before and now has those after."""
        for uid, event in after.items():
            judge_form(event)
            judge_stamps(event, self.known(uid, before))
        self.subscribe(before, after)
        self.learn(before)
        for uid, event in after.items():
            self.ledger[uid] = [event]
        # What is no longer said is said anew when it comes back.
        for uid, events in self.ledger.items():
            if uid not in after and category(events[-1]) == "Nothing":
                self.ledger[uid] = [events[-1]._replace(content=None)]

    def subscribe(self, before, after):
        """Only where ledger and file were both put back, so that neither
        knows what a subscriber has, nothing can be asked of its next one."""
        for has, is_newer in zip(self.has, SUBSCRIBERS):
            for uid in [uid for uid in has if uid not in after]:
                del has[uid]
            for uid, event in after.items():
                old = has.get(uid)
                if old and not any(is_below(old, k)
                                   for k in self.known(uid, before)):
                    old = None
                if old is None or is_newer(event, old):
                    has[uid] = event
                require(has[uid].content == event.content,
                        "a subscriber has what the feed has", uid,
                        has[uid].content, event.content)
