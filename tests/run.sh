#!/bin/sh
# Installs what is missing, builds with warnings as errors, runs every test. Ends with ctest's own summary.
# Works from any folder: sh tests/run.sh
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
build=$root/build/tests-release
needed="g++ clang libclang-rt-14-dev cmake ninja-build nlohmann-json3-dev libfmt-dev libcli11-dev libhpdf-dev libqpdf-dev libexpat1-dev libutfcpp-dev libfast-float-dev catch2
    clang-format python3 python3-ephem python3-icalendar python3-jsonschema poppler-utils qpdf mupdf-tools fonts-liberation fonts-roboto-unhinted
    geographiclib-tools coinor-cbc glpk-utils parallel man-db"

missing=
for package in $needed; do
    state=$(dpkg-query -W -f '${Status}' "$package" 2>/dev/null || true)
    [ "$state" = "install ok installed" ] || missing="$missing $package"
done
# Node and npm bring the independent judges; another distribution of node may bring npm with it.
command -v node >/dev/null || missing="$missing nodejs"
command -v npm >/dev/null || missing="$missing npm"
if [ -n "$missing" ]; then
    echo "Installing:$missing"
    as_root=
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null || {
            echo "run.sh: these packages are missing, and installing them takes root or sudo:$missing" >&2
            exit 1
        }
        as_root=sudo
    fi
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get update -qq
    # shellcheck disable=SC2086 # one word per package
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends $missing
fi

cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DTUCK_WERROR=ON \
    -DTUCK_TESTS=ON -DTUCK_PAGE_TESTS=ON -DTUCK_FUZZ_TESTS=ON
cmake --build "$build" --parallel 2
exec ctest --test-dir "$build" --output-on-failure --parallel 2
