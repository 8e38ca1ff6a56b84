#!/usr/bin/python3
"""second_calculator.py FLEET TODAY: what is due, worked out a second time.

A slow, plain calculator written from the rules in ostler-fleet(5) alone, so
that it shares no thinking with the program.  It reads the fleet file and its
ledger and prints the dues as JSON.  30-second-calculator compares the two.
Distances, hours, forecasts and reminders are left out.
"""
import calendar
import json
import os
import sqlite3
import sys
from collections import namedtuple
from datetime import date, timedelta

sys.dont_write_bytecode = True
import second_working_days
from second_steps import (Span, clamped, corresponding, ends, month_end,
                          occurrences, parse_day, parse_interval, parse_span)

DAY = timedelta(1)
EPOCH = date(1970, 1, 1)

# until is the last day off the road, or None while that is not known.
Record = namedtuple("Record", "id kind subject job day until voids",
                    defaults=(None, None, None, None, None))
# A completion; order puts several of one day in the order of entry.
Fact = namedtuple("Fact", "day order cycle")
# A deadline, the fact it runs from, and the series it belongs to: base plus
# count spans; previous is the deadline it was stepped from.
Pending = namedtuple("Pending", "day fact base count previous")


def begun(day, fact, previous=None):
    """A deadline that begins a series."""
    return Pending(day, fact, day, 0, previous)


def stated(day):
    """What stands in for a completion: a day of the fleet file."""
    return Fact(day, 0, f"d{day}")


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
        self.working = second_working_days.Calendars(self.sections)
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


