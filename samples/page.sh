#!/bin/sh
# The whole tool as one HTML file: installs what is missing, compiles the library to WebAssembly, puts the page together.
# Usage: sh samples/page.sh     -> build/page/tuck.html, and build/page/site/ for a static host
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
out=$root/build/page
needed="cmake ninja-build emscripten python3 dpkg-dev patch xz-utils bzip2 nlohmann-json3-dev libfmt-dev libfast-float-dev
    libutfcpp-dev libhpdf-dev fonts-liberation fonts-roboto-unhinted"
sources="libharu zlib expat" # of Debian, compiled with the page; their headers-only companions come as packages

say() {
    printf '%s\n' "$*"
}

stop() {
    printf 'page: %s\n' "$*" >&2
    exit 1
}

install_missing() {
    command -v dpkg-query >/dev/null || stop "this script installs Debian packages; here, install by hand: $needed"
    missing=
    for package in $needed; do
        state=$(dpkg-query -W -f '${Status}' "$package" 2>/dev/null || true)
        [ "$state" = "install ok installed" ] || missing="$missing $package"
    done
    command -v node >/dev/null || missing="$missing nodejs"
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

# The machine's own package lists stay as they are: its sources are asked through lists of our own.
fetch_sources() {
    [ -f "$out/sources/whole" ] && return 0
    rm -rf "$out/fetch" "$out/sources"
    mkdir -p "$out/fetch/lists/partial" "$out/sources"
    chmod 777 "$out/fetch"
    lists="-o Dir::Etc::sourcelist=$out/fetch/own.list -o Dir::Etc::sourceparts=/dev/null -o Dir::State::lists=$out/fetch/lists"
    apt-get indextargets --format "deb-src [signed-by=/usr/share/keyrings/debian-archive-keyring.gpg] \$(REPO_URI) \$(RELEASE) \$(COMPONENT)" \
        'Created-By: Packages' | grep -i debian | grep -v '/ [^ ]* \(contrib\|non-free\)' | sort -u >"$out/fetch/own.list"
    # shellcheck disable=SC1091
    release=$(. /etc/os-release && printf '%s' "$VERSION_CODENAME")
    (
        cd "$out/fetch"
        # shellcheck disable=SC2086 # words of options
        apt-get $lists update -qq
        for name in $sources; do
            # A mirror may lack the newest; the release's own is always there.
            # shellcheck disable=SC2086
            apt-get $lists source -qq --tar-only --download-only "$name" >/dev/null 2>&1 ||
                apt-get $lists source -qq --tar-only --download-only "$name/$release" >/dev/null ||
                stop "the source of $name cannot be fetched"
            # shellcheck disable=SC2086
            apt-get $lists source -qq --diff-only --download-only "$name" >/dev/null 2>&1 || true
        done
        for tar in *.orig.tar.*; do
            tar xf "$tar" -C "$out/sources"
        done
    )
    mend_expat
    touch "$out/sources/whole"
}

# Debian's mends of the one library that reads strangers' files.
mend_expat() {
    for changes in "$out"/fetch/expat_*.debian.tar.*; do
        [ -f "$changes" ] || continue
        mkdir -p "$out/fetch/expat-changes"
        tar xf "$changes" -C "$out/fetch/expat-changes"
        grep -i cve "$out/fetch/expat-changes/debian/patches/series" | while read -r name; do
            (cd "$out"/sources/libexpat*/ && patch -s -f -p1 <"$out/fetch/expat-changes/debian/patches/$name" >/dev/null 2>&1) || true
        done
    done
}

install_missing
fetch_sources
export NODE_PATH=/usr/share/nodejs
[ -f "$out/engine/build.ninja" ] ||
    emcmake cmake -G Ninja -S "$root/src/page" -B "$out/engine" -DPAGE_SOURCES="$out/sources" -DCMAKE_BUILD_TYPE=None >/dev/null ||
    stop "the build cannot be set up"
cmake --build "$out/engine" --parallel 2 -- -k 0 >"$out/engine.log" 2>&1 || {
    grep -E -A4 'error|FAILED' "$out/engine.log" >&2
    stop "the engine does not compile"
}
fonts=/usr/share/fonts/truetype
python3 "$root/src/page/assemble.py" "$out/engine/engine.js" "$out/engine/engine.wasm" "$root/foods" \
    "$fonts"/liberation/LiberationSans-Regular.ttf "$fonts"/liberation/LiberationSansNarrow-Regular.ttf \
    "$fonts"/liberation/LiberationSansNarrow-Bold.ttf "$fonts"/roboto/unhinted/RobotoCondensed-Regular.ttf \
    "$fonts"/roboto/unhinted/RobotoCondensed-Bold.ttf "$out"
