# Rules that meet: failures and windows, moves and calls, stated days and spells
# off the road, substitutes and leap days.  Worked out before they were run.

define job mot
    class = law
    every = 12 months
    ends = day before
    runs-from = keeping the date
    window = 1 month
    lead = 1 day
define vehicle mot-to-15-december
    j.last = 2025-12-10
    j.deadline = 2026-12-15
define job goods
    class = law
    every = 12 months
    ends = month end
    runs-from = keeping the date
    window = 2 months
    window-opens = same day
    late = keeps the date
    shortest = 2 months
    lead = 1 day
define vehicle goods-to-31-march
    j.last = 2026-03-10
    j.deadline = 2027-03-31
define fleet two-depots
    [job fit]
    title = Fitted
    class = own
    every = when needed
    [job recheck]
    title = Recheck
    class = own
    follows = fit
    within = 1 week
    [job s]
    title = S
    class = own
    every = 60 weeks
    [calendar tt]
    works = tue thu
    [depot e]
    calendar = tt
    [vehicle A]
    depot = d
    jobs = s
    s.last = 2026-11-20
    [vehicle B]
    depot = e
    jobs = s
    s.last = 2026-11-20
    [equipment EX]
    carried-by = A
    jobs = fit recheck
define fleet leap-holidays
    [holidays leap]
    day =
      28 feb, substitute
      29 feb, substitute
    [calendar leap]
    works = mon tue wed thu fri
    holidays = leap
    [depot l]
    calendar = leap
define fleet scotland
    [holidays sco]
    day = 30 nov, substitute
    [calendar sco]
    works = mon tue wed thu fri
    holidays = sco
    [depot l]
    calendar = sco
define fleet northern-ireland
    [holidays ni]
    day = 12 jul, substitute
    [calendar ni]
    works = mon tue wed thu fri
    holidays = ni
    [depot l]
    calendar = ni
define fleet storm
    [holidays isle]
    add = 2026-05-01 May day
    [calendar isle]
    works = mon tue wed thu fri
    holidays = isle
    [depot l]
    calendar = isle
define job four-a-year
    every = 4 within 12 months

story failed-in-window-passed-in-window
source GOV.UK, Getting an MOT: up to a month, less a day, before it runs out
    the renewal date is kept
known 2ND
working to 15 December 2026, so from 16 November; failed on the 20th, passed
    on 14 December: kept, 15 December 2027
use mot
use mot-to-15-december
do 2026-11-20 record V j --on 2026-11-20 --result failed
do 2026-12-14 record V j --on 2026-12-14
at 2026-12-14
due V j deadline=2027-12-15 last=2026-12-14

story failed-in-window-passed-next-month
source GOV.UK, Getting an MOT: up to a month, less a day, before it runs out
    the renewal date is kept
known 2ND CALC
working the failure in the window keeps nothing; passed on 12 January 2027,
    after it ran out: a year less a day is 11 January 2028
use mot
use mot-to-15-december
do 2026-11-20 record V j --on 2026-11-20 --result failed
do 2027-01-12 record V j --on 2027-01-12
at 2027-01-12
due V j deadline=2028-01-11 last=2027-01-12

story failed-and-passed-the-day-before-the-window
source GOV.UK, Getting an MOT: earlier, the renewal date is another
known 2ND CALC
working 15 November 2026 is a day too early: a year less a day is
    14 November 2027
use mot
use mot-to-15-december
do 2026-11-15 record V j --on 2026-11-15 --result failed
do 2026-11-15 record V j --on 2026-11-15
at 2026-11-15
due V j deadline=2027-11-14 last=2026-11-15

story passed-and-failed-one-day
source ostler(1), record --result: the one that was entered later counts
known OWN
working the failure was entered last: failed, since that day
job
    every = 12 months
vehicle
    j.last = 2025-12-10
do 2026-11-30 record V j --on 2026-11-30
do 2026-11-30 record V j --on 2026-11-30 --result failed
at 2026-11-30
due V j state=failed event=2026-11-30

story goods-failed-before-and-passed-late
source SI 1988/1478, regulation 11(2), item 3: the first anniversary of that
    expiry date, unless two months or less are left
known READ
working to 31 March 2027; failed on the 25th, passed on 6 April: 31 March
    2028
use goods
use goods-to-31-march
do 2027-03-25 record V j --on 2027-03-25 --result failed
do 2027-04-06 record V j --on 2027-04-06
at 2027-04-06
due V j deadline=2028-03-31

