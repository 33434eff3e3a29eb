#!/bin/sh
# Builds a release of Ferrule, then checks and draws every sample into build/sheets/.
set -e
cd "$(dirname "$0")/.."
. tests/packages.sh
need_packages $build_packages

cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release >/dev/null
cmake --build build --target ferrule

mkdir -p build/sheets
count=0
for text in samples/*.fer samples/pairs/*.fer samples/lessons/*.fer; do
  name=$(basename "$text" .fer)
  # A fault of a teaching pair is meant to be found: exit code 1 is a report, anything above is not.
  build/ferrule check "$text" >"build/sheets/$name.txt" || [ $? -eq 1 ]
  build/ferrule paths "$text" >"build/sheets/$name.paths.txt"
  build/ferrule draw "$text" --output "build/sheets/$name.pdf"
  build/ferrule draw "$text" --output "build/sheets/$name.png"
  build/ferrule solve "$text" --plot "build/sheets/$name.diagrams.pdf" >"build/sheets/$name.results.txt" || [ $? -eq 1 ]
  echo "$text -> build/sheets/$name.pdf .png .txt .paths.txt .results.txt .diagrams.pdf: $(tail -n 1 "build/sheets/$name.txt")"
  count=$((count + 1))
done
for text in samples/lessons/*.fer; do
  name=$(basename "$text" .fer)
  build/ferrule handout "$text" --output "build/sheets/$name.handout.pdf"
  build/ferrule handout "$text" --output "build/sheets/$name.letter.pdf" --paper letter
  build/ferrule handout "$text" --worksheet --output "build/sheets/$name.worksheet.pdf"
  build/ferrule handout "$text" --answers --output "build/sheets/$name.answers.pdf"
  build/ferrule handout "$text" --variant 1..4 --seed 7 --output "build/sheets/$name.set.pdf"
  echo "$text -> build/sheets/$name.handout.pdf .letter.pdf .worksheet.pdf .answers.pdf .set-*.pdf"
done
build/ferrule solve samples/pairs/idle-over-relief.fer samples/pairs/idle-through-open-centre.fer samples/pairs/idle-through-centre.fer \
  --state waiting >build/sheets/idle-side-by-side.txt
echo "samples/pairs/idle-*.fer -> build/sheets/idle-side-by-side.txt"
echo "$count circuits checked and drawn; sheets and reports are in build/sheets/"
echo "The sheets are a calculated aid. ISO 4413, local codes and qualified persons decide."
