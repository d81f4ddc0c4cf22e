#!/bin/sh
# The doors for libFuzzer, with address and undefined-behaviour sanitizers: build/fuzz/tests/tuck_fuzz. Files are
# compiled by sixes, and every door is in the one program.
set -eu

root=$(cd "$(dirname "$0")/../.." && pwd)
command -v clang++ >/dev/null || {
    echo "build.sh: clang++ with libFuzzer is missing: Debian's clang and libclang-rt-14-dev" >&2
    exit 1
}
# No lines of the source: what is found is looked at in another build (TUCK_SANITIZE with -g).
cmake -S "$root" -B "$root/build/fuzz" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_COMPILER=clang++ \
    -DCMAKE_CXX_FLAGS_RELEASE="-O1 -fsanitize=fuzzer-no-link" -DTUCK_SANITIZE=ON -DTUCK_TESTS=ON -DTUCK_FUZZ=ON >/dev/null
ninja -C "$root/build/fuzz" -j2 tuck_fuzz
