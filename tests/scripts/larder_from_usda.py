#!/usr/bin/env python3
"""Makes src/model/larder/larder.miche and tests/data/usda-extract.tsv from the USDA's public tables.

usage: larder_from_usda.py DATA_FOLDER [--check]

DATA_FOLDER holds sr28-WEIGHT.txt and sr28-FOOD_DES.txt (USDA National Nutrient Database for Standard Reference, Release 28,
2015: household weights, descriptions, refuse) and sr26-ABBREV.txt (the abbreviated file of Release 26: composition). They
are US Government work in the public domain. What is picked, and what it is called, stands in larder_picks.tsv beside this
script; figures of what those tables do not have in larder_ciqual.tsv (as published) and larder_said.tsv (each with what it rests
on).

The same input gives the same output, byte for byte. Before anything is written the text is looked over (`lint`): names that
stand twice, lines of a wrong shape, figures that cannot be. A fault stops the script with exit code 1 and nothing is
written. `--check` writes nothing either way and fails when the files in the repository are not what would be written.
"""
import re
import sys
from decimal import Decimal
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
LARDER = ROOT / "src/model/larder/larder.miche"
EXTRACT = ROOT / "tests/data/usda-extract.tsv"

# Reg. (EU) 1169/2011, Annex I, 11: salt is sodium x 2.5. (The ratio of the masses in sodium chloride is 2.54.)
SODIUM_TO_SALT = Decimal("2.5")
# Millilitres of the US measures, to look over the densities: exact, from the gallon of 3785.411784 ml.
MILLILITRES = {
    "cup": Decimal("236.5882365"),
    "tbsp": Decimal("14.78676478125"),
    "tsp": Decimal("4.92892159375"),
    "fl oz": Decimal("29.5735295625"),
    "ml": Decimal(1),
}
# How a row of WEIGHT.txt that is written by the cup or spoon begins, the most trusted first.
MEASURES = [(r"cups?\b", "cup"), (r"(?:tbsp|tablespoon)\b", "tbsp"), (r"tsp\b", "tsp"), (r"fl oz\b", "fl oz")]
DENSITIES = (Decimal("0.05"), Decimal("1.6"))

# Fields of ABBREV.txt, in 100 g. Ash is not printed in the larder; it is needed to see whether the parts add up.
FIELDS = {
    "water": 2, "energy": 3, "protein": 4, "fat": 5, "ash": 6, "carbohydrate": 7, "fibre": 8, "sugar": 9, "calcium": 10,
    "iron": 11, "potassium": 14, "sodium": 15, "vitamin D": 41, "saturates": 44, "cholesterol": 47,
}
# Milligrams, vitamin D micrograms; the rest are grams.
TRACES = {"cholesterol": "mg", "vitamin D": "ug", "calcium": "mg", "iron": "mg", "potassium": "mg"}
# FOOD_DES: by what the nitrogen was multiplied for the protein.
NITROGEN = 10
# Of the grams of nitrogen x 6.25 and of protein in a CIQUAL row, the factor by Jones that is nearest.
JONES = [Decimal(f) for f in ("5.18", "5.3", "5.46", "5.55", "5.7", "5.83", "5.95", "6.25", "6.38")]
PARTS_OF_ALL = ("water", "protein", "fat", "ash", "carbohydrate")
TOLERANCE = Decimal("0.5")
# Foods whose parts do not add up to 100 within the tolerance, each with its sum, so that a changed table is noticed.
ALCOHOL = "alcohol is not among the parts"
ACID = "acetic acid is not among the parts"
FLESH = "water, protein and fat of flesh are measured apart, and carbohydrate is set to 0"
PUBLISHED = "as published; the table does not say why"
OTHER_SUMS = {
    "18372": ("37.10", "what heat drives off is neither ash nor water"),
    "18374": ("99.20", PUBLISHED),
    "02030": ("94.55", PUBLISHED),
    "02032": ("94.14", PUBLISHED),
    "01159": ("101.93", PUBLISHED),
    "09163": ("100.53", PUBLISHED),
    "02050": ("65.61", ALCOHOL),
    "14003": ("96.13", ALCOHOL),
    "14037": ("66.60", ALCOHOL),
    "14057": ("84.70", ALCOHOL),
    "14096": ("89.45", ALCOHOL),
    "14106": ("89.73", ALCOHOL),
    "14414": ("78.30", ALCOHOL),
    "14415": ("86.30", ALCOHOL),
    "14034": ("70.20", ALCOHOL),
    "43479": ("83.90", ALCOHOL),
    "14536": ("84.70", ALCOHOL),
    "01156": ("101.01", PUBLISHED),
    "04601": ("101.50", PUBLISHED),
    "20133": ("99.45", PUBLISHED),
    "15042": ("98.59", FLESH),
    "07057": ("102.72", FLESH),
    "02048": ("94.91", ACID),
    "02053": ("94.82", ACID),
    "02068": ("94.95", ACID),
    "02069": ("94.34", ACID),
    "05091": ("100.66", FLESH),
    "06174": ("100.77", FLESH),
    "13803": ("99.44", FLESH),
    "15015": ("100.86", FLESH),
    "15033": ("101.43", FLESH),
    "15035": ("99.29", FLESH),
    "15039": ("100.51", FLESH),
    "15046": ("97.39", FLESH),
    "15077": ("97.22", FLESH),
    "15088": ("99.06", FLESH),
    "15121": ("99.49", FLESH),
    "15240": ("101.13", FLESH),
}
# Foods of Release 28 that Release 26 does not have, and their rows in larder_said.tsv.
NOT_IN_26 = {"14091": "ALMONDMILK", "12012": "HEMP"}
# Water is all water: the table counts 0.1 % of minerals, and a hydration of 65 % must not print as 64.9 %.
ALL_WATER = {"water", "ice"}
ALL_WATER_SOURCE = "water 100 % by definition; SR26 ABBREV 14411 has 99.9 %, the rest minerals"

