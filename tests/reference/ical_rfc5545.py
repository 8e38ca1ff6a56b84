#!/usr/bin/python3
"""A calendar octet by octet, written from RFC 5545 and RFC 7986 alone.

problems(octets) lists what is wrong.  As a program: check the files named.
"""
import re
import sys
from datetime import date, timedelta

# Section 3.1: a line is at most 75 octets, its end not counted.
LONGEST = 75
NAME = rb"[A-Za-z0-9-]+"
SAFE = rb'[^\x00-\x08\x0a-\x1f\x7f":;,]'
QSAFE = rb'"[^\x00-\x08\x0a-\x1f\x7f"]*"'
PARAM = NAME + rb"=(?:" + QSAFE + rb"|" + SAFE + rb"*)" + \
    rb"(?:,(?:" + QSAFE + rb"|" + SAFE + rb"*))*"
LINE = re.compile(rb"(" + NAME + rb")((?:;" + PARAM + rb")*):(.*)", re.DOTALL)

# Section 3.3.11: TSAFE-CHAR, ":", DQUOTE and the escapes; a comma or a
# semicolon alone is no part of a text.
TEXT = r'(?:[^\x00-\x08\x0a-\x1f\x7f;,\\]|\\[\\;,nN])*'
DATE_TIME = r"\d{8}T([01]\d|2[0-3])[0-5]\d([0-5]\d|60)Z"
DURATION = r"[+-]?P(\d+W|\d+D(T(\d+H)?(\d+M)?(\d+S)?)?|T\d+[HMS](\d+[MS])?" \
    r"(\d+S)?)"
TYPES = {
    "TEXT": TEXT,
    "TEXTS": f"{TEXT}(,{TEXT})*",
    "DATE": r"\d{8}",
    "DATE-TIME": DATE_TIME,
    "INTEGER": r"[+-]?\d{1,10}",
    "DURATION": DURATION,
    # RFC 3986, section 2: what a URI is made of.
    "URI": r"[A-Za-z][A-Za-z0-9+.-]*:"
           r"(?:[A-Za-z0-9._~:/?#\[\]@!$&'()*+,;=-]|%[0-9A-Fa-f]{2})*",
    "VERSION": r"2\.0",
    "STATUS": r"TENTATIVE|CONFIRMED|CANCELLED|NEEDS-ACTION|COMPLETED"
              r"|IN-PROCESS",
    "TRANSP": "OPAQUE|TRANSPARENT",
    "ACTION": "DISPLAY",
    "PERCENT": r"\d\d?|100",
    "PRIORITY": r"\d",
    "CALSCALE": "GREGORIAN",
}

# Name: type, most.  Sections 3.6, 3.6.1, 3.6.2, 3.6.6; RFC 7986, section 4.
MANY = 1000
CALENDAR = {
    "PRODID": ("TEXT", 1), "VERSION": ("VERSION", 1),
    "CALSCALE": ("CALSCALE", 1), "METHOD": ("TEXT", 1),
    "NAME": ("TEXT", MANY), "DESCRIPTION": ("TEXT", MANY),
    "UID": ("TEXT", 1), "LAST-MODIFIED": ("DATE-TIME", 1),
    "URL": ("URI", 1), "CATEGORIES": ("TEXTS", MANY),
    "REFRESH-INTERVAL": ("DURATION", 1), "SOURCE": ("URI", 1),
    "COLOR": ("TEXT", 1),
}
ENTRY = {
    "UID": ("TEXT", 1), "DTSTAMP": ("DATE-TIME", 1),
    "LAST-MODIFIED": ("DATE-TIME", 1), "CREATED": ("DATE-TIME", 1),
    "SEQUENCE": ("INTEGER", 1), "DTSTART": ("DATE", 1),
    "SUMMARY": ("TEXT", 1), "DESCRIPTION": ("TEXT", 1),
    "LOCATION": ("TEXT", 1), "CATEGORIES": ("TEXTS", MANY),
    "STATUS": ("STATUS", 1), "URL": ("URI", 1), "PRIORITY": ("PRIORITY", 1),
    "CLASS": ("TEXT", 1), "COMMENT": ("TEXT", MANY), "COLOR": ("TEXT", 1),
}
EVENT = {**ENTRY, "DTEND": ("DATE", 1), "TRANSP": ("TRANSP", 1)}
TODO = {**ENTRY, "DUE": ("DATE", 1), "COMPLETED": ("DATE-TIME", 1),
        "PERCENT-COMPLETE": ("PERCENT", 1)}
