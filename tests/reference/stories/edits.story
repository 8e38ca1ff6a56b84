story shorter-interval-at-once
source common practice: an interval that is shortened holds from now on
known OWN
working 2 November and six weeks: 14 December
job
    every = 10 weeks
vehicle
    j.last = 2026-11-02
edit 10 weeks => 6 weeks
at 2026-11-20
due V j deadline=2026-12-14

story rhythm-after-history
source ostler-fleet(5), deadline: work that comes too early for the next is
    an extra, in the first half of the interval
known OWN
working records of 5 January and 1 December 2026; due 5 January 2027, done
    in December for it, so 5 January 2028
job
    every = 12 months
do 2026-12-01 record V j --on 2026-01-05
do 2026-12-01 record V j --on 2026-12-01
edit every = 12 months => every = 12 months\nruns-from = deadline
at 2026-12-02
due V j deadline=2028-01-05

story rhythm-of-early-work
source ostler-fleet(5), deadline: a fixed rhythm from the first record
known OWN
working from 2 March every six weeks: 13 April, 25 May, 6 July, each done in
    its second half; the fourth of 15 June counts for 6 July, so 17 August
job
    every = 6 weeks
    runs-from = deadline
do 2026-12-01 record V j --on 2026-03-02
do 2026-12-01 record V j --on 2026-04-06
do 2026-12-01 record V j --on 2026-05-11
do 2026-12-01 record V j --on 2026-06-15
at 2026-06-20
due V j deadline=2026-08-17

story first-day-moves-with-registration
source gov.uk/getting-an-mot: by the third anniversary of its registration
known READ
working registered 1 July 2024, not 1 June as first written: 1 July 2027
job
    every = 12 months
    first = 3 years from registered
vehicle
    registered = 2024-06-01
at 2027-01-05
due V j deadline=2027-06-01
edit 2024-06-01 => 2024-07-01
at 2027-01-06
due V j deadline=2027-07-01

story interval-lengthened
source common practice: the interval of the fleet file holds for work on record
known OWN
working six weeks from 2 November 2026 made eight: 28 December
job
    every = 6 weeks
do 2026-11-02 record V j --on 2026-11-02
at 2026-11-03
due V j deadline=2026-12-14
edit 6 weeks => 8 weeks
at 2026-11-04
due V j deadline=2026-12-28

story sections-in-another-order
source design: the fleet file in another order gives the same
known OWN
working the vehicle before its job, equipment before its vehicle: 5 December,
    planned for Friday the 4th
fleet
    [equipment EX]
    carried-by = A
    jobs = x
    x.last = 2025-12-05
    [vehicle A]
    depot = d
    registered = 2019-01-01
    jobs = s
    s.last = 2026-11-20
    [job s]
    title = S
    class = own
    every = 6 weeks
    [job x]
    title = Ext
    class = law
    every = 12 months
    lead = 5 days
at 2026-11-21
due EX x deadline=2026-12-05 plan=2026-12-04
due A s deadline=2027-01-01
