#!/bin/sh
# The tests beside the code under address and undefined-behaviour sanitizers, in the build of the fuzzer's doors (clang++). By
# hand, some half an hour; it stops at the first thing found:
#
#     sh tests/sanitize.sh [TEST of Catch2, all but the fuzzer's and the slow ones]
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
sh "$root/tests/fuzz/build.sh"
ninja -C "$root/build/fuzz" -j2 tuck_tests tuck_program
export TUCK="$root/build/fuzz/tuck" TUCK_ROOT="$root" TUCK_BUILD="$root/build/fuzz" LC_ALL=C.UTF-8
exec "$root/build/fuzz/tests/tuck_tests" "${1:-~[fuzz]~[slow]}"
