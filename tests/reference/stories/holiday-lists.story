# Plan days by published holiday lists.  The days of the United Kingdom are
# rows of uk-bank-holidays-2015-2028.csv, from GOV.UK.

define site scotland
    presets = PRESETS/holidays-scotland.conf

define site england
    presets = PRESETS/holidays-england-wales.conf

define site ulster
    presets = PRESETS/holidays-northern-ireland.conf

define site europe
    presets = PRESETS/holidays-eu.conf

define fleet shop
    [calendar shop]
    works = mon tue wed thu fri
    holidays = NATION
    [depot h]
    calendar = shop
    [job test]
    title = Test
    class = law
    every = 12 months
    lead = 1 day
    [job service]
    title = Service
    class = own
    every = 12 months
    roll = following
    [vehicle H]
    depot = h
    registered = 2009-01-01
    jobs = test service

story scotland-4-january-2027
source GOV.UK bank holidays, Scotland: 1 and 4 January 2027
known READ
working Monday the 4th stands in for Saturday 2 January; back over the weekend
    and New Year's Day to Thursday 31 December 2026; on to Tuesday the 5th
use scotland
use shop
fleet
    test.deadline = 2027-01-04
    service.deadline = 2027-01-04
edit NATION => scotland
at 2026-06-01
due H test deadline=2027-01-04 plan=2026-12-31
due H service deadline=2027-01-05 plan=2027-01-05

story scotland-2-january-2026
source GOV.UK bank holidays, Scotland: 1 and 2 January 2026
known READ
working Friday the 2nd is a holiday: Wednesday 31 December 2025; on to Monday
    the 5th
use scotland
use shop
fleet
    test.deadline = 2026-01-02
    service.deadline = 2026-01-02
edit NATION => scotland
at 2025-06-02
due H test deadline=2026-01-02 plan=2025-12-31
due H service deadline=2026-01-05 plan=2026-01-05

story scotland-15-june-2026
source GOV.UK bank holidays, Scotland: 15 June 2026, added in February 2026
known READ
working a Monday, once only: Friday the 12th, or Tuesday the 16th
use scotland
use shop
fleet
    test.deadline = 2026-06-15
    service.deadline = 2026-06-15
edit NATION => scotland
at 2026-03-02
due H test deadline=2026-06-15 plan=2026-06-12
due H service deadline=2026-06-16 plan=2026-06-16

story scotland-works-on-easter-monday
source GOV.UK bank holidays, Scotland: 3 April 2026, and not the 6th
known READ
working Easter Monday is a working day; Good Friday goes to the Thursday
use scotland
use shop
fleet
    test.deadline = 2026-04-06
    service.deadline = 2026-04-03
edit NATION => scotland
at 2026-01-05
due H test deadline=2026-04-06 plan=2026-04-06
due H service deadline=2026-04-06 plan=2026-04-06

story scotland-new-year-2028
source GOV.UK bank holidays, Scotland: 3 and 4 January 2028
known READ
working both are substitutes, for Saturday the 1st and Sunday the 2nd: Friday
    31 December 2027, or Wednesday the 5th
use scotland
use shop
fleet
    test.deadline = 2028-01-04
    service.deadline = 2028-01-01
edit NATION => scotland
at 2027-06-01
due H test deadline=2028-01-04 plan=2027-12-31
due H service deadline=2028-01-05 plan=2028-01-05

story scotland-summer-is-first-monday
source GOV.UK bank holidays, Scotland: 3 August 2026, and not the 31st
known READ
working Saturday 1 August on to Tuesday the 4th; Monday the 31st is a working
    day
use scotland
use shop
fleet
    test.deadline = 2026-08-31
    service.deadline = 2026-08-01
edit NATION => scotland
at 2026-05-05
due H test deadline=2026-08-31 plan=2026-08-31
due H service deadline=2026-08-04 plan=2026-08-04

story ulster-13-july-2026
source GOV.UK bank holidays, Northern Ireland: 13 July 2026, a substitute
known READ
working the 12th is a Sunday: Friday the 10th, or Tuesday the 14th
use ulster
use shop
fleet
    test.deadline = 2026-07-13
    service.deadline = 2026-07-12
edit NATION => northern-ireland
at 2026-05-05
due H test deadline=2026-07-13 plan=2026-07-10
due H service deadline=2026-07-14 plan=2026-07-14

