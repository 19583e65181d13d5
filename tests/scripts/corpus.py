#!/usr/bin/env python3
"""Makes corpora to measure on: many recipes of about 2.5 kB in folders, so many copies of the largest example with the kitchen
and the larder that it uses, or one recipe of so many lines.

    corpus.py files COUNT FOLDER
    corpus.py largest COUNT FOLDER
    corpus.py lines COUNT FILE
    corpus.py ledger COUNT FILE

The same arguments give the same bytes. Every file is right: `miche check` finds no error in it. `ledger` writes as many lines
of a plain-text ledger (dated transactions whose postings balance, with asserted balances), to be read beside the others.
"""

import pathlib
import random
import shutil
import sys

EXAMPLES = pathlib.Path(__file__).resolve().parent.parent.parent / "examples"
LARGEST = "rhubarb-crumb-buns.miche"
"""The largest example: four ways to choose, a kitchen and a larder."""
USED = ["bakehouse.miche", "larder.miche", "pictures/crumb-buns.png", "pictures/rounds-at-rest.png"]
"""What it names."""

FLOURS = ["strong white flour", "plain flour", "wholemeal flour", "rye flour"]
ADDED = ["pumpkin seeds", "walnuts", "sultanas", "rolled oats", "linseed", "sunflower seeds", "poppy seeds", "dried figs"]
PLACES = ["Skerrow", "Harbour", "Quay", "Tide", "Shore", "Beacon", "Slipway", "Lantern", "Mooring", "Headland"]
KINDS = ["loaf", "rolls", "tin loaf", "batons", "rounds", "sticks", "plaits", "cobs"]

KITCHEN = """kitchen Harbour bakehouse
oven x 2, holds 40 pieces
mixer x 1, holds 60 kg, friction 12 C
prover x 1
hob x 4
cooks 2
open 04:00-22:00
scale 1 g
fine scale 0.1 g, up to 300 g
"""

PROSE = [
    "Keep the bowl covered while it rests, and go by how it feels and not by the clock alone; a cold",
    "morning makes it slower, a warm oven close by makes it quicker.",
    "Scrape down now and then. What clings to the hook belongs to the dough as much as the rest does.",
    "Turn it out on a *lightly* dusted bench, smooth side down, and let it relax before the next fold.",
]


def recipe(number: int) -> str:
    """One recipe of about 2.5 kB."""
    pick = random.Random(number)
    place, kind = pick.choice(PLACES), pick.choice(KINDS)
    flour, other = pick.sample(FLOURS, 2)
    first, second = pick.sample(ADDED, 2)
    share = pick.choice([10, 15, 20, 25, 30])
    pieces, each = pick.choice([24, 30, 36, 40, 48]), pick.choice([340, 480, 600])
    water = pick.choice([64, 66, 68, 70, 72])
    hot = pick.choice([(210, 410), (220, 428), (230, 446), (240, 464)])
    lines = [
        f"recipe {place} {kind} {number}",
        f"makes {pieces} pieces",
        'use "bakehouse.miche"',
        "choose mixing: machine or hand",
        f"note Number {number} of the {place} book: for the counter, and for the school on two days a week.",
        "",
        f"# {share} % of the flour ferments overnight.",
        "part poolish, from dough",
        f"{flour} .... {share} %",
        f"water .... {share} %, at 20 C",
        "instant yeast .... 0.2 %",
        "",
        "stir: hands 4 min",
        f"    Dissolve {{instant yeast}} in {{water}} and stir in {{{flour}}} until no lumps are left.",
        "ripen: wait 11-13 h, at 21 C, up to 15 h",
        "    until the top is full of small bubbles and just begins to sink",
        "",
        "part dough",
        f"{flour} .... {pick.choice([80, 85, 90])} %",
        f"{other} .... @ %",
        f"water .... {water} %",
        "salt .... 1.9 %",
        "instant yeast .... 0.35 %",
        f"{first} .... {pick.choice([6, 8, 10, 12])} %, toasted",
        f"{second} .... {pick.choice([4, 5, 6])} %",
        "semolina .... as needed, aside",
        f"divide {pieces} x {each} g, loss 1.5 %",
        "desired temperature 24 C",
        "",
        "mix: hands 13 min, using mixer    [machine]",
        f"    Mix {{poolish}}, {{water}}, {{{flour}}}, {{{other}}} and {{instant yeast}} for {{4 min}} on low. Add",
        f"    {{salt}}; {{5 min}} on medium, then {{{first}}} and {{{second}}} on low.",
        "    until the dough comes off the bottom and stretches without tearing at once",
        "mix: hands 25 min    [hand]",
        f"    Stir {{poolish}}, {{water}}, {{{flour}}}, {{{other}}} and {{instant yeast}} together and knead. Work in",
        f"    {{salt}}, then {{{first}}} and {{{second}}}.",
        "    until smooth and no longer sticky",
        "first rise: wait 45 min, at 24 C",
        *("    " + line for line in PROSE[: pick.choice([2, 4])]),
        "fold: hands 4 min",
        "    Fold in from all four sides and turn the dough over.",
        "second rise: wait 45 min, at 24 C",
        f"cut: hands 20 s, each",
        f"    Scale at {{{each} g}} and roll up loosely.",
        "bench rest: wait 20 min",
        "shape: hands 40 s, each",
        "    Shape to {20 cm} and lay on a cloth dusted with {semolina}, seam up.",
        "prove: wait 45-55 min, at 24 C",
        "    until light, and a finger's dent fills slowly",
        f"bake: tend 22-24 min, using oven at {hot[0]} C = {hot[1]} F, {pieces // 2} at a time",
        "    Slash, load, and give steam for the first {10 min}.",
        "    until red-brown and crackling when lifted out",
        "cool: wait 30 min",
        "    On racks, not touching, out of the draught of the door; whatever is packed warm goes damp.",
        f"# Tried on {number % 28 + 1} March, changed once: less salt, a longer rest, and the seeds toasted first.",
    ]
    base = next(line for line in lines if line.startswith(f"{flour} ....") and line.split()[-2] in ("80", "85", "90"))
    text = "\n".join(lines) + "\n"
    return text.replace("@ %", f"{100 - int(base.split()[-2])} %")


