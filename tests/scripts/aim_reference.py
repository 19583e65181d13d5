#!/usr/bin/env python3
"""Makes up mixes with aims and lets a general-purpose solver of linear programs find the least relative change.

    python3 -m venv venv && venv/bin/pip install scipy
    venv/bin/python tests/scripts/aim_reference.py > tests/data/aim-systems.json

`tests/aims.rs` holds `miche aim` against the table: where the solver finds amounts, the sum of the relative changes is the same;
where it finds none, there are none. Made with scipy 1.17 (HiGHS), 2026-11-26; the seed is fixed.
"""

import json
import random
import sys

import scipy
from scipy.optimize import linprog

FIGURES = ["fat", "sugar", "protein", "water"]
COUNT = 240


def system(rng):
    size = rng.randint(2, 12)
    foods = []
    for number in range(size):
        left = 100.0
        food = {"name": f"food {number + 1}", "grams": rng.randint(20, 900)}
        for figure in FIGURES:
            share = round(rng.uniform(0, left) if rng.random() < 0.7 else 0.0, 1)
            food[figure] = share
            left -= share
        foods.append(food)
    total = sum(food["grams"] for food in foods)
    aims = []
    for figure in rng.sample(FIGURES, rng.randint(1, 4)):
        now = sum(food["grams"] * food[figure] for food in foods) / total
        middle = max(0.0, min(100.0, now + rng.uniform(-12, 12)))
        kind = rng.choice(["range", "least", "most", "value"])
        low = round(max(0.0, middle - rng.uniform(0, 2)), 1)
        high = round(min(100.0, middle + rng.uniform(0, 2)), 1)
        if kind == "least":
            aims.append({"figure": figure, "low": low, "high": None})
        elif kind == "most":
            aims.append({"figure": figure, "low": None, "high": high})
        elif kind == "value":
            aims.append({"figure": figure, "low": low, "high": low})
        else:
            aims.append({"figure": figure, "low": low, "high": max(low, high)})
    return {"foods": foods, "aims": aims}


def least(system):
    """The sum of the relative changes; None where no amounts meet the aims."""
    foods, aims = system["foods"], system["aims"]
    size = len(foods)
    upper, right, equal, equal_right = [], [], [], []

    def row(figure, bound, sign):
        slopes = [sign * food["grams"] * (food[figure] - bound) for food in foods]
        return slopes + [-slope for slope in slopes], -sum(slopes)

    for aim in aims:
        if aim["low"] is not None and aim["low"] == aim["high"]:
            slopes, constant = row(aim["figure"], aim["low"], 1)
            equal.append(slopes)
            equal_right.append(constant)
            continue
        if aim["low"] is not None:
            slopes, constant = row(aim["figure"], aim["low"], -1)
            upper.append(slopes)
            right.append(constant)
        if aim["high"] is not None:
            slopes, constant = row(aim["figure"], aim["high"], 1)
            upper.append(slopes)
            right.append(constant)
    # Nothing at all meets every share; that is no mix. A tenth of it is left at least.
    grams = [food["grams"] for food in foods]
    upper.append([-gram for gram in grams] + grams)
    right.append(0.9 * sum(grams))
    bounds = [(0, 10000)] * size + [(0, 1)] * size
    found = linprog(
        [1.0] * (2 * size),
        A_ub=upper or None,
        b_ub=right or None,
        A_eq=equal or None,
        b_eq=equal_right or None,
        bounds=bounds,
        method="highs",
    )
    return round(found.fun, 9) if found.status == 0 else None


def main():
    rng = random.Random(20261126)
    systems = []
    for _ in range(COUNT):
        one = system(rng)
        one["least"] = least(one)
        systems.append(one)
    print(json.dumps({"scipy": scipy.__version__, "systems": systems}, indent=None, separators=(",", ":")))
    solved = sum(one["least"] is not None for one in systems)
    print(f"{solved} of {len(systems)} have amounts", file=sys.stderr)


if __name__ == "__main__":
    main()
