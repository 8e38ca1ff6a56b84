define fleet brake-tests
    [job mot]
    title = MOT
    class = law
    every = 12 months
    lead = 1 day
    [job j]
    title = Brake test
    class = recommendation
    every = 4 within 12 months
    also-counts = 1 mot
    [vehicle V]
    depot = d
    registered = 2019-01-01
    jobs = mot j

story three-tests-and-mot
source four laden brake tests a year, one of which may be the annual test:
    rha.uk.net, April 2025
known 2ND
working with the annual test of 15 July four: a year after the first of
    them, 10 January
use brake-tests
do 2026-12-01 record V j --on 2026-01-10
do 2026-12-01 record V j --on 2026-04-12
do 2026-12-01 record V mot --on 2026-07-15
do 2026-12-01 record V j --on 2026-10-10
at 2026-12-01
due V j deadline=2027-01-10

story second-mot-does-not-count
source four laden brake tests a year, one of which may be the annual test:
    rha.uk.net, April 2025
known 2ND
working two annual tests, so three count; a quarter of a year after the last
    counted, 10 October
use brake-tests
do 2026-12-01 record V j --on 2026-01-10
do 2026-12-01 record V j --on 2026-04-12
do 2026-12-01 record V mot --on 2026-07-15
do 2026-12-01 record V mot --on 2026-10-10
at 2026-12-01
due V j deadline=2027-01-10

story entered-twice
source design: distinct days are counted
known OWN
working three tests on three days; a quarter of a year after the last, 10
    October
use brake-tests
do 2026-12-01 record V j --on 2026-01-10
do 2026-12-01 record V j --on 2026-04-12
do 2026-12-01 record V j --on 2026-04-12 --sure
do 2026-12-01 record V j --on 2026-10-10
at 2026-12-01
due V j deadline=2027-01-10

story entered-twice-february
source design: distinct days are counted
known OWN
working February, May and August are three; a quarter of a year after 1
    August
use brake-tests
do 2026-12-01 record V j --on 2026-02-01
do 2026-12-01 record V j --on 2026-02-01 --sure
do 2026-12-01 record V j --on 2026-05-01
do 2026-12-01 record V j --on 2026-08-01
at 2026-09-01
due V j deadline=2026-11-01

story four-of-any-twelve-months
source four laden brake tests a year: rha.uk.net, April 2025
known 2ND
working of five tests the fourth last is 12 April 2025: a year on
use brake-tests
do 2026-01-10 record V j --on 2025-01-10
do 2026-01-10 record V j --on 2025-04-12
do 2026-01-10 record V j --on 2025-07-15
do 2026-01-10 record V j --on 2025-10-10
do 2026-01-10 record V j --on 2026-01-08
at 2026-01-12
due V j deadline=2026-04-12

story one-test-only
source four laden brake tests a year, spread evenly: rha.uk.net, April 2025
known 2ND
working one test, on 30 November 2026: a quarter of a year on, the last of
    February
use brake-tests
do 2026-11-30 record V j --on 2026-11-30
at 2026-12-01
due V j deadline=2027-02-28 plan=2027-02-26

story failed-test-does-not-count
source four laden brake tests a year; a failed result starts no new cycle
known 2ND OWN
working passed in January, April and July 2026, failed on 10 October: a quarter
    of a year after 15 July stands, 15 October
use brake-tests
do 2026-10-11 record V j --on 2026-01-10
do 2026-10-11 record V j --on 2026-04-12
do 2026-10-11 record V j --on 2026-07-15
do 2026-10-11 record V j --on 2026-10-10 --result failed
at 2026-10-12
due V j deadline=2026-10-15 state=failed event=2026-10-10

story preset-four-in-one-month
source four laden brake tests a year, spread evenly: rha.uk.net, April 2025
known 2ND
working four in January 2026 do not buy a year: four months after the last at
    the latest, as the preset spreads them
site
    presets = PRESETS/great-britain-jobs.conf
fleet
    [vehicle V]
    depot = d
    registered = 2019-01-01
    jobs = annual-test laden-brake-test
    annual-test.last = 2025-06-01
do 2026-02-01 record V laden-brake-test --on 2026-01-03
do 2026-02-01 record V laden-brake-test --on 2026-01-10
do 2026-02-01 record V laden-brake-test --on 2026-01-17
do 2026-02-01 record V laden-brake-test --on 2026-01-24
at 2026-02-02
due V laden-brake-test deadline=2026-04-03..2026-05-24

story four-apart
source four laden brake tests a year, spread evenly: rha.uk.net, April 2025;
    four months between two at most is own policy
known 2ND OWN
working January to April 2026: twelve months after the fourth last is 10 January
    2027, four months after the last 10 August 2026, and that comes first
job
    every = 4 within 12 months, apart 4 months
do 2026-04-11 record V j --on 2026-01-10
do 2026-04-11 record V j --on 2026-02-12
do 2026-04-11 record V j --on 2026-03-15
do 2026-04-11 record V j --on 2026-04-10
at 2026-04-12
due V j deadline=2026-08-10 plan=2026-08-10

story four-spread
source four laden brake tests a year, spread evenly: rha.uk.net, April 2025;
    four months between two at most is own policy
known 2ND OWN
working a quarter of a year between two: a year after the first, 10 January
    2027, comes before four months after the last, 10 February
job
    every = 4 within 12 months, apart 4 months
do 2026-10-11 record V j --on 2026-01-10
do 2026-10-11 record V j --on 2026-04-10
do 2026-10-11 record V j --on 2026-07-10
do 2026-10-11 record V j --on 2026-10-10
at 2026-10-12
due V j deadline=2027-01-10 plan=2027-01-08
