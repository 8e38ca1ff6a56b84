# The ready-made jobs, by the sources that they name.

define site british
    presets = PRESETS/great-britain-jobs.conf

define site european
    presets = PRESETS/eu-jobs.conf

story preset-germany
source StVZO Annex VIII 2.1.3 and 2.2 to 2.4, more than eight passenger seats:
    after three, six and nine months, each to its month's end
known READ CALC
working main inspection on 20 May 2026: 31 August and 30 November 2026,
    28 February and, the next main one, 31 May 2027
use european
fleet
    [vehicle K]
    depot = d
    registered = 2023-05-10
    jobs = germany-hu germany-sp-3 germany-sp-6 germany-sp-9
do 2026-05-20 record K germany-hu --on 2026-05-20
at 2026-05-21
due K germany-sp-3 deadline=2026-08-31 plan=2026-08-31
due K germany-sp-6 deadline=2026-11-30 plan=2026-11-30
due K germany-sp-9 deadline=2027-02-28 plan=2027-02-26
due K germany-hu deadline=2027-05-31 plan=2027-05-31

story preset-france
source Code de la route R323-23, public transport, every six months:
    legifrance.gouv.fr/codes/section_lc/LEGITEXT000006074228
known READ CALC
working tested on 31 August 2026: February 2027 has no 31st, so the 28th, a
    Sunday
use european
fleet
    [vehicle K]
    depot = d
    registered = 2023-05-10
    jobs = france-passenger-test
do 2026-08-31 record K france-passenger-test --on 2026-08-31
at 2026-09-01
due K france-passenger-test deadline=2027-02-28 plan=2027-02-26

story preset-mot-of-a-van
source gov.uk/getting-an-mot; GOV.UK on when to get an MOT, runs out on 15 May,
    the earliest day 16 April
known READ 2ND
working registered 15 May 2024: first by 15 May 2027; tested on 16 April 2027,
    it runs to 15 May 2028
use british
fleet
    [vehicle K]
    depot = d
    registered = 2024-05-15
    jobs = light-vehicle-test
at 2027-01-04
due K light-vehicle-test deadline=2027-05-15 plan=2027-05-14
do 2027-04-16 record K light-vehicle-test --on 2027-04-16
at 2027-04-17
due K light-vehicle-test deadline=2028-05-15

story preset-tyres-of-two-ages
source the ban on tyres of ten years and older (uknip.co.uk); date codes WWYY
known 2ND CALC
working codes 0116 and 2317, from Monday 4 January 2016 and 5 June 2017; the
    older replaced by one of 5320: the other's ten years end on 4 June 2027 all
    the same
use british
fleet
    [vehicle K]
    depot = d
    registered = 2016-03-01
    jobs = tyre-age-nsf tyre-age-osf
    tyre-age-nsf.last = 2016-01-04
    tyre-age-osf.last = 2017-06-05
at 2025-12-01
due K tyre-age-nsf deadline=2026-01-03 plan=2026-01-02
due K tyre-age-osf deadline=2027-06-04
do 2025-12-15 record K tyre-age-nsf --on 2020-12-28
at 2025-12-16
due K tyre-age-nsf deadline=2030-12-27
due K tyre-age-osf deadline=2027-06-04 plan=2027-06-04

story preset-two-wheels
source design: each trigger is an obligation of its own
known OWN
working wheels off on 27 November and 1 December 2026: the first check was due
    on the 28th and was never made
use british
fleet
    [vehicle K]
    depot = d
    registered = 2016-03-01
    distance-unit = miles
    jobs = wheel-removal wheel-retorque
do 2026-11-27 record K wheel-removal --on 2026-11-27
do 2026-12-01 record K wheel-removal --on 2026-12-01
at 2026-12-01
due K wheel-retorque deadline=2026-11-28 state=overdue

story preset-tachograph
source Regulation (EU) 2016/799 Annex IC para 409, within 24 months of the last
    inspection: corte.be, periodic inspections
known 2ND CALC
working inspected on Saturday 31 August 2024: 31 August 2026, a Monday
use british
fleet
    [vehicle K]
    depot = d
    registered = 2016-03-01
    jobs = tachograph-inspection
do 2024-09-01 record K tachograph-inspection --on 2024-08-31
at 2026-06-01
due K tachograph-inspection deadline=2026-08-31 plan=2026-08-31

story preset-twelve-years
source DVSA: at most six weeks from twelve years of age:
    route-one.net/regulations/dvsa_updates_roadworthiness_guide
known 2ND CALC
working eight weeks of a vehicle of 2 December 2014: from Wednesday 4 November
    2026 (W45) to the end of W53, which passes the birthday; six end with W51,
    on 20 December
use british
fleet
    [vehicle K]
    depot = d
    registered = 2014-12-02
    jobs = safety-inspection
    safety-inspection.every = 8 weeks
do 2026-11-04 record K safety-inspection --on 2026-11-04
at 2026-11-05
due K safety-inspection deadline=2026-12-20 plan=2026-12-18
