"""Fleets whose texts mean harm, from a seed, with what their feeds must say.

fleet(rng, folder) writes a fleet file and a sheet of records and returns what
to expect.  Every day is worked out here: a job of every N days, done on a
stated day, is due N days later, each coming cycle N days after the plan day of
the one before it, and a day on which the workshop is closed moves the plan day
to the day before.
"""
import csv
from datetime import date, timedelta

TODAY = date(2026, 12, 2)
HORIZON = 300

# What others would take for structure, escape, encode or turn round.
ATOMS = [
    ",", ";", "\\", '"', ":", "'", "\\n", "\\N", "\\,", "\\;", "\\\\", "\\\\n",
    "=0A", "=0D=0A", "%0A", "%0D%0A", "%2C", "%5C", "&#10;", "&amp;", "<b>",
    "^n", "^'", "^^", "BEGIN:VEVENT", "END:VEVENT", "END:VCALENDAR",
    "DTSTART:20260101", "ATTACH:file:///x", "METHOD:CANCEL", "TZID=", "{}",
    "%s%n", "${x}", "`id`", "$(id)", "\U0001f68c", "\U0001f469\u200d\U0001f527",
    "e\u0301\u0302\u0323", "a\u0300" * 3, "\u05d0\u05d1", "\u0645\u0631",
    "\u8f66\u691c", "\u0e01\u0e33", "\ufeff", "\u00ad", "\u200b", "\u00a0",
    "\u3000", "\U000e0041", "\ufffc", "\ufffd", "\U0010fffd", "\ue000",
    "\u2028", "\u2029", "\u202e", "\u2067", "\u200f", "\u061c", "\ufffe",
    "\ufdd0", "\U0001ffff", " ", "  ", "x", "Lift", "oil", "1", "-", "/",
]
# What no fleet file may hold, and what a table is rid of.
CONTROLS = ["\r", "\x0b", "\x0c", "\x85", "\x9b", "\x00", "\x01", "\x1b",
            "\x7f", "\x90"]

TURNING = set("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e"
              "\u2066\u2067\u2068\u2069")
SEPARATORS = set("\t\n\x0b\x0c\x85\u2028\u2029")


def clean(text):
    """By the rule in clean.h, for one line of valid UTF-8."""
    out = []
    for c in text:
        point = ord(c)
        if c in SEPARATORS or c.isspace():
            if not (out and out[-1].isspace()):
                out.append(" " if c in SEPARATORS else c)
        elif point < 32 or 127 <= point < 160 or c in TURNING:
            continue
        elif point & 0xfffe == 0xfffe or 0xfdd0 <= point <= 0xfdef:
            out.append("\ufffd")
        else:
            out.append(c)
    return "".join(out)


def name_of(text):
    """The name of a calendar: blanks for what readers differ in."""
    return clean("".join(" " if c in ",;\\" else c for c in text))


def some_text(rng, most):
    """A text of up to so many octets that a fleet file takes as it is."""
    most = min(rng.choice([12, 40, 74, 75, 76, 120, most]), most) - 2
    filler = rng.choice(["x", "\u00e9", "\u8f66", "\U0001f68c", "x\u0301"])
    out = ""
    while True:
        more = rng.choice(ATOMS) if rng.random() < 0.6 else \
            filler * rng.randint(1, 40)
        if len((out + more).encode()) > most:
            break
        out += more
    # A value is trimmed, and "a ;b" is refused lest it be a lost comment.
    while " ;" in out:
        out = out.replace(" ;", ";")
    return "v" + out.rstrip(" \u00a0\u3000") + "z"


def hard_text(rng, most):
    """One line of the most that a fleet file takes, with a long run in it."""
    run = rng.choice([" ", "\\", ",", "\u8f66", "\U0001f68c", "\u00e9", '"'])
    room = most - 2
    before = rng.randint(0, min(room - 1, 90))
    left = (room - before) // len(run.encode())
    return "v" + "x" * before + run * left + "z"


def key(name, text):
    return f"{name} = {text}"


def line_text(rng, name):
    """A value for that key, its line of 199 octets with the end at most."""
    most = 198 - len(f"{name} = ")
    return (hard_text if rng.random() < 0.25 else some_text)(rng, most)


def chain(last, every, closed):
    """The plan day of each cycle that the feed shows, the current one first,
    and whether it is overdue."""
    out = []
    day = last
    until = TODAY + timedelta(HORIZON)
    while True:
        deadline = day + timedelta(every)
        plan = deadline
        while plan in closed:
            plan -= timedelta(1)
        if plan > until and deadline > until:
            return out
        out.append((plan, deadline))
        day = plan


def write_sheet(rng, path):
    """Records with hostile words, and notes of up to 10,000 characters.
    Returns how many rows an import must refuse for a control character."""
    bad = 0
    with open(path, "w", newline="", encoding="utf-8") as file:
        sheet = csv.writer(file)
        sheet.writerow(["subject", "job", "day", "by", "reference", "note"])
        for n in range(rng.randint(1, 3)):
            note = some_text(rng, 300) * rng.randint(1, 200)
            row = [some_text(rng, 200), some_text(rng, 200), note[:10000]]
            if rng.random() < 0.1:
                row[rng.randrange(3)] += rng.choice("\x01\x1b\x7f") + "z"
                bad += 1
            sheet.writerow(["K0", "noted", TODAY - timedelta(30 + n), *row])
    return bad


def escape(text):
    """As a TEXT of RFC 5545, section 3.3.11."""
    for c in "\\;,":
        text = text.replace(c, "\\" + c)
    return text.replace("\n", "\\n")


