#!/usr/bin/env python3
"""Counts the instructions of what must not creep up, with callgrind, and prints a table in Markdown.

    cargo build --release --bin miche --example tree_only
    python3 tests/scripts/instructions.py [--target DIR] [--write]

A clock says little on a machine that does other things too; the number of instructions is the same there to a few in a
thousand (hash tables are seeded anew in every process). Each work is counted twice, over few files and over more of them, and
the difference is told, so that what a process takes to begin is not in it; that stands in a row of its own. A ratio is to
`cmark` (a CommonMark renderer) over the same bytes, counted in the same way. Where valgrind is missing nothing is counted and
nothing fails; where cmark is, there are no ratios. `--write` puts the table into DEVELOPERS.md.
"""

import argparse
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

from corpus import EXAMPLES, LARGEST

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
BEGIN, END = "<!-- instructions: written by tests/scripts/instructions.py -->", "<!-- end of instructions -->"
FEW, MORE = 8, 24
"""Files of the two counts of a work."""


def instructions(command: list[str], cwd: pathlib.Path) -> int:
    """How many a command takes, in all its threads."""
    found = subprocess.run(
        ["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", *command],
        cwd=cwd,
        env=dict(os.environ, RAYON_NUM_THREADS="1", NO_COLOR="1"),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
    )
    count = re.search(r"Collected : (\d+)", found.stderr)
    if found.returncode not in (0, 1) or not count:
        sys.exit(f"{' '.join(command[:4])} ended with {found.returncode}:\n{found.stderr[-2000:]}")
    return int(count[1])


def corpus(what: str, count: int, work: pathlib.Path) -> pathlib.Path:
    """A folder of so many files, and what they use."""
    folder = work / f"{what}-{count}"
    subprocess.run([sys.executable, HERE / "corpus.py", what, str(count), folder], check=True)
    return folder


def recipes(folder: pathlib.Path) -> list[str]:
    """The recipes of a folder, without what they use."""
    used = ("bakehouse.miche", "larder.miche")
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*.miche") if path.name not in used)


def of_a_file(command, folders: dict[int, pathlib.Path]) -> int:
    """What a work takes for one file more."""
    counts = {count: instructions(command(folder), folder) for count, folder in folders.items()}
    return (counts[MORE] - counts[FEW]) // (MORE - FEW)


def grouped(count: int) -> str:
    """Digits in threes, as the guide writes them."""
    return f"{count:,}".replace(",", " ")


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--target", default=os.environ.get("CARGO_TARGET_DIR", str(ROOT / "target")))
    arguments.add_argument("--write", action="store_true", help="put the table into DEVELOPERS.md")
    asked = arguments.parse_args()
    if not shutil.which("valgrind"):
        print("valgrind is not there, so no instructions were counted: apt-get install --no-install-recommends valgrind")
        return
    release = pathlib.Path(asked.target).resolve() / "release"
    miche, tree_only = str(release / "miche"), str(release / "examples" / "tree_only")
    for program in (miche, tree_only):
        if not pathlib.Path(program).exists():
            sys.exit(f"{program} is not there: cargo build --release --bin miche --example tree_only")
    with tempfile.TemporaryDirectory(prefix="miche-instructions-") as place, ThreadPoolExecutor() as pool:
        work = pathlib.Path(place)
        kinds = {
            "a plain recipe": {count: corpus("files", count, work) for count in (FEW, MORE)},
            "the largest example": {count: corpus("largest", count, work) for count in (FEW, MORE)},
        }
        works = {
            "text to tree": lambda folder: [tree_only, *recipes(folder)],
            "`check`": lambda folder: [miche, "check", "--no-cache", "--format", "short", "."],
        }
        cmark = shutil.which("cmark")
        reference = {
            kind: pool.submit(of_a_file, lambda folder: [cmark, *recipes(folder)], folders)
            for kind, folders in kinds.items()
            if cmark
        }
        counted = {
            (kind, what): pool.submit(of_a_file, command, folders)
            for kind, folders in kinds.items()
            for what, command in works.items()
        }
        example = str(EXAMPLES / LARGEST)
        whole = {
            "the program, to say its version": [miche, "--version"],
            "`check` of the largest example, the whole process": [miche, "check", example],
            "its card in Markdown, the whole process": [miche, "card", example, "--format", "markdown"],
        }
        wholes = {what: pool.submit(instructions, command, work) for what, command in whole.items()}
        lines = ["| counted by callgrind | instructions | times `cmark` |", "|---|--:|--:|"]
        for (kind, what), count in counted.items():
            ratio = f"{count.result() / reference[kind].result():.1f}" if kind in reference else ""
            lines.append(f"| {what}, {kind} more | {grouped(count.result())} | {ratio} |")
        lines += [f"| {what} | {grouped(count.result())} | |" for what, count in wholes.items()]
    table = "\n".join(lines)
    print(table)
    if asked.write:
        guide = ROOT / "DEVELOPERS.md"
        text = guide.read_text()
        head, rest = text.split(BEGIN + "\n", 1)
        _, tail = rest.split(END, 1)
        guide.write_text(head + BEGIN + "\n" + table + "\n" + END + tail)


if __name__ == "__main__":
    main()
