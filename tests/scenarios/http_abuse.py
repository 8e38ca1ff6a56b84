"""http_abuse.py SITE KEY PID NAME...: misuse the server at SITE.

Prints "ok - WHAT" or "not ok - WHAT" a check, as lib.sh does.
"""

import http.client
import os
import random
import socket
import sys
import threading
import time

site, key, pid = sys.argv[1:4]
host, port = site.removeprefix("http://").split(":")
there = (host, int(port))
feed = f"/calendar/{key}/small.ics"
huge = f"/calendar/{key}/huge.ics"
GET = f"GET {feed} HTTP/1.1\r\nHost: x\r\n".encode()


def check(what, is_so, seen=""):
    print("ok" if is_so else "not ok", "-", what)
    if not is_so:
        print("# seen:", seen)


def connect(n=0, receive=None):
    """A connection, the nth from an address of its own."""
    s = socket.socket()
    if receive:
        s.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, receive)
    if n:
        s.bind((f"127.0.{n // 250 + 1}.{n % 250 + 1}", 0))
    s.settimeout(10)
    s.connect(there)
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
    return len(os.listdir(f"/proc/{pid}/fd"))


def memory():
    with open(f"/proc/{pid}/status", encoding="ascii") as status:
        for line in status:
            if line.startswith("VmRSS"):
                return int(line.split()[1]) / 1024
    return 0


class Bystander(threading.Thread):
    """Somebody who asks for the feed all the while; remembers the slowest."""

    def __init__(self):
        super().__init__()
        self.over = threading.Event()
        self.slowest = 0
        self.count = 0
        self.wrong = []

    def run(self):
        while not self.over.wait(0.05):
            start = time.monotonic()
            try:
                c = http.client.HTTPConnection(*there, timeout=5,
                                               source_address=("127.9.9.9", 0))
                c.request("GET", feed)
                answer = c.getresponse()
                if answer.status != 200 or len(answer.read()) != 8192:
                    self.wrong.append(answer.status)
                c.close()
            except OSError as error:
                self.wrong.append(error)
            self.slowest = max(self.slowest, time.monotonic() - start)
            self.count += 1


def beside(what, abuse):
    """Let the abuse go on beside others, and see that they are served."""
    files, before = open_files(), memory()
    bystander = Bystander()
    bystander.start()
    abuse()
    most = memory()
    bystander.over.set()
    bystander.join()
    check(f"{what}: others were answered within a second",
          bystander.slowest < 1 and bystander.count > 5 and not bystander.wrong,
          (bystander.slowest, bystander.count, bystander.wrong[:3]))
    check(f"{what}: the memory grew by less than 12 MB", most - before < 12,
          (before, most))
    for _ in range(30):
        if open_files() <= files:
            break
        time.sleep(0.1)
    check(f"{what}: all files are closed", open_files() <= files,
          (files, open_files()))


def ends(sockets, start):
    """When the other side ends each, in seconds after the start."""
    times = []
    for s in sockets:
        s.settimeout(max(0.01, start + 6 - time.monotonic()))
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
    """200 who send a byte each half second: the library's own time limit begins
    again with each of them."""

    def abuse():
        start = time.monotonic()
        sockets = [connect(n + 1) for n in range(200)]
        alive = set(sockets)
        text = GET + b"X: " + b"x" * 100
        for k in range(len(text)):
            for s in list(alive):
                try:
                    s.send(text[k:k + 1])
                except ConnectionError:
                    alive.discard(s)
            if not alive or time.monotonic() - start > 6:
                break
            time.sleep(0.5)
        took = time.monotonic() - start
        check("a trickle: each was cut off soon after two seconds",
              not alive and 1.9 < took < 5, (len(alive), took))
        for s in sockets:
            s.close()

    beside("a trickle", abuse)


def half_open():
    """Those who say nothing, and those who stop in the middle."""

    def abuse():
        start = time.monotonic()
        sockets = [connect(n + 1) for n in range(100)]
        for s in sockets[50:]:
            s.send(GET)
        times = ends(sockets, start)
        check("half a request: each was cut off", max(times) < 4, max(times))

    beside("half a request", abuse)


