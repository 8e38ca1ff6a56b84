# radicale.sh: a calendar server, Radicale, for a scenario, beside lib.sh and
# subscriber.sh: in the folder of the fleet, with one calendar on it.
# shellcheck shell=sh disable=SC2154 # $folder is of lib.sh

cat >server.conf <<CONF
[auth]
type = none
[rights]
type = owner_only
[storage]
filesystem_folder = $PWD/stored
[web]
type = none
CONF

radicale=
# It ends with the scenario, as a daemon does.
trap 'stop_radicale
    [ -z "${pid:-}" ] || kill "$pid" 2>/dev/null
    cd "$tree" && chmod -R u+rwX "$folder" && rm -rf "$folder"' EXIT
stop_radicale() {
    [ -z "$radicale" ] || kill "$radicale" 2>/dev/null
    [ -z "$radicale" ] || wait "$radicale" 2>/dev/null
    radicale=
}

# start_radicale: $calendar is where.  It is given a port that was free; should
# another take it first, it is given the next.
start_radicale() {
    for _ in 1 2 3; do
        port=$(free_port)
        radicale --config "$PWD/server.conf" --hosts "127.0.0.1:$port" \
            2>"$folder/served" &
        radicale=$!
        calendar=http://127.0.0.1:$port/pool/fleet/
        while kill -0 "$radicale" 2>/dev/null; do
            ! curl -s -o /dev/null "http://127.0.0.1:$port/" || return 0
            sleep 0.1
        done
        stop_radicale
    done
    cat "$folder/served"
    return 1
}

# put_calendar FILE: have it take the whole calendar.
put_calendar() {
    curl -s -S -u pool: -X PUT --data-binary "@$1" \
        -H 'Content-Type: text/calendar; charset=utf-8' -w '%{http_code}\n' \
        -o "$folder/answer" "$calendar" >"$folder/status"
    cat "$folder/answer" "$folder/status"
    [ "$(cat "$folder/status")" = 201 ]
}

# ask_radicale METHOD DEPTH [BODY]: its answer.
ask_radicale() {
    curl -s -S -f -u pool: -X "$1" -H "Depth: $2" \
        -H 'Content-Type: application/xml; charset=utf-8' \
        --data-binary "${3:-}" "$calendar"
}

# answered: the events in an answer, a line each: day, title, a tab, and the
# server's name and tag for it.
answered() {
    python3 -c '
import re
import sys
import xml.etree.ElementTree as tree

for answer in tree.parse(sys.stdin).getroot():
    def text(name):
        found = answer.find(".//{*}" + name)
        return "" if found is None else found.text
    data = re.sub("\r?\n ", "", text("calendar-data"))
    start = re.search("^DTSTART;VALUE=DATE:(....)(..)(..)", data, re.M)
    title = re.search("^SUMMARY:(.*?)\r?$", data, re.M)
    print("-".join(start.groups()), title[1], end="\t")
    print(text("href"), text("getetag"))'
}

# between FROM TO: the answer to a question for the days from FROM to before TO.
between() {
    ask_radicale REPORT 1 "<?xml version=\"1.0\"?>
<C:calendar-query xmlns:D=\"DAV:\" xmlns:C=\"urn:ietf:params:xml:ns:caldav\">
<D:prop><D:getetag/><C:calendar-data/></D:prop><C:filter>
<C:comp-filter name=\"VCALENDAR\"><C:comp-filter name=\"VEVENT\">
<C:time-range start=\"$1T000000Z\" end=\"$2T000000Z\"/>
</C:comp-filter></C:comp-filter></C:filter></C:calendar-query>"
}

# For story(): ask_whole checks by the feed that was last taken, $taken.
events() {
    between 19000101 22000101 | answered
}
ask_whole() {
    # It is asked for the calendar as a whole, as subscribers do.
    curl -s -S -f -u pool: "$calendar" >"$folder/whole"
    same "$1: the whole has as many events" "$(wc -l <"$folder/has")" \
        "$(grep -c '^BEGIN:VEVENT' "$folder/whole")"
    same "$1: and every UID that the feed has" \
        "$(grep '^UID:' "$taken" | sort)" \
        "$(grep '^UID:' "$folder/whole" | sort)"
}
