"""What a feed shows on a day, against `ostler due --json` of that day and the
manual, and the UID of each event: one for each subject, job and cycle."""
import calendar
import re
from datetime import date, timedelta

from feed_history_rules import category, day_of, is_due, require

WORDS = {"no-record": "no record", "needs-reading": "needs a reading",
         "before-return": "before return", "overdue": "overdue",
         "failed": "failed"}
UNSURE = timedelta(3)


def day_from(text):
    return None if text is None else date.fromisoformat(text)


def months_on(day, months):
    """So many months later, or with less than 0 earlier, clamped."""
    month = day.year * 12 + day.month - 1 + months
    year, month = divmod(month, 12)
    last = calendar.monthrange(year, month + 1)[1]
    return date(year, month + 1, min(day.day, last))


def span(day, text, sign):
    n, unit = text.split()
    if unit.startswith("month"):
        return months_on(day, sign * int(n))
    if unit.startswith("year"):
        return months_on(day, sign * 12 * int(n))
    return day + sign * timedelta(int(n) * (7 if "week" in unit else 1))


def day_of_due(due):
    """Where its event stands: what failed on the day on which it did."""
    return day_from(due["failed"] and due["failed"]["day"] or due["plan_day"]
                    or due["deadline"])


def mark_of(due):
    """What the title says between subject and job.  That a reading is old is
    said there only where there is no day."""
    said = [due["state"], due["besides"]]
    if {w["warning"] for w in due["warnings"]} & {"before-return"}:
        said.append("before-return")
    if due["state"] == "needs-reading" and day_of_due(due):
        said.remove("needs-reading")
    words = " and ".join(WORDS[word] for word in said if word in WORDS)
    return words and f" {words}"


def deadline_of(event):
    """As its text has it."""
    found = re.search(r"^Deadline: (?:\w+ ([0-9-]{10})|none)$",
                      str(event.component["DESCRIPTION"]), re.MULTILINE)
    require(found, "the text has the deadline", event.content)
    return day_from(found[1])


class Names:
    """Which UID is whose; from one step to the next none may change hands."""

    def __init__(self):
        self.of_uid = {}
        self.of_thing = {}
        self.places = {}  # of the UIDs of the coming cycles, by their cycle

    def note(self, uid, *thing):
        require(self.of_uid.setdefault(uid, thing) == thing,
                "a UID is of one thing", uid, self.of_uid[uid], thing)
        require(self.of_thing.setdefault(thing, uid) == uid,
                "a thing has one UID", thing, self.of_thing[thing], uid)

    def note_coming(self, uids, *cycle):
        """The coming cycles of one due in the order of their days, some of
        the first of which may be over and some of the last out of sight."""
        for uid in uids:
            require(self.of_uid.setdefault(uid, cycle) == cycle,
                    "a UID is of one cycle to come", uid, cycle)
        places = self.places.setdefault(cycle, {})
        known = [places[uid] - i for i, uid in enumerate(uids)
                 if uid in places]
        require(len(set(known)) <= 1, "cycles to come keep their UIDs", cycle,
                uids, places)
        if not known:
            places.clear()
        first = known[0] if known else 0
        for i, uid in enumerate(uids):
            require(places.setdefault(uid, first + i) == first + i,
                    "cycles to come keep their UIDs", cycle, uids, places)


def shows(feed, due):
    for scope in feed["shows"].split(", "):
        kind, _, name = scope.partition(" ")
        if kind == "all" or (kind == "depot" and due["depot"] == name) \
                or (kind == "job" and due["job"] == name):
            return True
    return False


def title(fleet, job):
    """With the id where another job has the same."""
    own = fleet.jobs[job]["title"]
    shared = [j for j in fleet.used() if fleet.jobs[j]["title"] == own]
    return f"{own} ({job})" if len(shared) > 1 else own


