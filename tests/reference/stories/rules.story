# Seasons by RFC 5545 recurrence rules: the examples of its section 3.8.5.3
# with their published dates, each asked for the day after one of them.

story rfc5545-week-20
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working Monday of week number 20: 12 May 1997, 11 May 1998, 17 May 1999
calendar all
job
    every = rule FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO from 1997-05-12
vehicle
    registered = 1990-01-01
    j.last = 1997-05-12
at 1997-05-13
due V j deadline=1998-05-11 plan=1998-05-11

story rfc5545-week-20-again
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working Monday of week number 20: 12 May 1997, 11 May 1998, 17 May 1999
calendar all
job
    every = rule FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO from 1997-05-12
vehicle
    registered = 1990-01-01
    j.last = 1998-05-11
at 1998-05-12
due V j deadline=1999-05-17 plan=1999-05-17

story rfc5545-twentieth-monday
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working every 20th Monday of the year: 19 May 1997, 18 May 1998, 17 May 1999
calendar all
job
    every = rule FREQ=YEARLY;BYDAY=20MO from 1997-05-19
vehicle
    registered = 1990-01-01
    j.last = 1997-05-19
at 1997-05-20
due V j deadline=1998-05-18 plan=1998-05-18

story rfc5545-twentieth-monday-again
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working every 20th Monday of the year: 19 May 1997, 18 May 1998, 17 May 1999
calendar all
job
    every = rule FREQ=YEARLY;BYDAY=20MO from 1997-05-19
vehicle
    registered = 1990-01-01
    j.last = 1998-05-18
at 1998-05-19
due V j deadline=1999-05-17 plan=1999-05-17

story rfc5545-days-of-third-year
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working days 1, 100 and 200 of every third year: 19 July 1997, then 1
    January and 9 April 2000
calendar all
job
    every = rule FREQ=YEARLY;INTERVAL=3;BYYEARDAY=1,100,200 from 1997-01-01
vehicle
    registered = 1990-01-01
    j.last = 1997-07-19
at 1997-07-20
due V j deadline=2000-01-01 plan=2000-01-01

story rfc5545-days-of-third-year-again
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working days 1, 100 and 200 of every third year: 19 July 1997, then 1
    January and 9 April 2000
calendar all
job
    every = rule FREQ=YEARLY;INTERVAL=3;BYYEARDAY=1,100,200 from 1997-01-01
vehicle
    registered = 1990-01-01
    j.last = 2000-01-01
at 2000-01-02
due V j deadline=2000-04-09 plan=2000-04-09

story rfc5545-election-day
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working the first Tuesday after a Monday in November, every four years: 5
    November 1996, 7 November 2000, 2 November 2004
calendar all
job
    every =
      rule FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8 from 1996-11-05
vehicle
    registered = 1990-01-01
    j.last = 1996-11-05
at 1996-11-06
due V j deadline=2000-11-07 plan=2000-11-07

story rfc5545-election-day-again
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working the first Tuesday after a Monday in November, every four years: 5
    November 1996, 7 November 2000, 2 November 2004
calendar all
job
    every =
      rule FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8 from 1996-11-05
vehicle
    registered = 1990-01-01
    j.last = 2000-11-07
at 2000-11-08
due V j deadline=2004-11-02 plan=2004-11-02

story rfc5545-friday-13
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working every Friday the 13th: 13 November 1998, 13 August 1999, 13 October
    2000
calendar all
job
    every = rule FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13 from 1998-02-13
vehicle
    registered = 1990-01-01
    j.last = 1998-11-13
at 1998-11-14
due V j deadline=1999-08-13 plan=1999-08-13

story rfc5545-friday-13-again
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working every Friday the 13th: 13 November 1998, 13 August 1999, 13 October
    2000
calendar all
job
    every = rule FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13 from 1998-02-13
vehicle
    registered = 1990-01-01
    j.last = 1999-08-13
at 1999-08-14
due V j deadline=2000-10-13 plan=2000-10-13

story rfc5545-saturday-after-first-sunday
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working the first Saturday that follows the first Sunday of the month: 13
    December 1997, 10 January 1998
calendar all
job
    every =
      rule FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13 from 1997-09-13
vehicle
    registered = 1990-01-01
    j.last = 1997-12-13
at 1997-12-14
due V j deadline=1998-01-10 plan=1998-01-10

story rfc5545-second-to-last-weekday
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working the second-to-last weekday of the month: 30 December 1997, 29
    January 1998
calendar all
job
    every = rule FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2 from 1997-09-29
vehicle
    registered = 1990-01-01
    j.last = 1997-12-30
at 1997-12-31
due V j deadline=1998-01-29 plan=1998-01-29

story rfc5545-third-to-last-day
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working the third-to-last day of the month: 28 November and 29 December 1997
calendar all
job
    every = rule FREQ=MONTHLY;BYMONTHDAY=-3 from 1997-09-28
