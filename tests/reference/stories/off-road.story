story deadline-in-spell
source dynesolicitors.co.uk/covid-19-and-vor-timely-reminder: before the
    vehicle is put back into service it must undergo an inspection
known 2ND
working 20 November and six weeks is 1 January, in a spell to 15 January:
    due on its last day
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2026-12-01 off-road V --from 2026-12-01 --until 2027-01-15
at 2026-12-02
due V j deadline=2027-01-15 plan=2027-01-15 state=before-return

story deadline-in-open-spell
source dynesolicitors.co.uk/covid-19-and-vor-timely-reminder
known 2ND
working no return is known: before return, with the day that it would have
    had and no plan day
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2026-12-01 off-road V --from 2026-12-01
at 2027-03-02
due V j deadline=2027-01-01 state=before-return plan=none

story waits
source ostler-fleet(5), Off the road: with waits the days off the road are
    added
known OWN
working 1 January and the ten days from 1 to 10 December
job
    every = 6 weeks
    off-road = waits
vehicle
    j.last = 2026-11-20
do 2026-12-01 off-road V --from 2026-12-01 --until 2026-12-10
at 2026-12-12
due V j deadline=2027-01-11

story waits-done-in-spell
source ostler-fleet(5): the days off the road since the last completion
known OWN
working done on 20 November within a spell to the 25th: five days after it,
    1 to 6 January
job
    every = 6 weeks
    off-road = waits
vehicle
    j.last = 2026-11-20
do 2026-11-26 off-road V --from 2026-11-15 --until 2026-11-25
at 2026-12-12
due V j deadline=2027-01-06

story runs-on
source ostler-fleet(5): the interval runs on through the spell
known OWN
working the spell ends before the deadline of 1 January: nothing changes
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2026-12-01 off-road V --from 2026-12-01 --until 2026-12-31
at 2026-12-12
due V j deadline=2027-01-01 state=ahead

story roll-never-passes-return
source design: no deadline passes a return
known OWN
working six weeks from 27 October is 8 December, in a spell to Sunday 13
    December: by that day, whatever the roll
job
    every = 6 weeks
    roll = following
vehicle
    j.last = 2026-10-27
do 2026-12-01 off-road V --from 2026-12-01 --until 2026-12-13
at 2026-12-02
due V j deadline=2026-12-13 plan=2026-12-11

story two-spells-joined
source common practice: a spell that goes on the day after another is one
known OWN
working 8 December lies in 1 to 10 December, which goes on to 20 December
job
    every = 6 weeks
vehicle
    j.last = 2026-10-27
do 2026-12-01 off-road V --from 2026-12-01 --until 2026-12-10
do 2026-12-01 off-road V --from 2026-12-11 --until 2026-12-20
at 2026-12-02
due V j deadline=2026-12-20

story overdue-before-the-spell
source dynesolicitors.co.uk/covid-19-and-vor-timely-reminder: it is irrelevant
    that a vehicle has not been in service
known 2ND
working due 1 January 2027, off the road from the 5th: it was overdue before
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2027-01-05 off-road V --from 2027-01-05 --until 2027-01-20
at 2027-01-08
due V j deadline=2027-01-01 state=overdue

story spell-begins-on-the-deadline
source ostler-fleet(5), Off the road: a deadline that falls in a spell
known OWN
working due 1 January 2027, off from that day to the 15th: by the 15th
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2027-01-01 off-road V --from 2027-01-01 --until 2027-01-15
at 2027-01-02
due V j deadline=2027-01-15 plan=2027-01-15 state=before-return

story spell-ends-on-the-deadline
source ostler-fleet(5), Off the road: by the last day of the spell
known OWN
working due 1 January 2027, off to that very day: by that day
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2026-12-20 off-road V --from 2026-12-20 --until 2027-01-01
at 2026-12-21
due V j deadline=2027-01-01 plan=2027-01-01 state=before-return

story spell-ends-the-day-before
source ostler-fleet(5), Off the road: else the interval runs on
known OWN
working due 1 January 2027, off to 31 December: on its day
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2026-12-20 off-road V --from 2026-12-20 --until 2026-12-31
at 2026-12-21
due V j deadline=2027-01-01 plan=2027-01-01 state=ahead

story waits-two-spells
source ostler-fleet(5): the days off the road are added, for each spell that
    begins by then
