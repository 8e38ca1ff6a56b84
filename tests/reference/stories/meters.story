story stated-use
source ostler-fleet(5), Distance and hours: half as much again is the fast
    use
known OWN
working 20,000 km at 21,000 km in 365.2425 days is 347.8 days after 15 April
    2026: in the course of 28 March 2027
job
    class = maker
    every = 12 months or 20000 km
vehicle
    yearly-distance = 14000 km
    j.last = 2026-04-15
    j.last-reading = 66000
at 2026-05-01
due V j deadline=2027-03-28

story already-there
source ostler-fleet(5): once a reading shows what is due, its day is the
    deadline
known OWN
working 66,000 and 20,000 km, read on 1 November
job
    class = maker
    every = 12 months or 20000 km
vehicle
    j.last = 2026-04-15
    j.last-reading = 66000
do 2026-11-01 reading V 86000 --on 2026-11-01
at 2026-11-02
due V j deadline=2026-11-01 state=overdue

story new-meter
source ostler(1), reading --new-meter: the use goes on over the new one
known OWN
working 80,000 at the swap and 6,000 since: 86,000 on 1 November
job
    class = maker
    every = 12 months or 20000 km
vehicle
    j.last = 2026-04-15
    j.last-reading = 66000
do 2026-09-01 reading V 0 --on 2026-09-01 --new-meter --old-meter 80000
do 2026-11-01 reading V 6000 --on 2026-11-01
at 2026-11-02
due V j deadline=2026-11-01 state=overdue

story entered-out-of-order
source common practice: papers come late
known OWN
working the reading of August entered after that of November changes nothing
job
    class = maker
    every = 12 months or 20000 km
vehicle
    j.last = 2026-04-15
    j.last-reading = 66000
do 2026-11-01 reading V 86000 --on 2026-11-01
do 2026-11-01 reading V 70000 --on 2026-08-01
at 2026-11-02
due V j deadline=2026-11-01 state=overdue

story no-reading-at-completion
source design: a due reading is null where none was read at the completion
known OWN
working one reading five months later tells nothing of that day
job
    class = maker
    every = 20000 km
do 2026-06-01 record V j --on 2026-01-01
do 2026-06-01 reading V 50000 --on 2026-06-01
at 2026-06-02
due V j reading=none state=needs-reading

story standing-meter
source design: a due reading is null where none was read at the completion
known OWN
working two equal readings later tell nothing of that day
job
    class = maker
    every = 20000 km
do 2026-06-01 record V j --on 2026-01-01
do 2026-06-01 reading V 50000 --on 2026-06-01
do 2026-07-01 reading V 50000 --on 2026-07-01
at 2026-07-02
due V j reading=none state=needs-reading

story unit-changed-to-miles
source the international mile of 1959: 1.609344 km; ostler-fleet(5): parts of
    one are dropped on the early side
known CALC
working 100,000 km are 62,137.1 miles; 10,000 miles on, 72,137 stand on the
    meter: read on 1 November
job
    class = maker
    every = 10000 miles
vehicle
    distance-unit = miles
    unit-since = 2026-06-01
    j.last = 2026-01-15
    j.last-reading = 100000 km
do 2026-11-01 reading V 72137 --on 2026-11-01
at 2026-11-02
due V j deadline=2026-11-01 state=overdue reading=72137 unit=miles

story unit-changed-a-mile-short
source the international mile of 1959: 1.609344 km
known CALC
working one mile less than 72,137 on 1 November: not there yet
job
    class = maker
    every = 10000 miles
vehicle
    distance-unit = miles
    unit-since = 2026-06-01
    j.last = 2026-01-15
    j.last-reading = 100000 km
do 2026-11-01 reading V 72136 --on 2026-11-01
at 2026-11-01
due V j deadline=2026-11-01..2026-12-31 reading=72137 unit=miles

story interval-in-the-other-unit
source the international mile of 1959: 1.609344 km
known CALC
working 20,000 km are 12,427.4 miles: from 40,000 miles at the latest 52,427
job
    class = maker
    every = 20000 km
vehicle
    distance-unit = miles
    j.last = 2026-01-15
    j.last-reading = 40000
do 2026-11-01 reading V 52427 --on 2026-11-01
at 2026-11-02
due V j deadline=2026-11-01 state=overdue reading=52427 unit=miles

story running-hours
source common practice: a lift pump serviced every 250 hours
known OWN
working 1,000 hours at the last service, 1,250 read on 1 October
job
    class = maker
    every = 250 hours
