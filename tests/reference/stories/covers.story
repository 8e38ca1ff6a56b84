define fleet tachographs
    [job j]
    title = 2y
    class = law
    every = 24 months
    lead = 1 day
    [job six]
    title = 6y
    class = law
    every = 6 years
    covers = j
    lead = 1 day
    [vehicle V]
    depot = d
    registered = 2019-01-01
    jobs = j six

story six-yearly-covers
source analogue tachographs, checked every two years and recalibrated every
    six: drivinghorseboxes.co.uk/driving_tachograph_use.htm
known 2ND
working the recalibration of 29 February 2024 counts as the inspection: 28
    February 2026
use tachographs
do 2026-01-01 record V six --on 2024-02-29
at 2026-01-01
due V j deadline=2026-02-28

story failed-cover
source design: a failed result starts no new cycle, nor does it cover
known OWN
working the inspection of 20 February 2024 stands
use tachographs
do 2026-01-01 record V j --on 2024-02-20
do 2026-01-01 record V six --on 2024-02-29 --result failed
at 2026-01-01
due V j deadline=2026-02-20

define fleet three-services
    [job small]
    title = Small service
    class = maker
    every = 6 months
    [job middle]
    title = Middle service
    class = maker
    every = 12 months
    covers = small
    [job large]
    title = Large service
    class = maker
    every = 24 months
    covers = middle
    [vehicle V]
    depot = d
    registered = 2019-01-01
    jobs = small middle large
    large.last = 2025-01-15

story covers-of-covers
source ostler-fleet(5), covers: and those that they cover
known OWN CALC
working the large one of 15 January 2026 is the middle and the small one too
use three-services
do 2026-01-15 record V large --on 2026-01-15
at 2026-01-16
due V large deadline=2028-01-15
due V middle deadline=2027-01-15
due V small deadline=2026-07-15

story narrower-does-not-cover-wider
source common practice: the small service is a part of the large one
known OWN CALC
working the small one of 10 July 2025 moves itself alone
use three-services
do 2025-07-10 record V small --on 2025-07-10
at 2025-07-11
due V large deadline=2027-01-15
due V middle deadline=2026-01-15
due V small deadline=2026-01-10

story cover-voided
source ostler(1), record --void: a voided record no longer counts
known OWN CALC
working the large one of 2026 was another bus: all as before
use three-services
do 2026-01-15 record V large --on 2026-01-15
do 2026-01-15 record --void 1 --note "wrong bus"
at 2026-01-16
due V middle deadline=2026-01-15 state=overdue
due V small deadline=2025-07-15 state=overdue
due V large deadline=2027-01-15

story cover-older-than-narrower
source common practice: the last time counts, whichever job it was
known OWN CALC
working the small one of 1 December 2026 is newer than the large one of
    15 January
use three-services
do 2026-12-01 record V small --on 2026-12-01
do 2026-12-02 record V large --on 2026-01-15
at 2026-12-02
due V small deadline=2027-06-01
due V middle deadline=2027-01-15
