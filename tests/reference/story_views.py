"""What each view says of each due, and where two of them differ: the list,
why, JSON, CSV, feed, mail, page and plan of one fleet on one day."""
import csv
import email
import email.policy
import html
import io
import json
import re
from datetime import date, timedelta

DAYS = "Mon Tue Wed Thu Fri Sat Sun".split()
MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()
HEADS = {"No record": "no-record", "Failed": "failed", "Overdue": "overdue",
         "Needs a reading": "needs-reading", "Before return": "before-return",
         "This week": "due", "Coming": "ahead"}
# What the title of an event says of a state, for the clients that show no more.
TITLES = {"overdue": "overdue", "failed": "failed", "no-record": "no record",
          "before-return": "before return"}


def listed(day):
    """A day as lists have it: Sat 2027-01-30."""
    return f"{DAYS[date.fromisoformat(day).weekday()]} {day}"


def spoken(day, year=True):
    """A day as mail and page have it: Sat 30 Jan 2027."""
    d = date.fromisoformat(day)
    words = f"{DAYS[d.weekday()]} {d.day} {MONTHS[d.month - 1]}"
    return f"{words} {d.year}" if year else words


def compare_csv(dues, text):
    """The CSV has the same days and states."""
    keys = ("state", "deadline", "plan_day", "book_by", "last_done", "cycle")
    rows = {(r["subject"], r["job"]): r
            for r in csv.DictReader(io.StringIO(text))}
    for due in dues:
        row = rows.pop((due["subject"], due["job"]), None)
        if row is None:
            yield f"CSV: no {due['subject']} {due['job']}"
            continue
        for key in keys:
            if (row[key] or None) != due[key]:
                yield f"CSV: {key} {row[key]}, JSON {due[key]}"
    for row in rows:
        yield f"CSV: {row} besides"


def compare_list(dues, text):
    """The list has each due under its state, with both days."""
    head, lines = None, []
    for line in text.splitlines():
        head = HEADS.get(line, head)
        lines.append((head, line))
    for due in dues:
        day = listed(due["plan_day"]) if due["plan_day"] else "-"
        by = f"by {listed(due['deadline'])}, " if due["deadline"] else ""
        want = re.compile(rf"  {day} +{re.escape(due['subject'])} +"
                          rf"{re.escape(due['title'])} +{by}{due['class']}")
        found = [state for state, line in lines if want.match(line)]
        if due["state"] not in found:
            yield (f"list: no line {want.pattern} under {due['state']}, "
                   f"but {found}")


def compare_why(due, text):
    """Why has the same days and state."""
    said = dict(re.findall(r"(?m)^(state|deadline|plan day|book by) +(\S.*)$",
                           text))
    want = {"state": due["state"],
            "deadline": due["deadline"] and listed(due["deadline"]),
            "plan day": due["plan_day"] and listed(due["plan_day"]),
            "book by": due["book_by"] and listed(due["book_by"])}
    for key, value in want.items():
        if said.get(key) != value:
            yield f"why: {key} {said.get(key)}, JSON {value}"


def events(text):
    """The events of a feed that are of a due of now: (title, day)."""
    text = text.replace("\r\n", "\n").replace("\n ", "")
    for event in re.findall(r"BEGIN:VEVENT\n(.*?)END:VEVENT", text, re.S):
        title = re.search(r"(?m)^SUMMARY:(.*)$", event)[1].replace("\\", "")
        day = re.search(r"DTSTART;VALUE=DATE:(\d{8})", event)[1]
        if not re.search(r"^\S+ (forecast|done)\b[\w, ]* - ", title):
            yield title, f"{day[:4]}-{day[4:6]}-{day[6:]}"


def compare_feed(dues, text, today, at):
    """The feed has one event a due, on its day; `at` has those that stand
    elsewhere."""
    there = list(events(text))
    far = (date.fromisoformat(today) + timedelta(days=900)).isoformat()
    for due in dues:
        key = (due["subject"], due["job"])
        day = at.get(key, due["plan_day"] or due["deadline"])
        if day and day > far:
            continue
        mine = [e for e in there if re.match(
            rf"{re.escape(key[0])} (\w[\w, ]* )?- {re.escape(due['title'])}",
            e[0])]
        if due["state"] == "failed" and key not in at:
            day = None
        if not any(day in (None, e[1]) for e in mine):
            yield f"feed: {key} not on {day}: {mine}"
        word = TITLES.get(due["state"])
        if word and not any(re.search(rf" {word}\b[\w, ]* - ", e[0])
                            for e in mine):
            yield f"feed: {key} does not say {word}: {mine}"


