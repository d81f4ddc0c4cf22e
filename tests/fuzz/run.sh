#!/bin/sh
# Long knocking at every door with libFuzzer. By hand; tests/run.sh knocks 20 s at each:
#
#     sh tests/fuzz/run.sh [SECONDS, 20] [DOOR ...]
#
# What it finds lies in build/fuzz/found; make a named test of it. tests/unit/doors_test.cpp knocks without sanitizers.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
seconds=${1:-20}
[ $# -eq 0 ] || shift
sh "$here/build.sh"
failed=
for door in ${*:-$(ls "$here/seeds")}; do
    sh "$here/knock.sh" "$door" "$seconds" 0 || failed="$failed $door"
done
[ -z "$failed" ] || {
    echo "found:$failed" >&2
    exit 1
}
