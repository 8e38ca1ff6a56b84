story failed-then-passed-one-day
source common practice: a retest on the day of the failure
known OWN
working what was entered last of that day counts: a year from 30 November
    2026
job
    every = 12 months
vehicle
    j.last = 2025-12-01
do 2026-11-30 record V j --on 2026-11-30 --result failed
do 2026-11-30 record V j --on 2026-11-30
at 2026-11-30
due V j deadline=2027-11-30 last=2026-11-30

story failed-only
source design: a failed job is a due in state failed until it is done, and
    starts no new interval
known OWN
working the deadline of the year stays, 10 December
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-30 record V j --on 2026-11-30 --result failed
at 2026-11-30
due V j deadline=2026-12-10 state=failed event=2026-11-30

story void-gives-back
source ostler(1), record --void: a voided record no longer counts
known OWN
working the stated day of 2025 counts again
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-30 record V j --on 2026-11-30
do 2026-11-30 record --void 1 --note x
at 2026-11-30
due V j deadline=2026-12-10 last=2025-12-10

story older-record-entered-late
source ostler-fleet(5): the day the job was last completed
known OWN
working a paper of June 2025 changes nothing of what was done in December
    2025
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-30 record V j --on 2025-06-01
at 2026-11-30
due V j deadline=2026-12-10

story void-the-newest
source ostler(1), record --void: a voided record no longer counts
known OWN
working the older record of 10 January 2026 stands
job
    every = 12 months
do 2026-06-30 record V j --on 2026-01-10
do 2026-06-30 record V j --on 2026-06-30
do 2026-06-30 record --void 2 --note x
at 2026-11-30
due V j deadline=2027-01-10

story no-record
source design: no baseline and no record is never silence
known OWN
working a job of which nothing is known
job
    every = 12 months
at 2026-12-01
due V j state=no-record deadline=none

story failed-never-done
source design: a failed job is a due in state failed until it is done
known OWN
working nothing but a failure is known
job
    every = 12 months
do 2026-12-01 record V j --on 2026-12-01 --result failed
at 2026-12-01
due V j state=failed event=2026-12-01

story failed-after-certificate
source design: a failed result starts no new cycle
known OWN
working the certificate's own day stands, and the state is failed
job
    every = 12 months
vehicle
    j.last = 2026-03-14
    j.deadline = 2027-03-31
do 2026-12-01 record V j --on 2026-12-01 --result failed
at 2026-12-01
due V j deadline=2027-03-31 state=failed event=2026-12-01

story failed-then-passed-later
source GOV.UK on a failed test: a retest ends it
known 2ND
working failed on 30 November, passed on 3 December 2026: a year from that
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-30 record V j --on 2026-11-30 --result failed
at 2026-12-01
due V j deadline=2026-12-10 state=failed event=2026-11-30
do 2026-12-03 record V j --on 2026-12-03
at 2026-12-03
due V j deadline=2027-12-03 state=ahead last=2026-12-03

story passed-then-failed-one-day
source design: a second completion or failure of one day counts in the order of
    entry
known OWN
working passed, then found unfit the same day: failed
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-30 record V j --on 2026-11-30
do 2026-11-30 record V j --on 2026-11-30 --result failed
at 2026-11-30
due V j state=failed event=2026-11-30

story failure-voided
source ostler(1), record --void: a voided record no longer counts
known OWN
working as before: due on 10 December, and not failed
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-20 record V j --on 2026-11-20 --result failed
do 2026-11-20 record --void 1 --note "wrong bus"
at 2026-11-21
due V j deadline=2026-12-10 state=ahead quiet=failed

story failure-entered-late
source common practice: papers come late
known OWN
working passed on 1 December; the failure of 1 November, entered after it, is
    older and changes nothing
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-12-01 record V j --on 2026-12-01
do 2026-12-02 record V j --on 2026-11-01 --result failed
at 2026-12-02
due V j deadline=2027-12-01 state=ahead quiet=failed

story failed-and-overdue
source design: a failed job is a due in state failed from that day until it is
    done
known OWN
working past its deadline of 10 December it is still called failed
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-30 record V j --on 2026-11-30 --result failed
at 2026-12-20
due V j deadline=2026-12-10 state=failed event=2026-11-30

story failed-twice
source design: the event stands on the day of the failure
known OWN
working failed on 20 and again on 27 November: it is still failed, by 10
    December
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-20 record V j --on 2026-11-20 --result failed
do 2026-11-27 record V j --on 2026-11-27 --result failed
at 2026-11-28
due V j deadline=2026-12-10 state=failed

story day-to-come-refused
source ostler(1), record: a day still to come is refused
known OWN
working work dated tomorrow is no fact yet
job
    every = 12 months
vehicle
    j.last = 2025-12-10
refused 2026-11-30 record V j --on 2026-12-01
at 2026-11-30
due V j deadline=2026-12-10 last=2025-12-10

story entered-twice-refused
source ostler(1), record: refused when on record as completed that day already
known OWN
working a second entry of 30 November is refused; the year counts once
job
    every = 12 months
do 2026-11-30 record V j --on 2026-11-30
refused 2026-12-01 record V j --on 2026-11-30
at 2026-12-01
due V j deadline=2027-11-30
