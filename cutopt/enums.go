package cutopt

import (
	"plank.example/cutopt/internal/enum"
)

// The names of the enumerations, in the order of their constants. Job files, plan files, flags and messages spell them
// alike.
var (
	directionNames = []string{"along", "across", "angle", "free"}
	startNames     = []string{"near", "far"}
	handNames      = []string{"left", "right"}
	endJoinNames   = []string{"unset", "angle", "drop"}
	longEdgeNames  = []string{"unset", "tongue", "groove"}
	fromNames      = []string{"unset", "left", "right"}
	casingNames    = []string{"wood", "metal"}
	edgeRowsNames  = []string{"balance", "whole-first"}
	endsNames      = []string{"none", "left", "right", "both"}
	aimNames       = []string{
		"h-joints",
		"chains",
		"staircases",
		"clusters",
		"stagger",
		"crosscuts",
		"offcuts",
		"waiting",
		"figures",
		"planks",
	}
)

// String returns "along", "across", "angle" or "free".
func (d Direction) String() string { return enum.String("Direction", directionNames, int(d)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (d Direction) MarshalText() ([]byte, error) {
	return enum.MarshalText("Direction", directionNames, int(d))
}

// UnmarshalText reads what MarshalText writes.
func (d *Direction) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Direction", directionNames, text, d)
}

// String returns "near" or "far".
func (s Start) String() string { return enum.String("Start", startNames, int(s)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (s Start) MarshalText() ([]byte, error) { return enum.MarshalText("Start", startNames, int(s)) }

// UnmarshalText reads what MarshalText writes.
func (s *Start) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Start", startNames, text, s)
}

// String returns "left" or "right".
func (h Hand) String() string { return enum.String("Hand", handNames, int(h)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (h Hand) MarshalText() ([]byte, error) { return enum.MarshalText("Hand", handNames, int(h)) }

// UnmarshalText reads what MarshalText writes.
func (h *Hand) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Hand", handNames, text, h)
}

// String returns "unset", "angle" or "drop".
func (e EndJoin) String() string { return enum.String("EndJoin", endJoinNames, int(e)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (e EndJoin) MarshalText() ([]byte, error) {
	return enum.MarshalText("EndJoin", endJoinNames, int(e))
}

// UnmarshalText reads what MarshalText writes.
func (e *EndJoin) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("EndJoin", endJoinNames, text, e)
}

// String returns "unset", "tongue" or "groove".
func (e LongEdge) String() string { return enum.String("LongEdge", longEdgeNames, int(e)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (e LongEdge) MarshalText() ([]byte, error) {
	return enum.MarshalText("LongEdge", longEdgeNames, int(e))
}

// UnmarshalText reads what MarshalText writes.
func (e *LongEdge) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("LongEdge", longEdgeNames, text, e)
}

// String returns "unset", "left" or "right".
func (f From) String() string { return enum.String("From", fromNames, int(f)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (f From) MarshalText() ([]byte, error) { return enum.MarshalText("From", fromNames, int(f)) }

// UnmarshalText reads what MarshalText writes.
func (f *From) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("From", fromNames, text, f)
}

// String returns "balance" or "whole-first".
func (e EdgeRows) String() string { return enum.String("EdgeRows", edgeRowsNames, int(e)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (e EdgeRows) MarshalText() ([]byte, error) {
	return enum.MarshalText("EdgeRows", edgeRowsNames, int(e))
}

// UnmarshalText reads what MarshalText writes.
func (e *EdgeRows) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("EdgeRows", edgeRowsNames, text, e)
}

// String returns "wood" or "metal".
func (c Casing) String() string { return enum.String("Casing", casingNames, int(c)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (c Casing) MarshalText() ([]byte, error) { return enum.MarshalText("Casing", casingNames, int(c)) }

// UnmarshalText reads what MarshalText writes.
func (c *Casing) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Casing", casingNames, text, c)
}

// String returns "none", "left", "right" or "both".
func (e Ends) String() string { return enum.String("Ends", endsNames, int(e)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (e Ends) MarshalText() ([]byte, error) { return enum.MarshalText("Ends", endsNames, int(e)) }

// UnmarshalText reads what MarshalText writes.
func (e *Ends) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Ends", endsNames, text, e)
}

// String returns the name of the aim: "h-joints", "chains", "staircases", "clusters", "stagger", "crosscuts",
// "offcuts", "waiting", "figures" or "planks".
func (a Aim) String() string { return enum.String("Aim", aimNames, int(a)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (a Aim) MarshalText() ([]byte, error) { return enum.MarshalText("Aim", aimNames, int(a)) }

// UnmarshalText reads what MarshalText writes.
func (a *Aim) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Aim", aimNames, text, a)
}
