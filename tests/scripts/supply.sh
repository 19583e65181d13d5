#!/usr/bin/env bash
# What the program is built from: licences, doubles, sources, known faults (.deny.toml), and the lock file.
# The data on known faults comes from the network; without one they are left out, which is said.
set -euo pipefail
cd "$(dirname "$0")/../.."
command -v cargo-deny >/dev/null || cargo install cargo-deny --locked
cargo metadata --locked --format-version 1 >/dev/null
cargo deny --locked check licenses bans sources
cargo deny --locked check advisories || echo "known faults were not looked at, or some were found: see above"
