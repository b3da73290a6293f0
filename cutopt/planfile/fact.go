package planfile

import (
	"fmt"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// fact writes one fact: its kind and the fields of that kind.
func (w *planWriter) fact(f *cutopt.Fact) {
	if own := f.Own(); *f != own {
		w.fail(fmt.Errorf("a fact of kind %q has fields that are not of its kind", f.Kind))
		return
	}
	w.raw(`{"kind": `)
	w.name(f.Kind)
	for _, field := range f.Kind.Fields() {
		w.raw(`, "`, string(field), `": `)
		switch v := f.Field(field).(type) {
		case *int:
			w.raw(fmt.Sprint(*v))
		case *cutopt.Ends:
			w.name(*v)
		case *cutopt.Edges:
			w.name(*v)
		case *measure.Length:
			w.length(*v)
		case *measure.Area:
			w.raw(v.Decimal(w.unit))
		}
	}
	w.raw("}")
}

// facts reads a list of facts, about shapes of pieces or about floors.
func (r *planReader) facts(ofShape bool) (list []cutopt.Fact) {
	r.list(func() {
		at := r.next()
		f := r.fact()
		if f.Kind.OfShape() != ofShape {
			r.failAt(at, "", fmt.Sprintf("a fact of kind %q does not belong here", f.Kind), "shaping tells of pieces, facts of floors")
		}
		list = append(list, f)
	})
	return list
}

// fact reads one fact: its keys are those of its kind, which may come anywhere among them.
func (r *planReader) fact() cutopt.Fact {
	var f cutopt.Fact
	var given []cutopt.FactField
	fields := []planField{{key: "kind", read: func() { r.name(&f.Kind) }}}
	for _, name := range cutopt.FactFields() {
		fields = append(fields, planField{key: string(name), optional: true, read: func() {
			given = append(given, name)
			switch v := f.Field(name).(type) {
			case *int:
				*v = r.count()
			case *cutopt.Ends:
				r.name(v)
			case *cutopt.Edges:
				r.name(v)
			case *measure.Length:
				*v = r.length()
			case *measure.Area:
				*v = r.area()
			}
		}})
	}
	at := r.next()
	r.object(fields)
	has := f.Kind.Fields()
	for _, name := range given {
		if !slices.Contains(has, name) {
			r.failAt(at, "", fmt.Sprintf("a fact of kind %q has no key %q", f.Kind, name), "")
		}
	}
	for _, name := range has {
		if !slices.Contains(given, name) {
			r.failAt(at, "", fmt.Sprintf("the key %q is missing", name), "")
		}
	}
	return f
}