vehicle
    registered = 1990-01-01
    j.last = 1997-11-28
at 1997-11-29
due V j deadline=1997-12-29 plan=1997-12-29

story rfc5545-no-30-february
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working an invalid date, 30 February, is ignored: 30 January, 15 February,
    15 March 2007
calendar all
job
    every = rule FREQ=MONTHLY;BYMONTHDAY=15,30 from 2007-01-15
vehicle
    registered = 1990-01-01
    j.last = 2007-01-30
at 2007-01-31
due V j deadline=2007-02-15 plan=2007-02-15

story rfc5545-no-30-february-again
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working an invalid date, 30 February, is ignored: 30 January, 15 February,
    15 March 2007
calendar all
job
    every = rule FREQ=MONTHLY;BYMONTHDAY=15,30 from 2007-01-15
vehicle
    registered = 1990-01-01
    j.last = 2007-02-15
at 2007-02-16
due V j deadline=2007-03-15 plan=2007-03-15

story rfc5545-thursdays-in-march
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working every Thursday in March: 27 March 1997, 5 March 1998
calendar all
job
    every = rule FREQ=YEARLY;BYMONTH=3;BYDAY=TH from 1997-03-13
vehicle
    registered = 1990-01-01
    j.last = 1997-03-27
at 1997-03-28
due V j deadline=1998-03-05 plan=1998-03-05

story rfc5545-every-eighteen-months
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working the 10th to the 15th every 18 months: 15 September 1997, 10 March
    1999
calendar all
job
    every =
      rule FREQ=MONTHLY;INTERVAL=18;BYMONTHDAY=10,11,12,13,14,15 from 1997-09-10
vehicle
    registered = 1990-01-01
    j.last = 1997-09-15
at 1997-09-16
due V j deadline=1999-03-10 plan=1999-03-10

story rfc5545-every-other-year
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working every other year in January, February and March: 10 March 1997, 10
    January 1999; 10 March 1999, 10 January 2001
calendar all
job
    every = rule FREQ=YEARLY;INTERVAL=2;BYMONTH=1,2,3 from 1997-03-10
vehicle
    registered = 1990-01-01
    j.last = 1997-03-10
at 1997-03-11
due V j deadline=1999-01-10 plan=1999-01-10

story rfc5545-every-other-year-again
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working every other year in January, February and March: 10 March 1997, 10
    January 1999; 10 March 1999, 10 January 2001
calendar all
job
    every = rule FREQ=YEARLY;INTERVAL=2;BYMONTH=1,2,3 from 1997-03-10
vehicle
    registered = 1990-01-01
    j.last = 1999-03-10
at 1999-03-11
due V j deadline=2001-01-10 plan=2001-01-10

story rfc5545-first-and-last-sunday
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working every other month on the first and last Sunday: 28 September, 2 and
    30 November 1997
calendar all
job
    every = rule FREQ=MONTHLY;INTERVAL=2;BYDAY=1SU,-1SU from 1997-09-07
vehicle
    registered = 1990-01-01
    j.last = 1997-09-28
at 1997-09-29
due V j deadline=1997-11-02 plan=1997-11-02

story rfc5545-first-and-last-sunday-again
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working every other month on the first and last Sunday: 28 September, 2 and
    30 November 1997
calendar all
job
    every = rule FREQ=MONTHLY;INTERVAL=2;BYDAY=1SU,-1SU from 1997-09-07
vehicle
    registered = 1990-01-01
    j.last = 1997-11-02
at 1997-11-03
due V j deadline=1997-11-30 plan=1997-11-30

story rfc5545-june-and-july
source RFC 5545, 3.8.5.3 and 3.3.10, examples
known READ
working yearly in June and July: 10 July 1997, 10 June 1998
calendar all
job
    every = rule FREQ=YEARLY;BYMONTH=6,7 from 1997-06-10
vehicle
    registered = 1990-01-01
    j.last = 1997-07-10
at 1997-07-11
due V j deadline=1998-06-10 plan=1998-06-10

story rfc7529-omit
source RFC 7529, 4.1: SKIP=OMIT, the default: 31 January, 31 March 2014
known MEM CALC
working monthly from 31 January; February has no 31st and is left out
calendar all
job
    every = rule FREQ=MONTHLY from 2014-01-31
vehicle
    registered = 2010-01-01
    j.last = 2014-01-31
at 2014-02-01
due V j deadline=2014-03-31

story rfc7529-backward
source RFC 7529, 4.1: SKIP=BACKWARD: 31 January, 28 February, 31 March 2014, as
    public tests of other readers have it
known 2ND
working monthly from 31 January; in February the day before the missing one
calendar all
job
    every = rule RSCALE=GREGORIAN;FREQ=MONTHLY;SKIP=BACKWARD from 2014-01-31
