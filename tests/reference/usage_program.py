"""The program usage.c, asked."""
import os
import subprocess

PROGRAM = os.path.join(os.environ.get("BUILD", "build"), "tests", "reference",
                       "usage")


def ask(questions):
    """One answer, a list of words, to each."""
    done = subprocess.run([PROGRAM], input="\n".join(questions), text=True,
                          capture_output=True, check=True)
    return [line.split() for line in done.stdout.splitlines()]


def question(what, readings, spells=(), yearly=0, due=0):
    numbers = [n for pair in [*readings, *spells] for n in pair]
    return f"{what} {len(readings)} {len(spells)} {yearly} {due} " + " ".join(
        map(str, numbers))


def forecasts(cases):
    """[basis, seasonal, early, likely, late] of each; a day may be None."""
    for basis, season, *days in ask(
            [question("forecast", c.readings, c.spells, c.yearly, c.due)
             for c in cases]):
        yield (int(basis), season == "1",
               *(None if day == "-" else int(day) for day in days))
