#!/bin/sh
# The installed copy works from any folder, and says what is missing when the drawing module is not there.
# sh tests/installed/run.sh BUILD
set -e
build=$(cd "$1" && pwd)
source=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
fail() { echo "installed copy: $1" >&2; exit 1; }

cmake --install "$build" --prefix "$work/prefix" >/dev/null
program="$work/prefix/bin/ferrule"
cp "$source/samples/bale-squeezer.fer" "$work/circuit.fer"
cd /
"$program" --version | grep -q '^ferrule ' || fail "--version"
"$program" check "$work/circuit.fer" >/dev/null || fail "check"
"$program" draw "$work/circuit.fer" --output "$work/sheet.pdf" || fail "draw"
head -c 5 "$work/sheet.pdf" | grep -q '%PDF-' || fail "the sheet is no PDF"
[ -s "$work/prefix/share/man/man1/ferrule.1" ] || fail "no manual page"
[ -s "$work/prefix/share/ferrule/stdlib/pumps.fer" ] || fail "no library text"
[ -s "$work/prefix/share/ferrule/fonts/osifont.ttf" ] || fail "no lettering face"

mkdir "$work/alone"
cp "$program" "$work/alone/"
code=0
"$work/alone/ferrule" draw "$work/circuit.fer" --output "$work/none.pdf" 2>"$work/said" || code=$?
[ "$code" -ne 0 ] && [ "$code" -lt 128 ] || fail "exit code $code without the drawing module"
grep -q 'ferrule-canvas.so is missing' "$work/said" || fail "what is missing is not said: $(cat "$work/said")"
[ ! -e "$work/none.pdf" ] || fail "a sheet without the drawing module"
echo "installed copy: all right"
