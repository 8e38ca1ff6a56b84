"""A random fleet that can be edited as time goes by, as a fleet file."""
from datetime import timedelta

JOBS = {
    "service": {"title": "Service", "class": "own", "every": "6 months"},
    "major": {"title": "Major service", "class": "own", "every": "24 months",
              "covers": "service"},
    "test": {"title": "Annual test", "class": "law", "every": "12 months",
             "ends": "day before", "runs-from": "keeping the date",
             "window": "1 month", "lead": "10 working days",
             "first": "12 months from registered"},
    "inspection": {"title": "Safety inspection", "class": "recommendation",
                   "every": "8 weeks", "ends": "week end",
                   "lead": "3 working days",
                   "authority": "the maker, or whoever inspects; both"},
    "plaque": {"title": "Plaque", "class": "law", "every": "12 months",
               "runs-from": "deadline", "ends": "month end",
               "lead": "2 weeks"},
    "oil": {"title": "Oil, filter", "class": "maker",
            "every": "12 months or 20000 km", "reading-within": "8 weeks"},
    "grease": {"title": "Grease", "class": "maker", "every": "9000 km"},
    "winter": {"title": "Winter check", "class": "own",
               "every": "yearly on 1 nov"},
    "clean": {"title": "Service", "class": "own", "every": "5 weeks",
              "roll": "nearest"},
    "lift": {"title": "Lift", "class": "own", "every": "4 within 12 months",
             "off-road": "waits"},
    "wheel-off": {"title": "Wheel off", "class": "own",
                  "every": "when needed"},
    "retorque": {"title": "Check wheel nuts", "class": "own",
                 "follows": "wheel-off", "within": "10 days"},
    "extinguisher": {"title": "Extinguisher", "class": "recommendation",
                     "every": "12 months"},
}
# Other intervals that an edit may give a job.
OTHERWISE = {
    "service": ["5 months", "6 months", "26 weeks"],
    "inspection": ["6 weeks", "8 weeks", "10 weeks"],
    "clean": ["5 weeks", "40 days"],
    "grease": ["9000 km", "9300 km", "6000 km"],
    "oil": ["12 months or 20000 km", "20000 km", "10 months or 15000 km"],
    "plaque": ["12 months", "6 months"],
}
ON_EQUIPMENT = ["extinguisher", "lift"]
HORIZONS = ["2 months", "6 months", "10 months", "1 year"]


def section(kind, name, keys):
    lines = [f"[{kind} {name}]" if name else f"[{kind}]"]
    lines += [f"{key} = {value}" for key, value in keys.items()]
    return lines + [""]


