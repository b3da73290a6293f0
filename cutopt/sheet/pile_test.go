package sheet_test

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"plank.example/cutopt"
)

// The pile after each row, recounted from the planks: what was sawn off before and is laid later.
func TestPileIsRecounted(t *testing.T) {
	job := kitchenJob()
	plan := layOut(job)
	page := htmlOf(t, job, plan)
	seen := 0
	for _, m := range stepHead.FindAllStringSubmatch(page, -1) {
		j, _ := strconv.Atoi(m[2])
		_, pile, _ := strings.Cut(m[3], `<p class="pile">`)
		var want []string
		for _, use := range plan.Planks {
			before, mark := false, ""
			for _, ref := range use.Pieces {
				if ref.Row < j {
					before = true
				} else {
					mark = markOf(plan, ref)
				}
			}
			if before && mark != "" {
				want = append(want, mark)
			}
		}
		var got []string
		for _, p := range regexp.MustCompile(`“([^”]+)”`).FindAllStringSubmatch(pile, -1) {
			got = append(got, p[1])
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("after row %d the pile is %v, want %v", j, got, want)
		}
		seen += len(want)
	}
	if seen == 0 {
		t.Error("no offcut ever lay about: this test saw nothing")
	}
}

// markOf says what is written on the offcut that a piece is cut from, where it is not alone in its run.
func markOf(plan *cutopt.Plan, ref cutopt.PieceRef) string {
	row := plan.Floors[ref.Floor].Rows[ref.Row]
	name := strconv.Itoa(ref.Row + 1)
	if len(row.Runs) > 1 {
		name += string(rune('a' + ref.Run))
	}
	if ref.Piece == 0 {
		return name + " S"
	}
	return name + " E"
}

// A row in which nothing is laid, where a duct takes it from wall to wall, leaves the pile as it is.
func TestPileAfterEmptyRow(t *testing.T) {
	job := kitchenJob()
	plan := layOut(job)
	const after = 3 // rows, the empty one is the next
	rows := plan.Floors[0].Rows
	plan.Floors[0].Rows = slices.Insert(
		rows,
		after,
		cutopt.PlanRow{From: rows[after-1].To, To: rows[after-1].To + inch, Width: inch},
	)
	for i := range plan.Planks {
		for k := range plan.Planks[i].Pieces {
			if ref := &plan.Planks[i].Pieces[k]; ref.Row >= after {
				ref.Row++
			}
		}
	}
	steps := stepHead.FindAllStringSubmatch(htmlOf(t, job, plan), -1)
	pile := func(j int) string {
		_, text, _ := strings.Cut(steps[j][3], `<p class="pile">`)
		return text
	}
	if before, then := pile(after-1), pile(after); before != then || !strings.Contains(then, "“") {
		t.Errorf("the pile before the empty row is %q, after it %q", before, then)
	}
}
