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


def strew(sheet, middle, reach, count, size, fill):
    """So many grains over an ellipse, none on another: each a golden angle on from the one before."""
    for at in range(count):
        angle, far = at * 2.39996, math.sqrt((at + 0.5) / count)
        sheet.round(middle[0] + reach[0] * far * math.cos(angle), middle[1] + reach[1] * far * math.sin(angle), *size, fill)


def steam(sheet, x, y, sway, steps, width):
    """A thread of steam, from below."""
    sheet.line([(x + sway * math.sin(step / 3), y - step * 8) for step in range(steps)], PAPER, width)


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


def croissants():
    sheet = Sheet(PAPER)
    sheet.block(150, 60, 1250, 500, MARK, 28)
    sheet.block(172, 82, 1228, 478, TRAY, 18)
    for row in range(2):
        for column in range(3):
            cx, cy = 352 + column * 348, 212 + row * 190
            for ring in range(9):
                # A crescent of nine folds, the thickest in the middle.
                angle = math.radians(200 + ring * 17.5)
                thick = 22 + 38 * math.sin(math.pi * (ring + 0.5) / 9)
                x, y = cx + 104 * math.cos(angle), cy + 52 + 84 * math.sin(angle)
                sheet.round(x, y, thick * 0.86, thick, CRUST if ring % 2 else mix(CRUST, CRUMB, 0.3))
    return sheet.save("croissants.png")


def tin(sheet, left, right, top, base, rise):
    """A loaf in its tin, seen from the side."""
    middle, half = (left + right) / 2, (right - left) / 2
    sheet.shape(arc(middle, top + 6, half + 14, rise, 180, 360) + arc(middle, top + 6, half + 14, 12, 0, 180), CRUST)
    sheet.line([(left + half * 0.35, top - rise * 0.62), (middle, top - rise * 0.76), (right - half * 0.35, top - rise * 0.62)], CRUMB, 11)
    sheet.shape([(left, top), (right, top), (right - 26, base), (left + 26, base)], MARK)
    sheet.line([(left - 6, top), (right + 6, top)], TRAY, 12)


def tin_bread():
    sheet = Sheet()
    horizon(sheet, 442)
    sheet.block(120, 440, 1280, 464, MARK, 8)
    tin(sheet, 170, 590, 300, 438, 126)
    for left in (690, 970):
        tin(sheet, left, left + 220, 346, 438, 84)
    return sheet.save("tin-bread.png")


def milk_loaf():
    sheet = Sheet()
    horizon(sheet, 442)
    sheet.block(200, 440, 1200, 464, MARK, 8)
    body = [(306, 438), (292, 300)] + arc(520, 300, 228, 130, 180, 360) + [(734, 438)]
    sheet.shape(body, CRUST)
    for x in (400, 520, 640):
        sheet.line([(x, 196), (x + 4, 250)], CRUMB, 10)
    for at in range(3):
        # Slices that have fallen, one on the other.
        left, lean = 800 + at * 96, 26 + at * 16
        crust = [(left, 438), (left + lean, 300), (left + lean + 44, 212), (left + lean + 112, 216), (left + lean + 128, 300), (left + 92, 438)]
        crumb = [(x + (left + lean * 0.6 + 60 - x) * 0.13, y + (330 - y) * 0.11) for x, y in crust]
        sheet.shape(crust, CRUST)
        sheet.shape(crumb, PALE)
    return sheet.save("milk-loaf.png")


def rye():
    sheet = Sheet()
    horizon(sheet, 420)
    sheet.block(170, 418, 1230, 446, MARK, 8)
    for cx in (450, 950):
        loaf(sheet, cx, 414, 214, 236, ())
        # What a basket leaves: rings of flour.
        for ring in range(1, 5):
            sheet.line(arc(cx, 414, 214 * ring / 5, 236 * ring / 5 * 0.96, 200, 340, 60), CRUMB, 9)
    return sheet.save("pier-rye.png")


