# The life of a defect, in dated stories: each is one cell of the table of
# states in the design, section 8, or one of its rules.  The answers were worked
# out from that page by hand.  `second-defects` tells them to the program and
# to the second fold.
#
# A line of the protocol is followed by what is answered: ` = ok` or
# ` = refused` at an event, and below an `ask` the lines that begin with `=`.
#
# 2 March 2026 is a Monday.  In `several`, ann and bea hold every right, eve only
# assesses, fin only repairs, and cai and dot drive.  In `one`, ann is alone.

people several
    rights ann assess repair release
    rights bea assess repair release
    rights cai
    rights dot
    rights eve assess
    rights fin repair
    vehicle K7
    vehicle M2
    inspection K7 2026-04-10
    defer-at-most 28

people one
    rights ann assess repair release
    rights cai
    vehicle K7
    inspection K7 2026-04-10
    defer-at-most 28

story dangerous-stops-at-once several
source 8, states: an item graded `stops` stops at once, nobody need agree
working a driver's report alone is enough, and stops no other vehicle
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    ask 2026-03-02 07:41
    = defect 1 K7 T1 reported stops
    = vehicle K7 stopped
    = vehicle M2 drive

story major-stops-until-assessed several
source rule 12: not assessed yet, a major stops too, a minor is an open defect
working the major of K7 stops it, the minor of M2 does not
    event 1 reported K7 L1 major 2026-03-02 07:40 cai live = ok
    event 2 reported M2 L1 minor 2026-03-02 07:45 dot live = ok
    ask 2026-03-02 08:00
    = defect 1 K7 L1 reported major
    = defect 2 M2 L1 reported minor
    = vehicle K7 stopped
    = vehicle M2 drive

story the-grade-only-rises several
source table, reported, seen again: stays, the grade only rises
working minor, then major by another driver, then minor again: one number, and
    major
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 reported K7 L1 major 2026-03-02 12:00 dot live = ok
    event 3 reported K7 L1 minor 2026-03-02 16:00 cai live = ok
    ask 2026-03-02 17:00
    = defect 1 K7 L1 reported major
    = vehicle K7 stopped
    = vehicle M2 drive

story two-reporters-two-items several
source Words: one thing found wrong, numbered 1, 2, 3 in a sequence of its own
working the same item of two vehicles and two items of one are three defects;
    the second report of K7's T1 is not a fourth
    event 1 reported K7 T1 minor 2026-03-02 07:40 cai live = ok
    event 2 reported M2 T1 minor 2026-03-02 07:40 dot live = ok
    event 3 reported K7 L1 minor 2026-03-02 07:41 cai live = ok
    event 4 reported K7 T1 minor 2026-03-02 07:41 dot live = ok
    ask 2026-03-02 08:00
    = defect 1 K7 T1 reported minor
    = defect 2 M2 T1 reported minor
    = defect 3 K7 L1 reported minor
    = vehicle K7 drive
    = vehicle M2 drive

story decided-and-seen-again several
source table, decided, seen again: stays
working a major deferred to Friday by one who may release, seen again on
    Tuesday as what it was
    event 1 reported K7 L1 major 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 until:2026-03-06 2026-03-02 09:00 ann = ok
    event 3 reported K7 L1 major 2026-03-03 07:40 dot live = ok
    ask 2026-03-03 08:00
    = defect 1 K7 L1 until major
    = vehicle K7 drive
    = vehicle M2 drive

story decided-and-seen-worse several
source table, decided, seen again: worse: reported
working watched as minor, then major: undecided again, and rule 12 stops it
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 watch 2026-03-02 09:00 eve = ok
    event 3 reported K7 L1 major 2026-03-03 07:40 cai live = ok
    ask 2026-03-03 08:00
    = defect 1 K7 L1 reported major
    = vehicle K7 stopped
    = vehicle M2 drive

story a-decision-replaces-a-decision several
source table, decided, assess: decided
working stop, then until, then watch, each by one who may
    event 1 reported K7 L1 major 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 stop 2026-03-02 09:00 eve = ok
    ask 2026-03-02 09:30
    = defect 1 K7 L1 stop major
    = vehicle K7 stopped
    = vehicle M2 drive
    event 3 assessed 1 until:2026-03-06 2026-03-02 10:00 bea = ok
    event 4 assessed 1 watch 2026-03-02 11:00 bea = ok
    ask 2026-03-02 12:00
    = defect 1 K7 L1 watch major
    = vehicle K7 drive
    = vehicle M2 drive

