#!/usr/bin/env python3
"""Measures miche beside general-purpose programs, whole processes, in one run on the same bytes.

    cargo build --release --bins --examples
    python3 tests/scripts/measure.py [--target DIR] [--work DIR] [--rounds N] [--files N] [--quick]

Needs `cmark` (a CommonMark renderer) and `ledger` (a plain-text ledger), both Debian packages. Prints two tables in Markdown.
Programs take turns within a round; of the rounds the quickest counts, since everything else that runs only adds time. One
thread is one thread pinned to one core; two cores are two. Memory is the largest that the process held.
"""

import argparse
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent


class Run:
    """A command, measured again and again."""

    def __init__(self, name: str, command: list[str], cores: int = 1, cwd: pathlib.Path | None = None):
        self.name, self.command, self.cores, self.cwd = name, command, cores, cwd
        self.wall, self.busy, self.memory = float("inf"), float("inf"), 0

    def once(self) -> None:
        environment = dict(os.environ, RAYON_NUM_THREADS=str(self.cores), NO_COLOR="1")
        started = time.perf_counter()
        process = subprocess.Popen(
            self.command,
            cwd=self.cwd,
            env=environment,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            preexec_fn=lambda: os.sched_setaffinity(0, ALL_CORES[: self.cores]),
        )
        _, status, usage = os.wait4(process.pid, 0)
        wall = time.perf_counter() - started
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode not in (0, 1):
            sys.exit(f"{self.command[:4]} ended with {process.returncode}")
        self.wall = min(self.wall, wall)
        self.busy = min(self.busy, usage.ru_utime + usage.ru_stime)
        self.memory = max(self.memory, usage.ru_maxrss)


ALL_CORES = sorted(os.sched_getaffinity(0))


def measured(runs: list[Run], rounds: int) -> None:
    for _ in range(rounds):
        for run in runs:
            run.once()


def seconds(value: float) -> str:
    return f"{value * 1000:.1f} ms" if value < 1 else f"{value:.2f} s"


def row(run: Run, amount: float, of: Run | None, wanted: str = "") -> str:
    speed = f"{amount / run.busy / 1e6:.1f} MB/s" if amount else ""
    ratio = f"{run.busy / of.busy:.2f}" if of else ""
    return f"| {run.name} | {seconds(run.wall)} | {seconds(run.busy)} | {run.memory / 1024:.0f} MB | {speed} | {ratio} | {wanted} |"


HEAD = "| what | wall | processor | memory | speed | times the reference | wanted |\n|---|--:|--:|--:|--:|--:|--:|"


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--target", default=os.environ.get("CARGO_TARGET_DIR", str(HERE.parent.parent / "target")))
    arguments.add_argument("--work", help="keep the corpora in this folder and use them again")
    arguments.add_argument("--rounds", type=int, default=5)
    arguments.add_argument("--files", type=int, default=10_000)
    arguments.add_argument("--quick", action="store_true", help="a tenth of everything, to see where one stands")
    asked = arguments.parse_args()
    for program in ("cmark", "ledger"):
        if not shutil.which(program):
            sys.exit(f"{program} is not there: apt-get install --no-install-recommends cmark ledger")
    if asked.quick:
        asked.files //= 10
    release = pathlib.Path(asked.target) / "release"
    miche, tree_only = str(release / "miche"), str(release / "examples" / "tree_only")
    work = pathlib.Path(asked.work or tempfile.mkdtemp(prefix="miche-measure-"))
    try:
        compare(asked, miche, tree_only, work)
    finally:
        if not asked.work:
            shutil.rmtree(work)


def corpus(what: str, count: int, place: pathlib.Path) -> pathlib.Path:
    if not place.exists():
        subprocess.run([sys.executable, HERE / "corpus.py", what, str(count), place], check=True)
    return place


