story dry-dock
source ostler-fleet(5), Working days; common practice on islands
known OWN
working 29 December lies in the dry dock from the 20th: Thursday 17
    December; ten ferry days before it is Thursday 12 November
fleet
    [calendar ferry]
    works = tue thu
    closed = 2026-12-20..2027-01-06 Dry dock
    [job j]
    title = J
    class = law
    every = 12 months
    calendar = ferry
    lead = 10 working days
    [vehicle V]
    depot = d
    registered = 2019-01-01
    jobs = j
    j.last = 2025-12-29
at 2026-10-01
due V j deadline=2026-12-29 plan=2026-12-17 book=2026-11-12

story dry-dock-two-weeks
source ostler-fleet(5): a lead in weeks goes back to a working day
known OWN
working 17 December less two weeks: Thursday 3 December
fleet
    [calendar ferry]
    works = tue thu
    closed = 2026-12-20..2027-01-06 Dry dock
    [job j]
    title = J
    class = law
    every = 12 months
    calendar = ferry
    lead = 2 weeks
    [vehicle V]
    depot = d
    registered = 2019-01-01
    jobs = j
    j.last = 2025-12-29
at 2026-10-01
due V j deadline=2026-12-29 plan=2026-12-17 book=2026-12-03

story ferry-book-by-over-christmas
source ostler-fleet(5), the book-by day: so many working days, of both places
known OWN CALC
working due Tuesday 12 January 2027; the ferry goes on Tuesdays and Thursdays
    but not from 20 December to 6 January: 7 January, 17, 15 and 10 December are
    the four sailings before
fleet
    [calendar ferry]
    works = tue thu
    closed = 2026-12-20..2027-01-06 Dry dock
    [job j]
    title = J
    class = law
    every = 12 months
    calendar = ferry
    lead = 4 working days
    [vehicle V]
    depot = d
    registered = 2019-01-01
    jobs = j
    j.last = 2026-01-12
at 2026-11-02
due V j deadline=2027-01-12 plan=2027-01-12 book=2026-12-10

story ferry-extra-sailing
source ostler-fleet(5), open: days on which it is open all the same
known OWN
working an extra sailing on Saturday 26 December does not help a depot that is
    shut then; one on Wednesday the 23rd does
fleet
    [calendar ferry]
    works = tue thu
    closed = 2026-12-20..2027-01-06 Dry dock
    open = 2026-12-23 2026-12-26
    [job j]
    title = J
    class = law
    every = 12 months
    calendar = ferry
    lead = 1 day
    [vehicle V]
    depot = d
    registered = 2019-01-01
    jobs = j
    j.last = 2025-12-29
at 2026-10-01
due V j deadline=2026-12-29 plan=2026-12-23 book=2026-12-17

story ferry-to-be-booked
source ostler(1), book-now: the book-by day is here or past, and the plan day is
    not
known OWN
working plan day Thursday 17 December, to be booked by Thursday 3 December
fleet
    [calendar ferry]
    works = tue thu
    [job j]
    title = J
    class = law
    every = 12 months
    calendar = ferry
    lead = 2 weeks
    [vehicle V]
    depot = d
    registered = 2019-01-01
    jobs = j
    j.last = 2025-12-18
at 2026-12-02
due V j deadline=2026-12-18 plan=2026-12-17 book=2026-12-03 quiet=book-now
at 2026-12-04
due V j plan=2026-12-17 warns=book-now

story plan-day-passed
source ostler(1), plan-day-passed: it does not move as time goes by
known OWN
working due Sunday 6 December 2026, planned for Friday the 4th; on Saturday no
    working day is left
job
    every = 12 months
vehicle
    j.last = 2025-12-06
at 2026-12-05
due V j deadline=2026-12-06 plan=2026-12-04 state=due warns=plan-day-passed

story no-working-day-at-all
source ostler(1), no-working-day: no working day between the last time and the
    deadline
known OWN
working done on Friday 24 December 2027, two days: Sunday the 26th, with a
    weekend between
job
    every = 2 days
vehicle
    j.last = 2027-12-24
at 2027-12-25
due V j deadline=2027-12-26 plan=none warns=no-working-day