story goods-failed-too-early-and-passed-in-time
source SI 1988/1478, regulation 11(2), items 1 and 2: by the day that it is
    passed
known READ
working failed on 30 January 2027, more than two months before 31 March; passed
    on 1 February, two months or less before: 31 March 2028
use goods
use goods-to-31-march
do 2027-01-30 record V j --on 2027-01-30 --result failed
do 2027-02-01 record V j --on 2027-02-01
at 2027-02-01
due V j deadline=2028-03-31

story tachograph-retest-on-the-last-day
source Regulation (EU) 2016/799, annex IC, 409: within two years (24 months)
    of the last inspection
known 2ND CALC
working 29 February 2024 and 24 months is Saturday 28 February 2026; failed on
    the Friday, passed on the Saturday: 28 February 2028
job
    class = law
    every = 24 months
    lead = 1 day
vehicle
    j.last = 2024-02-29
at 2026-02-02
due V j deadline=2026-02-28 plan=2026-02-27
do 2026-02-27 record V j --on 2026-02-27 --result failed
at 2026-02-27
due V j deadline=2026-02-28 state=failed event=2026-02-27
do 2026-02-28 record V j --on 2026-02-28
at 2026-02-28
due V j deadline=2028-02-28

story call-goes-with-the-equipment
source ostler(1), move: from that day on it belongs to the depot of that one;
    ostler-fleet(5), Work that follows
known OWN CALC
working fitted on Monday 30 November 2026, to be checked within a week: Monday
    7 December; moved to where Tuesdays and Thursdays are worked: Thursday the
    3rd
use two-depots
do 2026-11-30 record EX fit --on 2026-11-30
at 2026-11-30
due EX recheck deadline=2026-12-07 plan=2026-12-07
do 2026-12-02 move EX B --on 2026-12-02
at 2026-12-02
due EX recheck deadline=2026-12-07 plan=2026-12-03

story call-goes-off-the-road-with-its-carrier
source ostler-fleet(5), Off the road: due by the last day of the spell
known OWN
working moved to B on 2 December, which is off the road from the 5th to
    Thursday the 10th: the call of the 7th is due by then
use two-depots
do 2026-11-30 record EX fit --on 2026-11-30
do 2026-12-02 move EX B --on 2026-12-02
do 2026-12-02 off-road B --from 2026-12-05 --until 2026-12-10
at 2026-12-03
due EX recheck deadline=2026-12-10 plan=2026-12-10 state=before-return

story moved-into-a-spell-on-the-deadline
source ostler-fleet(5), Off the road: equipment is off the road with its
    vehicle
known OWN
working B is off the road from the 1st to the 10th; moved on the day of the
    deadline, the 7th: in the spell
use two-depots
do 2026-11-30 record EX fit --on 2026-11-30
do 2026-12-01 off-road B --from 2026-12-01 --until 2026-12-10
do 2026-12-07 move EX B --on 2026-12-07
at 2026-12-07
due EX recheck deadline=2026-12-10 plan=2026-12-10 state=before-return

story moved-into-a-spell-too-late
source ostler-fleet(5), Off the road: what was overdue before the spell began
    stays so
known OWN
working moved a day after the deadline of the 7th
use two-depots
do 2026-11-30 record EX fit --on 2026-11-30
do 2026-12-01 off-road B --from 2026-12-01 --until 2026-12-10
do 2026-12-08 move EX B --on 2026-12-08
at 2026-12-08
due EX recheck deadline=2026-12-07 state=overdue

story stated-deadline-in-a-spell
source dynesolicitors.co.uk/covid-19-and-vor-timely-reminder: before the
    vehicle is put back into service it must undergo an inspection
known 2ND
working stated for 15 January 2027; off the road from the 10th to Friday 5
    February: by then
job
    every = 12 months
vehicle
    j.deadline = 2027-01-15
do 2027-01-04 off-road V --from 2027-01-10 --until 2027-02-05
at 2027-01-04
due V j deadline=2027-02-05 plan=2027-02-05 state=before-return

story stated-deadline-waits-for-nothing
source ostler-fleet(5), deadline: such a date is taken as it stands and not
    worked out again
known OWN
working ten days off the road in June 2026 leave 15 January 2027, a Friday
job
    every = 12 months
    off-road = waits
