"""Calm: a due that goes by distance alone keeps the forecast that calendars
showed until its early day is earlier, or later by the site's calm (ostler(1),
"Calm")."""
import re
from datetime import date

from feed_history_dues import deadline_of, span
from feed_history_rules import require


def is_reached(due):
    """A reading that shows that the job is due counts at once."""
    return any("a reading already shows it" in reason["text"]
               for reason in due["reasons"])


def is_by_distance(fleet, job):
    """And by nothing else."""
    every = fleet.jobs[job].get("every", "")
    return every.endswith("km") and " or " not in every


def basis_of(event):
    """What its forecast goes by: readings or the stated use."""
    found = re.search(r"by the (readings|stated)", str(
        event.component["DESCRIPTION"]))
    return found and found[1]


def is_near(fleet, last, now):
    length = fleet.site.get("calm", "3 days")
    return last <= now < span(last, length, 1)


class Calm:
    def __init__(self):
        self.shown = {}  # by subject, job and cycle: early day and basis
        self.told_again = False
        self.coming = {}  # by feed and UID: deadline and basis
        self.steady = False

    def forget(self):
        """The ledger knows other days than we do: see what is shown."""
        self.told_again = True

    def look(self, fleet, dues, steady):
        """A pass has looked at these dues; steady when nothing but use has
        changed since the last one."""
        self.steady = steady
        kept = {}
        for due in dues:
            early = due["forecast"] and due["forecast"]["early"]
            if not early or not is_by_distance(fleet, due["job"]):
                continue
            key = due["subject"], due["job"], due["cycle"]
            basis = any(w["warning"] == "stated-use" for w in due["warnings"])
            now = date.fromisoformat(early), basis
            if is_reached(due) and key not in self.shown \
                    and not self.told_again:
                continue
            last = None if self.told_again else self.shown.get(key, now)
            if is_reached(due) or last is None or (
                    last[1] == basis and is_near(fleet, last[0], now[0])):
                kept[key] = last
            else:
                kept[key] = now
        self.shown = kept
        self.told_again = False

    def judge(self, name, picture):
        for due in picture.dues:
            key = due["subject"], due["job"], due["cycle"]
            event = picture.current.get((due["subject"], due["job"]))
            if key not in self.shown or not event or is_reached(due) or \
                    "before-return" in (due["state"], due["besides"]):
                continue
            seen = deadline_of(event), basis_of(event) == "stated"
            if self.shown[key] is None:
                self.shown[key] = seen
            require(seen == self.shown[key],
                    "the forecast that is shown is the one that is held",
                    due, self.shown[key], seen)
        self.judge_coming(name, picture)

    def judge_coming(self, name, picture):
        was, self.coming[name] = self.coming.get(name, {}), {}
        for task, events in picture.coming.items():
            for e in events if is_by_distance(picture.fleet, task[1]) else ():
                now = deadline_of(e), basis_of(e)
                self.coming[name][e.uid] = now
                last = was.get(e.uid, now) if self.steady else now
                require(last[1] != now[1] or last[0] == now[0]
                        or not is_near(picture.fleet, last[0], now[0]),
                        "a coming cycle moves by no less than calm", task,
                        last, now, e.content)
