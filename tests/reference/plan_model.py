"""The planner's problem a second time, from what src/plan/plan.h says alone: random
problems, a checker of plans, and the optimum by a solver of integer programs.

The solver is HiGHS (Huangfu and Hall, Parallelizing the dual revised simplex
method, 2018), through scipy.optimize.milp.
"""
from collections import Counter, defaultdict, namedtuple

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_matrix

Calendar = namedtuple("Calendar", "works closed")
Place = namedtuple("Place", "vehicles minutes")
Group = namedtuple("Group", "away calendar units")
Work = namedtuple("Work", "unit place minutes stays calendar cycles first last"
                  " gap_first gap_last fixed")
Problem = namedtuple("Problem", "places groups units calendars works until")


def weekday(day):
    """Monday is 0; day 0 is a Thursday, as 1970-01-01 was."""
    return (day + 3) % 7


def is_open(calendar, day):
    return bool(calendar.works >> weekday(day) & 1) \
        and day not in calendar.closed


def holds(problem, group, day):
    return group.calendar < 0 or is_open(problem.calendars[group.calendar],
                                         day)


# Random problems.

def random_calendar(rng, days):
    works = rng.choice([0x1f, 0x1f, 0x1f, 0x7f, 0x7f,
                        rng.randint(1, 0x7f)])
    closed = rng.sample(range(days), rng.choice([0, 0, 1, 3]))
    return Calendar(works, frozenset(closed))


