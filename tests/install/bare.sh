#!/bin/sh
# The README's commands on a Debian 12 that has nothing: a root of debootstrap's smallest variant, in a folder of its own. By
# hand, as root:
#   sh tests/install/bare.sh [first-plan] [tests] [page]     (default: all three; minutes to half an hour)
# The archive is the one that this machine's apt knows; its trust too. Needs debootstrap, git and the network. The folder is
# below $TMPDIR or /var/tmp, about 3 GB, and goes when the script ends.
set -eu

root=$(cd "$(dirname "$0")/../.." && pwd)
stop() {
    printf 'bare: %s\n' "$*" >&2
    exit 1
}
[ "$(id -u)" -eq 0 ] || stop "debootstrap and chroot take root"
command -v debootstrap >/dev/null || stop "debootstrap is missing: apt-get install debootstrap"
[ $# -gt 0 ] || set -- first-plan tests page
for name; do
    case $name in
    first-plan | tests | page) ;;
    *) stop "$name is not known; allowed: first-plan, tests, page" ;;
    esac
done

archive() {
    apt-get indextargets --format '$(REPO_URI) $(RELEASE) $(COMPONENT)' 'Created-By: Packages' | sort -u
}
mirror=$(archive | awk '$2 == "bookworm" && $3 == "main" {print $1; exit}')
[ -n "$mirror" ] || stop "no archive of bookworm stands among this machine's package sources"

bare=$(mktemp -d "${TMPDIR:-/var/tmp}/tuck-bare.XXXXXX")
chmod 755 "$bare" # it becomes a root, and not only root reads there: apt asks for names as another user
leave() {
    for place in proc dev/pts dev; do
        ! mountpoint -q "$bare/$place" || umount -R "$bare/$place" || stop "$bare/$place is still mounted: nothing was removed"
    done
    rm -rf --one-file-system "$bare"
}
trap leave EXIT
trap 'exit 1' INT TERM

printf 'A bare Debian 12 ...\n'
debootstrap --variant=minbase bookworm "$bare" "$mirror" >"$bare.log" 2>&1 || {
    tail -5 "$bare.log" >&2
    stop "debootstrap failed; $bare.log"
}
rm -f "$bare.log"
# What the machine's apt knows of bookworm, and how names are found.
archive | awk '$2 ~ /^bookworm/ {print "deb", $1, $2, $3}' >"$bare/etc/apt/sources.list"
cp /etc/resolv.conf /etc/hosts "$bare/etc/"
# And whom this machine trusts on the network, for npm.
[ ! -f /etc/ssl/certs/ca-certificates.crt ] || cp /etc/ssl/certs/ca-certificates.crt "$bare/etc/trust.pem"
mount -t proc proc "$bare/proc"
mkdir "$bare/dev/shm" "$bare/dev/pts" 2>/dev/null || true
mount -t devpts devpts "$bare/dev/pts" -o newinstance,ptmxmode=0666
ln -sf pts/ptmx "$bare/dev/ptmx"
packages=$(chroot "$bare" dpkg-query -W | wc -l)
printf 'It has %s packages, no compiler, no python.\n' "$packages"
! chroot "$bare" sh -c 'command -v c++ || command -v python3 || command -v cmake' >/dev/null || stop "this root is not bare"

# The sources as somebody gets them: what is committed, without a clone around it.
sources=/srv/from-git
mkdir -p "$bare$sources"
git -C "$root" archive HEAD | tar x -C "$bare$sources"
[ -z "$(git -C "$root" status --porcelain)" ] || printf 'Note: what is not committed is left out.\n'

within() {
    begun=$(date +%s)
    nice -n 10 chroot "$bare" env -i HOME=/root PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 \
        NODE_EXTRA_CA_CERTS=/etc/trust.pem sh -c "cd $sources && $1" >"$bare/log" 2>&1 || {
        tail -40 "$bare/log" >&2
        stop "$1 failed on a bare Debian 12"
    }
    printf 'ok: %s, %s s\n' "$1" "$(($(date +%s) - begun))"
}

for name; do
    case $name in
    first-plan)
        within "sh samples/first-plan.sh"
        within "build/first-plan/tuck plan --distance sprint --mass 68kg --temperature 22C --level beginner"
        grep -q "IN SHORT" "$bare/log" || stop "the README's own line gave no plan"
        head -c 4 "$bare$sources/build/first-plan-out/card.pdf" | grep -q "%PDF" || stop "the card is no PDF"
        ;;
    tests) within "sh tests/run.sh" ;;
    page)
        within "sh samples/page.sh"
        grep -q "</html>" "$bare$sources/build/page/tuck.html" || stop "the page is not whole"
        ;;
    esac
done
