#!/usr/bin/env bash
# Times, compared by benchstat.
#
#   bench/speed.sh [BASE]       base (a commit; HEAD~1 by default) against the tree as it stands
#   bench/speed.sh naive        every benchmark BenchmarkXNaive against BenchmarkX beside it
#
# COUNT runs of each (default 6) take turns, so that a change of the machine's load meets both alike. BENCH is the pattern
# of benchmarks (default .), PACKAGES the packages (default ./cutopt/... ./bench/...), TIME the -benchtime (default 0.5s). The lists of
# runs are kept in OUT (a new temporary folder by default). The machine should do nothing else.
set -euo pipefail
cd "$(dirname "$0")/.."

benchstat=golang.org/x/perf/cmd/benchstat@v0.0.0-20260908200009-22c9c6c9d4da
count=${COUNT:-6} bench=${BENCH:-.} time=${TIME:-0.5s}
read -ra packages <<<"${PACKAGES:-./cutopt/... ./bench/...}"
out=${OUT:-$(mktemp -d)}
mkdir -p "$out"

measure() { go test -run '^$' -bench "$1" -benchmem -benchtime "$time" -count 1 "${packages[@]}"; }

if [ "${1:-}" = naive ]; then
  names=$(go test -list '^Benchmark.*Naive$' "${packages[@]}" | sed -n 's/^\(Benchmark.*\)Naive$/\1/p' | sort -u | paste -sd '|')
  test -n "$names" || { echo "no benchmark is named BenchmarkXNaive in ${packages[*]}" >&2; exit 1; }
  : >"$out/all.txt"
  for ((i = 0; i < count; i++)); do
    measure "^($names)(Naive)?\$" >>"$out/all.txt"
  done
  # The same names in both files, so that benchstat pairs them.
  grep -v '^Benchmark.*Naive[-/ 	]' "$out/all.txt" >"$out/ours.txt"
  sed -n -e 's/^\(Benchmark[A-Za-z0-9_]*\)Naive\([-\/ \t]\)/\1\2/p' -e '/^[a-z]*:/p' "$out/all.txt" >"$out/naive.txt"
  go run "$benchstat" "$out/naive.txt" "$out/ours.txt"
  exit
fi

base=${1:-HEAD~1}
tree=$(mktemp -d)
trap 'git worktree remove --force "$tree" >/dev/null 2>&1 || true' EXIT
git worktree add --quiet --detach "$tree" "$base"
: >"$out/base.txt" && : >"$out/head.txt"
for ((i = 0; i < count; i++)); do
  (cd "$tree" && measure "$bench") >>"$out/base.txt"
  measure "$bench" >>"$out/head.txt"
done
go run "$benchstat" "$out/base.txt" "$out/head.txt"
echo "the runs are in $out"
