#!/bin/sh
# The page, and the judges of it: a browser from Debian, and from npm what drives it, what types it and what looks for
# barriers.
set -eu

root=$(cd "$(dirname "$0")/../.." && pwd)
judges=$root/build/page/judges
sh "$root/samples/page.sh"
if ! command -v chromium >/dev/null; then
    as_root=
    [ "$(id -u)" -eq 0 ] || as_root=sudo
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -qq -y --no-install-recommends chromium >/dev/null
fi
mkdir -p "$judges"
for package in typescript@5.4.5 playwright-core@1.44.1 axe-core@4.9.1; do
    name=${package%@*}
    version=$(node -p "require('$judges/node_modules/$name/package.json').version" 2>/dev/null || true)
    [ "$version" = "${package#*@}" ] && continue
    npm install --no-audit --no-fund --no-save --prefix "$judges" typescript@5.4.5 playwright-core@1.44.1 axe-core@4.9.1
    break
done
