#!/usr/bin/env python3
"""Tells which check takes how many instructions, a file, so that the one that grew is found before anybody guesses.

    CARGO_PROFILE_RELEASE_LTO=off CARGO_PROFILE_RELEASE_STRIP=false CARGO_PROFILE_RELEASE_DEBUG=1 cargo build --release --bin miche
    python3 tests/scripts/check_costs.py target/release/miche [--before OTHER] [--rows 40]

Counted by callgrind over few files and over more of them, as tests/scripts/instructions.py does; what is told is the difference,
with all that a check calls. What several checks share is told of the one that asks for it first. A small function that was built
into another has no row. With `--before` a second program is counted too, and rows that differ most stand first.
"""

import argparse
import collections
import os
import pathlib
import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

from instructions import FEW, MORE, corpus, grouped

CHECK = re.compile(r"^miche::check::(\w+)::run$")
PHASES = {
    "text to tree": "miche::language::parse::parse",
    "names bound, amounts understood": "miche::solve::resolve::recipe_beside",
    "amounts worked out": "miche::solve::formula::Formula::beside",
    "checks of recipes and parts": "miche::check::shared::Shared::look",
    "all of a file but its text": "miche::check::runner::FileProblems::in_file",
}


def costs(program: pathlib.Path, folder: pathlib.Path, out: pathlib.Path) -> collections.Counter:
    """What each function takes, with all that it calls; of one that calls itself through others more than that."""
    command = [
        "valgrind",
        "--tool=callgrind",
        f"--callgrind-out-file={out}",
        program,
        "check",
        "--no-cache",
        "--format",
        "short",
        ".",
    ]
    environment = dict(os.environ, RAYON_NUM_THREADS="1", NO_COLOR="1")
    ran = subprocess.run(command, cwd=folder, env=environment, stdin=subprocess.DEVNULL, capture_output=True, check=False)
    if ran.returncode not in (0, 1):
        sys.exit(f"callgrind of {program} ended with {ran.returncode}:\n{ran.stderr.decode()[-2000:]}")
    names: dict[str, str] = {}

    def name(written: str) -> str:
        """A function by its number, which is told with the name once."""
        number, _, told = written.partition(" ")
        return names.setdefault(number, told)

    found = collections.Counter()
    here = called = None
    for line in out.read_text(errors="replace").splitlines():
        if line.startswith("fn="):
            here = name(line[3:])
        elif line.startswith("cfn="):
            called = name(line[4:])
        elif line[:1].isdigit() or line[:1] in ("+", "-", "*"):
            # The line behind `calls=` is what the call took.
            if called != here:
                found[here] += int(line.split()[1])
            called = None
    return found


def of_a_file(program: pathlib.Path, folders: dict[int, pathlib.Path], work: pathlib.Path) -> collections.Counter:
    """What each function takes for one file more."""
    counts = {count: costs(program, folder, work / f"{folder.name}-{program.parent.name}.out") for count, folder in folders.items()}
    more = collections.Counter(counts[MORE])
    more.subtract(counts[FEW])
    return collections.Counter({name: cost // (MORE - FEW) for name, cost in more.items() if cost > 0})


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("program", type=pathlib.Path)
    arguments.add_argument("--before", type=pathlib.Path, help="another program, to be compared with")
    arguments.add_argument("--rows", type=int, default=40)
    asked = arguments.parse_args()
    programs = [program.resolve() for program in (asked.program, asked.before) if program]
    with tempfile.TemporaryDirectory(prefix="miche-costs-") as place, ThreadPoolExecutor() as pool:
        work = pathlib.Path(place)
        for kind, what in (("files", "a plain recipe"), ("largest", "the largest example")):
            folders = {count: corpus(kind, count, work) for count in (FEW, MORE)}
            # One after the other, each with an output of its own.
            places = [work / f"of-{at}" for at in range(len(programs))]
            for folder in places:
                folder.mkdir(exist_ok=True)
            counted = list(pool.map(of_a_file, programs, [folders] * len(programs), places))
            tell(what, counted, asked.rows)


def tell(what: str, counted: list[collections.Counter], rows: int) -> None:
    """A table of the phases and of the checks that take most, or differ most."""
    now, before = counted[0], counted[-1]
    print(f"| {what} | now |" + (" before |" if len(counted) > 1 else ""))
    print("|---|--:|" + ("--:|" if len(counted) > 1 else ""))

    def row(title: str, function: str) -> None:
        print(f"| {title} | {grouped(now[function])} |" + (f" {grouped(before[function])} |" if len(counted) > 1 else ""))

    for title, function in PHASES.items():
        row(title, function)
    checks = {function: found[1] for function in now.keys() | before.keys() if (found := CHECK.match(function or ""))}
    weight = (lambda function: abs(now[function] - before[function])) if len(counted) > 1 else (lambda function: now[function])
    for function in sorted(checks, key=weight, reverse=True)[:rows]:
        row(f"`{checks[function].replace('_', '-')}`", function)
    print()


if __name__ == "__main__":
    main()
