"""What the mail scenarios in Python share."""

import atexit
import email
import os
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time

BUILD = os.path.realpath(os.environ.get("BUILD", "build"))
OSTLER = os.path.join(BUILD, "ostler")
FLEET = os.path.realpath("tests/scenarios/fleet.conf")

failures = 0
folders = []


@atexit.register
def tidy():
    for folder in folders:
        shutil.rmtree(folder, ignore_errors=True)


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
    sys.exit(failures > 0)


def wait_for(come):
    """Wait until come() is true; what does not in five minutes never will."""
    for _ in range(3000):
        if come():
            return
        time.sleep(0.1)


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
            out, err = process.communicate()
        return process.returncode, out + err

    def sql(self, statement):
        with sqlite3.connect(self.file("ledger.db")) as ledger:
            return ledger.execute(statement).fetchall()


def message_id(text):
    return re.search(rb"(?im)^Message-ID: *(<[^>]*>)", text).group(1)


def sent_bytes(place, to):
    return bytes(place.sql(
        f"SELECT bytes FROM outbox WHERE recipient = '{to}'")[0][0])


def arrived(what, place, texts, ends=b"\n"):
    """What arrived, by recipient, is what the outbox holds."""
    for to, text in texts.items():
        wanted = sent_bytes(place, to).replace(b"\r\n", ends)
        same(f"{what}: {to} has what was sent, to the byte", wanted, text)
        same(f"{what}: it is for {to}", to, email.message_from_bytes(text)["To"])
