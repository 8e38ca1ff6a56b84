"""Days in the life of the daemon, by a clock that runs fast.

usage: daemon_day.py OSTLERD OSTLER LIBRARY HOURS RATE

It works in the folder of its fleet, from 05:00 on Wednesday 2 December 2026.
Every line of its output is a check.  By tests/scenarios/fleet.conf people are to
hear of K1's service on the 2nd and of K2's on the 3rd, at seven, and of nothing
else; and the keeper of the fleet file that was wrong.
"""

import atexit
import datetime
import email
import http.client
import os
import re
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from smtp_server import Server

ostlerd, ostler, library, hours, rate = sys.argv[1:]
hours, rate = int(hours), int(rate)
start = datetime.datetime(2026, 12, 2, 5)
begun = time.monotonic()
server = Server()
wrong = 0


def now():
    return start + datetime.timedelta(
        seconds=(time.monotonic() - begun) * rate)


def moment(day, hour, minute=0):
    return datetime.datetime(2026, 12, day, hour, minute)


def check(what, good, seen=""):
    global wrong
    print(("ok - " if good else "not ok - ") + what, flush=True)
    if not good:
        wrong += 1
        print(f"# at {now()}: {seen}", flush=True)


def until(day, hour, minute=0):
    """Wait for that moment; false when it lies beyond the end."""
    wanted = moment(day, hour, minute)
    if wanted > start + datetime.timedelta(hours=hours):
        return False
    while now() < wanted:
        time.sleep(0.01)
    return True