vehicle
    j.last = 2026-01-15
    j.deadline = 2027-01-15
do 2026-06-10 off-road V --from 2026-06-01 --until 2026-06-10
at 2026-12-01
due V j deadline=2027-01-15 plan=2027-01-15

story stated-deadline-missed-before-the-spell
source ostler-fleet(5), Off the road: what was overdue before the spell began
    stays so
known OWN
working stated for 8 January 2027, off the road from the 10th: overdue
job
    every = 12 months
vehicle
    j.deadline = 2027-01-08
do 2027-01-10 off-road V --from 2027-01-10
at 2027-01-20
due V j deadline=2027-01-08 state=overdue

story lift-in-a-spell-from-the-day-before
source SI 1998/2307, regulation 9(3)(a)(i): at least every 6 months
known 2ND CALC
working examined on 31 August 2026: Sunday 28 February 2027, in a spell from
    the 27th to Friday 5 March
job
    class = law
    every = 6 months
    lead = 1 day
vehicle
    j.last = 2026-08-31
do 2027-02-01 off-road V --from 2027-02-27 --until 2027-03-05
at 2027-02-02
due V j deadline=2027-03-05 plan=2027-03-05 state=before-return

story birthday-in-a-spell
source ostler-fleet(5), Age and Off the road
known OWN CALC
working ten weeks from 14 October 2026 are 23 December, six 25 November, before
    twelve years on 10 December; that is in a spell to Friday the 18th
job
    every = 10 weeks
    from-age = 12 years: 6 weeks
vehicle
    registered = 2014-12-10
    j.last = 2026-10-14
do 2026-12-01 off-road V --from 2026-12-05 --until 2026-12-18
at 2026-12-02
due V j deadline=2026-12-18 plan=2026-12-18 state=before-return

story leap-day-on-a-sunday
source GOV.UK bank holidays: a substitute weekday, normally the following
    Monday; ostler-fleet(5), substitute
known READ CALC
working in 2032 the 28th is a Saturday and the 29th a Sunday: Monday 1 and
    Tuesday 2 March are shut, and the day before is Friday 27 February
use leap-holidays
job
    every = 12 months
vehicle
    depot = l
    j.deadline = 2032-03-02
at 2032-02-02
due V j deadline=2032-03-02 plan=2032-02-27

story leap-day-on-a-tuesday
source ostler-fleet(5), day: 29 feb is a holiday of leap years
known OWN CALC
working in 2028 both days are weekdays, Monday and Tuesday: Friday 25 February
use leap-holidays
job
    every = 12 months
vehicle
    depot = l
    j.deadline = 2028-02-29
at 2028-02-01
due V j deadline=2028-02-29 plan=2028-02-25

story no-leap-day
source ostler-fleet(5), day: 29 feb is a holiday of leap years
known OWN CALC
working in 2027 the 28th is a Sunday and there is no 29th: Monday 1 March is
    shut, Tuesday the 2nd is not
use leap-holidays
job
    every = 12 months
vehicle
    depot = l
    j.deadline = 2027-03-02
at 2027-02-01
due V j deadline=2027-03-02 plan=2027-03-02

story saint-andrew-on-a-sunday
source GOV.UK bank holidays, Scotland 2025: 1 December, substitute day;
    asp 2007/2, section 1: the first Monday following
known READ
working 30 November 2025 is a Sunday: Monday is shut, so Friday the 28th
use scotland
job
    every = 12 months
vehicle
    depot = l
    j.deadline = 2025-12-01
at 2025-11-03
due V j deadline=2025-12-01 plan=2025-11-28

story twelfth-of-july-on-a-sunday
source GOV.UK bank holidays, Northern Ireland 2026: 13 July, substitute day
known READ
working Monday 13 July 2026 is shut: Friday the 10th
use northern-ireland
job
    every = 12 months
vehicle
    depot = l
    j.deadline = 2026-07-13
at 2026-06-01
due V j deadline=2026-07-13 plan=2026-07-10

story fourth-test-in-a-spell
source four laden brake tests a year: rha.uk.net, April 2025; before the
    vehicle is put back into service: dynesolicitors.co.uk
known 2ND CALC
working a year after 15 January 2026, in a spell to Sunday 31 January 2027; the
    Friday before is the 29th
