define job mot
    ends = day before
    first-ends = same day
    runs-from = keeping the date
    window = 1 month
    first = 3 years from registered

story mot-first-day-of-window
source GOV.UK on when to get an MOT:
    kerseymotorco.co.uk/MOT_s_Explained.html
known 2ND
working runs out on 15 May: the earliest day to keep the date is 16 April
use mot
job
    every = 12 months
vehicle
    j.last = 2025-05-16
do 2026-04-16 record V j --on 2026-04-16
at 2026-04-17
due V j deadline=2027-05-15

story mot-day-too-early
source GOV.UK on when to get an MOT; a year less a day from the test:
    tiires.com/?p=17217
known 2ND
working tested on 15 April, a day before the window: 14 April
use mot
job
    every = 12 months
vehicle
    j.last = 2025-05-16
do 2026-04-15 record V j --on 2026-04-15
at 2026-04-16
due V j deadline=2027-04-14

story mot-april-kept
source older official advice: mbclub.co.uk/forums/449928-post9.html
known 2ND
working a certificate to 1 April 2007, tested on or after 2 March 2007, runs
    to 1 April 2008; twenty years on
use mot
job
    every = 12 months
vehicle
    j.last = 2026-04-02
do 2027-03-02 record V j --on 2027-03-02
at 2027-03-03
due V j deadline=2028-04-01

story mot-april-too-early
source older official advice: mbclub.co.uk/forums/449928-post9.html
known 2ND
working tested on 1 March it runs for twelve months only: to the eve of 1
    March 2028, a leap year
use mot
job
    every = 12 months
vehicle
    j.last = 2026-04-02
do 2027-03-01 record V j --on 2027-03-01
at 2027-03-03
due V j deadline=2028-02-29

story first-mot-leap-day
source gov.uk/getting-an-mot: by the third anniversary of its registration
known READ
working registered on 29 February 2024: 2027 has no such day, and 28
    February is the safer
use mot
job
    every = 12 months
vehicle
    registered = 2024-02-29
at 2026-12-01
due V j deadline=2027-02-28

story first-mot-in-window
source amcautoclinic.co.uk (registered 1 July 2005: 1 July 2008); the same
    rule for the first test: ukmotorists.com
known 2ND
working registered 1 July 2024, tested on 2 June 2027, within a month: kept
use mot
job
    every = 12 months
vehicle
    registered = 2024-07-01
do 2027-06-02 record V j --on 2027-06-02
at 2027-06-03
due V j deadline=2028-07-01

story mot-late
source a year less a day from the test: tiires.com/?p=17217
known 2ND
working a certificate to 15 May, tested on 20 May 2026: 19 May 2027
use mot
job
    every = 12 months
vehicle
    j.last = 2025-05-16
do 2026-05-20 record V j --on 2026-05-20
at 2026-05-21
due V j deadline=2027-05-19

story mot-window-of-february-safer
source a month before 28 February: 28 January and a day, or 1 February, the
    first day whose month passes it; the later is the safer
known CALC
working tested on 31 January 2027 it does not keep the date: 30 January 2028
use mot
job
    every = 12 months
vehicle
    j.last = 2026-03-01
do 2027-01-31 record V j --on 2027-01-31
at 2027-02-01
due V j deadline=2028-01-30

story mot-window-of-february-kept
source a month before 28 February: 1 February is in the window by either
    reading
known CALC
working certificate to 28 February 2027, tested on 1 February: 28 February
    2028, the same number
use mot
job
    every = 12 months
vehicle
    j.last = 2026-03-01
do 2027-02-01 record V j --on 2027-02-01
at 2027-02-02
due V j deadline=2028-02-28

story mot-tested-10-april
source a certificate to 15 May, tested on 10 April: tiires.com/?p=17217
known 2ND
working too early to keep the date: 9 April of the next year
use mot
job
    every = 12 months
vehicle
    j.last = 2025-05-16
