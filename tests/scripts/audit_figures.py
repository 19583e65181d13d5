#!/usr/bin/env python3
"""Works out recipes by itself, with fractions and from their text alone, and compares every product of `miche` with that.

    tests/scripts/audit_figures.py [MICHE] [FILE ...]

Without files, the published examples of tests/published. Read are weights, percentages of the flour or of a named line, `all`,
parts, preferments taken out of a dough, `divide`, `makes` and their losses; a file that says more is named and left out. Compared
are, at the size written, at a third and at seven times it: the card in JSON, text, Markdown and HTML (each printed weight against the
exact one, the running sums against the lines), the card in US units and in both systems (no printed weight is five percent off), the
list, the label and the cost."""
from concurrent.futures import ThreadPoolExecutor
import json
import re
import subprocess
import sys
from fractions import Fraction as F
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
UNIT = {"mg": F(1, 1000), "g": F(1), "kg": F(1000), "oz": F("28.349523125"), "lb": F("453.59237")}
MASS = re.compile(r"^((?:[\d./ ]+\s*(?:mg|g|kg|oz|lb)\b\s*)+)")
FLOURISH = re.compile(r"\b(flour|semolina)$")
NOT_FLOUR = ("almond flour", "coconut flour", "cornflour", "chestnut flour")


class Skip(Exception):
    """The file says something that is not worked out here."""


def number(text):
    total = F(0)
    for piece in text.split():
        total += F(piece)
    return total


def together(text):
    """A text without the thin spaces that group the digits of a number."""
    return text.replace("\u2009", "")


def mass(text):
    found = MASS.match(together(text).strip())
    if not found:
        return None
    total = F(0)
    for count, unit in re.findall(r"([\d./ ]+?)\s*(mg|kg|g|oz|lb)\b", found.group(1)):
        total += number(count) * UNIT[unit]
    return total


def percent(text):
    found = re.match(r"^([\d./]+)\s*%", text.strip())
    return F(found.group(1)) / 100 if found else None


class Part:
    def __init__(self, name, of=None):
        self.name, self.of = name, of
        self.lines, self.divide, self.makes, self.loss, self.base = [], None, None, F(0), "flour"
        self.grams = None


def parse(path):
    """The parts of a file, and how many pieces its head says."""
    parts, pieces, title = [], None, None
    for raw in path.read_text(encoding="utf-8").splitlines():
        line = re.sub(r"(^|\s)#(\s.*)?$", "", raw).rstrip()
        if not line.strip() or raw[0] in " \t":
            continue
        if line.startswith("recipe "):
            title = line[7:]
            parts.append(Part(title))
        elif line.startswith("part "):
            name, _, of = line[5:].partition(", from ")
            if len(parts) == 1 and parts[0].name == title and not parts[0].lines:
                parts.pop()
            parts.append(Part(name.strip(), of.strip() or None))
        elif ".." in line:
            name, _, rest = re.match(r"^(.*?)\s*(\.{2,}|…)\s*(.*)$", line).groups()
            said, *clauses = [clause.strip() for clause in rest.split(",")]
            if any(clause in ("aside", "optional", "strained out") for clause in clauses) or "yield" in rest:
                raise Skip("a clause")
            parts[-1].lines.append((name.strip(), [one.strip() for one in said.split("=")], clauses))
        elif line.startswith("divide "):
            found = re.match(r"^divide (\d+) x (.*?)(?:, loss ([\d.]+) %)?$", line)
            if not found or mass(found.group(2)) is None:
                raise Skip("its divide")
            parts[-1].divide = (int(found.group(1)), mass(found.group(2)))
            parts[-1].loss = F(found.group(3) or 0) / 100
        elif line.startswith("makes "):
            found = re.match(r"^makes (.*?)(?:, loss ([\d.]+) %)?$", line)
            weight = found and mass(found.group(1))
            if weight is not None:
                parts[-1].makes, parts[-1].loss = weight, F(found.group(2) or 0) / 100
            else:
                found = re.match(r"^makes (\d+) ", line)
                pieces = int(found.group(1)) if found else None
        elif line.startswith("percent of "):
            parts[-1].base = line[len("percent of "):]
        elif re.match(r"^(per |choose|spare|measures)", line) or re.match(r'^use "(?!composition)', line):
            raise Skip(line.split()[0])
    return parts, pieces


def is_base(part, line):
    name, _, clauses = line
    if "not flour" in clauses:
        return False
    if part.base == "total":
        return True
    if part.base != "flour":
        return name == part.base
    flour = FLOURISH.search(name) and name not in NOT_FLOUR
    return bool(flour) or "counts as flour" in clauses