# Acid that no table has: in 100 g, or (grams in a litre) where the density turns it into that.
FDA_VINEGAR = "acid: FDA CPG Sec. 525.825 (seen): 4 g in 100 ml at least; the label says how much more"
PENNISTON = "acid: citric, Penniston et al., J. Endourol. 2008; 22: 567 (abstract seen): {} g in a fluid ounce"
FLUID_OUNCE = MILLILITRES["fl oz"]
ACIDS = {
    "malt vinegar": ("%", Decimal(4), FDA_VINEGAR),
    "rice vinegar": ("%", Decimal(4), FDA_VINEGAR),
    "white wine vinegar": ("%", Decimal(4), FDA_VINEGAR),
    "lemon juice": ("fl oz", Decimal("1.44"), PENNISTON.format("1.44")),
    "lime juice": ("fl oz", Decimal("1.38"), PENNISTON.format("1.38")),
    "bottled lemon juice": ("fl oz", Decimal("1.10"), PENNISTON.format("1.10")),
    "citric acid": ("%", Decimal(100), "acid 100 % by definition"),
    "cream of tartar": ("%", Decimal("79.8"), "acid: tartaric, 150.1 of 188.2 in potassium bitartrate"),
}

FLAGS = {
    "c": "compound",
    "f": "counts as flour", "n": "not flour", "w": "raw flour", "e": "raw egg", "r": "ready to eat", "v": "not vegan",
    "g": "not vegetarian", "l": "bought by the litre", "p": "bought by the piece",
}
# The words of src/model/kind.rs.
KINDS = set(re.findall(r'^    \(Kind::[^"]*"([^"]+)"\),$', (ROOT / "src/model/kind.rs").read_text(encoding="utf-8"), re.M))
SECTIONS = {
    "bakery", "dairy", "produce", "dry goods", "spices", "baking", "fish and meat", "tinned", "frozen", "drinks",
}
# Reg. (EU) 1169/2011, Annex II, and FALCPA 2004 with the FASTER Act of 2021.
ALLERGENS = {
    "wheat", "gluten", "milk", "egg", "fish", "crustaceans", "molluscs", "tree nuts", "peanuts", "soybeans", "sesame",
    "celery", "mustard", "lupin", "sulphites",
    # Species, which the laws want named.
    "rye", "barley", "oats", "almond", "hazelnut", "walnut", "pecan", "pistachio", "cashew", "pine nut", "brazil nut", "macadamia",
    "cod", "haddock", "saithe", "salmon", "trout", "herring", "mackerel", "anchovy", "sardine", "tuna", "plaice", "flounder", "sole",
    "shrimp", "crab", "lobster", "crayfish", "langoustine", "mussel", "clam", "oyster", "scallop", "squid", "goat milk", "sheep milk", "buffalo milk",
    "duck egg", "goose egg", "quail egg", "turkey egg", "refined peanut oil",
}
NUTS_AND_LEGUMES = {"tree nuts", "peanuts", "lupin"}

