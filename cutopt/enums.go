package cutopt

import (
	"fmt"
	"strings"
)

// The names of the enumerations, in the order of their constants. Job files, plan files, flags and messages spell them
// alike.
var (
	directionNames = []string{"along", "across", "angle"}
	startNames     = []string{"near", "far"}
	handNames      = []string{"left", "right"}
	casingNames    = []string{"wood", "metal"}
	endsNames      = []string{"none", "left", "right", "both"}
	enoughNames    = []string{"no", "open", "yes"}
	aimNames       = []string{
		"h-joints", "staircases", "clusters", "stagger", "crosscuts", "offcuts", "waiting", "figures", "planks",
	}
)

// enumText returns the name of a constant.
func enumText(kind string, names []string, i int) ([]byte, error) {
	if i >= len(names) {
		return nil, fmt.Errorf("cutopt: %s is no %s: one of %s", enumString(kind, names, i), strings.ToLower(kind),
			strings.Join(names, ", "))
	}
	return []byte(names[i]), nil
}

func enumString(kind string, names []string, i int) string {
	if i >= len(names) {
		return fmt.Sprintf("%s(%d)", kind, i)
	}
	return names[i]
}

// enumIndex returns the constant of a name.
func enumIndex(kind string, names []string, text []byte) (int, error) {
	for i, name := range names {
		if name == string(text) {
			return i, nil
		}
	}
	return 0, fmt.Errorf("cutopt: %q is no %s: one of %s", text, strings.ToLower(kind), strings.Join(names, ", "))
}

// String returns "along", "across" or "angle".
func (d Direction) String() string { return enumString("Direction", directionNames, int(d)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (d Direction) MarshalText() ([]byte, error) {
	return enumText("Direction", directionNames, int(d))
}

// UnmarshalText reads what MarshalText writes.
func (d *Direction) UnmarshalText(text []byte) error {
	i, err := enumIndex("Direction", directionNames, text)
	if err == nil {
		*d = Direction(i)
	}
	return err
}

// String returns "near" or "far".
func (s Start) String() string { return enumString("Start", startNames, int(s)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (s Start) MarshalText() ([]byte, error) { return enumText("Start", startNames, int(s)) }

// UnmarshalText reads what MarshalText writes.
func (s *Start) UnmarshalText(text []byte) error {
	i, err := enumIndex("Start", startNames, text)
	if err == nil {
		*s = Start(i)
	}
	return err
}

// String returns "left" or "right".
func (h Hand) String() string { return enumString("Hand", handNames, int(h)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (h Hand) MarshalText() ([]byte, error) { return enumText("Hand", handNames, int(h)) }

// UnmarshalText reads what MarshalText writes.
func (h *Hand) UnmarshalText(text []byte) error {
	i, err := enumIndex("Hand", handNames, text)
	if err == nil {
		*h = Hand(i)
	}
	return err
}

// String returns "wood" or "metal".
func (c Casing) String() string { return enumString("Casing", casingNames, int(c)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (c Casing) MarshalText() ([]byte, error) { return enumText("Casing", casingNames, int(c)) }

// UnmarshalText reads what MarshalText writes.
func (c *Casing) UnmarshalText(text []byte) error {
	i, err := enumIndex("Casing", casingNames, text)
	if err == nil {
		*c = Casing(i)
	}
	return err
}

// String returns "none", "left", "right" or "both".
func (e Ends) String() string { return enumString("Ends", endsNames, int(e)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (e Ends) MarshalText() ([]byte, error) { return enumText("Ends", endsNames, int(e)) }

// UnmarshalText reads what MarshalText writes.
func (e *Ends) UnmarshalText(text []byte) error {
	i, err := enumIndex("Ends", endsNames, text)
	if err == nil {
		*e = Ends(i)
	}
	return err
}

// String returns the name of the aim: "h-joints", "staircases", "clusters", "stagger", "crosscuts", "offcuts", "waiting",
// "figures" or "planks".
func (a Aim) String() string { return enumString("Aim", aimNames, int(a)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (a Aim) MarshalText() ([]byte, error) { return enumText("Aim", aimNames, int(a)) }

// UnmarshalText reads what MarshalText writes.
func (a *Aim) UnmarshalText(text []byte) error {
	i, err := enumIndex("Aim", aimNames, text)
	if err == nil {
		*a = Aim(i)
	}
	return err
}

// String returns "no", "open" or "yes".
func (e Enough) String() string { return enumString("Enough", enoughNames, int(e)) }
