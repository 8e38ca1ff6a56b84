story week-end-wednesday
source DVSA on safety inspections by ISO week:
    route-one.net/regulations/dvsa_updates_roadworthiness_guide; weeks by
    ISO 8601
known 2ND
working 2026-W48 and six weeks, 2026 having a W53, is 2027-W01: its Sunday
    is 10 January
job
    every = 6 weeks
    ends = week end
vehicle
    j.last = 2026-11-25
at 2026-11-26
due V j deadline=2027-01-10 plan=2027-01-08

story week-end-sunday
source DVSA on safety inspections by ISO week:
    route-one.net/regulations/dvsa_updates_roadworthiness_guide; weeks by
    ISO 8601
known 2ND
working Sunday 29 November 2026 is in W48 still
job
    every = 6 weeks
    ends = week end
vehicle
    j.last = 2026-11-29
at 2026-11-30
due V j deadline=2027-01-10

story week-end-monday
source DVSA on safety inspections by ISO week:
    route-one.net/regulations/dvsa_updates_roadworthiness_guide; weeks by
    ISO 8601
known 2ND
working Monday 30 November 2026 is in W49: 2027-W02 ends on 17 January
job
    every = 6 weeks
    ends = week end
vehicle
    j.last = 2026-11-30
at 2026-12-01
due V j deadline=2027-01-17

story fifty-two-weeks
source ISO 8601: 2026 has 53 weeks, for 1 January is a Thursday
known CALC
working 2026-W01 and 52 weeks is W53, which ends on 3 January 2027
job
    every = 52 weeks
    ends = week end
vehicle
    j.last = 2025-12-29
at 2026-12-01
due V j deadline=2027-01-03

story iso-1-january-2010
source ISO 8601, as the strftime manual has it: 1 January 2010 is in 2009-W53:
    nskhuman.ru/helpdb/man7org.php
known 2ND
working W53 and one week is 2010-W01, 4 to 10 January
job
    every = 1 week
    ends = week end
vehicle
    registered = 2009-01-01
    j.last = 2010-01-01
at 2010-01-02
due V j deadline=2010-01-10 plan=2010-01-08

story iso-2-january-2011
source ISO 8601, as the strftime manual has it: 2 January 2011 is in 2010-W52:
    nskhuman.ru/helpdb/man7org.php
known 2ND
working W52 is the last of 2010; one week on is 2011-W01, to 9 January
job
    every = 1 week
    ends = week end
vehicle
    registered = 2009-01-01
    j.last = 2011-01-02
at 2011-01-03
due V j deadline=2011-01-09 plan=2011-01-07

story iso-30-december-2019
source ISO 8601 week dates: 30 December 2019 is 2020-W01-1
known 2ND
working one week on is 2020-W02, 6 to 12 January
job
    every = 1 week
    ends = week end
vehicle
    j.last = 2019-12-30
at 2019-12-31
due V j deadline=2020-01-12 plan=2020-01-10

story iso-29-december-2019
source ISO 8601 week dates: 30 December 2019 is 2020-W01-1, so the day before
    is in 2019-W52
known 2ND
working one week on is 2020-W01, to 5 January
job
    every = 1 week
    ends = week end
vehicle
    j.last = 2019-12-29
at 2019-12-30
due V j deadline=2020-01-05 plan=2020-01-03

story iso-31-december-2024
source ISO 8601 week dates: 30 December 2024 is 2025-W01-1
known 2ND CALC
working the day after is in 2025-W01; six weeks on is W07, 10 to 16 February
job
    every = 6 weeks
    ends = week end
vehicle
    j.last = 2024-12-31
at 2025-01-02
due V j deadline=2025-02-16 plan=2025-02-14

story weeks-over-2020-w53
source ISO 8601: 2020 has 53 weeks (leap year, begins on a Wednesday)
known CALC
working Thursday 10 December 2020 is in W50; six weeks on is 2021-W03, to
    24 January, as W53 lies between
job
    every = 6 weeks
    ends = week end
vehicle
    j.last = 2020-12-10
at 2020-12-11
due V j deadline=2021-01-24 plan=2021-01-22

story weeks-into-2026-w53
source ISO 8601: 2026 has 53 weeks
known CALC
working Monday 28 September 2026 is 2026-W40-1; 13 weeks on is W53, to
    3 January 2027
job
    every = 13 weeks
    ends = week end
vehicle
    j.last = 2026-09-28
at 2026-10-01
due V j deadline=2027-01-03 plan=2027-01-01

story weeks-past-2026-w53
source ISO 8601: 2026 has 53 weeks
known CALC
working Sunday 13 December 2026 is 2026-W50-7; six weeks on is 2027-W03, to
    24 January
job
    every = 6 weeks
    ends = week end
vehicle
    j.last = 2026-12-13
at 2026-12-14
due V j deadline=2027-01-24 plan=2027-01-22

story weeks-from-2032-w53
source ISO 8601: 2032 has 53 weeks, and 2 January 2033 is 2032-W53-7
known CALC
working one week on is 2033-W01, to 9 January
job
    every = 1 week
    ends = week end
vehicle
    j.last = 2033-01-02
at 2033-01-03
due V j deadline=2033-01-09 plan=2033-01-07

story weeks-done-early-in-week
source DVSA on safety inspections by ISO week:
    route-one.net/regulations/dvsa_updates_roadworthiness_guide
known 2ND CALC
working planned by the week: done on Monday 7 December 2026 (W50) for the W50
    deadline of 13 December, eight weeks on is 2027-W05, to 7 February
job
    every = 8 weeks
    ends = week end
vehicle
    j.last = 2026-10-14
do 2026-12-07 record V j --on 2026-12-07
at 2026-12-08
due V j deadline=2027-02-07 plan=2027-02-05

story weeks-done-late
source DVSA on the 2014 revision: intervals must not be exceeded:
    route-one.net/regulations/dvsa_updates_roadworthiness_guide
known 2ND CALC
working due by 13 December, done late on 15 December (W51): the next eight
    weeks on from W51, 2027-W06, to 14 February
job
    every = 8 weeks
    ends = week end
vehicle
    j.last = 2026-10-14
at 2026-12-14
due V j deadline=2026-12-13 state=overdue
do 2026-12-15 record V j --on 2026-12-15
at 2026-12-16
due V j deadline=2027-02-14 plan=2027-02-12
