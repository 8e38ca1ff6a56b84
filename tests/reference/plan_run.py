"""Has the program plan_cases plan problems of plan_model.py."""
import os
import subprocess

import plan_model

PROGRAM = os.path.join(os.environ.get("BUILD", "build"), "tests", "reference",
                       "plan_cases")


def plans(problems):
    """(plan, late, visits) of each problem."""
    words = iter(subprocess.run(
        [PROGRAM], input="".join(map(plan_model.as_text, problems)), text=True,
        stdout=subprocess.PIPE, check=True).stdout.split())
    for _ in problems:
        n, late, visits = (int(next(words)) for _ in range(3))
        plan = {}
        for _ in range(n):
            call = int(next(words)), int(next(words))
            day = next(words)
            if call in plan:
                raise ValueError(f"call {call} twice")
            plan[call] = None if day == "-" else int(day)
        yield plan, late, visits
