# daemon.sh: ostlerd for a scenario, beside lib.sh, which works in the folder of
# its fleet.
# shellcheck shell=sh disable=SC2154 # $folder and $BUILD are of lib.sh

ostlerd=$BUILD/ostlerd
pid=
trap '[ -z "$pid" ] || kill "$pid" 2>/dev/null
    cd "$tree" && chmod -R u+rwX "$folder" && rm -rf "$folder"' EXIT

# until_so TENTHS COMMAND...: wait until the command succeeds, so long at most.
until_so() {
    left=$1
    shift
    until "$@" >/dev/null 2>&1; do
        [ "$left" -gt 0 ] || return 1
        left=$((left - 1))
        sleep 0.1
    done
}

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
    until_so 50 serves
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
