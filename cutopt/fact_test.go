package cutopt_test

import (
	"slices"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// The table of facts holds together: names read back, every field is one of FactFields and can be reached, and no field
// is left that no kind has, but for those that name places for kinds to come.
func TestFactTable(t *testing.T) {
	used := map[cutopt.FactField]bool{cutopt.FieldIsland: true, cutopt.FieldPiece: true}
	names := make(map[string]bool)
	for _, kind := range cutopt.FactKinds() {
		text, err := kind.MarshalText()
		var back cutopt.FactKind
		if err != nil || back.UnmarshalText(text) != nil || back != kind || names[string(text)] {
			t.Errorf("%v reads back as %v, %v", kind, back, err)
		}
		names[string(text)] = true
		if len(kind.Fields()) == 0 {
			t.Errorf("%v has no figures", kind)
		}
		for _, name := range kind.Fields() {
			used[name] = true
			if !slices.Contains(cutopt.FactFields(), name) {
				t.Errorf("%v has the field %q, which is not listed", kind, name)
			}
		}
	}
	for _, name := range cutopt.FactFields() {
		if !used[name] {
			t.Errorf("no kind has the field %q", name)
		}
		if new(cutopt.Fact).Field(name) == nil {
			t.Errorf("the field %q cannot be reached", name)
		}
	}
	if new(cutopt.Fact).Field("colour") != nil {
		t.Error("a field that is none is reached")
	}
	for _, k := range []cutopt.FactKind{cutopt.FactNone, 99} {
		if _, err := k.MarshalText(); err == nil || k.Fields() != nil {
			t.Errorf("%d is a kind", k)
		}
	}
}

// Fields of a fact are all different ones, and Own keeps those of its kind alone.
func TestFactFields(t *testing.T) {
	var f cutopt.Fact
	for i, name := range cutopt.FactFields() {
		switch v := f.Field(name).(type) {
		case *int:
			*v += i + 1
		case *measure.Length:
			*v += measure.Length(i + 1)
		case *measure.Area:
			*v += measure.Area(i + 1)
		case *cutopt.Ends:
			*v |= cutopt.EndsRight
		case *cutopt.Edges:
			*v |= cutopt.EdgesBack
		default:
			t.Errorf("the field %q is a %T", name, v)
		}
	}
	for i, name := range cutopt.FactFields() {
		var got int
		switch v := f.Field(name).(type) {
		case *int:
			got = *v
		case *measure.Length:
			got = int(*v)
		case *measure.Area:
			got = int(*v)
		default:
			continue
		}
		if got != i+1 {
			t.Errorf("the field %q is also another", name)
		}
	}
	f.Kind = cutopt.FactJogs
	want := cutopt.Fact{Kind: cutopt.FactJogs, Count: f.Count, Most: f.Most}
	if own := f.Own(); own != want || own == f {
		t.Errorf("jogs keep %+v, want %+v", own, want)
	}
}
