#!/usr/bin/env python3
"""Writes the fuzzers' dictionary: every word and mark of the grammar, and what people type instead."""

import pathlib
import re

here = pathlib.Path(__file__).parent
grammar = (here / "../../grammar/miche.pest").read_text()
grammar = re.sub(r"//.*", "", grammar)
words = set(re.findall(r'"((?:[^"\\]|\\.)*)"', grammar))
words = {word.replace('\\"', '"').replace("\\\\", "\\") for word in words if not word.startswith("\\u")}
for line in re.findall(r"SOI ~ (.*) ~ EOI", grammar):
    words.add(" ".join(re.findall(r'\^"(\w+)"', line)[:3]))
words |= set(
    """¶recipe |¶part |¶    until |....|..|{rest of |{half of |{1/3 of |1/0|1 1/2|½|1,5|1e9|999999999999999999999999|
0.000000000000000000001|170141183460469231731687303715884105727|%|90-120 min|190 C = 375 F|fl oz|tsp|tbsp|cup|pint|gal|
 using oven at |12 at a time|straight after |within 10 min after |up to 2 days|measures US|measures imperial|
"larder.miche"|"mother-dough.miche"|"bakehouse.miche"|"school-kitchen.miche"|counts as flour|to taste|as needed|, aside|
, optional|, from dough|loss 3 %|yield 90 %|, [machine]|[machine, hand]|[hand]|choose mixing: machine or hand|
allow |because |# |\\|\r¶|<script>|](javascript:x)|ready 2027-04-17 07:00|make 48 of |per cup US|scale 1 g|holds 8 kg|
open 07:00-21:00|ingredient |contains wheat|energy 100 kcal|costs 1.20 EUR per kg|one weighs 50 g|makes 24 buns|\t""".replace(
        "\n", ""
    )
    .replace("¶", "\n")
    .split("|")
)
raw = [b"\xef\xbb\xbf", b"\xe2\x80\xae", b"\xe2\x80\x8b", b"\xc2\xa0", b"\x1b[31m", b"\x00", b"\xe2\x80\xa6", b"\xe2\x80\x93"]


def quoted(word: bytes) -> str:
    plain = all(32 <= byte < 127 and byte not in b'"\\' for byte in word)
    return '"' + (word.decode() if plain else "".join(f"\\x{byte:02x}" for byte in word)) + '"'


entries = sorted({quoted(word.encode()) for word in words if word.strip(" ")} | {quoted(word) for word in raw})
(here / "miche.dict").write_text("\n".join(entries) + "\n")
