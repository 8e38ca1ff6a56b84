"""Builds plan_cases.c and has it plan problems of plan_model.py."""
import os
import shlex
import subprocess

import plan_model

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))
BUILD = os.environ.get("BUILD", "build")


def build():
    program = os.path.join(BUILD, "tests", "reference", "plan_cases")
    os.makedirs(os.path.dirname(program), exist_ok=True)
    subprocess.run(
        shlex.split(os.environ.get("CC", "gcc")) + ["-O1", "-std=c11"]
        + shlex.split(os.environ.get("SANITIZE", ""))
        + [f"-I{ROOT}/src/{layer}" for layer in ("base", "calendar", "plan")]
        + ["-o", program, f"{HERE}/plan_cases.c", f"{BUILD}/libostler.a"], check=True)
    return program


def plans(program, problems):
    """(plan, late, visits) of each problem."""
    words = iter(subprocess.run(
        [program], input="".join(map(plan_model.as_text, problems)), text=True,
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
