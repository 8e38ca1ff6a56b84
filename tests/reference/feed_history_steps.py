"""What may happen in a History: each step does it and returns what it did."""
import os
import shutil
from datetime import timedelta

from feed_history_fleet import HORIZONS, OTHERWISE
from feed_history_rules import require


def first(h):
    return "the first pass"


def nothing(h):
    return ""


def days(h):
    h.today += timedelta(h.rng.choice([1, 1, 1, 2, 5, 12, 30, 75]))
    return ""


def record(h):
    subject, job = h.rng.choice(h.fleet.tasks())
    on = h.today - timedelta(h.rng.choice([0, 0, 1, 8, 40]))
    words = ["record", subject, job, "--on", on]
    if h.rng.random() < 0.15:
        words += ["--result", "failed"]
    keys = h.fleet.subjects[subject]
    if keys["kind"] == "vehicle" and h.rng.random() < 0.5:
        words += ["--reading", odometer(h, keys, on)]
    return h.enter(*words)


def odometer(h, keys, on):
    """More use in summer, and now and then a wrong digit."""
    shown = h.fleet.odometer(keys, on) + int(
        keys["#rate"] * 20 * (1 + abs(on.timetuple().tm_yday - 182) / -91))
    return shown if h.rng.random() < 0.97 else shown + 900


def due_work(h):
    """The most urgent due is done."""
    dues = [d for d in h.dues() if d["state"] in ("due", "overdue")]
    if not dues:
        return days(h)
    return h.enter("record", dues[0]["subject"], dues[0]["job"], "--on",
                   h.today)


def reading(h):
    subject = h.rng.choice(h.fleet.vehicles())
    on = h.today - timedelta(h.rng.choice([0, 0, 0, 2]))
    return h.enter("reading", subject,
                   odometer(h, h.fleet.subjects[subject], on), "--on", on)


def void(h):
    if not h.records:
        return nothing(h)
    number = h.rng.choice(h.records[-6:])
    return h.enter("record", "--void", number, "--note", "wrong")


def off_road(h):
    subject = h.rng.choice(list(h.fleet.subjects))
    if h.rng.random() < 0.5:
        until = h.today + timedelta(h.rng.choice([-1, 0, 20]))
        return h.enter("off-road", subject, "--until", until)
    words = ["off-road", subject, "--from",
             h.today - timedelta(h.rng.choice([0, 5]))]
    if h.rng.random() < 0.4:
        words += ["--until", h.today + timedelta(h.rng.randint(0, 60))]
    return h.enter(*words)


def move(h):
    carried = [n for n in h.fleet.subjects if n not in h.fleet.vehicles()]
    if not carried:
        return off_road(h)
    return h.enter("move", h.rng.choice(carried),
                   h.rng.choice(h.fleet.vehicles()), "--on", h.today)


def clock_back(h):
    h.today -= timedelta(h.rng.choice([1, 3, 10, 200]))
    return ""


def edit_title(h):
    if h.rng.random() < 0.5:
        job = h.rng.choice(list(h.fleet.jobs))
        h.fleet.jobs[job]["title"] = h.rng.choice(
            ["Service", f"{job}; long, and \u00e4 " + "very " * 12 + "long",
             f"The {job}"])
        return f"job {job}"
    subject = h.rng.choice(list(h.fleet.subjects))
    h.fleet.subjects[subject]["title"] = f"anew {h.rng.randrange(9)}"
    return f"subject {subject}"


def edit_interval(h):
    job = h.rng.choice(list(OTHERWISE))
    h.fleet.jobs[job]["every"] = h.rng.choice(OTHERWISE[job])
    return f"{job} every {h.fleet.jobs[job]['every']}"


def edit_subjects(h):
    before = set(h.fleet.subjects)
    h.rng.choice([h.fleet.add_vehicle, h.fleet.add_equipment,
                  lambda day: h.fleet.remove_vehicle()])(h.today)
    return " ".join(sorted(before ^ set(h.fleet.subjects)))


def edit_deadline(h):
    subject, job = h.rng.choice([
        task for task in h.fleet.tasks()
        if task[1] not in ("wheel-off", "retorque", "winter")]
        or [(None, None)])
    if subject is None:
        return nothing(h)
    key = f"{job}.deadline"
    keys = h.fleet.subjects[subject]
    day = h.today + timedelta(h.rng.randint(-10, 200))
    if keys.pop(key, None) is None and day >= keys.get(f"{job}.last", day):
        keys[key] = day
    return f"{subject} {key} {keys.get(key)}"