def gluten_free():
    sheet = Sheet()
    horizon(sheet, 420)
    sheet.block(240, 418, 1160, 446, MARK, 8)
    loaf(sheet, 560, 414, 250, 250, (0.0,))
    slice_of = arc(950, 300, 130, 118, 0, 360)
    sheet.shape(slice_of, CRUST)
    sheet.shape(arc(950, 300, 114, 102, 0, 360), PALE)
    for at in range(22):
        angle, far = at * 2.39996, math.sqrt((at + 0.5) / 22)
        sheet.round(950 + 96 * far * math.cos(angle), 300 + 84 * far * math.sin(angle), 4 + at % 4, 3 + at % 3, CRUMB)
    return sheet.save("gluten-free-loaf.png")


def ice_cream():
    sheet = Sheet()
    horizon(sheet, 430)
    for cx in (400, 700, 1000):
        for dx, dy in ((-46, 0), (46, 0), (0, -64)):
            sheet.round(cx + dx, 236 + dy, 66, 62, PALE if dy else mix(PALE, PAPER, 0.5))
            sheet.line(arc(cx + dx, 236 + dy, 44, 40, 200, 265, 24), CRUMB, 5)
        sheet.shape(arc(cx, 262, 132, 124, 0, 180), MARK)
        sheet.block(cx - 16, 380, cx + 16, 424, MARK)
        sheet.block(cx - 78, 418, cx + 78, 436, MARK, 8)
    return sheet.save("ice-cream.png")


def sticks():
    sheet = Sheet(PAPER)
    sheet.block(0, 0, WIDE, HIGH, SEA)
    for at in range(11):
        x, y = 130 + at * 104, 70 + (at % 3) * 16
        sheet.block(x + 6, y + 9, x + 58, y + 399, mix(MARK, PAPER, 0.5), 26)
        sheet.block(x, y, x + 52, y + 390, CRUST, 26)
        for seed in range(24):
            sx, sy = x + 12 + (seed * 17 + at * 5) % 29, y + 24 + seed * 14.6
            turn = (seed * 37 + at * 11) % 180
            sheet.shape(arc(sx, sy, 7 if turn < 90 else 4, 4 if turn < 90 else 7, 0, 360, 20), PALE if seed % 3 else TRAY)
    return sheet.save("seed-sticks.png")


def macaroons():
    sheet = Sheet(TRAY)
    for row in range(3):
        for column in range(7):
            x, y = 148 + column * 184, 118 + row * 162
            sheet.round(x + 4, y + 8, 66, 58, mix(MARK, PAPER, 0.4))
            sheet.round(x, y, 66, 58, PALE)
            for ring, far in ((50, 0.9), (34, 0.62), (18, 0.34)):
                sheet.line(arc(x, y - (50 - ring) * 0.22, 58 * far, 50 * far, 150 + ring, 420 + ring, 40), CRUMB, 5)
    return sheet.save("macaroons.png")


def oatcakes():
    sheet = Sheet(PAPER)
    sheet.block(0, 0, WIDE, HIGH, SEA)
    for cx in (380, 1020):
        sheet.round(cx + 6, 294, 236, 206, mix(MARK, PAPER, 0.5))
        for quarter in range(4):
            first = quarter * 90 + 3
            ox, oy = 9 * math.cos(math.radians(first + 42)), 9 * math.sin(math.radians(first + 42))
            sheet.shape([(cx + ox, 280 + oy)] + arc(cx + ox, 280 + oy, 224, 196, first, first + 84, 40), mix(CRUST, CRUMB, 0.6))
            for fleck in range(14):
                angle = math.radians(first + 8 + (fleck * 41.7) % 68)
                far = 0.25 + 0.66 * math.sqrt((fleck + 0.5) / 14)
                x, y = cx + ox + 224 * far * math.cos(angle), 280 + oy + 196 * far * math.sin(angle)
                sheet.round(x, y, 8, 5, PALE if fleck % 2 else CRUST)
    return sheet.save("oatcakes.png")