vehicle
    j.last = 2026-03-01
    j.last-reading = 1000
do 2026-10-01 reading V 1250 --hours --on 2026-10-01
at 2026-10-02
due V j deadline=2026-10-01 state=overdue reading=1250 unit=hours

story steady-use
source a vehicle that goes 100 km each day: 12,000 km take 120 days
known CALC
working serviced on 1 September 2026 at 98,000 km; read every 28 days before:
    likely 30 December, the early day before that and after a month
job
    class = maker
    every = 12000 km
vehicle
    registered = 2023-12-01
do 2026-09-02 reading V 1000 --on 2024-01-09
do 2026-09-02 reading V 6600 --on 2024-03-05
do 2026-09-02 reading V 15000 --on 2024-05-28
do 2026-09-02 reading V 26200 --on 2024-09-17
do 2026-09-02 reading V 40200 --on 2025-02-04
do 2026-09-02 reading V 54200 --on 2025-06-24
do 2026-09-02 reading V 68200 --on 2025-11-11
do 2026-09-02 reading V 79400 --on 2026-03-03
do 2026-09-02 reading V 87800 --on 2026-05-26
do 2026-09-02 reading V 94800 --on 2026-08-04
do 2026-09-02 record V j --on 2026-09-01 --reading 97600
at 2026-09-02
due V j likely=2026-12-27..2027-01-02 early=2026-10-01..2026-12-30 late=2026-12-30..2027-06-30 deadline=2026-10-01..2026-12-30 reading=109600

story calendar-before-distance
source whichever comes first: the maker's schedule
known OWN CALC
working 2,000 km a year, so 20,000 km are ten years off: twelve months decide
job
    class = maker
    every = 12 months or 20000 km
vehicle
    yearly-distance = 2000 km
    j.last = 2026-04-15
    j.last-reading = 66000
at 2026-05-01
due V j deadline=2027-04-15 plan=2027-04-15

story reading-too-old
source ostler-fleet(5), reading-within: an older one is warned of, and the due
    is listed as needing a reading
known OWN
working the newest reading is of 15 April, more than eight weeks old on 1 July
job
    class = maker
    every = 12 months or 20000 km
    reading-within = 8 weeks
vehicle
    yearly-distance = 14000 km
    j.last = 2026-04-15
    j.last-reading = 66000
at 2026-06-01
due V j state=ahead quiet=old-reading
at 2026-07-01
due V j state=needs-reading warns=old-reading

story reading-backwards
source ostler(1), reading: refused when it is lower than an earlier one
known OWN
working 66,000 in April; a digit too few in May is refused, and nothing moves
job
    class = maker
    every = 12 months or 20000 km
vehicle
    yearly-distance = 2000 km
    j.last = 2026-04-15
    j.last-reading = 66000
refused 2026-05-20 reading V 6640 --on 2026-05-20
at 2026-05-21
due V j deadline=2027-04-15 reading=86000

story reading-too-fast
source ostler(1), reading: more than 1,500 km a day, both days counted, is
    refused
known OWN
working from 66,000 on 15 April to 69,001 on the 16th is more than 3,000 in two
    days; 69,000 is not
job
    class = maker
    every = 20000 km
vehicle
    yearly-distance = 14000 km
    j.last = 2026-04-15
    j.last-reading = 66000
refused 2026-04-16 reading V 69001 --on 2026-04-16
do 2026-04-16 reading V 69000 --on 2026-04-16
at 2026-04-17
due V j reading=86000

story reading-voided
source ostler(1), record --void: a voided record no longer counts
known OWN
working the 86,000 of 1 November was another bus's: not due by it any more, but
    by the twelve months
job
    class = maker
    every = 12 months or 20000 km
vehicle
    yearly-distance = 2000 km
    j.last = 2026-04-15
    j.last-reading = 66000
do 2026-11-01 reading V 86000 --on 2026-11-01
do 2026-11-02 record --void 1 --note "another bus"
at 2026-11-03
due V j deadline=2027-04-15 state=ahead

story nothing-to-tell-a-day-from
source ostler-fleet(5): with neither readings nor stated use, the due needs a
    reading
known OWN
working one reading and no yearly use
job
    class = maker
    every = 20000 km
vehicle
    j.last = 2026-04-15
    j.last-reading = 66000
at 2026-05-01
due V j state=needs-reading deadline=none reading=86000
