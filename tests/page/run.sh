#!/bin/sh
# Everything about the page: installs what is missing, builds program and page, runs the page's tests in Chromium, in Firefox
# and under node. Works from any folder, after tests/run.sh or alone: sh tests/page/run.sh
set -eu

root=$(cd "$(dirname "$0")/../.." && pwd)
build=$root/build/tests-release
sh "$root/tests/page/build.sh"
cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DTUCK_WERROR=ON -DTUCK_TESTS=ON -DTUCK_PAGE_TESTS=ON
cmake --build "$build" --parallel 2 --target tuck_program
exec ctest --test-dir "$build" --output-on-failure -R '^page[.]'
