# May it be driven?  2 March 2026 is a Monday.  `condition SUBJECT WORD` is the
# vehicle's in `due --json`; `stops=N` is how many stops it has.

define fleet people
    [person ann]
    mail = ann@skerrow.example
    told = all
    may = assess repair release
    [person bea]
    mail = bea@skerrow.example
    told = all
    may = assess repair release

define fleet sheet
    [check walk-round]
    title = Walk-round check
    when = each driver each day
    nil = recorded
    items =
      T1, Tyres all round, stops
      L1, Lamps, major
      B1, Bodywork, minor
      F1, Extinguisher in its place, major

define fleet one-bus
    [job law]
    title = Annual test
    class = law
    every = 12 months
    [vehicle K7]
    depot = d
    registered = 2019-05-16
    check = walk-round
    jobs = law
    law.last = 2025-06-01

define fleet two-buses
    [job law]
    title = Annual test
    class = law
    every = 12 months
    [vehicle K7]
    depot = d
    registered = 2019-05-16
    check = walk-round
    jobs = law
    law.last = 2025-06-01
    [vehicle M2]
    depot = d
    registered = 2019-05-16
    check = walk-round
    jobs = law
    law.last = 2025-06-01
    [job ext]
    title = Extinguisher
    class = law
    every = 12 months
    [equipment X1]
    carried-by = K7
    jobs = ext
    ext.last = 2025-06-01

story condition-fit
source design 8: nothing stops it and nothing is open
known OWN
working the test runs to 1 June 2026, and the walk-round found nothing
use people
use sheet
use one-bus
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --nil
at 2026-03-02
condition K7 fit stops=0

story condition-minor
source design 8, rule 12: a minor, not assessed, is an open defect
known OWN
working B1 is graded minor
use people
use sheet
use one-bus
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --defect B1=dent
at 2026-03-02
condition K7 open-defects stops=0

story condition-major
source design 8, rule 12: a major, not assessed, stops too
known OWN
working L1 is graded major; mended, it is still to be released
use people
use sheet
use one-bus
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --defect L1=out
at 2026-03-02
condition K7 not-to-be-driven stops=1
do 2026-03-02 repair 1 --on 2026-03-02 --at 12:00 --by ann --note bulb
at 2026-03-02
condition K7 not-to-be-driven stops=1
do 2026-03-02 release 1 --on 2026-03-02 --at 13:00 --by bea
at 2026-03-02
condition K7 fit stops=0

story condition-decided
source design 8, Words: open defects: may be driven, somebody decided so
known OWN
working bea defers one to Friday and watches another, which ann reported
use people
use sheet
use one-bus
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --defect L1=out --defect T1=cut
at 2026-03-02
condition K7 not-to-be-driven stops=2
do 2026-03-02 assess 1 until 2026-03-06 --on 2026-03-02 --at 09:00 --by bea --note daylight
do 2026-03-02 assess 2 watch --on 2026-03-02 --at 09:00 --by bea --note shallow
at 2026-03-02
condition K7 open-defects stops=0

story condition-two-defects-one-mended
source issue 16: two defects of which one is mended
known OWN
working the lamp is released; the tyre still stops it
use people
use sheet
use one-bus
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --defect L1=out --defect T1=cut
do 2026-03-02 repair 1 --on 2026-03-02 --at 12:00 --by ann --note bulb
do 2026-03-02 release 1 --on 2026-03-02 --at 13:00 --by bea
at 2026-03-03
condition K7 not-to-be-driven stops=1

story condition-lapses-over-a-weekend
source design 8, rule 6: it lapses at the end of its day and then stops
known OWN
working to Saturday 7 March, good on that day; nobody works at the weekend,
    and on Sunday it stops all the same
use people
use sheet
use one-bus
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --defect B1=dent
do 2026-03-02 assess 1 until 2026-03-07 --on 2026-03-02 --at 09:00 --by bea --note panel
at 2026-03-07
condition K7 open-defects stops=0
at 2026-03-08
condition K7 not-to-be-driven stops=1

story condition-lapses-off-the-road
source design 8, rule 6: it lapses off the road too
known OWN
working off the road from the 3rd with no return: the spell, and from the 8th
    the deferral as well
