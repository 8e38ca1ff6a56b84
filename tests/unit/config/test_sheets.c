/* Check sheets, types and rights: what is refused, doubted and understood. */
#include "config/try.h"

#include "people.h"
#include "sheet.h"

#define F "fleet.conf:"
/* A sheet of which only the items are the test's; they begin on line 4. */
#define SHEET "[check walk]\ntitle = Walk-round check\nitems =\n"
#define BUS                                                                    \
    "[vehicle B]\ndepot = harbour\njobs = look\ncheck = walk\n"                \
    "[job look]\ntitle = Look\nclass = own\nevery = 6 weeks\n"

static void
bad_items(void **state)
{
    static const struct try_case cases[] = {
        {"[check walk]\ntitle = W\n",
            F "1: error: [check walk] has no 'items'; add items = CODE, TEXT, "
              "GRADE, one a line\n"},
        {"[check walk]\nitems = A1, Tyres, stops\n",
            F "1: error: [check walk] has no 'title'; add title = TEXT\n"},
        {SHEET "  A1, Tyres, stop\n",
            F "4: error: 'items': the grade 'stop' is none of minor, major or "
              "stops; did you mean 'stops'?\n"},
        /* The word of Directive 2014/45/EU, annex I. */
        {SHEET "  A1, Tyres, Dangerous\n",
            F "4: error: 'items': the grade 'Dangerous' is none of minor, "
              "major or stops; did you mean 'stops'?\n"},
        {SHEET "  A1, Tyres, cuts and bulges\n",
            F "4: error: 'items': the grade 'cuts and bulges' is none of "
              "minor, major or stops; expected CODE, TEXT, GRADE\n"},
        {SHEET "  A1, Tyres,\n",
            F "4: error: 'items': the grade '' is none of minor, major or "
              "stops; expected CODE, TEXT, GRADE\n"},
        {SHEET "  A1, stops\n",
            F "4: error: 'items': 'A1, stops' is no item; expected CODE, TEXT, "
              "GRADE, or a group such as At the nearside:\n"},
        {SHEET "  A1, , stops\n",
            F "4: error: 'items': 'A1' does not say what to look at; expected "
              "CODE, TEXT, GRADE\n"},
        {SHEET "  A1, Tyres, stops\n  B2, Lamps, major\n  a1, Horn, minor\n",
            F "6: error: 'items': 'a1' stands there twice; give one of them "
              "another code\n"},
        {SHEET "  A-1, Tyres, stops\n  ABCDEFGHI, Lamps, major\n"
               "  A 1, Horn, minor\n  A.1, Mirrors, minor\n",
            F "4: error: 'items': 'A-1' is no code; expected 1 to 8 letters "
              "and digits\n" F
              "5: error: 'items': 'ABCDEFGHI' is no code; expected 1 to 8 "
              "letters and digits\n" F
              "6: error: 'items': 'A 1' is no code; expected 1 to 8 letters "
              "and digits\n" F
              "7: error: 'items': 'A.1' is no code; expected 1 to 8 letters "
              "and digits\n"},
        {SHEET "  At the front:\n  At the back:\n  A1, Lamps, major\n",
            F "4: error: 'items': the group 'At the front' has no item; add "
              "CODE, TEXT, GRADE below it, or take it out\n"},
        {SHEET "  A1, Lamps, major\n  At the back:\n",
            F "5: error: 'items': the group 'At the back' has no item; add "
              "CODE, TEXT, GRADE below it, or take it out\n"},
        /* A forgotten grade does not make a group of an item. */
        {SHEET "  A1, Tyres:\n  A2, Lamps, major\n  :\n  A3, Horn, minor\n",
            F "4: error: 'items': 'A1, Tyres:' is no group; expected where one "
              "stands, without a comma, such as At the nearside:\n" F
              "6: error: 'items': ':' is no group; expected where one stands, "
              "without a comma, such as At the nearside:\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
bad_keys(void **state)
{
    static const struct try_case cases[] = {
        {SHEET "  A1, Tyres, stops\nA2.right = Round\n",
            F "5: error: 'A2.right': [check walk] has no item 'A2'; did you "
              "mean 'A1'?\n"},
        {SHEET "  A1, Tyres, stops\nTYRES.right = Round\n",
            F "5: error: 'TYRES.right': [check walk] has no item 'TYRES'; "
              "correct it or add it to 'items'\n"},
        {SHEET "  A1, Tyres, stops\nA1.rigth = Round\nA1.every = 1 year\n", F
            "5: error: unknown key 'A1.rigth' in [check walk]; did you mean "
            "'right'?\n" F "6: error: unknown key 'A1.every' in [check walk]; "
            "ostler-fleet(5) lists what there is\n"},
        {SHEET "  A1, Tyres, stops\n  A1.right = Round\n",
            F "5: error: 'items': the indented line 'A1.right = Round' goes on "
              "with this value; begin a key at the start of the line\n"},
        {SHEET "  A1, Tyres, stops\na1.right = Round\nA1.right = Black\n",
            F "6: error: 'A1.right' again; it stands at fleet.conf:5 "
              "already\n"},
        {SHEET "  A1, Kit, major\nA1.carried = first-aid\n"
               "[type first-aid-kit]\ntitle = First-aid kit\n",
            F "5: error: 'A1.carried': there is no type 'first-aid'; did you "
              "mean 'first-aid-kit'?\n"},
        {SHEET "  A1, Tyres, stops\nwhen = each day\nnil = yes\n"
               "end-reading = maybe\nclass = laws\n",
            F "5: error: 'when': 'each day' is none of each driver each day, "
              "each use or each week; did you mean 'each use'?\n" F
              "6: error: 'nil': 'yes' is none of recorded or not needed\n" F
              "7: error: 'end-reading': 'maybe' is none of yes or no\n" F
              "8: error: 'class': 'laws' is none of law, recommendation, maker "
              "or own; did you mean 'law'?\n"},
        /* A line that was refused may be the item that the key is about. */
        {SHEET "  A1, Tyres, stop\nA1.right = Round\n",
            F "4: error: 'items': the grade 'stop' is none of minor, major or "
              "stops; did you mean 'stops'?\n"},
        {"[job look]\ninspection = perhaps\nfailure = warns\n"
         "overdue = tells\ntitle = L\nclass = own\nevery = 1 year\n",
            F "1: warning: nobody has the job 'look'; add it to the 'jobs' of "
              "a subject\n" F
              "2: error: 'inspection': 'perhaps' is none of yes or no\n" F
              "3: error: 'failure': 'warns' is none of stops or tells\n" F
              "4: error: 'overdue': 'tells' is none of stops or warns\n"},
    };

    (void)state;
    TRY_CASES(cases);
    try_write("fleet.conf",
        "[site]\nname = x\ntime-zone = Etc/UTC\nledger = l\n"
        "defer-at-most = 2 years\n");
    char *problems = try_read("fleet.conf");
    assert_string_equal(problems,
        "fleet.conf: warning: there is no vehicle, equipment or driver, so "
        "nothing is ever due\n" F
        "5: error: 'defer-at-most': '2 years' is too long to put a defect off; "
        "expected at most 1 year\n");
    free(problems);
}

/* One more than anybody looks at; the warning is of a sheet that was read. */
static void
too_many_items(void **state)
{
    static const struct {
        int n;
        const char *problems;
    } rows[] = {
        {200, F "1: warning: no vehicle has the check sheet 'walk'; add check "
                "= walk to one or to a type\n"},
        {201, F "3: error: 'items': there are 201 lines; nobody looks at so "
                "much on one walk, expected at most 200\n"},
    };

    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[8000] = SHEET;
        size_t len = strlen(text);
        for (int k = 0; k < rows[i].n; k++)
            len += (size_t)snprintf(
                text + len, sizeof text - len, "  A%d, T, minor\n", k);
        struct try_case c = {text, rows[i].problems};
        try_case(&c);
    }
}

static void
bad_names(void **state)
{
    static const struct try_case cases[] = {
        {SHEET "  A1, Tyres, stops\n[vehicle B]\ndepot = harbour\n"
               "jobs = check\ncheck = wolk\n",
            F "8: error: 'check': there is no check 'wolk'; did you mean "
              "'walk'?\n"},
        {SHEET "  A1, Tyres, stops\n[type t]\ncheck = walk\n[vehicle B]\n"
               "type = t\ndepot = harbour\njobs = check\ncheck = walk\n",
            F "11: error: 'check': 'walk' is there already, here or from the "
              "type; take one out\n"},
        {"[driver D]\ndepot = harbour\njobs = check\ncheck = walk\n" SHEET
         "  A1, Tyres, stops\n",
            F "4: error: unknown key 'check' in [driver D]; ostler-fleet(5) "
              "lists what there is\n"},
        {"[driver D]\ndepot = harbour\njobs = check\ntype = t\n[type t]\n"
         "check = walk\n" SHEET "  A1, Tyres, stops\n",
            F "1: error: [driver D] has the check sheet 'walk' as its type "
              "says; only vehicles and equipment are checked\n"},
        /* A defect is known by its code: what is the same may be on both. */
        {SHEET "  A1, Tyres, stops\n  B1, Lamps, major\n[check week]\n"
               "title = W\nitems =\n  B1, Lamps, minor\n"
               "[vehicle B]\ndepot = harbour\njobs = check\n"
               "check = walk week\n",
            F "13: error: 'check': 'walk' and 'week' both have the item 'B1', "
              "and differ in it; give it another code in one of them\n"},
        {"[vehicle B]\ndepot = harbour\njobs = check\nfirst-use = test\n"
         "[equipment E]\ndepot = harbour\njobs = check\nfirst-use = check\n",
            F "4: error: 'first-use': 'test' is none of nothing, check or "
              "inspection\n" F
              "8: error: unknown key 'first-use' in [equipment E]; "
              "ostler-fleet(5) lists what there is\n"},
    };

    (void)state;
    TRY_CASES(cases);
}

static void
bad_people(void **state)
{
    static const struct try_case cases[] = {
        {"[person a]\nname = Ann\nmay = repair\n[person b]\nname = ANN\n"
         "mail = b@b.example\ntold = all\n[person ann]\nmay = assess\n",
            F "2: error: 'name': [person ann] is called so too, and one of the "
              "two decides about defects; tell them apart\n" F
              "5: error: 'name': [person a] is called so too, and one of the "
              "two decides about defects; tell them apart\n" F
              "5: error: 'name': [person ann] is called so too, and one of the "
              "two decides about defects; tell them apart\n"},
        /* One person, called by their own id; and two who only get mail. */
        {"[person ann]\nname = Ann\nmay = release\n"
         "[person b]\nmay = release\n"
         "[person c]\nname = C\nmail = c@b.example\ntold = all\n"
         "[person d]\nname = C\nmail = d@b.example\ntold = all\n",
            ""},
    };

    (void)state;
    TRY_CASES(cases);
}

/* K7, which comes with every case, has neither a sheet nor an inspection. */
static void
warnings(void **state)
{
#define NO_SHEET(line)                                                         \
    F #line ": warning: [vehicle K7] has no check sheet, though other "        \
            "vehicles have one; add check = CHECK\n"
#define TWO                                                                    \
    "[person a]\nmay = release assess\n[person b]\nmay = release repair\n"
    static const struct try_case cases[] = {
        {SHEET "  A1, Tyres, stops\n",
            F "1: warning: no vehicle has the check sheet 'walk'; add check = "
              "walk to one or to a type\n"},
        {SHEET "  A1, Tyres, stops\n" BUS "inspection = yes\n" TWO,
            NO_SHEET(34)},
        {SHEET "  A1, Tyres, stops\n" BUS TWO,
            F "5: warning: B has a check sheet and no job that says inspection "
              "= yes, at the next of which a defect that was put off has to be "
              "looked at; add it to the safety inspection or the yearly "
              "test\n" NO_SHEET(33)},
        {SHEET "  A1, Tyres, stops\n" BUS "inspection = yes\n",
            F "5: warning: nobody may release B and 1 more vehicle, so a "
              "defect that stops it does so for good; give two people may = "
              "release, and 'told' where it is\n" NO_SHEET(30)},
        {SHEET "  A1, Tyres, stops\n" BUS "inspection = yes\n"
               "[person a]\nmay = release\n[person c]\nmay = assess\n",
            F "5: warning: only one person may release B and 1 more vehicle, "
              "and will be asked why they did it alone; give a second one may "
              "= release\n" NO_SHEET(34)},
        /* A driver needs no release, and one vehicle is named alone. */
        {"[driver D]\ndepot = harbour\njobs = check\n"
         "[person a]\nmay = release\n[person c]\nmail = c@b.example\n"
         "told = all\n",
            F "25: warning: only one person may release K7, and will be asked "
              "why they did it alone; give a second one may = release\n"},
        {"[driver D]\ndepot = harbour\njobs = check\n"
         "[person c]\nmay = assess\nmail = c@b.example\ntold = subject D\n"
         "[person d]\nmay = repair\nmail = a@b.example\ntold = job check\n" TWO,
            F "5: warning: 'may': [person c] is told of no vehicle, so this "
              "allows nothing; add all, a depot or a vehicle to 'told'\n" F
              "9: warning: 'may': [person d] is told of no vehicle, so this "
              "allows nothing; add all, a depot or a vehicle to 'told'\n"},
        /* Rights without a sheet: failed jobs stop a vehicle too. */
        {"[person a]\nmay = release\nmail = a@b.example\ntold = job check\n",
            F "2: warning: 'may': [person a] is told of no vehicle, so this "
              "allows nothing; add all, a depot or a vehicle to 'told'\n" F
              "21: warning: nobody may release K7, so a defect that stops it "
              "does so for good; give two people may = release, and 'told' "
              "where it is\n"},
        /* Once for a type, however many there are of it. */
        {SHEET "  A1, Tyres, stops\n" BUS "inspection = yes\n" TWO
               "[type van]\ndepot = harbour\njobs = look\n"
               "[vehicle V1]\ntype = van\n[vehicle V2]\ntype = van\n",
            F "18: warning: [type van] has no check sheet, though other "
              "vehicles have one; add check = CHECK\n" NO_SHEET(41)},
        {SHEET "  A1, Kit, major\nA1.carried = kit\n[type kit]\n"
               "jobs = check\n" BUS "inspection = yes\n" TWO,
            F "5: warning: 'A1.carried': no equipment is of the type 'kit', so "
              "nobody is ever asked for A1; add type = kit to what is "
              "meant\n" NO_SHEET(37)},
    };

    (void)state;
    TRY_CASES(cases);
}

/* Every vehicle has a sheet, a job that is an inspection and two who may
 * release it, and the kit is carried: nothing is amiss. */
static void
no_warnings(void **state)
{
    (void)state;
    try_write("fleet.conf",
        "[site]\nname = x\ntime-zone = Etc/UTC\nledger = l\n"
        "[calendar c]\nworks = mon\nholidays = none\n"
        "[depot d]\ncalendar = c\n"
        "[job look]\ntitle = Look\nclass = own\nevery = 1 year\n"
        "inspection = yes\n"
        "[check walk]\ntitle = W\nitems =\n"
        "  A1, Tyres, stops\n  A2, Kit, minor\nA2.carried = kit\n"
        "[type kit]\njobs = look\n"
        "[driver D]\ndepot = d\njobs = look\n"
        "[vehicle V]\ndepot = d\njobs = look\ncheck = walk\n"
        "[equipment E]\ntype = kit\ncarried-by = V\n" TWO);
    char *problems = try_read("fleet.conf");
    assert_string_equal(problems, "");
    free(problems);
}

static const char fleet_text[] =
    "[check walk]\n"
    "title = Walk-round check\n"
    "class = recommendation\n"
    "authority = the vehicle authority\n"
    "when = each use\n"
    "nil = not needed\n"
    "end-reading = yes\n"
    "items = P1, Papers, minor\n"
    "  At the front:\n"
    "  T1, Tyres: tread, cuts, and cords, stops\n"
    "  F1, Extinguisher, major\n"
    "  F2 ,  Its seal  ,  MINOR\n"
    "f1.carried = EXT\n"
    "F2.carried = ext\n"
    "t1.right = Tread not under this vehicle's limit:\n"
    "  no cut, no bulge\n"
    "[check lift]\n"
    "title = Lift\n"
    "when = each week\n"
    "items =\n"
    "  L1, Platform, stops\n"
    "  Q, Hook, minor\n"
    "  ABCDEFG8, Rail, minor\n"
    "  P1, Papers, minor\n"
    "[type bus]\n"
    "title = 16 seats\n"
    "depot = harbour\n"
    "jobs = test look\n"
    "check = walk\n"
    "first-use = inspection\n"
    "[type ext]\n"
    "jobs = look\n"
    "[vehicle B]\n"
    "type = bus\n"
    "check = lift\n"
    "[vehicle C]\n"
    "type = bus\n"
    "first-use = check\n"
    "depot = north\n"
    "[equipment E]\n"
    "type = ext\n"
    "carried-by = B\n"
    "[equipment E2]\n"
    "type = ext\n"
    "carried-by = B\n"
    "[job test]\n"
    "title = Test\n"
    "class = law\n"
    "every = 1 year\n"
    "lead = 1 week\n"
    "inspection = yes\n"
    "[job look]\n"
    "title = Look\n"
    "class = own\n"
    "every = 1 year\n"
    "[job law]\n"
    "title = Law\n"
    "class = law\n"
    "every = 1 year\n"
    "lead = 1 week\n"
    "failure = tells\n"
    "overdue = warns\n"
    "[job own]\n"
    "title = Own\n"
    "class = own\n"
    "every = 1 year\n"
    "failure = stops\n"
    "overdue = stops\n"
    "[driver D1]\n"
    "title = bea Bunting\n"
    "depot = harbour\n"
    "jobs = look\n"
    "[driver D2]\n"
    "title = D. Knot\n"
    "depot = harbour\n"
    "jobs = look\n"
    "[driver D3]\n"
    "title = D. Knot\n"
    "depot = harbour\n"
    "jobs = look\n"
    "[driver D4]\n"
    "title = E. Rail\n"
    "depot = harbour\n"
    "jobs = look\n"
    "[person ann]\n"
    "name = Ann Fitter\n"
    "may = REPAIR\n"
    "[person bea]\n"
    "name = Bea Bunting\n"
    "mail = b@b.example\n"
    "told = subject B, job test\n"
    "may = assess, release\n"
    "[person cyd]\n"
    "mail = c@b.example\n"
    "told = depot harbour\n"
    "may = release\n"
    "[depot north]\n"
    "calendar = workshop\n";

static struct config *
read_text(void)
{
    char text[4096];

    snprintf(text, sizeof text, "%s%s", fleet_text, try_rest);
    try_write("fleet.conf", text);
    return try_good("fleet.conf");
}

static void
a_fleet(void **state)
{
    struct config *c = read_text();
    const struct fleet *f = config_fleet(c);

    (void)state;
    assert_int_equal(f->site.defer_at_most.n, 4);
    assert_int_equal(f->site.defer_at_most.unit, STEP_WEEKS);
    assert_int_equal(f->n_sheets, 2);
    const struct check_sheet *s = sheet_named(f, "WALK");
    assert_non_null(s);
    assert_ptr_equal(s, &f->sheets[0]);
    assert_string_equal(s->id, "walk");
    assert_string_equal(s->title, "Walk-round check");
    assert_int_equal(s->class, CLASS_RECOMMENDATION);
    assert_string_equal(s->authority, "the vehicle authority");
    assert_null(s->source);
    assert_int_equal(s->when, CHECK_EACH_USE);
    assert_string_equal(sheet_when_word(s->when), "each use");
    assert_int_equal(sheet_grade_find("Major"), GRADE_MAJOR);
    assert_int_equal(sheet_grade_find("dangerous"), -1);
    assert_false(s->nil_recorded);
    assert_true(s->end_reading);
    assert_int_equal(s->n_groups, 2);
    assert_null(s->groups[0].title);
    assert_int_equal(s->groups[0].n, 1);
    assert_string_equal(s->groups[1].title, "At the front");
    assert_int_equal(s->groups[1].first, 1);
    assert_int_equal(s->groups[1].n, 3);
    assert_int_equal(s->n_items, 4);
    assert_string_equal(s->items[0].code, "P1");
    assert_int_equal(s->items[0].group, 0);
    assert_string_equal(s->items[1].code, "T1");
    assert_string_equal(s->items[1].text, "Tyres: tread, cuts, and cords");
    assert_int_equal(s->items[1].grade, GRADE_STOPS);
    assert_string_equal(s->items[1].right,
        "Tread not under this vehicle's limit: no cut, no bulge");
    assert_null(s->items[1].carried);
    assert_string_equal(s->items[2].carried->id, "ext");
    assert_int_equal(s->items[2].grade, GRADE_MAJOR);
    assert_null(s->items[2].right);
    assert_string_equal(s->items[3].code, "F2");
    assert_string_equal(s->items[3].text, "Its seal");
    assert_int_equal(s->items[3].grade, GRADE_MINOR);
    assert_int_equal(s->items[3].group, 1);

    /* What a sheet is when it says nothing. */
    s = sheet_named(f, "lift");
    assert_int_equal(s->class, CLASS_OWN);
    assert_int_equal(s->when, CHECK_EACH_WEEK);
    assert_true(s->nil_recorded);
    assert_false(s->end_reading);
    assert_int_equal(s->n_items, 4);
    assert_string_equal(s->items[1].code, "Q");
    assert_string_equal(s->items[2].code, "ABCDEFG8");
    assert_null(sheet_named(f, "none"));
    config_free(c);
}

static void
of_subjects(void **state)
{
    struct config *c = read_text();
    const struct fleet *f = config_fleet(c);
    const struct subject *b = fleet_subject(f, "B");
    const struct subject *other = fleet_subject(f, "C");
    const struct subject *e = fleet_subject(f, "E");

    (void)state;
    assert_int_equal(f->n_types, 2);
    assert_string_equal(f->types[0].title, "16 seats");
    assert_ptr_equal(b->type, &f->types[0]);
    assert_ptr_equal(e->type, &f->types[1]);
    assert_null(fleet_subject(f, "K7")->type);
    /* Its own sheets are added to those of its type, its own word on first use
     * goes before the type's. */
    assert_int_equal(b->n_sheets, 2);
    assert_string_equal(b->sheets[0]->id, "walk");
    assert_string_equal(b->sheets[1]->id, "lift");
    assert_int_equal(other->n_sheets, 1);
    assert_int_equal(e->n_sheets, 0);
    assert_int_equal(b->first_use, FIRST_USE_INSPECTION);
    assert_int_equal(other->first_use, FIRST_USE_CHECK);
    assert_int_equal(fleet_subject(f, "K7")->first_use, FIRST_USE_NOTHING);

    /* Asked for where it is carried now. */
    const struct check_item *item = sheet_item(b, "f1");
    assert_non_null(item);
    assert_string_equal(item->code, "F1");
    assert_ptr_equal(sheet_item_carried(b, e->type), item);
    assert_null(sheet_item_carried(b, b->type));
    assert_true(sheet_asks(f, b, item));
    assert_false(sheet_asks(f, other, item));
    assert_true(sheet_asks(f, other, sheet_item(other, "T1")));
    assert_ptr_equal(sheet_carried(f, b, item, NULL), e);
    const struct subject *second = sheet_carried(f, b, item, e);
    assert_non_null(second);
    assert_string_equal(second->id, "E2");
    assert_null(sheet_carried(f, b, item, second));
    assert_null(sheet_carried(f, b, sheet_item(b, "T1"), NULL));
    assert_int_equal(config_move(c, e, other), 0);
    assert_true(sheet_asks(f, b, item));
    assert_int_equal(config_move(c, second, fleet_subject(f, "K7")), 0);
    assert_false(sheet_asks(f, b, item));
    assert_true(sheet_asks(f, other, item));
    assert_int_equal(config_move(c, e, fleet_subject(f, "K7")), 0);
    assert_false(sheet_asks(f, other, item));

    assert_string_equal(sheet_item(b, "L1")->text, "Platform");
    assert_null(sheet_item(other, "L1"));
    assert_string_equal(sheet_item_nearest(b, "L11"), "L1");
    assert_string_equal(sheet_item_nearest(b, "P11"), "P1");
    assert_null(sheet_item_nearest(b, "windscreen"));
    config_free(c);
}

static void
of_jobs_and_people(void **state)
{
    struct config *c = read_text();
    const struct fleet *f = config_fleet(c);
    const struct subject *b = fleet_subject(f, "B");
    const struct subject *other = fleet_subject(f, "C");

    (void)state;
    /* Where nothing is said, what is of the law stops. */
    assert_true(fleet_job(f, "test")->inspection);
    assert_false(fleet_job(f, "look")->inspection);
    assert_int_equal(fleet_job(f, "test")->failure, FAILURE_STOPS);
    assert_int_equal(fleet_job(f, "test")->overdue, OVERDUE_STOPS);
    assert_int_equal(fleet_job(f, "look")->failure, FAILURE_TELLS);
    assert_int_equal(fleet_job(f, "look")->overdue, OVERDUE_WARNS);
    assert_int_equal(fleet_job(f, "law")->failure, FAILURE_TELLS);
    assert_int_equal(fleet_job(f, "law")->overdue, OVERDUE_WARNS);
    assert_int_equal(fleet_job(f, "own")->failure, FAILURE_STOPS);
    assert_int_equal(fleet_job(f, "own")->overdue, OVERDUE_STOPS);

    const struct person *ann = people_find(f, "ann fitter");
    const struct person *bea = people_find(f, "BEA");
    assert_non_null(ann);
    assert_ptr_equal(people_find(f, "ann"), ann);
    assert_null(people_find(f, "dan"));
    /* A driver with the title of a person is that person; a title that two
     * have is nobody's. */
    assert_string_equal(people_id(f, "ANN"), "ann");
    assert_string_equal(people_id(f, "ann fitter"), "ann");
    assert_string_equal(people_id(f, "D1"), "bea");
    assert_string_equal(people_id(f, "Bea Bunting"), "bea");
    assert_string_equal(people_id(f, "d2"), "D2");
    assert_string_equal(people_id(f, "D4"), "D4");
    assert_string_equal(people_id(f, "e. rail"), "D4");
    assert_null(people_id(f, "D. Knot"));
    assert_null(people_id(f, "E"));
    assert_null(people_id(f, "nobody"));
    assert_int_equal(people_count(f, MAY_RELEASE, b), 2);
    assert_int_equal(people_count(f, MAY_RELEASE, other), 0);
    assert_int_equal(people_count(f, MAY_REPAIR, other), 1);
    assert_int_equal(ann->may, MAY_REPAIR);
    assert_null(ann->mail);
    assert_int_equal(bea->may, MAY_ASSESS | MAY_RELEASE);
    /* Who is told nothing may everywhere; who is told of a vehicle, to it and
     * what it carries; of a job, nowhere. */
    assert_true(people_may(ann, MAY_REPAIR, b));
    assert_true(people_may(ann, MAY_REPAIR, other));
    assert_false(people_may(ann, MAY_RELEASE, b));
    assert_false(people_may(ann, MAY_RELEASE | MAY_REPAIR, b));
    assert_true(people_may(bea, MAY_RELEASE, b));
    assert_true(people_may(bea, MAY_RELEASE | MAY_ASSESS, b));
    assert_true(people_may(bea, MAY_RELEASE, fleet_subject(f, "E")));
    assert_false(people_may(bea, MAY_RELEASE, other));
    assert_false(people_may(bea, MAY_REPAIR, b));
    /* Who is told of a depot, to what lives there. */
    const struct person *cyd = people_find(f, "cyd");
    assert_true(people_may(cyd, MAY_RELEASE, b));
    assert_true(people_may(cyd, MAY_RELEASE, fleet_subject(f, "E")));
    assert_false(people_may(cyd, MAY_RELEASE, other));
    assert_false(people_may(cyd, MAY_REPAIR, b));
    assert_false(people_may(bea, MAY_RELEASE, fleet_subject(f, "D2")));
    config_free(c);
}

/* The numbers of the lines are counted in fleet_text. */
static void
explained(void **state)
{
    struct config *c = read_text();
    struct buf *out = buf_new();

    (void)state;
    assert_non_null(out);
    assert_int_equal(config_explain(c, out), 0);
    assert_non_null(strstr(buf_str(out),
        "[check walk]  (fleet.conf:1)\n"
        "  title            Walk-round check  (fleet.conf:2)\n"
        "  class            recommendation  (fleet.conf:3)\n"
        "  authority        the vehicle authority  (fleet.conf:4)\n"
        "  source           none  (default)\n"
        "  when             each use  (fleet.conf:5)\n"
        "  nil              not needed  (fleet.conf:6)\n"
        "  end-reading      yes  (fleet.conf:7)\n"
        "  items            4 items in 2 groups  (fleet.conf:8)\n"
        "  P1               Papers, minor  (fleet.conf:8)\n"
        "  At the front:  (fleet.conf:9)\n"
        "  T1               Tyres: tread, cuts, and cords, stops  "
        "(fleet.conf:10)\n"
        "  T1.right         Tread not under this vehicle's limit: no cut, no "
        "bulge  (fleet.conf:15)\n"
        "  F1               Extinguisher, major  (fleet.conf:11)\n"
        "  F1.carried       ext  (fleet.conf:13)\n"
        "  F2               Its seal, minor  (fleet.conf:12)\n"
        "  F2.carried       ext  (fleet.conf:14)\n"));
    assert_non_null(strstr(buf_str(out),
        "  check            walk lift  (fleet.conf:35)\n"
        "  first-use        inspection  (fleet.conf:30, type bus)\n"));
    assert_non_null(strstr(
        buf_str(out), "  may              assess release  (fleet.conf:92)\n"));
    assert_non_null(
        strstr(buf_str(out), "  inspection       yes  (fleet.conf:51)\n"
                             "  failure          stops  (default)\n"
                             "  overdue          stops  (default)\n"));
    buf_free(out);
    config_free(c);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bad_items),
        cmocka_unit_test(bad_keys),
        cmocka_unit_test(too_many_items),
        cmocka_unit_test(bad_names),
        cmocka_unit_test(bad_people),
        cmocka_unit_test(warnings),
        cmocka_unit_test(no_warnings),
        cmocka_unit_test(a_fleet),
        cmocka_unit_test(of_subjects),
        cmocka_unit_test(of_jobs_and_people),
        cmocka_unit_test(explained),
    };

    return cmocka_run_group_tests(tests, try_begin, try_end);
}