class Task:
    """One job of one subject."""

    def __init__(self, fleet, subject, job, records):
        self.fleet, self.subject, self.job = fleet, subject, job
        voided = {record.voids for record in records}
        self.records = [r for r in records if r.id not in voided]
        self.how = self.get("ends", "same day")
        self.sticky = self.get("month-end") == "sticky"
        self.spells = self.spells_off_the_road()

    def lines(self, key):
        """The lines of a rule: subject before type before job."""
        own = self.fleet.key(self.subject, f"{self.job}.{key}")
        return own if own is not None else self.fleet.jobs[self.job].get(key)

    def get(self, key, default=None):
        lines = self.lines(key)
        return " ".join(lines) if lines else default

    def day_of(self, key):
        """A day that the fleet file states for this very job."""
        lines = self.fleet.subjects[self.subject][1].get(f"{self.job}.{key}")
        return parse_day(lines[0]) if lines else None

    def span_of(self, key):
        text = self.get(key)
        return parse_span(text) if text else None

    def origin(self, name):
        keys = self.fleet.subjects[self.subject][1]
        names = [name] if name != "earliest" else [
            "registered", "built", "in-service"]
        days = [parse_day(keys[n][0]) for n in names if n in keys]
        return min(days, default=None)

    # What was done.

    def recorded(self, job):
        """The ledger's completions of a job, its wider ones included."""
        names = self.fleet.wider(job)
        return [Fact(r.day, r.id, f"r{r.id}") for r in self.records
                if r.kind == "completed" and r.subject == self.subject
                and r.job in names]

    def completions(self):
        facts = self.recorded(self.job)
        last = self.day_of("last")
        if last and last not in [fact.day for fact in facts]:
            facts.append(stated(last))
        return sorted(facts)

    def spells_off_the_road(self):
        """[first day, last day or date.max] of the subject's own spells and
        its carrier's; overlapping and adjoining ones are one."""
        who = (self.subject, self.fleet.carrier(self.subject))
        joined = []
        for first, last in sorted((r.day, r.until or date.max)
                                  for r in self.records
                                  if r.kind == "off-road"
                                  and r.subject in who):
            if joined and (joined[-1][1] == date.max
                           or first <= joined[-1][1] + DAY):
                joined[-1][1] = max(joined[-1][1], last)
            else:
                joined.append([first, last])
        return joined

    # What changes an interval.

    def aged(self, deadline, shorter):
        """shorter(span) is where the span would end in the interval's
        place."""
        born = self.origin(self.get("age-from", "earliest"))
        steps = [line.split(":") for part in self.lines("from-age") or []
                 for line in part.split(",")]
        steps = [(clamped(born, parse_span(age)), parse_span(span))
                 for age, span in steps if born]
        for birthday, span in sorted(steps):
            deadline = min(deadline, max(birthday, shorter(span)))
        return deadline

    def waited(self, deadline, anchor):
        if self.get("off-road") != "waits":
            return deadline
        for first, last in self.spells:
            first = max(first, anchor + DAY)
            if last != date.max and first <= min(last, deadline):
                deadline += last - first + DAY
        return deadline

    # An interval of days, weeks, months or years.

    def first(self, plain):
        """The deadline before the first completion."""
        deadline = self.day_of("deadline")
        if deadline and not self.day_of("last"):
            return begun(deadline, stated(deadline))
        words_ = (self.get("first") or "").split()
        if not words_:
            return None
        if words_[0] == "on":
            day = parse_day(words_[1])
            return begun(day, stated(day))
        anchor = self.origin(words_[3])
        if not anchor:
            return None
        how = self.get("first-ends", self.how)
        deadline = ends(anchor, parse_span(" ".join(words_[:2])), how,
                        self.sticky)
        if plain:
            return begun(deadline, stated(anchor))
        deadline = self.aged(
            deadline, lambda step: ends(anchor, step, how, self.sticky))
        return begun(self.waited(deadline, anchor), stated(anchor))

    def fresh(self, span, fact):
        """The interval counted from a completion."""
        deadline = self.aged(
            ends(fact.day, span, self.how, self.sticky),
            lambda step: ends(fact.day, step, self.how, self.sticky))
        return begun(self.waited(deadline, fact.day), fact)

    def along(self, day, span):
        """The corresponding date in a series."""
        day = corresponding(day, span, self.sticky)
        return month_end(day) if self.how == "month end" else day

    def step(self, span, pending, fact):
        """The next deadline of the series."""
        count = pending.count + 1
        plain = self.along(pending.base, Span(count * span.n, span.unit))
        deadline = self.aged(
            plain, lambda step: self.along(pending.day, step))
        deadline = self.waited(deadline, pending.day)
        if deadline != plain:
            return Pending(deadline, fact, deadline, 0, pending.day)
        return Pending(deadline, fact, pending.base, count, pending.day)

    def window_opens(self, deadline):
        window = self.span_of("window")
        if not window:
            return deadline
        same = clamped(deadline, Span(-window.n, window.unit))
        how = self.get("window-opens", "safer")
        if how == "same day":
            return same
        opens = same + DAY
        while how == "safer" and clamped(opens, window) <= deadline:
            opens += DAY
        return opens

    def keeps(self, pending, done):
        if done > pending.day:
            return self.get("late") == "keeps the date"
        return self.window_opens(pending.day) <= done

    def after_span(self, span, pending, fact):
        """The deadline once the completion is known."""
        runs = self.get("runs-from", "completion")
        done = fact.day
        if runs == "deadline" and pending:
            if pending.previous and done <= pending.previous:
                return pending
            pending = self.step(span, pending, fact)
            while pending.day <= done:
                pending = self.step(span, pending, fact)
            return pending
        if (runs == "keeping the date" and pending
                and self.keeps(pending, done)):
            shortest = self.span_of("shortest")
            pending = self.step(span, pending, fact)
            while pending.day <= done or (
                    shortest and done > pending.previous
                    and pending.day <= clamped(done, shortest)):
                pending = self.step(span, pending, fact)
            return pending
        return self.fresh(span, fact)

    # The other kinds of interval.

    def after_season(self, days, pending, fact):
        if not pending:
            return begun(next(d for d in days if d > fact.day), fact)
        if pending.previous and fact.day <= pending.previous:
            return pending
        previous = pending.day
        for day in days:
            if day > previous:
                if day > fact.day:
                    break
                previous = day
        return begun(day, fact, previous)

    def stated_after(self, fact):
        """The certificate's own deadline after the stated completion."""
        deadline, last = self.day_of("deadline"), self.day_of("last")
        return begun(deadline, fact) if (
            deadline and last and fact == stated(last)) else None

    def through_history(self, kind, what):
        pending = self.first(kind != "span")
        if pending and kind == "season" and not (
                self.day_of("deadline") and not self.day_of("last")):
            day = next(d for d in what if d >= pending.day)
            pending = begun(day, pending.fact)
        after = self.after_span if kind == "span" else self.after_season
        last = self.day_of("last")
        for fact in self.completions():
            if last and fact == stated(last):
                pending = None  # what was due before it is not known
            pending = (self.stated_after(fact)
                       or after(what, pending, fact))
        return pending

    def counted(self):
        """Completions, newest first, with those of the job that also counts
        as far as it does."""
        most, job = (self.get("also-counts") or "0 -").split()
        own = self.completions()
        others = [] if job == "-" else self.recorded(job)
        others = sorted(set(others) - set(own))[-int(most):]
        return sorted(own + others, reverse=True)

    def within(self, times, span):
        counted = self.counted()
        if not counted:
            return self.first(True)
        newest = counted[0]
        if self.stated_after(newest):
            return self.stated_after(newest)
        if len(counted) >= times:
            nth = counted[times - 1]
            return begun(ends(nth.day, span, self.how, self.sticky),
                         newest)
        if span.n % times == 0:
            share = Span(span.n // times, span.unit)
        else:
            share = Span(span.in_days() // times, "day")
        return begun(ends(newest.day, share, self.how, self.sticky),
                     newest)

    def interval(self, text):
        kind, what = parse_interval(text)
        if kind == "within":
            return self.within(*what)
        if kind == "yearly" or kind == "rule":
            return self.through_history("season", occurrences(kind, what))
        return self.through_history(kind, what)

    def trigger(self):
        """What a follow-on job runs from, unless it has been done since."""
        causes = [fact for job in words(self.lines("follows"))
                  for fact in self.recorded(job)]
        own = self.completions()
        if not causes or (own and own[-1][:2] > max(causes)[:2]):
            return None
        return max(causes)

    def pending(self):
        """(is there a due at all, the pending deadline or None)."""
        if self.lines("follows"):
            cause = self.trigger()
            found = [self.fresh(parse_interval(text)[1], cause)
                     for text in self.get("within").split(" or ") if cause]
            return cause is not None, min(
                found, key=lambda p: p.day, default=None)
        texts = self.get("every").split(" or ")
        if texts == ["when needed"]:
            return False, None
        found = [p for p in map(self.interval, texts) if p]
        return True, min(found, key=lambda p: p.day, default=None)

    # From the deadline to the answer.

    def plan(self, deadline, facts):
        plan = self.fleet.working.preceding(self.subject, self.job, deadline)
        if plan and any(plan < fact.day for fact in facts):
            return None  # it was done after its plan day
        return plan

    def book_by(self, plan):
        lead = self.get("lead")
        if not lead or not plan:
            return None
        working = self.fleet.working
        if "working" not in lead:
            span = parse_span(lead)
            return working.preceding(self.subject, self.job, clamped(
                plan, Span(-span.n, span.unit)))
        if lead.split()[0] == "0":
            return None
        for _ in range(int(lead.split()[0])):
            plan = plan and working.preceding(
                self.subject, self.job, plan - DAY)
        return plan

    def rolled(self, deadline):
        how = self.get("roll", "preceding")
        if how == "preceding" or self.get("class") == "law":
            return deadline
        return self.fleet.working.rolled(
            self.subject, self.job, deadline, how)

    def due(self, today):
        is_due, pending = self.pending()
        if not is_due:
            return None
        done = self.completions()
        last_done = done[-1].day if done else None
        deadline = plan = found = None
        returns = True
        if not pending:
            found = "no-record"
        else:
            deadline = pending.day
            for first, last in self.spells:
                if first <= deadline <= last:
                    found = "before-return"
                    returns = last != date.max
                    deadline = last if returns else deadline
                    break
        if deadline and returns:
            deadline = self.rolled(deadline)
            plan = self.plan(deadline, done + [
                f for f in [pending.fact] if f.cycle[0] == "r"])
        return {
            "subject": self.subject, "job": self.job,
            "state": state(today, deadline if returns else None, plan, found),
            "deadline": iso(deadline), "plan_day": iso(plan),
            "book_by": iso(self.book_by(plan)), "last_done": iso(last_done),
            "cycle": pending.fact.cycle if pending else "none"}


def iso(day):
    return day.isoformat() if day else None


def state(today, deadline, plan, found):
    if deadline and deadline < today:
        return "overdue"
    if found:
        return found
    sunday = today + (calendar.SUNDAY - today.weekday()) * DAY
    if deadline <= sunday or (plan and plan <= sunday):
        return "due"
    return "ahead"


def dues(fleet, records, today):
    tasks = [Task(fleet, subject, job, records) for subject in fleet.subjects
             for job in fleet.jobs_of(subject)]
    return [due for due in (task.due(today) for task in tasks) if due]


def read_ledger(path):
    rows = sqlite3.connect(path).execute(
        "SELECT id, kind, subject, job, day, until, voids FROM record"
        " ORDER BY id")
    return [Record(*row[:4],
                   *(None if day is None else EPOCH + day * DAY
                     for day in row[4:6]), row[6]) for row in rows]


def main():
    fleet = Fleet(sys.argv[1])
    answer = dues(fleet, read_ledger(fleet.ledger), parse_day(sys.argv[2]))
    print(json.dumps({"dues": answer}, indent=1))


if __name__ == "__main__":
    main()
