define fleet two-depots
    [job x]
    title = Ext
    class = law
    every = 12 months
    lead = 5 days
    [job s]
    title = S
    class = own
    every = 6 weeks
    [vehicle A]
    depot = d
    registered = 2019-01-01
    jobs = s
    s.last = 2026-11-20
    [vehicle B]
    depot = e
    registered = 2019-01-01
    jobs = s
    s.last = 2026-11-20
    [calendar tt]
    works = tue thu
    [depot e]
    calendar = tt
    [equipment EX]
    carried-by = A
    jobs = x
    x.last = 2025-12-05

story at-first-depot
source ostler-fleet(5): equipment has the depot of what carries it
known OWN
working Saturday 5 December 2026: the Friday
use two-depots
at 2026-11-01
due EX x deadline=2026-12-05 plan=2026-12-04

story moved-to-ferry-depot
source ostler(1), move: from that day on it belongs to the depot of that one
known OWN
working a depot that works on Tuesdays and Thursdays: Thursday 3 December
use two-depots
do 2026-11-01 move EX B --on 2026-11-01
at 2026-11-02
due EX x deadline=2026-12-05 plan=2026-12-03

story moved-to-vehicle-off-road
source ostler(1), move: and is off the road with it
known OWN
working the vehicle returns after 31 December: due before that
use two-depots
do 2026-11-01 move EX B --on 2026-11-01
do 2026-11-30 off-road B --from 2026-11-30 --until 2026-12-31
at 2026-11-30
due EX x deadline=2026-12-31 plan=2026-12-31 state=before-return

story moved-off-vehicle-off-road
source design: whatever is due in a spell is due before it ends; it ended
    for the extinguisher when it left
known OWN
working off the road with A to 9 December, then in use with B: due by the
    9th, and overdue
use two-depots
do 2026-12-01 off-road A --from 2026-12-01
do 2026-12-10 move EX B --on 2026-12-10
at 2026-12-10
due EX x deadline=2026-12-09 state=overdue

story move-voided
source ostler(1), move: to take a move back, void its record
known OWN
working as it was: Friday 4 December
use two-depots
do 2026-11-01 move EX B --on 2026-11-01
do 2026-11-01 record --void 1 --note x
at 2026-11-02
due EX x deadline=2026-12-05 plan=2026-12-04

story move-to-come-refused
source ostler(1): records are of what happened; a move still to come is not
    one
known OWN
working a move dated 20 December, entered on 1 November, is refused, and the
    extinguisher stays with A
use two-depots
refused 2026-11-01 move EX B --on 2026-12-20
at 2026-11-02
due EX x deadline=2026-12-05 plan=2026-12-04

story equipment-moved-twice
source ostler(1), move: from that day on it belongs to the other vehicle
known OWN
working to B and back to A: Friday 4 December
use two-depots
do 2026-11-01 move EX B --on 2026-11-01
do 2026-11-10 move EX A --on 2026-11-10
at 2026-11-21
due EX x deadline=2026-12-05 plan=2026-12-04

story equipment-done-after-move
source ostler(1), move: its dates stay
known OWN CALC
working serviced on 3 December with B: a year on, Friday 3 December 2027, where
    B's depot works on Thursday the 2nd
use two-depots
do 2026-11-21 move EX B --on 2026-11-21
do 2026-12-03 record EX x --on 2026-12-03
at 2026-12-04
due EX x deadline=2027-12-03 plan=2027-12-02 book=2027-11-25

story equipment-carrier-waits
source ostler-fleet(5): equipment is off the road with its vehicle; with waits
    the days are added
known OWN CALC
working twelve months from 5 December 2025, and the ten days that A was off:
    15 December
use two-depots
edit title = Ext => title = Ext\noff-road = waits
do 2026-11-20 off-road A --from 2026-11-10 --until 2026-11-19
at 2026-11-21
due EX x deadline=2026-12-15 plan=2026-12-15

story equipment-of-its-own-depot
source ostler-fleet(5): equipment has the depot of what carries it unless it
    states one; ostler(1), move: a depot of its own it keeps
known OWN
working it keeps depot d with B: Friday 4 December
use two-depots
fleet
    depot = d
do 2026-11-21 move EX B --on 2026-11-21
at 2026-11-22
due EX x deadline=2026-12-05 plan=2026-12-04
