#!/usr/bin/env python3
"""Makes src/larder/larder.miche and tests/data/usda-extract.tsv from the USDA's public tables.

usage: larder_from_usda.py DATA_FOLDER

DATA_FOLDER holds sr28-WEIGHT.txt, sr28-FOOD_DES.txt (USDA National Nutrient Database for Standard Reference, Release 28,
2015) and sr26-ABBREV.txt (the same database's abbreviated file). They are US Government work in the public domain.
What is picked, and what it is called, stands in larder_picks.tsv beside this script. No figure is typed by hand.
"""
import re
import sys
from decimal import Decimal
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
MEASURES = [(r"^cups?\b", "cup"), (r"^tbsp\b", "tbsp"), (r"^tsp\b", "tsp"), (r"^fl oz\b", "fl oz")]
# Facts that no table of foods gives; each with where it was read.
EXTRA = {
    "cider vinegar": ["acid 5 %", "source acid 5 %: the least for pickling, UW-Madison Extension, 7 Aug 2023"],
    "distilled vinegar": ["acid 5 %", "source acid 5 %: the least for pickling, UW-Madison Extension, 7 Aug 2023"],
}
# Foods whose composition is known better than from a table.
INSTEAD = {"water": ["water 100 %", "source water 100 %: by definition (the table counts 0.1 % of minerals)"]}
# Ingredients of which only allergens and uses are known: no figures, so none are given.
PLAIN = """
ingredient instant yeast
also called fast-action yeast, rapid-rise yeast
section baking
source no figures: allergens only; none of the EU fourteen (Reg. (EU) 1169/2011 Annex II)

ingredient type 55 flour
also called type 65 flour, type 45 flour
contains wheat, gluten
raw flour
section baking
source Reg. (EU) 1169/2011 Annex II; FALCPA 2004

ingredient spelt flour
also called white spelt flour, wholemeal spelt flour
contains wheat, gluten
raw flour
section baking
source Reg. (EU) 1169/2011 Annex II (spelt is named there); FALCPA 2004

ingredient almond flour
also called ground almonds, almond meal
not flour
contains tree nuts
section baking
source Reg. (EU) 1169/2011 Annex II; FALCPA 2004

ingredient hazelnut flour
also called ground hazelnuts
not flour
contains tree nuts
section baking
source Reg. (EU) 1169/2011 Annex II; FALCPA 2004

ingredient potato starch
also called potato flour
not flour
section baking
source no figures; none of the EU fourteen (Reg. (EU) 1169/2011 Annex II)

ingredient coarse salt
also called sea salt, flaky salt, kosher salt
ready to eat
section spices
source no density: a teaspoon of coarse salt weighs from 2.8 to 4.8 g by brand (definitions of GNU units 2.22)

ingredient demerara sugar
also called muscovado sugar, turbinado sugar, raw sugar
ready to eat
section baking
source no figures; none of the EU fourteen (Reg. (EU) 1169/2011 Annex II)

ingredient pearl sugar
also called nibbed sugar
ready to eat
section baking
source no figures; none of the EU fourteen (Reg. (EU) 1169/2011 Annex II)

ingredient candied peel
also called mixed peel
contains sulphites
section baking
source sulphites are common in candied peel: read the pack (Reg. (EU) 1169/2011 Annex II)

ingredient lupin flour
not flour
contains lupin
raw flour
section baking
source Reg. (EU) 1169/2011 Annex II
"""
SODIUM_TO_SALT = Decimal("2.5")


def table(path):
    for line in path.read_text(encoding="latin-1").splitlines():
        yield [field.strip("~") for field in line.split("^")]


