#!/usr/bin/env python3
"""Records what a general-purpose statistics library says of rows of measurements: tests/data/bakes-statistics.json.

Made with scipy 1.17.1 and numpy 2.4.6 (pip install scipy==1.17.1 numpy==2.4.6):
    python3 tests/scripts/bakes_statistics.py > tests/data/bakes-statistics.json
Rows of one, two and three measurements, rows of equal ones, and rows up to 400 long, of whole numbers and of tenths, near nothing
and in the thousands. The quantile is numpy's `linear`, definition 7 of Hyndman and Fan.
"""
import json
import random

import numpy
import scipy
from scipy import stats

random.seed(20270302)


def row(tenths):
    """One row with its figures; measurements are tenths, so that they are exact in the program."""
    x = numpy.array(tenths, dtype=float) / 10
    n = len(x)
    one = {"tenths": tenths, "mean": float(x.mean()), "median": float(numpy.median(x)),
           "nine_in_ten": float(numpy.quantile(x, 0.9, method="linear")), "sd": None, "low": None, "high": None}
    if n > 1:
        sd = float(x.std(ddof=1))
        half = float(stats.t.ppf(0.975, n - 1)) * sd / n ** 0.5
        one.update(sd=sd, low=one["mean"] - half, high=one["mean"] + half)
    return one


rows = []
for length in [1] * 12 + [2] * 20 + [3] * 30:
    rows.append(row([random.randint(1, 4000) for _ in range(length)]))
for length in [1, 2, 3, 4, 7, 30, 100]:
    for value in (130, 139, 1, 99999):
        rows.append(row([value] * length))
for _ in range(140):
    length = random.choice([4, 5, 6, 8, 10, 12, 17, 25, 40])
    middle = random.choice([20, 140, 900, 30000])
    rows.append(row([max(1, round(random.gauss(middle, middle / random.choice([5, 20, 200])))) for _ in range(length)]))
for length in (100, 250, 400):
    rows.append(row([round(random.gauss(1500, 90)) for _ in range(length)]))
print(json.dumps({"made_with": f"scipy {scipy.__version__}, numpy {numpy.__version__}", "rows": rows}, separators=(",", ":")))