def compare(asked: argparse.Namespace, miche: str, tree_only: str, work: pathlib.Path) -> None:
    sizes = [10, 1_000] + [asked.files] * (asked.files != 1_000)
    folders = {count: corpus("files", count, work / f"files-{count}") for count in sizes}
    many = folders[asked.files]
    names = sorted(str(path.relative_to(many)) for path in many.rglob("*.miche"))
    total = sum((many / name).stat().st_size for name in names)

    reading = Run("reading alone (`cat`)", ["cat", *names], cwd=many)
    cmark = Run("`cmark` to HTML", ["cmark", *names], cwd=many)
    tree = Run("text to tree", [tree_only, *names], cwd=many)
    check = Run("full `check`, one thread", [miche, "check", "--no-cache", "--format", "short", "."], cwd=many)
    both = Run("full `check`, two cores", [miche, "check", "--no-cache", "--format", "short", "."], cores=2, cwd=many)
    runs = [reading, cmark, tree, check, both]
    measured(runs, asked.rounds)
    print(f"{len(names)} files, {total / 1e6:.1f} MB, {total // len(names)} bytes each; quickest of {asked.rounds} rounds\n")
    print(HEAD)
    print(row(reading, total, cmark))
    print(row(cmark, total, cmark, "1"))
    print(row(tree, total, cmark, "at most 1.5"))
    print(row(check, total, cmark, "at most 3"))
    print(row(both, total, cmark))
    print(f"\nOn two cores `check` is {check.wall / both.wall:.2f} times as fast by the clock (wanted: 1.9).\n")

    copies = corpus("largest", asked.files * 2 // 5, work / f"largest-{asked.files * 2 // 5}")
    buns = sorted(path.name for path in copies.glob("copy-*.miche"))
    size = sum((copies / name).stat().st_size for name in buns)
    mark = Run("`cmark` to HTML", ["cmark", *buns], cwd=copies)
    four = Run("full `check`, one thread", [miche, "check", "--no-cache", "--format", "short", "."], cwd=copies)
    measured([mark, four], asked.rounds)
    print(f"{len(buns)} copies of the largest example, {size / 1e6:.1f} MB\n")
    print(HEAD)
    print(row(mark, size, mark, "1"))
    print(row(four, size, mark, "at most 4"))
    print()

    few = [Run(f"{count} files", [miche, "check", "--no-cache", "--format", "short", "."], cwd=folders[count]) for count in sizes]
    measured(few, asked.rounds)
    print("| full `check`, one thread | processor | a file |\n|---|--:|--:|")
    for count, run in zip(sizes, few):
        print(f"| {count} files | {seconds(run.busy)} | {run.busy / count * 1e6:.0f} µs |")

    longest = 10_000 if asked.quick else 100_000
    print("\n| one file of so many lines | `check` | a line | memory | tree only | `cmark` | ledger, as many lines | `check` over ledger |")
    print("|---|--:|--:|--:|--:|--:|--:|--:|")
    by_size = {}
    for lines in dict.fromkeys([1_000, 2_000, 10_000, longest]):
        file = corpus("lines", lines, work / "long" / f"{lines}.miche")
        book = corpus("ledger", lines, work / "long" / f"{lines}.ledger")
        runs = [
            Run("check", [miche, "check", "--format", "short", str(file)]),
            Run("tree", [tree_only, str(file)]),
            Run("cmark", ["cmark", str(file)]),
            Run("ledger", ["ledger", "-f", str(book), "balance"]),
        ]
        measured(runs, asked.rounds)
        check, tree, mark, ledger = runs
        by_size[lines] = check.busy / lines
        print(
            f"| {lines} | {seconds(check.busy)} | {check.busy / lines * 1e6:.1f} µs | {check.memory / 1024:.0f} MB | "
            f"{seconds(tree.busy)} | {seconds(mark.busy)} | {seconds(ledger.busy)} | {check.busy / ledger.busy:.2f} |"
        )
    print(f"\nA line of the longest file costs {by_size[longest] / by_size[1_000]:.2f} times one of 1000 lines (wanted: at most 1.2).\n")

    example = str(HERE.parent.parent / "examples" / "rhubarb-crumb-buns.miche")
    plain = str(many / names[1])
    cards = [
        Run(f"{what}, {form}", [miche, "card", file, "--format", form])
        for what, file in (("a plain recipe", plain), ("the largest example", example))
        for form in ("markdown", "html", "json")
    ] + [Run("`check` of one recipe", [miche, "check", plain])]
    measured(cards, asked.rounds * 4)
    print("| start to first card | wall | processor | memory | wanted |\n|---|--:|--:|--:|--:|")
    for run in cards:
        print(f"| {run.name} | {seconds(run.wall)} | {seconds(run.busy)} | {run.memory / 1024:.0f} MB | 10 ms, 20 MB |")


if __name__ == "__main__":
    main()