use four-a-year
do 2026-10-15 record V j --on 2026-01-15
do 2026-10-15 record V j --on 2026-04-15
do 2026-10-15 record V j --on 2026-07-15
do 2026-10-15 record V j --on 2026-10-15
do 2027-01-05 off-road V --from 2027-01-05 --until 2027-01-31
at 2027-01-05
due V j deadline=2027-01-31 plan=2027-01-29 state=before-return

story failed-test-is-none-of-four
source ostler-fleet(5), What an interval runs from: a job that failed starts
    nothing
known OWN CALC
working three were passed: a share of a year, three months, after the last, 15
    July, is 15 October 2026
use four-a-year
do 2026-10-01 record V j --on 2026-01-15
do 2026-10-01 record V j --on 2026-04-15
do 2026-10-01 record V j --on 2026-07-15
do 2026-10-01 record V j --on 2026-10-01 --result failed
at 2026-10-01
due V j deadline=2026-10-15 state=failed event=2026-10-01

story week-end-that-begins-a-spell
source ISO 8601, weeks; the operator's guide: within the relevant ISO week
    (route-one.net/regulations/dvsa_updates_roadworthiness_guide)
known 2ND CALC
working done on Saturday 28 November 2026, week 48: six weeks on is week 1 of
    2027, to Sunday 10 January, on which a spell to Tuesday the 12th begins
job
    every = 6 weeks
    ends = week end
vehicle
    j.last = 2026-11-28
do 2027-01-04 off-road V --from 2027-01-10 --until 2027-01-12
at 2027-01-04
due V j deadline=2027-01-12 plan=2027-01-12 state=before-return

story month-end-on-a-week-end
source SI 1988/1478, regulation 11(1): the last day of the same month in the
    following year
known READ CALC
working passed for the first time on 3 January 2026: Sunday 31 January 2027,
    planned for Friday the 29th; from year to year Monday 31 January 2028
use goods
do 2026-01-03 record V j --on 2026-01-03
at 2027-01-04
due V j deadline=2027-01-31 plan=2027-01-29
do 2027-01-29 record V j --on 2027-01-29
at 2027-01-29
due V j deadline=2028-01-31 plan=2028-01-31

story booked-day-becomes-a-holiday
source ostler(1), plan day: where somebody booked a day it is that one
known OWN
working due Thursday 10 December 2026, booked for Monday the 7th, which is then
    declared a holiday: the booking stands
use storm
job
    every = 12 months
vehicle
    depot = l
    j.deadline = 2026-12-10
do 2026-11-20 book V j --on 2026-12-07
edit add = 2026-05-01 May day => add = 2026-12-07 Storm day
at 2026-11-21
due V j deadline=2026-12-10 plan=2026-12-07

story deadline-becomes-a-holiday
source ostler-fleet(5), Working days: the last working day on or before it
known OWN CALC
working due Monday 7 December 2026, which is then declared a holiday: Friday
    the 4th
use storm
job
    every = 12 months
vehicle
    depot = l
    j.deadline = 2026-12-07
at 2026-11-20
due V j plan=2026-12-07
edit add = 2026-05-01 May day => add = 2026-12-07 Storm day
at 2026-11-21
due V j deadline=2026-12-07 plan=2026-12-04

story booked-day-in-a-spell
source ostler-fleet(5), Off the road; ostler(1), plan day
known OWN
working due 10 December 2026, booked for the 7th; a spell from the 5th to the
    20th puts the deadline there and leaves the booking
job
    every = 12 months
vehicle
    j.deadline = 2026-12-10
do 2026-11-20 book V j --on 2026-12-07
do 2026-12-01 off-road V --from 2026-12-05 --until 2026-12-20
at 2026-12-01
due V j deadline=2026-12-20 plan=2026-12-07

story failed-before-the-booked-day
source ostler(1), book: it ends when the job is done, or when it failed on that
    day or later
known OWN
working due Tuesday 15 December 2026, booked for the 10th, failed on the 8th:
    the booking stands; failed on the 10th as well: it has ended
job
    every = 12 months
vehicle
    j.deadline = 2026-12-15
do 2026-11-20 book V j --on 2026-12-10
do 2026-12-08 record V j --on 2026-12-08 --result failed
at 2026-12-08
due V j state=failed plan=2026-12-10 event=2026-12-08
do 2026-12-10 record V j --on 2026-12-10 --result failed
at 2026-12-10
due V j state=failed plan=2026-12-15 event=2026-12-10
