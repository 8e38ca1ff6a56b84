"""Counters that truly ran: passengers through twenty stations of the Chicago
"L", a day at a time, 2001 to 2016, as the R package modeldata has them (data
set Chicago).  What stands in for a meter is their running total.
"""
import csv
import io
import subprocess
from bisect import bisect_left

from usage_fleets import Case, mistake

STATIONS = 20
COMMAND = ("data(Chicago, package = 'modeldata');"
           "write.csv(Chicago[, 1:20], row.names = FALSE)")


def totals():
    """The running total of each station, day by day."""
    done = subprocess.run(["Rscript", "-e", COMMAND], text=True, check=True,
                          capture_output=True)
    names, *rows = csv.reader(io.StringIO(done.stdout))
    for station, name in enumerate(names[:STATIONS]):
        total, shown = 0, []
        for row in rows:
            total += round(1000 * float(row[station]))
            shown.append(total)
        yield name, shown


def cases(rng, times):
    """Each station, asked so many times after up to four years of readings that
    were taken about monthly."""
    for name, shown in totals():
        for _ in range(times):
            history = rng.choice((180, 365, 800, 1200, 1460))
            now = rng.randrange(history, len(shown) - 400)
            due = shown[now] + int((shown[now + 365] - shown[now])
                                   * rng.uniform(0.1, 1))
            read, day = [], now - history
            while day <= now:
                read.append(day)
                day += rng.randint(20, 40)
            for wrong in (0, 5):
                readings = [(day, mistake(rng, shown[day])
                             if rng.random() * 100 < wrong else shown[day])
                            for day in read]
                yield Case(name, wrong, readings, [], 0, due,
                           bisect_left(shown, due))