story repaired-and-seen-later several
source table, repaired, seen again: if it happened later: reported
working mended at 10:00, seen at 12:00
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 repaired 1 2026-03-02 10:00 fin = ok
    event 3 reported K7 T1 minor 2026-03-02 12:00 dot live = ok
    ask 2026-03-02 13:00
    = defect 1 K7 T1 reported stops
    = vehicle K7 stopped
    = vehicle M2 drive

story repaired-and-seen-before several
source table, repaired, seen again: only if it happened later
working the paper of 09:00, typed in after the repair of 10:00, says what was
    mended since; it may be released
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 repaired 1 2026-03-02 10:00 fin = ok
    event 3 reported K7 T1 stops 2026-03-02 09:00 dot paper = ok
    ask 2026-03-02 13:00
    = defect 1 K7 T1 repaired stops
    = vehicle K7 stopped
    = vehicle M2 drive
    event 4 released 1 2026-03-02 14:00 ann = ok
    ask 2026-03-02 15:00
    = defect 1 K7 T1 closed stops
    = vehicle K7 drive
    = vehicle M2 drive

story repaired-is-not-released several
source states: released: the vehicle may be used again
working a stopping defect stops from report to release, not to repair
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 repaired 1 2026-03-02 10:00 fin = ok
    ask 2026-03-03 07:00
    = defect 1 K7 T1 repaired stops
    = vehicle K7 stopped
    = vehicle M2 drive

story a-minor-that-is-mended several
source 8: not to be driven is said by an open stopping defect; rule 12
working a minor stops nothing, mended or not.  Where somebody stopped it, it
    stays stopped until the release
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 repaired 1 2026-03-02 10:00 fin = ok
    event 3 reported M2 L1 minor 2026-03-02 07:40 dot live = ok
    event 4 assessed 2 stop 2026-03-02 09:00 eve = ok
    event 5 repaired 2 2026-03-02 10:00 fin = ok
    ask 2026-03-02 11:00
    = defect 1 K7 L1 repaired minor
    = defect 2 M2 L1 repaired minor
    = vehicle K7 drive
    = vehicle M2 stopped

story a-sighting-lifts-nothing several
source rule 1: what lifts a stop needs `may = release`
working eve stopped a minor, fin mended it, and cai sees that it is as it was:
    reported, and a minor, which alone would not stop it.  A driver's report
    does not undo eve's stop; bea may
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 stop 2026-03-02 09:00 eve = ok
    event 3 repaired 1 2026-03-02 10:00 fin = ok
    event 4 reported K7 L1 minor 2026-03-02 12:00 cai live = ok
    ask 2026-03-02 13:00
    = defect 1 K7 L1 reported minor
    = vehicle K7 stopped
    = vehicle M2 drive
    event 5 assessed 1 watch 2026-03-02 14:00 eve = refused
    event 6 assessed 1 watch 2026-03-02 14:00 bea = ok
    ask 2026-03-02 15:00
    = defect 1 K7 L1 watch minor
    = vehicle K7 drive
    = vehicle M2 drive

story closed-and-seen-again several
source table, closed, seen again: a new number, `again`
working the second is a defect of its own, and stops by its own grade
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 repaired 1 2026-03-02 10:00 fin = ok
    event 3 released 1 2026-03-02 11:00 ann = ok
    event 4 reported K7 T1 major 2026-03-05 07:40 cai live = ok
    ask 2026-03-05 08:00
    = defect 1 K7 T1 closed stops
    = defect 2 K7 T1 reported major again
    = vehicle K7 stopped
    = vehicle M2 drive

story refused-by-the-table several
source table: reported, release; repaired, assess; closed, assess, repair,
    release and `nothing`: refused