story ulster-17-march-2026
source GOV.UK bank holidays, Northern Ireland: 17 March 2026
known READ
working a Tuesday: the Monday, or the Wednesday
use ulster
use shop
fleet
    test.deadline = 2026-03-17
    service.deadline = 2026-03-17
edit NATION => northern-ireland
at 2026-01-05
due H test deadline=2026-03-17 plan=2026-03-16
due H service deadline=2026-03-18 plan=2026-03-18

story ulster-easter-2028
source GOV.UK bank holidays, Northern Ireland: 14 and 17 April 2028
known READ
working Easter Monday, back over Good Friday to Thursday the 13th; Good Friday
    on to Tuesday the 18th
use ulster
use shop
fleet
    test.deadline = 2028-04-17
    service.deadline = 2028-04-14
edit NATION => northern-ireland
at 2028-01-06
due H test deadline=2028-04-17 plan=2028-04-13
due H service deadline=2028-04-18 plan=2028-04-18

story england-jubilee-2022
source GOV.UK bank holidays, England and Wales: 2 and 3 June 2022, and not
    30 May
known READ
working Friday the 3rd back to Wednesday 1 June; Monday 30 May is a working day
use england
use shop
fleet
    test.deadline = 2022-06-03
    service.deadline = 2022-05-30
edit NATION => england-wales
at 2022-02-01
due H test deadline=2022-06-03 plan=2022-06-01
due H service deadline=2022-05-30 plan=2022-05-30

story england-funeral-2022
source GOV.UK bank holidays, England and Wales: 19 September 2022, added ten
    days before
known READ
working a Monday: Friday the 16th, or Tuesday the 20th
use england
use shop
fleet
    test.deadline = 2022-09-19
    service.deadline = 2022-09-19
edit NATION => england-wales
at 2022-09-12
due H test deadline=2022-09-19 plan=2022-09-16
due H service deadline=2022-09-20 plan=2022-09-20

story england-may-2020
source GOV.UK bank holidays, England and Wales: 8 May 2020, and not 4 May
known READ
working Friday the 8th: the Thursday; Monday the 4th is a working day
use england
use shop
fleet
    test.deadline = 2020-05-08
    service.deadline = 2020-05-04
edit NATION => england-wales
at 2020-02-03
due H test deadline=2020-05-08 plan=2020-05-07
due H service deadline=2020-05-04 plan=2020-05-04

story england-new-year-2023
source GOV.UK bank holidays, England and Wales: 26 and 27 December 2022,
    2 January 2023
known READ
working Monday 2 January: Friday 30 December; Sunday 25 December on to
    Wednesday the 28th
use england
use shop
fleet
    test.deadline = 2023-01-02
    service.deadline = 2022-12-25
edit NATION => england-wales
at 2022-10-03
due H test deadline=2023-01-02 plan=2022-12-30
due H service deadline=2022-12-28 plan=2022-12-28

story england-beyond-the-list
source GOV.UK publishes bank holidays to 2028, as of August 2026
known READ
working the deadline of 2 April 2029, an Easter Monday by the published tables
    of Easter (1 April 2029), lies beyond: said to be not known
use england
use shop
fleet
    test.deadline = 2029-04-02
    service.deadline = 2028-12-20
edit NATION => england-wales
at 2028-06-01
due H test deadline=2029-04-02 plan=2029-03-29 warns=holidays-unknown
due H service deadline=2028-12-20 quiet=holidays-unknown

story europe-ascension-and-whit-monday
source the dates of Easter: 5 April 2026 (GOV.UK: Easter Monday on 6 April)
known READ CALC
working 39 days on is Thursday 14 May, 50 Monday 25 May: the Wednesday, and on
    to Tuesday the 26th
use europe
use shop
fleet
    test.deadline = 2026-05-14
    service.deadline = 2026-05-25
edit NATION => eu
at 2026-02-02
due H test deadline=2026-05-14 plan=2026-05-13
due H service deadline=2026-05-26 plan=2026-05-26

story easter-2038
source published tables of Easter: 25 April 2038, the latest there is
known CALC
working Easter Monday is 26 April: back over Good Friday to Thursday the 22nd;
    Good Friday on to Tuesday the 27th
use europe
use shop
fleet
    test.deadline = 2038-04-26
    service.deadline = 2038-04-23
edit NATION => eu
at 2038-01-04
due H test deadline=2038-04-26 plan=2038-04-22
due H service deadline=2038-04-27 plan=2038-04-27

