package cutopt_test

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// The table of rules: keys, defaults of inch and foot jobs and of metric ones, what they are.
func ExampleRuleTable() {
	for _, r := range cutopt.RuleTable() {
		fmt.Printf("%-15s %-7s %-7s %s\n", r.Key, r.Default, r.MetricDefault, r.Help)
	}
	// Output:
	// gap             1/4 in  6 mm    expansion gap at every wall and fixed thing
	// min-piece       8 in    200 mm  shortest starter or ender
	// stagger         8 in    200 mm  least distance of end joints in neighbouring rows
	// min-rip         half    half    narrowest edge row, or half a plank
	// min-strip       1 in    25 mm   narrowest strip that can be held and locks
	// edges           balance balance first and last row: balance, or whole-first where the last is then wide enough
	// kerf            1/8 in  3 mm    width of a saw cut
	// grid            1/16 in 1 mm    graduation that starters are measured to
	// fit             1/2 in  12 mm   how much longer or shorter a run may turn out than measured; 0 trusts the tape
	// as-it-comes     1 in    25 mm   offcuts up to so much longer than their starters are laid as they come
	// smooth          1/8 in  3 mm    edges of an outline shorter than this are drawing noise
	// cover           1/4 in  6 mm    width beside the gap that the trim hides
	// under           1/2 in  12 mm   how far the floor runs beneath a wooden casing, on each side
	// max-along       none    none    longest floor along the rows without a break
	// max-across      none    none    longest floor across the rows without a break
	// break-width     1/4 in  6 mm    width of what stands in a break, as the stem of a T-moulding
	// in-line         1 in    25 mm   joints two rows apart are in line, and steps equal, within this
	// prefer-stagger  12 in   300 mm  a least stagger that is as good as any larger one
	// round           1 in    10 mm   starters cut to a multiple of it are round figures
	// loss            2 %     2 %     planks that are culled or miscut, on average: an assumption
	// risk-limit      2 %     2 %     the chance of running short that you accept
	// waste-allowance 10 %    10 %    what the rule of thumb adds to the floor area; the plan is compared with it
}

// The table has a row for each field of Rules: setting all its rules to something else than a default changes them all,
// and what Text prints reads back.
func TestRuleTableHasEveryField(t *testing.T) {
	table := cutopt.RuleTable()
	var rules cutopt.Rules
	value := reflect.ValueOf(&rules).Elem()
	if len(table) != value.NumField() {
		t.Fatalf("the table has %d rows, and Rules %d fields", len(table), value.NumField())
	}
	for i, r := range table {
		text := fmt.Sprint(1 + i)
		if r.Kind() == "word" {
			text = map[string]string{"edges": "whole-first"}[r.Key]
		}
		if err := r.Parse(&rules, text, measure.UnitMillimetre); err != nil {
			t.Errorf("%s: %v", r.Key, err)
		}
		if r.Help == "" || r.Source == "" || r.Default == "" || r.MetricDefault == "" {
			t.Errorf("the row of %s is not complete", r.Key)
		}
	}
	for i := range value.NumField() {
		if value.Field(i).IsZero() {
			t.Errorf("no row sets Rules.%s", value.Type().Field(i).Name)
		}
	}
	for _, unit := range []measure.Unit{measure.UnitInch, measure.UnitFoot, measure.UnitMetre} {
		for _, want := range []cutopt.Rules{rules, {}, cutopt.DefaultRules(unit)} {
			var got cutopt.Rules
			for _, r := range table {
				err := r.Parse(&got, r.Text(want, unit), unit)
				if err != nil {
					t.Errorf("%s: %v", r.Key, err)
				}
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("in %v (-want +got):\n%s", unit, diff)
			}
		}
	}
}

func TestRuleParseRefuses(t *testing.T) {
	for _, tt := range []struct{ key, text, want string }{
		{"gap", "1,5", "a comma may mean decimals or thousands"},
		{"gap", "none", "it should begin with a number"}, // a gap of 0 is written as 0
		{"min-rip", "0", "rules.min-rip is 0: this length is above 0; write half or a length"},
		{"min-rip", "hafl", "write a length, or half"},
		{"max-along", "0 ft", "write none or a length"},
		{"waste-allowance", "-1", "this is no percentage"},
		{"waste-allowance", "1e1", "this is no percentage"},
	} {
		for _, r := range cutopt.RuleTable() {
			if r.Key != tt.key {
				continue
			}
			rules := cutopt.DefaultRules(measure.UnitInch)
			err := r.Parse(&rules, tt.text, measure.UnitInch)
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("%s %q: %v, want %q in it", tt.key, tt.text, err, tt.want)
			}
			if rules != cutopt.DefaultRules(measure.UnitInch) {
				t.Errorf("%s %q changed the rules", tt.key, tt.text)
			}
		}
	}
}

func TestParseDirection(t *testing.T) {
	for text, want := range map[string]cutopt.RowRules{
		"along":    {},
		"across":   {Direction: cutopt.DirectionAcross},
		"free":     {Direction: cutopt.DirectionFree},
		"diagonal": {Direction: cutopt.DirectionAngle, Angle: 45},
		"45°":      {Direction: cutopt.DirectionAngle, Angle: 45},
		" 45 deg ": {Direction: cutopt.DirectionAngle, Angle: 45},
		"-22.5":    {Direction: cutopt.DirectionAngle, Angle: -22.5},
		"-0":       {Direction: cutopt.DirectionAngle},
		"360":      {Direction: cutopt.DirectionAngle, Angle: 360},
	} {
		var got cutopt.RowRules
		if err := got.ParseDirection(text); err != nil || got != want {
			t.Errorf("%q is %+v, %v; want %+v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "alnog", "361", "-361", "1e2", "NaN", "--5", "5 rad", "°"} {
		var got cutopt.RowRules
		var wrong *cutopt.FieldError
		if err := got.ParseDirection(text); !errors.As(err, &wrong) || got != (cutopt.RowRules{}) {
			t.Errorf("%q is %+v, %v", text, got, err)
		}
	}
}