def random_work(rng, problem, unit, days):
    cycles = rng.choice([1, 1, 1, 2, 3])
    last = rng.randint(3, days if cycles == 1 else max(3, days // 2))
    gap = rng.randint(4, 12)
    fixed = {}
    if rng.random() < 0.08:
        fixed[0] = rng.randint(max(0, last - 6), last)
    if cycles > 1 and rng.random() < 0.05:
        fixed[1] = rng.randint(last, last + gap)
    return Work(unit, rng.randrange(len(problem.places)),
                rng.choice([0, 60, 60, 120, 240]), rng.random() < 0.15,
                rng.randrange(len(problem.calendars)), cycles,
                last - rng.randint(1, 10), last,
                max(1, gap - rng.randint(0, 6)), gap, fixed)


def random_problem(rng):
    days = rng.randint(8, 30)
    units = rng.randint(1, 8)
    places = [Place(rng.choice([0, 1, 1, 2, 3]), rng.choice([0, 0, 240, 480]))
              for _ in range(rng.randint(1, 3))]
    calendars = [random_calendar(rng, days) for _ in range(rng.randint(1, 4))]
    groups = []
    for _ in range(rng.randint(0, 2)):
        members = [unit for unit in range(units) if rng.random() < 0.6]
        if members:
            groups.append(Group(rng.randint(1, 2), rng.randrange(
                -1, len(calendars)), members))
    problem = Problem(places, groups, units, calendars, [], 0)
    works = [random_work(rng, problem, unit, days)
             for unit in range(units) for _ in range(rng.randint(1, 3))]
    longest = max(w.last + (w.cycles - 1) * w.gap_last for w in works)
    until = rng.choice([longest, max(longest - rng.randint(0, 10), 3)])
    return problem._replace(works=works, until=until)


def as_text(problem):
    """As plan_cases.c reads it."""
    p = problem
    lines = [[len(p.places), len(p.groups), p.units, len(p.calendars),
              len(p.works), p.until]]
    lines += [[c.works, len(c.closed), *sorted(c.closed)]
              for c in p.calendars]
    lines += p.places
    lines += [[g.away, g.calendar, len(g.units), *g.units] for g in p.groups]
    for w in p.works:
        lines.append([*w[:3], int(w.stays), *w[4:10], len(w.fixed)])
        lines += w.fixed.items()
    return "".join(" ".join(map(str, line)) + "\n" for line in lines)


# The checker: what is wrong with a plan.  A plan is {(work, cycle): day}.

def window(work, plan, number, cycle):
    """The days of a call, after the one before it; None when it has none."""
    if cycle == 0:
        return work.first, work.last
    before = plan.get((number, cycle - 1))
    if before is None or cycle >= work.cycles:
        return None
    return before + work.gap_first, before + work.gap_last


def count_late(problem, plan):
    return sum(day is None or day > window(problem.works[w], plan, w, c)[1]
               for (w, c), day in plan.items()
               if problem.works[w].fixed.get(c) != day or day is None)


def wrong_calls(problem, plan):
    """Calls that are missing, too many, or not where they may be."""
    for n, work in enumerate(problem.works):
        cycle = 0
        while (days := window(work, plan, n, cycle)) is not None \
                and days[1] <= problem.until:
            if (n, cycle) not in plan:
                yield f"work {n} cycle {cycle} has no booking"
                break
            day = plan[n, cycle]
            cycle += 1
            fixed = work.fixed.get(cycle - 1)
            if fixed is not None and day != fixed:
                yield f"work {n} cycle {cycle - 1} is not where it was booked"
            if day is None or day == fixed:
                continue
            if day < max(0, days[0]):
                yield f"work {n} cycle {cycle - 1} is too early"
            if not is_open(problem.calendars[work.calendar], day):
                yield f"work {n} cycle {cycle - 1} is on a closed day"
        if (n, cycle) in plan:
            yield f"work {n} cycle {cycle} should not be there"


def visits(problem, plan):
    return {(problem.works[w].unit, problem.works[w].place, day)
            for (w, _), day in plan.items() if day is not None}


def passed_limits(problem, plan):
    """(day, what) of each limit that is passed."""
    works = problem.works
    away = {(works[w].unit, works[w].place, day)
            for (w, _), day in plan.items()
            if day is not None and not works[w].stays}
    minutes = Counter()
    for (w, _), day in plan.items():
        if day is not None:
            minutes[works[w].place, day] += works[w].minutes
    for (place, day), n in minutes.items():
        if 0 < problem.places[place].minutes < n:
            yield day, f"minutes at place {place}"
    for (place, day), n in Counter((p, d) for _, p, d in away).items():
        if 0 < problem.places[place].vehicles < n:
            yield day, f"vehicles at place {place}"
    for (unit, day), n in Counter((u, d) for u, _, d in away).items():
        if n > 1:
            yield day, f"unit {unit} at two places"
    for number, group in enumerate(problem.groups):
        for day, n in Counter(d for u, d in {(u, d) for u, _, d in away}
                              if u in group.units).items():
            if n > group.away and holds(problem, group, day):
                yield day, f"away of group {number}"


# The optimum.

class Model:
    """An integer program: names become columns as they are used."""

    def __init__(self):
        self.columns = {}
        self.rows = []

    def column(self, *name):
        return self.columns.setdefault(name, len(self.columns))

    def constrain(self, terms, least, most):
        """least <= sum of (column, factor) <= most"""
        if terms:
            self.rows.append((terms, least, most))

    def minimise(self, costs):
        """The least cost, None when nothing will do."""
        n = len(self.columns)
        entries = [(row, column, factor)
                   for row, (terms, _, _) in enumerate(self.rows)
                   for column, factor in terms]
        row, column, factor = zip(*entries)
        matrix = coo_matrix((factor, (row, column)),
                            shape=(len(self.rows), n)).tocsr()
        cost = np.zeros(n)
        cost[costs] = 1
        found = milp(cost, integrality=np.ones(n), bounds=Bounds(0, 1),
                     constraints=LinearConstraint(
                         matrix, [r[1] for r in self.rows],
                         [r[2] for r in self.rows]))
        if found.status == 2:
            return None
        if found.status != 0:
            raise RuntimeError(found.message)
        return round(found.fun)


def possible_days(problem, work, cycle):
    """The days of a call, whatever the one before it was done on."""
    fixed = work.fixed.get(cycle)
    first = max(0, work.first) + cycle * work.gap_first
    last = work.last + cycle * work.gap_last
    return [day for day in range(first, min(last, problem.until) + 1)
            if is_open(problem.calendars[work.calendar], day)
            and fixed in (None, day)]


def add_calls(model, problem, n):
    """One day for each call, in the window that the one before it gives.
    Returns whether each can have one."""
    work = problem.works[n]
    days = possible_days(problem, work, 0)
    if work.last > problem.until:
        return True
    if not days:
        return False
    model.constrain([(model.column("call", n, 0, d), 1) for d in days], 1, 1)
    for cycle in range(1, work.cycles):
        before = [d for d in days if d + work.gap_last <= problem.until]
        days = possible_days(problem, work, cycle)
        here = [(model.column("call", n, cycle, d), 1) for d in days]
        # There is such a call when the one before it was early enough.
        model.constrain(here + [(model.column("call", n, cycle - 1, d), -1)
                                for d in before], 0, 0)
        for d in before:
            model.constrain(
                [(model.column("call", n, cycle - 1, d), 1)]
                + [(model.column("call", n, cycle, e), -1) for e in days
                   if d + work.gap_first <= e <= d + work.gap_last],
                -np.inf, 0)
    return True


def add_limits(model, problem):
    calls = [name for name in model.columns if name[0] == "call"]
    at = defaultdict(list)
    for name in calls:
        _, n, _, day = name
        work = problem.works[n]
        call = model.column(*name)
        kinds = ["visit"] if work.stays else ["visit", "away"]
        for kind in kinds:
            model.constrain([(call, 1), (model.column(
                kind, work.unit, work.place, day), -1)], -np.inf, 0)
        at["minutes", work.place, day].append((call, work.minutes))
    for name in [name for name in model.columns if name[0] == "away"]:
        _, unit, place, day = name
        term = (model.column(*name), 1)
        at["vehicles", place, day].append(term)
        at["unit", unit, day].append(term)
        for number, group in enumerate(problem.groups):
            if unit in group.units and holds(problem, group, day):
                at["group", number, day].append(term)
    for (kind, number, _), terms in at.items():
        most = {"minutes": lambda i: problem.places[i].minutes,
                "vehicles": lambda i: problem.places[i].vehicles,
                "unit": lambda i: 1,
                "group": lambda i: problem.groups[i].away}[kind](number)
        if most:
            model.constrain(terms, -np.inf, most)


def fewest_visits(problem):
    """The least number of visits of any plan with nothing late; or None."""
    model = Model()
    if not all([add_calls(model, problem, n)
                for n in range(len(problem.works))]):
        return None
    if not model.columns:
        return 0
    add_limits(model, problem)
    return model.minimise([column for name, column in model.columns.items()
                           if name[0] == "visit"])
