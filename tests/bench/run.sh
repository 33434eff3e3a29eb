#!/bin/sh
# Speed as ratios in one run: ferrule against a general graph program on the same graph. Prints figures, judges nothing.
# run.sh [COMPONENTS [SECONDS]]: SECONDS is the most that dot is given. Needs a finished build (sh tests/run.sh) and Graphviz.
set -e
cd "$(dirname "$0")/../.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
build/generate circuit "${1:-1000}" 7 >"$work/circuit.fer"
build/generate graph "${1:-1000}" 7 >"$work/graph.gv"
echo 'circuit "Empty" { "nothing yet" }' >"$work/empty.fer"

# Least of N runs, in milliseconds: the least is what the machine can do when nobody disturbs it.
least_ms() {
  runs=$1; shift
  python3 - "$runs" "$@" <<'PY'
import subprocess, sys, time
best = min(
    (lambda t: (subprocess.run(sys.argv[2:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL), time.perf_counter() - t)[1])(time.perf_counter())
    for _ in range(int(sys.argv[1])))
print(f"{best * 1000:.1f}")
PY
}
ratio() { python3 -c "print(f'{float($1) / float($2):.2f}')"; }

nop=$(least_ms 20 nop "$work/graph.gv")
check=$(least_ms 20 build/ferrule check "$work/circuit.fer")
empty=$(least_ms 20 build/ferrule check "$work/empty.fer")
draw=$(least_ms 3 build/ferrule draw "$work/circuit.fer" --output "$work/sheet.pdf")
# dot may need many minutes for a thousand nodes; when it is stopped the ratio is an upper bound.
longest=${2:-600}
dot=$(least_ms 1 timeout "$longest" dot -Tpdf -Gsplines=ortho "$work/graph.gv" -o "$work/graph.pdf")
build/test_outside '[.bench]' | grep unknowns
echo "check, ${1:-1000} components: $check ms; nop reads and prints the same graph in $nop ms; ratio $(ratio "$check" "$nop") (goal: at most 5)"
echo "check, empty circuit: $empty ms (goal: at most 15 ms)"
echo "draw to PDF: $draw ms; dot lays the graph out in $dot ms (stopped after $longest s if longer); ratio $(ratio "$draw" "$dot") (goal: below 1)"
