"""A file of stories: what happened to a small fleet, and the day that follows
by an outside source.  README.md says what stands in one."""
import re
from datetime import date

KNOWN = {"READ", "2ND", "MEM", "CALC", "OWN"}
EXPECTED = {"state", "deadline", "plan", "book", "last", "reading", "unit",
            "early", "likely", "late", "event", "cycle", "warns", "quiet"}
HEAD = """[site]
name = Skerrow Isles Stories
time-zone = Europe/London
ledger = ledger.db
feed-folder = feeds
{site}
[mail]
from = dates@skerrow.example
by = folder mail
[calendar all]
works = mon tue wed thu fri sat sun
[calendar wd]
works = mon tue wed thu fri
[depot d]
calendar = {calendar}
[person p]
mail = p@skerrow.example
told = all
[feed f]
shows = all
horizon = 30 months
"""
JOB = {"title": "Job", "class": "own"}
VEHICLE = {"depot": "d", "registered": "2019-01-01", "distance-unit": "km",
           "jobs": "j"}
# Everybody is told of everything, so that the mail can be compared.
REMIND = "remind = 30 years, 0 days, overdue every 1 day"


class Wrong(Exception):
    """A story that cannot be read."""


class Due:
    """What is expected of one due."""

    def __init__(self, text):
        words = text.split()
        self.subject, self.job = words[:2]
        self.absent = words[2:] == ["absent"]
        self.values = []
        for word in [] if self.absent else words[2:]:
            key, sign, value = word.partition("=")
            if not sign or key not in EXPECTED:
                raise Wrong(f"{word}: one of {', '.join(sorted(EXPECTED))}")
            self.values.append((key, value))
        if not self.absent and not self.values:
            raise Wrong(f"{text}: nothing is expected")


class Story:
    """One story, as it stands in its file."""

    def __init__(self, name, where):
        self.name, self.where = name, where
        self.source, self.working, self.known = "", "", set()
        self.blocks = {"site": [], "job": [], "vehicle": [], "fleet": []}
        self.calendar = "wd"
        self.steps = []     # (word, day, what)

    def fleet(self):
        """The fleet file, and the jobs whose every stage is told."""
        site = "\n".join(self.blocks["site"])
        text = HEAD.format(site=site, calendar=self.calendar)
        if self.blocks["job"] or self.blocks["vehicle"]:
            text += section("job j", JOB, self.blocks["job"])
            text += section("vehicle V", VEHICLE, self.blocks["vehicle"])
        text += "\n".join(self.blocks["fleet"]) + "\n"
        return told(text)


def section(name, usual, lines):
    """A section of these lines, and what is usual where they say nothing."""
    stated = {line.split("=")[0].strip() for line in lines}
    rest = [f"{k} = {v}" for k, v in usual.items() if k not in stated]
    return "\n".join([f"[{name}]"] + rest + lines) + "\n"


def told(text):
    """The text with reminders where a job has none, and the names of these
    jobs."""
    jobs = set()
    parts = re.split(r"(?m)^(?=\[)", text)
    for i, part in enumerate(parts):
        name = re.match(r"\[job (\S+)\]", part)
        if name and "remind =" not in part and "when needed" not in part:
            jobs.add(name[1].lower())
            head, _, rest = part.partition("\n")
            parts[i] = f"{head}\n{REMIND}\n{rest}"
    return "".join(parts), jobs


def read(path):
    """The stories of a file."""
    stories, story, into, shared = [], None, None, {}
    for number, line in enumerate(path.read_text().splitlines(), 1):
        where = f"{path.name}:{number}"
        try:
            if line.startswith("#"):
                continue
            if not line.strip():
                into = None if into in ("source", "working") else into
            elif line[0] == " " and into in shared:
                shared[into][1].append(line[4:])
            elif line[0] == " ":
                further(story, into, line)
            elif line.startswith("define "):
                _, kind, into = line.split()
                shared[into] = (kind, [])
            elif line.startswith("use "):
                kind, lines = shared[line.split()[1]]
                story.blocks[kind] += lines
            else:
                story, into = begin(stories, story, line, where)
        except (Wrong, ValueError, AttributeError, KeyError) as wrong:
            raise SystemExit(f"{where}: {line!r}: {wrong}") from wrong
    for story in stories:
        if not story.source or not story.known or not story.working:
            raise SystemExit(f"{story.where}: source, known and working "
                             "are needed")
        if not any(step[0] in ("due", "refused", "condition") for step in story.steps):
            raise SystemExit(f"{story.where}: nothing is expected")
    return stories


def further(story, into, line):
    """A line that goes on with what was begun."""
    if into in ("source", "working"):
        setattr(story, into, f"{getattr(story, into)} {line.strip()}")
    elif into in story.blocks:
        story.blocks[into].append(line[4:])
    else:
        raise Wrong("goes on with nothing")


def begin(stories, story, line, where):
    """A line that begins with its word."""
    word, _, rest = line.partition(" ")
    rest = rest.strip()
    if word == "story":
        story = Story(rest, where)
        stories.append(story)
    elif word in ("source", "working"):
        setattr(story, word, rest)
    elif word == "known":
        story.known = set(rest.split())
        if story.known - KNOWN:
            raise Wrong(f"one of {', '.join(sorted(KNOWN))}")
    elif word == "calendar":
        story.calendar = rest
    elif word in ("do", "refused"):
        day, _, what = rest.partition(" ")
        date.fromisoformat(day)
        story.steps.append((word, day, what))
    elif word == "at":
        date.fromisoformat(rest)
        story.steps.append((word, rest, None))
    elif word == "due":
        story.steps.append((word, None, Due(rest)))
    elif word == "condition":
        story.steps.append((word, None, rest.split()))
    elif word == "edit":
        old, _, new = rest.partition(" => ")
        story.steps.append((word, old, new.replace("\\n", "\n")))
    elif word not in story.blocks:
        raise Wrong("no such word")
    return story, word
