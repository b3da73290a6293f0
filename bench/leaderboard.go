package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"plank.example/bench/frozen"
	"plank.example/bench/tables"
)

const leaderboardHead = `# What is known of the instances

Made from instances.jsonl by ` + "`go run ./bench instances`" + `; set %q, version %d.
Planks are those of the best layout known, the bound is proven by a certificate; where they are equal the instance is
closed. For instances of boxes it is boxes that count.

`

// leaderboard writes what is known of each part, the instances that are open, and who found what.
func leaderboard(w io.Writer, set []*frozen.Entry) error {
	fmt.Fprintf(w, leaderboardHead, frozen.Name, frozen.Version)
	frozenGrid(set).Markdown(w)
	open := &tables.Grid{Head: []string{"open instance", "runs", "best known", "by", "bound", "by", "gap"}}
	credit := make(map[string]*[3]int)
	var names []string
	add := func(by string, column int) {
		if credit[by] == nil {
			credit[by] = new([3]int)
			names = append(names, by)
		}
		credit[by][column]++
	}
	for _, e := range set {
		if !e.Closed() {
			unit := ""
			if e.PerBox > 0 {
				unit = " boxes"
			}
			open.Add(
				e.ID,
				fmt.Sprint(len(e.Instance.Runs)),
				fmt.Sprint(e.Figure(), unit),
				e.PlanksBy,
				fmt.Sprint(e.FigureBound(), unit),
				e.BoundBy,
				fmt.Sprint(e.Figure()-e.FigureBound()),
			)
		}
		add(e.PlanksBy, 0)
		add(e.BoundBy, 1)
		for _, r := range e.History {
			if r.Tie {
				add(r.By, 2)
			}
		}
	}
	fmt.Fprintf(w, "\n%d instances are open.\n\n", len(open.Rows))
	if len(open.Rows) > 0 {
		open.Markdown(w)
		fmt.Fprintln(w)
	}
	writeUnclaimed(w, set)
	fmt.Fprintf(w, "Who holds what; a result that ties one known is credited too:\n\n")
	slices.SortFunc(names, func(a, b string) int {
		x, y := credit[a], credit[b]
		if d := y[0] + y[1] - x[0] - x[1]; d != 0 {
			return d
		}
		return strings.Compare(a, b)
	})
	holders := &tables.Grid{Head: []string{"by", "best layouts", "best bounds", "ties"}}
	for _, by := range names {
		c := credit[by]
		holders.Add(by, fmt.Sprint(c[0]), fmt.Sprint(c[1]), fmt.Sprint(c[2]))
	}
	holders.Markdown(w)
	return nil
}

// smallPart is the one whose instances general solvers can take.
const smallPart = "quarter"

// writeUnclaimed names the instances of the small part whose optimum no general solver has proven.
func writeUnclaimed(w io.Writer, set []*frozen.Entry) {
	var ids []string
	for _, e := range set {
		if partOf(e) == smallPart && len(e.Optima) == 0 {
			ids = append(ids, e.ID)
		}
	}
	if len(ids) == 0 {
		fmt.Fprintf(w, "General solvers have proven the optimum of every instance of part %s on their own.\n\n", smallPart)
		return
	}
	fmt.Fprintf(w, "Of part %s no general solver has proven the optimum of these on its own: %s.\n\n", smallPart,
		strings.Join(ids, ", "))
}
