#!/usr/bin/python3
"""second_calculator.py FLEET TODAY: what is due, worked out a second time.

A slow, plain calculator written from the rules in ostler-fleet(5) alone.  It
shares no code with the program, but its reading of the rules is by the same
hands: a rule misread once is misread twice, and so it was with follow-ons and
with two of one day in "N within SPAN".  What a rule means is for the stories
and the outside sources to say.  It reads the fleet file and its
ledger and prints the dues as JSON.  second-calculator compares the two.
Distances, hours and reminders are left out; second_usage has the forecasts.
"""
import calendar
import json
import sys
from collections import namedtuple
from datetime import date, timedelta

sys.dont_write_bytecode = True
# pylint: disable=wrong-import-position
from second_fleet import Fleet, read_ledger, words
from second_steps import (Span, clamped, corresponding, ends, month_end,
                          occurrences, parse_day, parse_interval, parse_span)
from second_task import Task, in_order, stated

DAY = timedelta(1)

# A deadline, the fact it runs from, and the series it belongs to: base, lead
# and count spans on; previous is the deadline it was stepped from.
# Work before counts_from never makes a stated deadline later.
Pending = namedtuple(
    "Pending", "day fact base lead count previous counts_from",
    defaults=[None])


def begun(day, fact, previous=None):
    """A deadline that begins a series."""
    return Pending(day, fact, day, None, 0, previous)


def in_months(span):
    """So many months, or 0 for days and weeks."""
    return span.n * {"month": 1, "year": 12}.get(span.unit, 0)


def counted_from(pending, anchor, lead, how):
    """The same, as a series counted from the day that its first deadline was
    counted from, which a short month may have cost some days."""
    if how != "same day" or not in_months(lead):
        return pending
    return pending._replace(base=anchor, lead=lead)


