"""http_abuse.py SITE PID ATTACK...: misuse the server at SITE.

Prints "ok - WHAT" or "not ok - WHAT" a check, as lib.sh does.  SLOWER=N allows a
program that was built to watch itself N times as long.
"""

import http.client
import os
import random
import socket
import sys
import threading
import time

SLOWER = int(os.environ.get("SLOWER") or 1)


class Target:
    """What is misused, and by which limits it should hold out."""
    key = "mnbvcxzlkjhgfdsapoiuytrewq765432"
    feed = f"/calendar/{key}/small.ics"
    huge = f"/calendar/{key}/huge.ics"
    form = f"/workshop/{key}/record"
    seconds = 2  # for a request
    per_address = 20
    connections = 100
    memory = 12  # MB by which it may grow
    crowd = 240  # who send what is malformed at once

    def __init__(self, site, pid):
        host, port = site.removeprefix("http://").split(":")
        self.there = (host, int(port))
        self.pid = pid

    @staticmethod
    def key_of(path):
        """The key in it."""
        return path.split("/")[2]

    def get(self):
        """The beginning of a request for the feed."""
        return f"GET {self.feed} HTTP/1.1\r\nHost: x\r\n".encode()

    def chunked(self):
        """That of a form in pieces."""
        return (f"POST {self.form} HTTP/1.1\r\nHost: x\r\n"
                "Content-Type: application/x-www-form-urlencoded\r\n"
                "Transfer-Encoding: chunked\r\n").encode()


at = None  # the target


def check(what, is_so, seen=""):
    says = f"ok - {what}\n" if is_so else f"not ok - {what}\n# seen: {seen}\n"
    print(says, end="", flush=True)


def connect(n=0, receive=None):
    """A connection, the nth from an address of its own."""
    s = socket.socket()
    if receive:
        s.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, receive)
    if n:
        s.bind((f"127.0.{n // 250 + 1}.{n % 250 + 1}", 0))
    s.settimeout(10)
    s.connect(at.there)
    return s


def read_all(s):
    """Until the end; what came, and whether the end was a cut."""
    got = b""
    try:
        while part := s.recv(65536):
            got += part
    except ConnectionError:
        return got, True
    except TimeoutError:
        return got + b" and no end", False
    return got, False


def open_files():
    return len(os.listdir(f"/proc/{at.pid}/fd"))


def memory():
    with open(f"/proc/{at.pid}/status", encoding="ascii") as status:
        for line in status:
            if line.startswith("VmRSS"):
                return int(line.split()[1]) / 1024
    return 0


def ask_once(method, path, body=None, headers=None):
    """An answer, and its bytes, on a connection of its own."""
    c = http.client.HTTPConnection(*at.there, timeout=15,
                                   source_address=("127.9.9.9", 0))
    c.request(method, path, body, headers or {})
    answer = c.getresponse()
    answer.bytes = answer.read()
    c.close()
    return answer


def ask(method, path, body=None, headers=None):
    """The same; as a browser does, what is only read is asked for again when
    the connection is cut, which may happen to who is there when many come."""
    for _ in range(2 if method == "GET" else 0):
        try:
            return ask_once(method, path, body, headers)
        except (ConnectionError, http.client.IncompleteRead):
            pass
    return ask_once(method, path, body, headers)


def ask_feed():
    """Whether the feed is all there."""
    answer = ask("GET", at.feed)
    return answer.status == 200 and len(answer.bytes) == 8192


class Bystander(threading.Thread):
    """Somebody who asks for something all the while; remembers the slowest."""

    def __init__(self, what, asks, pause=0.05):
        super().__init__()
        self.what, self.asks, self.pause = what, asks, pause
        self.over = threading.Event()
        self.calm = 0  # the slowest before there was any abuse
        self.slowest = 0
        self.count = 0
        self.wrong = []

    def prepare(self):
        """What is to be done before, and not timed."""

    def run(self):
        while not self.over.wait(self.pause):
            start = time.monotonic()
            try:
                self.prepare()
                start = time.monotonic()
                if not self.asks():
                    self.wrong.append("another answer")
            except (OSError, http.client.HTTPException) as error:
                self.wrong.append(error)
            self.slowest = max(self.slowest, time.monotonic() - start)
            self.count += 1

    def now_abuse(self):
        """What was until now was the calm before it."""
        self.calm, self.slowest = self.slowest, 0

    def report(self, what, most=1, least=3):
        """Stop, and see how it went.  On a machine that is too busy to be
        quick without any abuse, it may take a few times as long."""
        most = max(most * SLOWER, 5 * self.calm)
        self.over.set()
        self.join()
        print(f"# {self.what}: {self.count} times, in {self.slowest:.3f} s, "
              f"and in {self.calm:.3f} before")
        check(f"{what}: {self.what} within {most:.1f} s",
              self.slowest < most and self.count > least and not self.wrong,
              (self.slowest, self.count, len(self.wrong), self.wrong[:3]))


