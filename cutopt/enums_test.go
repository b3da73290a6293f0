package cutopt_test

import (
	"encoding"
	"fmt"
	"strings"
	"testing"

	"plank.example/cutopt"
)

// enum is what every enumeration offers.
type enum interface {
	fmt.Stringer
	encoding.TextMarshaler
}

func TestEnumNames(t *testing.T) {
	for _, row := range []struct {
		value enum
		into  encoding.TextUnmarshaler
		name  string
	}{
		{cutopt.DirectionAlong, new(cutopt.Direction), "along"},
		{cutopt.DirectionAcross, new(cutopt.Direction), "across"},
		{cutopt.DirectionAngle, new(cutopt.Direction), "angle"},
		{cutopt.DirectionFree, new(cutopt.Direction), "free"},
		{cutopt.StartNear, new(cutopt.Start), "near"},
		{cutopt.StartFar, new(cutopt.Start), "far"},
		{cutopt.HandLeft, new(cutopt.Hand), "left"},
		{cutopt.EndJoinDrop, new(cutopt.EndJoin), "drop"},
		{cutopt.LongEdgeGroove, new(cutopt.LongEdge), "groove"},
		{cutopt.FromUnset, new(cutopt.From), "unset"},
		{cutopt.FromRight, new(cutopt.From), "right"},
		{cutopt.HandRight, new(cutopt.Hand), "right"},
		{cutopt.CasingWood, new(cutopt.Casing), "wood"},
		{cutopt.CasingMetal, new(cutopt.Casing), "metal"},
		{cutopt.TrimBase, new(cutopt.TrimKind), "base"},
		{cutopt.TrimShoe, new(cutopt.TrimKind), "shoe"},
		{cutopt.TrimQuarterRound, new(cutopt.TrimKind), "quarter-round"},
		{cutopt.TransitionOpen, new(cutopt.Transition), "open"},
		{cutopt.TransitionLevel, new(cutopt.Transition), "level"},
		{cutopt.TransitionLower, new(cutopt.Transition), "lower"},
		{cutopt.TransitionEdge, new(cutopt.Transition), "edge"},
		{cutopt.TransitionNosing, new(cutopt.Transition), "nosing"},
		{cutopt.StripsEither, new(cutopt.StripsRun), "either"},
		{cutopt.StripsAlong, new(cutopt.StripsRun), "along"},
		{cutopt.StripsAcross, new(cutopt.StripsRun), "across"},
		{cutopt.EdgeRowsBalance, new(cutopt.EdgeRows), "balance"},
		{cutopt.EdgeRowsWholeFirst, new(cutopt.EdgeRows), "whole-first"},
		{cutopt.EndsNone, new(cutopt.Ends), "none"},
		{cutopt.EndsLeft, new(cutopt.Ends), "left"},
		{cutopt.EndsRight, new(cutopt.Ends), "right"},
		{cutopt.EndsBoth, new(cutopt.Ends), "both"},
	} {
		text, err := row.value.MarshalText()
		if err != nil || string(text) != row.name || row.value.String() != row.name {
			t.Errorf("%T %q: MarshalText = %q, %v; String = %q", row.value, row.name, text, err, row.value)
		}
		if err := row.into.UnmarshalText(text); err != nil {
			t.Errorf("%T: UnmarshalText(%q): %v", row.value, text, err)
		}
		if got := row.into.(fmt.Stringer).String(); got != row.name {
			t.Errorf("%T: %q read back as %q", row.value, row.name, got)
		}
		before := fmt.Sprint(row.into)
		err = row.into.UnmarshalText([]byte("Sideways"))
		if err == nil || !strings.Contains(err.Error(), `"Sideways"`) || !strings.Contains(err.Error(), row.name) {
			t.Errorf("%T: the error %v quotes neither the text nor the choice %q", row.value, err, row.name)
		}
		if fmt.Sprint(row.into) != before {
			t.Errorf("%T: a refused text changed the value", row.value)
		}
	}
}

func TestEnumValueWithoutName(t *testing.T) {
	for _, v := range []enum{
		cutopt.Direction(9), cutopt.Start(9), cutopt.Hand(9), cutopt.EndJoin(9), cutopt.LongEdge(9), cutopt.From(9),
		cutopt.Casing(9), cutopt.Ends(9),
	} {
		if text, err := v.MarshalText(); err == nil {
			t.Errorf("%v: MarshalText = %q, want an error", v, text)
		}
		if !strings.HasSuffix(v.String(), "(9)") {
			t.Errorf("%T(9).String() = %q", v, v)
		}
	}
}
