#!/usr/bin/env bash
# Fuzzes one target: tests/fuzz/run.sh TARGET [MINUTES]. Needs a nightly compiler and `cargo install cargo-fuzz --locked`.
# What it finds, and the corpus it grows, lie in $MICHE_FUZZ (usually target/fuzz); a line for each run goes into runs.log.
set -euo pipefail
target=$1
minutes=${2:-30}
root=$(cd "$(dirname "$0")/../.." && pwd)
work=${MICHE_FUZZ:-$root/target/fuzz}
export CARGO_TARGET_DIR="$work/build"
mkdir -p "$work/corpus/$target" "$work/found/$target" "$work/seeds"

# Every example and every file of the tests, right and wrong, is a seed.
find "$root/examples" "$root/tests" -name '*.miche' -size -16k -exec cp -t "$work/seeds" {} +
python3 "$root/tests/fuzz/words.py"

cd "$root"
cargo +nightly fuzz build --fuzz-dir tests/fuzz -s none "$target"
started=$(date '+%F %T')
log="$work/$target-$(date +%s).log"
# A text of 6 kB that takes 20 s is 3 ms a byte: slower than anything that is right. On a busy machine a process that waits
# its turn looks as slow: give MICHE_FUZZ_TIMEOUT a larger number there.
nice -n 19 "$(find "$CARGO_TARGET_DIR" -path '*/release/*' -name "$target" -type f -perm -u+x | head -1)" \
    "$work/corpus/$target" "$work/seeds" -artifact_prefix="$work/found/$target/" -dict="$root/tests/fuzz/miche.dict" \
    -max_total_time=$((minutes * 60)) -timeout=${MICHE_FUZZ_TIMEOUT:-20} -rss_limit_mb=2048 -max_len=6000 -len_control=40 \
    -report_slow_units=5 -print_final_stats=1 >"$log" 2>&1 && ended=well || ended="with status $?"
executions=$(grep -oE 'stat::number_of_executed_units: +[0-9]+' "$log" | grep -oE '[0-9]+$' || echo '?')
echo "$started $target: $executions executions in at most $minutes minutes, ended $ended ($log)" | tee -a "$work/runs.log"
