"""A message to a person, as a reader of it sees it."""
import email
import email.policy
import re
from datetime import datetime

from second_reminders import Message, Told

HEADING = re.compile(r"^(.*) \((\d+)\)$")
ITEM = re.compile(r"^\d+\. (\w+)(?: \([^)]*\))?: (.*)$")
DAYS = re.compile(r"^Deadline(?: and plan day)?: (\w{3} \d+ \w{3} \d{4}"
                  r"|not known)")
MOVED = re.compile(r"^Deadline moved: from (.*) to (.*)$")


# What is told the moment a vehicle is stopped, or no longer is, goes by its
# condition and not by days: `told-at-once` is its test.
AT_ONCE = ("Not to be driven: ", "May be driven again: ", "Not known, ask: ")


class Unreadable(Exception):
    pass


def is_at_once(raw):
    mail = email.message_from_bytes(raw, policy=email.policy.default)
    return mail["Subject"].startswith(AT_ONCE)


def read_day(text):
    if not text or text in ("not known", "no day"):
        return None
    return datetime.strptime(text, "%a %d %b %Y").date()


def parts(text):
    """[(heading, [line, ...])] of the plain text."""
    found = []
    for line in text.splitlines():
        heading = HEADING.match(line)
        if heading and not line.startswith(("-", " ")) and not ITEM.match(
                line):
            found.append((heading[1], int(heading[2]), []))
        elif found:
            found[-1][2].append(line)
    return found


def in_full(lines, jobs):
    """[Told] of a group whose dues are told in full."""
    found = []
    for line in lines:
        item, day, moved = (form.match(line) for form in (ITEM, DAYS, MOVED))
        if item:
            found.append(Told(item[1], jobs[item[2]], None, None))
        elif moved:
            found[-1] = found[-1]._replace(old=read_day(moved[1]),
                                           deadline=read_day(moved[2]))
        elif day:
            deadline = read_day(day[1])
            if found[-1].old and found[-1].deadline != deadline:
                raise Unreadable(f"two deadlines: {line}")
            found[-1] = found[-1]._replace(deadline=deadline)
    return found


def named(lines, jobs):
    """[Told] of a group whose dues are only named."""
    found = []
    for line in lines:
        if line.startswith("- "):
            about, *stated = line[2:].rsplit(" (", 1)[0].split(", ")
            subject, title = about.split(" ", 1)
            days = [part.removeprefix("deadline ").removeprefix(
                "overdue since ") for part in stated
                if part.startswith(("deadline ", "overdue since "))]
            found.append(Told(subject, jobs[title],
                              read_day(days[0] if days else None), None))
    return found


def outlook_until(text, subject):
    """The last day of the outlook, or None without one."""
    found = re.search(r"(?m)that is due by (.*?),|^Nothing.* by (.*?)[.,]",
                      text)
    if found:
        return read_day(found[1] or found[2])
    return None if "Outlook" not in subject else subject


class Mail:
    def __init__(self, raw, jobs):
        """jobs: {title: id}"""
        self.raw = raw
        mail = email.message_from_bytes(raw, policy=email.policy.default)
        self.to = mail["To"].addresses[0].addr_spec
        self.date = mail["Date"].datetime.date()
        self.id, self.subject = mail["Message-ID"], mail["Subject"]
        text = mail.get_body(("plain",)).get_content()
        self.message = Message(outlook_until(text, self.subject))
        for heading, count, lines in parts(text):
            only_named = heading in ("Under way", "Outlook")
            items = (named if only_named else in_full)(lines, jobs)
            if len(items) != count:
                raise Unreadable(f"{heading}: {count}, and {len(items)}")
            if heading == "Under way":
                self.message.under_way = items
            elif heading == "Outlook":
                self.message.listed = items
            else:
                self.message.groups[heading] = items
