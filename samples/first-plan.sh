#!/bin/sh
# From a fresh Debian to a first plan: installs what is missing, builds, plans the sample race, prints its card.
# Usage: sh samples/first-plan.sh [FOLDER]     (default: build/first-plan-out in the source tree)
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
build=$root/build/first-plan
out=${1:-$root/build/first-plan-out}
event=$root/samples/hot-standard.json
needed="g++ cmake ninja-build nlohmann-json3-dev libfmt-dev libcli11-dev libhpdf-dev libqpdf-dev libexpat1-dev libutfcpp-dev libfast-float-dev fonts-liberation fonts-roboto-unhinted"

say() {
    printf '%s\n' "$*"
}

stop() {
    printf 'first-plan: %s\n' "$*" >&2
    exit 1
}

missing_packages() {
    command -v dpkg-query >/dev/null || stop "this script installs Debian packages; here, install by hand: $needed"
    for package in $needed; do
        state=$(dpkg-query -W -f '${Status}' "$package" 2>/dev/null || true)
        [ "$state" = "install ok installed" ] || printf ' %s' "$package"
    done
}

install_missing() {
    missing=$(missing_packages)
    [ -n "$missing" ] || return 0
    say "Installing:$missing"
    if [ "$(id -u)" -eq 0 ]; then
        as_root="env"
    elif command -v sudo >/dev/null; then
        as_root="sudo env"
    else
        stop "these packages are missing, and installing them takes root or sudo:$missing"
    fi
    $as_root DEBIAN_FRONTEND=noninteractive apt-get update -qq >/dev/null
    # shellcheck disable=SC2086 # one word per package
    $as_root DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends $missing >/dev/null
}

start=$(date +%s)
install_missing
installed=$(date +%s)
say "Set-up: $((installed - start)) s"

[ -f "$build/build.ninja" ] ||
    cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DTUCK_TESTS=OFF >/dev/null
cmake --build "$build" --parallel 2 >"$build/build.log" || {
    cat "$build/build.log" >&2
    stop "the build failed"
}
built=$(date +%s)
say "Build: $((built - installed)) s"

tuck=$build/tuck
mkdir -p "$out"
"$tuck" plan "$event" >"$out/plan.txt"
"$tuck" plan "$event" --json >"$out/plan.json"
"$tuck" card "$event" -o "$out/card.pdf" >/dev/null
say "The plan of an invented race ($event):"
for name in plan.txt plan.json card.pdf; do
    say "  $out/$name"
done
