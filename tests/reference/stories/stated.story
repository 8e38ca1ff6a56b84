story stated-on-sunday
source ostler-fleet(5), preceding
known OWN
working 31 January 2027 is a Sunday: Friday the 29th
job
    every = 12 months
vehicle
    j.deadline = 2027-01-31
at 2026-12-01
due V j deadline=2027-01-31 plan=2027-01-29

story certificate-recorded-again
source ostler-fleet(5): a stated deadline beside last is the deadline after
    what was done on that day, whether on record or not
known OWN
working the certificate's own day stands
job
    every = 12 months
vehicle
    j.last = 2026-03-14
    j.deadline = 2027-03-31
do 2026-12-01 record V j --on 2026-03-14
at 2026-12-01
due V j deadline=2027-03-31

story stated-then-done-for-it
source common practice: work shortly before the stated deadline is for it
known OWN CALC
working a rhythm stated for 31 March 2027, done on 10 March 2027: 31 March 2028
job
    every = 12 months
    runs-from = deadline
vehicle
    j.deadline = 2027-03-31
do 2027-03-10 record V j --on 2027-03-10
at 2027-03-11
due V j deadline=2028-03-31

story stated-then-history-then-done
source common practice: work before a stated deadline less its interval never
    counts for it
known OWN CALC
working the paper of 2026 changes nothing; done on 10 March 2027 for 31 March
    2027: 31 March 2028
job
    every = 12 months
    runs-from = deadline
vehicle
    j.deadline = 2027-03-31
do 2026-12-01 record V j --on 2026-03-20
do 2027-03-10 record V j --on 2027-03-10
at 2027-03-11
due V j deadline=2028-03-31

story permit-before-the-day-shown
source section 19 permits, renewed before the expiry date shown: ctauk.org,
    what do permits look like and how long do they last
known 2ND
working the date shown is 6 April 2027: the day before is stated, a Monday
job
    class = law
    every = 5 years
    ends = day before
    lead = 30 working days
vehicle
    j.deadline = 2027-04-05
at 2026-12-01
due V j deadline=2027-04-05 plan=2027-04-05

story history-in-any-order
source common practice: papers are found in any order
known OWN CALC
working tests of 2024, 2026 and 2025 entered in that order: a year after the
    newest, 14 March 2027
job
    every = 12 months
do 2026-12-01 record V j --on 2024-03-10
do 2026-12-01 record V j --on 2026-03-14
do 2026-12-01 record V j --on 2025-03-12
at 2026-12-01
due V j deadline=2027-03-14 last=2026-03-14