vehicle
    registered = 2010-01-01
    j.last = 2014-01-31
at 2014-02-01
due V j deadline=2014-02-28
do 2014-02-28 record V j --on 2014-02-28
at 2014-03-01
due V j deadline=2014-03-31

story leap-day-rule
source RFC 5545, 3.3.10: an invalid date is ignored
known READ CALC
working yearly from 29 February 2096: 2100 is a common year, so 2104
calendar all
job
    every = rule FREQ=YEARLY from 2096-02-29
vehicle
    j.last = 2096-02-29
at 2096-03-01
due V j deadline=2104-02-29

story leap-day-rule-backward
source RFC 7529, 4.1: SKIP=BACKWARD
known MEM CALC
working yearly from 29 February 2016: 28 February 2017
calendar all
job
    every = rule RSCALE=GREGORIAN;FREQ=YEARLY;SKIP=BACKWARD from 2016-02-29
vehicle
    registered = 2010-01-01
    j.last = 2016-02-29
at 2016-03-01
due V j deadline=2017-02-28

story weeks-1-and-27
source RFC 5545, BYWEEKNO; ISO 8601 weeks
known CALC
working 29 December 2025 is 2026-W01-1; W27-1 is 26 weeks on, 29 June 2026;
    2026 has 53 weeks, so the next W01-1 is 27 weeks on, 4 January 2027
calendar all
job
    every = rule FREQ=YEARLY;BYWEEKNO=1,27;BYDAY=MO from 2023-01-02
vehicle
    j.last = 2025-12-29
at 2025-12-30
due V j deadline=2026-06-29
do 2026-06-29 record V j --on 2026-06-29
at 2026-06-30
due V j deadline=2027-01-04

story week-53-only
source RFC 5545, BYWEEKNO; ISO 8601: the years of 53 weeks are 2020, 2026, 2032
known CALC
working Monday of week 53: 28 December 2020, then 28 December 2026
calendar all
job
    every = rule FREQ=YEARLY;BYWEEKNO=53;BYDAY=MO from 2020-12-28
vehicle
    j.last = 2020-12-28
at 2021-01-01
due V j deadline=2026-12-28

story yearly-on-leap-day
source ostler-fleet(5), yearly on: 29 February is the 28th in a common year
known OWN CALC
working last on 29 February 2028: 28 February 2029
calendar all
job
    every = yearly on 29 feb
vehicle
    j.last = 2028-02-29
at 2028-03-01
due V j deadline=2029-02-28

story season-done-early-in-year
source ostler-fleet(5), a yearly date: what comes in the first half of the time
    since the deadline before is an extra
known OWN
working due each 1 November, done in 2026; 1 March 2027 is an extra, 1 June 2027
    counts
job
    every = yearly on 1 nov
vehicle
    j.last = 2026-11-01
do 2027-03-01 record V j --on 2027-03-01
at 2027-03-02
due V j deadline=2027-11-01
do 2027-06-01 record V j --on 2027-06-01
at 2027-06-02
due V j deadline=2028-11-01

story rfc5545-weeks-from-monday
source RFC 5545, 3.8.5.3, example of WKST=MO: 5, 10, 19, 24 August 1997
known READ
working every other week on Tuesday and Sunday: the week of the 5th ends with
    Sunday the 10th, and the next but one has Tuesday the 19th
calendar all
job
    every =
      rule FREQ=WEEKLY;INTERVAL=2;BYDAY=TU,SU;WKST=MO from 1997-08-05
vehicle
    registered = 1990-01-01
    j.last = 1997-08-10
at 1997-08-11
due V j deadline=1997-08-19 plan=1997-08-19

story rfc5545-weeks-from-sunday
source RFC 5545, 3.8.5.3, example of WKST=SU: 5, 17, 19, 31 August 1997
known READ
working every other week on Tuesday and Sunday: the week of the 5th began with
    Sunday the 3rd, so the next Sunday is the 17th
calendar all
job
    every =
      rule FREQ=WEEKLY;INTERVAL=2;BYDAY=TU,SU;WKST=SU from 1997-08-05
vehicle
    registered = 1990-01-01
    j.last = 1997-08-05
at 1997-08-06
due V j deadline=1997-08-17 plan=1997-08-17
do 1997-08-17 record V j --on 1997-08-17
at 1997-08-18
due V j deadline=1997-08-19

story rfc5545-thursdays-of-summer
source RFC 5545, 3.8.5.3, example: every Thursday in June, July and August
known READ
working 28 August 1997 is the last, then 4 June 1998
calendar all
job
    every = rule FREQ=YEARLY;BYDAY=TH;BYMONTH=6,7,8 from 1997-06-05
vehicle
    registered = 1990-01-01
    j.last = 1997-08-28
at 1997-08-29
due V j deadline=1998-06-04 plan=1998-06-04
