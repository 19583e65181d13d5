#!/usr/bin/env python3
"""Makes tests/data/published-nutrition.tsv: published dishes with the figures of their ingredients.

    python3 tests/scripts/published_nutrition.py sr26-ABBREV.txt >tests/data/published-nutrition.tsv

Reads published_nutrition.txt beside it (dishes and published figures, copied from the USDA's tables), the larder's extract
tests/data/usda-extract.tsv, and ABBREV of the USDA National Nutrient Database for Standard Reference, Release 26. An ingredient whose SR
code the built-in larder has goes by the larder's name; any other is written out with the figures of ABBREV.
"""

import sys
from fractions import Fraction
from pathlib import Path

HERE = Path(__file__).resolve().parent
# Fields of ABBREV, counted from 0; sodium in mg, all else in g but energy.
FIELDS = {"water": 2, "kcal": 3, "protein": 4, "fat": 5, "saturates": 44, "carbohydrate": 7, "sugar": 9, "fibre": 8, "sodium": 15}
# Of a food that Release 26 no longer has: the food whose figures are taken.
PROXY = {"4616": "4615"}
HEAD = """\
# Dishes published with their ingredients by weight and their energy and saturates. Made by tests/scripts/published_nutrition.py; its
# sources stand at the head of tests/scripts/published_nutrition.txt. All of it is US Government work, public domain.
# dish: code, name, moisture change %, fat gained (SR code and % of what goes in), tolerance % where it is not the common one, why
# portion: code, g, kcal, saturates g, name. The table gives no weights: a weight is the one by which all portions of the dish come to the
#   same whole kcal and to thousandths of saturates in 100 g (whole grams where there are several; for a dish of one portion the one within
#   a tenth of the sum of its ingredients).
# added: code, g of added sugars in the first portion (published in kcal, at 3.87 kcal a gram)
# ingredient: code, SR code or dish code, g
# food: SR code, name in the formula, `larder` or the figures of 100 g by SR26 ABBREV: water, kcal, protein, fat, saturates, carbohydrate, sugar,
#   fibre, sodium mg; description"""


def abbrev(path):
    rows = (line.rstrip("\n").split("^") for line in open(path, encoding="latin-1"))
    return {row[0].strip("~").lstrip("0"): row for row in rows}


def larder():
    names = {}
    for line in (HERE.parent / "data/usda-extract.tsv").read_text().splitlines():
        if not line.startswith("#"):
            name, code = line.split("\t")[:2]
            names.setdefault(code.lstrip("0"), name)
    # The larder's water is pure: municipal water is 99.9 % of it.
    return names | {"14429": "water"}


def dishes():
    found = {}
    for line in (HERE / "published_nutrition.txt").read_text().splitlines():
        if line.startswith("#"):
            continue
        fields = line.strip().split("|")
        if fields[0] == "dish":
            code, name, moisture, fat, tolerance, why = fields[1:]
            dish = found[code] = {"line": [code, name, moisture, fat, tolerance, why], "portions": [], "in": [], "added": None}
        elif fields[0] == "portion":
            dish["portions"].append((Fraction(fields[1]), Fraction(fields[2]), fields[3]))
        elif fields[0] == "added sugars":
            dish["added"] = float(fields[1]) / 3.87
        else:
            dish["in"].append((fields[0], Fraction(fields[1])))
    return found


def kcal_of(code, found, foods):
    """kcal in 100 g by the sum of the ingredients: only to tell between weights of a portion."""
    if code not in found:
        return float(foods[PROXY.get(code, code)][FIELDS["kcal"]])
    dish = found[code]
    total = sum(grams for _, grams in dish["in"])
    kcal = sum(float(grams) * kcal_of(part, found, foods) for part, grams in dish["in"])
    gained = dish["line"][3].split()
    if gained:
        kcal += float(total) * float(gained[1]) / 100 * kcal_of(gained[0], found, foods)
    left = 1 + (float(dish["line"][2]) + (float(gained[1]) if gained else 0)) / 100
    return kcal / float(total) / left


def weights(portions, near):
    """The weight of each portion, in g."""
    fits = []
    for kcal in range(int(near * 0.9), int(near * 1.1) + 1):
        grams = [energy * 100 / kcal for energy, _, _ in portions]
        saturates = [float(fat * 100 / weight) for (_, fat, _), weight in zip(portions, grams)]
        if all((weight * 1000).denominator == 1 for weight in grams) and all(abs(s * 1000 - round(s * 1000)) < 0.06 for s in saturates):
            fits.append(grams)
    whole = [grams for grams in fits if all(weight.denominator == 1 for weight in grams)]
    if len(fits) > 1 and whole:
        fits = whole
    if len(fits) != 1:
        sys.exit(f"{portions}: {len(fits)} weights fit")
    return fits[0]


def main():
    foods, names, found = abbrev(sys.argv[1]), larder(), dishes()
    print(HEAD)
    used = []
    for code, dish in found.items():
        print("dish", *dish["line"], sep="\t")
        if dish["portions"]:
            for grams, (kcal, saturates, name) in zip(weights(dish["portions"], kcal_of(code, found, foods)), dish["portions"]):
                print("portion", code, float(grams), float(kcal), float(saturates), name, sep="\t")
        if dish["added"]:
            print("added", code, round(dish["added"], 3), sep="\t")
        for part, grams in dish["in"]:
            print("ingredient", code, part, float(grams), sep="\t")
            if part not in found and part not in used:
                used.append(part)
    for code in sorted(used, key=int):
        row = foods[PROXY.get(code, code)]
        description = row[1].strip("~")
        if code in names:
            print("food", code, names[code], "larder", description, sep="\t")
        else:
            figures = [row[field] or "0" for field in FIELDS.values()]
            name = description.lower().replace("%", " percent").replace("&", " and ").replace(",", " ").replace("/", " ")
            name = "".join(letter for letter in name if letter.isalpha() or letter in " -'").split()
            print("food", code, " ".join(name), *figures, description, sep="\t")


main()