def write_holidays(rng, path, days):
    """A file of an authority whose names hold what others forbid."""
    with open(path, "w", newline="", encoding="utf-8") as file:
        file.write("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\n")
        for day in days:
            name = some_text(rng, 300) + rng.choice(
                ["", "\n", "\u2028", "\u2029\n"]) + "z"
            file.write(f"BEGIN:VEVENT\r\nUID:{day}\r\n"
                       f"DTSTART;VALUE=DATE:{day:%Y%m%d}\r\n"
                       f"SUMMARY:{escape(name)}\r\nEND:VEVENT\r\n")
        file.write("END:VCALENDAR\r\n")


class Expected:
    """What the feeds of a fleet must say."""

    def __init__(self):
        self.name = ""
        self.authority = {}
        self.caution = {}
        self.events = []
        self.bad_rows = 0


def jobs_of(rng, out, closed):
    lines = []
    jobs = {}
    for n in range(rng.randint(1, 3)):
        job = f"job-{n}"
        title = line_text(rng, "title")
        while title in [other["title"] for other in jobs.values()]:
            title = line_text(rng, "title")
        jobs[job] = {
            "title": title, "every": rng.randint(40, 400),
            "authority": line_text(rng, "authority"),
            "caution": line_text(rng, "caution")}
        lines += [f"[job {job}]", key("title", jobs[job]["title"]),
                  "class = own", f"every = {jobs[job]['every']} days",
                  key("authority", jobs[job]["authority"]),
                  key("caution", jobs[job]["caution"])]
        out.authority[job] = clean(jobs[job]["authority"])
        out.caution[job] = clean(jobs[job]["caution"])
    lines += ["[job noted]", "title = Noted", "class = own",
              "every = 20 years", "[calendar c]", "title = C",
              "works = mon tue wed thu fri sat sun", "holidays = h",
              "closed ="]
    for day in sorted(closed)[2:]:
        lines.append(f"  {day} " + some_text(rng, 180))
    return jobs, lines


def fleet(rng, folder):
    """Write fleet.conf and sheet.csv into the folder."""
    out = Expected()
    title = line_text(rng, "title")
    out.name = name_of(title)
    closed = {TODAY + timedelta(n)
              for n in rng.sample(range(1, HORIZON), 4)}
    jobs, lines = jobs_of(rng, out, closed)
    write_holidays(rng, folder / "h.ics", sorted(closed)[:2])
    lines += ["[holidays h]", "file = h.ics",
              "known-until = 2030-12-31",
              "[site]", key("name", line_text(rng, "name")),
              "time-zone = UTC", "ledger = ledger.db", "feed-folder = feeds",
              "[depot d]", "calendar = c",
              "[feed f]", key("title", title), "shows = all",
              f"horizon = {HORIZON} days",
              "[feed todos]", key("title", line_text(rng, "title")),
              "shows = all", "as = to-dos", "alarm = 1 week",
              "history = 1 year"]
    for n in range(rng.randint(1, 3)):
        subject = f"K{n}"
        lines += [f"[vehicle {subject}]", key("title", line_text(rng, "title")),
                  "depot = d", "jobs = noted " + " ".join(jobs)]
        for job, facts in jobs.items():
            # Overdue now and then, and then the next is out of sight.
            late = facts["every"] > HORIZON and rng.random() < 0.4
            last = TODAY - timedelta(
                facts["every"] + rng.randint(1, 20) if late
                else rng.randint(1, facts["every"]))
            if rng.random() < 0.2 and not late:
                closed_day = rng.choice(sorted(closed))
                moved = closed_day - timedelta(facts["every"])
                last = moved if moved < TODAY else last
            lines.append(f"{job}.last = {last}")
            for cycle, (plan, deadline) in enumerate(
                    chain(last, facts["every"], closed)):
                out.events.append({
                    "subject": subject, "job": job, "day": plan.isoformat(),
                    "deadline": deadline,
                    "is": "Forecast" if cycle else
                          "Overdue" if deadline < TODAY else "Due"})
    with open(folder / "fleet.conf", "w", encoding="utf-8") as file:
        file.write("\n".join(lines) + "\n")
    out.bad_rows = write_sheet(rng, folder / "sheet.csv")
    return out


def spoil(rng, folder):
    """Put what no fleet file may hold somewhere into a value of it, or into
    the name of a holiday.  Returns the line that is to blame, and what it is.
    """
    path = folder / "fleet.conf"
    lines = path.read_bytes().split(b"\n")
    if rng.random() < 0.2:
        bad = rng.choice(["\x01", "\x85", "\x1b", "\x9f"])
        holidays = folder / "h.ics"
        holidays.write_bytes(holidays.read_bytes().replace(
            b"SUMMARY:v", b"SUMMARY:v" + bad.encode(), 1))
        return lines.index(b"file = h.ics") + 1, repr(bad)
    places = [n for n, line in enumerate(lines) if line.startswith(
        (b"title = v", b"name = v", b"authority = v", b"caution = v"))]
    at = rng.choice(places)
    bad = rng.choice([c.encode() for c in CONTROLS]
                     + [b"\xff", b"\xc3", b"\xed\xa0\x80", b"\xc0\x8a",
                        b"\xf4\x90\x80\x80", b" ;", b"y" * 199])
    where = lines[at].index(b"= v") + 3
    lines[at] = lines[at][:where] + bad + lines[at][where:]
    path.write_bytes(b"\n".join(lines))
    return at + 1, bad
