# lib.sh: what the scenarios share.  Each sources it from the top of the tree,
# works in a folder of its own under $BUILD, and ends with "finish".
#
# A scenario prints "ok - WHAT" or "not ok - WHAT" a check, and after a failed
# one, behind "#", what was seen.
# shellcheck shell=sh

set -u
: "${BUILD:=build}"
tree=$(pwd -P)
BUILD=$(cd "$BUILD" && pwd -P) || exit 1
ostler=$BUILD/ostler
[ -x "$ostler" ] || { echo "not ok - there is a program, $ostler"; exit 1; }
folder=$(mktemp -d "$BUILD/scenario-XXXXXX") || exit 1
failures=0
trap 'cd "$tree" && chmod -R u+rwX "$folder" && rm -rf "$folder"' EXIT
trap 'exit 1' HUP INT TERM

# check WHAT COMMAND...: WHAT is so when the command succeeds.
check() {
    what=$1
    shift
    if "$@" >"$folder/seen" 2>&1; then
        echo "ok - $what"
    else
        echo "not ok - $what"
        head -n 40 "$folder/seen" | sed 's/^/# /'
        failures=$((failures + 1))
    fi
}

# same WHAT EXPECTED GOT: WHAT is so when the two texts are the same.
same() {
    printf '%s\n' "$2" >"$folder/expected"
    printf '%s\n' "$3" >"$folder/got"
    check "$1" diff -u "$folder/expected" "$folder/got"
}

# skip WHAT WHY: WHAT cannot be looked at here, and is counted as skipped.
skip() {
    echo "ok - $1 # SKIP $2"
}

# needs PROGRAM...: leave, and all is skipped, when one of them is not here.
needs() {
    for program; do
        command -v "$program" >/dev/null && continue
        skip "all of it" "no $program here"
        exit 0
    done
}

# fakes_time WHAT: faketime can be used; WHAT is skipped when not.  A sanitizer
# has to be loaded first, and so has faketime.
fakes_time() {
    if ! command -v faketime >/dev/null; then
        skip "$1" "no faketime here"
    elif ldd "$ostler" | grep -q libasan; then
        skip "$1" "a sanitizer goes before faketime"
    else
        return 0
    fi
    return 1
}

# finish: leave, with failure when a check has failed.
finish() {
    [ "$failures" -eq 0 ]
    exit
}

# lay_out NAME: make the folder NAME with fleet.conf in it, and go there.
lay_out() {
    mkdir -p "$folder/$1"
    cp "$tree/tests/scenarios/fleet.conf" "$folder/$1"
    cd "$folder/$1" || exit 1
}

# at DAY COMMAND...: the program on that day, with the fleet file at hand.
at() {
    day=$1
    shift
    "$ostler" -c fleet.conf --today "$day" "$@"
}

# due DAY SUBJECT JOB: that due on that day, as its line of CSV, without the
# columns of a failure and of a booking where there is none.
due() {
    at "$1" due --csv --subject "$2" --job "$3" | tr -d '\r' |
        sed -e 1d -e 's/,$//' -e 's/,,,,$//'
}

# code COMMAND...: print its exit code; what it says is kept in $folder/out and
# $folder/err.
code() {
    "$@" >"$folder/out" 2>"$folder/err"
    echo $?
}

# sql STATEMENT: what the ledger answers, a line a row, "|" between columns.
sql() {
    python3 - "$1" <<'PY'
import sqlite3
import sys

with sqlite3.connect("ledger.db") as ledger:
    for row in ledger.execute(sys.argv[1]):
        print("|".join(map(str, row)))
PY
}

# wait_for COMMAND...: wait until the command succeeds.  How long that takes is
# no matter; what does not come in five minutes never will, and hangs.
wait_for() {
    left=3000
    until "$@" >/dev/null 2>&1; do
        if [ "$left" -eq 0 ]; then
            echo "hangs: waited five minutes for: $*"
            return 1
        fi
        left=$((left - 1))
        sleep 0.1
    done
}

# free_port: one of 127.0.0.1 that nobody listens at.
free_port() {
    python3 -c '
import socket
with socket.create_server(("127.0.0.1", 0)) as s:
    print(s.getsockname()[1])'
}

# recipients: to whom the mails in the folder are, a line a mail.
recipients() {
    cat mail/* | tr -d '\r' | sed -n 's/^To: //p' | sort
}

# event FILE SUMMARY: the event of that title in a feed, its lines unfolded.
event() {
    tr -d '\r' <"$1" | sed -e ':a' -e 'N' -e '$!ba' -e 's/\n //g' |
        awk -v summary="SUMMARY:$2" '
            /^BEGIN:VEVENT$/ { text = ""; wanted = 0 }
            { text = text $0 "\n" }
            $0 == summary { wanted = 1 }
            /^END:VEVENT$/ && wanted { printf "%s", text }'
}

# remake ARGUMENT...: make, as if no other make had called the tests.
remake() {
    env -u MAKEFLAGS -u MAKELEVEL -u MFLAGS -u MAKEOVERRIDES \
        make -s "$@"
}
