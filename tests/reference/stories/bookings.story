# Bookings and the plan.

story booking-moves-the-day
source design: a booking moves plan day and event everywhere
known OWN
working due Thursday 10 December 2026, booked for Tuesday the 1st
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-20 book V j --on 2026-12-01
at 2026-11-21
due V j deadline=2026-12-10 plan=2026-12-01

story booking-moves-the-day-with-planner
source design: a booking moves plan day and event everywhere
known OWN
working due Thursday 10 December 2026, booked for Tuesday the 1st
site
    planner = on
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-20 book V j --on 2026-12-01
at 2026-11-21
due V j deadline=2026-12-10 plan=2026-12-01

story booking-cancelled
source ostler(1), book --cancel: take the booking back
known OWN
working as it was: Thursday 10 December
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-20 book V j --on 2026-12-01
do 2026-11-21 book V j --cancel
at 2026-11-22
due V j deadline=2026-12-10 plan=2026-12-10

story booking-replaced
source ostler(1), book: another for the same cycle replaces it
known OWN
working booked for 1 December, then for the 3rd
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-20 book V j --on 2026-12-01
do 2026-11-21 book V j --on 2026-12-03
at 2026-11-22
due V j deadline=2026-12-10 plan=2026-12-03

story booking-ends-with-its-work
source ostler(1), book: it ends when the job is recorded as done
known OWN CALC
working done on 27 November 2026, before the day booked: the next on
    27 November 2027, a Saturday
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-20 book V j --on 2026-12-01
do 2026-11-27 record V j --on 2026-11-27
at 2026-11-28
due V j deadline=2027-11-27 plan=2027-11-26

story booking-passed-undone
source design: a booking that has passed undone stays and says so
known OWN
working booked for 1 December, not done by the 3rd
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-20 book V j --on 2026-12-01
at 2026-12-03
due V j deadline=2026-12-10 plan=2026-12-01 warns=booked-day-passed

story booking-ends-to-be-booked
source design: a booking ends "to be booked by"
known OWN
working lead of two weeks: to be booked by 26 November; booked, it is not asked
    for any more
job
    every = 12 months
    lead = 2 weeks
vehicle
    j.last = 2025-12-10
at 2026-11-27
due V j plan=2026-12-10 book=2026-11-26 warns=book-now
do 2026-11-27 book V j --on 2026-12-08
at 2026-11-28
due V j plan=2026-12-08 quiet=book-now

story booking-after-deadline-refused
source ostler(1), book: a day after the deadline wants --sure
known OWN
working booked for 14 December, four days late: refused, and the plan stays
job
    every = 12 months
vehicle
    j.last = 2025-12-10
refused 2026-11-20 book V j --on 2026-12-14
at 2026-11-21
due V j deadline=2026-12-10 plan=2026-12-10

story shut-over-new-year
source design: the plan is late only where no day at all would do
known OWN
working shut from 24 December to 3 January, due on 3 January 2027: Wednesday
    23 December
fleet
    [calendar shop]
    works = mon tue wed thu fri
    closed = 2026-12-24..2027-01-03 Shut
    [depot s]
    calendar = shop
    [job j]
    title = J
    class = law
    every = 6 weeks
    lead = 1 day
    [vehicle V]
    depot = s
    registered = 2019-01-01
    jobs = j
    j.last = 2026-11-22
at 2026-12-01
due V j deadline=2027-01-03 plan=2026-12-23

story shut-over-new-year-with-planner
source design: the plan is late only where no day at all would do
known OWN
working shut from 24 December to 3 January, due on 3 January 2027: Wednesday
    23 December, though that is more than a sixth of six weeks before
site
    planner = on
fleet
    [calendar shop]
    works = mon tue wed thu fri
    closed = 2026-12-24..2027-01-03 Shut
    [depot s]
    calendar = shop
    [job j]
    title = J
    class = law
    every = 6 weeks
    lead = 1 day
    [vehicle V]
    depot = s
    registered = 2019-01-01
    jobs = j
    j.last = 2026-11-22
at 2026-12-01
due V j deadline=2027-01-03 plan=2026-12-23

story one-place-a-day
source common practice: one ramp takes one vehicle a day
known OWN CALC
working both due on Friday 12 February 2027: one on that day, one on the
    Thursday; neither is late
site
    planner = on
fleet
    [calendar ramp]
    works = mon tue wed thu fri
    vehicles-a-day = 1
    [job j]
    title = J
    class = law
    every = 12 months
    calendar = ramp
    lead = 1 day
    takes = 2 hours
    early = 3 days
    [vehicle A]
    depot = d
    registered = 2019-01-01
    jobs = j
    j.last = 2026-02-12
    [vehicle B]
    depot = d
    registered = 2019-01-01
    jobs = j
    j.last = 2026-02-12
at 2026-12-01
due A j deadline=2027-02-12 plan=2027-02-09..2027-02-12
due B j deadline=2027-02-12 plan=2027-02-09..2027-02-12

story open-spell-and-overdue
source design: what is overdue when a vehicle comes back is due before it
    returns, in list and plan alike
known OWN
working due 1 November 2026, off the road from the 5th with no return known: the
    list, and the plan of the other vehicle, still stand
site
    planner = on
fleet
    [job j]
    title = J
    class = law
    every = 12 months
    lead = 1 day
    [vehicle A]
    depot = d
    registered = 2019-01-01
    jobs = j
    j.last = 2025-11-01
    [vehicle B]
    depot = d
    registered = 2019-01-01
    jobs = j
    j.last = 2026-02-12
do 2026-11-05 off-road A --from 2026-11-05
at 2026-11-10
due A j deadline=2026-11-01
due B j deadline=2027-02-12 plan=2027-01-15..2027-02-12
