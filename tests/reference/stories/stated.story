story rhythm-history-imported
source common practice: the certificate's date is entered, then old papers;
    work before the stated deadline less its interval never counts for it
known OWN
working stated 31 March 2027; the work of March 2026 was for the one before
job
    every = 12 months
    runs-from = deadline
vehicle
    j.deadline = 2027-03-31
do 2026-12-01 record V j --on 2026-03-20
at 2026-12-01
due V j deadline=2027-03-31

story weeks-history-imported
source common practice: as with a year, in weeks
known OWN
working stated 20 December 2026, thirteen weeks; work of 20 September was
    for the one before
job
    every = 13 weeks
    runs-from = deadline
vehicle
    j.deadline = 2026-12-20
do 2026-12-01 record V j --on 2026-09-20
at 2026-12-01
due V j deadline=2026-12-20

story yearly-history-imported
source common practice: a seasonal date is stated, then last year's papers
    are entered
known OWN
working stated 1 November 2027; the service of October 2026 was for 1
    November 2026
job
    every = yearly on 1 nov
vehicle
    j.deadline = 2027-11-01
do 2026-12-01 record V j --on 2026-10-25
at 2026-12-01
due V j deadline=2027-11-01

story first-on-then-delivery
source common practice: the first day is agreed, and the inspection at
    delivery recorded
known OWN
working eleven months before the first deadline, within the first half of
    the interval: an extra
job
    every = 12 months
    runs-from = deadline
    first = on 2027-11-01
do 2026-12-01 record V j --on 2026-12-01
at 2026-12-01
due V j deadline=2027-11-01

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

story driver-card-then-old-card
source 35 hours every five years, before the deadline on the card:
    jayg777.wixsite.com/totaldrivertraining/driver-cpc
known 2ND
working the card says 9 September 2027; the old card of 1 September 2022, when
    recorded later, was for the five years before
fleet
    [job cpc]
    title = Driver qualification
    class = law
    every = 5 years
    runs-from = deadline
    lead = 8 weeks
    [driver R1]
    depot = d
    jobs = cpc
    cpc.deadline = 2027-09-09
do 2026-12-01 record R1 cpc --on 2022-09-01
at 2026-12-01
due R1 cpc deadline=2027-09-09

story completion-history-imported
source common practice: work before a stated deadline less its interval never
    counts for it
known OWN
working stated 31 March 2027, twelve months from the work; what was done on
    20 March 2026 was for the one before
job
    every = 12 months
vehicle
    j.deadline = 2027-03-31
do 2026-12-01 record V j --on 2026-03-20
at 2026-12-01
due V j deadline=2027-03-31

story keeping-history-imported
source GOV.UK on when to get an MOT; common practice, as before
known 2ND OWN
working the certificate says 15 May 2027; the test of 20 April 2026 made it so,
    and that of 20 April 2027 keeps it
job
    every = 12 months
    ends = day before
    runs-from = keeping the date
    window = 1 month
vehicle
    j.deadline = 2027-05-15
do 2026-12-01 record V j --on 2026-04-20
at 2026-12-01
due V j deadline=2027-05-15
do 2027-04-20 record V j --on 2027-04-20
at 2027-04-21
due V j deadline=2028-05-15

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
