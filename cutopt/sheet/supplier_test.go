package sheet_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"io"
	"regexp"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/sheet"
	"plank.example/cutopt/takeoff"
)

// furnished returns the kitchen with products, its plan and the list of everything to order.
func furnished(t *testing.T) (*cutopt.Job, *cutopt.Plan, *cutopt.Takeoff) {
	t.Helper()
	job := kitchenJob()
	furnish(job)
	plan := layOut(job)
	list, err := takeoff.New(context.Background(), job, plan)
	if err != nil {
		t.Fatal(err)
	}
	return job, plan, list
}

// furnish gives a job products for what else goes with the floor.
func furnish(job *cutopt.Job) {
	job.Box.Price = 6150
	job.Materials = cutopt.Materials{
		Trim: []cutopt.Trim{{
			Name: "primed", Thickness: measure.Inch / 2, Sticks: []cutopt.Stick{{
				Length: 12 * measure.Foot,
				Price:  1490,
			}},
		}},
		Underlay: cutopt.Underlay{Name: "Foam", Rolls: []cutopt.Roll{{
			Width:  4 * measure.Foot,
			Length: 25 * measure.Foot,
		}}},
		Spacers: cutopt.Spacers{Pack: 40, Price: 590},
	}
}

// The order has a line for each thing to buy; amounts are quantity times price and add up to the sum, to the cent.
func TestOrderTable(t *testing.T) {
	job, _, list := furnished(t)
	text := written(t, func(w io.Writer) error { return sheet.Order(w, job, list, sheet.FormatCSV, "") })
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	lines := rows[1 : len(rows)-1]
	if got := strings.Join(rows[0], "|"); got != "No.|Item|Size|Quantity|Unit|Price each|Amount|Lot|May be returned" {
		t.Errorf("headings %s", got)
	}
	bought, sum := 0, cutopt.Money(0)
	for i := range list.Items {
		if item := &list.Items[i]; item.Bought() {
			bought += max(1, len(item.Goods))
		}
	}
	if len(lines) != bought {
		t.Errorf("%d lines, %d things are bought", len(lines), bought)
	}
	for _, l := range lines {
		if l[5] == "" {
			continue // a price that is not known
		}
		each, err := cutopt.ParseMoney(l[5])
		if err != nil {
			t.Fatal(err)
		}
		amount, err := cutopt.ParseMoney(l[6])
		if err != nil {
			t.Fatal(err)
		}
		n := cutopt.Money(0)
		for _, digit := range l[3] {
			n = 10*n + cutopt.Money(digit-'0')
		}
		if n*each != amount {
			t.Errorf("%s: %s times %s is not %s", l[1], l[3], l[5], l[6])
		}
		sum += amount
	}
	if last := rows[len(rows)-1]; last[6] != sum.String() {
		t.Errorf("the sum is %s, the amounts add up to %v", last[6], sum)
	}
	if lines[0][7] == "" || lines[0][8] == "" {
		t.Errorf("planks say nothing of the lot or of what is returned: %q", lines[0])
	}
}

// A name can neither run as a formula in a spreadsheet nor break out of the page.
func TestOrderOfHostileNames(t *testing.T) {
	tags := regexp.MustCompile(`(?i)<(script|img)[\s>]`)
	for _, name := range hostile {
		job, _, list := furnished(t)
		job.Name = name
		for i := range list.Items {
			list.Items[i].Name = name
		}
		page := written(t, func(w io.Writer) error { return sheet.Order(w, job, list, sheet.FormatHTML, "de") })
		if found := tags.FindString(page); found != "" {
			t.Errorf("%q puts %s into the order", name, found)
		}
		text := written(t, func(w io.Writer) error { return sheet.Order(w, job, list, sheet.FormatCSV, "de") })
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		for _, row := range rows {
			for _, cell := range row {
				if strings.HasPrefix(cell, "=") {
					t.Errorf("%q: a cell begins with a formula: %q", name, cell)
				}
			}
		}
	}
}

func TestOrderRefuses(t *testing.T) {
	job, _, list := furnished(t)
	for _, c := range []struct {
		format   sheet.Format
		language string
		want     string
	}{{sheet.FormatPDF, "", "csv"}, {sheet.FormatCSV, "xx", "one of de, en"}} {
		var buf bytes.Buffer
		err := sheet.Order(&buf, job, list, c.format, c.language)
		if err == nil || !strings.Contains(err.Error(), c.want) || buf.Len() > 0 {
			t.Errorf("%v in %q: %v, %d bytes", c.format, c.language, err, buf.Len())
		}
	}
	if err := sheet.Order(new(bytes.Buffer), job, nil, sheet.FormatHTML, ""); err == nil ||
		!strings.Contains(err.Error(), "takeoff.New") {
		t.Errorf("no list: %v", err)
	}
}

// The job sheet has the list, how it was reckoned and the cut lists; the pocket sheet has what to buy. Without a list
// neither has a word of it.
func TestTakeoffInSheets(t *testing.T) {
	job, plan, list := furnished(t)
	for _, given := range []*cutopt.Takeoff{list, nil} {
		s, err := sheet.New(job, plan, &sheet.Options{Takeoff: given})
		if err != nil {
			t.Fatal(err)
		}
		page, pocket := written(t, s.HTML), written(t, s.Pocket)
		for _, part := range []string{
			"Everything to order", "How trim, profiles and rolls are cut",
			"costs less: proven",
		} {
			if strings.Contains(page, part) != (given != nil) {
				t.Errorf("with a list %t, the sheet says %q %t", given != nil, part, given == nil)
			}
		}
		if strings.Contains(pocket, "Also to buy: Underlay, Foam: ") != (given != nil) {
			t.Errorf("with a list %t, the pocket sheet says the opposite", given != nil)
		}
	}
}