class Picture:
    """The events of a feed on a day, beside the dues of that day."""

    def __init__(self, fleet, name, events, dues, today):
        self.fleet = fleet
        self.feed = fleet.feeds[name]
        self.form = self.feed.get("as", "events")
        self.kind = self.form, fleet.site["name"]
        self.today = today
        self.until = span(today, self.feed["horizon"], 1)
        self.dues = [d for d in dues if shows(self.feed, d)]
        # A day that is kept for calm can lead to another plan of everything.
        self.other_plan = "planner" in fleet.site and any(
            "calendars and mail keep" in reason["text"]
            for due in dues for reason in due["reasons"])
        titles = {title(fleet, job): job for job in fleet.used()}
        self.current, self.coming, self.done = {}, {}, []
        self.events = events
        for e in events.values():
            if category(e) in ("Nothing", "End"):
                continue
            words, _, what = str(e.component["SUMMARY"]).partition(" - ")
            task = words.split()[0], titles.get(what)
            require(task[1], "the title is subject and job", words, what)
            if category(e) == "Done":
                self.done.append((task, e))
            elif category(e) == "Forecast":
                self.coming.setdefault(task, []).append(e)
            else:
                require(task not in self.current, "one event a due", task)
                self.current[task] = e

    def end(self):
        """From which day on the feed is not whole, or None."""
        return next((day_of(e) for e in self.events.values()
                     if category(e) == "End"), None)

    def judge(self, names):
        require(len(self.events) <= int(self.feed.get("most-events", 1000))
                or not self.coming, "no more events than it may have")
        for due in self.dues:
            self.judge_due(due, names)
        tasks = {(d["subject"], d["job"]) for d in self.dues}
        for task in list(self.current) + list(self.coming):
            require(task in tasks, "every event is of a due", task)
        for task, e in self.done:
            self.judge_done(task, e, names)
        empty = [e for e in self.events.values() if category(e) == "Nothing"]
        require(bool(empty) == (len(self.events) == len(empty)),
                "it says that nothing is due when it is so")

    def judge_due(self, due, names):
        task = due["subject"], due["job"]
        event = self.current.get(task)
        day = day_of_due(due)
        end = self.end()
        unsure = not due["failed"] and (
            self.other_plan or due["forecast"] and day and (
                abs(day - self.until) <= UNSURE
                or end and day >= end - UNSURE))
        # What needs a reading is there however far off its day.
        near = day is None or day <= self.until or \
            due["failed"] or due["state"] == "needs-reading"
        wanted = bool(near) and (end is None or day is None or day < end
                                 or due["state"] in ("failed", "overdue"))
        if not unsure and not (end and day == end):
            require(bool(event) == wanted, "it has the dues up to its horizon",
                    due, self.until, end)
        if event:
            self.judge_event(due, event)
            names.note(event.uid, *self.kind, *task, due["cycle"])
        coming = sorted(self.coming.get(task, []), key=day_of)
        for e in coming:
            require(self.today <= day_of(e) <= self.until,
                    "coming cycles lie between today and the horizon", due,
                    day_of(e))
            require(self.form == "to-dos" or
                    str(e.component["STATUS"]) == "TENTATIVE",
                    "a coming cycle is tentative", due)
        names.note_coming([e.uid for e in coming], *self.kind, *task,
                          due["cycle"], "coming")

    def judge_event(self, due, e):
        day, deadline = day_of_due(due), day_from(due["deadline"])
        shown = deadline_of(e)
        if due["forecast"] and shown != deadline:
            # Held for calm: it may be up to two days earlier.
            require(shown and deadline and shown < deadline
                    and (deadline - shown < UNSURE
                         or "calm" in self.fleet.site),
                    "a day that is held is earlier, by less than three days",
                    due, shown)
            return
        words = str(e.component["SUMMARY"]).partition(" - ")[0]
        require(shown == deadline, "the deadline in the text", due, shown)
        require((category(e) == "Failed") == bool(due["failed"]),
                "what failed says so", due)
        if self.other_plan and day and not due["failed"]:
            return
        if day:
            require(day_of(e) == day, "the day of an event", due, day_of(e))
        else:
            require(category(e) == "Undated", "what has no day says so",
                    due)
            if self.form == "events":
                require(day_of(e) == e.modified.date(),
                        "what has no day stands where it was last news", due)
        require(words == due["subject"] + mark_of(due),
                "the mark in the title", due, words)
        text = str(e.component["DESCRIPTION"]).split("\n")
        for reason in due["reasons"]:
            require(reason["text"] in text or due["forecast"],
                    "the text has the reasons", reason, text)

    def judge_done(self, task, e, names):
        day = day_of(e) or e.component["COMPLETED"].dt.date()
        since = span(self.today, self.feed.get("history", "0 days"), -1)
        require("history" in self.feed and since <= day <= self.today,
                "what is done stays for a time", task, day)
        for due in self.dues:
            if (due["subject"], due["job"]) == task:
                require(due["last_done"] and day <= day_from(due["last_done"]),
                        "what failed is not done", due, day)
        names.note(e.uid, *self.kind, *task, "done", day)
