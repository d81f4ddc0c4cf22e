#!/bin/sh
# The whole tool as one HTML file: installs what is missing, compiles the library to WebAssembly, puts the page together.
# Usage: sh samples/page.sh     -> build/page/tuck.html, and build/page/site/ for a static host
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
out=$root/build/page
needed="cmake ninja-build emscripten python3 dpkg-dev patch xz-utils bzip2 nlohmann-json3-dev libfmt-dev libfast-float-dev
    libutfcpp-dev libhpdf-dev libexpat1 fonts-liberation fonts-roboto-unhinted"
# Sources of Debian, compiled with the page, each with the package whose version it has to have: the same bytes come out of both.
sources="libharu:libhpdf-dev zlib:zlib1g expat:libexpat1"

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
    [ -s "$out/fetch/own.list" ] || stop "no Debian archive stands among this machine's package sources: apt has to know one"
    # shellcheck disable=SC1091
    release=$(. /etc/os-release && printf '%s' "$VERSION_CODENAME")
    (
        cd "$out/fetch"
        # shellcheck disable=SC2086 # words of options
        apt-get $lists update -qq || true # what is missing is told below, by name
        for pair in $sources; do
            fetch_source "${pair%:*}" "$(dpkg-query -W -f '${source:Version}' "${pair#*:}" 2>/dev/null || true)"
        done
        for tar in *.orig.tar.*; do
            tar xf "$tar" -C "$out/sources"
        done
    )
    mend_expat
    touch "$out/sources/whole"
}

# Of the version that is installed; a mirror may lack that, the release's own is always there.
fetch_source() {
    fetch_part --tar-only "$1" "$2" ||
        stop "the source of $1 cannot be fetched: once, this needs the network and Debian's archive; from then on
      $out/sources serves. Nothing was changed; run it again when the archive can be reached"
    fetch_part --diff-only "$1" "$2" || true
    upstream=${2#*:}
    ls "$1_${upstream%-*}".orig.tar.* >/dev/null 2>&1 ||
        say "Another version of $1 than the one installed ($2): papers may differ in bytes from the program's"
}

fetch_part() {
    # shellcheck disable=SC2086
    apt-get $lists source -qq "$1" --download-only "$2=$3" >/dev/null 2>&1 ||
        apt-get $lists source -qq "$1" --download-only "$2/$release" >/dev/null 2>&1
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
    emcmake cmake -G Ninja -S "$root/src/page" -B "$out/engine" -DPAGE_SOURCES="$out/sources" -DCMAKE_BUILD_TYPE=None \
        -DCMAKE_UNITY_BUILD=ON -DCMAKE_UNITY_BUILD_BATCH_SIZE=6 >/dev/null ||
    stop "the build cannot be set up"
compiled() {
    cmake --build "$out/engine" --parallel 2 -- -k 0 >"$out/engine.log" 2>&1
}
# By sixes at first; where two files then have one name for two things, one by one.
compiled || { cmake "$out/engine" -DCMAKE_UNITY_BUILD=OFF >/dev/null && compiled; } || {
    grep -E -A4 'error|FAILED' "$out/engine.log" >&2
    stop "the engine does not compile"
}
fonts=/usr/share/fonts/truetype
python3 "$root/src/page/assemble.py" "$out/engine/engine.js" "$out/engine/engine.wasm" "$root/foods" \
    "$fonts"/liberation/LiberationSans-Regular.ttf "$fonts"/liberation/LiberationSansNarrow-Regular.ttf \
    "$fonts"/liberation/LiberationSansNarrow-Bold.ttf "$fonts"/roboto/unhinted/RobotoCondensed-Regular.ttf \
    "$fonts"/roboto/unhinted/RobotoCondensed-Bold.ttf "$out"