def are_closed(what, files):
    """See that no more files are open than there were."""
    for _ in range(30):
        if open_files() <= files:
            break
        time.sleep(0.1)
    check(f"{what}: all files are closed", open_files() <= files,
          (files, open_files()))


def beside(what, abuse):
    """Let the abuse go on beside others, and see that they are served."""
    files, before = open_files(), memory()
    bystander = Bystander("others were answered", ask_feed)
    bystander.start()
    abuse()
    most = memory()
    bystander.report(what)
    check(f"{what}: the memory grew by less than {at.memory} MB",
          most - before < at.memory, (before, most))
    are_closed(what, files)


def ends(sockets, start):
    """When the other side ends each, in seconds after the start."""
    times = []
    for s in sockets:
        s.settimeout(max(0.01, start + at.seconds + 4 - time.monotonic()))
        try:
            while s.recv(65536):
                pass
            times.append(time.monotonic() - start)
        except ConnectionError:
            times.append(time.monotonic() - start)
        except TimeoutError:
            times.append(99)
        s.close()
    return times


def trickle():
    """200 who send a byte now and then: the library's own time limit begins
    again with each of them."""
    start = time.monotonic()
    sockets = [connect(n + 1) for n in range(200)]
    alive = set(sockets)
    text = at.get() + b"X: " + b"x" * 100
    for k in range(len(text)):
        for s in list(alive):
            try:
                s.send(text[k:k + 1])
            except ConnectionError:
                alive.discard(s)
        if not alive or time.monotonic() - start > at.seconds + 4:
            break
        time.sleep(0.5 if at.seconds < 10 else 1)
    took = time.monotonic() - start
    check(f"a trickle: each was cut off soon after {at.seconds} seconds",
          not alive and at.seconds - 0.1 < took < at.seconds + 3,
          (len(alive), took))
    for s in sockets:
        s.close()


def half_open():
    """Those who say nothing, and those who stop in the middle."""
    start = time.monotonic()
    sockets = [connect(n + 1) for n in range(100)]
    for s in sockets[50:]:
        s.send(at.get())
    times = ends(sockets, start)
    check("half a request: each was cut off", max(times) < at.seconds + 2,
          max(times))


def slow_readers():
    """Those who ask for all that is huge and take a little at a time."""
    start = time.monotonic()
    sockets = [connect(n + 1, receive=4096) for n in range(50)]
    for s in sockets:
        s.send(f"GET {at.huge} HTTP/1.1\r\nHost: x\r\n\r\n".encode())
    got = 0
    while time.monotonic() - start < at.seconds + 1:
        for s in sockets:
            try:
                got += len(s.recv(256))
            except ConnectionError:
                pass
        time.sleep(0.2)
    # Now fast: there is only what was on its way.
    for s in sockets:
        rest, _ = read_all(s)
        got += len(rest)
        s.close()
    check("slow readers: each was cut off, with what was on its way",
          got < 50 * 300000, got)


def pauses():
    """The time begins again with each request on a connection."""
    c = http.client.HTTPConnection(*at.there, timeout=5)
    codes = []
    start = time.monotonic()
    for _ in range(5):
        c.request("GET", at.feed)
        answer = c.getresponse()
        answer.read()
        codes.append(answer.status)
        c.auto_open = 0  # from now on a lost connection is a failure
        time.sleep(0.6)
    check("a connection lives longer than a request may take",
          codes == [200] * 5 and time.monotonic() - start > 2.9, codes)


