story dodds-v-walker
source Dodds v Walker [1981] 1 WLR 1027 (HL):
    vlex.co.uk/vid/dodds-v-walker-793845349
known READ
working four months from 30 September 1978 ended on 30 January 1979, and 31
    January was a day late; the same two months of 2026 and 2027; 30 January
    2027 is a Saturday
job
    every = 4 months
vehicle
    j.last = 2026-09-30
at 2026-10-01
due V j deadline=2027-01-30 plan=2027-01-29

story riley-v-eurostile
source E J Riley v Eurostile Holdings:
    estatesgazette.co.uk/legal/e-j-riley-investments-ltd-v-eurostile-holdings-ltd
known READ
working two months from 23 March end on 23 May; in 2026 a Saturday
job
    every = 2 months
vehicle
    j.last = 2026-03-23
at 2026-04-01
due V j deadline=2026-05-23 plan=2026-05-22

story regulation-1182-no-such-day
source Regulation (EEC, Euratom) 1182/71 art. 3(2):
    wordscope.be/engels/nederlands/X-hour+week.html
known 2ND
working 31 October and four months: February 2027 has no 31st, so its last
    day; a Sunday
job
    every = 4 months
vehicle
    j.last = 2026-10-31
at 2026-11-01
due V j deadline=2027-02-28 plan=2027-02-26

story fifteen-months
source the rule of Regulation 1182/71 art. 3(2)
known CALC
working 31 December 2026 and 15 months: March 2028 has a 31st
job
    every = 15 months
vehicle
    j.last = 2026-12-31
at 2027-01-01
due V j deadline=2028-03-31 plan=2028-03-31

story tachograph-from-leap-day
source Regulation (EU) 2016/799 Annex IC para 409, within 24 months of the
    last inspection: corte.be, periodic inspections
known 2ND
working 29 February 2024 and 24 months: February 2026 has no 29th; the 28th
    is a Saturday
job
    every = 24 months
vehicle
    j.last = 2024-02-29
at 2025-01-01
due V j deadline=2026-02-28 plan=2026-02-27

story leap-day-to-leap-day
source the rule of Dodds v Walker: the day of the same number
known CALC
working 29 February 2024 and four years: 2028 has a 29 February
job
    every = 4 years
vehicle
    j.last = 2024-02-29
at 2027-01-01
due V j deadline=2028-02-29

story six-months-july
source gov.uk/getting-an-mot, summer 2020: certificates to 31 July 2020 were
    extended by six months to 31 January 2021
known READ
working the same in 2026 and 2027
job
    every = 6 months
vehicle
    j.last = 2026-07-31
at 2026-11-01
due V j deadline=2027-01-31

story forty-two-days
source Transport Act 1968 s. 97C(3), in SI 2008/198 reg. 2: 42 days starting
    on the day after the latest date to which the document relates
known READ
working a chart of 1 January 2026: day 1 is 2 January, day 42 is 12 February
job
    every = 42 days
vehicle
    j.last = 2026-01-01
at 2026-01-02
due V j deadline=2026-02-12

story monthly-restarts
source ostler-fleet(5), completion: the day the job was last completed
known OWN
working done on 31 January, then on 28 February: one month from then is 28
    March
job
    every = 1 month
vehicle
    j.last = 2026-01-31
do 2026-02-28 record V j --on 2026-02-28
at 2026-03-01
due V j deadline=2026-03-28

story monthly-anchored
source ostler-fleet(5): where one deadline follows from another, every step
    is counted from the first, so that days do not drift
known OWN
working from 31 January: 28 February, 31 March, 30 April
job
    every = 1 month
    runs-from = deadline
vehicle
    j.last = 2026-01-31
do 2026-02-28 record V j --on 2026-02-28
do 2026-03-31 record V j --on 2026-03-31
at 2026-04-01
due V j deadline=2026-04-30

story day-before-leap-day
source the last day of the year that begins with 29 February 2024
known CALC
working 1 March 2025 stands for the missing day, less a day: 28 February
    2025
job
    every = 12 months
    ends = day before
vehicle
    j.last = 2024-02-29
at 2024-03-01
due V j deadline=2025-02-28

story day-before-into-leap-year
source the last day of the year that begins with 1 March 2027
known CALC
working 1 March 2028 less a day: 29 February
job
    every = 12 months
    ends = day before
vehicle
    j.last = 2027-03-01
at 2027-03-02
due V j deadline=2028-02-29

story day-before-no-such-day
source the last day of the half year that begins with 31 August 2026
known CALC
working 1 March 2027 stands for the missing day, less a day: 28 February
job
    every = 6 months
    ends = day before