HEADER = """\
# The larder that the program brings: what common ingredients weigh by the cup, the spoon or the piece, and what is in 100 g.
#
# Made by tests/scripts/larder_from_usda.py from the USDA National Nutrient Database for Standard Reference: Release 28
# (2015; WEIGHT, household weights; FOOD_DES, refuse) and the abbreviated file of Release 26 (ABBREV, composition). US
# Government work, public domain. Each figure names its table and its NDB number; a figure that has no such source is left
# out. Cups and spoons are US measures. `one weighs` is of the edible part, in US sizes; `yield` is what the refuse leaves.
# Salt is sodium x 2.5, all sodium counted (Reg. (EU) 1169/2011, Annex I).
#
# Allergens are in the words of Reg. (EU) 1169/2011, Annex II (fourteen) and of the US law, FALCPA 2004 with the FASTER Act
# 2021 (nine). What is common in a bought thing is counted as in it. The pack goes before what stands here, and so does the
# law of the place.
"""


class Fault(Exception):
    """Something in the picks or the tables that a person has to look at."""


def table(path):
    """Rows of a USDA table: fields parted by ^, text in ~."""
    for line in path.read_text(encoding="latin-1").splitlines():
        yield [field.strip("~") for field in line.split("^")]


def plain(number):
    """Digits without an exponent and without trailing zeros."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def over(number, count):
    """An exact quotient; one that cannot be written as a decimal is a fault, for rounding it would be a new figure."""
    quotient = number / count
    if quotient * count != number:
        raise Fault(f"{number} / {count} has no end")
    return quotient


def key(name):
    """How names are compared."""
    return " ".join(name.lower().split())


class Pick:
    """One line of larder_picks.tsv."""

    def __init__(self, line, heading):
        fields = [field.strip() for field in line.split("\t")]
        if not 7 <= len(fields) <= 11:
            raise Fault(f"{len(fields)} fields: {line}")
        fields += [""] * (11 - len(fields))
        self.number, self.name, others, self.flags, kind, allergens, self.section, self.measure, self.piece, self.said, more = fields
        self.kind = kind or heading.rsplit(": ", 1)[-1]
        self.more = [line for line in more.split(";") if line]
        self.others = [name.strip() for name in others.split(",") if name.strip()]
        self.allergens = [name.strip() for name in allergens.split(",") if name.strip()]

    def where(self):
        return f"{self.number} {self.name}"


def read_picks():
    """Headings (text) and picks, in their order."""
    past_the_top, heading = False, ""
    for line in (HERE / "larder_picks.tsv").read_text(encoding="utf-8").splitlines():
        if not line.strip():
            past_the_top = True
        elif line.startswith("#"):
            if past_the_top:
                heading = line
                yield line.rsplit(":", 1)[0]
        else:
            names = line.split("\t")[1].split(" / ")
            for name in names:
                pick = Pick(line, heading)
                pick.name = name.strip()
                if len(names) > 1 and pick.others:
                    raise Fault(f"{pick.where()}: other names of which of {len(names)}?")
                yield pick


def volume(pick, rows):
    """The row that gives the density: (row, measure, how many of them); None where there is none."""
    if pick.measure == "-":
        return None
    said = re.fullmatch(r"([0-9.]+) (cup|tbsp|tsp|fl oz|ml)=(.+)", pick.measure)
    if said:
        count, unit, pattern = said.groups()
        row = next((row for row in rows if re.search(pattern, row[3])), None)
        if row is None:
            raise Fault(f"{pick.where()}: no row of WEIGHT.txt is like {pattern}")
        return row, unit, Decimal(row[2]) * Decimal(count)
    # A row says how the cup was filled (`cup, shredded`); one that says nothing needs no pick.
    for begins, unit in MEASURES:
        pattern = pick.measure or f"^{begins}$"
        fits = [row for row in rows if re.match(begins, row[3]) and re.search(pattern, row[3])]
        if fits:
            row = next((row for row in fits if Decimal(row[2]) == 1), fits[0])
            return row, unit, Decimal(row[2])
    if pick.measure:
        raise Fault(f"{pick.where()}: no row of WEIGHT.txt is like {pick.measure}")
    if any(re.match(begins, row[3]) for row in rows for begins, _ in MEASURES):
        raise Fault(f"{pick.where()}: say which row gives the density, or `-`: {[row[2:5] for row in rows]}")
    return None


# What a spoon holds where the table heaps it: packs give 7.2 g, a packet of the table, as 2 1/4 tsp (from memory), so 3.2 g a spoon.
SPOONS = {
    "active dry yeast": "spoon: the packet of 7.2 g in the table, which packs give as 2 1/4 tsp (from memory); its 4 g for 1 tsp is heaped by that",
    "instant yeast": "spoon: as of active dry yeast, 7.2 g in 2 1/4 tsp (from memory); its little water is left out, so that hydration counts none",
}
SPOON = "weighs 3.2 g per tsp US"
STIRRED_DOWN = "common practice, no source: a cup stirred down, 227 to 240 g in American books (from memory)"
# What a cup holds of what no row of WEIGHT.txt weighs, with what that rests on.
CUPS = {
    "white wine vinegar": (239, "cup: as of red wine vinegar, 239 g (USDA SR28 WEIGHT 02068)"),
    "malt vinegar": (238, "cup: as of distilled vinegar, 238 g (USDA SR28 WEIGHT 02053)"),
    "rice vinegar": (238, "cup: as of distilled vinegar, 238 g (USDA SR28 WEIGHT 02053)"),
    "sherry vinegar": (239, "cup: as of red wine vinegar, 239 g (USDA SR28 WEIGHT 02068)"),
    "vegetable stock": (240, "cup: as of chicken stock, 240 g (USDA SR28 WEIGHT 06172)"),
    "stock": (240, "cup: as of chicken stock, 240 g (USDA SR28 WEIGHT 06172)"),
    "oat milk": (243, "cup: as of soya milk, 243 g (USDA SR28 WEIGHT 16222)"),
    "cider": (238, "cup: as of beer, 29.7 g a fluid ounce (USDA SR28 WEIGHT 14003)"),
    "brandy": (222, "cup: as of spirits of 80 proof, 27.8 g a fluid ounce (USDA SR28 WEIGHT 14037)"),
    "creme fraiche": (230, "cup: as of sour cream, 230 g (USDA SR28 WEIGHT 01056)"),
    **dict.fromkeys(("wheat starter", "rye starter", "sourdough starter"), (230, STIRRED_DOWN)),
    "double cream": (237, "cup: light cream of 19 % fat weighs 240 g and heavy cream of 37 % 238 g (USDA SR28 WEIGHT 01050, 01053), carried on to 48 %"),
}


def weight_lines(pick, rows):
    """Lines on what a measure and a piece weigh, the sources of them, and the rows used."""
    lines, sources, used = [], [], []
    if pick.name in CUPS:
        lines.append(f"weighs {CUPS[pick.name][0]} g per cup US")
    found = volume(pick, rows)
    if found:
        row, unit, count = found
        grams = over(Decimal(row[4]), count)
        low, high = DENSITIES
        if not low <= grams / MILLILITRES[unit] <= high:
            raise Fault(f"{pick.where()}: {grams} g in a {unit} is {grams / MILLILITRES[unit]:.3f} g/ml")
        lines.append(f"weighs {plain(grams)} g per {unit}" + ("" if unit == "ml" else " US"))
        used.append(row)
    if pick.name in SPOONS:
        lines = [SPOON]
    if pick.piece:
        row = next((row for row in rows if re.search(pick.piece, row[3])), None)
        if row is None:
            raise Fault(f"{pick.where()}: no row of WEIGHT.txt is like {pick.piece}")
        lines.append(f"one weighs {plain(over(Decimal(row[4]), Decimal(row[2])))} g")
        used.append(row)
    if used:
        said = ", ".join(f"{plain(Decimal(row[2]))} {row[3]} {plain(Decimal(row[4]))} g" for row in used)
        sources.append(f"SR28 WEIGHT {pick.number} ({said})")
    return lines, sources, used


def sheet(name):
    """Rows of a table beside this script, by their keys."""
    lines = (HERE / name).read_text(encoding="utf-8").splitlines()
    return {line.split("\t")[0]: line.split("\t") for line in lines if line and not line.startswith("#")}


def usda(number, foods, compositions):
    """What 100 g of a food hold, by the tables: grams, and by what its nitrogen was multiplied."""
    facts, food = compositions.get(number), foods[number]
    if facts is None:
        return {}, None
    known = {word: Decimal(facts[at]) for word, at in FIELDS.items() if facts[at]}
    return known, Decimal(food[NITROGEN]) if food[NITROGEN] else None


def mixed(number, foods, compositions):
    """What 100 g of a mix hold: `01003*50+01085*50`. What is not known of one of them is not known."""
    parts = [part.split("*") for part in number.split("+")]
    if sum(Decimal(share) for _, share in parts) != 100:
        raise Fault(f"{number} is not 100 %")
    sheets = [(usda(one, foods, compositions), Decimal(share) / 100) for one, share in parts]
    words = [word for word in FIELDS if all(word in known for (known, _), _ in sheets)]
    mix = {word: sum(known[word] * share for (known, _), share in sheets).quantize(Decimal("0.01")) for word in words}
    # Protein of several factors: nitrogen adds up.
    factors = {factor for (known, factor), _ in sheets if known.get("protein")}
    factor = factors.pop() if len(factors) == 1 else None
    return mix, factor


def figure_lines(known, factor, added):
    """The lines of a block on what is in 100 g."""
    lines = [f"{word} {plain(known[word])} %" for word in ("water", "fat", "saturates") if word in known]
    if "sodium" in known:
        lines.append(f"salt {plain(known['sodium'] * SODIUM_TO_SALT / 1000)} %")
    if "sugar" in known:
        lines.append(f"sugar {plain(known['sugar'])} %")
        lines += [f"added sugar {plain(known['sugar'])} %"] if added else []
    if "protein" in known:
        lines.append(f"protein {plain(known['protein'])} %")
        lines += [f"nitrogen factor {plain(factor)}"] if factor and factor != Decimal("6.25") and known["protein"] else []
    lines += [f"{word} {plain(known[word])} %" for word in ("carbohydrate", "fibre", "alcohol") if word in known]
    if "energy" in known:
        lines.append(f"energy {plain(known['energy'])} kcal")
    lines += [f"{word} {plain(known[word])} {unit}" for word, unit in TRACES.items() if word in known]
    return lines


def ciqual(row):
    """What 100 g hold by a row of CIQUAL; its carbohydrate is without the fibre."""
    words = ("energy", "water", "protein", "protein625", "carbohydrate", "fat", "sugar", "fibre", "saturates", "salt", "calcium")
    known = {word: Decimal(cell) for word, cell in zip(words, row[2:] + [""] * 11) if cell}
    known["carbohydrate"] += known["fibre"]
    gross = known.pop("protein625")
    factor = None
    if known["protein"]:
        factor = min(JONES, key=lambda jones: abs(jones / Decimal("6.25") - known["protein"] / gross))
    if "salt" in known:
        known["sodium"] = known.pop("salt") * 1000 / SODIUM_TO_SALT
    return known, factor


def composition_lines(pick, foods, compositions):
    """Lines on what is in 100 g, and the sources of them."""
    number, added = pick.number, "s" in pick.flags
    if pick.name in ALL_WATER:
        return ["water 100 %"], []
    if number == "-":
        return [], []
    if number.startswith("M:"):
        row = sheet("larder_said.tsv")[number[2:]]
        return row[1].split(";"), [row[2]]
    if number.startswith(("C:", "C~")):
        row = sheet("larder_ciqual.tsv")[number[2:]]
        source = "ANSES, CIQUAL food composition table, seen in a public copy (larder_ciqual.tsv): " + row[1]
        return figure_lines(*ciqual(row), added), [source]
    if "*" in number:
        known, factor = mixed(number, foods, compositions)
        source = " and ".join(f"{share} % of {foods[one][2]} ({one})" for one, share in (p.split("*") for p in number.split("+")))
        return figure_lines(known, factor, added), [f"USDA SR26 ABBREV, mixed of {source}"]
    one = number.lstrip("~")
    known, factor = usda(one, foods, compositions)
    if not known and one in NOT_IN_26:
        row = sheet("larder_said.tsv")[NOT_IN_26[one]]
        return row[1].split(";"), [row[2]]
    total = sum(known.get(word, Decimal(0)) for word in PARTS_OF_ALL)
    other = OTHER_SUMS.get(one)
    if other:
        if total != Decimal(other[0]):
            raise Fault(f"{pick.where()}: adds up to {total}, was {other[0]} ({other[1]})")
        if other[1] == ALCOHOL:
            known["alcohol"] = 100 - total
    elif abs(total - 100) > TOLERANCE:
        raise Fault(f"{pick.where()}: adds up to {total}")
    what = f"figures by proxy, of {foods[one][2]}" if number.startswith("~") else "composition"
    sources = [f"SR26 ABBREV {one} ({what})"]
    if factor:
        sources.append(f"SR28 FOOD_DES {one} (nitrogen factor)")
    if other and other[1] == ALCOHOL:
        sources.append("alcohol: what the parts leave of 100")
    return figure_lines(known, factor, added), sources


def acid_lines(pick, rows):
    """The line on its acid, and the source of it."""
    other = OTHER_SUMS.get(pick.number.lstrip("~"))
    if pick.name not in ACIDS and other and other[1] == ACID:
        # What water, protein, fat, ash and carbohydrate leave of 100.
        share, source = 100 - Decimal(other[0]), f"acid: what the parts in SR26 ABBREV {pick.number} leave of 100"
    elif pick.name in ACIDS:
        unit, share, source = ACIDS[pick.name]
        if unit == "fl oz":
            row, measure, count = volume(pick, rows)
            grams = Decimal(row[4]) / count / MILLILITRES[measure] * FLUID_OUNCE
            share = (share / grams * 100).quantize(Decimal("0.1"))
    else:
        return [], []
    return [f"acid {plain(share)} %"], [source]


# ABBREV has no trans fat.
TRANS = {
    "milk": "trans fat: 4 % of the fat of milk, as 3.28 g in butter of 81.1 g are, which healthline.com prints of the USDA (seen)",
    "oil": "trans fat: 0.5 % of an oil, from memory of USDA SR28 (soybean oil 04044)",
}
# Oils of which another table says that there is a trace, with their numbers there.
COFID = {
    "soybean oil": "17-044",
    "vegetable oil": "17-686",
    "olive oil": "17-038",
    "rapeseed oil": "17-041",
    "sunflower oil": "17-045",
    "safflower oil": "17-042",
    "corn oil": "17-033",
    "peanut oil": "17-040",
    "sesame oil": "17-043",
    "coconut oil": "17-031",
    "palm oil": "17-039",
    "walnut oil": "17-047",
    "hazelnut oil": "17-037",
    "grapeseed oil": "17-036",
    "refined soybean oil": "17-044",
    "refined peanut oil": "17-040",
    "high-oleic sunflower oil": "17-045",
    "wheat germ oil": "17-048",
}
OF_COFID = (
    "trans fat: a trace in CoFID of 2015, {} (as github.com/elahmo/dsfood has it, seen); 0.5 % is the most that refining leaves, "
    "from memory of USDA SR28 (soybean oil 04044)"
)


def trans_source(pick, line):
    """What a line on trans fat rests on."""
    if line != "trans fat 0.5 %" or "milk" in pick.allergens:
        return TRANS["milk"]
    return OF_COFID.format(COFID[pick.name]) if pick.name in COFID else TRANS["oil"]


def trans_line(pick, figures):
    """The line on trans fat of what is made of milk alone, and of oils."""
    fat = next((Decimal(line.split()[1]) for line in figures if line.startswith("fat ")), None)
    if not fat:
        return []
    of_milk = "milk" in pick.allergens and pick.kind in ("dairy", "milk", "fat") and "c" not in pick.flags
    of_plants = pick.kind == "fat" and pick.name.endswith(" oil") and "milk" not in pick.allergens
    if of_milk:
        return [f"trans fat {plain((fat * Decimal('0.04')).quantize(Decimal('0.01')))} %"]
    return ["trans fat 0.5 %"] if of_plants else []


def block(pick, foods, compositions, rows):
    """The text of an ingredient block and, for a food of the tables, its row of the extract."""
    lines = [f"ingredient {pick.name}"]
    if pick.others:
        lines.append("also called " + ", ".join(pick.others))
    more, sources, used = weight_lines(pick, rows)
    lines += more
    more, more_sources = composition_lines(pick, foods, compositions)
    # The water of a starter is that of a dough whose flour is not counted here either.
    if pick.name == "instant yeast" or pick.kind == "leaven":
        more = [line for line in more if not line.startswith("water ")]
    lines += more
    lines += (trans := trans_line(pick, more))
    sources += [source for source in more_sources if source.startswith("SR")]
    others = [source for source in more_sources if not source.startswith("SR")]
    more, acid_sources = acid_lines(pick, rows)
    lines += more
    food = foods.get(pick.number)
    facts = compositions.get(pick.number)
    # An egg is counted without its shell, and nuts, meat and fish are bought ready; what is trimmed in the kitchen counts.
    refuse = food[8] if food else ""
    if pick.section == "produce" and refuse not in ("", "0"):
        lines.append(f"yield {100 - int(refuse)} %")
        sources.append(f"SR28 FOOD_DES {pick.number} (refuse {refuse} %: {food[7]})")
    else:
        refuse = ""
    lines.append(f"is {pick.kind}")
    if pick.allergens:
        lines.append("contains " + ", ".join(pick.allergens))
    lines += [FLAGS[flag] for flag in pick.flags if flag != "s"]
    lines += pick.more
    lines.append(f"section {pick.section}")
    if sources:
        lines.append("source USDA " + "; ".join(sources))
    if pick.name in ALL_WATER:
        lines.append(f"source {ALL_WATER_SOURCE}")
    lines += [f"source {source}" for source in others + acid_sources]
    if "s" in pick.flags and any(line.startswith("added sugar") for line in lines):
        lines.append("source added sugar: all of its sugar, so at most that")
    if trans:
        lines.append(f"source {trans_source(pick, trans[0])}")
    if pick.name in SPOONS:
        lines.append(f"source {SPOONS[pick.name]}")
    lines += [f"source {said}" for said in pick.said.split(" | ") if said]
    if pick.name in CUPS:
        lines.append(f"source {CUPS[pick.name][1]}")
    if food is None:
        return "\n".join(lines), None
    words = ("water", "energy", "protein", "fat", "carbohydrate", "sugar", "fibre", "sodium", "ash")
    figures = [facts[FIELDS[word]] if facts else "" for word in words]
    weighed = "; ".join(f"{plain(Decimal(row[2]))} {row[3]}={plain(Decimal(row[4]))}" for row in used)
    after = ("saturates", "cholesterol", "vitamin D", "calcium", "iron", "potassium")
    extras = [facts[FIELDS[word]] if facts else "" for word in after] + [food[NITROGEN]]
    return "\n".join(lines), "\t".join([pick.name, pick.number, food[2], *figures, refuse, weighed, *extras])


NUMBER = r"[0-9]+(?:\.[0-9]+)?"
SHAPES = [
    r"ingredient [^,]+",
    r"also called .+",
    rf"weighs {NUMBER} g per (?:ml|(?:cup|tbsp|tsp|fl oz) US)",
    rf"one weighs {NUMBER} g",
    rf"(?:water|fat|saturates|trans fat|salt|sugar|added sugar|polyols|protein|carbohydrate|fibre|acid|alcohol|yield) {NUMBER} %",
    rf"nitrogen factor {NUMBER}",
    rf"(?:cholesterol|calcium|iron|potassium) {NUMBER} mg",
    rf"vitamin D {NUMBER} ug",
    r"(?:listed as|consists of) .+",
    rf"energy {NUMBER} kcal",
    r"contains .+",
    r"is [a-z ]+",
    *FLAGS.values(),
    r"section .+",
    r"source \S.*",
]
FORBIDDEN_IN_NAMES = re.compile(r"\.\.|…|[:,{}\[\]#=\"\t]")


def lint(text):
    """Faults in the text of a larder, as a reader of it would find them."""
    faults, seen = [], {}
    for one in re.split(r"\n(?=ingredient )", text)[1:]:
        lines = [line for line in one.splitlines() if line and not line.startswith("#")]
        name = lines[0].removeprefix("ingredient ")

        def fault(what):
            faults.append(f"{name}: {what}")

        def first(word):
            return next((line.removeprefix(word + " ") for line in lines if line.startswith(word + " ")), None)

        for line in lines:
            if not any(re.fullmatch(shape, line) for shape in SHAPES):
                fault(f"no such line: {line}")
            if re.search(r"(?:^|\s)#\s", line):
                fault(f"a comment begins in: {line}")
        words = [re.match(r"[a-z]+(?: called| weighs| sugar|(?<=trans) fat)?", line)[0] for line in lines if not line.startswith("source")]
        once = [word for word in words if word not in ("raw", "counts", "not", "ready")]
        if len(once) != len(set(once)):
            fault("says a thing twice")
        names = [name, *(first("also called") or "").split(", ")] if first("also called") else [name]
        for each in names:
            if FORBIDDEN_IN_NAMES.search(each) or each != " ".join(each.split()):
                fault(f"not a name: `{each}`")
            if key(each) in seen:
                fault(f"`{each}` stands in `{seen[key(each)]}` too")
            seen[key(each)] = name
        if first("source") is None:
            fault("no source")
        if first("is") not in KINDS:
            fault(f"no such kind: {first('is')}")
        if first("section") not in SECTIONS:
            fault(f"no such section: {first('section')}")
        allergens = (first("contains") or "").split(", ") if first("contains") else []
        if unknown := set(allergens) - ALLERGENS:
            fault(f"no such allergen: {unknown}")
        if "wheat" in allergens and "gluten" not in allergens:
            fault("wheat and no gluten")
        if "raw egg" in lines and "egg" not in allergens:
            fault("raw egg and no egg")
        if "ready to eat" in lines and ("raw egg" in lines or "raw flour" in lines):
            fault("raw and ready to eat")
        if "counts as flour" in lines and "not flour" in lines:
            fault("flour and not flour")
        is_flour = any(key(each).split()[-1] == "flour" for each in names)
        if is_flour and NUTS_AND_LEGUMES & set(allergens) and "not flour" not in lines:
            fault("would count as flour")
        if is_flour and "not flour" not in lines and "raw flour" not in lines:
            fault("a flour that is not raw")
        figures = {word: re.fullmatch(f"({NUMBER}) %", first(word) or "") for word in FIELDS}
        share = {word: Decimal(figure[1]) for word, figure in figures.items() if figure}
        if any(of > 100 for of in share.values()):
            fault("more than 100 %")
        # Sugar and fibre are measured apart from carbohydrate, which is what is left of 100; they may pass it by a little.
        for word in ("sugar", "fibre"):
            if word in share and share[word] > share.get("carbohydrate", Decimal(0)) + 2:
                fault(f"more {word} than carbohydrate")
    if len(seen) < 150:
        faults.append("fewer than 150 ingredients")
    return faults


def make(data):
    """The texts of the two files, and remarks."""
    foods = {row[0]: row for row in table(data / "sr28-FOOD_DES.txt")}
    compositions = {row[0]: row for row in table(data / "sr26-ABBREV.txt")}
    weights = {}
    for row in table(data / "sr28-WEIGHT.txt"):
        weights.setdefault(row[0], []).append(row)
    pieces, extract, remarks, faults = [], [], [], []
    count = bare = 0
    for pick in read_picks():
        if isinstance(pick, str):
            pieces.append(pick)
            continue
        count += 1
        food, facts = None, None
        number = pick.number.lstrip("~")
        if pick.number == "-":
            bare += 1
        elif "*" in number or ":" in number or number.startswith("C~"):
            pass
        else:
            food, facts = foods.get(number), compositions.get(number)
            if food is None:
                faults.append(f"{pick.where()}: not in FOOD_DES.txt")
                continue
            if facts is None:
                remarks.append(f"{pick.where()}: in Release 28 and not in 26, so no composition ({food[2]})")
            elif key(facts[1]).replace(" ", "") != key(food[3]).replace(" ", ""):
                remarks.append(f"{pick.where()}: Release 26 calls it {facts[1]}, Release 28 {food[3]}")
        try:
            text, row = block(pick, foods, compositions, weights.get(pick.number, []))
        except Fault as fault:
            faults.append(str(fault))
            continue
        pieces.append(text)
        if row is not None:
            extract.append(row)
    larder = HEADER + "\n" + "\n\n".join(pieces) + "\n"
    head = [
        "# What stands behind src/model/larder/larder.miche. USDA National Nutrient Database for Standard Reference: Release 26,",
        "# ABBREV (composition in 100 g) and Release 28, WEIGHT and FOOD_DES. US Government work, public domain. Made by",
        "# tests/scripts/larder_from_usda.py. Empty: not in the table or not used. `water` itself is 100 % in the larder.",
        "# name\tndb\tdescription\twater\tkcal\tprotein\tfat\tcarbohydrate\tsugar\tfibre\tsodium_mg\tash\trefuse\tweights\tsaturates\t"
        "cholesterol_mg\tvitamin_D_ug\tcalcium_mg\tiron_mg\tpotassium_mg\tnitrogen_factor",
    ]
    remarks.append(f"{count} ingredients, {bare} of them without figures")
    return larder, "\n".join(head + extract) + "\n", remarks, faults + lint(larder)


def main():
    arguments = [argument for argument in sys.argv[1:] if argument != "--check"]
    if len(arguments) != 1:
        sys.exit(__doc__)
    larder, extract, remarks, faults = make(Path(arguments[0]))
    for remark in remarks:
        print(remark)
    if faults:
        sys.exit("\n".join(faults))
    for path, text in ((LARDER, larder), (EXTRACT, extract)):
        if "--check" not in sys.argv:
            path.write_text(text, encoding="utf-8")
        elif path.read_text(encoding="utf-8") != text:
            sys.exit(f"{path} is not what this script makes of the tables")


if __name__ == "__main__":
    main()