working whoever asks holds every right
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 released 1 2026-03-02 09:00 ann = refused
    event 3 assessed 1 watch 2026-03-02 09:10 ann = ok
    event 4 released 1 2026-03-02 09:20 ann = refused
    event 5 repaired 1 2026-03-02 10:00 fin = ok
    event 6 assessed 1 watch 2026-03-02 10:10 ann = refused
    event 7 assessed 1 until:2026-03-03 2026-03-02 10:20 ann = refused
    event 8 assessed 1 stop 2026-03-02 10:30 ann = refused
    event 9 released 1 2026-03-02 11:00 ann = ok
    event 10 assessed 1 stop 2026-03-02 12:00 ann = refused
    event 11 repaired 1 2026-03-02 12:00 fin = refused
    event 12 released 1 2026-03-02 12:00 ann = refused
    event 13 assessed 1 nothing 2026-03-02 12:00 ann = refused
    event 14 repaired 2 2026-03-02 12:00 fin = refused
    ask 2026-03-02 13:00
    = defect 1 K7 T1 closed stops
    = vehicle K7 drive
    = vehicle M2 drive

story repaired-twice several
source table, repaired, repair: repaired
working the first repair did not hold, the fitter goes over it once more
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 repaired 1 2026-03-02 10:00 fin = ok
    event 3 repaired 1 2026-03-02 14:00 fin = ok
    event 4 reported K7 T1 stops 2026-03-02 12:00 dot paper = ok
    ask 2026-03-02 15:00
    = defect 1 K7 T1 repaired stops
    = vehicle K7 stopped
    = vehicle M2 drive

story nothing-closes several
source table, `nothing`: closed, from reported, decided and repaired; rule 1
working of a minor by whoever assesses, for nothing is lifted; of what stops
    only by one who may release
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 reported K7 T1 major 2026-03-02 07:41 cai live = ok
    event 3 reported K7 W1 stops 2026-03-02 07:42 cai live = ok
    event 4 assessed 1 nothing 2026-03-02 09:00 eve = ok
    event 5 assessed 2 stop 2026-03-02 09:00 eve = ok
    event 6 assessed 2 nothing 2026-03-02 09:10 eve = refused
    event 7 assessed 2 nothing 2026-03-02 09:20 bea = ok
    event 8 repaired 3 2026-03-02 10:00 fin = ok
    event 9 assessed 3 nothing 2026-03-02 10:10 eve = refused
    event 10 assessed 3 nothing 2026-03-02 10:20 bea = ok
    ask 2026-03-02 11:00
    = defect 1 K7 L1 closed minor
    = defect 2 K7 T1 closed major
    = defect 3 K7 W1 closed stops
    = vehicle K7 drive
    = vehicle M2 drive

story voids-lead-back-step-by-step several
source table, void of the last act: before, before, before, void
working the release, the repair, the decision and the report are each taken
    back; only the last lifts a stop, for a major undecided stops, and ann may
    event 1 reported K7 T1 major 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 stop 2026-03-02 09:00 ann = ok
    event 3 repaired 1 2026-03-02 10:00 fin = ok
    event 4 released 1 2026-03-02 11:00 ann = ok
    event 5 voided 4 cai = ok
    ask 2026-03-02 12:00
    = defect 1 K7 T1 repaired major
    = vehicle K7 stopped
    = vehicle M2 drive
    event 6 voided 3 fin = ok
    ask 2026-03-02 12:01
    = defect 1 K7 T1 stop major
    = vehicle K7 stopped
    = vehicle M2 drive
    event 7 voided 2 eve = ok
    ask 2026-03-02 12:02
    = defect 1 K7 T1 reported major
    = vehicle K7 stopped
    = vehicle M2 drive
    event 8 voided 1 eve = refused
    event 9 voided 1 ann = ok
    ask 2026-03-02 12:03
    = defect 1 K7 T1 void major
    = vehicle K7 drive
    = vehicle M2 drive

story what-is-void-stays-void several
source Ledger: a correction is an event that voids another
working neither a voided act nor one that never was can be voided, and no act
    is possible on a defect that is void; the next report is a number of its
    own, and not `again`, for nothing was ever closed
    event 1 reported K7 T1 minor 2026-03-02 07:40 cai live = ok
    event 2 voided 1 ann = ok
    event 3 voided 1 ann = refused
    event 4 voided 99 ann = refused
    event 5 assessed 1 watch 2026-03-02 09:00 ann = refused
    event 6 repaired 1 2026-03-02 09:00 fin = refused
    event 7 reported K7 T1 minor 2026-03-02 10:00 cai live = ok
    ask 2026-03-02 11:00
    = defect 1 K7 T1 void minor
    = defect 2 K7 T1 reported minor
    = vehicle K7 drive
    = vehicle M2 drive