def slow_readers():
    """Those who ask for 4 MiB and take a little at a time."""

    def abuse():
        start = time.monotonic()
        sockets = [connect(n + 1, receive=4096) for n in range(50)]
        for s in sockets:
            s.send(f"GET {huge} HTTP/1.1\r\nHost: x\r\n\r\n".encode())
        got = 0
        while time.monotonic() - start < 3:
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
              got < 50 * 100000, got)

    beside("slow readers", abuse)


def pauses():
    """The time begins again with each request on a connection."""
    c = http.client.HTTPConnection(*there, timeout=5)
    codes = []
    start = time.monotonic()
    for _ in range(5):
        c.request("GET", feed)
        answer = c.getresponse()
        answer.read()
        codes.append(answer.status)
        c.auto_open = 0  # from now on a lost connection is a failure
        time.sleep(0.6)
    check("a connection lives longer than a request may take",
          codes == [200] * 5 and time.monotonic() - start > 2.9, codes)


def keys():
    """Wrong keys by the thousand."""

    def abuse():
        answers = set()
        slowest = 0
        c = http.client.HTTPConnection(*there, timeout=5)
        for n in range(5000):
            start = time.monotonic()
            c.request("GET", f"/calendar/{n:032d}/small.ics")
            answer = c.getresponse()
            answers.add((answer.status, answer.read()))
            slowest = max(slowest, time.monotonic() - start)
        check("wrong keys: 5,000 get one answer",
              answers == {(404, b"Not found\n")}, answers)

    beside("wrong keys", abuse)
    # A right key for no feed takes as long as a wrong one for a feed, by turns.
    took = {"none": [], "wrong": []}
    c = http.client.HTTPConnection(*there, timeout=5)
    for _ in range(1500):
        for name, path in (("none", f"/calendar/{key}/nofeed.ics"),
                           ("wrong", f"/calendar/{key[::-1]}/small.ics")):
            start = time.perf_counter()
            c.request("GET", path)
            c.getresponse().read()
            took[name].append(time.perf_counter() - start)
    middle = {name: sorted(times)[750] for name, times in took.items()}
    check("wrong keys: no telling from the time",
          abs(middle["none"] / middle["wrong"] - 1) < 0.1, middle)


# What is sent, and with which status it may be answered; "" is the end of the
# connection without an answer.
MALFORMED = [
    ("no version", b"GET /robots.txt\r\n\r\n", ["", "400", "505"]),
    ("another version", b"GET / HTTP/2.0\r\nHost: x\r\n\r\n",
     ["", "400", "505"]),
    ("no host", b"GET /robots.txt HTTP/1.1\r\n\r\n", ["400"]),
    ("no host in HTTP/1.0", b"GET /robots.txt HTTP/1.0\r\n\r\n", ["200"]),
    ("two hosts", b"GET /robots.txt HTTP/1.1\r\nHost: x\r\nHost: y\r\n\r\n",
     ["400"]),
    ("two lengths", GET + b"Content-Length: 1\r\nContent-Length: 2\r\n\r\nxx",
     ["400"]),
    ("a length and an encoding",
     b"POST /workshop/" + key.encode() + b"/record HTTP/1.1\r\nHost: x\r\n"
     b"Content-Type: application/x-www-form-urlencoded\r\n"
     b"Content-Length: 3\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
     ["400"]),
    ("a length that is none", GET + b"Content-Length: x\r\n\r\n", ["", "400"]),
    ("a negative length", GET + b"Content-Length: -1\r\n\r\n", ["", "400"]),
    ("a length beyond all",
     GET + b"Content-Length: 99999999999999999999999\r\n\r\n",
     ["", "400", "413"]),
    ("an encoding that is none",
     GET + b"Transfer-Encoding: gzip\r\n\r\n", ["", "400", "501"]),
    ("a size of a piece that is none",
     b"POST /workshop/" + key.encode() + b"/record HTTP/1.1\r\nHost: x\r\n"
     b"Content-Type: application/x-www-form-urlencoded\r\n"
     b"Transfer-Encoding: chunked\r\n\r\nzz\r\n\r\n", ["", "400"]),
    ("a NUL in the address", b"GET /robots.txt\0x HTTP/1.1\r\nHost: x\r\n\r\n",
     # There the library ends the address: what is behind is never seen.
     ["", "200", "400"]),
    ("a NUL in a field", GET + b"X: a\0b\r\n\r\n", ["", "200", "400"]),
    ("a field without a colon", GET + b"nonsense\r\n\r\n", ["", "400"]),
    ("a blank before the colon", GET + b"X : y\r\n\r\n", ["", "200", "400"]),
    ("a folded field", GET + b"X: y\r\n z\r\n\r\n", ["", "200", "400"]),
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
    ("10,000 fields", GET + b"A: b\r\n" * 10000 + b"\r\n", ["", "431"]),
    ("an endless field", GET + b"A: " + b"b" * 200000, ["", "431"]),
    ("an endless address", b"GET /" + b"a" * 200000, ["", "414"]),
]


