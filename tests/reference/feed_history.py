"""A history: what happens to a fleet, step by step, and after each step the
pass, whose feeds are judged."""
import json
import os
import subprocess
from datetime import date, timedelta
from pathlib import Path

from feed_history_calm import Calm
from feed_history_dues import Names, Picture
from feed_history_fleet import Fleet
from feed_history_rules import Judge, day_of, is_due, read, require
from feed_history_steps import STEADY, STEPS, first, nothing

OSTLER = Path(os.environ.get("BUILD", "build")).resolve() / "ostler"
FEW = 4


class File:
    """A feed's file as it is at one time."""

    def __init__(self, path, last=None):
        self.path = path
        self.there = path.exists()
        self.octets = path.read_bytes() if self.there else b""
        status = path.stat() if self.there else None
        self.mark = status and (status.st_ino, status.st_mtime_ns)
        if last and last.octets == self.octets:
            self.events, self.own = last.events, last.own
        elif self.octets.startswith(b"BEGIN"):
            self.events, self.own = read(self.octets)
        else:
            self.events, self.own = {}, None

    def says(self):
        """All but what it was read into."""
        return {uid: e[:4] for uid, e in self.events.items()}

    def dues(self):
        return sum(map(is_due, self.events.values()))


class History:
    """A fleet on its way through time, in a folder of its own."""

    def __init__(self, rng, folder, tally):
        self.rng = rng
        self.folder = folder
        self.tally = tally
        self.today = date(2026, 1, 1) + timedelta(rng.randrange(700))
        self.fleet = Fleet(rng, self.today)
        self.judges = {name: Judge() for name in self.fleet.feeds}
        self.files = {}
        self.names = Names()
        self.calm = Calm()
        self.records = []
        self.copies = []  # of the ledger, with what it knew
        self.old = []  # files of feeds
        self.told = []
        self.undo = None  # what ends a loss
        self.away = {}  # feeds that are not in the fleet file now
        self.ledger = folder / "ledger.db"

    # --- The program ---

    def run(self, *words):
        return subprocess.run(
            [OSTLER, "-c", "fleet.conf", "--today", str(self.today),
             *map(str, words)],
            cwd=self.folder, text=True, capture_output=True, check=False)

    def enter(self, *words):
        """A record; one that is refused is no matter, for a wrong reading is
        part of life."""
        done = self.run(*words)
        require(done.returncode in (0, 64, 65), "a record is taken or refused",
                words, done.stderr)
        self.tally["refused"] += done.returncode != 0
        for line in done.stdout.splitlines():
            if line.startswith("record "):
                self.records.append(int(line.split()[1].rstrip(":")))
        return " ".join(map(str, words)) + (" (refused)" * (
            done.returncode != 0))

    # --- One step and its pass ---

    def step(self):
        rng = self.rng
        choices = STEPS if self.told else [(1, first)]
        what, = rng.choices([s for _, s in choices],
                            [weight for weight, _ in choices])
        self.what = what
        said = what(self)
        self.told.append(f"{self.today} {what.__name__}: {said}")
        self.tally["steps"] += 1
        (self.folder / "fleet.conf").write_text(self.fleet.text(),
                                                encoding="utf-8")
        self.look()
        unchanged = {n: (f.octets, f.mark) for n, f in self.files.items()} \
            if what is nothing else None
        self.night()
        if unchanged is not None:
            self.tally["same"] += 1
            require(unchanged == {n: (f.octets, f.mark)
                                  for n, f in self.files.items()},
                    "when nothing has changed no file is touched")

    def look(self):
        for name in self.fleet.feeds:
            self.files[name] = File(self.folder / "feeds" / f"{name}.ics",
                                    self.files.get(name))

    def night(self):
        done = self.run("nightly")
        require(done.returncode in (0, 65), "the pass goes well",
                done.returncode, done.stderr)
        # Of many that are held back the message names only some.
        held = [name for name in self.fleet.feeds
                if f"feed {name} --accept" in done.stderr
                or "; and more" in done.stderr and self.is_loss(name)]
        require((done.returncode == 65) == bool(held), "held back or well",
                done.stderr)
        dues = self.dues()
        self.calm.look(self.fleet, dues, self.what in STEADY)
        for name in self.fleet.feeds:
            self.judge(name, dues, name in held)
        if held and self.what is not nothing and self.rng.random() < 0.4:
            name = self.rng.choice(held)
            done = self.run("feed", name, "--accept")
            require(done.returncode == 0, "a loss is accepted", done.stderr)
            self.told.append(f"{self.today} accept {name}")
            self.tally["accepted"] += 1
            self.judge(name, dues, False, accepted=True)
        elif self.rng.random() < 0.05:
            self.compare_printed(held)

    def dues(self):
        done = self.run("due", "--json")
        require(done.returncode == 0, "the dues are told", done.stderr)
        return json.loads(done.stdout)["dues"]

    def judge(self, name, dues, held, accepted=False):
        before = self.files[name]
        after = File(before.path, before)
        judge = self.judges[name]
        require(after.there or held, "the file is there", name)
        if held:
            require(before.mark == after.mark, "held back is left alone", name)
            require(self.is_loss(name),
                    "only a loss of more than half is held back", name)
            self.tally["held"] += 1
        else:
            lost = before.dues() >= FEW and after.dues() * 2 < before.dues()
            require(accepted or not lost, "more than half is held back", name,
                    before.dues(), after.dues())
            if before.own == after.own and before.says() == after.says():
                require(before.mark == after.mark,
                        "the same events leave the file alone", name)
                self.tally["steady"] += 1
        if held:
            judge.learn(before.events)
        else:
            judge.published(before.events, after.events)
            picture = Picture(self.fleet, name, after.events, dues, self.today)
            picture.judge(self.names)
            self.calm.judge(name, picture)
            shown = {(str(e.component["SUMMARY"]), day_of(e))
                     for e in after.events.values()}
            require(len(shown) == len(after.events)
                    or picture.form == "to-dos",
                    "no two events of a day read the same", name)
        self.tally["published"] += before.octets != after.octets
        if after.octets != before.octets:
            self.old.append((name, after.octets, after.mark[1]))
        self.files[name] = after

    def printed(self, name):
        """What `feed` prints; it stamps what it shows, so the ledger is put
        back."""
        kept = self.ledger.read_bytes()
        done = self.run("feed", name)
        self.ledger.write_bytes(kept)
        require(done.returncode == 0, "a feed is printed", done.stderr)
        return done.stdout.encode().replace(b"\r\n", b"\n").replace(
            b"\n", b"\r\n")

    def is_loss(self, name):
        """What the feed has now is less than half of what its file has."""
        before = self.files[name].dues()
        events, _ = read(self.printed(name))
        return before >= FEW and sum(map(is_due, events.values())) * 2 < before

    def compare_printed(self, held):
        for name in set(self.fleet.feeds) - set(held):
            require(self.printed(name) == self.files[name].octets,
                    "a feed is printed as it is published", name)
