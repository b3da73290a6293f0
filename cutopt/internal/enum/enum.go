// Package enum spells the constants of enumerations: each kind has a list of names in the order of its constants, which
// count from 0. Job files, plan files, flags and messages then spell them alike.
package enum

import (
	"fmt"
	"slices"
	"strings"
)

// String returns the name of constant i of a kind such as "Casing", or "Casing(9)" for one that has none.
func String(kind string, names []string, i int) string {
	if i < 0 || i >= len(names) {
		return fmt.Sprintf("%s(%d)", kind, i)
	}
	return names[i]
}

// MarshalText returns the name of constant i; it fails for one that has none.
func MarshalText(kind string, names []string, i int) ([]byte, error) {
	if i < 0 || i >= len(names) {
		return nil, fmt.Errorf("cutopt: %s is no %s: one of %s", String(kind, names, i), strings.ToLower(kind),
			strings.Join(names, ", "))
	}
	return []byte(names[i]), nil
}

// UnmarshalText sets the constant to the one named. It is unchanged when there is none of that name.
func UnmarshalText[E ~uint8](kind string, names []string, text []byte, e *E) error {
	i := slices.Index(names, string(text))
	if i < 0 {
		return fmt.Errorf("cutopt: %q is no %s: one of %s", text, strings.ToLower(kind), strings.Join(names, ", "))
	}
	*e = E(i)
	return nil
}
