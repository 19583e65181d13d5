#!/usr/bin/env python3
"""Draws the pictures of the examples: calm shapes in near-black, one blue-green and their tints.

    python3 -m pip install 'pillow==13.0.0'
    python3 tests/scripts/draw_pictures.py

Writes examples/pictures/*.png, the same bytes at every run of one version of Pillow. Everything is drawn three times as large and
made smaller, so that edges are smooth; sixty-four colours keep the files small.
"""

import math
import sys
from pathlib import Path

from PIL import Image, ImageDraw

FOLDER = Path(__file__).resolve().parents[2] / "examples" / "pictures"
WIDE, HIGH = 1400, 560
FINE = 3

INK = (21, 24, 27)
MARK = (10, 85, 102)
PAPER = (246, 247, 246)


def mix(one, other, share):
    """One colour with so much of another."""
    return tuple(round(a + (b - a) * share) for a, b in zip(one, other))


SEA = mix(MARK, PAPER, 0.82)
TRAY = mix(MARK, PAPER, 0.62)
CRUST = mix(INK, PAPER, 0.22)
CRUMB = mix(INK, PAPER, 0.72)
PALE = mix(INK, PAPER, 0.86)


class Sheet:
    """A drawing in units of the finished picture."""

    def __init__(self, ground=SEA):
        self.image = Image.new("RGB", (WIDE * FINE, HIGH * FINE), ground)
        self.draw = ImageDraw.Draw(self.image)

    def shape(self, points, fill):
        self.draw.polygon([(x * FINE, y * FINE) for x, y in points], fill=fill)

    def round(self, x, y, rx, ry, fill):
        self.draw.ellipse([(x - rx) * FINE, (y - ry) * FINE, (x + rx) * FINE, (y + ry) * FINE], fill=fill)

    def block(self, left, top, right, bottom, fill, radius=0):
        box = [left * FINE, top * FINE, right * FINE, bottom * FINE]
        self.draw.rounded_rectangle(box, radius=radius * FINE, fill=fill)

    def line(self, points, fill, width):
        self.draw.line([(x * FINE, y * FINE) for x, y in points], fill=fill, width=round(width * FINE), joint="curve")
        for x, y in (points[0], points[-1]):
            self.round(x, y, width / 2, width / 2, fill)

    def save(self, name):
        small = self.image.resize((WIDE, HIGH), Image.Resampling.LANCZOS)
        small = small.quantize(64, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
        path = FOLDER / name
        small.save(path, optimize=True)
        print(f"{path.name}: {path.stat().st_size} bytes")
        return path.stat().st_size


def arc(cx, cy, rx, ry, first, last, steps=72):
    """Points on an ellipse, angles in degrees, clockwise from the right."""
    angles = (math.radians(first + (last - first) * at / steps) for at in range(steps + 1))
    return [(cx + rx * math.cos(angle), cy + ry * math.sin(angle)) for angle in angles]


def horizon(sheet, y, fill=PAPER):
    """The table below."""
    sheet.block(0, y, WIDE, HIGH, fill)


def loaf(sheet, cx, base, rx, ry, slashes):
    """A round loaf seen from the side, slashed."""
    body = arc(cx, base, rx, ry, 180, 360) + arc(cx, base, rx, ry * 0.14, 0, 180)
    sheet.shape(body, CRUST)
    for share in slashes:
        x = cx + rx * share
        lean = rx * 0.13
        top = base - ry * math.sqrt(max(0.0, 1 - share * share)) * 0.88
        low = base - ry * 0.30
        bow = [(x + lean * math.sin(at * math.pi / 20) - lean / 2 + (at - 10) * 1.2, top + (low - top) * at / 20) for at in range(21)]
        sheet.line(bow, CRUMB, rx * 0.055)


def levain_loaf():
    sheet = Sheet()
    horizon(sheet, 420)
    sheet.block(300, 418, 1100, 446, MARK, 8)
    loaf(sheet, 700, 414, 270, 300, (-0.5, -0.17, 0.17, 0.5))
    return sheet.save("levain-loaf.png")


def buns():
    sheet = Sheet(PAPER)
    sheet.block(190, 50, 1210, 510, MARK, 28)
    sheet.block(210, 70, 1190, 490, TRAY, 18)
    for row in range(3):
        for column in range(4):
            x, y = 333 + column * 245, 142 + row * 138
            sheet.round(x, y, 96, 60, CRUST)
            sheet.round(x, y - 7, 84, 48, mix(CRUST, CRUMB, 0.35))
            # Crumbs, always in the same places.
            for at in range(16):
                angle, far = at * 2.39996, math.sqrt((at + 0.5) / 16)
                cx, cy = x + 66 * far * math.cos(angle), y - 8 + 35 * far * math.sin(angle)
                side = 5 + (at * 7 + column + row) % 5
                sheet.shape([(cx - side, cy), (cx, cy - side * 0.8), (cx + side, cy), (cx, cy + side * 0.8)], PALE)
    return sheet.save("crumb-buns.png")


def baguettes():
    sheet = Sheet()
    for x, y in ((120, 396), (210, 288), (150, 180)):
        long, thick, slope = 1040, 52, -0.055
        spine = lambda share: (x + long * share, y + long * share * slope)
        over, under = [], []
        for at in range(101):
            # Close together where the end is round.
            share = (1 - math.cos(math.pi * at / 100)) / 2
            cx, cy = spine(share)
            half = thick * min(1.0, math.sqrt(max(0.0, 1 - (2 * share - 1) ** 6)))
            over.append((cx, cy - half))
            under.append((cx, cy + half * 0.8))
        sheet.shape(over + under[::-1], CRUST)
        for cut in range(5):
            share = 0.12 + cut * 0.17
            ax, ay = spine(share)
            bx, by = spine(share + 0.12)
            bow = [at / 12 for at in range(13)]
            sheet.line([(ax + (bx - ax) * t, ay + 20 - (46 + ay - by) * t - 12 * math.sin(math.pi * t)) for t in bow], CRUMB, 15)
    sheet.block(60, 444, 1340, 466, MARK, 8)
    return sheet.save("baguettes.png")


def biscuits():
    sheet = Sheet(PAPER)
    sheet.block(0, 0, WIDE, HIGH, SEA)
    for row in range(2):
        for column in range(5):
            x = 220 + column * 240 + (60 if row else 0) - 30
            y = 170 + row * 220
            sheet.round(x, y + 7, 98, 84, mix(MARK, PAPER, 0.5))
            outline = []
            for at in range(240):
                angle = at / 240 * 2 * math.pi
                far = 1 + 0.035 * math.cos(angle * 18)
                outline.append((x + 96 * far * math.cos(angle), y + 82 * far * math.sin(angle)))
            sheet.shape(outline, mix(CRUST, CRUMB, 0.55))
            for prick in range(7):
                angle = prick * math.pi / 3
                far = 0 if prick == 6 else 0.5
                sheet.round(x + 96 * far * math.cos(angle), y + 82 * far * math.sin(angle), 7, 6, CRUST)
    return sheet.save("shore-biscuits.png")


def brioche():
    sheet = Sheet()
    horizon(sheet, 440)
    sheet.block(210, 438, 1190, 462, MARK, 8)
    for x in (410, 700, 990):
        tin = [(x - 116, 300), (x + 116, 300), (x + 74, 436), (x - 74, 436)]
        sheet.shape(tin, MARK)
        for rib in range(-2, 3):
            sheet.line([(x + rib * 44, 308), (x + rib * 29, 430)], TRAY, 5)
        sheet.shape(arc(x, 302, 134, 112, 180, 360) + arc(x, 302, 134, 22, 0, 180), CRUST)
        sheet.round(x, 176, 66, 60, CRUST)
        sheet.shape(arc(x - 14, 172, 34, 30, 200, 290) + arc(x - 14, 178, 26, 20, 290, 200), CRUMB)
    return sheet.save("brioche.png")


def rounds():
    """A step: pieces shaped and set to rest in rows, seen from above."""
    sheet = Sheet(TRAY)
    for row in range(2):
        for column in range(6):
            x, y = 175 + column * 210, 165 + row * 230
            sheet.round(x + 5, y + 9, 84, 80, mix(MARK, PAPER, 0.35))
            sheet.round(x, y, 84, 80, PALE)
            fold = arc(x, y, 34, 32, 200, 430, 40)
            sheet.line(fold, CRUMB, 5)
    return sheet.save("rounds-at-rest.png")


def main():
    FOLDER.mkdir(parents=True, exist_ok=True)
    sizes = [draw() for draw in (levain_loaf, buns, baguettes, biscuits, brioche, rounds)]
    if max(sizes) > 40_000:
        sys.exit("a picture is larger than 40 kB")


if __name__ == "__main__":
    main()