story a-void-of-a-sighting several
source table, void of the last act: before; a fold over standing events
working the second report made it major and stops; without it the first stands,
    a watched minor.  It lifts a stop, so eve may not
    event 1 reported K7 T1 minor 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 watch 2026-03-02 09:00 eve = ok
    event 3 reported K7 T1 major 2026-03-02 12:00 dot live = ok
    event 4 voided 3 eve = refused
    event 5 voided 3 ann = ok
    ask 2026-03-02 13:00
    = defect 1 K7 T1 watch minor
    = vehicle K7 drive
    = vehicle M2 drive

story only-release-lifts several
source rule 1: what lifts a stop needs `may = release`, what imposes one needs
    nothing
working eve may assess: watch of a minor lifts nothing; until of a major does;
    a stop by a driver needs no right
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 reported K7 T1 major 2026-03-02 07:41 cai live = ok
    event 3 assessed 1 watch 2026-03-02 09:00 eve = ok
    event 4 assessed 2 until:2026-03-03 2026-03-02 09:00 eve = refused
    event 5 assessed 2 watch 2026-03-02 09:00 eve = refused
    event 6 assessed 1 watch 2026-03-02 09:00 cai = refused
    event 7 assessed 1 stop 2026-03-02 09:10 cai = ok
    event 8 assessed 1 watch 2026-03-02 09:20 eve = refused
    event 9 repaired 1 2026-03-02 10:00 cai = refused
    event 10 repaired 1 2026-03-02 10:00 eve = refused
    event 11 repaired 1 2026-03-02 10:00 fin = ok
    event 12 released 1 2026-03-02 11:00 fin = refused
    event 13 released 1 2026-03-02 11:00 eve = refused
    ask 2026-03-02 12:00
    = defect 1 K7 L1 repaired minor
    = defect 2 K7 T1 reported major
    = vehicle K7 stopped
    = vehicle M2 drive

story a-void-that-lifts several
source rule 1: a void that lifts a stop needs `may = release`
working eve watched it and stopped it; to take her own stop back lifts it
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 watch 2026-03-02 09:00 eve = ok
    event 3 assessed 1 stop 2026-03-02 09:10 eve = ok
    event 4 voided 3 eve = refused
    ask 2026-03-02 10:00
    = defect 1 K7 L1 stop minor
    = vehicle K7 stopped
    = vehicle M2 drive
    event 5 voided 3 bea = ok
    ask 2026-03-02 10:30
    = defect 1 K7 L1 watch minor
    = vehicle K7 drive
    = vehicle M2 drive

story a-key-only-reports several
source rule 1: a vehicle's key may only report; `by` is a known person for all
    else
working the key's check and report count; its decision, even a stop, its
    repair, release and void do not, nor those of a stranger
    event 1 checked K7 2026-03-02 07:30 key defects live = ok
    event 2 reported K7 L1 minor 2026-03-02 07:30 key live check 1 = ok
    event 3 assessed 1 stop 2026-03-02 08:00 key = refused
    event 4 repaired 1 2026-03-02 08:00 key = refused
    event 5 voided 2 key = refused
    event 6 assessed 1 stop 2026-03-02 08:00 zoe = refused
    event 7 repaired 1 2026-03-02 08:00 fin = ok
    event 8 released 1 2026-03-02 08:10 key = refused
    event 9 voided 7 zoe = refused
    event 10 released 1 2026-03-02 08:10 ann = ok
    ask 2026-03-02 09:00
    = defect 1 K7 L1 closed minor
    = vehicle K7 drive
    = vehicle M2 drive