do 2026-04-10 record V j --on 2026-04-10
at 2026-04-11
due V j deadline=2027-04-09

story mot-2008-kept
source older official advice: amcautoclinic.co.uk: to 1 March 2008, tested on
    2 February 2008, to 1 March 2009
known 2ND
working the earliest day of the window, a month less a day before
use mot
job
    every = 12 months
vehicle
    registered = 2003-03-01
    j.last = 2007-03-02
    j.deadline = 2008-03-01
do 2008-02-02 record V j --on 2008-02-02
at 2008-02-03
due V j deadline=2009-03-01

story mot-kept-year-after-year
source GOV.UK on when to get an MOT: kerseymotorco.co.uk/MOT_s_Explained.html
known 2ND CALC
working 15 May is kept by tests on 20 April 2026 and 1 May 2027, and lost by
    one on 20 May 2028, which runs to the 19th
use mot
job
    every = 12 months
vehicle
    j.last = 2025-05-16
do 2026-04-20 record V j --on 2026-04-20
at 2026-04-21
due V j deadline=2027-05-15
do 2027-05-01 record V j --on 2027-05-01
at 2027-05-02
due V j deadline=2028-05-15
do 2028-05-20 record V j --on 2028-05-20
at 2028-05-21
due V j deadline=2029-05-19

story mot-on-the-last-day
source GOV.UK on when to get an MOT: an MOT lasts for a year
known READ CALC
working tested on the day it runs out, 15 May 2026: kept, 15 May 2027
use mot
job
    every = 12 months
vehicle
    j.last = 2025-05-16
at 2026-05-15
due V j deadline=2026-05-15 state=due
do 2026-05-15 record V j --on 2026-05-15
at 2026-05-15
due V j deadline=2027-05-15

story mot-kept-from-leap-day
source the same date a year on: HMRC CTM93040 has 28 February for the year
    after 29 February
known 2ND CALC
working tested 1 March 2027 it runs to 29 February 2028; tested on 10 February
    2028 to 28 February 2029, and so again in 2029
use mot
job
    every = 12 months
vehicle
    j.last = 2027-03-01
at 2027-03-02
due V j deadline=2028-02-29
do 2028-02-10 record V j --on 2028-02-10
at 2028-02-11
due V j deadline=2029-02-28
do 2029-02-10 record V j --on 2029-02-10
at 2029-02-11
due V j deadline=2030-02-28

story mot-28-february-kept-in-leap-year
source older official advice: one year after the expiry of the certificate
    before: mbclub.co.uk/forums/449928-post9.html
known 2ND CALC
working a certificate to 28 February 2031, kept: 28 February 2032, not the 29th
use mot
job
    every = 12 months
vehicle
    j.last = 2030-03-01
    j.deadline = 2031-02-28
do 2031-02-10 record V j --on 2031-02-10
at 2031-02-11
due V j deadline=2032-02-28

story mot-early-of-31-march
source a month less a day before 31 March, 28 or less days in February
known CALC
working the window of 31 March 2027 opens on 1 March: the 1st keeps it
use mot
job
    every = 12 months
vehicle
    j.last = 2026-04-01
do 2027-03-01 record V j --on 2027-03-01
at 2027-03-02
due V j deadline=2028-03-31

story mot-too-early-of-31-march
source a month less a day before 31 March, 28 or less days in February
known CALC
working 28 February is a day before the window of 31 March 2027 opens: to
    27 February 2028
use mot
job
    every = 12 months
vehicle
    j.last = 2026-04-01
do 2027-02-28 record V j --on 2027-02-28
at 2027-03-02
due V j deadline=2028-02-27

story mot-failed-in-window
source GOV.UK on a failed test: the old certificate runs on; copied by a test
    station
known 2ND
working failed on 20 April 2026, the certificate to 15 May stands; passed on
    the 24th it is kept
use mot
job
    every = 12 months
vehicle
    j.last = 2025-05-16
