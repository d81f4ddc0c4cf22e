#!/bin/sh
# Knocks at one door for some time: knock.sh DOOR [SECONDS, 20] [SEED, 1; 0: another each time]. tests/fuzz/build.sh builds
# what it runs. Fails where something is found, and names the file that does it again.
set -eu

root=$(cd "$(dirname "$0")/../.." && pwd)
build=$root/build/fuzz
door=$1
mkdir -p "$build/found" "$build/corpus/$door"
# Without the stack of every allocation: up to three times as many knocks. What is found says all when it is run alone.
export ASAN_OPTIONS="malloc_context_size=0:quarantine_size_mb=4${ASAN_OPTIONS:+:$ASAN_OPTIONS}"
if TUCK_DOOR=$door "$build/tests/tuck_fuzz" -max_total_time="${2:-20}" -timeout=60 -rss_limit_mb=2048 -max_len=20000 \
    -print_final_stats=1 -seed="${3:-1}" -dict="$root/tests/fuzz/words.dict" -artifact_prefix="$build/found/$door-" \
    "$build/corpus/$door" "$root/tests/fuzz/seeds/$door" >"$build/$door.log" 2>&1; then
    echo "$door: $(sed -n 's/.*number_of_executed_units: *//p' "$build/$door.log") tried, nothing found"
else
    grep -E "SUMMARY|ERROR|Test unit|what\(\)|terminate" "$build/$door.log" >&2 || tail -5 "$build/$door.log" >&2
    echo "$door: found; the log is $build/$door.log" >&2
    exit 1
fi
