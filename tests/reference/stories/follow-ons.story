define fleet wheels
    [job wheel]
    title = Wheel off
    class = own
    every = when needed
    [job torque]
    title = Torque check
    class = recommendation
    follows = wheel
    within = 3 days
    [vehicle V]
    depot = d
    registered = 2019-01-01
    distance-unit = km
    jobs = wheel torque

story retorque-second-wheel
source design: each trigger is an obligation of its own, and the due carries
    the oldest open one
known OWN
working wheels off on 1 and 3 December, three days each: 4 December first
use wheels
do 2026-12-01 record V wheel --on 2026-12-01
do 2026-12-03 record V wheel --on 2026-12-03
at 2026-12-03
due V torque deadline=2026-12-04

story retorque-overdue-stays
source design: each trigger is an obligation of its own
known OWN
working due 4 December and not done; another wheel off on the 6th does not
    make it good
use wheels
do 2026-12-01 record V wheel --on 2026-12-01
do 2026-12-06 record V wheel --on 2026-12-06
at 2026-12-06
due V torque deadline=2026-12-04 state=overdue

define fleet wheel-shop
    [job wheel]
    title = Wheel off
    class = own
    every = when needed
    [job torque]
    title = Torque check
    class = recommendation
    follows = wheel
    within = 3 days or 80 km
    [vehicle V]
    depot = d
    registered = 2019-01-01
    distance-unit = km
    jobs = wheel torque

story retorque-done
source re-check of the nuts after a wheel was off:
    tructyre.co.uk/retorquing.asp
known 2ND
working off on 1 December, checked on the 2nd: nothing is left to do
use wheel-shop
do 2026-12-01 record V wheel --on 2026-12-01
at 2026-12-01
due V torque deadline=2026-12-04
do 2026-12-02 record V torque --on 2026-12-02
at 2026-12-03
due V torque absent

story retorque-between
source design: each trigger is an obligation of its own
known OWN
working off on 1 December, checked on the 2nd, off again on the 3rd: the second
    is open, 6 December
use wheel-shop
do 2026-12-01 record V wheel --on 2026-12-01
do 2026-12-02 record V torque --on 2026-12-02
do 2026-12-03 record V wheel --on 2026-12-03
at 2026-12-04
due V torque deadline=2026-12-06 plan=2026-12-04

story retorque-once-for-two
source common practice: one check of all nuts after both wheels were on again
known OWN
working off on 1 and 2 December, checked on the 3rd: both are done
use wheel-shop
do 2026-12-01 record V wheel --on 2026-12-01
do 2026-12-02 record V wheel --on 2026-12-02
do 2026-12-03 record V torque --on 2026-12-03
at 2026-12-03
due V torque absent

story retorque-late-then-again
source design: each trigger is an obligation of its own
known OWN
working off on 1 December and again on the 6th, checked late on the 7th: both
    are done; off again on the 8th: 11 December
use wheel-shop
do 2026-12-01 record V wheel --on 2026-12-01
do 2026-12-06 record V wheel --on 2026-12-06
at 2026-12-06
due V torque deadline=2026-12-04 state=overdue
do 2026-12-07 record V torque --on 2026-12-07
at 2026-12-07
due V torque absent
do 2026-12-08 record V wheel --on 2026-12-08
at 2026-12-08
due V torque deadline=2026-12-11

story retorque-failed
source design: a failed job is a due in state failed until it is done
known OWN
working checked on 2 December and found loose: still by the 4th, and failed
use wheel-shop
do 2026-12-01 record V wheel --on 2026-12-01
do 2026-12-02 record V torque --on 2026-12-02 --result failed
at 2026-12-02
due V torque deadline=2026-12-04 state=failed event=2026-12-02

story retorque-wheel-voided
source ostler(1), record --void: a voided record no longer counts
known OWN
working the wheel of another bus: nothing is to be done
use wheel-shop
do 2026-12-01 record V wheel --on 2026-12-01
do 2026-12-01 record --void 1 --note "wrong bus"
at 2026-12-02
due V torque absent

story retorque-check-voided
source ostler(1), record --void: a voided record no longer counts
known OWN
working the check was of another bus: 4 December again
use wheel-shop
do 2026-12-01 record V wheel --on 2026-12-01
do 2026-12-02 record V torque --on 2026-12-02
do 2026-12-02 record --void 2 --note "wrong bus"
at 2026-12-03
due V torque deadline=2026-12-04

story retorque-stated-wheel
source ostler-fleet(5): the last of a job which another follows calls for the
    other
known OWN
working the fleet file says 1 December: 4 December
use wheel-shop
fleet
    wheel.last = 2026-12-01
at 2026-12-02
due V torque deadline=2026-12-04

story retorque-by-distance
source after 40 to 80 km: tructyre.co.uk/retorquing.asp
known 2ND
working off at 10,000 km; 10,080 read on 3 December: due that day, and overdue
    on the next
use wheel-shop
do 2026-12-02 record V wheel --on 2026-12-02 --reading 10000
do 2026-12-03 reading V 10080 --on 2026-12-03
at 2026-12-03
due V torque deadline=2026-12-03 reading=10080
at 2026-12-04
due V torque deadline=2026-12-03 state=overdue

story retorque-same-day
source ostler-fleet(5), Work that follows: on one day the order of entry decides
known OWN
working the wheel and then its check, both on 1 December: nothing is left
use wheel-shop
do 2026-12-01 record V wheel --on 2026-12-01
do 2026-12-01 record V torque --on 2026-12-01
at 2026-12-01
due V torque absent

story retorque-same-day-before
source ostler-fleet(5), Work that follows: done before a call, it answers
    nothing
known OWN
working checked in the morning, another wheel off in the afternoon: 4 December
use wheel-shop
do 2026-12-01 record V torque --on 2026-12-01
do 2026-12-01 record V wheel --on 2026-12-01
at 2026-12-01
due V torque deadline=2026-12-04

story retorque-entered-late
source common practice: papers come late
known OWN
working off on 1 December; the paper of a check of 30 November, entered later,
    was before it
use wheel-shop
do 2026-12-01 record V wheel --on 2026-12-01
do 2026-12-02 record V torque --on 2026-11-30
at 2026-12-02
due V torque deadline=2026-12-04
