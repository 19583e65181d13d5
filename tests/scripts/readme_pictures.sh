#!/usr/bin/env bash
# Draws the pictures of README.md anew after a change of the sheets: tests/scripts/readme_pictures.sh [MICHE]
# Needs pdftoppm (poppler-utils). Type is drawn a little differently on every machine, so no test compares them.
set -euo pipefail
cd "$(dirname "$0")/../.."
miche=$(realpath "${1:-target/release/miche}")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"$miche" card examples/rhubarb-crumb-buns.miche --paper a4 -o "$work/card.pdf"
"$miche" plan examples/market-day.miche -o "$work/plan.pdf"
for sheet in card plan; do
    pdftoppm -gray -png -r 64 -singlefile "$work/$sheet.pdf" "grammar/pictures/$sheet"
done
