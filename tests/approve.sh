#!/bin/sh
# Holds what tuck says, whole: texts, JSON, cards and sheets of the plans in tests/approved/cases.
# Usage: sh tests/approve.sh            shows what differs from tests/approved; exit 1 if anything does
#        sh tests/approve.sh --accept   takes what the program says now; read the difference first
# The program is build/tuck, or $TUCK. Needs pdftotext (poppler-utils).
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
approved=$root/tests/approved
tuck=${TUCK:-$root/build/tuck}
[ -x "$tuck" ] || {
    echo "approve: no program at $tuck; build it, or name it in TUCK" >&2
    exit 2
}
command -v pdftotext >/dev/null || {
    echo "approve: pdftotext is missing; install poppler-utils" >&2
    exit 2
}
accept=
case ${1:-} in
"") ;;
--accept) accept=yes ;;
*)
    echo "approve: $1 is not known; allowed: --accept" >&2
    exit 2
    ;;
esac

said=$(mktemp -d)
trap 'rm -rf "$said"' EXIT
trap 'exit 1' INT TERM
cd "$root"
export LC_ALL=C.UTF-8 NO_COLOR=1
days="--days 200"
with_stem=" sprint standard hot-standard middle hilly-middle long "

# Runs the program; what it prints, warnings and the exit code if not 0, goes to the file.
say() {
    file=$1
    shift
    code=0
    "$tuck" "$@" >"$file" 2>"$said/warnings" || code=$?
    if [ -s "$said/warnings" ] || [ "$code" -ne 0 ]; then
        { echo "-- warnings, exit code $code"; cat "$said/warnings"; } >>"$file"
    fi
    rm -f "$said/warnings"
}

# The texts of a PDF as they lie on the paper.
paper() {
    if [ -f "$1" ]; then
        pdftotext -q -layout "$1" "${1%.pdf}.txt"
        rm "$1"
    fi
}

# One plan on every face. The arguments stand in words; none of them has a blank within.
faces() {
    out=$said/$1
    mkdir "$out"
    shift
    # shellcheck disable=SC2086 # words
    say "$out/plan.txt" plan "$@" $days --card "$out/strip.pdf"
    # shellcheck disable=SC2086
    say "$out/plan.json" plan "$@" $days --json --sheet "$out/sheet.txt"
    # shellcheck disable=SC2086
    say "$out/card.txt" card "$@" $days --text
    case $with_stem in *" ${out##*/} "*)
        # shellcheck disable=SC2086
        say "$out/stem-said.txt" card "$@" $days --size stem -o "$out/stem.pdf"
        rm "$out/stem-said.txt"
        paper "$out/stem.pdf"
        ;;
    esac
    paper "$out/strip.pdf"
}

others() {
    out=$said/others
    mkdir "$out"
    for number in "carb_g_per_h" /lines /total/p50_s /totals/fluid_ml /outlook/chance/water_gain /mix; do
        {
            echo "== tuck explain samples/hilly-middle.json $number"
            # shellcheck disable=SC2086
            "$tuck" explain samples/hilly-middle.json "$number" $days 2>&1 || echo "-- exit code $?"
        } >>"$out/explain.txt"
    done
    say "$out/squad.txt" squad samples/squad/squad.csv samples/squad/event.json --days 200 --out "$said/squad"
    cp "$said"/squad/*.csv "$out"
    rm -r "$said/squad"
    # shellcheck disable=SC2086
    say "$out/rehearsal.txt" rehearse samples/hilly-middle.json --ride 150min --run 20min --temperature 18C \
        $days -o "$out/rehearsal-paper.pdf"
    paper "$out/rehearsal-paper.pdf"
    diary=$said/diary.jsonl
    "$tuck" diary add sweat-test --before 71.42kg --after 70.31kg --drank 750ml --minutes 90 --temperature 24C \
        --date 2027-05-01 --diary "$diary" >/dev/null
    "$tuck" diary add rehearsal --bike 150min --bike-carb 150g --bike-fluid 1.2L --run 20min --temperature 18C \
        --bike-gut nausea=2,urge=1 --feeds 10 --taken 9.5 --date 2027-05-09 --diary "$diary" >/dev/null
    say "$out/diary-show.txt" diary show --diary "$diary" --temperature 24C --sport bike
    rm "$diary"*
}

while IFS= read -r line; do
    case $line in
    "#"* | "") ;;
    # shellcheck disable=SC2086
    *) faces "${line%%: *}" ${line#*: } ;;
    esac
done <"$approved/cases"
others
# No folder of the machine and of the run stands in what is held.
grep -rlF "$said" "$said" | while IFS= read -r file; do
    sed -i "s|$said|OUT|g" "$file"
done
cp "$approved/cases" "$said/cases"

if [ -n "$accept" ]; then
    rm -rf "$approved"
    cp -R "$said" "$approved"
    TUCK=$tuck sh "$root/samples/picture.sh" # the README's
    git --no-pager -C "$root" diff --stat -- tests/approved
    exit 0
fi
if diff -ruN -U1 "$approved" "$said" >"$said.diff"; then
    rm "$said.diff"
    exit 0
fi
sed -e "s|$approved|approved|; s|$said|said|" "$said.diff"
rm "$said.diff"
echo "approve: what is said has changed. Read the difference; sh tests/approve.sh --accept takes it."
exit 1