use people
use sheet
use one-bus
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --defect B1=dent
do 2026-03-02 assess 1 until 2026-03-07 --on 2026-03-02 --at 09:00 --by bea --note panel
do 2026-03-03 off-road K7 --from 2026-03-03 --note winter
at 2026-03-07
condition K7 not-to-be-driven stops=1
at 2026-03-08
condition K7 not-to-be-driven stops=2

story condition-nil-is-no-release
source design 8, rule 4: a nil is never a release
known OWN
working another driver finds nothing the next morning
use people
use sheet
use one-bus
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --defect T1=cut
do 2026-03-03 walk-round K7 --on 2026-03-03 --at 07:30 --by bea --nil
at 2026-03-03
condition K7 not-to-be-driven stops=1

story condition-no-record-of-law
source design 8, rule 11: a law job without a record is never fit: not known
known OWN
working nothing says when it was tested, and it is 2026
use people
use sheet
fleet
    [job law]
    title = Annual test
    class = law
    every = 12 months
    [vehicle K7]
    depot = d
    check = walk-round
    jobs = law
at 2026-03-02
condition K7 not-known stops=0

story condition-no-record-above-open-defects
source design 8, rule 11: not known, above open defects
known OWN
working a minor is open as well; a stop would be said first
use people
use sheet
fleet
    [job law]
    title = Annual test
    class = law
    every = 12 months
    [vehicle K7]
    depot = d
    check = walk-round
    jobs = law
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --defect B1=dent
at 2026-03-02
condition K7 not-known stops=0
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 12:30 --by ann --defect T1=cut
at 2026-03-02
condition K7 not-to-be-driven stops=1

story condition-no-record-of-own
source design 8, rule 11: a law job
known OWN
working the operator's own job without a record is listed, but says nothing
    of whether it may be driven
use people
use sheet
fleet
    [job own]
    title = Valet
    class = own
    every = 3 months
    [vehicle K7]
    depot = d
    check = walk-round
    jobs = own
at 2026-03-02
condition K7 fit stops=0

story condition-failed-law
source design 8: a job of class law that failed: not to be driven until it is
    lifted
known OWN
working failed at noon of the 2nd, though the old certificate runs to June: the
    safer reading of the law
use people
use sheet
use one-bus
do 2026-03-02 record K7 law --on 2026-03-02 --result failed
at 2026-03-02
condition K7 not-to-be-driven stops=1
at 2026-03-20
condition K7 not-to-be-driven stops=1

story condition-failed-own
source design 8: where its class is law or its job says so
known OWN
working own work that failed tells and does not stop, but fit means only that
    nothing is known against it; with failure = stops it stops
use people
use sheet
fleet
    [job own]
    title = Heater
    class = own
    every = 12 months
    [job lift]
    title = Lift service
    class = own
    every = 12 months
    failure = stops
    [vehicle K7]
    depot = d
    check = walk-round
    jobs = own lift
    own.last = 2025-06-01
    lift.last = 2025-06-01
do 2026-03-02 record K7 own --on 2026-03-02 --result failed
at 2026-03-02
condition K7 open-defects stops=0
do 2026-03-02 record K7 lift --on 2026-03-02 --result failed
at 2026-03-02
condition K7 not-to-be-driven stops=1

story condition-overdue-law
source design, Words: the deadline is the last day on which the job may be
    done; 8: a deadline of class law that is past
known OWN
working 1 June 2026 is the last day, a Monday; on the 2nd it stops
use people
use sheet
use one-bus
at 2026-06-01
condition K7 fit stops=0
at 2026-06-02
condition K7 not-to-be-driven stops=1

story condition-overdue-on-a-weekend
source design, condition: reads deadlines, never plan days
known OWN
working last done 7 March 2025: the deadline is Saturday 7 March 2026 and its
    plan day the Friday; on Saturday it may be driven, on Sunday not
use people
use sheet
fleet
    [job law]
    title = Annual test
    class = law
    every = 12 months
    [vehicle K7]
    depot = d
    check = walk-round
    jobs = law
    law.last = 2025-03-07
at 2026-03-07
condition K7 fit stops=0
at 2026-03-08
condition K7 not-to-be-driven stops=1