def keys():
    """Wrong keys by the thousand."""
    for door in at.feed, at.form:
        answers = set()
        c = http.client.HTTPConnection(*at.there, timeout=5)
        for n in range(5000):
            c.request("GET", door.replace(at.key_of(door), f"{n:032d}"))
            answer = c.getresponse()
            answers.add((answer.status, answer.read()))
        check("wrong keys: 5,000 get one answer",
              answers == {(404, b"Not found\n")}, answers)


def timing():
    """A right key for no feed takes as long as a wrong one for a feed, by
    turns."""
    took = {"none": [], "wrong": []}
    c = http.client.HTTPConnection(*at.there, timeout=5)
    key = at.key_of(at.feed)
    for _ in range(1500):
        for name, path in (("none", f"/calendar/{key}/nofeed.ics"),
                           ("wrong", at.feed.replace(key, key[::-1]))):
            start = time.perf_counter()
            c.request("GET", path)
            c.getresponse().read()
            took[name].append(time.perf_counter() - start)
    middle = {name: sorted(times)[750] for name, times in took.items()}
    check("wrong keys: no telling from the time",
          abs(middle["none"] / middle["wrong"] - 1) < 0.1, middle)


def malformed_list():
    """What is sent, and with which status it may be answered; "" is the end of
    the connection without an answer."""
    get = at.get()
    return [
        ("no version", b"GET /robots.txt\r\n\r\n", ["", "400", "505"]),
        ("another version", b"GET / HTTP/2.0\r\nHost: x\r\n\r\n",
         ["", "400", "505"]),
        ("no host", b"GET /robots.txt HTTP/1.1\r\n\r\n", ["400"]),
        ("no host in HTTP/1.0", b"GET /robots.txt HTTP/1.0\r\n\r\n", ["200"]),
        ("two hosts", b"GET /robots.txt HTTP/1.1\r\nHost: x\r\nHost: y\r\n\r\n",
         ["400"]),
        ("two lengths",
         get + b"Content-Length: 1\r\nContent-Length: 2\r\n\r\nxx",
         ["400"]),
        ("a length and an encoding",
         at.chunked() + b"Content-Length: 3\r\n\r\n0\r\n\r\n",
         ["400"]),
        ("a length that is none", get + b"Content-Length: x\r\n\r\n",
         ["", "400"]),
        ("a negative length", get + b"Content-Length: -1\r\n\r\n", ["", "400"]),
        ("a length beyond all",
         get + b"Content-Length: 99999999999999999999999\r\n\r\n",
         ["", "400", "413"]),
        ("an encoding that is none",
         get + b"Transfer-Encoding: gzip\r\n\r\n", ["", "400", "501"]),
        ("a size of a piece that is none",
         at.chunked() + b"\r\nzz\r\n\r\n", ["", "400"]),
        ("a NUL in the address",
         b"GET /robots.txt\0x HTTP/1.1\r\nHost: x\r\n\r\n",
         # There the library ends the address: what is behind is never seen.
         ["", "200", "400"]),
        ("a NUL in a field", get + b"X: a\0b\r\n\r\n", ["", "200", "400"]),
        ("a field without a colon", get + b"nonsense\r\n\r\n", ["", "400"]),
        ("a blank before the colon", get + b"X : y\r\n\r\n", ["400"]),
        ("a blank behind a length",
         get + b"Content-Length : 3\r\n\r\nabc", ["400"]),
        ("a blank in the address",
         b"GET /robots.txt x HTTP/1.1\r\nHost: x\r\n\r\n", ["400"]),
        ("a folded field", get + b"X: y\r\n z\r\n\r\n", ["", "200", "400"]),
        ("no method", b" / HTTP/1.1\r\nHost: x\r\n\r\n", ["", "400", "405"]),
        ("a method of 10,000 letters",
         b"X" * 10000 + b" / HTTP/1.1\r\nHost: x\r\n\r\n",
         ["", "400", "405", "414", "431"]),
        ("a star", b"OPTIONS * HTTP/1.1\r\nHost: x\r\n\r\n", ["400", "405"]),
        ("TLS", b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + bytes(200),
         ["", "400"]),
        ("nothing but lines", b"\r\n" * 5000, [""]),
        ("HTTP/2 of its own accord", b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
         ["", "400", "405", "505"]),
        ("10,000 fields", get + b"A: b\r\n" * 10000 + b"\r\n", ["", "431"]),
        ("an endless field", get + b"A: " + b"b" * 200000, ["", "431"]),
        ("an endless address", b"GET /" + b"a" * 200000, ["", "414"]),
    ]


