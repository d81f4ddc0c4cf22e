#!/bin/sh
# The Debian package: made twice from one build with the same bytes, lintian without errors, unpacked and run. By hand:
#   sh tests/install/package.sh BUILD          (BUILD: a finished build folder)
#   sh tests/install/package.sh BUILD install  (as root: also installed by apt, run from its place, removed again)
# Needs dpkg-dev and lintian.
set -eu
build=$(cd "$1" && pwd)
umask 022 # cpack writes it into the archive
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
SOURCE_DATE_EPOCH=${SOURCE_DATE_EPOCH:-1795910400}
export SOURCE_DATE_EPOCH
for turn in one two; do
    mkdir "$work/$turn"
    # The second time at another hour and in another zone.
    [ $turn = one ] || { sleep 2; TZ=Pacific/Auckland; export TZ; }
    (cd "$build" && cpack -G DEB -B "$work/$turn" > "$work/$turn.log" 2>&1) || { cat "$work/$turn.log"; exit 1; }
done
package=$(ls "$work"/one/*.deb)
cmp "$package" "$work/two/$(basename "$package")"
echo "ok: the same bytes twice: $(sha256sum < "$package" | cut -c1-16), $(stat -c %s "$package") bytes"
lintian --fail-on error "$package"
echo "ok: lintian, no errors"

dpkg-deb -x "$package" "$work/root"
for file in usr/bin/tuck usr/share/man/man1/tuck.1.gz usr/share/bash-completion/completions/tuck usr/share/doc/tuck/copyright \
    usr/share/tuck/foods usr/share/tuck/schema/plan.schema.json; do
    [ -e "$work/root/$file" ] || { echo "missing in the package: $file" >&2; exit 1; }
done
cd "$work"
root/usr/bin/tuck plan --distance sprint --mass 68kg --temperature 22C --days 100 > plan.txt
grep -q "In short" plan.txt || grep -q "IN SHORT" plan.txt
root/usr/bin/tuck card --distance sprint --mass 68kg --temperature 22C --days 100 --check > check.txt
echo "ok: unpacked, it plans, draws and measures a card"
[ "${2:-}" = install ] || exit 0
apt-get install -y -qq "$package" > apt.log 2>&1 || { cat apt.log; exit 1; }
trap 'apt-get remove -y -qq tuck > /dev/null 2>&1; rm -rf "$work"' EXIT
tuck plan --distance sprint --mass 68kg --temperature 22C --days 100 | cmp - plan.txt
man -w tuck > /dev/null
echo "ok: installed by apt, run, and removed again"