def soon(what, condition, seconds=20):
    """In so many seconds of ours it is so."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if condition():
            check(what, True)
            return
        time.sleep(0.05)
    check(what, False, open("log").read()[-2000:])


class Daemon:
    def __init__(self):
        self.log = open("log", "a")
        self.begin()

    def begin(self):
        known = open("log").read().count("serves at")
        self.process = subprocess.Popen(
            [ostlerd, "-c", "fleet.conf", "--listen", "127.0.0.1:0"],
            stderr=self.log, env=dict(
                os.environ, TZ="UTC", LD_PRELOAD=library,
                FAKETIME=f"@{now():%Y-%m-%d %H:%M:%S} x{rate}",
                FAKETIME_DONT_FAKE_MONOTONIC="1", DONT_FAKE_MONOTONIC="1"))
        for _ in range(400):
            places = re.findall(r"serves at (\S+)", open("log").read())
            if len(places) > known or self.process.poll() is not None:
                break
            time.sleep(0.05)
        if len(places) == known:
            check("it begins", False, open("log").read()[-2000:])
            sys.exit(1)
        self.site = "http://" + places[-1]

    def get(self, path):
        """The status and the bytes.  It always answers: nothing here asks
        while it is down.  But faketime drives the timer of its connections as
        well, though not the monotonic clock, so the half minute for a request
        is a split second of ours.  What was cut off for that, as the log
        says, is asked for again, as browsers do."""
        cut = open("log").read().count("at the end of its time")
        try:
            with urllib.request.urlopen(self.site + path, timeout=10) as r:
                return r.status, r.read()
        except urllib.error.HTTPError as e:
            return e.code, e.read()
        except (OSError, http.client.HTTPException) as e:
            if open("log").read().count("at the end of its time") > cut:
                return self.get(path)
            check(f"{path.split('/')[1]}: somebody answers", False,
                  f"{e}; it ended with {self.process.poll()}")
            sys.exit(1)

    def end(self, how):
        """Nothing but this ends it."""
        if self.process.poll() is not None:
            check("it was still there", False, self.process.returncode)
        self.process.send_signal(how)
        return self.process.wait()


def run(*words):
    day = (now() if "--today" not in words else None)
    done = subprocess.run(
        [ostler, "-c", "fleet.conf", "--today", f"{day:%Y-%m-%d}", *words],
        capture_output=True)
    if done.returncode:
        check(" ".join(words), False, done.stderr)
    return done.stdout


def event(day, title):
    return re.compile(rb"DTSTART;VALUE=DATE:%s.*?SUMMARY:%s" % (
        day.encode(), title.encode()), re.S)


def edit(old, new):
    """Change the fleet file as an editor does: another in its place."""
    text = open("fleet.conf").read()
    assert old in text
    with open("fleet.conf.new", "w") as f:
        f.write(text.replace(old, new))
    os.rename("fleet.conf.new", "fleet.conf")


def messages():
    """What the server has answered for: to whom, of what, and when."""
    for _, to, data in list(server.kept):
        m = email.message_from_bytes(data)
        yield (to if isinstance(to, str) else to[0],
               str(m["Subject"]), m["Message-ID"],
               email.utils.parsedate_to_datetime(m["Date"]).replace(
                   tzinfo=None))


def told(*wanted):
    """Exactly these were sent, each once: to whom, and of what."""
    def is_so():
        return sorted(to.strip("<>").split("@")[0] + ": " + subject
                      for to, subject, *_ in messages()) == sorted(wanted)
    return is_so


FIRST = ("workshop: K1 Service due by Wed 16 Dec",
         "driver: K1 Service due by Wed 16 Dec")
# The mail has failed for six hours by Thursday's reminders, not before.
SECOND = FIRST + (
    "keeper: Trouble with the fleet file",
    "keeper: Over: trouble with the fleet file",
    "workshop: K2 Service due by Thu 17 Dec",
    "keeper: Trouble with the mail")
THIRD = SECOND + ("keeper: Over: trouble with the mail",)


def compare(when):
    """Every feed is as the command line shows it, and as its file is."""
    for name, key in keys.items():
        status, served = daemon.get(key)
        shown = run("feed", name)
        check(f"{when}: the feed {name} is right",
              status == 200 and served == shown,
              f"{status} {len(served)} {len(shown)}")


edit("from = dates@skerrow.example\nby = folder mail",
     "from = dates@skerrow.example\nkeeper = keeper@skerrow.example\n"
     f"by = smtp 127.0.0.1:{server.port}")
edit("[depot harbour]", "[depot far]\ncalendar = workshop\n"
     "time-zone = Pacific/Kiritimati\n\n[depot harbour]")
daemon = Daemon()
atexit.register(lambda: daemon.process.kill())
keys = {name: run("key", name).decode().strip() for name in ("all", "k2")}
soon("the keys open", lambda: daemon.get(keys["k2"])[0] == 200)

# --- Wednesday ------------------------------------------------------------------

until(2, 6, 30)
check("before seven nobody has heard", told()(), list(messages()))
until(2, 7, 0)
soon("at seven two hear of K1's service", told(*FIRST))
check("not before", all(m[3] >= moment(2, 7) for m in messages()),
      list(messages()))
until(2, 12)
compare("at noon")
run("record", "K1", "annual-test", "--on", "2026-12-02")
soon("a record is in the feed", lambda: not event(
    "20270104", "K1 - Annual test").search(daemon.get(keys["all"])[1]))

until(2, 15)
server.plan = [("connect", 0, "close 421 out of order")]
edit("[mail]", "nonsense = yes\n\n[mail]")
soon("a wrong fleet file is known", lambda: daemon.get("/health")[0] == 503)
compare_now = daemon.get(keys["all"])
check("the feed stays", compare_now[0] == 200 and b"K1 - Service"
      in compare_now[1])
until(2, 17)
edit("nonsense = yes\n\n[mail]", "[mail]")
soon("mended", lambda: b'"fleet": true' in daemon.get("/health")[1])
check("the mail of both waits",
      b'"waiting": 0' not in daemon.get("/health")[1])
until(2, 18)
daemon.end(signal.SIGKILL)
until(2, 19)
daemon.begin()
compare("after SIGKILL")

# --- Thursday -------------------------------------------------------------------

if until(3, 0, 30):
    soon("a pass at midnight", lambda: b'"last_pass": "2026-12-03'
         in daemon.get("/health")[1])
if until(3, 6):
    daemon.end(signal.SIGKILL)
if until(3, 8):
    daemon.begin()
if until(3, 9):
    check("while the server is out of order nothing is lost",
          told(*FIRST)(), list(messages()))
    server.plan = []
    soon("when it is back, everybody has theirs, once", told(
        *SECOND), 7 * 3600 / rate + 20)
    compare("then")
if until(3, 16):
    edit("works = mon tue wed thu fri",
         "works = mon tue wed thu fri\nclosed = 2027-03-09 Stocktaking")
    soon("a closed day moves a date", lambda: event(
        "20270308", "K2 - Annual test").search(daemon.get(keys["k2"])[1]))
    daemon.process.send_signal(signal.SIGHUP)
    compare("after SIGHUP")

# --- Friday, to Saturday ----------------------------------------------------------

if until(4, 12):
    compare("on Friday")
    run("record", "K2", "service", "--on", "2026-12-04")
    soon("another record is in the feed", lambda: not event(
        "20261217", "K2 - Service").search(daemon.get(keys["all"])[1]))
    check("SIGTERM ends it well", daemon.end(signal.SIGTERM) == 0)
if until(4, 18):
    daemon.begin()
    compare("after SIGTERM")
if until(5, 4, 30):
    compare("on Saturday")
    check("nobody has heard of anything else", told(
        *THIRD)(),
        list(messages()))
ids = [m[2] for m in messages()]
check("no message came twice", len(ids) == len(set(ids)), ids)
check("all is well in the end", daemon.get("/health")[0] == 200,
      daemon.get("/health"))
check("it ends well", daemon.end(signal.SIGTERM) == 0)
log = open("log").read()
check("no key is in the log",
      not any(key.split("/")[2] in log for key in keys.values()))
sys.exit(wrong > 0)
