#!/usr/bin/env python3
"""Makes tests/data/units-pint.csv: random unit conversions by an outside library.

The program's own unit table is checked against pint (PyPI, BSD-3-Clause), a general-purpose
library of physical quantities. pint runs here on exact fractions, so the only rounding is the
last one, when a value is written down.

    python3 -m venv venv
    venv/bin/pip install pint==0.25.3
    venv/bin/python tests/scripts/units_reference.py

The seed is fixed and the script refuses any other version of pint, so a second run writes the
very same bytes. `--check` writes nothing and fails when the recorded table differs.
"""

import random
import sys
from fractions import Fraction
from pathlib import Path

import pint

PINT_VERSION = "0.25.3"
SEED = 20261125
DIGITS = 24
TABLE = Path(__file__).resolve().parent.parent / "data" / "units-pint.csv"

# Our words -> pint's names.
MASS = {"mg": "milligram", "g": "gram", "kg": "kilogram", "oz": "ounce", "lb": "pound"}
METRIC_VOLUME = {"ml": "milliliter", "cl": "centiliter", "dl": "deciliter", "l": "liter"}
US_VOLUME = {
    "tsp": "teaspoon",
    "tbsp": "tablespoon",
    "cup": "cup",
    "fl oz": "fluid_ounce",
    "pt": "pint",
    "qt": "quart",
    "gal": "gallon",
}
IMPERIAL_VOLUME = {
    "tsp": "miche_imperial_teaspoon",
    "tbsp": "miche_imperial_tablespoon",
    "cup": "imperial_cup",
    "fl oz": "imperial_fluid_ounce",
    "pt": "imperial_pint",
    "qt": "imperial_quart",
    "gal": "imperial_gallon",
}
METRIC_KITCHEN = {"tsp": "miche_metric_teaspoon", "tbsp": "miche_metric_tablespoon", "cup": "miche_metric_cup"}
LENGTH = {"mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch"}
TEMPERATURE = {"C": "degree_Celsius", "F": "degree_Fahrenheit"}
TIME = {"s": "second", "min": "minute", "h": "hour", "day": "day", "week": "week"}

# What pint does not know is a stated multiple of what it does know. pint has the imperial cup
# (half an imperial pint = 10 fl oz) and fluid ounce, but no imperial spoons and no metric kitchen measures.
DEFINED_HERE = [
    "miche_imperial_tablespoon = 5 / 8 * imperial_fluid_ounce",
    "miche_imperial_teaspoon = 1 / 3 * miche_imperial_tablespoon",
    "miche_metric_cup = 250 * milliliter",
    "miche_metric_tablespoon = 15 * milliliter",
    "miche_metric_teaspoon = 5 * milliliter",
]

# Group name, words, how many conversions.
GROUPS = [
    ("any", MASS, 900),
    ("any", METRIC_VOLUME, 200),
    ("US", {**METRIC_VOLUME, **US_VOLUME}, 1200),
    ("imperial", {**METRIC_VOLUME, **IMPERIAL_VOLUME}, 1000),
    ("metric", {**METRIC_VOLUME, **METRIC_KITCHEN}, 500),
    ("any", LENGTH, 400),
    ("any", TEMPERATURE, 500),
    ("any", TIME, 400),
]

# Printed elsewhere, so that a fault in this script shows at once:
# NIST SP 811 as carried by GNU units 2.22 and pint; 4.54609 l is the UK gallon of the Weights and Measures Act.
KNOWN = [
    ("cup", "ml", "US", "236.5882365"),
    ("fl oz", "ml", "US", "29.5735295625"),
    ("tbsp", "ml", "US", "14.78676478125"),
    ("tsp", "ml", "US", "4.92892159375"),
    ("gal", "ml", "US", "3785.411784"),
    ("gal", "ml", "imperial", "4546.09"),
    ("fl oz", "ml", "imperial", "28.4130625"),
    ("cup", "ml", "imperial", "284.130625"),
    ("tbsp", "ml", "imperial", "17.7581640625"),
    ("lb", "g", "any", "453.59237"),
    ("oz", "g", "any", "28.349523125"),
    ("in", "mm", "any", "25.4"),
]


