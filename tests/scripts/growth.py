#!/usr/bin/env python3
"""Measures how time and memory grow with each kind of input, and writes the table into DEVELOPERS.md.

    cargo build --release
    python3 tests/scripts/growth.py [--program FILE] [--bytes N] [--only WORD] [--write]

The texts are those of tests/hostile/texts.rs, written by tests/hostile/write.rs at N, 2N, 4N and 8N bytes, and files that use
each other. A slope is the logarithm of what eight times the text takes to the base of eight, without what the program takes for
an empty recipe: 1 is in proportion, 2 is the square. What takes less than a twentieth of a second has none. Processor time, the
quickest of some rounds; memory is the largest that the process held. `--write` puts the table where the guide wants it.
"""

import argparse
import math
import os
import pathlib
import resource
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
BEGIN, END = "<!-- growth: written by tests/scripts/growth.py -->", "<!-- end of growth -->"
LONGEST = 60
"""Seconds after which a run is given up."""
SHORT = 0.05
"""Seconds below which a slope is noise."""
COMMANDS = {
    "check": ["check", "--no-cache", "--format", "short"],
    "card": ["card", "--format", "json"],
    "page": ["card", "--format", "html"],
    "label": ["label"],
    "cost": ["cost"],
    "list": ["list"],
    "tidy": ["tidy", "--check"],
    "notes": ["new", "-o", "-", "--from"],
}
HEADS = {"check": "`check`", "card": "`card` as JSON", "page": "as HTML", "label": "`label`", "cost": "`cost`", "list": "`list`", "tidy": "`tidy`", "notes": "`new --from`"}


def run(command: list[str], rounds: int) -> tuple[float, float]:
    """Seconds of processor time and megabytes."""
    best, memory = math.inf, 0.0
    for number in range(rounds):
        process = subprocess.Popen(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            env=dict(os.environ, RAYON_NUM_THREADS="1", NO_COLOR="1"),
            preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (LONGEST, LONGEST)),
        )
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode not in (0, 1, 2):
            return math.inf, usage.ru_maxrss / 1024
        best = min(best, usage.ru_utime + usage.ru_stime)
        memory = max(memory, usage.ru_maxrss / 1024)
        if best > 1 and number == 0:
            break
    return best, memory


def slope(few: float, many: float, times: float) -> float | None:
    if math.isinf(many):
        return math.inf
    if many < SHORT:
        return None
    return math.log(many / max(few, SHORT / 10), times)


def shown(value: float | None) -> str:
    return "" if value is None else "given up" if math.isinf(value) else f"{value:.2f}"


def seconds(value: float) -> str:
    return f"over {LONGEST} s" if math.isinf(value) else f"{value:.2f} s" if value >= 0.095 else f"{value * 1000:.0f} ms"


def texts(folder: pathlib.Path, sizes: list[int]) -> list[str]:
    writer = folder / "write"
    subprocess.run(["rustc", "-O", "--edition", "2024", "-o", writer, ROOT / "tests/hostile/write.rs"], check=True)
    subprocess.run([writer, folder, *map(str, sizes)], check=True)
    names = {path.stem.rsplit(" ", 1)[0] for path in folder.glob("*.miche")}
    return sorted(names)


def uses(folder: pathlib.Path, deep: int) -> pathlib.Path:
    """Files each of which uses the two before it."""
    place = folder / f"uses-{deep}"
    place.mkdir()
    for number in range(deep):
        before = range(max(number - 2, 0), number)
        use = "".join(f'use "r{other}.miche"\n' for other in before)
        lines = "".join(f"Dough {other} .... 10 g\n" for other in before)
        taken = "".join(f", {{Dough {other}}}" for other in before)
        (place / f"r{number}.miche").write_text(
            f"recipe Dough {number}\n{use}flour .... 100 g\nwater .... 60 %\n{lines}\nmix: hands 5 min\n"
            f"    Mix {{flour}}, {{water}}{taken}.\n    until smooth\n"
        )
    return place / f"r{deep - 1}.miche"


def main() -> None:
    arguments = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    arguments.add_argument("--program", default=str(ROOT / "target/release/miche"))
    arguments.add_argument("--bytes", type=int, default=100_000)
    arguments.add_argument("--rounds", type=int, default=2)
    arguments.add_argument("--only", default="")
    arguments.add_argument("--commands", default=",".join(COMMANDS))
    arguments.add_argument("--write", action="store_true")
    asked = arguments.parse_args()
    commands = {name: COMMANDS[name] for name in asked.commands.split(",")}
    sizes = [asked.bytes * times for times in (1, 2, 4, 8)]
    rows, steep, large = [], [], []
    with tempfile.TemporaryDirectory(prefix="miche-growth-") as place:
        folder = pathlib.Path(place)
        empty = folder / "empty.txt"
        empty.write_text("recipe R\n")
        start = {name: run([asked.program, *words, str(empty)], 5)[0] for name, words in commands.items()}
        kinds = [(name, [folder / f"{name} {size}.miche" for size in sizes]) for name in texts(folder, sizes)]
        kinds.append(("uses of the two files before, 4 to 32 deep", [uses(folder, deep) for deep in (4, 8, 16, 32)]))
        for name, files in kinds:
            if asked.only not in name:
                continue
            cells, took_most, held_most = [], 0.0, 0.0
            for command, words in commands.items():
                measured = []
                for file in files:
                    measured.append(run([asked.program, *words, str(file)], asked.rounds))
                    if math.isinf(measured[-1][0]):
                        break
                few, many = measured[0][0] - start[command], measured[-1][0] - start[command]
                at = slope(few, many, 8)
                cells.append(f"{seconds(max(many, 0))} | {shown(at)}")
                took_most, held_most = max(took_most, many), max(held_most, measured[-1][1])
                if at is not None and at > 1.2:
                    steep.append(f"{name}, {command}: {shown(at)} ({', '.join(seconds(one) for one, _ in measured)})")
            if took_most > 2 or held_most > 300:
                large.append(f"{name}: {seconds(took_most)}, {held_most:.0f} MB")
            lines = files[-1].read_text().count("\n")
            rows.append(f"| {name} | {lines} | " + " | ".join(cells) + f" | {held_most:.0f} MB |")
            print(rows[-1], flush=True)
    head = "| kind | lines | " + " | ".join(f"{HEADS[name]} | slope" for name in commands) + " | memory |\n"
    head += "|---|--:|" + "--:|--:|" * len(commands) + "--:|\n"
    build = time.strftime("%Y-%m-%d %H:%M", time.gmtime(os.path.getmtime(asked.program)))
    words = (
        f"Measured {time.strftime('%Y-%m-%d')}, {sizes[-1]} bytes of each kind beside {sizes[0]}, with the program built {build} UTC,\n"
        f"on {os.cpu_count()} processors with {os.getloadavg()[2]:.0f} processes at work on them.\n\n"
    )
    table = f"{words}{head}" + "\n".join(rows) + "\n"
    print("\n".join(["steeper than 1.2:", *steep, "over 2 s or 300 MB:", *large]), file=sys.stderr)
    if asked.write:
        guide = ROOT / "DEVELOPERS.md"
        before, _, rest = guide.read_text().partition(BEGIN)
        _, _, after = rest.partition(END)
        guide.write_text(f"{before}{BEGIN}\n{table}{END}{after}")


if __name__ == "__main__":
    main()