vehicle
    j.last = 2026-08-31
at 2026-09-01
due V j deadline=2027-02-28

story two-intervals
source ostler-fleet(5): the earliest deadline counts
known OWN
working 15 June 2027 or 1 April 2027: a Thursday
job
    every = 12 months or yearly on 1 apr
vehicle
    j.last = 2026-06-15
at 2026-12-01
due V j deadline=2027-04-01 plan=2027-04-01

story trade-marks-act-same-number
source Trade Marks Act 1995 (Cth) s. 6A:
    austlii.edu.au/au/legis/cth/consol_act/tma1995121/s6a.html
known READ
working its note: three months from an event on 30 September end on
    30 December; in 2026 a Wednesday
job
    every = 3 months
vehicle
    j.last = 2026-09-30
at 2026-10-01
due V j deadline=2026-12-30 plan=2026-12-30

story acts-interpretation-act-sticky
source Acts Interpretation Act 1901 (Cth) s. 36, as the note to s. 6A of the
    Trade Marks Act 1995 has it: austlii.edu.au, tma1995121/s6a.html
known READ
working from 30 September, a month's last day, three months end on
    31 December; month-end = sticky is that rule
job
    every = 3 months
    month-end = sticky
vehicle
    j.last = 2026-09-30
at 2026-10-01
due V j deadline=2026-12-31 plan=2026-12-31

story hmrc-service-15-january
source HMRC Company Taxation Manual CTM93040, examples:
    hmrc.gov.uk/manuals/ctmanual/ctm93040.htm
known READ
working three months, served 15 January: 15 April; in 2027 a Thursday
job
    every = 3 months
vehicle
    j.last = 2027-01-15
at 2027-01-16
due V j deadline=2027-04-15 plan=2027-04-15

story hmrc-service-27-november
source HMRC Company Taxation Manual CTM93040, examples:
    hmrc.gov.uk/manuals/ctmanual/ctm93040.htm
known READ
working three months, served 27 November: 27 February; in 2027 a Saturday
job
    every = 3 months
vehicle
    j.last = 2026-11-27
at 2026-11-28
due V j deadline=2027-02-27 plan=2027-02-26

story hmrc-service-29-november
source HMRC Company Taxation Manual CTM93040, examples:
    hmrc.gov.uk/manuals/ctmanual/ctm93040.htm
known READ
working three months, served 29 November 2018: 28 February 2019, a Thursday
job
    every = 3 months
vehicle
    registered = 2017-01-01
    j.last = 2018-11-29
at 2018-12-01
due V j deadline=2019-02-28 plan=2019-02-28

story hmrc-service-30-november
source HMRC Company Taxation Manual CTM93040, examples:
    hmrc.gov.uk/manuals/ctmanual/ctm93040.htm
known READ
working three months, served 30 November 2018: 28 February 2019
job
    every = 3 months
vehicle
    registered = 2017-01-01
    j.last = 2018-11-30
at 2018-12-01
due V j deadline=2019-02-28

story hmrc-year-from-leap-day
source HMRC Company Taxation Manual CTM93040, 1: twelve months from
    29 February: hmrc.gov.uk/manuals/ctmanual/ctm93040.htm
known READ
working the filing date is regarded as being 28 February of the next year
job
    every = 12 months
vehicle
    j.last = 2028-02-29
at 2028-03-01
due V j deadline=2029-02-28 plan=2029-02-28

story hmrc-year-to-leap-day-sticky
source HMRC Company Taxation Manual CTM93040, 1: from 28 February of the year
    before a leap year to 29 February:
    hmrc.gov.uk/manuals/ctmanual/ctm93040.htm
known READ
working month-end = sticky is that rule: 28 February 2027 to 29 February 2028,
    a Tuesday
job
    every = 12 months
    month-end = sticky
vehicle
    j.last = 2027-02-28
at 2027-03-01
due V j deadline=2028-02-29 plan=2028-02-29

story hmrc-year-to-leap-day-clamp
source the safer of two readings: HMRC CTM93040 gives 29 February, Dodds v
    Walker the day of the same number
known READ CALC
working 28 February 2027 and twelve months: 28 February 2028, a Monday
job
    every = 12 months
vehicle
    j.last = 2027-02-28
at 2027-03-01
due V j deadline=2028-02-28 plan=2028-02-28

story canada-month-from-30-march
source Interpretation Act (Canada) s. 28: tips.slaw.ca/2019/practice/
    unclear-days-computing-time-in-statutes-and-regulations
known 2ND
working one month after 30 March is 30 April; in 2027 a Friday
job
    every = 1 month