story who-reports-does-not-lift several
source rule 2: reporter and lifter differ wherever two people hold that right
working ann and bea may both release, so `alone` does not help ann
    event 1 reported K7 T1 major 2026-03-02 07:40 ann live = ok
    event 2 assessed 1 until:2026-03-03 2026-03-02 09:00 ann = refused
    event 3 assessed 1 until:2026-03-03 2026-03-02 09:00 ann alone = refused
    event 4 assessed 1 until:2026-03-03 2026-03-02 09:00 bea = ok
    ask 2026-03-02 10:00
    = defect 1 K7 T1 until major
    = vehicle K7 drive
    = vehicle M2 drive

story who-repairs-does-not-release several
source rule 2: repairer and releaser differ wherever two people hold that right
working cai reported it; ann mended it and may not release it, alone or not
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 repaired 1 2026-03-02 10:00 ann = ok
    event 3 released 1 2026-03-02 11:00 ann = refused
    event 4 released 1 2026-03-02 11:00 ann alone = refused
    ask 2026-03-02 11:30
    = defect 1 K7 T1 repaired stops
    = vehicle K7 stopped
    = vehicle M2 drive
    event 5 released 1 2026-03-02 12:00 bea = ok
    ask 2026-03-02 12:30
    = defect 1 K7 T1 closed stops
    = vehicle K7 drive
    = vehicle M2 drive

story one-person-alone one
source rule 2: else the event says `alone`, with a reason
working only ann may release: what she reported and mended she lifts alone,
    and says so each time; what cai reported she decides without it
    event 1 reported K7 T1 major 2026-03-02 07:40 ann live = ok
    event 2 assessed 1 until:2026-03-06 2026-03-02 09:00 ann = refused
    event 3 assessed 1 until:2026-03-06 2026-03-02 09:00 ann alone = ok
    event 4 repaired 1 2026-03-03 10:00 ann = ok
    event 5 released 1 2026-03-03 11:00 ann = refused
    event 6 released 1 2026-03-03 11:00 ann alone = ok
    event 7 reported K7 L1 major 2026-03-04 07:40 cai live = ok
    event 8 assessed 2 watch 2026-03-04 09:00 ann = ok
    ask 2026-03-04 10:00
    = defect 1 K7 T1 closed major
    = defect 2 K7 L1 watch major
    = vehicle K7 drive

story times-not-entry several
source rule 3: repair may come before assessment, not before the time of the
    report: times are compared, not the order of entry
working a repair of 07:39 is refused, one of 07:40 is not before the report; a
    repair of 11:00 may be entered after a decision of 12:00
    event 1 reported K7 T1 major 2026-03-02 07:40 cai live = ok
    event 2 repaired 1 2026-03-02 07:39 fin = refused
    event 3 repaired 1 2026-03-01 23:59 fin = refused
    event 4 reported K7 L1 major 2026-03-02 07:40 cai live = ok
    event 5 assessed 2 until:2026-03-06 2026-03-02 12:00 ann = ok
    event 6 repaired 2 2026-03-02 11:00 fin = ok
    event 7 repaired 1 2026-03-02 07:40 fin = ok
    ask 2026-03-02 13:00
    = defect 1 K7 T1 repaired major
    = defect 2 K7 L1 repaired major
    = vehicle K7 stopped
    = vehicle M2 drive

story a-nil-is-never-a-release several
source rule 4: a nil is never a release
working a nil on a vehicle with an open and a repaired defect leaves both
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 reported K7 L1 minor 2026-03-02 07:41 cai live = ok
    event 3 repaired 1 2026-03-02 10:00 fin = ok
    event 4 checked K7 2026-03-02 13:00 dot nil live = ok
    ask 2026-03-02 14:00
    = defect 1 K7 T1 repaired stops
    = defect 2 K7 L1 reported minor
    = vehicle K7 stopped
    = vehicle M2 drive

story a-watched-defect-is-answered several
source rule 4: a live form with a watched defect unanswered is refused; paper
    is a fact
