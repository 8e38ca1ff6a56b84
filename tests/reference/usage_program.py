"""The program usage.c, built and asked."""
import os
import shlex
import subprocess

HERE = os.path.dirname(os.path.abspath(__file__))
SOURCE = os.path.join(HERE, "..", "..", "src")
BUILD = os.environ.get("BUILD", "build")


def build():
    program = os.path.join(BUILD, "tests", "reference", f"usage-{os.getpid()}")
    os.makedirs(os.path.dirname(program), exist_ok=True)
    subprocess.run(
        shlex.split(os.environ.get("CC", "gcc")) + ["-O2", "-std=c11"]
        + shlex.split(os.environ.get("SANITIZE", ""))
        + [f"-I{SOURCE}/{layer}" for layer in ("base", "calendar", "usage")]
        + ["-o", program, f"{HERE}/usage.c", f"{BUILD}/libostler.a", "-lm"],
        check=True)
    return program


def ask(questions):
    """One answer, a list of words, to each."""
    program = build()
    try:
        done = subprocess.run([program], input="\n".join(questions), text=True,
                              capture_output=True, check=True)
    finally:
        os.remove(program)
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
