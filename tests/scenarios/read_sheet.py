"""read_sheet.py PLAN.json WORDS TEXT: print each booking of the plan that does
not stand on the sheet, in the row of its vehicle and under its week.  WORDS is
what pdftotext -bbox says of the sheet, TEXT what pdftotext -layout says."""

import collections
import datetime
import json
import re
import sys

MARGIN, NAMES, WIDTH = 28.0, 88.0, 1190.55

plan = json.load(open(sys.argv[1]))
words = []
page = 0
for line in open(sys.argv[2]):
    if "<page " in line:
        page += 1
    found = re.search(
        r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*)<',
        line)
    if found:
        x, y, right, end, word = found.groups()
        words.append((page, float(x), float(y), word, float(end) - float(y),
                      float(right) - float(x)))

# Rows: the large words in the column of the names, one after another.
subjects = {b["vehicle"] for b in plan["bookings"]}
rows = {}
for p, x, y, word, size, _ in words:
    if word in subjects and x < MARGIN + 10 and size > 9:
        if word in rows:
            print("two rows for", word)
        rows[word] = (p, y)
starts = sorted(rows.values())
for subject in sorted(subjects - set(rows)):
    print("no row for", subject)

# The code of each job, from the legend.
text = open(sys.argv[3]).read()
codes = {}
for b in plan["bookings"]:
    found = re.search(r"(\S+) +" + re.escape(b["title"]) + r"(?=  |\n)", text)
    codes[b["job"]] = found.group(1) if found else None
    if not found:
        print("no code for", b["job"])
if len(set(codes.values())) != len(codes):
    print("two jobs with one code")

today = datetime.date.fromisoformat(plan["today"])
first = today - datetime.timedelta(today.weekday())
last = max([datetime.date.fromisoformat(b["day"]) for b in plan["bookings"]] +
           [datetime.date.fromisoformat(plan["until"])])
weeks = (last - first).days // 7 + 1
week_width = (WIDTH - 2 * MARGIN - NAMES) / weeks

# A mark before the code of what failed, on its line.
cells = collections.Counter()
before = {}
for p, x, y, word, _, width in words:
    above = [s for s in starts if s[0] == p and s[1] <= y + 4]
    if above and word in codes.values() and x > MARGIN + NAMES:
        week = int((x - MARGIN - NAMES) // week_width)
        mark = before.get((p, y), (0, ""))
        failed = mark[1] == "\u00d7" and 0 <= x - mark[0] < 3
        cells[above[-1], week, word, failed] += 1
    before[p, y] = (x + width, word)

wanted = collections.Counter()
for b in plan["bookings"]:
    week = (datetime.date.fromisoformat(b["day"]) - first).days // 7
    wanted[rows.get(b["vehicle"]), week, codes[b["job"]],
           b["failed"] is not None] += 1
for cell, n in (wanted - cells).items():
    print("missing:", cell, n)
for cell, n in (cells - wanted).items():
    if cell[3]:
        print("marked as failed:", cell, n)