working K7 has two watched ones; M2 none.  A refused form is no check: there is
    none to be voided
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 reported K7 T1 minor 2026-03-02 07:40 cai live = ok
    event 3 assessed 1 watch 2026-03-02 09:00 eve = ok
    event 4 assessed 2 watch 2026-03-02 09:00 eve = ok
    event 5 checked K7 2026-03-03 07:30 cai nil live = refused
    event 6 checked K7 2026-03-03 07:30 cai nil live answered 1 = refused
    event 7 checked K7 2026-03-03 07:30 cai defects live answered 2 = refused
    event 8 voided 5 ann = refused
    event 9 checked K7 2026-03-03 07:31 cai nil live answered 1 2 = ok
    event 10 checked M2 2026-03-03 07:30 dot nil live = ok
    event 11 checked K7 2026-03-03 17:00 dot nil paper = ok
    ask 2026-03-03 18:00
    = defect 1 K7 L1 watch minor
    = defect 2 K7 T1 watch minor
    = vehicle K7 drive
    = vehicle M2 drive

story late-paper-joins-what-was-open several
source rule 5: paper typed late joins the defect that was open at that time
working open from 2 March 07:40 to its release on the 4th at 11:00, mended at
    10:00; the paper of the 3rd says no more than was known when it was mended
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 reported K7 T1 stops 2026-03-02 17:00 dot paper = ok
    event 3 repaired 1 2026-03-04 10:00 fin = ok
    event 4 released 1 2026-03-04 11:00 ann = ok
    event 5 reported K7 T1 major 2026-03-03 07:40 cai paper = ok
    ask 2026-03-05 08:00
    = defect 1 K7 T1 closed stops
    = vehicle K7 drive
    = vehicle M2 drive

story late-paper-opens-one several
source rule 5: else it opens one that stops now
working nothing was open on Sunday: a second number beside the one of Monday,
    and it stops, though the paper is older than the decision to watch
    event 1 reported K7 T1 minor 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 watch 2026-03-02 09:00 eve = ok
    event 3 reported K7 T1 major 2026-03-01 16:00 dot paper = ok
    ask 2026-03-02 10:00
    = defect 1 K7 T1 watch minor
    = defect 2 K7 T1 reported major
    = vehicle K7 stopped
    = vehicle M2 drive

story late-paper-after-the-release several
source rule 5, and the table: closed, seen again: a new number, `again`
working released on the 2nd at 11:00; the paper of the 3rd, typed in on the
    6th, finds nothing open on the 3rd
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 repaired 1 2026-03-02 10:00 fin = ok
    event 3 released 1 2026-03-02 11:00 ann = ok
    event 4 checked K7 2026-03-06 07:30 dot nil live = ok
    event 5 reported K7 T1 major 2026-03-03 16:00 cai paper = ok
    ask 2026-03-06 10:00
    = defect 1 K7 T1 closed stops
    = defect 2 K7 T1 reported major again
    = vehicle K7 stopped
    = vehicle M2 drive

story until-has-its-limits several
source rule 6: at most the next job marked `inspection = yes` and the site's
    `defer-at-most`; `N km` adds the early day
working K7 is inspected on 10 April; four weeks from Monday 2 March are Monday
    30 March, from Friday 20 March 17 April.  M2 has no inspection
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 until:2026-03-31 2026-03-02 09:00 eve = refused
    event 3 assessed 1 km:500:2026-03-31 2026-03-02 09:00 eve = refused
    event 4 assessed 1 until:2026-03-30 2026-03-02 09:00 eve = ok
    event 5 assessed 1 km:500:2026-03-30 2026-03-02 09:10 eve = ok
    event 6 assessed 1 until:2026-04-11 2026-03-20 09:00 eve = refused
    event 7 assessed 1 km:900:2026-04-11 2026-03-20 09:00 eve = refused
    event 8 assessed 1 until:2026-04-10 2026-03-20 09:00 eve = ok
    event 9 reported M2 L1 minor 2026-03-20 09:00 dot live = ok
    event 10 assessed 2 until:2026-04-18 2026-03-20 09:30 eve = refused
    event 11 assessed 2 until:2026-04-17 2026-03-20 09:30 eve = ok
    ask 2026-04-10 23:59
    = defect 1 K7 L1 until minor
    = defect 2 M2 L1 until minor
    = vehicle K7 drive
    = vehicle M2 drive

