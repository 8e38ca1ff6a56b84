# subscriber.sh: what a subscriber's calendar goes through, whatever the client.
# A scenario sources it in the folder of its fleet, after lib.sh, and defines
#
#   fetch     bring the client up to date with feeds/all.ics
#   events    what the client has then, a line an event: the day, the title, a
#             tab and a tag, which is another when the event was stored anew
#   ask WHAT  check whatever else shows what the client has; sorted, it is in
#             $folder/has
# shellcheck shell=sh

: >"$folder/had"

# differs: how the client's events differ from those before, a line each: "-"
# and what was there, "+" and what there is now.  One stored anew is on both.
differs() {
    events | LC_ALL=C sort >"$folder/has"
    LC_ALL=C comm -23 "$folder/had" "$folder/has" | sed 's/^/-/; s/\t.*//'
    LC_ALL=C comm -13 "$folder/had" "$folder/has" | sed 's/^/+/; s/\t.*//'
    cp "$folder/has" "$folder/had"
}

# sees WHAT DIFFERENCE: fetched again, the client's calendar differs so.
sees() {
    check "$1: it is fetched" fetch
    same "$1: exactly these events change" "$2" "$(differs)"
    ask "$1"
}

# night DAY: the pass of that day.
night() {
    same "the pass of $1 is silent" "0" \
        "$(code at "$1" nightly)$(cat "$folder/out" "$folder/err")"
}

# By fleet.conf, and to the end of its feeds, six months on.
story() {
    night 2026-12-02
    sees "first" "+2026-12-16 K1 - Service
+2026-12-17 K2 - Service
+2027-01-04 K1 - Annual test
+2027-03-09 K2 - Annual test"
    sees "the same day again" ""
    night 2026-12-03
    sees "nothing changed" ""

    # The workshop is closed on Tuesday the 9th: Monday the 8th is before it.
    sed -i 's/^works = .*/&\nclosed = 2027-03-09 Stocktaking/' fleet.conf
    night 2026-12-03
    sees "one date moved" "-2027-03-09 K2 - Annual test
+2027-03-08 K2 - Annual test"

    # A test passed on 3 December is good until 2 December 2027, which the feed
    # does not reach.  A service is due six months on: 3 June 2027, the feed's
    # last day.
    same "a backup" 0 "$(code at 2026-12-03 backup kept.db)"
    at 2026-12-03 record K1 annual-test --on 2026-12-03 >/dev/null
    night 2026-12-03
    sees "one job done" "-2027-01-04 K1 - Annual test"
    at 2026-12-03 record K1 service --on 2026-12-03 >/dev/null
    night 2026-12-03
    sees "another, whose next is in sight" "-2026-12-16 K1 - Service
+2027-06-03 K1 - Service"

    # A year back, so far that the feed ends on the same day as before.
    sed -i 's/^horizon = .*/horizon = 18 months/' fleet.conf
    night 2025-12-03
    sees "the clock is a year behind" ""
    # Closed on Monday the 8th as well: Friday the 5th.
    sed -i 's/^closed = .*/closed = 2027-03-08..2027-03-09 Stocktaking/' \
        fleet.conf
    night 2025-12-03
    sees "a date moves while it is" "-2027-03-08 K2 - Annual test
+2027-03-05 K2 - Annual test"
    sed -i -e 's/^horizon = .*/horizon = 6 months/' \
        -e 's/^closed = .*/closed = 2027-03-09 Stocktaking/' fleet.conf
    night 2026-12-03
    sees "the clock is right, and the date moves back" \
        "-2027-03-05 K2 - Annual test
+2027-03-08 K2 - Annual test"

    # What the backup does not know of is to be done again.  The date that moved
    # on since then is where it was, and the client has seen that.
    same "the backup is restored" 0 \
        "$(code at 2026-12-03 restore kept.db --drop-newer)"
    night 2026-12-03
    sees "restored" "-2027-06-03 K1 - Service
+2026-12-16 K1 - Service
+2027-01-04 K1 - Annual test"
    night 2026-12-04
    sees "the day after" ""
}