def compare_page(dues, text, today):
    """The page lists the next time of each job of the coming year, by its day
    or its state."""
    rows = [html.unescape(re.sub(r" *(<[^>]+>)+ *", "|", row)) for row in
            re.findall(r"<tr>(<th scope=\"row\"><bdi>.*?)</tr>", text)]
    year = (date.fromisoformat(today) + timedelta(days=358)).isoformat()
    for due in dues:
        day = due["plan_day"] or due["deadline"]
        if due["state"] == "ahead" and (not day or day > year):
            continue
        mine = [r for r in rows if f"|{due['subject']}|" in r
                and f"|{due['title']}|" in r]
        want = {spoken(day)} if day else set()
        want |= {word for word, state in HEADS.items()
                 if state == due["state"] and state not in ("due", "ahead")}
        if not any(f"|{w}|" in r for w in want for r in mine):
            yield f"page: {due['subject']} {due['job']} not {want}: {mine}"


def waits(due, today):
    """Whether nobody is told yet: no stage has a day, or the day of one that
    waits for a return with no day known is still to come."""
    if not due["deadline"]:
        return due["state"] in ("due", "ahead")
    return (due["state"] == "before-return" and not due["plan_day"]
            and today < due["deadline"])


def compare_mail(dues, messages, jobs, today):
    """The first message has each due with its days."""
    entries = []
    for octets in messages:
        mail = email.message_from_bytes(octets, policy=email.policy.default)
        text = mail.get_body(("plain",)).get_content().replace("\r\n", "\n")
        entries += re.findall(r"(?ms)^\d+\. .*?(?=\n\n)|^- .*?$", text)
    for due in dues:
        if due["job"] not in jobs or waits(due, today):
            continue
        name = re.compile(rf"(\d+\.|-) {re.escape(due['subject'])}:? "
                          rf"{re.escape(due['title'])}[\n,]")
        mine = [e for e in entries if name.match(e)]
        want = [spoken(due["deadline"])] if due["deadline"] else []
        if due["plan_day"]:
            want.append(spoken(due["plan_day"], year=False))
        if not any(all(w in e for w in want) for e in mine):
            yield f"mail: {due['subject']} {due['job']}, {want}: {mine}"


def compare_plan(dues, text, today, planner):
    """The plan has a day for each due that has one, for the same deadline."""
    plan = json.loads(text)
    for due in dues:
        key = (due["subject"], due["job"])
        mine = [b for b in plan["bookings"]
                if (b["subject"], b["job"]) == key and b["cycle"] == 0]
        with_wider = [c for c in plan["covered"]
                      if (c["subject"], c["job"]) == key]
        without = any((u["subject"], u["job"]) == key
                      for u in plan["undated"])
        if due["plan_day"] and today <= due["deadline"] and \
                due["plan_day"] <= (plan["until"] or "9999") and \
                not mine and not with_wider and not without:
            yield f"plan: nothing for {key}"
        for c in with_wider:
            if c["deadline"] != due["deadline"]:
                yield f"plan: {key} by {c['deadline']}, JSON {due['deadline']}"
            if planner and due["plan_day"] and c["day"] != due["plan_day"]:
                yield f"plan: {key} on {c['day']}, JSON {due['plan_day']}"
        for b in mine[:1]:
            if b["deadline"] != due["deadline"]:
                yield f"plan: {key} by {b['deadline']}, JSON {due['deadline']}"
            if b["day"] and b["day"] > b["deadline"] and not b["late"]:
                yield f"plan: {key} on {b['day']} is not called late"
            if planner and due["plan_day"] and due["plan_day"] >= today and \
                    b["day"] != due["plan_day"]:
                yield f"plan: {key} on {b['day']}, JSON {due['plan_day']}"