story a-deferral-lapses-over-a-weekend several
source rule 6: it lapses at the end of its day and then stops the vehicle
working to Saturday 7 March: good at 23:59, lapsed on Sunday at 00:00, when
    nobody works; a minor, which would not stop by itself.  To lift that stop
    is for one who may release
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 until:2026-03-07 2026-03-02 09:00 eve = ok
    ask 2026-03-07 23:59
    = defect 1 K7 L1 until minor
    = vehicle K7 drive
    = vehicle M2 drive
    ask 2026-03-08 00:00
    = defect 1 K7 L1 until minor lapsed
    = vehicle K7 stopped
    = vehicle M2 drive
    event 3 assessed 1 until:2026-03-14 2026-03-09 09:00 eve = refused
    event 4 assessed 1 until:2026-03-14 2026-03-09 09:10 bea = ok
    ask 2026-03-09 10:00
    = defect 1 K7 L1 until minor
    = vehicle K7 drive
    = vehicle M2 drive

story a-deferral-that-ends-today several
source rule 6: `until` always has a day; it lapses at the end of its day
working made and ended on 2 March
    event 1 reported K7 T1 major 2026-03-02 00:00 cai live = ok
    event 2 assessed 1 until:2026-03-02 2026-03-02 00:00 ann = ok
    ask 2026-03-02 23:59
    = defect 1 K7 T1 until major
    = vehicle K7 drive
    = vehicle M2 drive
    ask 2026-03-03 00:00
    = defect 1 K7 T1 until major lapsed
    = vehicle K7 stopped
    = vehicle M2 drive

story so-many-kilometres-lapse-too several
source rule 6: `N km` adds the early day
working 400 km, on 6 March at the earliest: the 7th is too late, whatever the
    odometer says
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 km:400:2026-03-06 2026-03-02 09:00 eve = ok
    ask 2026-03-06 12:00
    = defect 1 K7 L1 until minor
    = vehicle K7 drive
    = vehicle M2 drive
    ask 2026-03-07 07:00
    = defect 1 K7 L1 until minor lapsed
    = vehicle K7 stopped
    = vehicle M2 drive

story a-defect-of-equipment several
source rule 7: it is the equipment's, and stops whatever carries it; moving it
    off opens "missing" where the sheet asks for it; moving it on needs --sure
working without `sure` X1 stays on K7; with it, it stops M2 and K7 lacks one
    carried X1 K7 F1
    event 1 reported X1 F1 stops 2026-03-02 07:40 cai live = ok
    ask 2026-03-02 08:00
    = defect 1 X1 F1 reported stops
    = vehicle K7 stopped
    = vehicle M2 drive
    event 2 moved X1 M2 2026-03-02 = refused
    event 3 moved X1 M2 2026-03-02 sure = ok
    ask 2026-03-02 09:00
    = defect 1 X1 F1 reported stops
    = defect 2 K7 F1 reported stops
    = vehicle K7 stopped
    = vehicle M2 stopped

story another-arrives-that-day several
source rule 7: unless another arrives that day
working X2 comes from M2, which then lacks one; K7 lacks none
    carried X1 K7 F1
    carried X2 M2 F1
    vehicle P4
    event 1 moved X2 K7 2026-03-02 = ok
    event 2 moved X1 P4 2026-03-02 = ok
    ask 2026-03-02 09:00
    = defect 1 M2 F1 reported stops
    = vehicle K7 drive
    = vehicle M2 stopped
    = vehicle P4 drive

story a-check-stands-over-its-defects several
source rule 8: a check is not voided over its defects: each by its number
working the check can be voided once its defect is void, and a nil at once
    event 1 checked K7 2026-03-02 07:30 cai defects live = ok
    event 2 reported K7 L1 minor 2026-03-02 07:30 cai live check 1 = ok
    event 3 voided 1 ann = refused
    event 4 voided 2 ann = ok
    event 5 voided 1 ann = ok
    event 6 checked K7 2026-03-02 12:00 dot nil live = ok
    event 7 voided 6 ann = ok
    ask 2026-03-02 13:00
    = defect 1 K7 L1 void minor
    = vehicle K7 drive
    = vehicle M2 drive

story today-does-not-go-back several
source rule 13: today, for a condition, is never before the newest day it was
    worked out for