story easter-2035
source published tables of Easter: 25 March 2035
known CALC
working Good Friday is 23 March: the Thursday, or Tuesday the 27th
use europe
use shop
fleet
    test.deadline = 2035-03-23
    service.deadline = 2035-03-23
edit NATION => eu
at 2035-01-04
due H test deadline=2035-03-23 plan=2035-03-22
due H service deadline=2035-03-27 plan=2035-03-27

story easter-2190
source published tables of Easter: 25 April 2190
known CALC
working Easter Monday is 26 April 2190: back to Thursday the 22nd
use europe
use shop
fleet
    test.deadline = 2190-04-26
    service.deadline = 2190-04-26
edit NATION => eu
at 2190-01-04
due H test deadline=2190-04-26 plan=2190-04-22
due H service deadline=2190-04-27 plan=2190-04-27

define fleet new-zealand
    [holidays nz]
    day =
      1 jan, substitute, New Year's Day
      2 jan, substitute, Day after New Year's Day
      6 feb, substitute, Waitangi Day
      easter -2, Good Friday
      easter +1, Easter Monday
      25 apr, substitute, Anzac Day
      first monday of june, Queen's Birthday
      fourth monday of october, Labour Day
      25 dec, substitute, Christmas Day
      26 dec, substitute, Boxing Day

story new-zealand-new-year-2017
source New Zealand public holidays of 2017: 1 January observed on Tuesday the
    3rd, the day after on Monday the 2nd: blog.xtravel.club/link/
    nz-public-holidays
known 2ND
working Tuesday 3 January: back to Friday 30 December 2016; Sunday the 1st on
    to Wednesday the 4th
use new-zealand
use shop
fleet
    test.deadline = 2017-01-03
    service.deadline = 2017-01-01
edit NATION => nz
at 2016-10-03
due H test deadline=2017-01-03 plan=2016-12-30
due H service deadline=2017-01-04 plan=2017-01-04

story new-zealand-anzac-2015
source New Zealand public holidays of 2015: Saturday 25 April observed on
    Monday the 27th: publicholiday.co.nz/nz-public-holidays-2015.html
known 2ND
working Monday the 27th: Friday the 24th; Saturday the 25th on to Tuesday the
    28th
use new-zealand
use shop
fleet
    test.deadline = 2015-04-27
    service.deadline = 2015-04-25
edit NATION => nz
at 2015-02-02
due H test deadline=2015-04-27 plan=2015-04-24
due H service deadline=2015-04-28 plan=2015-04-28

story new-zealand-boxing-day-2015
source New Zealand public holidays of 2015: Saturday 26 December observed on
    Monday the 28th: publicholiday.co.nz/nz-public-holidays-2015.html
known 2ND
working Monday the 28th: back over Christmas Day to Thursday the 24th; on to
    Tuesday the 29th
use new-zealand
use shop
fleet
    test.deadline = 2015-12-28
    service.deadline = 2015-12-28
edit NATION => nz
at 2015-10-05
due H test deadline=2015-12-28 plan=2015-12-24
due H service deadline=2015-12-29 plan=2015-12-29

story new-zealand-labour-day-2015
source New Zealand public holidays of 2015: Labour Day on Monday 26 October,
    Queen's Birthday on Monday 1 June: publicholiday.co.nz/
    nz-public-holidays-2015.html
known 2ND
working Labour Day: Friday the 23rd; Queen's Birthday on to Tuesday 2 June
use new-zealand
use shop
fleet
    test.deadline = 2015-10-26
    service.deadline = 2015-06-01
edit NATION => nz
at 2015-05-05
due H test deadline=2015-10-26 plan=2015-10-23
due H service deadline=2015-06-02 plan=2015-06-02

story two-substitutes-over-new-year
source ostler-fleet(5), substitute: the next weekday that is not a holiday
    itself; GOV.UK has two days for two holidays, as on 3 and 4 January 2028
known READ CALC
working 31 December 2022 is a Saturday, 1 January 2023 a Sunday: Monday the 2nd
    and Tuesday the 3rd; so Friday the 30th, or Wednesday the 4th
use shop
fleet
    test.deadline = 2023-01-03
    service.deadline = 2023-01-02
    [holidays new]
    day =
      31 dec, substitute, Old Year's Day
      1 jan, substitute, New Year's Day
edit NATION => new
at 2022-10-03
due H test deadline=2023-01-03 plan=2022-12-30
due H service deadline=2023-01-04 plan=2023-01-04