ALARM = {"ACTION": ("ACTION", 1), "TRIGGER": ("DURATION", 1),
         "DESCRIPTION": ("TEXT", 1)}
COMPONENTS = {
    "VCALENDAR": (CALENDAR, ("PRODID", "VERSION")),
    "VEVENT": (EVENT, ("UID", "DTSTAMP", "DTSTART")),
    "VTODO": (TODO, ("UID", "DTSTAMP")),
    "VALARM": (ALARM, ("ACTION", "TRIGGER", "DESCRIPTION")),
}
WITHIN = {None: ("VCALENDAR",), "VCALENDAR": ("VEVENT", "VTODO"),
          "VEVENT": ("VALARM",), "VTODO": ("VALARM",), "VALARM": ()}
# The types that do not go without saying: 3.2.20, RFC 7986 5.7.
STATED = {"DTSTART": "DATE", "DTEND": "DATE", "DUE": "DATE",
          "REFRESH-INTERVAL": "DURATION", "SOURCE": "URI"}
STATUS_OF = {"VEVENT": ("TENTATIVE", "CONFIRMED", "CANCELLED"),
             "VTODO": ("NEEDS-ACTION", "COMPLETED", "IN-PROCESS",
                       "CANCELLED")}


class Component:
    """One that is being read: what it is, and its properties."""

    def __init__(self, kind):
        self.kind = kind
        self.values = {}
        self.children = 0

    def one(self, name):
        return self.values.get(name, [None])[0]


def physical(octets, found):
    """The content lines, unfolded; each line as it stands is looked at."""
    lines = octets.split(b"\r\n")
    if lines.pop() != b"":
        found("the last line does not end with CRLF")
    content = []
    for number, line in enumerate(lines, 1):
        if len(line) > LONGEST:
            found(f"line {number} has {len(line)} octets")
        try:
            line.decode()
        except UnicodeDecodeError:
            found(f"line {number} is not whole characters of UTF-8")
        if re.search(rb"[\x00-\x08\x0a-\x1f\x7f]", line):
            found(f"line {number} has a control character")
        if line[:1] in (b" ", b"\t"):
            if not content:
                found(f"line {number} goes on with nothing")
            else:
                content[-1] += line[1:]
        else:
            content.append(line)
    return content


def real_date(text):
    try:
        return date(int(text[:4]), int(text[4:6]), int(text[6:8]))
    except ValueError:
        return None


def check_value(name, kind, params, value, found):
    stated = params.get("VALUE")
    wanted = STATED.get(name)
    if stated != wanted and (wanted or stated != kind):
        found(f"{name} has VALUE={stated}, not {wanted}")
    for param in params:
        if param not in ("VALUE", "RELATED") and not param.startswith("X-"):
            found(f"{name} has the parameter {param}")
    if not re.fullmatch(TYPES[kind], value):
        found(f"{name} is no {kind}: {value[:60]!r}")
    elif kind in ("DATE", "DATE-TIME") and real_date(value) is None:
        found(f"{name} is no day: {value}")


def check_property(component, line, found):
    parts = LINE.fullmatch(line)
    if not parts:
        found(f"no property: {line[:60]!r}")
        return
    name = parts[1].decode().upper()
    value = parts[3].decode(errors="replace")
    params = dict(p.decode().upper().split("=", 1)
                  for p in re.findall(PARAM, parts[2]))
    known = COMPONENTS[component.kind][0].get(name)
    if known:
        check_value(name, known[0], params, value, found)
    elif name.startswith("X-"):
        # Section 3.8.8.2: a text unless it says otherwise.
        if not re.fullmatch(TYPES["TEXT"], value):
            found(f"{name} is no text: {value[:60]!r}")
    else:
        found(f"{component.kind} has {name}")
    component.values.setdefault(name, []).append(value)