vehicle
    j.last = 2027-03-30
at 2027-04-01
due V j deadline=2027-04-30 plan=2027-04-30

story canada-month-from-31-march
source Interpretation Act (Canada) s. 28: tips.slaw.ca/2019/practice/
    unclear-days-computing-time-in-statutes-and-regulations
known 2ND
working one month after 31 March is 30 April too
job
    every = 1 month
vehicle
    j.last = 2027-03-31
at 2027-04-01
due V j deadline=2027-04-30 plan=2027-04-30

story dock-and-let
source Dock and Let Ltd v HMRC (FTT), twelve months from 31 January 2012:
    lexology.com/library/detail.aspx?g=1e55372d-449c-469e-ac8d-331b21de39d4
known 2ND
working the day itself not counted, they end on 31 January 2013, a Thursday
job
    every = 12 months
vehicle
    registered = 2010-01-01
    j.last = 2012-01-31
at 2012-02-01
due V j deadline=2013-01-31 plan=2013-01-31

story xml-schema-days-do-not-add-up
source W3C XML Schema Part 2, appendix E: 30 March 2000 and a month is
    30 April, and a day more 1 May
known 2ND
working as two intervals, the earlier decides: one month, not 32 days
job
    every = 32 days or 1 month
vehicle
    registered = 1999-01-01
    j.last = 2000-03-30
at 2000-04-01
due V j deadline=2000-04-30 plan=2000-04-28

story regulation-1182-same-weekday
source Regulation (EEC, Euratom) 1182/71 art. 3(2)(c): a period in weeks ends
    on the same day of the week: wordscope.be
known 2ND
working from Wednesday 2 December 2026 six weeks end on Wednesday 13 January
job
    every = 6 weeks
vehicle
    j.last = 2026-12-02
at 2026-12-03
due V j deadline=2027-01-13 plan=2027-01-13

story regulation-1182-following-working-day
source Regulation (EEC, Euratom) 1182/71 art. 3(4): where the last day is a
    Saturday, the period ends with the following working day: wordscope.be
known 2ND
working from 30 September 2026 four months end on Saturday 30 January 2027:
    Monday 1 February; roll = following is that rule
job
    every = 4 months
    roll = following
vehicle
    j.last = 2026-09-30
at 2026-10-01
due V j deadline=2027-02-01 plan=2027-02-01

story ninety-days-bus-exits
source 49 CFR 396.3(a)(2): emergency exits of buses at least every 90 days:
    law.cornell.edu
known READ CALC
working 1 December 2026 and 90 days: 30 in December, 31, 28, so 1 March 2027
job
    every = 90 days
vehicle
    j.last = 2026-12-01
at 2026-12-02
due V j deadline=2027-03-01 plan=2027-03-01

story ninety-days-over-leap-day
source 49 CFR 396.3(a)(2), as before
known READ CALC
working 1 December 2027 and 90 days, 2028 having a 29 February: that day
job
    every = 90 days
vehicle
    j.last = 2027-12-01
at 2027-12-02
due V j deadline=2028-02-29 plan=2028-02-29

story card-download-28-days
source Regulation (EU) 581/2010: driver card at most every 28 days:
    trafikksiden.motocross.io/regelverk/forordning/EU-581-2010_NO.html
known 2ND CALC
working calendar days, the safer: 5 February 2027 and 28 days is 5 March
job
    every = 28 days
vehicle
    j.last = 2027-02-05
at 2027-02-06
due V j deadline=2027-03-05 plan=2027-03-05

story lift-six-months-no-such-day
source SI 1998/2307 (LOLER) reg. 9(3)(a)(i), six months; Regulation 1182/71
    for the missing day
known 2ND CALC
working examined on 30 August 2026: February 2027 has no 30th, so the 28th, a
    Sunday
job
    every = 6 months
vehicle
    j.last = 2026-08-30
at 2026-09-01
due V j deadline=2027-02-28 plan=2027-02-26

story france-six-months
source Code de la route R323-23, public transport, every six months:
    legifrance.gouv.fr/codes/section_lc/LEGITEXT000006074228
known READ CALC
working 15 December 2026 and six months: 15 June 2027, a Tuesday
job
    every = 6 months
vehicle
    j.last = 2026-12-15
at 2026-12-16
due V j deadline=2027-06-15 plan=2027-06-15

story century-without-leap-day
source the Gregorian rule: 2100 is a common year
known CALC
working 29 February 2096 and four years: 28 February 2100, a Sunday
job
    every = 4 years
vehicle
    j.last = 2096-02-29
at 2096-03-01
due V j deadline=2100-02-28 plan=2100-02-26
