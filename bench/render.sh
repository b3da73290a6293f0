#!/usr/bin/env bash
# Writes STUDY.md, RESULTS.md and the pictures anew, in a folder apart, from the summaries stored in bench/study, and fails
# where a byte differs from what is in the tree.
set -euo pipefail
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/study"
cp bench/study/*.json bench/study/*.jsonl bench/study/*.md "$work/study"
cp bench/STUDY.md "$work"
go run ./bench study --render --folder "$work/study" --text "$work/STUDY.md"
go run ./bench results --render --folder "$work/study" --out "$work/RESULTS.md"
cmp "$work/STUDY.md" bench/STUDY.md
cmp "$work/RESULTS.md" bench/RESULTS.md
diff -r "$work/study" bench/study
echo "byte for byte the same: STUDY.md, RESULTS.md and $(ls bench/study/*.svg bench/study/*.png | wc -l) pictures"