class Fleet:
    """Sections as tables, by their names, in the order they are written."""

    def __init__(self, rng, today):
        self.rng = rng
        self.jobs = {name: dict(keys) for name, keys in JOBS.items()}
        self.site = {"name": "Skerrow histories", "time-zone": "Europe/London",
                     "ledger": "ledger.db", "feed-folder": "feeds"}
        if rng.random() < 0.2:
            self.site["calm"] = rng.choice(["0 days", "5 days"])
        self.hill = {}
        if rng.random() < 0.15:
            self.site["planner"] = "on"
            self.hill = {"vehicles-a-day": 1}
        self.closed = {"harbour": {}, "hill": {}}
        self.subjects = {}
        for _ in range(rng.randint(2, 4)):
            self.add_vehicle(today)
        for _ in range(rng.randint(0, 2)):
            self.add_equipment(today)
        self.feeds = {
            "all": {"shows": "all", "horizon": rng.choice(HORIZONS)},
            "list": {"shows": rng.choice(["all", "depot harbour"]),
                     "as": "to-dos", "horizon": rng.choice(HORIZONS[:3])},
            "part": {"shows": rng.choice(["depot harbour", "depot hill",
                                          "job service, job inspection",
                                          "job retorque"]),
                     "horizon": rng.choice(HORIZONS)}}
        for feed in self.feeds.values():
            if rng.random() < 0.4:
                feed["history"] = rng.choice(["1 month", "4 months"])
            if rng.random() < 0.2:
                feed["alarm"] = rng.choice(["0 days", "1 day", "2 weeks"])
        if rng.random() < 0.2:
            self.feeds["all"]["most-events"] = rng.choice([10, 14])

    def vehicles(self):
        return [name for name, s in self.subjects.items()
                if s["kind"] == "vehicle"]

    def baseline(self, keys, job, today):
        """What the fleet file says of the time before the first record."""
        rng = self.rng
        if job in ("wheel-off", "retorque", "winter") or rng.random() < 0.25:
            return
        last = today - timedelta(rng.randint(1, 300))
        keys[f"{job}.last"] = last
        if job in ("oil", "grease"):
            keys[f"{job}.last-reading"] = self.odometer(keys, last)
        elif rng.random() < 0.2:
            keys[f"{job}.deadline"] = last + timedelta(rng.randint(30, 500))

    @staticmethod
    def odometer(keys, day):
        """What the odometer shows on that day."""
        return 5000 + (day - keys["registered"]).days * keys["#rate"]

    def new_name(self, letter):
        n = 1
        while f"{letter}{n}" in self.subjects:
            n += 1
        return f"{letter}{n}"

    def add_vehicle(self, today):
        rng = self.rng
        keys = {"kind": "vehicle", "#rate": rng.randint(20, 110),
                "title": rng.choice(["16 seats", "van, white", "trailer"]),
                "registered": today - timedelta(rng.randint(400, 3000)),
                "depot": rng.choice(["harbour", "hill"]),
                "distance-unit": "km"}
        if rng.random() < 0.7:
            keys["yearly-distance"] = f"{keys['#rate'] * 365} km"
        some = [job for job in JOBS if job not in ON_EQUIPMENT]
        jobs = rng.sample(some, rng.randint(1, 6))
        if "retorque" in jobs and "wheel-off" not in jobs:
            jobs.append("wheel-off")
        keys["jobs"] = " ".join(sorted(jobs))
        for job in sorted(jobs):
            self.baseline(keys, job, today)
        self.subjects[self.new_name("K")] = keys

    def add_equipment(self, today):
        rng = self.rng
        keys = {"kind": "equipment", "title": "in the cab",
                "carried-by": rng.choice(self.vehicles()),
                "jobs": rng.choice(["extinguisher", "lift",
                                    "extinguisher lift"])}
        for job in keys["jobs"].split():
            self.baseline(keys, job, today)
        self.subjects[self.new_name("E")] = keys

    def remove_vehicle(self):
        """Without the last one, and without what it carries."""
        if len(self.vehicles()) < 2:
            return
        gone = self.rng.choice(self.vehicles())
        self.subjects = {name: s for name, s in self.subjects.items()
                         if name != gone and s.get("carried-by") != gone}

    def tasks(self):
        return [(name, job) for name, s in self.subjects.items()
                for job in s["jobs"].split()]

    def depot_of(self, subject):
        keys = self.subjects[subject]
        return keys.get("depot") or self.depot_of(keys["carried-by"])

    def used(self):
        """The jobs that somebody has, and those that these name."""
        names = {job for _, job in self.tasks()} | {"service", "wheel-off"}
        names |= {"inspection", "retorque"}
        return [job for job in JOBS if job in names]

    def text(self):
        lines = section("site", "", self.site)
        for depot, closed in self.closed.items():
            lines += section("calendar", depot, {
                "works": "mon tue wed thu fri",
                **(self.hill if depot == "hill" else {})})[:-1]
            if closed:
                lines += ["closed ="] + [f"  {day} {name}" for day, name
                                         in sorted(closed.items())]
            lines += section("depot", depot, {"calendar": depot})
        for job in self.used():
            lines += section("job", job, self.jobs[job])
        for name, keys in self.subjects.items():
            lines += section(keys["kind"], name, {
                key: value for key, value in keys.items()
                if key != "kind" and key[0] != "#"})
        for name, keys in self.feeds.items():
            lines += section("feed", name, keys)
        return "\n".join(lines)