def malformed():
    """Each is answered as it should be, or not at all; then what chance makes
    up of a request."""
    answers = tell_all([sent for _, sent, _ in MALFORMED])
    for (what, _, expected), got in zip(MALFORMED, answers):
        status = got[9:12].decode() if got.startswith(b"HTTP/1.") else ""
        check(f"malformed: {what}", status in expected, (status, got[:100]))

    def abuse():
        chance = random.Random(20261202)
        for _ in range(3):
            texts = [made_up(chance) for _ in range(240)]
            wrong = [(text, got) for text, got in zip(texts, tell_all(texts))
                     if got and not got.startswith(b"HTTP/1.1 ")]
            check("malformed: every answer is one", not wrong, wrong[:1])

    beside("malformed", abuse)


def made_up(chance):
    """A request with a few bytes changed, lost, or there twice."""
    text = bytearray(GET + b"If-None-Match: \"a\", W/\"b\"\r\n"
                     b"Content-Length: 3\r\nConnection: keep-alive\r\n\r\nabc")
    for _ in range(chance.randint(1, 8)):
        at = chance.randrange(len(text))
        if chance.random() < 0.5:
            text[at] = chance.randrange(256)
        elif chance.random() < 0.5:
            del text[at:at + chance.randint(1, 20)]
        else:
            text[at:at] = text[at:at + chance.randint(1, 400)]
    return text


def tell_all(texts):
    """Send each on a connection of its own; what is answered to each."""
    sockets = [connect(n + 1) for n in range(len(texts))]
    for s, text in zip(sockets, texts):
        try:
            s.sendall(text)
            s.shutdown(socket.SHUT_WR)
        except OSError:
            pass
    answers = []
    for s in sockets:
        answers.append(read_all(s)[0])
        s.close()
    return answers


def one_address():
    """300 connections from one address, where 20 are allowed."""

    def abuse():
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
        check("one address: 20 of 300 stay", still == 20, still)

    beside("one address", abuse)


def room():
    """2,000 connections from as many addresses, where 100 are allowed: those
    that have been at it longest make room."""

    def abuse():
        sockets = [connect(n + 1) for n in range(2000)]
        time.sleep(0.3)
        check("room: few files are open", open_files() < 200, open_files())
        for s in sockets:
            s.close()

    beside("room", abuse)


def proxy():
    """60 connections of a trusted proxy, where 20 are allowed to others."""
    sockets = [connect() for _ in range(60)]
    good = 0
    for s in sockets:
        s.sendall(GET + b"\r\n")
        good += s.recv(12) == b"HTTP/1.1 200"
        s.close()
    check("a proxy may have more connections than others", good == 60, good)


for name in sys.argv[4:]:
    begun = time.monotonic()
    globals()[name]()
    print(f"# {name}: {time.monotonic() - begun:.1f} s")
