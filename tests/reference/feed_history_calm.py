"""Calm: a due that goes by distance alone keeps the forecast that calendars
showed until its early day has moved by the site's calm (ostler(1), "Calm")."""
from datetime import date, timedelta

from feed_history_dues import deadline_of, span
from feed_history_rules import require


def is_reached(due):
    """A reading that shows that the job is due counts at once."""
    return any("a reading already shows it" in reason["text"]
               for reason in due["reasons"])


class Calm:
    def __init__(self):
        self.shown = {}  # by subject, job and cycle: early day and basis

    def forget(self):
        """The ledger knows other days than we do."""
        self.shown = {}

    def look(self, fleet, dues):
        """A pass has looked at these dues."""
        kept = {}
        for due in dues:
            every = fleet.jobs[due["job"]].get("every", "")
            if not every.endswith("km") or " or " in every:
                continue
            early = due["forecast"] and due["forecast"]["early"]
            if not early:
                continue
            key = due["subject"], due["job"], due["cycle"]
            basis = any(w["warning"] == "stated-use" for w in due["warnings"])
            now = date.fromisoformat(early), basis
            last = self.shown.get(key)
            if is_reached(due):
                if last:
                    kept[key] = last
                continue
            if last and last[1] == basis and self.is_near(fleet, last[0],
                                                          now[0]):
                now = last
            kept[key] = now
        self.shown = kept

    @staticmethod
    def is_near(fleet, last, now):
        length = fleet.site.get("calm", "3 days")
        return span(last, length, -1) < now < span(last, length, 1)

    def judge(self, picture):
        for due in picture.dues:
            held = self.shown.get((due["subject"], due["job"], due["cycle"]))
            event = picture.current.get((due["subject"], due["job"]))
            if held and event and not is_reached(due) and \
                    due["state"] != "before-return":
                require(deadline_of(event) == held[0],
                        "the forecast that is shown is the one that is held",
                        due, held, deadline_of(event))
