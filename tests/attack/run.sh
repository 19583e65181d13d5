#!/usr/bin/env bash
# Attacks the built program for hours, at the lowest priority: tests/attack/run.sh [HOURS [SEED]]. Begins with 100 000 merges.
# What it finds lies in target/attack; a seed that found something is tried again with MICHE_ATTACK_SEED and one second.
set -euo pipefail
hours=${1:-1}
seed=${2:-$(date +%s)}
cd "$(dirname "$0")/../.."
MICHE_MERGES=100000 MICHE_MERGES_FROM=$seed nice -n 19 cargo test --locked --test merge -- --nocapture
MICHE_ATTACK_SECONDS=$((hours * 3600)) MICHE_ATTACK_SEED=$seed nice -n 19 cargo test --locked --test attack -- --nocapture
