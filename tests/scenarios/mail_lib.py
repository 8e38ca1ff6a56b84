"""What the mail scenarios in Python share."""

import os
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile

BUILD = os.path.realpath(os.environ.get("BUILD", "build"))
OSTLER = os.path.join(BUILD, "ostler")
FLEET = os.path.realpath("tests/scenarios/fleet.conf")

failures = 0
folders = []


def check(what, good, seen=""):
    """Say whether WHAT is so, and if not, what was seen."""
    global failures
    if good:
        print(f"ok - {what}", flush=True)
        return
    print(f"not ok - {what}")
    for line in str(seen).splitlines()[:30]:
        print("#", line)
    sys.stdout.flush()
    failures += 1


def same(what, wanted, got):
    check(what, wanted == got, f"wanted {wanted!r}\ngot    {got!r}")


def finish():
    for folder in folders:
        shutil.rmtree(folder, ignore_errors=True)
    sys.exit(failures > 0)


class Place:
    """A folder of its own with the fleet file of the scenarios, and mail."""

    def __init__(self, mail):
        self.path = tempfile.mkdtemp(prefix="scenario-", dir=BUILD)
        folders.append(self.path)
        self.mail(mail)

    def mail(self, mail):
        with open(FLEET, encoding="utf-8") as file:
            text = file.read().replace("by = folder mail", mail)
        with open(self.file("fleet.conf"), "w", encoding="utf-8") as file:
            file.write(text)

    def file(self, name):
        return os.path.join(self.path, name)

    def write(self, name, text, mode=0o600):
        with open(self.file(name), "w", encoding="utf-8") as file:
            file.write(text)
        os.chmod(self.file(name), mode)

    def start(self, *words, day="2026-12-02", before=()):
        clock = ["--today", day] if day else []
        # The leak checker does not work under strace.
        leaks = {"ASAN_OPTIONS": "detect_leaks=0"} if before else {}
        return subprocess.Popen(
            [*before, OSTLER, "-c", "fleet.conf", *clock, *words],
            cwd=self.path, env={**os.environ, **leaks}, stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)

    def run(self, *words, **more):
        """The exit code, and all that was said."""
        with self.start(*words, **more) as process:
            out, err = process.communicate(timeout=120)
        return process.returncode, out + err

    def sql(self, statement):
        with sqlite3.connect(self.file("ledger.db")) as ledger:
            return ledger.execute(statement).fetchall()


def message_id(text):
    return re.search(rb"(?im)^Message-ID: *(<[^>]*>)", text).group(1)