def edit_depot(h):
    if h.rng.random() < 0.3:
        subject = h.rng.choice(h.fleet.vehicles())
        keys = h.fleet.subjects[subject]
        keys["depot"] = "hill" if keys["depot"] == "harbour" else "harbour"
        return f"{subject} to {keys['depot']}"
    closed = h.fleet.closed[h.rng.choice(["harbour", "hill"])]
    for _ in range(h.rng.randint(1, 4)):
        day = h.today + timedelta(h.rng.randint(0, 120))
        closed[day] = "Regatta, day"
    # Where an event stands is where a closure moves it.
    some = h.rng.choice(list(h.fleet.feeds))
    for event in h.files[some].events.values():
        if event.component.name == "VEVENT" and h.rng.random() < 0.2:
            closed[event.component["DTSTART"].dt] = "Stocktaking"
    while len(closed) > 12:
        closed.pop(h.rng.choice(list(closed)))
    return " ".join(map(str, closed))


def edit_feed(h):
    name = h.rng.choice(list(h.fleet.feeds))
    feed = h.fleet.feeds[name]
    key, values = h.rng.choice([
        ("title", [None, "Dues; north", "Another"]),
        ("horizon", HORIZONS), ("history", [None, "2 months"]),
        ("as", ["events", "to-dos"]), ("alarm", [None, "1 week"])])
    value = h.rng.choice(values)
    if value is None:
        feed.pop(key, None)
    else:
        feed[key] = value
    return f"{name} {key} {value}"


def edit_feeds(h):
    """A feed is taken out, and its file stays; or comes back."""
    if h.away:
        name, feed = h.away.popitem()
        h.fleet.feeds[name] = feed
        return f"{name} is back"
    name = h.rng.choice(list(h.fleet.feeds))
    h.away[name] = h.fleet.feeds.pop(name)
    return f"{name} is taken out"


def edit_site(h):
    """Every UID is another one from now on."""
    h.fleet.site["name"] = h.rng.choice(["Skerrow, north", "Skerrow south"])
    return h.fleet.site["name"]


def edit_url(h):
    h.fleet.site["page-url"] = "https://dues.skerrow.example/" + h.rng.choice(
        "ab")
    return h.fleet.site["page-url"]


def loss(h):
    """Most of a feed is gone by mistake, for some passes."""
    if h.undo:
        feed, h.undo = h.undo, None
        if feed[0] in h.fleet.feeds:
            h.fleet.feeds[feed[0]].update(feed[1])
        return f"{feed[0]} mended"
    name = h.rng.choice(list(h.fleet.feeds))
    h.undo = name, dict(h.fleet.feeds[name])
    h.fleet.feeds[name].update(h.rng.choice([
        {"shows": "job retorque"}, {"horizon": "1 week"},
        {"horizon": "3 days"}]))
    return f"{name} {h.fleet.feeds[name]}"


def backup(h):
    copy = h.folder / f"copy-{len(h.copies)}"
    if h.rng.random() < 0.5:
        done = h.run("backup", copy)
        require(done.returncode == 0, "a backup is made", done.stderr)
    else:
        shutil.copyfile(h.ledger, copy)
    h.copies.append((copy, {name: dict(j.ledger)
                            for name, j in h.judges.items()}))
    return copy.name


def restore(h):
    if not h.copies:
        return backup(h)
    copy, knew = h.rng.choice(h.copies[-3:])
    if h.rng.random() < 0.3:
        done = h.run("restore", copy, "--drop-newer")
        require(done.returncode == 0, "a backup is restored", done.stderr)
    else:
        shutil.copyfile(copy, h.ledger)
    forget(h, knew)
    return copy.name


def forget(h, knew):
    for name, judge in h.judges.items():
        judge.ledger = dict(knew.get(name, {}))
    h.calm.forget()


def no_ledger(h):
    h.ledger.unlink()
    h.records = []
    forget(h, {})
    return ""


def old_file(h):
    if not h.old:
        return nothing(h)
    name, octets, written = h.rng.choice(h.old[-8:])
    if name not in h.fleet.feeds:
        return nothing(h)
    path = h.folder / "feeds" / f"{name}.ics"
    path.write_bytes(octets)
    kept = h.rng.random() < 0.5
    if kept:
        os.utime(path, ns=(written, written))
    return name + " with its time" * kept


def spoil_file(h):
    name = h.rng.choice(list(h.fleet.feeds))
    path = h.folder / "feeds" / f"{name}.ics"
    if h.rng.random() < 0.5:
        path.unlink(missing_ok=True)
    else:
        path.write_bytes(b"<html>502 Bad Gateway</html>\n")
    return name


# What leaves every job as it was, but for how far its vehicle has been.
STEADY = {nothing, days, reading, clock_back, edit_title, edit_feed,
          edit_feeds, edit_url, loss, backup, old_file, spoil_file}

STEPS = [(6, nothing), (16, days), (9, record), (7, due_work), (7, reading),
         (5, void), (4, off_road), (1, move), (3, clock_back), (2, edit_title),
         (3, edit_interval), (2, edit_subjects), (3, edit_deadline),
         (4, edit_depot), (4, edit_feed), (1, edit_url), (1, edit_site),
         (2, edit_feeds), (4, loss),
         (4, backup), (4, restore), (1, no_ledger), (3, old_file),
         (1, spoil_file)]
