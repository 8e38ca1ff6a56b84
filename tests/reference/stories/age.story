define job twelve-years
    from-age = 12 years: 6 weeks
    age-from = registered

story birthday-between
source DVSA: at most six weeks from twelve years of age; ostler-fleet(5),
    Age, has the same example
known 2ND
working ten weeks from 14 October 2026 would pass the birthday, and six end
    on 25 November, before it: the birthday
use twelve-years
job
    every = 10 weeks
vehicle
    registered = 2014-12-10
    j.last = 2026-10-14
at 2026-10-15
due V j deadline=2026-12-10

story birthday-after-inspection
source DVSA: at most six weeks from twelve years of age
known 2ND
working 20 November and six weeks is 1 January 2027, after the birthday of
    10 December
use twelve-years
job
    every = 10 weeks
vehicle
    registered = 2014-12-10
    j.last = 2026-11-20
at 2026-11-21
due V j deadline=2027-01-01 plan=2027-01-01

story birthday-on-deadline
source DVSA: at most six weeks from twelve years of age
known 2ND
working ten weeks from 1 October 2026 end on the birthday itself, and do not
    pass it
use twelve-years
job
    every = 10 weeks
vehicle
    registered = 2014-12-10
    j.last = 2026-10-01
at 2026-10-15
due V j deadline=2026-12-10

story birthday-leap-day
source born on 29 February 2016, twelve on 29 February 2028
known CALC
working 1 February 2028 and six weeks is 14 March, after the birthday
use twelve-years
job
    every = 10 weeks
vehicle
    registered = 2016-02-29
    j.last = 2028-02-01
at 2028-02-02
due V j deadline=2028-03-14

story birthday-week-end
source DVSA: six weeks from twelve years, by ISO week
known 2ND
working ten weeks would end on Sunday 27 December, six on Sunday 29
    November: the birthday, 10 December
use twelve-years
job
    every = 10 weeks
    ends = week end
vehicle
    registered = 2014-12-10
    j.last = 2026-10-14
at 2026-10-15
due V j deadline=2026-12-10

story leap-day-birthday-in-common-year
source a birthday of 29 February in a common year: 28 February in England's and
    Taiwan's practice (sowetanlive.co.za, 13 March 2008), 1 March in Maryland's
    law (statelawyers.com); the earlier is the safer
known 2ND
working made 29 February 2016, ten on 28 February 2026; ten weeks from 1 January
    end on 12 March, six on 12 February, before the birthday
job
    every = 10 weeks
    from-age = 10 years: 6 weeks
    age-from = registered
vehicle
    registered = 2016-02-29
    j.last = 2026-01-01
at 2026-01-02
due V j deadline=2026-02-28

story age-from-the-earliest-day
source what an age counts from is not said; the earliest is the safer
known OWN
working made 1 November 2014, registered 1 February 2015: twelve on 1 November
    2026; 20 October and six weeks is 1 December, after that day
job
    every = 10 weeks
    from-age = 12 years: 6 weeks
vehicle
    built = 2014-11-01
    registered = 2015-02-01
    j.last = 2026-10-20
at 2026-10-21
due V j deadline=2026-12-01

story age-from-registration
source what an age counts from is not said; the fleet file may
known OWN
working twelve on 1 February 2027; ten weeks from 20 October end on
    29 December, before it
job
    every = 10 weeks
    from-age = 12 years: 6 weeks
    age-from = registered
vehicle
    built = 2014-11-01
    registered = 2015-02-01
    j.last = 2026-10-20
at 2026-10-21
due V j deadline=2026-12-29

story two-birthdays
source DVSA: at most six weeks from twelve years; a step at ten is own policy
known 2ND OWN
working registered 1 December 2016, ten on 1 December 2026: ten weeks from
    1 October end on 10 December, eight on 26 November, before the birthday
job
    every = 10 weeks
    from-age = 10 years: 8 weeks, 12 years: 6 weeks
    age-from = registered
vehicle
    registered = 2016-12-01
    j.last = 2026-10-01
at 2026-10-02
due V j deadline=2026-12-01

story own-interval-shorter-than-age
source ostler-fleet(5), from-age: where a subject states a shorter every, that
    holds at any age
known OWN
working four weeks from 20 November 2026: 18 December
job
    every = 10 weeks
    from-age = 12 years: 6 weeks
    age-from = registered
vehicle
    registered = 2010-12-10
    j.every = 4 weeks
    j.last = 2026-11-20
at 2026-11-21
due V j deadline=2026-12-18

story birthday-day-before
source DVSA: at most six weeks from twelve years of age
known 2ND CALC
working ten weeks from 30 September 2026 end on 9 December, the eve of the
    birthday: nothing changes
job
    every = 10 weeks
    from-age = 12 years: 6 weeks
    age-from = registered
vehicle
    registered = 2014-12-10
    j.last = 2026-09-30
at 2026-10-01
due V j deadline=2026-12-09

story birthday-and-waiting
source design: days off the road are not added on top of a birthday
known OWN CALC
working ten weeks from 14 October 2026 and ten days off end on 2 January, six
    and ten days on 5 December, before the birthday: 10 December
job
    every = 10 weeks
    from-age = 12 years: 6 weeks
    age-from = registered
    off-road = waits
vehicle
    registered = 2014-12-10
    j.last = 2026-10-14
do 2026-11-10 off-road V --from 2026-11-01 --until 2026-11-10
at 2026-11-12
due V j deadline=2026-12-10

story tyre-0116
source the ban on tyres of ten years and older (uknip.co.uk); date codes WWYY
    (ccmhelp.co.uk/ban-on-tyres-over-10-years-old)
known 2ND CALC
working 0116 is ISO week 1 of 2016, from Monday 4 January: ten years old on
    4 January 2026, so good to the 3rd, a Saturday
job
    class = law
    every = 10 years
    ends = day before
    lead = 10 days
vehicle
    registered = 2016-03-01
    j.last = 2016-01-04
at 2025-11-03
due V j deadline=2026-01-03 plan=2026-01-02

story tyre-5320
source the ban on tyres of ten years and older (uknip.co.uk); 2020 has a
    week 53
known 2ND CALC
working 5320 is from Monday 28 December 2020: good to 27 December 2030, a Friday
job
    class = law
    every = 10 years
    ends = day before
    lead = 10 days
vehicle
    j.last = 2020-12-28
at 2030-11-04
due V j deadline=2030-12-27 plan=2030-12-27
