#!/bin/sh
# What a machine can read of the libraries and the program: cppcheck, and clang-tidy with the list in .clang-tidy. By hand,
# some ten minutes:
#
#     sh tests/analyse.sh
#
# Debian's clang-tidy and cppcheck. Exit code 1: something was found.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
build=$root/build/analysis
for tool in clang++ run-clang-tidy cppcheck; do
    command -v "$tool" >/dev/null || {
        echo "analyse.sh: $tool is missing: Debian's clang, clang-tidy and cppcheck" >&2
        exit 2
    }
done

# By sixes: headers are read a sixth as often.
cmake -S "$root" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_COMPILER=clang++ -DTUCK_TESTS=OFF -DTUCK_BY_SIXES=ON \
    -DCMAKE_DISABLE_PRECOMPILE_HEADERS=ON -DCMAKE_EXPORT_COMPILE_COMMANDS=ON >/dev/null
found=0
run-clang-tidy -quiet -p "$build" >"$build/tidy.log" 2>&1 || found=1
grep -E "(warning|error):" "$build/tidy.log" | sort -u || true
cppcheck --quiet --std=c++20 --language=c++ --enable=warning,performance,portability --inline-suppr --error-exitcode=1 -j 2 \
    -I "$root/include" -I "$root/src" "$root/src" || found=1
exit "$found"
