# daemon.sh: ostlerd for a scenario, beside lib.sh, which works in the folder of
# its fleet.
# shellcheck shell=sh disable=SC2154 # $folder and $BUILD are of lib.sh

ostlerd=$BUILD/ostlerd
pid=
helper=
# A process that is told to end is waited for: none is left when a test is over.
trap '[ -z "$pid" ] || { kill "$pid" && wait "$pid"; } 2>/dev/null
    [ -z "$helper" ] || { kill "$helper" && wait "$helper"; } 2>/dev/null
    cd "$tree" && chmod -R u+rwX "$folder" && rm -rf "$folder"' EXIT

# serves: the log says where, and $site is that.
serves() {
    site=http://$(sed -n 's/^.*ostlerd: serves at \([^ ]*\)$/\1/p' \
        "$folder/log" | tail -n 1)
    [ "$site" != http:// ]
}

# begin WORD...: the daemon with these before its name and after it the usual;
# $pid is who, its log in $folder/log.
begin() {
    : >"$folder/log"
    "$@" "$ostlerd" -c fleet.conf --listen "${listen:-127.0.0.1:0}" \
        ${today:+--today "$today"} 2>>"$folder/log" &
    pid=$!
    wait_for serves
}

# end WHAT: stop it with SIGTERM; $took is how many milliseconds that took.
end() {
    took=$(date +%s%3N)
    kill "$pid"
    check "$1: it ends well" wait "$pid"
    took=$(($(date +%s%3N) - took))
    pid=
}

# begin_on DAY: start it anew on that day, which is the pass of that day.
begin_on() {
    [ -z "$pid" ] || end "before $1"
    today=$1
    check "the daemon of $1 starts" begin env
}

# another_pass: as if one ran, until give_back.
another_pass() {
    sh -c 'exec 8>>ledger.db.lock; flock 8; exec sleep 3000' &
    helper=$!
    wait_for sh -c '! flock -n ledger.db.lock true'
}

# keep_ledger: nobody else reads or writes it until give_back.
keep_ledger() {
    rm -f "$folder/kept"
    python3 -c '
import sqlite3
import sys
import time

db = sqlite3.connect("ledger.db", timeout=3000, isolation_level=None)
db.execute("BEGIN EXCLUSIVE")
open(sys.argv[1], "w").close()
time.sleep(3000)' "$folder/kept" &
    helper=$!
    wait_for test -e "$folder/kept"
}
give_back() {
    kill "$helper"
    wait "$helper" 2>/dev/null
    helper=
}

# shows TEXT: what key opens has that text; lacks TEXT: it has not.
shows() {
    curl -s "$site$path" | grep -q -- "$1"
}
lacks() {
    curl -s -f "$site$path" >"$folder/feed" && ! grep -q -- "$1" "$folder/feed"
}

# logged TEXT: the log has it.
logged() {
    grep -q -- "$1" "$folder/log"
}

# health NAME: the value of that name in /health.
health() {
    curl -s "$site/health" | python3 -c '
import json, sys
h = json.load(sys.stdin)
for name in sys.argv[1].split("."):
    h = h[name]
print(str(h).lower())' "$1"
}
is_health() {
    [ "$(health "$1")" = "$2" ]
}

# code_of ARGUMENT...: the status that curl gets.
code_of() {
    curl -s -o "$folder/answer" -w '%{http_code}' "$@"
}
