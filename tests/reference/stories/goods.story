define job goods
    ends = month end
    runs-from = keeping the date
    window = 2 months
    window-opens = same day
    late = keeps the date
    shortest = 2 months
    first = 12 months from registered

story goods-first
source SI 1988/1478 reg. 11(1):
    legislation.gov.uk/uksi/1988/1478/regulation/11/made
known READ
working passed 10 March 2026: the last day of the same month in the
    following year
use goods
job
    every = 12 months
vehicle
    j.last = 2026-03-10
at 2026-04-01
due V j deadline=2027-03-31

story goods-more-than-two-months
source SI 1988/1478 reg. 11(2) item 1
known READ
working to 31 March 2027, submitted on 15 January: the last day of that
    month in the next year
use goods
job
    every = 12 months
vehicle
    j.last = 2026-03-10
do 2027-01-15 record V j --on 2027-01-15
at 2027-02-01
due V j deadline=2028-01-31

story goods-exactly-two-months
source SI 1988/1478 reg. 11(2) item 2; two months from 31 January end on 31
    March (Dodds v Walker)
known READ
working submitted on 31 January: two months or less before 31 March
use goods
job
    every = 12 months
vehicle
    j.last = 2026-03-10
do 2027-01-31 record V j --on 2027-01-31
at 2027-02-01
due V j deadline=2028-03-31

story goods-after-expiry
source SI 1988/1478 reg. 11(2) item 3
known READ
working to 31 March 2027, submitted on 10 April 2027: the anniversary
use goods
job
    every = 12 months
vehicle
    j.last = 2026-03-10
do 2027-04-10 record V j --on 2027-04-10
at 2027-05-01
due V j deadline=2028-03-31

story goods-long-after-expiry
source SI 1988/1478 reg. 11(2) item 3
known READ
working submitted on 20 February 2028: the first anniversary would leave two
    months or less, so the second
use goods
job
    every = 12 months
vehicle
    j.last = 2026-03-10
do 2028-02-20 record V j --on 2028-02-20
at 2028-03-01
due V j deadline=2029-03-31

story goods-first-test
source SI 1988/1478 reg. 9, as its predecessor had it:
    archive.commercialmotor.com/article/3rd-october-1969/33
known 2ND
working registered 5 February 2027: the end of the month of the first
    anniversary; 2028 is a leap year
use goods
job
    every = 12 months
vehicle
    registered = 2027-02-05
at 2027-03-01
due V j deadline=2028-02-29

define site british
    presets = PRESETS/great-britain-jobs.conf

define fleet lorry
    [vehicle L]
    depot = d
    registered = 2020-01-10
    jobs = goods-annual-test

story goods-preset-november-for-january
source SI 1988/1478 reg. 11(2) item 1, as made; Dodds v Walker: two months from
    30 November end on 30 January
known READ CALC
working to 31 January 2027, submitted on 30 November 2026: more than two months
    before, so to 30 November 2027
use british
use lorry
fleet
    goods-annual-test.last = 2026-01-15
    goods-annual-test.deadline = 2027-01-31
do 2026-11-30 record L goods-annual-test --on 2026-11-30
at 2026-12-01
due L goods-annual-test deadline=2027-11-30

story goods-preset-december-for-january
source SI 1988/1478 reg. 11(2) item 2, as made; two months from 1 December end
    on 1 February
known READ CALC
working to 31 January 2027, submitted on 1 December 2026: two months or less
    before, so to 31 January 2028
use british
use lorry
fleet
    goods-annual-test.last = 2026-01-15
    goods-annual-test.deadline = 2027-01-31
do 2026-12-01 record L goods-annual-test --on 2026-12-01
at 2026-12-02
due L goods-annual-test deadline=2028-01-31

story goods-preset-first-test-is-no-certificate
source SI 1988/1478 reg. 11(1), as made
known READ CALC
working registered 15 April 2025, first passed on 10 March 2026: no certificate
    ran before, so to 31 March 2027 and not April
use british
fleet
    [vehicle L]
    depot = d
    registered = 2025-04-15
    jobs = goods-annual-test
do 2026-03-10 record L goods-annual-test --on 2026-03-10
at 2026-03-11
due L goods-annual-test deadline=2027-03-31 plan=2027-03-31

story goods-preset-december-for-february
source SI 1988/1478 reg. 11(2) item 2, as made; two months from 28 December end
    on 28 February
known READ CALC
working to 28 February 2027, submitted on 28 December 2026: two months, so to
    the last day of February 2028, the 29th
use british
use lorry
fleet
    goods-annual-test.last = 2026-02-12
    goods-annual-test.deadline = 2027-02-28
do 2026-12-28 record L goods-annual-test --on 2026-12-28
at 2026-12-29
due L goods-annual-test deadline=2028-02-29

story goods-preset-day-before-that
source SI 1988/1478 reg. 11(2) item 1, as made; two months from 27 December end
    on 27 February
known READ CALC
working to 28 February 2027, submitted on 27 December 2026: more than two
    months before, so to 31 December 2027
use british
use lorry
fleet
    goods-annual-test.last = 2026-02-12
    goods-annual-test.deadline = 2027-02-28
do 2026-12-27 record L goods-annual-test --on 2026-12-27
at 2026-12-29
due L goods-annual-test deadline=2027-12-31

story goods-preset-february-for-april
source SI 1988/1478 reg. 11(2) item 1, as made; two months from 28 February end
    on 28 April
known READ CALC
working to 30 April 2027, submitted on 28 February 2027: more than two months
    before, so to the end of February 2028, the 29th
use british
use lorry
fleet
    goods-annual-test.last = 2026-04-12
    goods-annual-test.deadline = 2027-04-30
do 2027-02-28 record L goods-annual-test --on 2027-02-28
at 2027-03-01
due L goods-annual-test deadline=2028-02-29

story goods-preset-march-for-april
source SI 1988/1478 reg. 11(2) item 2, as made; two months from 1 March end on
    1 May
known READ CALC
working to 30 April 2027, submitted on 1 March 2027: to 30 April 2028, a Sunday
use british
use lorry
fleet
    goods-annual-test.last = 2026-04-12
    goods-annual-test.deadline = 2027-04-30
do 2027-03-01 record L goods-annual-test --on 2027-03-01
at 2027-05-02
due L goods-annual-test deadline=2028-04-30 plan=2028-04-28

story goods-late-more-than-two-months-left
source SI 1988/1478 reg. 11(2) item 3, as made; two months from 30 January end
    on 30 March
known READ CALC
working to 31 March 2027, submitted on 30 January 2028: the first anniversary
    leaves more than two months, so 31 March 2028
use goods
job
    every = 12 months
vehicle
    j.last = 2026-03-10
do 2028-01-30 record V j --on 2028-01-30
at 2028-02-01
due V j deadline=2028-03-31

story goods-late-two-months-left
source SI 1988/1478 reg. 11(2) item 3, as made; two months from 31 January end
    on 31 March
known READ CALC
working to 31 March 2027, submitted on 31 January 2028: the first anniversary
    leaves two months, so the second, 31 March 2029
use goods
job
    every = 12 months
vehicle
    j.last = 2026-03-10
do 2028-01-31 record V j --on 2028-01-31
at 2028-02-01
due V j deadline=2029-03-31