def malformed():
    """Each is answered as it should be, or not at all; then what chance makes
    up of a request."""
    known = malformed_list()
    answers = tell_all([sent for _, sent, _ in known])
    for (what, _, expected), got in zip(known, answers):
        status = got[9:12].decode() if got.startswith(b"HTTP/1.") else ""
        check(f"malformed: {what}", status in expected, (status, got[:100]))
        # The library answers what is no length by itself, and says it twice.
        if b"Content-Length</b>" not in got:
            check(f"malformed: {what}: one answer at most",
                  got.count(b"HTTP/1.1 ") <= 1, got)
    chance = random.Random(20261202)
    wrong = []
    for _ in range(720 // at.crowd):
        texts = [made_up(chance) for _ in range(at.crowd)]
        wrong += [(text, got) for text, got in zip(texts, tell_all(texts))
                  if got and not got.startswith(b"HTTP/1.1 ")]
    check("malformed: every answer is one", not wrong, wrong[:1])


def made_up(chance):
    """A request with a few bytes changed, lost, or there twice."""
    text = bytearray(at.get() + b"If-None-Match: \"a\", W/\"b\"\r\n"
                     b"Content-Length: 3\r\nConnection: keep-alive\r\n\r\nabc")
    for _ in range(chance.randint(1, 8)):
        where = chance.randrange(len(text))
        if chance.random() < 0.5:
            text[where] = chance.randrange(256)
        elif chance.random() < 0.5:
            del text[where:where + chance.randint(1, 20)]
        else:
            text[where:where] = text[where:where + chance.randint(1, 400)]
    return text


def tell_all(texts):
    """Send each on a connection of its own; what is answered to each."""
    sockets = [connect(n + 1) for n in range(len(texts))]
    for s, text in zip(sockets, texts):
        try:
            s.sendall(text)
        except OSError:
            pass
    # An end that comes with the last bytes is seen only when the time is over.
    time.sleep(0.2)
    for s in sockets:
        try:
            s.shutdown(socket.SHUT_WR)
        except OSError:
            pass
    answers = []
    for s in sockets:
        answers.append(read_all(s)[0])
        s.close()
    return answers


def one_address():
    """300 connections from one address, where few are allowed."""
    sockets = [connect() for _ in range(300)]
    time.sleep(0.5)
    still = 0
    for s in sockets:
        s.settimeout(0.01)
        try:
            still += s.recv(1) != b""
        except TimeoutError:
            still += 1
        except ConnectionError:
            pass
        s.close()
    check(f"one address: {at.per_address} of 300 stay",
          still == at.per_address, still)


def room():
    """2,000 connections from as many addresses, where fewer are allowed: those
    that have been at it longest make room."""
    sockets = [connect(n + 1) for n in range(2000)]
    time.sleep(0.3)
    check("room: few files are open", open_files() < at.connections + 100,
          open_files())
    for s in sockets:
        s.close()


def flood():
    """500 connections, more than are allowed, and nobody else."""
    for s in [connect(n + 1) for n in range(500)]:
        s.close()


def proxy():
    """60 connections of a trusted proxy, where few are allowed to others."""
    sockets = [connect() for _ in range(60)]
    good = 0
    for s in sockets:
        s.sendall(at.get() + b"\r\n")
        good += s.recv(12) == b"HTTP/1.1 200"
        s.close()
    check("a proxy may have more connections than others", good == 60, good)


def main():
    global at
    at = Target(*sys.argv[1:3])
    alone = (pauses, timing, flood, proxy)
    for name in sys.argv[3:]:
        begun = time.monotonic()
        attack = globals()[name]
        if attack in alone:
            attack()
        else:
            beside(name.replace("_", " "), attack)
        print(f"# {name}: {time.monotonic() - begun:.1f} s")


if __name__ == "__main__":
    main()
