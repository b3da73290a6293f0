package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// The files that bench/peers -o wrote into the folder of the study: of the instances that all solvers have answered, of
// all by the solver that closes the most, and of drawn ones.
const (
	peersBest    = "peers-best.md"
	peersQuarter = "peers-quarter.md"
	peersMixed   = "peers-mixed.md"
)

const peersHead = `
## General solvers

Made by ` + "`go run ./bench/peers -frozen quarter- -n 80 -answers bench/study/peers-quarter.jsonl`" + ` with
` + "`-race -kept -o bench/study/peers-best.md`, with `-only \"CBC step\" -o bench/study/peers-quarter.md`" + `, and by
` + "`-mixed -o bench/study/peers-mixed.md`" + `, each with a gap that only the optimum closes. The
last line of a table is the least time of any solver on any model, instance by instance.
`

// writePeers takes over the comparisons with general solvers: each names solver, build, model, limit and share closed.
func writePeers(w io.Writer, folder string) error {
	io.WriteString(w, peersHead)
	tables := make(map[string]string)
	for _, name := range []string{peersBest, peersQuarter, peersMixed} {
		text, err := os.ReadFile(filepath.Join(folder, name))
		if errors.Is(err, os.ErrNotExist) {
			fmt.Fprintf(w, "\n%s is not measured yet.\n", name)
			continue
		}
		if err != nil {
			return err
		}
		tables[name] = string(text)
		fmt.Fprintf(w, "\n%s%s", strings.ToUpper(string(text[:1])), text[1:])
	}
	if tables[peersBest] != "" && tables[peersQuarter] != "" {
		fmt.Fprintf(w, "\nIn short: %s\n", peersInShort(tables[peersBest], tables[peersQuarter]))
	}
	return nil
}

// peerRow is a line of a table of bench/peers: name, instances, closed, same optimum, of how many, seconds, times ours.
var peerRow = regexp.MustCompile(
	`(?m)^\| ([^|]+) \| (\d+) \| (\d+) \| (?:(\d+) of (\d+))? ?\| ([\d.]+) \| ([\d-]+) \|$`)

// peerLimit is in the head of such a table.
var peerLimit = regexp.MustCompile(`closed in ([\d.]+ s) \|`)

// peersInShort says of the first table of each file what README.md says too. The first solver of best has the limit,
// the others what that took and two seconds.
func peersInShort(best, all string) string {
	var closed []string
	same, of, instances, times := 0, 0, "", ""
	for _, row := range firstTable(best) {
		switch name := row[1]; {
		case name == "this library":
			instances = row[2]
		case strings.HasPrefix(name, "best of them"):
			times = row[7]
		default:
			closed = append(closed, strings.TrimSuffix(name, " step")+" closes "+row[3])
		}
	}
	for _, row := range append(firstTable(best), firstTable(all)...) {
		var a, b int
		if n, _ := fmt.Sscan(row[4]+" "+row[5], &a, &b); n == 2 {
			same, of = same+a, of+b
		}
	}
	agree := "The optimum is the same wherever one of them closes."
	if same != of {
		agree = fmt.Sprintf("The optimum is the same in %d of %d cases.", same, of)
	}
	whole, limit := firstTable(all)[1], peerLimit.FindStringSubmatch(best)[1]
	return fmt.Sprintf("Of %s instances drawn for general solvers %s within %s of processor time; given that time and "+
		"two seconds more, %s. The best of them takes, in the geometric mean, %s times the processor time of this "+
		"library. Of all %s %s closes %s, at %s times. %s",
		instances, closed[0], limit, strings.Join(closed[1:], " and "), times,
		whole[2], strings.TrimSuffix(whole[1], " step"),
		whole[3], whole[7], agree)
}

// firstTable is the rows of the first table of a text.
func firstTable(text string) [][]string {
	rows := peerRow.FindAllStringSubmatch(text, -1)
	for k, row := range rows {
		if k > 0 && row[1] == rows[0][1] {
			return rows[:k]
		}
	}
	return rows
}