def pea_pot():
    sheet = Sheet()
    horizon(sheet, 440)
    sheet.shape([(350, 250), (850, 250), (818, 436), (382, 436)], MARK)
    sheet.round(600, 250, 250, 42, CRUST)
    sheet.round(600, 252, 232, 34, CRUMB)
    strew(sheet, (600, 252), (206, 25), 26, (10, 7), PALE)
    for x in (332, 868):
        sheet.line(arc(x, 296, 34, 26, 0, 360, 40), MARK, 12)
    sheet.shape(arc(1050, 348, 150, 92, 0, 180), TRAY)
    sheet.round(1050, 348, 150, 26, mix(MARK, PAPER, 0.3))
    sheet.round(1050, 350, 134, 19, CRUMB)
    strew(sheet, (1050, 350), (112, 12), 12, (9, 5), PALE)
    for at in range(3):
        x = 510 + at * 90
        steam(sheet, x, 190, 14, 15, 9)
    return sheet.save("pea-pot.png")


def rolls():
    """A heap of rolls beside a plate of soup."""
    sheet = Sheet()
    horizon(sheet, 440)
    for y, xs in ((400, (250, 420, 590, 760)), (296, (335, 505, 675)), (196, (420, 590))):
        for x in xs:
            sheet.shape(arc(x, y, 98, 90, 180, 360) + arc(x, y, 98, 42, 0, 180), CRUST)
            sheet.shape(arc(x, y - 6, 90, 78, 180, 360) + arc(x, y - 6, 90, 26, 0, 180), mix(CRUST, CRUMB, 0.5))
            strew(sheet, (x, y - 46), (56, 26), 22, (4.5, 3), PALE)
    sheet.shape(arc(1080, 392, 200, 76, 0, 180), MARK)
    sheet.round(1080, 392, 200, 38, TRAY)
    sheet.round(1080, 394, 168, 28, CRUMB)
    strew(sheet, (1080, 394), (140, 18), 14, (9, 5), MARK)
    for at in range(3):
        x = 1010 + at * 70
        steam(sheet, x, 330, 12, 12, 8)
    return sheet.save("rolls.png")


def mother_dough():
    """A dough in a tub of glass, risen over the mark that it was put in at."""
    sheet = Sheet(PAPER)
    sheet.block(0, 0, WIDE, HIGH, SEA)
    horizon(sheet, 470, mix(MARK, PAPER, 0.5))
    sheet.block(430, 110, 970, 486, TRAY, 34)
    sheet.shape(arc(700, 250, 252, 74, 180, 360) + [(952, 452), (932, 470), (468, 470), (448, 452)], PALE)
    for at in range(46):
        angle, far = at * 2.39996, math.sqrt((at + 0.5) / 46)
        x, y = 700 + 226 * far * math.cos(angle), 350 + 96 * far * math.sin(angle)
        wide = 6 + 11 * ((at * 7) % 5) / 4
        sheet.round(x, y, wide, wide * 0.8, mix(CRUMB, PALE, 0.35))
    sheet.line([(434, 372), (966, 372)], MARK, 9)
    sheet.block(406, 82, 994, 126, MARK, 16)
    return sheet.save("mother-dough.png")


ALL = (
    levain_loaf, buns, baguettes, biscuits, brioche, rounds, croissants, tin_bread, milk_loaf, rye, gluten_free, ice_cream, sticks,
    macaroons, oatcakes, pea_pot, rolls, mother_dough,
)


def main():
    FOLDER.mkdir(parents=True, exist_ok=True)
    sizes = [draw() for draw in ALL]
    if max(sizes) > 40_000:
        sys.exit("a picture is larger than 40 kB")


if __name__ == "__main__":
    main()
