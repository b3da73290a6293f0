package planfile

import (
	"fmt"

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