do 2026-04-20 record V j --on 2026-04-20 --result failed
at 2026-04-21
due V j deadline=2026-05-15 state=failed event=2026-04-20
do 2026-04-24 record V j --on 2026-04-24
at 2026-04-25
due V j deadline=2027-05-15 state=ahead

story ireland-moved-due-date
source Commercial vehicle tests in 2020: automotiveservices.ie/covid-19-update
known 2ND
working a test due date of 1 April 2020 became 1 July 2020; tested on time, the
    next is 1 July 2021
job
    class = law
    every = 12 months
    runs-from = keeping the date
    window = 1 month
vehicle
    j.last = 2019-04-01
    j.deadline = 2020-07-01
at 2020-06-01
due V j deadline=2020-07-01
do 2020-06-24 record V j --on 2020-06-24
at 2020-06-25
due V j deadline=2021-07-01

story used-before-registered
source old official text: audi-vw-clinic.co.uk/mot3.aspx: made in 2004, by
    31 December 2007
known 2ND
working three years from the end of the year of manufacture; twenty years on,
    31 December 2027 is a Friday
use mot
job
    every = 12 months
vehicle
    j.first = on 2027-12-31
    registered = 2025-06-01
at 2027-01-05
due V j deadline=2027-12-31 plan=2027-12-31

story sweden-month-end
source Swedish roadworthiness tests:
    korteori.se/en/words-list/roadworthiness-test-kontrollbesiktning
known 2ND CALC
working first by 36 months after the month of first use, 15 March 2024:
    31 March 2027; then 24 months, to a month's end: 31 March 2029
job
    every = 24 months
    ends = month end
    first = 36 months from in-service
vehicle
    registered = 2024-03-01
    in-service = 2024-03-15
at 2027-01-05
due V j deadline=2027-03-31 plan=2027-03-31
do 2027-03-10 record V j --on 2027-03-10
at 2027-03-11
due V j deadline=2029-03-31

story germany-hu-yearly
source StVZO Annex VIII 2.2 to 2.4: periods end with the month
known READ CALC
working main inspection on 20 May 2026: 31 May 2027, a Monday
job
    class = law
    every = 12 months
    ends = month end
    lead = 10 days
vehicle
    j.last = 2026-05-20
at 2026-06-01
due V j deadline=2027-05-31 plan=2027-05-31

define fleet germany
    [job hu]
    title = Main inspection
    class = law
    every = 12 months
    ends = month end
    covers = sp
    lead = 10 days
    [job sp]
    title = Safety check
    class = law
    every = 3 months
    ends = month end
    runs-from = keeping the date
    window = 2 months
    window-opens = day after
    lead = 10 days
    [vehicle K]
    depot = d
    registered = 2023-05-10
    jobs = hu sp
    hu.last = 2026-05-20

story germany-sp-after-hu
source StVZO Annex VIII 2.1.3 and 2.2 to 2.4, more than eight passenger seats
known READ CALC
working main inspection on 20 May 2026: safety checks by 31 August and
    30 November 2026 and 28 February 2027
use germany
at 2026-06-01
due K sp deadline=2026-08-31 plan=2026-08-31
do 2026-08-12 record K sp --on 2026-08-12
at 2026-08-13
due K sp deadline=2026-11-30
do 2026-11-20 record K sp --on 2026-11-20
at 2026-11-21
due K sp deadline=2027-02-28 plan=2027-02-26

story germany-sp-month-before
source StVZO Annex VIII: a safety check in the month just before moves nothing
known READ CALC
working due by 31 August 2026, done on 1 July: still 30 November
use germany
do 2026-07-01 record K sp --on 2026-07-01
at 2026-07-02
due K sp deadline=2026-11-30

story germany-sp-too-early
source StVZO Annex VIII: a safety check in the month just before moves nothing
known READ CALC
working due by 31 August 2026, done on 30 June, two months before: three
    months from June, 30 September
use germany
do 2026-06-30 record K sp --on 2026-06-30
at 2026-07-02
due K sp deadline=2026-09-30
