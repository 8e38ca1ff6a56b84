"""daemon_abuse.py SITE PID FEED PAGE OSTLER TIMES [ATTACK...]: misuse ostlerd,
which serves at SITE a feed of 1 MiB and a person's page, while people use it.

It works in the folder of the fleet, and tries all that is quick TIMES times
over; all that is slow goes on meanwhile, unless an ATTACK is named.
"""

import re
import socket
import struct
import subprocess
import sys
import threading
import time
import urllib.parse

import http_abuse as abuse
from http_abuse import Bystander, ask, check, connect

TODAY = "2026-12-02"
site, pid, feed, page, ostler = sys.argv[1:6]
times = int(sys.argv[6])
at = abuse.at = abuse.Target(site, pid)
at.feed = at.huge = feed
at.form = page
# As src/http/http_server.c has them.
at.seconds, at.per_address, at.connections = 30, 32, 512
# With those that trickle there are to be fewer than that.
at.crowd = 60
OWN = {"Origin": site, "Content-Type": "application/x-www-form-urlencoded"}

# MB by which it may grow.  512 connections with 16 KiB for a request and twice
# as much for a form are 24; then there are a feed of 1 MiB and a page of 2 MiB,
# the latter twice: one set that is being made, and one that slow readers keep.
GROWTH = 24 + 2 * 5 + 6

# --- People -------------------------------------------------------------------


def see_feed():
    answer = ask("GET", feed)
    return (answer.status == 200 and len(answer.bytes) > 900000
            and answer.bytes.endswith(b"END:VCALENDAR\r\n"))


def see_page():
    answer = ask("GET", page)
    return answer.status == 200 and answer.bytes.endswith(b"</html>\n")


def see_health():
    answer = ask("GET", "/health")
    return answer.status == 200 and b'"well": true' in answer.bytes


def a_form(subject, **fields):
    """The form of the page for that vehicle's kit-check, filled in."""
    html = ask("GET", page).bytes.decode()
    hidden = re.search(
        f'(<input type="hidden" name="subject" value="{subject}">'
        '<input type="hidden" name="job" value="kit-check">.*?)<fieldset>',
        html)[1]
    form = dict(re.findall('name="(.*?)" value="(.*?)"', hidden))
    return urllib.parse.urlencode(
        form | {"result": "completed", "on": TODAY, "initials": "AF"}
        | fields)


class Fitter(Bystander):
    """Records from the page, a vehicle after the other."""

    def __init__(self):
        super().__init__("a form was taken", self.post, pause=1)
        self.vehicle = 0
        self.body = None

    def prepare(self):
        self.vehicle += 1
        self.body = a_form(f"K{self.vehicle}")

    def post(self):
        answer = ask("POST", page, self.body, OWN)
        return answer.status == 200 and b"Recorded" in answer.bytes


class Clerk(Bystander):
    """Records at the command line, and looks for it in the feed."""

    def __init__(self):
        super().__init__("a record was in the feed", self.see, pause=1)
        self.vehicle = 100
        self.tag = ""
        self.before = []

    def days(self):
        """On which the feed has the vehicle's kit-checks, unless the feed is
        what it was when this was last asked."""
        answer = ask("GET", feed, None, {"If-None-Match": self.tag})
        if answer.status == 304:
            return self.before
        self.tag = answer.headers["ETag"]
        return re.findall(
            b"DTSTART([^\r]*)\r\nDTEND[^\r]*\r\nSUMMARY:K%d - kit-check\r"
            % self.vehicle, answer.bytes)

    def prepare(self):
        self.vehicle += 1
        self.tag = '""'
        self.before = self.days()
        subprocess.run(
            [ostler, "-c", "fleet.conf", "--today", TODAY, "record",
             f"K{self.vehicle}", "kit-check", "--on", TODAY],
            check=True, stdout=subprocess.DEVNULL)

    def see(self):
        end = time.monotonic() + 10
        while time.monotonic() < end:
            if self.days() != self.before:
                return True
            time.sleep(0.05)
        return False


def people():
    """All who use it meanwhile, and how long each may wait, in seconds."""
    return {Bystander("the feed was answered", see_feed, 0.2): 1,
            Bystander("the page was answered", see_page, 0.2): 1,
            Bystander("/health was answered", see_health, 0.2): 1,
            Fitter(): 1,
            Clerk(): 2}


class Gauge(threading.Thread):
    """Looks at the memory all the while."""

    def __init__(self):
        super().__init__()
        self.over = threading.Event()
        self.most = 0

    def run(self):
        while not self.over.wait(0.2):
            self.most = max(self.most, abuse.memory())


