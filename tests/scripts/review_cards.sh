#!/usr/bin/env bash
# Prints the main cards as grey pictures into tests/cards/reviewed, to be looked at by a person after a change of design.
# Needs chromium and pdftoppm. They are not compared by a test: type is drawn a little differently on every machine.
set -euo pipefail
cd "$(dirname "$0")/../.."
miche=${1:-target/debug/miche}
out=tests/cards/reviewed
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
picture() { # name, pages to keep, recipe, options…
    local name=$1 pages=$2
    shift 2
    "$miche" card "$@" --date 2027-04-17 --format html >"$work/$name.html" 2>/dev/null
    chromium --headless --no-sandbox --disable-gpu --no-first-run --disable-background-networking \
        --disable-component-update --disable-sync --user-data-dir="$work/profile" --no-pdf-header-footer \
        --print-to-pdf="$work/$name.pdf" "file://$work/$name.html" >/dev/null 2>&1
    for page in $pages; do
        pdftoppm -r 72 -gray -png -singlefile -f "$page" -l "$page" "$work/$name.pdf" "$out/$name-$page"
    done
}
mkdir -p "$out"
picture rhubarb-a4 "1 2" examples/rhubarb-crumb-buns.miche --pieces 90
picture levain-a4 "2" examples/harbour-levain-loaf.miche
picture rhubarb-parts-a5 "1 2" examples/rhubarb-crumb-buns.miche --paper a5 --by part
picture rhubarb-stations-a5 "4" examples/rhubarb-crumb-buns.miche --paper a5 --by station
picture market-day-a4 "1 2" examples/market-day.miche
picture baguettes-index "1 2" examples/quay-baguettes.miche --paper index --units us
