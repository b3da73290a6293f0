package sample

import (
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// Rules are the rules that the gate and the study lay by, written out: another default of the library moves no figure
// of either. Nothing is bought in reserve: boxes hold the planks and no more.
func Rules() cutopt.Rules {
	const in = measure.Inch
	return cutopt.Rules{
		Gap: in / 4, MinPiece: 8 * in, Stagger: 8 * in, MinStrip: in, Kerf: in / 8, Grid: in / 16, Fit: in / 8,
		Smooth: in / 8, Cover: in / 4, Under: in / 2, InLine: in, PreferStagger: 12 * in, Round: in,
		Loss: 0, RiskLimit: 2, WasteAllowance: 10,
	}
}