def plain(number):
    """Digits without exponent or trailing zeros."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def read_picks():
    for line in (HERE / "larder_picks.tsv").read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            fields = line.split("\t") + [""] * 8
            yield [field.strip() for field in fields[:8]]


def volume_row(rows, wanted):
    """The household measure that gives a density: the picked one, else the first by cup, spoon or fluid ounce."""
    if wanted == "-":
        return None
    for pattern, unit in MEASURES:
        for row in rows:
            fits = re.search(wanted, row[3]) if wanted else True
            if fits and re.search(pattern, row[3]):
                return row, unit
    return None


def block(pick, food, composition, rows):
    number, name, others, flags, allergens, section, measure, piece = pick
    lines = [f"ingredient {name}"]
    if others:
        lines.append(f"also called {others}")
    sources = []
    found = volume_row(rows, measure)
    if name == "water":
        # The table's 29.6 g to the fluid ounce is rounded; a litre of water weighs a kilogram within 0.2 %.
        lines.append("weighs 1 g per ml")
        sources.append("FAO/INFOODS Density Database 2.0 (2012): 0.998 g/ml at 20 C and 0.999 at 4 C, rounded")
        found = None
    used_rows = []
    if found:
        row, unit = found
        grams, amount = Decimal(row[4]), Decimal(row[2])
        per = unit if amount == 1 else f"{plain(amount)} {unit}"
        lines.append(f"weighs {plain(grams)} g per {per} US")
        sources.append(f"USDA SR28 WEIGHT {number}: {plain(amount)} {row[3]} {plain(grams)} g")
        used_rows.append(row)
    if piece:
        row = next((row for row in rows if re.search(piece, row[3])), None)
        if row is None:
            sys.exit(f"{number} {name}: no row of WEIGHT.txt is like {piece}")
        each = Decimal(row[4]) / Decimal(row[2])
        lines.append(f"one weighs {plain(each.quantize(Decimal('0.01')))} g")
        sources.append(f"USDA SR28 WEIGHT {number}: {plain(Decimal(row[2]))} {row[3]} {plain(Decimal(row[4]))} g")
        used_rows.append(row)
    extract = None
    if name in INSTEAD:
        lines += INSTEAD[name]
    elif composition:
        value = lambda at: Decimal(composition[at]) if composition[at] else None
        water, kcal, protein, fat, ash, carb, fibre, sugar = (value(at) for at in (2, 3, 4, 5, 6, 7, 8, 9))
        sodium = value(15)
        total = sum(part for part in (water, protein, fat, ash, carb) if part is not None)
        alcoholic = name in ("beer", "white wine", "red wine", "vanilla extract")
        if abs(total - 100) > Decimal("1.0") and not alcoholic and "vinegar" not in name:
            print(f"note: {number} {name} adds up to {total}", file=sys.stderr)
        facts = [("water", water), ("fat", fat)]
        if sodium is not None:
            facts.append(("salt", (sodium * SODIUM_TO_SALT / 1000).quantize(Decimal("0.001"))))
        facts += [("sugar", sugar), ("protein", protein), ("carbohydrate", carb), ("fibre", fibre)]
        lines += [f"{word} {plain(min(share, Decimal(100)))} %" for word, share in facts if share is not None]
        if kcal is not None:
            lines.append(f"energy {plain(kcal)} kcal")
        sources.append(f"USDA SR26 ABBREV {number}: composition")
        extract = [number, food[2], *(composition[at] for at in (2, 3, 4, 5, 7, 9, 8, 15))]
    refuse = food[8] if len(food) > 8 else ""
    # An egg is counted without its shell, a nut bought shelled; the refuse of what is trimmed in the kitchen is what counts.
    if refuse and Decimal(refuse) > 0 and section == "produce":
        lines.append(f"yield {100 - int(refuse)} %")
        sources.append(f"USDA SR28 FOOD_DES {number}: refuse {refuse} %")
    if allergens:
        lines.append(f"contains {allergens}")
    words = {"f": "counts as flour", "n": "not flour", "w": "raw flour", "e": "raw egg", "r": "ready to eat"}
    lines += [words[flag] for flag in flags]
    lines.append(f"section {section}")
    lines += [f"source {source}" for source in sources]
    lines += EXTRA.get(name, [])
    return "\n".join(lines), extract, used_rows


HEADER = """\
# The larder that the program brings: what common ingredients weigh by the cup, the spoon or the piece, and what is in 100 g.
#
# Made by tests/scripts/larder_from_usda.py from the USDA National Nutrient Database for Standard Reference, Release 28
# (household weights, refuse) and its abbreviated file (composition); US Government work, public domain. Each figure names
# its table and NDB number. Cups and spoons are US measures. Salt is sodium x 2.5 (Reg. (EU) 1169/2011, Annex I).
# Allergens are in the words of Reg. (EU) 1169/2011, Annex II and of the US law (FALCPA 2004, FASTER Act 2021); what a
# pack says goes before what stands here. An ingredient that no source was found for is not here.
"""


def main():
    data = Path(sys.argv[1])
    foods = {row[0]: row for row in table(data / "sr28-FOOD_DES.txt")}
    compositions = {row[0]: row for row in table(data / "sr26-ABBREV.txt")}
    weights = {}
    for row in table(data / "sr28-WEIGHT.txt"):
        weights.setdefault(row[0], []).append(row)
    blocks, extract, names = [], [], {}
    for pick in read_picks():
        number = pick[0]
        text, row, used = block(pick, foods[number], compositions.get(number), weights.get(number, []))
        blocks.append(text)
        rows = "; ".join(f"{plain(Decimal(one[2]))} {one[3]}={plain(Decimal(one[4]))}" for one in used)
        extract.append("\t".join([pick[1], *(row or [number, foods[number][2]] + [""] * 8), rows]))
    text = HEADER + "\n" + "\n\n".join(blocks) + "\n" + PLAIN
    for line in text.splitlines():
        for word in ("ingredient ", "also called "):
            if line.startswith(word):
                for name in line[len(word):].split(","):
                    key = " ".join(name.lower().split())
                    if key in names:
                        sys.exit(f"`{key}` stands twice")
                    names[key] = True
    (ROOT / "src/larder/larder.miche").write_text(text, encoding="utf-8")
    head = "# USDA SR26 ABBREV and SR28 WEIGHT rows behind src/larder/larder.miche; US Government work, public domain\n"
    head += "# name\tndb\tdescription\twater\tkcal\tprotein\tfat\tcarbohydrate\tsugar\tfibre\tsodium_mg\tweights\n"
    (ROOT / "tests/data").mkdir(exist_ok=True)
    (ROOT / "tests/data/usda-extract.tsv").write_text(head + "\n".join(extract) + "\n", encoding="utf-8")
    print(f"{len(blocks) + PLAIN.count('ingredient ')} ingredients, {len(names)} names")


main()