def solve(parts):
    """The grams of every line of every part that is no preferment, in order."""
    by_name = {part.name: part for part in parts}
    for part in [part for part in parts if part.of is None]:
        weights, shares = [], []
        for line in part.lines:
            name, said, _ = line
            weight = next((mass(one) for one in said[:1] if mass(one) is not None), None)
            share = next((percent(one) for one in said if percent(one) is not None), None)
            if said == ["all"]:
                other = by_name.get(name)
                if other is None or other.grams is None:
                    raise Skip("all of a part that comes later")
                weight = other.out
            elif weight is None and share is None:
                raise Skip(said[0])
            weights.append(weight)
            shares.append(share if weight is None else None)
        base_lines = [at for at, line in enumerate(part.lines) if is_base(part, line)]
        if part.base == "total":
            fixed = sum(weight for weight in weights if weight is not None)
            rest = 1 - sum(share for share in shares if share is not None)
            base = fixed / rest if fixed else None
        elif base_lines and all(weights[at] is not None for at in base_lines):
            base = sum(weights[at] for at in base_lines)
        else:
            base = None
        if base is None and any(share is not None for share in shares):
            if part.divide:
                needs = part.divide[0] * part.divide[1]
            elif part.makes is not None:
                needs = part.makes
            else:
                # A percentage beside a weight on one line gives the base.
                both = [(mass(said[0]), percent(one)) for _, said, _ in part.lines for one in said[1:] if mass(said[0]) and percent(one)]
                if not both:
                    raise Skip("no scale")
                base = both[0][0] / both[0][1]
            if base is None:
                fixed = sum(weight for weight in weights if weight is not None)
                base = (needs / (1 - part.loss) - fixed) / sum(share for share in shares if share is not None)
        part.grams = [weight if weight is not None else base * share for weight, share in zip(weights, shares)]
        total = sum(part.grams)
        if part.makes is not None:
            part.out = part.makes
        elif part.divide:
            part.out = part.divide[0] * part.divide[1]
        else:
            part.out = total
    return by_name


def run(miche, path, *arguments):
    done = subprocess.run([miche, *arguments, str(path)], capture_output=True, text=True)
    if done.returncode:
        raise Skip(f"{arguments[0]} ends with {done.returncode}: {done.stderr.strip()[:80]}")
    return done.stdout


def printed(text):
    """A printed weight in grams, and how far its digits leave it open."""
    found = re.match(r"^([\d.]+) (g|kg)$", together(text))
    if not found:
        return None
    digits, unit = found.groups()
    decimals = len(digits.partition(".")[2])
    return F(digits) * UNIT[unit], UNIT[unit] / 10**decimals


def near(one, other):
    return abs(float(one) - float(other)) <= 1e-6 * max(1.0, abs(float(other)))


SIGNS = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}


def weighed(text):
    """A printed weight of either system in grams; none where it is no weight."""
    for sign, plain in SIGNS.items():
        text = text.replace(sign, plain)
    found = re.findall(r"(\d[\d./ ]*)\s*(lb|oz|kg|g)\b", together(text))
    return sum(number(count) * UNIT[unit] for count, unit in found) if found else None


def in_other_units(miche, path, times, by_name, factor, say):
    """How many printed weights of the other system were compared; the promise is that none is five percent off."""
    compared = 0
    for units in ("us", "both"):
        card = json.loads(run(miche, path, "card", "--format", "json", "--units", units, *times))
        for made in card["parts"]:
            mine = by_name.get(made["name"])
            if mine is None or mine.grams is None:
                continue
            running = F(0)
            for (name, _, _), grams, line in zip(mine.lines, mine.grams, made["lines"]):
                for text in re.split(r"[()]", line["shown"]):
                    found = weighed(text)
                    if found is None or not grams:
                        continue
                    compared += 1
                    if abs(found - grams * factor) > grams * factor / 20:
                        say(f"--units {units}, {name}", line["shown"], grams * factor)
                final = weighed((line.get("final_mix_shown") or "").split("(")[0])
                running += final or F(0)
                sofar = weighed((line.get("running_shown") or "").split("(")[0])
                if final is not None and sofar is not None:
                    compared += 1
                    # A quarter of an ounce is the smallest step of a US scale.
                    if abs(running - sofar) > UNIT["oz"] / 8:
                        say(f"--units {units}, running sum at {name}", line["running_shown"], running)
    return compared


def lost(parts, factor):
    """The water that boils and bakes away in parts that say what they make, as a label counts it."""
    made = [part for part in parts if part.makes is not None and part.grams]
    return factor * sum(sum(part.grams) - part.makes for part in made)


