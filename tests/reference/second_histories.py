"""Random fleets and what happens to them, for second-reminders."""
from datetime import date, timedelta

from second_steps import WEEKDAYS

DAY = timedelta(1)
STAGES = ["8 weeks", "2 months", "1 month", "4 weeks", "20 days", "2 weeks",
          "10 days", "1 week", "3 days", "1 day", "0 days"]
TITLES = ["Annual test", "Safety inspection", "Engine oil", "Lift check",
          "Extinguisher", "First-aid kit", "Tachograph"]
STARTS = [date(2026, 2, 16), date(2026, 3, 25), date(2026, 5, 18),
          date(2026, 9, 1), date(2026, 12, 10), date(2027, 2, 20),
          date(2027, 10, 20), date(2028, 2, 14), date(2028, 12, 18)]


class History:
    """A fleet whose file changes, and the days on which the pass is run."""

    def __init__(self, rng):
        self.rng = rng
        self.today = rng.choice(STARTS) + rng.randrange(28) * DAY
        self.calendars = [f"c{n}" for n in range(rng.randint(2, 3))]
        self.sections = {"site": {
            "name": "Skerrow Isles Transport", "time-zone": "Europe/London",
            "ledger": "ledger.db", "calm": "0 days"},
            "mail": {"from": "dates@skerrow.example", "by": "folder mail"}}
        self.lay_out_calendars()
        self.jobs = [f"j{n}" for n in range(rng.randint(2, 5))]
        for n, job in enumerate(self.jobs):
            self.sections[f"job {job}"] = self.job(n)
        self.subjects = []
        for n in range(rng.randint(1, 4)):
            self.add_subject("vehicle", f"v{n}", [])
        for n in range(rng.randint(0, 2)):
            self.add_subject("equipment", f"e{n}", [
                name for name in self.subjects if name[0] == "v"])
        if self.chance(0.3):
            self.add_subject("driver", "p0", [])
        self.persons = 0
        for _ in range(rng.randint(1, 4)):
            self.add_person()
        self.records = []

    def chance(self, odds):
        return self.rng.random() < odds

    def near(self, before, after):
        return self.today + self.rng.randint(-before, after) * DAY

    def some(self, items, least=1):
        return self.rng.sample(items, self.rng.randint(least, len(items)))

    # The fleet file.

    def text(self):
        return "".join(
            f"[{name}]\n" + "".join(f"{key} = {value}\n"
                                    for key, value in keys.items())
            for name, keys in self.sections.items())

    def lay_out_calendars(self):
        self.sections["holidays isles"] = {
            "day": "\n  1 jan, substitute\n  easter -2\n  easter +1\n"
                   "  first monday of may\n  25 dec, substitute\n"
                   "  26 dec, substitute"}
        for name in self.calendars:
            keys = {"works": " ".join(WEEKDAYS[:5])}
            if self.chance(0.4):
                # Two places that share no day are refused.
                keys["works"] = " ".join(
                    sorted({"wed", *self.some(WEEKDAYS, 1)}))
            if self.chance(0.6):
                keys["holidays"] = "isles"
            if self.chance(0.5):
                first = self.near(10, 60)
                last = first + self.rng.randint(0, 20) * DAY
                keys["closed"] = f"{first}..{last} Shut"
            self.sections[f"calendar {name}"] = keys
        self.depots = [f"d{n}" for n in range(self.rng.randint(1, 3))]
        for name in self.depots:
            self.sections[f"depot {name}"] = {
                "calendar": self.rng.choice(self.calendars)}

    def remind(self):
        stages = self.rng.sample(STAGES, self.rng.randint(0, 4))
        if self.chance(0.7) or not stages:
            stages.append("overdue every " + self.rng.choice(
                ["1 day", "2 days", "3 days", "1 week", "2 weeks", "1 month"]))
        return ", ".join(stages)

    def job(self, n):
        asked_by = self.rng.choice(["law", "law", "recommendation", "maker",
                                    "own"])
        keys = {"title": TITLES[n], "class": asked_by,
                "every": self.rng.choice(["4 weeks", "6 weeks", "3 months",
                                          "12 months", "20 days"])}
        if self.chance(0.85):
            keys["remind"] = self.remind()
        if self.chance(0.5):
            keys["lead"] = self.rng.choice(["1 week", "3 working days",
                                            "2 weeks", "10 working days"])
        if self.chance(0.3):
            keys["calendar"] = self.rng.choice(self.calendars)
        if asked_by != "law" and self.chance(0.2):
            keys["roll"] = self.rng.choice(["following", "nearest"])
        if self.chance(0.25):
            keys["reading-within"] = self.rng.choice(["4 weeks", "10 days"])
            keys["every"] = self.rng.choice(["", keys["every"] + " or "]) + (
                f"{self.rng.choice([1000, 3000, 8000])} km")
        if self.chance(0.2):
            keys["off-road"] = "waits"
        return keys

    def add_subject(self, kind, name, carriers):
        keys = {}
        if carriers and self.chance(0.8):
            keys["carried-by"] = self.rng.choice(carriers)
        if not keys or self.chance(0.3):
            keys["depot"] = self.rng.choice(self.depots)
        keys["distance-unit"] = "km"
        if self.chance(0.3):
            keys["yearly-distance"] = "20000 km"
        jobs = self.jobs
        keys["jobs"] = " ".join(self.some(jobs))
        for job in keys["jobs"].split():
            if self.chance(0.85):
                keys[f"{job}.last"] = self.near(400, -60)
                if self.chance(0.9):
                    keys[f"{job}.deadline"] = self.near(15, 35)
            elif self.chance(0.5):
                keys[f"{job}.deadline"] = self.near(15, 35)
            if self.chance(0.1):
                keys[f"{job}.remind"] = self.remind()
        self.sections[f"{kind} {name}"] = keys
        self.subjects.append(name)

    def scope(self):
        return self.rng.choice(
            ["all", "all", f"depot {self.rng.choice(self.depots)}",
             f"job {self.rng.choice(self.jobs)}",
             f"subject {self.rng.choice(self.subjects)}"])

    def add_person(self):
        self.sections[f"person w{self.persons}"] = self.person(
            f"w{self.persons}")
        self.persons += 1

    def person(self, name):
        keys = {"mail": f"{name}@skerrow.example",
                "told": ", ".join(sorted({self.scope(), self.scope()}))}
        if self.chance(0.5):
            keys["stages"] = self.rng.choice(
                ["4 weeks onward", "1 month onward", "1 week onward",
                 "0 days onward", "overdue onward", "overdue onward",
                 "overdue 2 days onward", "overdue 2 days onward",
                 "overdue 3 days onward", "overdue 5 days onward",
                 "overdue 1 week onward", "overdue 1 month onward"])
        if self.chance(0.4):
            keys["days"] = " ".join(self.some(WEEKDAYS))
        if self.chance(0.4):
            keys["calendar"] = self.rng.choice(self.calendars)
        if self.chance(0.4):
            keys["urgent"] = "law overdue"
        if self.chance(0.3):
            keys["outlook"] = " ".join(self.some(WEEKDAYS)[:2])
        return keys

    # What happens.

    def pass_time(self):
        odds = self.rng.random()
        if odds < 0.75:
            self.today += DAY
        elif odds < 0.9:
            self.today += self.rng.randint(2, 7) * DAY
        else:
            self.today += self.rng.randint(8, 45) * DAY

    def events(self):
        """What is done before a run: [command, ...] of the program; the
        fleet file may change too."""
        found = []
        if self.chance(0.35):
            found.append(self.work())
        if self.chance(0.1) and self.records:
            number = self.records.pop(self.rng.randrange(len(self.records)))
            found.append(["record", "--void", str(number), "--note", "no"])
        if self.chance(0.1):
            found.append(self.spell())
        if self.chance(0.15):
            found.append(["reading", self.rng.choice(self.subjects),
                          str((self.today - date(2025, 1, 1)).days * 60),
                          "--on", str(self.today)])
        if self.chance(0.25):
            self.edit()
        return found

    def work(self):
        subject = self.rng.choice(self.tasks())
        day = self.today - self.rng.choice([0, 0, 0, 1, 3, 20]) * DAY
        result = self.rng.choice(["completed"] * 4 + ["failed"])
        return ["record", *subject, "--on", str(day), "--result", result]

    def tasks(self):
        return [(name.split()[1], job)
                for name, keys in self.sections.items()
                for job in keys.get("jobs", "").split()]

    def spell(self):
        subject = self.rng.choice(self.subjects)
        odds = self.rng.random()
        first = self.near(3, 5)
        if odds < 0.4:
            return ["off-road", subject, "--until", str(self.near(2, 10))]
        if odds < 0.6:
            return ["off-road", subject, "--from", str(first)]
        return ["off-road", subject, "--from", str(first), "--until",
                str(first + self.rng.randint(0, 30) * DAY)]

    def edit(self):
        """Somebody changes the fleet file."""
        odds = self.rng.random()
        stated = [(keys, key) for keys in self.sections.values()
                  for key in keys if key.endswith(".deadline")]
        if odds < 0.6 and stated:
            keys, key = self.rng.choice(stated)
            keys[key] = max(
                keys.get(key.replace("deadline", "last"), date.min),
                keys[key] + self.rng.choice([-14, -3, -1, 1, 2, 7, 30, 90])
                * DAY)
        elif odds < 0.7:
            self.add_person()
        elif odds < 0.78:
            name = f"w{self.rng.randrange(self.persons)}"
            self.sections[f"person {name}"] = self.person(name)
        elif odds < 0.9:
            job = self.sections[f"job {self.rng.choice(self.jobs)}"]
            job["remind"] = self.remind()
        else:
            name = f"calendar {self.rng.choice(self.calendars)}"
            self.sections[name]["closed"] = f"{self.near(-1, 20)} Shut"