# --- Forms --------------------------------------------------------------------


def many(n, send):
    """What came of calling @send with each number up to @n, four at once."""
    came = []

    def some(first):
        for k in range(first, n, 4):
            came.append(send(k))

    threads = [threading.Thread(target=some, args=(k,)) for k in range(4)]
    for t in threads:
        t.start()
    for t in threads:
        t.join()
    return came


def post(path, body, **headers):
    """The status that a form gets."""
    return ask("POST", path, body, OWN | headers).status


def all_get(what, status, send):
    came = many(100, send)
    check(f"forms: {what} gets {status}", set(came) == {status}, came[:10])


def forms():
    """Forms by the hundred that are none of ours."""
    good = a_form("K200")
    bad = re.sub("token=[^&]*", "token=" + 64 * "0", good)
    key = at.key_of(page)
    huge = "a=" + 20000 * "b"
    all_get("a wrong key", 404,
            lambda n: post(page.replace(key, f"{n:032d}"), good))
    all_get("a wrong seal", 422, lambda n: post(page, bad))
    all_get("another site", 403,
            lambda n: post(page, good, Origin="https://elsewhere.example"))
    all_get("what is none", 415,
            lambda n: post(page, good, **{"Content-Type": "text/plain"}))
    all_get("one that is too big", 413, lambda n: post(page, huge))
    all_get("one too big in pieces", 413, lambda n: post(page, iter(
        [huge[:9000].encode(), huge[9000:].encode()])))
    for _ in range(10):
        gone(bad)
        time.sleep(0.2)


def head(length):
    return (f"POST {page} HTTP/1.1\r\nHost: x\r\nOrigin: http://x\r\n"
            "Content-Type: application/x-www-form-urlencoded\r\n"
            f"Content-Length: {length}\r\n\r\n").encode()


def gone(body):
    """Those who send a form and go before they are answered."""
    sockets = [connect(n + 1) for n in range(10)]
    for s in sockets:
        s.sendall(head(len(body)) + body.encode())
    time.sleep(0.02)
    for s in sockets:
        s.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER,
                     struct.pack("ii", 1, 0))
        s.close()


def slow_bodies():
    """40 who send a form a byte a second."""
    start = time.monotonic()
    sockets = [connect(n + 1) for n in range(40)]
    alive = set(sockets)
    for s in sockets:
        s.sendall(head(1000))
    while alive and time.monotonic() - start < at.seconds + 4:
        for s in list(alive):
            try:
                s.send(b"a")
            except ConnectionError:
                alive.discard(s)
        time.sleep(1)
    took = time.monotonic() - start
    check("slow bodies: each was cut off at the end of its time",
          not alive and at.seconds - 0.1 < took < at.seconds + 3,
          (len(alive), took))
    for s in sockets:
        s.close()


# --- All at once --------------------------------------------------------------

SLOW = (abuse.trickle, abuse.half_open, abuse.slow_readers, slow_bodies)
QUICK = (abuse.malformed, abuse.keys, forms)
# These take the room of the slow ones.
LAST = (abuse.one_address, abuse.room)


def quick(attacks):
    for _ in range(times):
        for attack in attacks:
            begun = time.monotonic()
            attack()
            print(f"# {attack.__name__}: {time.monotonic() - begun:.1f} s")


def everything():
    over = threading.Event()

    def again(attack):
        attack()
        while not over.is_set():
            attack()

    threads = [threading.Thread(target=again, args=(a,)) for a in SLOW]
    for t in threads:
        t.start()
    try:
        quick(QUICK)
    finally:
        over.set()
        for t in threads:
            t.join()
    for attack in LAST:
        attack()


def main():
    begun = time.monotonic()
    files, before = abuse.open_files(), abuse.memory()
    gauge = Gauge()
    crowd = people()
    for b in gauge, *crowd:
        b.start()
    while min(b.count for b in crowd) < 2 and time.monotonic() - begun < 20:
        time.sleep(0.1)
    for b in crowd:
        b.now_abuse()
    if sys.argv[7:]:
        quick([globals().get(name) or getattr(abuse, name)
               for name in sys.argv[7:]])
    else:
        everything()
    for b, most in crowd.items():
        b.report("abuse", most)
    gauge.over.set()
    gauge.join()
    print(f"# memory: {before:.1f} MB before, {gauge.most:.1f} at most, "
          f"{abuse.memory():.1f} after; {time.monotonic() - begun:.0f} s")
    check(f"abuse: the memory grew by less than {GROWTH} MB",
          gauge.most - before < GROWTH, (before, gauge.most))
    abuse.are_closed("abuse", files)


main()
