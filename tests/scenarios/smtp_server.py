"""A mail server for the scenarios that does wrong what it is told to.

A plan is a list of faults, each (STEP, WHICH, WHAT): at the WHICHth time, from
1, that the step is reached, 0 for every time, WHAT happens instead of the
usual reply.  The steps are connect, ehlo, starttls, tls (the handshake, which
can only hang), auth, mail, rcpt, data, body (the first line of it), dot and
quit.  WHAT is a reply, such as "450 busy", or:

    hang         say nothing until the other side goes
    drop         close the connection
    close TEXT   say TEXT, then close
    take-drop    (dot) keep the message, then close without a word
    take-hang    (dot) keep the message, then say nothing
    take-late    (dot) keep the message, and say so 1.5 s later
    take-kill    (dot) keep the message, then call server.kill()
    slow         say the usual, a letter every 50 ms
    noise N      say N bytes without end of line, then the usual
    twice        say the usual, then once more what was not asked for
"""

import socket
import ssl
import threading
import time


class Server:
    """Listens on a free port of 127.0.0.1 from the start; kept holds what it
    has answered for: (from, to, bytes)."""

    def __init__(self, plan=(), tls=None, context=None, login=None, idle=None):
        self.plan = list(plan)
        self.tls, self.context, self.login = tls, context, login
        self.idle = idle  # seconds after which it closes a connection
        self.kept, self.reached, self.heard = [], {}, []
        self.connections = 0
        self.kill = None
        self.lock = threading.Lock()
        self.listener = socket.create_server(("127.0.0.1", 0))
        self.port = self.listener.getsockname()[1]
        threading.Thread(target=self.accept, daemon=True).start()

    def accept(self):
        while True:
            try:
                connection, _ = self.listener.accept()
            except OSError:
                return
            threading.Thread(
                target=self.serve, args=(connection,), daemon=True).start()

    def close(self):
        self.listener.close()

    def what(self, step):
        """What goes wrong at this step this time, or None."""
        with self.lock:
            self.reached[step] = self.reached.get(step, 0) + 1
            for at, which, what in self.plan:
                if at == step and which in (0, self.reached[step]):
                    return what
        return None

    def serve(self, connection):
        with self.lock:
            self.connections += 1
        try:
            Dialog(self, connection).run()
        except (OSError, EOFError):
            pass
        finally:
            connection.close()


class Dialog:
    """One connection."""

    def __init__(self, server, connection):
        self.server, self.connection = server, connection
        self.file = None
        self.secure = False
        self.sender = self.recipient = None

    def wrap(self):
        self.connection = self.server.context.wrap_socket(
            self.connection, server_side=True)
        self.secure = True

    def open(self):
        self.connection.settimeout(self.server.idle or 60)
        self.file = self.connection.makefile("rb")

    def send(self, text):
        self.connection.sendall(text.encode() + b"\r\n")

    def hang(self):
        while self.connection.recv(1000):
            pass
        raise EOFError

    def say(self, step, usual):
        """Answer: true when it was the usual."""
        what = self.server.what(step)
        if what is None:
            self.send(usual)
            return True
        word, _, rest = what.partition(" ")
        if word == "hang":
            self.hang()
        if word == "drop":
            raise EOFError
        if word == "close":
            self.send(rest)
            time.sleep(0.05)
            raise EOFError
        if word == "slow":
            for letter in usual + "\r\n":
                self.connection.sendall(letter.encode())
                time.sleep(0.05)
            return True
        if word == "noise":
            self.connection.sendall(b"x" * int(rest))
            self.send("")
            self.send(usual)
            return True
        if word == "twice":
            self.send(usual + "\r\n" + usual)
            return True
        self.send(what)
        return what[0] in "23"

    def run(self):
        if self.server.tls == "implicit":
            self.wrap()
        self.open()
        if not self.say("connect", "220 sink.skerrow.example ESMTP"):
            return
        while True:
            line = self.file.readline(100000)
            if not line:
                return
            self.server.heard.append(line)
            verb = line.split()[0].upper().decode("latin-1") if line.split() else ""
            handler = getattr(self, "do_" + verb.lower(), None)
            if verb == "QUIT":
                self.say("quit", "221 bye")
                return
            if handler is None:
                self.send("500 what?")
            else:
                handler(line.decode("latin-1").strip())

    def do_ehlo(self, _line):
        offers = ["250-sink.skerrow.example"]
        if self.server.tls == "starttls" and not self.secure:
            offers.append("250-STARTTLS")
        if self.server.login:
            offers.append("250-AUTH PLAIN LOGIN")
        offers.append("250 SIZE 10000000")
        self.say("ehlo", "\r\n".join(offers))

    def do_helo(self, _line):
        self.say("helo", "250 sink.skerrow.example")

    def do_starttls(self, _line):
        if self.say("starttls", "220 go"):
            if self.server.what("tls") == "hang":
                self.hang()
            self.wrap()
            self.open()

    def do_auth(self, line):
        import base64
        user, password = self.server.login
        good = base64.b64encode(f"\0{user}\0{password}".encode()).decode()
        right = line.split()[1:] == ["PLAIN", good]
        if line.split()[1:] == ["PLAIN"]:
            self.send("334 ")
            right = self.file.readline().decode().strip() == good
        self.say("auth", "235 in" if right else "535 5.7.8 wrong")

    def do_mail(self, line):
        self.sender = line
        self.say("mail", "250 ok")

    def do_rcpt(self, line):
        if self.say("rcpt", "250 ok"):
            self.recipient = line.partition("<")[2].partition(">")[0]

    def do_rset(self, _line):
        self.send("250 ok")

    def do_data(self, _line):
        if not self.say("data", "354 go"):
            return
        first = self.file.readline()
        if self.server.what("body") == "drop":
            raise EOFError
        lines = [first]
        while lines[-1] != b".\r\n":
            lines.append(self.file.readline())
            if not lines[-1]:
                raise EOFError
        text = b"".join(
            line[1:] if line.startswith(b".") else line for line in lines[:-1])
        with self.server.lock:
            at = self.server.reached.get("dot", 0) + 1
            what = next((w for s, n, w in self.server.plan
                         if s == "dot" and n in (0, at)), "250")
        if what.startswith(("take", "slow", "twice")) or what[0] == "2":
            self.server.kept.append((self.sender, self.recipient, text))
        if what.startswith("take-"):
            self.server.what("dot")
            if what == "take-late":
                time.sleep(1.5)
                self.send("250 kept")
                return
            if what == "take-kill":
                self.server.kill()
            if what == "take-hang":
                self.hang()
            raise EOFError
        self.say("dot", "250 kept")