working lapsed on the 7th; asked for the 5th again, it stays lapsed
    event 1 reported K7 L1 minor 2026-03-02 07:40 cai live = ok
    event 2 assessed 1 until:2026-03-06 2026-03-02 09:00 eve = ok
    ask 2026-03-05 09:00
    = defect 1 K7 L1 until minor
    = vehicle K7 drive
    = vehicle M2 drive
    ask 2026-03-07 09:00
    = defect 1 K7 L1 until minor lapsed
    = vehicle K7 stopped
    = vehicle M2 drive
    ask 2026-03-05 09:00
    = defect 1 K7 L1 until minor lapsed
    = vehicle K7 stopped
    = vehicle M2 drive

story of-two-open-the-one-that-is-undone several
source rule 5, and the table: repaired, seen again: if it happened later
working late paper opened a second number, still open when the first is mended;
    what is seen later says that the repair did not hold
    event 1 reported K7 T1 major 2026-03-02 07:40 cai live = ok
    event 2 reported K7 T1 minor 2026-03-01 16:00 dot paper = ok
    event 3 repaired 1 2026-03-02 10:00 fin = ok
    event 4 reported K7 T1 minor 2026-03-02 12:00 cai live = ok
    event 5 released 1 2026-03-02 14:00 ann = refused
    ask 2026-03-02 15:00
    = defect 1 K7 T1 reported major
    = defect 2 K7 T1 reported minor
    = vehicle K7 stopped
    = vehicle M2 drive

story the-same-one-is-not-another several
source rule 7: unless another arrives that day
working X1 goes and is back on the same day: what was missing is looked at and
    released.  Where it is already, it cannot be moved to, so that is no arrival
    for X2
    carried X1 K7 F1
    carried X2 K7 F1
    event 1 moved X1 K7 2026-03-02 = refused
    event 2 moved X1 M2 2026-03-02 = ok
    event 3 moved X1 K7 2026-03-02 = ok
    ask 2026-03-02 12:00
    = defect 1 K7 F1 reported stops
    = defect 2 M2 F1 reported stops
    = vehicle K7 stopped
    = vehicle M2 stopped

story a-void-of-a-move-that-lifts several
source rule 1: a void that lifts a stop needs `may = release`; rule 7
working X1 stops M2, to which it was moved; that it was not lifts this, and what
    is missing at K7.  ann reported it on M2, so bea
    carried X1 K7 F1
    event 1 moved X1 M2 2026-03-02 = ok
    event 2 reported X1 F1 stops 2026-03-03 07:40 ann live = ok
    event 3 voided 1 eve = refused
    event 4 voided 1 ann = refused
    event 5 voided 1 bea = ok
    ask 2026-03-03 08:00
    = defect 1 K7 F1 void stops
    = defect 2 X1 F1 reported stops
    = vehicle K7 stopped
    = vehicle M2 drive

story who-reports-a-minor-does-not-release-it several
source rule 2: reporter and lifter differ; rule 1 counts a release among what
    lifts
working bea reported it and may not release it, though a minor stops nothing
    event 1 reported K7 L1 minor 2026-03-02 07:40 bea live = ok
    event 2 repaired 1 2026-03-02 10:00 fin = ok
    event 3 released 1 2026-03-02 11:00 bea = refused
    event 4 released 1 2026-03-02 11:00 ann = ok
    ask 2026-03-02 12:00
    = defect 1 K7 L1 closed minor
    = vehicle K7 drive
    = vehicle M2 drive

story paper-on-what-is-closed-is-no-act several
source table, void of the last act: before; rule 5
working the late paper changed nothing: the release is still the last act, and
    anybody known may take it back; the paper may be void as well
    event 1 reported K7 T1 stops 2026-03-02 07:40 cai live = ok
    event 2 repaired 1 2026-03-02 10:00 fin = ok
    event 3 released 1 2026-03-02 11:00 ann = ok
    event 4 reported K7 T1 major 2026-03-02 09:00 dot paper = ok
    event 5 voided 4 cai = ok
    event 6 reported K7 T1 major 2026-03-02 09:00 dot paper = ok
    event 7 voided 3 cai = ok
    ask 2026-03-02 12:00
    = defect 1 K7 T1 repaired stops
    = vehicle K7 stopped
    = vehicle M2 drive