def check_days(component, found):
    start = real_date(component.one("DTSTART") or "")
    for name in ("DTEND", "DUE"):
        end = component.one(name)
        end = real_date(end) if end else None
        # Sections 3.8.2.2 and 3.8.2.3: later than the start.
        if start and end and end <= start:
            found(f"{name} is not after DTSTART in {component.one('UID')}")


def close(component, found):
    known, needed = COMPONENTS[component.kind]
    for name in needed:
        if name not in component.values:
            found(f"{component.kind} lacks {name}")
    for name, values in component.values.items():
        if len(values) > known.get(name, ("TEXT", MANY))[1]:
            found(f"{component.kind} has {name} {len(values)} times")
    if component.kind == "VCALENDAR" and not component.children:
        found("VCALENDAR has no component")
    status = component.one("STATUS")
    if status and status not in STATUS_OF.get(component.kind, ()):
        found(f"{component.kind} is {status}")
    check_days(component, found)


def components(content, found):
    """All components, each checked when it ends."""
    done, open_ = [], []
    for line in content:
        word, _, kind = line.decode(errors="replace").partition(":")
        if word == "BEGIN":
            inside = open_[-1].kind if open_ else None
            if kind not in WITHIN[inside] or (not open_ and done):
                found(f"{kind} begins in {inside}")
                return done
            if open_:
                open_[-1].children += 1
            open_.append(Component(kind))
        elif not open_:
            found(f"outside of the calendar: {line[:60]!r}")
        elif word == "END":
            if kind != open_[-1].kind:
                found(f"{open_[-1].kind} ends as {kind}")
                return done
            close(open_[-1], found)
            done.append(open_.pop())
        else:
            check_property(open_[-1], line, found)
    if open_ or not done:
        found("the calendar does not end")
    return done


def problems(octets):
    """What is wrong with a calendar, a line each; nothing when it is right."""
    out = []
    content = physical(octets, out.append)
    seen = set()
    for component in components(content, out.append):
        if component.kind not in ("VEVENT", "VTODO"):
            continue
        uid = component.one("UID")
        if uid in seen:
            out.append(f"the UID {uid} is there twice")
        seen.add(uid)
    return out


def house_rules(octets):
    """What the RFC allows and subscribers suffer from."""
    out = []
    text = octets.decode(errors="replace")
    if text.splitlines() != text.split("\r\n")[:-1]:
        out.append("some readers see a line end that is no CRLF")
    if text.startswith("\ufeff"):
        out.append("a byte order mark")
    if re.search("[\t\x80-\x9f\u061c\u200e\u200f\u202a-\u202e"
                 "\u2066-\u2069]", text):
        out.append("a tab, a C1 control or a mark that turns the writing")
    if not all(line.strip() for line in text.split("\r\n")[:-1]):
        out.append("a line of nothing but blanks ends a property for some")
    for component in components(physical(octets, out.append), out.append):
        days = [real_date(component.one(name) or "")
                for name in ("DTSTART", "DTEND")]
        if component.kind == "VEVENT" and (
                None in days or days[1] - days[0] != timedelta(1)):
            out.append(f"{component.one('UID')} is not one day long")
        if component.one("STATUS") == "CANCELLED":
            out.append(f"{component.one('UID')} is there and cancelled")
        if "METHOD" in component.values:
            out.append("a calendar to subscribe to has no METHOD")
    return out


def main(paths):
    wrong = 0
    for path in paths:
        with open(path, "rb") as file:
            octets = file.read()
        for problem in problems(octets) + house_rules(octets):
            print(f"{path}: {problem}")
            wrong = 1
    return wrong


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