def kept(parts):
    """The share of the last part that is left when it is divided: what sticks and is trimmed is something of everything."""
    last = parts[-1]
    return last.divide[0] * last.divide[1] / sum(last.grams) if last.divide and last.makes is None else F(1)


def audit(miche, path):
    parts, pieces = parse(path)
    by_name = solve(parts)
    compared, wrong = 0, []

    def say(what, found, wanted):
        wrong.append(f"{path.name}, {size}: {what}: {found} and not {float(wanted):.6f}")

    for size in ("1", "1/3", "7"):
        times, wanted_factor = ["--times", size], F(size)
        # Pieces stay whole: the nearest number of them.
        if pieces and (F(size) * pieces).denominator != 1:
            nearest = max(1, round(F(size) * pieces))
            times, wanted_factor = ["--pieces", str(nearest)], F(nearest, pieces)
        card = json.loads(run(miche, path, "card", "--format", "json", *times))
        card = card[0] if isinstance(card, list) else card.get("cards", [card])[0]
        factor = F(card["factor"]).limit_denominator(10**6)
        if not near(factor, wanted_factor):
            say("factor", factor, wanted_factor)
        factor = wanted_factor
        texts = {form: re.sub(r"\s+", " ", re.sub(r"<[^>]*>", " ", run(miche, path, "card", "--format", form, *times))) for form in ("text", "markdown", "html")}
        texts = {form: re.sub(r" ", " ", text) for form, text in texts.items()}
        bought = {}
        compared += in_other_units(miche, path, times, by_name, factor, say)
        for made in card["parts"]:
            mine = by_name.get(made["name"])
            if mine is None or mine.grams is None:
                continue
            running = F(0)
            for (name, _, _), grams, line in zip(mine.lines, mine.grams, made["lines"]):
                wanted = grams * factor
                compared += 1
                if line["ingredient"] != name or not near(line["grams"], wanted):
                    say(f"card of {name}", line["grams"], wanted)
                shown = printed(line["shown"])
                if shown is None:
                    continue
                # A weight goes by what the scale shows: half a step, or half the last digit that is printed; the sum is shared out.
                if abs(shown[0] - wanted) > max(shown[1], wanted / 20):
                    say(f"printed {name}", line["shown"], wanted)
                for form, text in texts.items():
                    compared += 1
                    if line["shown"] not in text:
                        say(f"{form} lacks {name}", line["shown"], wanted)
                final = printed(line.get("final_mix_shown") or "")
                sofar = printed(line.get("running_shown") or "")
                running += final[0] if final else F(0)
                if final and sofar:
                    # What the fine scale weighed goes into the same bowl, whose scale shows less of it.
                    compared += 1
                    if abs(running - sofar[0]) > sofar[1] / 2:
                        say(f"running sum at {name}", line["running_shown"], running)
                if name not in by_name:
                    bought[name] = bought.get(name, F(0)) + wanted
        for product, key, weight in (("list", "buy", "grams"), ("cost", "costs", "bought_g"), ("label", "labels", "grams")):
            found = json.loads(run(miche, path, product, "--format", "json", *times))
            rows = found[key] if product == "list" else found[key][0]["ingredients"]
            for row in rows:
                name = row["ingredient"]
                same = [mine for mine in bought if mine == name]
                if not same or row[weight] is None or row.get("also"):
                    continue
                compared += 1
                wanted = bought[same[0]]
                if product == "label":
                    wanted = wanted * kept(parts) - (lost(parts, factor) if name == "water" else 0)
                if not near(row[weight], wanted):
                    say(f"{product} of {name}", row[weight], wanted)
    return compared, wrong


def main():
    arguments = sys.argv[1:]
    miche = arguments[0] if arguments else str(ROOT / "target/debug/miche")
    files = [Path(name) for name in arguments[1:]] or sorted((ROOT / "tests/published").glob("*.miche"))
    audited = all_compared = 0
    bad = []
    def one(path):
        try:
            return path, audit(miche, path)
        except Skip as why:
            return path, why

    with ThreadPoolExecutor() as pool:
        done = list(pool.map(one, files))
    for path, found in done:
        if isinstance(found, Skip):
            print(f"left out {path.name}: {found}")
            continue
        compared, wrong = found
        audited += 1
        all_compared += compared
        bad += wrong
    print("\n".join(bad))
    print(f"{audited} recipes, {all_compared} figures compared, {len(bad)} wrong")
    sys.exit(1 if bad or not audited else 0)


if __name__ == "__main__":
    main()