story condition-overdue-warns
source design 8: a job says overdue = warns where that is too much
known OWN
working the same test, a day past its deadline
use people
use sheet
fleet
    [job law]
    title = Plate check
    class = law
    every = 12 months
    overdue = warns
    [vehicle K7]
    depot = d
    check = walk-round
    jobs = law
    law.last = 2025-06-01
at 2026-06-02
condition K7 fit stops=0

story condition-overdue-maker
source design 8: a deadline of class law
known OWN
working the maker's service is overdue, and stops nothing
use people
use sheet
fleet
    [job oil]
    title = Oil
    class = maker
    every = 12 months
    [vehicle K7]
    depot = d
    check = walk-round
    jobs = oil
    oil.last = 2025-01-01
at 2026-06-02
condition K7 fit stops=0

story condition-drivers-law
source design 8, rule 11: a driver's overdue law job stops the driver, not the
    vehicle
known OWN
working the card was to be read by 29 January; the vehicle is fit
use people
use sheet
use one-bus
fleet
    [job card]
    title = Card read
    class = law
    every = 28 days
    [driver cai]
    depot = d
    jobs = card
    card.last = 2026-01-01
at 2026-03-02
condition K7 fit stops=0

story condition-spell-off-the-road
source design 8: not to be driven is said by a spell off the road
known OWN
working from Wednesday 4 March with no return known; on Tuesday it is fit
use people
use sheet
use one-bus
do 2026-03-03 off-road K7 --from 2026-03-04 --note winter
at 2026-03-03
condition K7 fit stops=0
at 2026-03-04
condition K7 not-to-be-driven stops=1
at 2026-05-04
condition K7 not-to-be-driven stops=1

story condition-law-in-a-spell
source design 3: a job whose deadline falls in a spell off the road is due
    before the subject returns, not overdue
known OWN
working 1 June falls in the spell: one stop, the spell, and not two
use people
use sheet
use one-bus
do 2026-03-03 off-road K7 --from 2026-03-04 --note winter
at 2026-06-05
condition K7 not-to-be-driven stops=1

story condition-equipment-stops-its-carrier
source design 8, rule 7: a defect on equipment stops whatever carries it
known OWN
working K7 carries X1, M2 nothing
use people
use sheet
use two-buses
do 2026-03-02 defect X1 F1 --on 2026-03-02 --by ann --note discharged
at 2026-03-02
condition K7 not-to-be-driven stops=1
condition M2 fit stops=0

story condition-equipments-law
source design 8: past for the vehicle or what it carries
known OWN
working the extinguisher's own law job ran to 15 May; the tests to 1 June
use people
use sheet
fleet
    [job law]
    title = Annual test
    class = law
    every = 12 months
    [job ext]
    title = Extinguisher
    class = law
    every = 12 months
    [vehicle K7]
    depot = d
    check = walk-round
    jobs = law
    law.last = 2025-06-01
    [vehicle M2]
    depot = d
    check = walk-round
    jobs = law
    law.last = 2025-06-01
    [equipment X1]
    carried-by = K7
    jobs = ext
    ext.last = 2025-05-15
at 2026-05-15
condition K7 fit stops=0
at 2026-05-16
condition K7 not-to-be-driven stops=1
condition M2 fit stops=0

story condition-first-use
source issue 16: new vehicles need a check on record before they count as fit,
    where the fleet file says so
known OWN
working no check: not known; after a nil: fit
use people
use sheet
fleet
    [job law]
    title = Annual test
    class = law
    every = 12 months
    [vehicle K7]
    depot = d
    check = walk-round
    first-use = check
    jobs = law
    law.last = 2025-06-01
at 2026-03-02
condition K7 not-known stops=0
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --nil
at 2026-03-02
condition K7 fit stops=0

story condition-several-stops
source design 8: each with its reason and who can lift it
known OWN
working a failed test, a cut tyre and a spell are three, nothing counted twice
use people
use sheet
use one-bus
do 2026-03-02 walk-round K7 --on 2026-03-02 --at 07:30 --by ann --defect T1=cut
do 2026-03-02 record K7 law --on 2026-03-02 --result failed
do 2026-03-03 off-road K7 --from 2026-03-03 --note winter
at 2026-03-03
condition K7 not-to-be-driven stops=3