def registry():
    if pint.__version__ != PINT_VERSION:
        sys.exit(f"this table is made with pint {PINT_VERSION}, not {pint.__version__}")
    # Fractions parse '0.1' exactly; no float is made anywhere.
    units = pint.UnitRegistry(non_int_type=Fraction, autoconvert_offset_to_baseunit=False)
    for line in DEFINED_HERE:
        units.define(line)
    return units


def convert(units, value, source, target):
    """The exact value of `value source` in `target`."""
    result = units.Quantity(value, source).to(target).magnitude
    if isinstance(result, int):
        result = Fraction(result)
    if not isinstance(result, Fraction):
        sys.exit(f"{value} {source} -> {target} left exact arithmetic: {result!r}")
    return result


def written(value):
    """A decimal of DIGITS significant digits, the last one rounded half up (away from nothing); exact when it ends sooner."""
    if value == 0:
        return "0"
    sign, value = ("-", -value) if value < 0 else ("", value)
    places = DIGITS - 1
    while value >= 10 ** (DIGITS - places):
        places -= 1
    while value < Fraction(10) ** (DIGITS - places - 1):
        places += 1
    if places < 0:
        sys.exit(f"{value} has more than {DIGITS} digits before the point")
    scaled = value * 10**places
    whole = (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
    text = str(whole).rjust(places + 1, "0")
    if places:
        text = f"{text[:-places]}.{text[-places:]}"
        # A rounded value keeps its zeros: they are digits of it.
        if scaled.denominator == 1:
            text = text.rstrip("0").rstrip(".")
    return sign + text


def random_amount(dice, temperature):
    """An amount as a recipe would write it: up to four digits, up to three of them decimals."""
    if temperature:
        return Fraction(dice.randrange(-400, 5500), 10)
    decimals = dice.choice([0, 0, 0, 1, 1, 2, 3])
    return Fraction(dice.randrange(1, 10 ** dice.choice([1, 2, 3, 4])), 10**decimals)


def rows(units):
    dice = random.Random(SEED)
    for system, words, count in GROUPS:
        names = list(words)
        temperature = words is TEMPERATURE
        seen = set()
        # Every pair once, then at random.
        pairs = [(source, target) for source in names for target in names if source != target]
        while len(seen) < count:
            source, target = pairs[len(seen)] if len(seen) < len(pairs) else dice.choice(pairs)
            value = random_amount(dice, temperature)
            if (value, source, target) in seen:
                continue
            seen.add((value, source, target))
            result = convert(units, value, words[source], words[target])
            yield written(value), source, target, system, written(result)


def prove_known(units):
    for source, target, system, printed in KNOWN:
        words = next(words for group, words, _ in GROUPS if group == system and source in words)
        exact = convert(units, Fraction(1), words[source], words[target])
        if exact != Fraction(printed):
            sys.exit(f"1 {source} ({system}) is {exact} {target}, not the printed {printed}")


def table():
    units = registry()
    prove_known(units)
    lines = [
        "# Unit conversions by an outside library, recorded. Do not edit by hand.",
        f"# library: pint {PINT_VERSION} (PyPI), BSD-3-Clause; exact fractions; Python's random.Random, seed {SEED}",
        f"# made by: pip install pint=={PINT_VERSION}; python3 tests/scripts/units_reference.py",
        "# system: whose cup and spoon; `any` where the size is the same everywhere.",
        f"# to_value: exact when it has fewer than {DIGITS} digits, else {DIGITS} significant digits, rounded half up.",
        "# Not pint's own, but stated multiples of its units: imperial tbsp = 5/8 imperial fl oz, imperial tsp = 1/3 of that;",
        "# metric cup 250 ml, tbsp 15 ml, tsp 5 ml.",
        "from_value,from_unit,to_unit,system,to_value",
    ]
    lines += [",".join(row) for row in rows(units)]
    return "\n".join(lines) + "\n"


def main():
    made = table()
    if sys.argv[1:] == ["--check"]:
        if TABLE.read_text(encoding="utf-8") != made:
            sys.exit(f"{TABLE} differs from what pint {PINT_VERSION} says now")
        print(f"{TABLE} is as made")
        return
    if sys.argv[1:]:
        sys.exit("usage: units_reference.py [--check]")
    TABLE.parent.mkdir(parents=True, exist_ok=True)
    TABLE.write_text(made, encoding="utf-8")
    print(f"{TABLE}: {made.count(chr(10)) - 8} conversions, {len(made)} bytes")


if __name__ == "__main__":
    main()