known OWN CALC
working 1 January 2027, and five days each of 1 to 5 and 10 to 14 December:
    11 January
job
    every = 6 weeks
    off-road = waits
vehicle
    j.last = 2026-11-20
do 2026-12-05 off-road V --from 2026-12-01 --until 2026-12-05
do 2026-12-14 off-road V --from 2026-12-10 --until 2026-12-14
at 2026-12-16
due V j deadline=2027-01-11 plan=2027-01-11

story waits-spell-after-the-first-end
source ostler-fleet(5): for each spell that begins by then, the deadline having
    moved
known OWN CALC
working 1 January 2027 and ten days is 11 January; a spell from 5 to 9 January
    begins before that: five days more, 16 January, a Saturday
job
    every = 6 weeks
    off-road = waits
vehicle
    j.last = 2026-11-20
do 2026-12-10 off-road V --from 2026-12-01 --until 2026-12-10
do 2027-01-09 off-road V --from 2027-01-05 --until 2027-01-09
at 2027-01-10
due V j deadline=2027-01-16 plan=2027-01-15

story waits-spells-overlap
source common practice: a day off the road is one day, however often noted
known OWN CALC
working 1 to 10 and 5 to 15 December are fifteen days: 16 January
job
    every = 6 weeks
    off-road = waits
vehicle
    j.last = 2026-11-20
do 2026-12-16 off-road V --from 2026-12-01 --until 2026-12-10
do 2026-12-16 off-road V --from 2026-12-05 --until 2026-12-15
at 2026-12-17
due V j deadline=2027-01-16

story waits-leap-day-counts
source a leap day is a day off the road like any other
known CALC
working 20 January 2028 and six weeks is 2 March; off from 27 February to
    1 March, four days with the 29th: 6 March
job
    every = 6 weeks
    off-road = waits
vehicle
    j.last = 2028-01-20
do 2028-03-02 off-road V --from 2028-02-27 --until 2028-03-01
at 2028-03-02
due V j deadline=2028-03-06

story return-recorded-later
source ostler(1), off-road --until: alone, it ends the spell that has no end yet
known OWN
working before return while open; back after 20 January: by that day
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2026-12-01 off-road V --from 2026-12-01
at 2026-12-02
due V j deadline=2027-01-01 plan=none state=before-return
do 2027-01-05 off-road V --until 2027-01-20 --note mended
at 2027-01-06
due V j deadline=2027-01-20 plan=2027-01-20 state=before-return
do 2027-01-19 record V j --on 2027-01-19
at 2027-01-20
due V j deadline=2027-03-02 state=ahead

story back-without-the-work
source dynesolicitors.co.uk/covid-19-and-vor-timely-reminder: before the vehicle
    is put back into service it must undergo an inspection
known 2ND
working the day after the spell ended without it: overdue
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2026-12-01 off-road V --from 2026-12-01 --until 2027-01-15
at 2027-01-16
due V j deadline=2027-01-15 state=overdue

story spell-voided
source ostler(1), record --void: a voided record no longer counts
known OWN
working as if it had never been off the road
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2026-12-01 off-road V --from 2026-12-01 --until 2027-01-15
do 2026-12-02 record --void 1 --note "wrong bus"
at 2026-12-03
due V j deadline=2027-01-01 state=ahead

story done-while-off-the-road
source common practice: work in the workshop while the vehicle stands
known OWN CALC
working done on 10 December in a spell: six weeks on, 21 January, lies after it
job
    every = 6 weeks
vehicle
    j.last = 2026-11-20
do 2026-12-01 off-road V --from 2026-12-01 --until 2027-01-15
do 2026-12-10 record V j --on 2026-12-10
at 2026-12-11
due V j deadline=2027-01-21 plan=2027-01-21 state=ahead

story following-is-not-needed-in-spell
source design: no deadline passes a return
known OWN
working due on Saturday 2 January 2027 in a spell to Sunday 10 January: planned
    on Friday the 8th, whatever the roll
job
    every = 6 weeks
    roll = nearest
vehicle
    j.last = 2026-11-21
do 2026-12-20 off-road V --from 2026-12-20 --until 2027-01-10
at 2026-12-21
due V j deadline=2027-01-10 plan=2027-01-08 state=before-return