def part(number: int) -> list[str]:
    """Twenty-five lines, which need two more where the part is used, of a long recipe."""
    pick = random.Random(number)
    flour, other = pick.sample(FLOURS, 2)
    added = pick.choice(ADDED)
    return [
        f"part dough {number}",
        f"{flour} ............ 800 g",
        f"{other} ............ 200 g",
        f"water ............ {pick.choice([64, 66, 68])} %",
        "salt ............ 1.9 %",
        "instant yeast ............ 0.7 %",
        f"{added} ............ {pick.choice([6, 8, 10])} %, toasted",
        "keeps 2 days, chilled",
        "",
        "mix: hands 13 min, using mixer",
        f"    Mix {{water}}, {{{flour}}}, {{{other}}} and {{instant yeast}} for {{4 min}} on low. Add {{salt}};",
        f"    {{5 min}} on medium, then {{{added}}} on low.",
        "    until the dough comes off the bottom and stretches without tearing at once",
        "first rise: wait 45 min, at 24 C",
        *("    " + line for line in PROSE),
        "fold: hands 4 min",
        "    Fold in from all four sides and turn the dough over.",
        "# To the cold room, under a cloth, on the lowest shelf.",
        "chill: wait 10 h, at 4 C, up to 18 h",
        "    until firm",
        "",
        "",
    ]


def long_recipe(lines: int) -> str:
    """A recipe of so many lines: a great many doughs, all mixed into one last part."""
    count = max(1, (lines - 8) // 27)
    text = ["recipe Everything at once", 'use "bakehouse.miche"', "note Made to be measured.", ""]
    for number in range(count):
        text += part(number)
    text += ["part all of it", *(f"dough {number} .... all" for number in range(count)), ""]
    text += ["join: hands 60 min", *(f"    Lay {{dough {number}}} beside the others." for number in range(count))]
    text += ["# Nothing more to say."] * (lines - len(text))
    return "\n".join(text[:lines]) + "\n"


def ledger(lines: int) -> str:
    """So many lines of a ledger: four for a purchase, every tenth with the balance of the till asserted."""
    pick = random.Random(1)
    text, till = [], 0
    for number in range(lines // 4):
        cents = pick.randrange(100, 20000)
        till -= cents
        claim = f" = EUR {till / 100:.2f}" if number % 10 == 0 else ""
        text += [
            f"2027-{number % 12 + 1:02}-{number % 28 + 1:02} Mill of Skerrow {number}",
            f"    Expenses:Flour:{pick.choice(FLOURS).title().replace(' ', '')}    EUR {cents / 100:.2f}",
            f"    Assets:Till    EUR {-cents / 100:.2f}{claim}",
            "",
        ]
    return "\n".join(text) + "\n"


def copies(count: int, place: pathlib.Path) -> None:
    """So many copies of the largest example, all of which use one kitchen and one larder."""
    for used in USED:
        (place / used).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(EXAMPLES / used, place / used)
    for number in range(count):
        shutil.copy(EXAMPLES / LARGEST, place / f"copy-{number:05}.miche")


def main() -> None:
    what, count, place = sys.argv[1], int(sys.argv[2]), pathlib.Path(sys.argv[3])
    if what == "largest":
        copies(count, place)
        return
    if what == "files":
        place.mkdir(parents=True, exist_ok=True)
        # A folder of a hundred recipes with the kitchen that they use.
        for number in range(count):
            folder = place / f"book-{number // 100:03}"
            if number % 100 == 0:
                folder.mkdir(exist_ok=True)
                (folder / "bakehouse.miche").write_text(KITCHEN)
            (folder / f"recipe-{number:05}.miche").write_text(recipe(number))
        return
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text(long_recipe(count) if what == "lines" else ledger(count))
    if what == "lines":
        (place.parent / "bakehouse.miche").write_text(KITCHEN)


if __name__ == "__main__":
    main()
