package cut

import (
	"fmt"
	"strconv"
	"time"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
)

// Options say how hard to try. Nil and the zero value are normal.
type Options struct {
	Aim    Aim           // how far to go; default AimOffcut: all three
	Effort Effort        // how many steps to spend on each aim; default EffortNormal
	Limit  time.Duration // extra stop by the clock; default 0 for none. A plan cut short says so in its Status
}

// An Aim is what a plan is made best in, after those before it.
type Aim uint8

// The aims, in their order. The zero value is all of them.
const (
	AimOffcut Aim = iota // "offcut": the least cost, then the fewest sticks, then the largest single offcut
	AimCost              // "cost": the least cost only
	AimSticks            // "sticks": the least cost, then the fewest sticks
)

// An Effort is how many steps Solve spends on an aim before it gives up. A step is about a nanosecond's work.
type Effort uint8

// The efforts. The zero value is EffortNormal.
const (
	EffortNormal   Effort = iota // "normal": 4,000 million steps
	EffortQuick                  // "quick": 200 million steps
	EffortThorough               // "thorough": 100,000 million steps
)

func (e Effort) steps() int64 {
	return [...]int64{EffortNormal: 4e9, EffortQuick: 2e8, EffortThorough: 1e11}[e]
}

// A Status says why Solve stopped.
type Status uint8

// The statuses.
const (
	StatusProven    Status = iota // "proven": every aim asked for is proven
	StatusExhausted               // "exhausted": the effort is spent and a gap is left
	StatusLimit                   // "limit": Options.Limit or the context's deadline came first
	StatusCancelled               // "cancelled": the context was cancelled
)

var (
	aimNames    = []string{"offcut", "cost", "sticks"}
	effortNames = []string{"normal", "quick", "thorough"}
	statusNames = []string{"proven", "exhausted", "limit", "cancelled"}
)

func name[T ~uint8](v T, names []string) string {
	if int(v) < len(names) {
		return names[v]
	}
	return strconv.Itoa(int(v))
}

func parse[T ~uint8](v *T, what string, text []byte, names []string) error {
	for i, n := range names {
		if n == string(text) {
			*v = T(i)
			return nil
		}
	}
	return fmt.Errorf("cut: %q is no %s: write one of %q", text, what, names)
}

func marshal[T ~uint8](v T, what string, names []string) ([]byte, error) {
	if int(v) >= len(names) {
		return nil, fmt.Errorf("cut: there is no %s %d", what, v)
	}
	return []byte(names[v]), nil
}

// String returns the aim's name.
func (a Aim) String() string { return name(a, aimNames) }

// MarshalText writes the aim's name.
func (a Aim) MarshalText() ([]byte, error) { return marshal(a, "aim", aimNames) }

// UnmarshalText reads the aim's name.
func (a *Aim) UnmarshalText(text []byte) error { return parse(a, "aim", text, aimNames) }

// String returns the effort's name.
func (e Effort) String() string { return name(e, effortNames) }

// MarshalText writes the effort's name.
func (e Effort) MarshalText() ([]byte, error) { return marshal(e, "effort", effortNames) }

// UnmarshalText reads the effort's name.
func (e *Effort) UnmarshalText(text []byte) error { return parse(e, "effort", text, effortNames) }

// String returns the status's name.
func (s Status) String() string { return name(s, statusNames) }

// MarshalText writes the status's name.
func (s Status) MarshalText() ([]byte, error) { return marshal(s, "status", statusNames) }

// UnmarshalText reads the status's name.
func (s *Status) UnmarshalText(text []byte) error { return parse(s, "status", text, statusNames) }

// validate reports options that are out of range, as *stock.FieldError.
func (o *Options) validate() error {
	var e stock.FieldError
	switch {
	case int(o.Aim) >= len(aimNames):
		e = stock.FieldError{Field: "options.aim", Value: o.Aim.String(), Rule: "there are three aims"}
		e.Mend = "use AimOffcut, AimCost or AimSticks"
	case int(o.Effort) >= len(effortNames):
		e = stock.FieldError{Field: "options.effort", Value: o.Effort.String(), Rule: "there are three efforts"}
		e.Mend = "use EffortNormal, EffortQuick or EffortThorough"
	case o.Limit < 0:
		e = stock.FieldError{Field: "options.limit", Value: o.Limit.String(), Rule: "a limit is not below 0"}
		e.Mend = "0 stands for none"
	default:
		return nil
	}
	return &e
}

// A Result is a plan and what is proven about it.
type Result struct {
	Plan        *stock.Plan
	Status      Status
	Bound       Bound
	Proven      Aims
	Certificate *stock.Certificate // from which stock.Verify recomputes the bound
	Stats       Stats
}

// A Bound is what no plan can be better than: none costs less than Cost, none of the plan's cost has fewer Sticks, and
// none of its cost and number of sticks leaves a longer Offcut (0: none worth keeping). Of aims that were not asked for
// nothing is shown: Sticks is 1 then and Offcut 0.
type Bound struct {
	Cost   int64
	Sticks int
	Offcut measure.Length
}

// Aims says of each aim whether it is proven: with the aims before it as they are in the plan, it cannot be better.
type Aims struct{ Cost, Sticks, Offcut bool }

// Stats count the work.
type Stats struct {
	Steps    int64
	Patterns int // columns of linear programs
	Dives    int
	Nodes    int // of trees
}
