#!/usr/bin/env python3
"""Days of many orders for measuring the planner, made up by a seed, and how long their plans take.

    python3 tests/scripts/plan_days.py FOLDER                  writes FOLDER/18-orders and FOLDER/100-orders
    python3 tests/scripts/plan_days.py FOLDER --measure MICHE  plans them too, with the single recipe, the example days and the
                                                               published job shops, and prints a table in Markdown

Eighteen orders are made by three cooks in shifts with two ovens, a hundred by twelve with eight. The recipes are doughs baked on
the day, doughs out of the cold, doughs with a preferment, and pastry that is not alive. Times are of the processor (the machine may
be busy), each the least of three runs.
"""

import json
import pathlib
import random
import resource
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]

KITCHENS = {
    18: """kitchen Measured bakehouse
oven x 2, heating 20 min, agrees within 15 C
mixer x 2, holds 40 kg
prover x 12
retarder x 12
cook Asta 20:00-04:00, rests 30 min
cook Birk 23:00-07:00, rests 30 min
cook Cleo 02:00-10:00, rests 30 min
open 20:00-10:00
scale 1 g
fine scale 0.01 g, up to 500 g
""",
    100: """kitchen Measured works
oven x 8, heating 20 min, agrees within 15 C
mixer x 6, holds 40 kg
prover x 60
retarder x 60
""" + "".join(f"cook Baker{number} {start}, rests 30 min\n" for number, start in enumerate(
        ["20:00-04:00"] * 4 + ["23:00-07:00"] * 4 + ["02:00-10:00"] * 4, 1)) + "open 20:00-10:00\nscale 1 g\nfine scale 0.01 g, up to 500 g\n",
}

ALL = "{{strong white flour}}, {{water}}, {{salt}} and {{instant yeast}}"
BASE = "strong white flour .... 100 %\nwater .... {water} %\nsalt .... 2 %\n"


def dough(dice):
    """Mixed, proved and baked on the day."""
    return (
        f"part dough\n{BASE.format(water=dice.randint(58, 66))}instant yeast .... 1 %\n"
        f"divide {{pieces}} x {{each}} g, loss 1.5 %\n\n"
        f"mix: hands 10 min, using mixer\n    Mix {ALL}.\n    until smooth\n"
        f"rise: wait {dice.choice([45, 60, 75])} min, at 25 C\n"
        f"shape: hands {dice.choice([8, 10, 12])} s, each\n"
        f"prove: wait 50 min, using prover at 28 C, up to 100 min\n    until light\n"
        f"bake: tend {dice.choice([16, 20, 28])} min, using oven at {dice.choice([210, 220, 230])} C, {{load}} at a time\n"
        f"    until gold\ncool: wait 30 min\n"
    )


def cold(dice):
    """Shaped the evening before, baked out of the cold."""
    return (
        f"part dough\n{BASE.format(water=dice.randint(66, 74))}instant yeast .... 0.4 %\n"
        f"divide {{pieces}} x {{each}} g, loss 1.5 %\n\n"
        f"mix: hands 10 min, using mixer\n    Mix {ALL}.\n    until smooth\n"
        f"bulk: wait 90 min, at 24 C\n"
        f"shape: hands {dice.choice([10, 14])} s, each\n"
        f"retard: wait 8 h, using retarder at 5 C, up to 20 h\n    until firm\n"
        f"bake: tend {dice.choice([35, 45])} min, using oven at {dice.choice([230, 240])} C, {{load}} at a time\n"
        f"    until dark\ncool: wait 1 h\n"
    )


def fermented(dice):
    """With a preferment from the morning or the evening before."""
    return (
        "part poolish, from dough\nstrong white flour .... 25 %\nwater .... 25 %\ninstant yeast .... 0.05 %\n\n"
        "stir: hands 4 min\n    Stir {{strong white flour}}, {{water}} and {{instant yeast}}.\nripen: wait 9 h, at 20 C, up to 15 h\n    until full of bubbles\n\n"
        f"part dough\n{BASE.format(water=dice.randint(64, 70))}instant yeast .... 0.4 %\n"
        f"divide {{pieces}} x {{each}} g, loss 1.5 %\n\n"
        f"mix: hands 10 min, using mixer\n    Mix {{{{poolish}}}}, {ALL}.\n    until smooth\n"
        f"rise: wait 60 min, at 24 C\n"
        f"shape: hands {dice.choice([12, 15])} s, each\n"
        f"prove: wait 45 min, at 24 C, up to 80 min\n    until light\n"
        f"bake: tend {dice.choice([22, 26])} min, using oven at {dice.choice([235, 245])} C, {{load}} at a time\n"
        f"    until crackling\ncool: wait 30 min\n"
    )


