#!/bin/sh
# The card in the README: samples/card.png, drawn by poppler's pdftoppm from the PDF of the sample race.
#   TUCK=build/tuck sh samples/picture.sh        (a test holds the picture against today's card)
set -eu
here=$(cd "$(dirname "$0")" && pwd)
picture=${1:-$here/card.png}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"${TUCK:-tuck}" card "$here/hot-standard.json" --quiet -o "$work/card.pdf" > "$work/words"
# At 110 dpi: the two sides of the strip with their cut marks.
pdftoppm -r 110 -x 130 -y 115 -W 640 -H 590 -gray -png -singlefile "$work/card.pdf" "$work/card"
mv "$work/card.png" "$picture"
