story year-2038
source 19 January 2038 is where 32-bit seconds end
known CALC
working 20 January 2037 and twelve months
job
    every = 12 months
vehicle
    j.last = 2037-01-20
at 2037-02-01
due V j deadline=2038-01-20

story sixty-years
source design: days end on 2199-12-31, and a date outside is never a wrap
known OWN
working 2150 and 60 years is 2210: no day
job
    every = 60 years
vehicle
    j.last = 2150-01-20
at 2151-02-01
due V j deadline=none

story week-end-beyond
source design: days end on 2199-12-31, and a date outside is never a wrap
known OWN
working 20 November 2199 and six weeks is 1 January 2200: no day
job
    every = 6 weeks
    ends = week end
vehicle
    j.last = 2199-11-20
at 2199-11-21
due V j deadline=none

story last-32-bit-second
source the end of signed 32-bit seconds since 1970: 19 January 2038, 03:14:07
known CALC
working 18 January 2037 and 20 January 2037 and a year stand on either side
fleet
    [job j]
    title = J
    class = own
    every = 12 months
    [vehicle A]
    depot = d
    registered = 2030-01-01
    jobs = j
    j.last = 2037-01-18
    [vehicle B]
    depot = d
    registered = 2030-01-01
    jobs = j
    j.last = 2037-01-20
at 2038-01-19
due A j deadline=2038-01-18 state=overdue
due B j deadline=2038-01-20 state=due

story last-unsigned-32-bit-second
source the end of unsigned 32-bit seconds since 1970: 7 February 2106
known CALC
working 8 February 2105 and a year; a Monday, so in the week after the 7th
job
    every = 12 months
vehicle
    j.last = 2105-02-08
at 2106-02-07
due V j deadline=2106-02-08 state=ahead

story last-days-of-the-calendar
source design: days end on 2199-12-31
known OWN
working 30 November 2199 and a month is 30 December, a Monday
job
    every = 1 month
vehicle
    j.last = 2199-11-30
at 2199-12-01
due V j deadline=2199-12-30 plan=2199-12-30

story last-day-of-the-calendar
source design: days end on 2199-12-31
known OWN
working 24 December 2199 and a week: the last day there is, a Tuesday
job
    every = 1 week
vehicle
    j.last = 2199-12-24
at 2199-12-25
due V j deadline=2199-12-31 plan=2199-12-31

story clocks-go-forward
source GOV.UK: clocks go forward on 29 March 2026
known READ CALC
working four weeks from Sunday 1 March 2026 are that day, 28 civil days on
job
    every = 4 weeks
vehicle
    j.last = 2026-03-01
at 2026-03-28
due V j deadline=2026-03-29 plan=2026-03-27

story clocks-go-back
source GOV.UK: clocks go back on 25 October 2026
known READ CALC
working one day from 25 October 2026, of 25 hours, is the 26th
calendar all
job
    every = 1 day
vehicle
    j.last = 2026-10-25
at 2026-10-26
due V j deadline=2026-10-26 plan=2026-10-26 state=due

story samoa-skipped-a-day
source tz database: Samoa had no 30 December 2011
known MEM CALC
working days are civil: a week from 24 December 2011 is the 31st all the same
edit Europe/London => Pacific/Apia
calendar all
job
    every = 1 week
vehicle
    registered = 2010-01-01
    j.last = 2011-12-24
at 2011-12-28
due V j deadline=2011-12-31 plan=2011-12-31

story far-zone
source a zone has no part in counting days once today is given
known CALC
working four months from 30 September 2026, in Auckland as in London
edit Europe/London => Pacific/Auckland
job
    every = 4 months
vehicle
    j.last = 2026-09-30
at 2026-10-01
due V j deadline=2027-01-30 plan=2027-01-29
