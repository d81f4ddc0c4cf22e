#!/bin/sh
# How much of the stages the tests beside the code, the approved outputs and the tests of the program go through. By hand,
# some half an hour:
#
#     sh tests/coverage.sh [FLAG of gcovr ...]
#
# Debian's gcovr. Branches that only an exception takes are left out: g++ makes one of every call.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
build=$root/build/coverage
command -v gcovr >/dev/null || {
    echo "coverage.sh: gcovr is missing: Debian's gcovr" >&2
    exit 2
}

cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Debug "-DCMAKE_CXX_FLAGS_DEBUG=-Og --coverage -fprofile-update=atomic" -DTUCK_TESTS=ON \
    -DTUCK_BY_SIXES=ON >/dev/null
ninja -C "$build" tuck_tests tuck_program tuck_checker >/dev/null
find "$build" -name '*.gcda' -delete
export TUCK="$build/tuck" TUCK_ROOT="$root" TUCK_BUILD="$build" LC_ALL=C.UTF-8
"$build/tests/tuck_tests" "~[fuzz]" >"$build/tests.log" || echo "coverage.sh: a test failed; see $build/tests.log" >&2
sh "$root/tests/approve.sh" >"$build/approve.log" || echo "coverage.sh: an output differs; see $build/approve.log" >&2
for test in bad_input course daily desk diary edits one_rhythm outputs own_plan plan_contract plan_faults plan_words rehearse \
    schedule_solver squad sweat_test wrong_inputs; do
    python3 "$root/tests/cli/${test}_test.py" >>"$build/cli.log" 2>&1 ||
        echo "coverage.sh: ${test}_test.py failed; see $build/cli.log" >&2
done
gcovr --root "$root" --object-directory "$build" --filter 'src/(base|effort|body|need|schedule|outlook|plan|ask|diary)/' \
    --exclude-throw-branches --exclude-unreachable-branches --print-summary "$@" "$build"
