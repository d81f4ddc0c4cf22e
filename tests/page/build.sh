#!/bin/sh
# The page, and the judges of it: two browsers from Debian, and from npm what drives them, what types the script and what looks
# for barriers.
set -eu

root=$(cd "$(dirname "$0")/../.." && pwd)
judges=$root/build/page/judges
packages="typescript@5.4.5 playwright-core@1.44.1 puppeteer-core@24.43.1 axe-core@4.9.1"

sh "$root/samples/page.sh"

missing=
# DejaVu: Debian's own sans, in which the README's picture of the page is drawn.
for package in chromium firefox-esr fonts-dejavu-core poppler-utils npm g++ libcli11-dev libexpat1-dev libhpdf-dev; do
    case $package in
    chromium | firefox-esr | npm) command -v "$package" >/dev/null || missing="$missing $package" ;;
    *) dpkg-query -W "$package" >/dev/null 2>&1 || missing="$missing $package" ;;
    esac
done
if [ -n "$missing" ]; then
    echo "Installing:$missing"
    as_root=
    [ "$(id -u)" -eq 0 ] || as_root=sudo
    # shellcheck disable=SC2086 # one word per package
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends $missing >/dev/null
fi

mkdir -p "$judges"
for package in $packages; do
    name=${package%@*}
    version=$(node -p "require('$judges/node_modules/$name/package.json').version" 2>/dev/null || true)
    [ "$version" = "${package#*@}" ] && continue
    # shellcheck disable=SC2086 # one word per package
    npm install --no-audit --no-fund --no-save --prefix "$judges" $packages
    break
done
