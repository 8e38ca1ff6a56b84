define fleet bank-holidays
    [holidays ew]
    day =
      1 jan, substitute
      easter -2
      easter +1
      first monday of may
      last monday of may
      last monday of august
      25 dec, substitute
      26 dec, substitute
    [calendar ew]
    works = mon tue wed thu fri
    holidays = ew
    [depot e]
    calendar = ew

story whit-sunday
source GOV.UK bank holidays, England and Wales
known READ
working 31 May 2026 is a Sunday: the Friday before
use bank-holidays
job
    every = 12 months
vehicle
    depot = e
    j.deadline = 2026-05-31
at 2026-02-02
due V j deadline=2026-05-31 plan=2026-05-29

story christmas-friday
source GOV.UK bank holidays, England and Wales
known READ
working Christmas Day 2026: the Thursday
use bank-holidays
job
    every = 12 months
vehicle
    depot = e
    j.deadline = 2026-12-25
at 2026-02-02
due V j deadline=2026-12-25 plan=2026-12-24

story good-friday
source GOV.UK bank holidays, England and Wales
known READ
working Good Friday, 3 April 2026: the Thursday
use bank-holidays
job
    every = 12 months
vehicle
    depot = e
    j.deadline = 2026-04-03
at 2026-02-02
due V j deadline=2026-04-03 plan=2026-04-02

story easter-monday
source GOV.UK bank holidays, England and Wales
known READ
working Easter Monday, 6 April 2026: back over the weekend and Good Friday
use bank-holidays
job
    every = 12 months
vehicle
    depot = e
    j.deadline = 2026-04-06
at 2026-02-02
due V j deadline=2026-04-06 plan=2026-04-02

story substitutes-2022
source GOV.UK bank holidays, England and Wales
known READ
working 27 December 2022 is the substitute of Christmas Day, 26 December
    Boxing Day: Friday the 23rd
use bank-holidays
job
    every = 12 months
vehicle
    depot = e
    j.deadline = 2022-12-27
at 2021-01-04
due V j deadline=2022-12-27 plan=2022-12-23

story substitutes-2027
source GOV.UK bank holidays, England and Wales
known READ
working 27 and 28 December 2027 are both substitutes: Friday the 24th
use bank-holidays
job
    every = 12 months
vehicle
    depot = e
    j.deadline = 2027-12-28
at 2026-02-02
due V j deadline=2027-12-28 plan=2027-12-24

story new-year-2028
source GOV.UK bank holidays, England and Wales
known READ
working 3 January 2028 is the substitute of New Year's Day: Friday 31
    December
use bank-holidays
job
    every = 12 months
vehicle
    depot = e
    j.deadline = 2028-01-03
at 2026-02-02
due V j deadline=2028-01-03 plan=2027-12-31

story substitutes-2021
source GOV.UK bank holidays, England and Wales
known READ
working 27 and 28 December 2021 are both substitutes: Friday the 24th
use bank-holidays
job
    every = 12 months
vehicle
    depot = e
    j.deadline = 2021-12-28
at 2021-01-04
due V j deadline=2021-12-28 plan=2021-12-24

story following-christmas
source FpML BusinessDayConventionEnum, FOLLOWING; GOV.UK bank holidays
known READ
working Friday 25 December 2026: Monday the 28th is a substitute, so Tuesday
    the 29th
use bank-holidays
job
    every = 12 months
    roll = following
vehicle
    depot = e
    j.deadline = 2026-12-25
at 2026-02-02
due V j deadline=2026-12-29 plan=2026-12-29

story nearest-tuesday
source FpML BusinessDayConventionEnum, NEAREST: not a Sunday or Monday, so
    preceding; GOV.UK bank holidays
known READ
working Tuesday 27 December 2022: back to Friday the 23rd
use bank-holidays
job
    every = 12 months
    roll = nearest
vehicle
    depot = e
    j.deadline = 2022-12-27
at 2022-02-02
due V j deadline=2022-12-23 plan=2022-12-23
