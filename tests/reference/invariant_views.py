"""What each view of ostler says of the dues, read back from what it writes:
{(subject, title of the job): {what: as it says}}."""
import csv
import html
import io
import json
import re
from datetime import datetime

DAYS = ("deadline", "plan_day", "book_by", "last_done")
WORDED = r"\w{3} (\d{4}-\d\d-\d\d)"
TITLE = re.compile(r"^(\S+)(?: (.*?))? - (.*)$")
ROW = re.compile(r'<tr><th scope="row"><bdi>(.*?)</bdi></th><td>(.*?)</td>'
                 r"<td>(?:(\S+) )?<bdi>(.*?)</bdi></td>")


def from_json(text):
    return {(due["subject"], due["title"]): due
            for due in json.loads(text)["dues"]}


def from_csv(text):
    return {(row["subject"], row["title"]):
            {key: value or None for key, value in row.items()}
            for row in csv.DictReader(io.StringIO(text))}


def from_list(text):
    """Each line has a plan day or a dash, and "by" a deadline."""
    found = {}
    form = re.compile(rf"^  (?:{WORDED}|-+|\s+)\s*  (\S+) +(Job \S+)  "
                      rf"(?:by {WORDED}, )?")
    for line in text.splitlines():
        row = form.match(line)
        if row:
            found[row[2], row[3]] = {"plan_day": row[1], "deadline": row[4]}
    return found


def from_why(text):
    """The heads of the answers, of what it carries as well; a key that a head
    leaves out has no day."""
    found = {}
    for line in text.splitlines():
        head = re.match(r"(\S+)(?: \(.*\))?: (Job \S+)$", line)
        said = re.match(r"(deadline|plan day|book by|last done) +"
                        rf"(?:{WORDED})?", line)
        if head:
            here = found[head[1], head[2]] = dict.fromkeys(DAYS)
        elif said and found:
            here[said[1].replace(" ", "_")] = said[2]
    return found


def from_feed(text):
    found = {}
    unfolded = text.replace("\r\n", "\n").replace("\n ", "")
    for event in unfolded.split("BEGIN:VEVENT\n")[1:]:
        keys = dict(line.split(":", 1) for line in event.splitlines()
                    if ":" in line)
        title = TITLE.match(keys["SUMMARY"])
        if not title or title[2] in ("forecast", "done"):
            continue
        start = keys["DTSTART;VALUE=DATE"]
        deadline = re.search(rf"Deadline: {WORDED}", keys["DESCRIPTION"])
        book_by = re.search(rf"Book by: {WORDED}", keys["DESCRIPTION"])
        found[title[1], title[3]] = {
            "day": f"{start[:4]}-{start[4:6]}-{start[6:]}", "says": title[2],
            "deadline": deadline[1] if deadline else None,
            "book_by": book_by[1] if book_by else None}
    return found


def from_page(text):
    """The next time of each job, as a list: a day, or how it stands."""
    return {(carried or html.unescape(subject), html.unescape(title)):
            iso_day(day)
            for subject, day, carried, title in ROW.findall(text)}


def iso_day(words):
    try:
        return datetime.strptime(words, "%a %d %b %Y").date().isoformat()
    except ValueError:
        return words


def from_plan(text):
    """The next time of each job; later cycles are no dues yet."""
    return {(b["subject"], b["title"]): b
            for b in json.loads(text)["bookings"] if b["cycle"] == 0}


def covered_by_plan(text):
    """What a wider job does for, with the day of that one."""
    return {(c["subject"], c["title"]): c for c in json.loads(text)["covered"]}


def from_plan_csv(text):
    """Each row of the plan, those of later cycles too."""
    return {(row["subject"], row["title"], row["day"], row["deadline"])
            for row in csv.DictReader(io.StringIO(text))}
