package oracle

import (
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// Rules are the rules that tests lay by, written out: another default in the table of rules moves no figure of a test.
// Units in inches and feet have those in inches, metric units those in round millimetres.
func Rules(unit measure.Unit) cutopt.Rules {
	const in = measure.Inch
	if unit.Metric() {
		return cutopt.Rules{
			Gap: 6 * mm, MinPiece: 200 * mm, Stagger: 200 * mm, MinStrip: 25 * mm, Kerf: 3 * mm, Grid: mm, Fit: 3 * mm,
			AsItComes: 25 * mm,
			Smooth:    3 * mm, Cover: 6 * mm, Under: 12 * mm, InLine: 25 * mm, PreferStagger: 300 * mm, Round: 10 * mm,
			Loss: 2, RiskLimit: 2, WasteAllowance: 10,
		}
	}
	return cutopt.Rules{
		Gap: in / 4, MinPiece: 8 * in, Stagger: 8 * in, MinStrip: in, Kerf: in / 8, Grid: in / 16, Fit: in / 8, AsItComes: in,
		Smooth: in / 8, Cover: in / 4, Under: in / 2, InLine: in, PreferStagger: 12 * in, Round: in,
		Loss: 2, RiskLimit: 2, WasteAllowance: 10,
	}
}