def pastry(dice):
    """Nothing alive: it waits where it likes."""
    return (
        "part paste\nplain flour .... 100 %\nbutter .... 60 %\ncaster sugar .... 30 %\n"
        "divide {pieces} x {each} g, loss 3 %\n\n"
        f"rub: hands 10 min, using mixer\n    Rub {{{{plain flour}}}}, {{{{butter}}}} and {{{{caster sugar}}}}.\n    until it holds together\n"
        f"chill: wait 1 h, at 4 C, up to 2 days\n    until firm\n"
        f"cut: hands {dice.choice([4, 5])} s, each\n"
        f"bake: tend {dice.choice([14, 18])} min, using oven at {dice.choice([170, 180])} C, {{load}} at a time\n"
        f"    until gold\ncool: wait 30 min\n"
    )


def write(folder, orders, seed):
    """One day of so many orders."""
    dice = random.Random(seed)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "kitchen.miche").write_text(KITCHENS[orders])
    day = f"day {orders} orders\nuse \"kitchen.miche\"\nready 2027-04-17 09:30\n"
    for number in range(1, orders + 1):
        kind = [dough, cold, fermented, pastry][number % 4]
        load = dice.choice([20, 24, 30])
        pieces, each = load * dice.choice([1, 1, 2]), dice.choice([60, 90, 120, 350])
        recipe = f"recipe Order {number}\nmakes {pieces} pieces\nuse \"kitchen.miche\"\n\n"
        recipe += kind(dice).format(pieces=pieces, each=each, load=load)
        (folder / f"order-{number}.miche").write_text(recipe)
        ready = dice.choice(["", "", ", ready 2027-04-17 06:30"])
        day += f"make {pieces} of \"order-{number}.miche\"{ready}\n"
    (folder / "day.miche").write_text(day)


def plan(miche, day, limit):
    """The plan as JSON, and the seconds of processor time that it took; `None` where there is none."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    run = subprocess.run([miche, "plan", day, "--limit", limit, "--format", "json"], capture_output=True, text=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    took = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return (json.loads(run.stdout) if run.returncode == 0 else None), took, run.stderr


def measure(miche, folder):
    """Prints the table."""
    days = [
        ("a single recipe", ROOT / "examples/harbour-rolls.miche", "10s"),
        ("the example day", ROOT / "examples/market-day.miche", "10s"),
        ("the night's example", ROOT / "examples/fleet-in.miche", "200000 steps"),
        ("18 orders, 3 cooks, 2 ovens: first plan", folder / "18-orders/day.miche", "0 steps"),
        ("the same, looked for", folder / "18-orders/day.miche", "200000 steps"),
        ("100 orders: first plan", folder / "100-orders/day.miche", "0 steps"),
    ]
    shops = sorted((ROOT / "tests/data/jobshop").glob("*/day.miche"))
    days += [(shop.parent.name, shop, "200000 steps") for shop in shops]
    print("| what | processor | tasks | span | proven | gap | given up |\n|---|--:|--:|--:|---|--:|---|")
    for name, day, limit in days:
        runs = [plan(miche, str(day), limit) for _ in range(3)]
        found, took, said = min(runs, key=lambda run: run[1])
        if found is None:
            print(f"| {name} | {took:.2f} s | | no plan | {said.strip().splitlines()[0] if said else ''} | | |")
            continue
        cells = [f"{took:.2f} s", len(found["tasks"]), found["span_minutes"], ", ".join(found["proven"]) or "nothing",
                 found["gap_minutes"], ", ".join(found["given_up"])]
        print(f"| {name} | " + " | ".join(map(str, cells)) + " |")


def main():
    """Reads the command line."""
    if len(sys.argv) not in (2, 4) or len(sys.argv) == 4 and sys.argv[2] != "--measure":
        sys.exit(__doc__)
    folder = pathlib.Path(sys.argv[1])
    for orders, seed in ((18, 5), (100, 7)):
        write(folder / f"{orders}-orders", orders, seed)
    if len(sys.argv) == 4:
        measure(sys.argv[3], folder)


if __name__ == "__main__":
    main()
