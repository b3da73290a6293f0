package words_test

import (
	"go/ast"
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/check"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/words"
)

// found lists the kinds of findings that packages check, solve and site report, as their code has them, each with the
// names of the figures given in the same call, and all string literals of these packages.
func found(t *testing.T) (kinds map[string][]string, literals map[string]bool) {
	t.Helper()
	kinds, literals = make(map[string][]string), make(map[string]bool)
	inspect(t, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			if kind, names := findingOf(n); kind != "" {
				kinds[kind] = append(kinds[kind], names...)
			}
		case *ast.BasicLit:
			text, _ := literal(n)
			literals[text] = true
		}
		return true
	}, "../check/*.go", "../solve/*.go", "../site/*.go")
	return kinds, literals
}

// findingOf returns the kind of finding that a call reports, and the names of the figures that it gives; "" for other
// calls and kinds that are variables.
func findingOf(call *ast.CallExpr) (kind string, names []string) {
	name := ""
	switch f := call.Fun.(type) {
	case *ast.SelectorExpr:
		name = f.Sel.Name
	case *ast.Ident:
		name = f.Name
	}
	at, ok := map[string]int{"Find": 0, "report": 1, "untrue": 1, "within": 0, "remark": 0}[name]
	if !ok || at >= len(call.Args) {
		return "", nil
	}
	if name == "report" {
		if _, direct := call.Fun.(*ast.Ident); direct {
			at = 0
		}
	}
	if kind, whole := literal(call.Args[at]); whole && kind != "" {
		for i := at + 1; i < len(call.Args); i += 2 {
			if text, _ := literal(call.Args[i]); text != "" {
				names = append(names, text)
			}
		}
		switch {
		case name == "untrue":
			names = append(names, "fact")
		case name == "within":
			names = append(names, "length", "most")
		case strings.HasPrefix(kind, "near-"):
			names = append(names, "at", "distance", "least")
		}
		return kind, names
	}
	return "", nil
}

// Every kind of finding that is reported has words, whose places are its figures, and no words are of a kind that is
// not reported.
func TestFindingsHaveWords(t *testing.T) {
	kinds, literals := found(t)
	if len(kinds) < 70 {
		t.Fatalf("only %d kinds are found in the code", len(kinds))
	}
	english := words.Vocabulary("en")
	for kind, names := range kinds {
		text, ok := english["finding."+kind]
		if !ok {
			t.Errorf("there are no words for %q", kind)
			continue
		}
		for _, place := range places(text) {
			if !slices.Contains(names, strings.Trim(place, "{}")) {
				t.Errorf("%q: %s is none of the figures %q", kind, place, names)
			}
		}
		for _, name := range names {
			if !strings.Contains(text, "{"+name+"}") {
				t.Errorf("%q does not say %q", kind, name)
			}
		}
	}
	for key := range english {
		kind, ok := strings.CutPrefix(key, "finding.")
		if ok && !literals[kind] && !literals[strings.TrimSuffix(kind, "-with-fit")] {
			t.Errorf("nothing reports %q", kind)
		}
	}
}

// A violation says where, which rule, what was found and what must hold; figures are written as the language has them.
func TestViolation(t *testing.T) {
	for _, c := range []struct {
		v               check.Violation
		english, german string
	}{
		{
			check.Violation{
				Rule: check.RuleMinPiece, Floor: 1, Name: "Den", Row: 4, Run: 1, Piece: 1,
				Finding: cutopt.Find("starter-short", "length", 5*in+in/2, "least", 8*in),
			},
			"Den row 4 run 1 piece 1: min-piece: a starter of 5 1/2 in; want at least 8 in",
			"Den Reihe 4 Zug 1 Stück 1: min-piece: ein Anfangsstück von 5 1/2 in; verlangt: mindestens 8 in",
		},
		{
			check.Violation{Rule: check.RuleEnds, Plank: 4, Finding: cutopt.Find("right-end-other", "n", 2, "ends",
				cutopt.EndsNone)},
			"plank 4: ends: its piece 2 ends at the right end and has its factory ends: none; want the right one",
			"Diele 4: ends: ihr Stück 2 endet am rechten Ende und hat Werkskanten: keine; verlangt: die rechte",
		},
		{
			check.Violation{Rule: check.RuleCuts, Plank: 1, Finding: cutopt.Find("cuts-other", "got",
				[]measure.Length(nil),
				"want", []measure.Length{in + 1, 2 * in})},
			"plank 1: cuts: it is cut at no place; want 1.0001 in, 2 in",
			"Diele 1: cuts: sie wird bei keiner Stelle gesägt; verlangt: 1,0001 in; 2 in",
		},
		{
			check.Violation{Rule: check.RuleCover, Floor: 2, Row: 1, Finding: cutopt.Find("open", "area",
				measure.Area(in*in)*5/2, "from", cutopt.Point{X: in, Y: 2 * in}, "to", cutopt.Point{
					X: 3 * in,
					Y: in / 2,
				})},
			"Room 2 row 1: cover: 2.5 sq in between (1 in, 2 in) and (3 in, 1/2 in) lie open; want floor covered " +
				"up to what " +
				"the trim hides",
			"Raum 2 Reihe 1: cover: 2,5 sq in zwischen (1 in; 2 in) und (3 in; 1/2 in) liegen offen; verlangt: " +
				"Boden bis " +
				"unter die Leiste",
		},
		{
			check.Violation{Rule: check.RuleFact, Floor: 1, Name: "Den", Finding: cutopt.Find("jogs-other", "fact",
				cutopt.Fact{Kind: cutopt.FactJogs, Count: 2, Most: in / 8}, "most", in/4, "count", 1)},
			"Den: fact: it is told jogs: count 2 most 1/8 in; want most 1/4 in, count 1",
			"Den: fact: es heißt jogs: count 2 most 1/8 in; verlangt: most 1/4 in, count 1",
		},
		{
			check.Violation{Rule: check.RuleWaste, Finding: cutopt.Find("percent-off", "field", "waste.afterwards",
				"got",
				9.5, "want", 10.25)},
			"waste: waste.afterwards is 9.5 %; want 10.25 %",
			"waste: waste.afterwards ist 9,5 %; verlangt: 10,25 %",
		},
	} {
		for language, want := range map[string]string{"en": c.english, "de": c.german} {
			if got := words.New(language, nil, measure.UnitInch, in/16).Violation(&c.v); got != want {
				t.Errorf("%s: %q, want %q", language, got, want)
			}
		}
	}
}

// Along walls that slant what was measured differs from what was planned by a figure that no tape has: 3.7109 in.
// A rule's figures stay exact, and so does what is less than the graduation.
func TestDifferencesAreOnTheGraduation(t *testing.T) {
	say := words.New("en", nil, measure.UnitInch, measure.Sixteenth)
	row := cutopt.RowRef{Room: "Hall", Row: 9}
	for _, c := range []struct {
		finding cutopt.Finding
		want    string
	}{
		{
			cutopt.Find("measured-shorter", "row", row, "length", 30161*measure.Tick),
			"from Hall row 9 on, rows are 3 11/16 in shorter than planned",
		},
		{
			cutopt.Find("measured-longer", "row", row, "length", 100*measure.Tick),
			"from Hall row 9 on, rows are 0.0123 in longer than planned",
		},
		{
			cutopt.Find("lies-short", "row", row, "length", 30161*measure.Tick, "least", 8*measure.Inch),
			"Hall row 9 has a piece of 3.7108 in, shorter than 8 in: it lies, and stays",
		},
	} {
		if got := say.Finding(&c.finding); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
