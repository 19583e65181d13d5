#!/usr/bin/env python3
"""Runs miche on a terminal of 80 columns and prints every line that is wider: at_80_columns.py MICHE < commands.json

Reads a list of argument lists, writes one JSON object a wide line. A terminal breaks what is too wide within words. A line of one
word, such as an address, is left out: nobody can break it.
"""
import fcntl
import json
import os
import pty
import re
import struct
import subprocess
import sys
import termios
import unicodedata

COLUMNS = 80
COLOUR = re.compile("\x1b\\[[0-9;?]*[A-Za-z]")


def width(line):
    wide = 0
    for sign in COLOUR.sub("", line):
        if unicodedata.combining(sign) or unicodedata.category(sign) in ("Cf", "Cc"):
            continue
        wide += 2 if unicodedata.east_asian_width(sign) in "WF" else 1
    return wide


def shown(words):
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, COLUMNS, 0, 0))
    run = subprocess.Popen(words, stdin=subprocess.DEVNULL, stdout=slave, stderr=slave, env={**os.environ, "TERM": "xterm"})
    os.close(slave)
    out = b""
    while True:
        try:
            piece = os.read(master, 65536)
        except OSError:
            break
        if not piece:
            break
        out += piece
    run.wait()
    os.close(master)
    text = out.decode("utf-8").replace("\r\n", "\n")
    # What is said to who waits is drawn over itself.
    return [line.rsplit("\r", 1)[-1] for line in text.split("\n")]


for arguments in json.load(sys.stdin):
    for line in shown([sys.argv[1], *arguments]):
        if width(line) > COLUMNS and " " in COLOUR.sub("", line).strip():
            print(json.dumps({"command": " ".join(arguments), "line": COLOUR.sub("", line)}, ensure_ascii=False))