class Calculation(Task):
    """How the deadline of a task comes about, and what follows from it."""

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

    def changed(self, deadline, anchor, shorter):
        """Both intervals wait for the days off the road; a birthday does
        not."""
        return self.aged(self.waited(deadline, anchor), lambda span: (
            self.waited(shorter(span), anchor)))

    # An interval of days, weeks, months or years.

    def certificate(self):
        """The first deadline as a certificate has it, or None."""
        return None if self.day_of("last") else self.day_of("deadline")

    def first(self, changes):
        """The deadline before the first completion; age and waiting change
        it for a plain interval only."""
        text = self.get("first", "")
        if self.certificate():
            return begun(self.certificate(), stated(self.certificate()))
        if text.startswith("on "):
            day = parse_day(text.split()[1])
            return begun(day, stated(day))
        span, _, origin = text.partition(" from ")
        anchor = self.origin(origin) if text else None
        if not anchor:
            return None
        how = self.get("first-ends", self.how)
        plain = deadline = ends(anchor, parse_span(span), how, self.sticky)
        if changes:
            deadline = self.changed(deadline, anchor, lambda step: ends(
                anchor, step, how, self.sticky))
        pending = begun(deadline, stated(anchor), anchor)
        if deadline != plain:
            return pending
        return counted_from(pending, anchor, parse_span(span), how)

    def fresh(self, span, fact):
        """The interval counted from a completion."""
        plain = ends(fact.day, span, self.how, self.sticky)
        deadline = self.changed(
            plain, fact.day,
            lambda step: ends(fact.day, step, self.how, self.sticky))
        pending = begun(deadline, fact, fact.day)
        if deadline != plain:
            return pending
        return counted_from(pending, fact.day, span, self.how)

    def along(self, day, span):
        """The corresponding date in a series."""
        day = corresponding(day, span, self.sticky)
        return month_end(day) if self.how == "month end" else day

    def step(self, span, pending, fact):
        """The next deadline of the series."""
        count = pending.count + 1
        base, lead = pending.base, pending.lead
        whole = Span(count * span.n, span.unit)
        if lead and in_months(span):
            whole = Span(in_months(lead) + in_months(whole), "month")
        elif lead:
            base, lead = pending.day, None
            count, whole = 1, span
        plain = self.along(base, whole)
        deadline = self.changed(
            plain, pending.day, lambda step: self.along(pending.day, step))
        if deadline != plain:
            return begun(deadline, fact, pending.day)
        return Pending(deadline, fact, base, lead, count, pending.day)

    def window_opens(self, deadline):
        window = self.span_of("window")
        if not window:
            return deadline
        same = clamped(deadline, Span(-window.n, window.unit))
        how = self.get("window-opens", "safer")
        if how == "day after":
            return same + DAY
        # Counted on from the work, to the deadline or beyond it.
        beyond = how == "safer"
        opens = same + beyond * DAY
        while clamped(opens, window) < deadline + beyond * DAY:
            opens += DAY
        return opens

    def met(self, deadline, done):
        """Work on the day done meets a deadline of a fixed rhythm."""
        return deadline <= done or (
            self.get("window") and self.window_opens(deadline) <= done)

    def too_early(self, pending, done):
        """Work that does not count for the pending deadline of a rhythm: an
        extra, before the window or in the first half of the time."""
        if self.get("window"):
            return done < self.window_opens(pending.day)
        if not pending.previous:
            return False
        half = ((pending.day - pending.previous).days + 1) // 2
        return done < pending.previous + half * DAY

    def keeps(self, pending, done):
        if done > pending.day:
            return self.get("late") == "keeps the date"
        return self.window_opens(pending.day) <= done

    def after_span(self, span, pending, fact):
        """The deadline once the completion is known."""
        runs = self.get("runs-from", "completion")
        done = fact.day
        if pending and self.nothing_to_keep(pending):
            pending = None
        if runs == "deadline" and pending:
            if self.too_early(pending, done):
                return pending
            pending = self.step(span, pending, fact)
            while self.met(pending.day, done):
                pending = self.step(span, pending, fact)
            return pending
        if (runs == "keeping the date" and pending
                and self.keeps(pending, done)):
            shortest = self.span_of("shortest")
            pending = self.step(  # each runs from the one before
                span, begun(pending.day, pending.fact), fact)
            while pending.day <= done or (
                    shortest and done > pending.previous
                    and pending.day <= clamped(done, shortest)):
                pending = self.step(span, pending, fact)
            return pending
        return self.fresh(span, fact)

    # The first deadline.

    def nothing_to_keep(self, pending):
        """A first deadline that was only counted is no certificate."""
        usual = "no" if self.how == "month end" else "yes"
        return (self.get("runs-from") == "keeping the date"
                and pending.fact.order == 0 and pending.fact.job == ""
                and not self.certificate()
                and self.get("first-kept", usual) == "no")

    def states_first(self):
        return not self.day_of("last") and not self.lines("follows") and (
            self.certificate() or self.get("first", "").startswith("on "))

    def guarded(self, pending, before):
        """A stated deadline, and from when on work counts for it."""
        if not pending or not (self.states_first() or pending.fact.job):
            return pending
        window = self.span_of("window")
        if pending.previous and pending.fact.job:
            previous = max(pending.previous, before)
        else:
            previous = before
        return pending._replace(previous=previous, counts_from=min(
            clamped(before, window) if window else before, pending.day))

    @staticmethod
    def too_old(pending, fact, after):
        """Work too early for the stated deadline: it changes nothing, unless
        it is newer than what the fleet file says and brings an earlier day."""
        return (pending and pending.counts_from
                and fact.day < pending.counts_from
                and (not pending.fact.job or after.day > pending.day))

    def span_before(self, span, deadline):
        """One interval earlier, by the shortest that holds at that age."""
        born = self.origin(self.get("age-from", "earliest"))
        steps = [line.split(":") for part in self.lines("from-age") or []
                 for line in part.split(",")]
        spans = [span] + [parse_span(step) for age, step in steps if born
                          and clamped(born, parse_span(age)) <= deadline]
        before = max(corresponding(deadline, Span(-s.n, s.unit), self.sticky)
                     for s in spans)
        if self.how == "month end" and month_end(before) < deadline:
            return month_end(before)
        return before

    @staticmethod
    def season_before(days, deadline):
        earlier = [day for day in days if day < deadline]
        later = [day for day in days if day >= deadline]
        if earlier and later[0] == deadline:
            return earlier[-1]
        one, two = (earlier[-1:] + later)[:2]
        return deadline - (two - one)

    # The other kinds of interval.

    def after_season(self, days, pending, fact):
        if pending and self.too_early(pending, fact.day):
            return pending
        previous = pending.day if pending else fact.day
        for day in days:
            if day > previous:
                if not self.met(day, fact.day):
                    break
                previous = day
        return begun(day, fact, previous)

    def is_baseline(self, fact):
        last = self.day_of("last")
        return last is not None and fact == stated(last, self.job)

    def stated_after(self, fact):
        """The certificate's own deadline after a completion on its day."""
        deadline = self.day_of("deadline")
        if deadline and fact.day == self.day_of("last"):
            return begun(deadline, fact, fact.day)
        return None

    def through_history(self, kind, what):
        def before(deadline):
            return (self.span_before(what, deadline) if kind == "span"
                    else self.season_before(what, deadline))
        pending = self.first(kind == "span")
        if pending and kind == "season" and not self.certificate():
            day = next(d for d in what if d >= pending.day)
            pending = begun(day, pending.fact, pending.previous)
        if pending:
            pending = self.guarded(pending, before(pending.day))
        after = self.after_span if kind == "span" else self.after_season
        facts = self.completions()
        if kind == "span" and self.get("runs-from") in (None, "completion"):
            # Only the newest counts, and the certificate before it.
            facts = [f for f in facts[:-1] if self.stated_after(f)][-1:] + (
                facts[-1:])
        for fact in facts:
            if self.is_baseline(fact):
                pending = None  # what was due before it is not known
            elif self.again(kind, pending, fact):
                continue
            certified = self.stated_after(fact)
            if certified:
                pending = self.guarded(certified, before(certified.day))
                continue
            new = after(what, pending, fact)
            if not self.too_old(pending, fact, new):
                pending = new
        return pending

    def again(self, kind, pending, fact):
        """The same day counts once where the history decides."""
        if kind == "span" and self.get("runs-from",
                                       "completion") == "completion":
            return False
        return (pending is not None and pending.fact.job != ""
                and pending.fact.day == fact.day
                and not self.stated_after(fact))

    def counted(self, until=None):
        """Completions, newest first, with those of the job that also counts
        as far as it does; the fleet file's own is the last of its day."""
        def so_far(facts):
            return [f for f in facts if not until or f.day <= until]
        most, job = (self.get("also-counts") or "0 -").split()
        own = so_far(self.completions())
        others = [] if job == "-" else so_far(self.done(job))
        also = {fact.day for fact in others} - {fact.day for fact in own}
        counted = {fact.day for fact in own}.union(
            sorted(also)[-int(most):] if int(most) else [])
        return sorted((fact for fact in set(own + others)
                       if fact.day in counted), reverse=True, key=in_order)

    def within(self, times, span, apart):
        share = Span(span.in_days() // times, "day")
        if span.n % times == 0:
            share = Span(span.n // times, span.unit)
        def guarded(pending):
            return pending and self.guarded(
                pending, clamped(pending.day, Span(-share.n, share.unit)))
        pending = guarded(self.first(False))
        counting = self.counted()
        for day in sorted({fact.day for fact in counting[:1] + [
                fact for fact in counting if self.stated_after(fact)]}):
            counted = self.counted(day)
            new = guarded(self.stated_after(counted[0])) or self.count_on(
                counted, times, span, share, apart)
            if not self.too_old(pending, counted[0], new):
                pending = new
        return pending

    def count_on(self, counted, times, span, share, apart):
        newest = counted[0]
        days = sorted({fact.day for fact in counted}, reverse=True)
        if len(days) >= times:
            deadline = ends(days[times - 1], span, self.how, self.sticky)
        else:
            deadline = ends(newest.day, share, self.how, self.sticky)
        if apart:
            deadline = min(deadline, clamped(newest.day, apart))
        return begun(deadline, newest)

    def interval(self, text):
        kind, what = parse_interval(text)
        if kind == "within":
            return self.within(*what)
        if kind == "span":
            return self.through_history(kind, what)
        return self.through_history("season", occurrences(kind, what))

    def calls(self):
        """What a follow-on is still open for: all work that calls for it and
        that it does not come after.  On one day the order of entry tells, and
        where the fleet file states either, nothing does."""
        def answers(own, call):
            return own.day > call.day or (
                own.day == call.day and call.recorded
                and own.order > call.order)
        own = self.completions()
        causes = {fact for job in words(self.lines("follows"))
                  for fact in self.done(job)}
        return [call for call in sorted(causes, key=in_order)
                if not any(answers(fact, call) for fact in own)]

    def pending(self):
        """(is there a due at all, the pending deadline or None)."""
        if self.lines("follows"):
            found = [self.fresh(parse_interval(text)[1], call)
                     for call in self.calls()
                     for text in self.get("within").split(" or ")]
            return bool(found), min(
                found, key=lambda p: p.day, default=None)
        texts = self.get("every").split(" or ")
        if texts == ["when needed"]:
            return False, None
        found = [p for p in map(self.interval, texts) if p]
        return True, min(found, key=lambda p: p.day, default=None)

    def counts(self, pending, plan):
        """Work on that day counts for the deadline."""
        if self.lines("follows"):
            return True
        kind, _ = min(
            ((parse_interval(text)[0], self.interval(text))
             for text in self.get("every").split(" or ")),
            key=lambda part: part[1].day if part[1] else date.max)
        rhythm = kind not in ("span", "within") or (
            kind == "span" and self.get("runs-from") == "deadline")
        if rhythm and self.too_early(pending, plan):
            return False
        if pending.fact.job and not rhythm:
            return True
        return not pending.counts_from or plan >= pending.counts_from

    # From the deadline to the answer.

    def plan(self, deadline, facts):
        plan = self.fleet.working.preceding(self.subject, self.job, deadline)
        late = -1 if self.lines("follows") else 0
        if plan and any((plan - fact.day).days <= late for fact in facts):
            return None  # that day has had its turn
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
        there = self.fleet.working.rolled(
            self.subject, self.job, deadline, how)
        if any(first <= there and deadline <= last and deadline < there
               for first, last in self.spells):
            return deadline  # not past a return, nor into a spell
        return there

    def spell_at(self, day):
        for first, last in self.spells:
            if first <= day <= last:
                return last
        return None

    # What failed.

    def failure(self):
        """The newest record of this job's failing that no completion came
        after, by day and then in the order of entry.  What the fleet file
        states has no such order, and settles only the days before it."""
        failed = max((r for r in self.records if r.kind == "failed"
                      and r.subject == self.subject and r.job == self.job),
                     key=lambda r: (r.day, r.id), default=None)
        if failed and any(
                fact.day > failed.day or fact.recorded
                and (fact.day, fact.order) > (failed.day, failed.id)
                for fact in self.completions()):
            return None
        return failed

    def due(self, today):
        """The answer, or None while nothing is due.  What failed is due
        whatever its days say, and even when nothing else asks for it."""
        answer, failed = self.due_by_days(today), self.failure()
        if not failed:
            return answer and answer | {"failed": None, "besides": None}
        if not answer:
            done = self.completions()
            answer = self.answer("ahead") | {
                "subject": self.subject, "job": self.job,
                "last_done": iso(done[-1].day) if done else None,
                "cycle": done[-1].cycle if done else "none"}
        return answer | {
            "state": "failed", "besides": answer["state"],
            "failed": {"day": iso(failed.day), "record": failed.id,
                       "by": None, "reference": None, "note": None}}

    def due_by_days(self, today):
        """The answer as if nothing had failed."""
        is_due, pending = self.pending()
        if not is_due:
            return None
        done = self.completions()
        answer = {"subject": self.subject, "job": self.job,
                  "last_done": iso(done[-1].day) if done else None,
                  "cycle": pending.fact.cycle if pending else "none"}
        if not pending:
            return answer | self.answer("no-record")
        returns = self.spell_at(pending.day)
        if returns == date.max:
            return answer | self.answer("before-return", pending.day) | {
                "holidays_unknown": False}  # they move nothing
        deadline = self.rolled(returns or pending.day)
        plan = self.plan(deadline, done + [
            fact for fact in [pending.fact]
            if self.lines("follows") or fact in self.counted()])
        if plan and not self.counts(pending, plan):
            plan = None
        if deadline < today:
            found = "overdue"
        elif returns:
            found = "before-return"
        else:
            found = in_this_week(today, deadline, plan)
        return answer | self.answer(found, deadline, plan)

    def answer(self, found, deadline=None, plan=None):
        return {"state": found, "deadline": iso(deadline),
                "plan_day": iso(plan), "book_by": iso(self.book_by(plan)),
                "holidays_unknown": bool(
                    deadline and self.fleet.working.unknown(
                        self.subject, self.job, deadline))}


def iso(day):
    return day.isoformat() if day else None


def in_this_week(today, deadline, plan):
    sunday = today + (calendar.SUNDAY - today.weekday()) * DAY
    return "due" if min(deadline, plan or deadline) <= sunday else "ahead"


def dues(fleet, records, today):
    found = [Calculation(fleet, subject, job, records).due(today)
             for subject in fleet.subjects
             for job in fleet.jobs_of(subject)]
    return [due for due in found if due]


def main():
    fleet = Fleet(sys.argv[1])
    answer = dues(fleet, read_ledger(fleet.ledger), parse_day(sys.argv[2]))
    print(json.dumps({"dues": answer}, indent=1))


if __name__ == "__main__":
    main()
