package words_test

import (
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/words"
)

// TestSite holds what is said of a job that is begun, in every case that a layer meets.
func TestSite(t *testing.T) {
	job := &cutopt.Job{Unit: measure.UnitInch, Box: cutopt.Box{Planks: 8, Price: 4990}}
	plan := func(site cutopt.Site) *cutopt.Plan {
		return &cutopt.Plan{
			Floors: []cutopt.PlanFloor{{Name: "Den", Rows: make([]cutopt.PlanRow, 19)}, {Name: "Pantry"}},
			Order:  cutopt.Order{PlanksPerBox: 8, Left: 5, Reserve: 3},
			Planks: []cutopt.PlankUse{{Opened: true}, {Opened: true, Brought: true}},
			Site:   &site,
		}
	}
	here := func(n int) []cutopt.Lot { return []cutopt.Lot{{Planks: n, Boxes: n / 8}} }
	for _, c := range []struct {
		site            cutopt.Site
		english, german []string
	}{
		{
			cutopt.Site{Here: here(20), Needed: 19, Least: 19, Assigned: true},
			[]string{
				"What is here will do: 1 plank over.", "Buy nothing.", "1 plank is opened or lost; whole and here: 20 planks, " +
					"2 unopened boxes among them.", "The rest takes 19 planks; fewer is proven impossible.",
				"The 5 planks left in the end: 3 in reserve if planks break, 2 over.",
				"No row that is not laid starts otherwise than before.",
			},
			[]string{"Was da ist, reicht: 1 Diele bleibt übrig.", "Nichts kaufen."},
		},
		{
			cutopt.Site{Here: here(19), Needed: 19, Least: 17, Buy: 1, Assigned: true},
			[]string{
				"What is here will do, and not a plank is over.", "To be safe buy 1 box more, 8 planks, 49.90 in all: 3 in " +
					"reserve if planks break, 2 over", "16 are proven too few, and whether fewer than it takes will do is open.",
			},
			[]string{"Zur Sicherheit 1 Paket dazukaufen, 8 Dielen, zusammen 49,90"},
		},
		{
			cutopt.Site{
				Here: here(10), Needed: 19, Least: 19, Short: 9, Buy: 2, Assigned: true, Reaches: []int{7, 0}, Waits: []int{1},
			},
			[]string{
				"What is here will not do: 9 planks are missing. Fewer is proven impossible.", "Buy 2 boxes more, 16 planks, " +
					"99.80 in all: 9 that are missing", "Den: what is here reaches to row 7 of 19.",
				"If Pantry waits, what is here finishes all others.",
			},
			[]string{"Was da ist, reicht nicht: 9 Dielen fehlen. Mit weniger geht es nachweislich nicht."},
		},
		{
			cutopt.Site{Here: here(10), Needed: 12, Least: 11, Short: 2, Buy: 1, Assigned: true},
			[]string{"2 planks are missing. That 1 is missing is proven; whether so few will do is open."},
			[]string{"Dass 1 fehlt, ist bewiesen"},
		},
		{
			cutopt.Site{Here: here(10), Needed: 11, Least: 10, Short: 1, Buy: 1, Assigned: true},
			[]string{"1 plank is missing. Whether fewer will do is open."},
			[]string{"Ob weniger genügen, ist offen."},
		},
		{
			cutopt.Site{
				Here:     []cutopt.Lot{{Name: "A", Planks: 3}, {Name: "B", Planks: 16, Boxes: 2}},
				Returns:  []cutopt.Lot{{Name: "B", Planks: 8, Boxes: 1}},
				Assigned: true,
				Changed:  make([]cutopt.RunChange, 2),
			},
			[]string{
				"3 planks of lot A; 16 planks of lot B, 2 unopened boxes among them", "The rest takes no whole plank.",
				"1 unopened box of lot B can go back.", "2 rows that are not laid start otherwise than before:",
			},
			[]string{"1 ungeöffnetes Paket der Charge B kann zurück."},
		},
	} {
		for language, wants := range map[string][]string{"en": c.english, "de": c.german} {
			r := words.New(language, nil, job.Unit, 0).Site(job, plan(c.site))
			said := strings.Join(append([]string{r.Will, r.Buy, r.Changed}, r.Stands...), "\n")
			for _, want := range wants {
				if !strings.Contains(said, want) {
					t.Errorf("%+v lacks %q:\n%s", c.site, want, said)
				}
			}
		}
	}
	if words.New("en", nil, job.Unit, 0).Site(job, &cutopt.Plan{}) != nil {
		t.Error("a plan from scratch is of no job that is begun")
	}
}
