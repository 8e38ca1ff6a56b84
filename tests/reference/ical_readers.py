"""Five libraries that read calendars, each in one process for all files.  Of a
to-do the start is the day it is due."""
import io
import json
import os
import subprocess
from pathlib import Path

import icalendar
import vobject

HERE = Path(__file__).resolve().parent
BUILD = Path(os.environ.get("BUILD", "build")).resolve()
MODULES = BUILD / "node"
PACKAGES = {"ical.js": "2.2.1", "node-ical": "0.20.1"}


def text(value):
    return None if value is None else str(value)


def day(value):
    return None if value is None else value.isoformat()


def read_icalendar(path):
    calendar = icalendar.Calendar.from_ical(path.read_bytes())
    events = []
    for e in calendar.subcomponents:
        categories = e.get("CATEGORIES")
        start = "DUE" if e.name == "VTODO" else "DTSTART"
        events.append({
            "uid": text(e.get("UID")),
            "start": day(e[start].dt if start in e else None),
            "end": day(e["DTEND"].dt if "DTEND" in e else None),
            "sequence": int(e["SEQUENCE"]),
            "summary": text(e.get("SUMMARY")),
            "description": text(e.get("DESCRIPTION")),
            "categories": [text(c) for c in categories.cats]
                          if categories else [],
            "status": text(e.get("STATUS")),
        })
    return {"name": text(calendar.get("X-WR-CALNAME")), "events": events}


def read_vobject(path):
    # As servers do that use it, with quoted-printable taken into account.
    calendar, = vobject.readComponents(
        io.StringIO(path.read_bytes().decode(), newline="\n"), allowQP=True)
    events = []
    for e in calendar.components():
        value = lambda name, e=e: e.getChildValue(name)
        events.append({
            "uid": value("uid"),
            "start": day(value("due" if e.name == "VTODO" else "dtstart")),
            "end": day(value("dtend")),
            "sequence": int(value("sequence")),
            "summary": value("summary"),
            "description": value("description"),
            "categories": value("categories") or [],
            "status": value("status"),
        })
    return {"name": calendar.getChildValue("x_wr_calname"), "events": events}


def install_modules():
    if not all((MODULES / "node_modules" / name).is_dir()
               for name in PACKAGES):
        MODULES.mkdir(parents=True, exist_ok=True)
        subprocess.run(
            ["npm", "install", "--silent", "--no-audit", "--no-fund",
             "--prefix", MODULES,
             *[f"{name}@{version}" for name, version in PACKAGES.items()]],
            check=True)


def lines_of(command, paths):
    """Start a reader on all paths; returns what gives its lines."""
    names = "".join(f"{path}\n" for path in paths)
    done = subprocess.run(command, input=names, check=True, text=True,
                          stdout=subprocess.PIPE,
                          env={**os.environ, "TZ": "UTC"})
    return [json.loads(line) for line in done.stdout.split("\n") if line]


def outcome(read, path):
    try:
        return read(path)
    except Exception as e:  # pylint: disable=broad-except
        return {"name": None, "events": [], "broken": repr(e)}


def read_all(paths):
    """For each path a dict: the name of a reader and what it reads there."""
    install_modules()
    c = lines_of([BUILD / "tests/reference/ical_reader"], paths)
    node = lines_of(["node", HERE / "ical-reader.mjs", MODULES], paths)
    return [{"libical": c[i],
             "icalendar": outcome(read_icalendar, path),
             "vobject": outcome(read_vobject, path),
             "ical.js": node[i][0], "node-ical": node[i][1]}
            for i, path in enumerate(paths)]
