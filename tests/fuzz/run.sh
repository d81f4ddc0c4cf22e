#!/bin/sh
# Long knocking at every door with libFuzzer, address and undefined-behaviour sanitizers. By hand:
#
#     sh tests/fuzz/run.sh [SECONDS, 20] [DOOR ...]
#
# What it finds lies in build/fuzz/found; make a named test of it. tests/unit/doors_test.cpp knocks a little on every run.
set -eu

root=$(cd "$(dirname "$0")/../.." && pwd)
build=$root/build/fuzz
seconds=${1:-20}
[ $# -eq 0 ] || shift
doors=${*:-event athlete foods label diary marks roster gpx quantity own_line page}

command -v clang++ >/dev/null || {
    echo "run.sh: clang++ with libFuzzer is missing: Debian's clang and libclang-rt-14-dev" >&2
    exit 1
}
cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_COMPILER=clang++ \
    -DCMAKE_CXX_FLAGS_RELEASE="-O1 -g -fsanitize=fuzzer-no-link" -DTUCK_SANITIZE=ON -DTUCK_WERROR=ON -DTUCK_TESTS=ON \
    "-DTUCK_FUZZ=$(echo "$doors" | tr ' ' ';')" >/dev/null
# shellcheck disable=SC2046 # one word per target
ninja -C "$build" $(for door in $doors; do echo "fuzz_$door"; done) >/dev/null

mkdir -p "$build/found"
failed=
for door in $doors; do
    mkdir -p "$build/corpus/$door"
    echo "-- $door"
    "$build/tests/fuzz_$door" -max_total_time="$seconds" -timeout=60 -rss_limit_mb=2048 -max_len=20000 -print_final_stats=1 \
        -dict="$root/tests/fuzz/words.dict" -artifact_prefix="$build/found/$door-" \
        "$build/corpus/$door" "$root/tests/fuzz/seeds/$door" >"$build/$door.log" 2>&1 || failed="$failed $door"
    grep -E "number_of_executed_units|average_exec|peak_rss|SUMMARY|DONE" "$build/$door.log" || true
done
[ -z "$failed" ] || {
    echo "found:$failed; see $build/found and the logs in $build" >&2
    exit 1
}
