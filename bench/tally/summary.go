// Package tally sums records of package trial into figures that merge exactly: every accumulator is a whole number, so
// a run cut into shards, on one machine or many, gives the same summary to the last plank as the run in one piece.
package tally

import (
	"bufio"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"reflect"
	"slices"
	"strings"

	"plank.example/bench/trial"
)

// A Summary is what is kept of a run.
type Summary struct {
	Spec   trial.Spec       `json:"spec"`
	Ranges []Range          `json:"ranges"` // of seeds, in order, apart from each other
	Cells  map[string]*Cell `json:"cells"`  // by Key.String

	reference, planks string
	broken            map[string]first // by strategy
}

// A Range is the seeds From..To-1.
type Range struct {
	From uint64 `json:"from"`
	To   uint64 `json:"to"`
}

// A Key names a cell: one setting, one strategy, one group of rooms.
type Key struct {
	Setting, Strategy string
	Group             string // "all", "kind bedroom", "shape L", "size 100-150" in sq ft, "rows 16-23"
}

// String joins the parts with bars.
func (k Key) String() string { return k.Setting + "|" + k.Strategy + "|" + k.Group }

// ParseKey reads what String writes.
func ParseKey(s string) (Key, error) {
	p := strings.Split(s, "|")
	if len(p) != 3 {
		return Key{}, fmt.Errorf("tally: %q is no key: setting|strategy|group", s)
	}
	return Key{p[0], p[1], p[2]}, nil
}

// New returns an empty summary.
func New(spec *trial.Spec) *Summary {
	return &Summary{Spec: *spec, Cells: make(map[string]*Cell)}
}

// Reference is the strategy that the boxes of others are compared with: the last, but for those that have as few planks
// as they can.
func (s *Summary) Reference() string {
	s.refer()
	return s.reference
}

// PlanksReference is the strategy that the planks of others are compared with: the last that has as few planks as it
// can, whose name ends so, else the last.
func (s *Summary) PlanksReference() string {
	s.refer()
	return s.planks
}

const fewestPlanks = "-planks"

func (s *Summary) refer() {
	if s.reference != "" {
		return
	}
	for _, name := range s.Spec.Names() {
		if strings.HasSuffix(name, fewestPlanks) {
			s.planks = name
		} else {
			s.reference = name
		}
	}
	s.reference, s.planks = cmp.Or(s.reference, s.planks), cmp.Or(s.planks, s.reference)
}

// Add sums all records of one seed. Seeds come in any order, each once.
func (s *Summary) Add(seed uint64, records []trial.Record) error {
	if err := s.cover(Range{seed, seed + 1}); err != nil {
		return err
	}
	boxes, planks := s.Reference(), s.PlanksReference()
	find := func(setting, strategy string) *trial.Record {
		for i := range records {
			if q := &records[i]; q.Setting == setting && q.Strategy == strategy && q.Planks > 0 {
				return q
			}
		}
		return nil
	}
	for i := range records {
		r := &records[i]
		s.note(r)
		with := references{
			find(r.Setting, boxes), find(r.Setting, planks), find(records[0].Setting, r.Strategy), chancesOf(r),
		}
		for _, g := range groups(r, s.Spec.Whole) {
			key := Key{r.Setting, r.Strategy, g}.String()
			c := s.Cells[key]
			if c == nil {
				c = &Cell{Outcomes: make(map[string]int64)}
				s.Cells[key] = c
			}
			c.add(r, &with)
		}
	}
	return nil
}

// Sizes are the least areas of the size classes in square feet, Depths the least rows of the row classes.
var (
	Sizes  = []int{0, 50, 75, 100, 125, 150, 200, 250, 300, 400, 600, 1000, 2000}
	Depths = []int{0, 8, 12, 16, 20, 24, 32, 48, 64, 96}
)

// Class names the class of a value: "100-125", the last "2000-".
func Class(classes []int, i int) string {
	if i == len(classes)-1 {
		return fmt.Sprintf("%d-", classes[i])
	}
	return fmt.Sprintf("%d-%d", classes[i], classes[i+1])
}

func classOf(classes []int, value int64) string {
	i := len(classes) - 1
	for int64(classes[i]) > value {
		i--
	}
	return Class(classes, i)
}

const squareFoot = 92_903 // square millimetres, nearly: 92903.04

func groups(r *trial.Record, whole bool) []string {
	if whole {
		return []string{"all"}
	}
	return []string{
		"all", "kind " + r.Kind, "shape " + r.Shape, "size " + classOf(Sizes, r.Net/squareFoot), "rows " + classOf(Depths,
			int64(r.Rows)),
	}
}

// cover adds a range of seeds, and joins ranges that meet.
func (s *Summary) cover(r Range) error {
	at, _ := slices.BinarySearchFunc(s.Ranges, r, func(a, b Range) int { return cmp.Compare(a.From, b.From) })
	if at > 0 && s.Ranges[at-1].To > r.From || at < len(s.Ranges) && s.Ranges[at].From < r.To {
		return fmt.Errorf("tally: seeds %d to %d are counted already: shards must not overlap", r.From, r.To-1)
	}
	if at > 0 && s.Ranges[at-1].To == r.From {
		at--
		s.Ranges[at].To = r.To
	} else {
		s.Ranges = slices.Insert(s.Ranges, at, r)
	}
	if at+1 < len(s.Ranges) && s.Ranges[at+1].From == s.Ranges[at].To {
		s.Ranges[at].To = s.Ranges[at+1].To
		s.Ranges = slices.Delete(s.Ranges, at+1, at+2)
	}
	return nil
}

// ErrSpec is returned by Merge for summaries of different measurements.
var ErrSpec = errors.New("tally: the summaries measure different things: their specs differ")

// Merge adds another summary of the same spec and other seeds. It leaves the other alone. In any order, the result is
// the same.
func (s *Summary) Merge(o *Summary) error {
	if !reflect.DeepEqual(s.Spec, o.Spec) {
		return ErrSpec
	}
	before := slices.Clone(s.Ranges)
	for _, r := range o.Ranges {
		if err := s.cover(r); err != nil {
			s.Ranges = before
			return err
		}
	}
	for key, c := range o.Cells {
		mine := s.Cells[key]
		if mine == nil {
			mine = &Cell{Outcomes: make(map[string]int64)}
			s.Cells[key] = mine
		}
		mine.merge(c)
	}
	return nil
}

// Encode writes the summary as JSON, one line a cell, with keys in order: equal summaries are equal bytes.
func (s *Summary) Encode(w io.Writer) error {
	keys := slices.Sorted(maps.Keys(s.Cells))
	b := bufio.NewWriter(w)
	part := func(begin string, value any, end string) error {
		data, err := json.Marshal(value)
		if err == nil {
			_, err = fmt.Fprintf(b, "%s%s%s", begin, data, end)
		}
		return err
	}
	ranges := s.Ranges
	if ranges == nil {
		ranges = []Range{}
	}
	err := errors.Join(part("{\"spec\": ", s.Spec, ",\n"), part("\"ranges\": ", ranges, ",\n\"cells\": {"))
	between := "\n"
	for _, k := range keys {
		if err == nil {
			err = errors.Join(part(between, k, ": "), part("", s.Cells[k], ""))
		}
		between = ",\n"
	}
	if err != nil {
		return err
	}
	b.WriteString("\n}}\n")
	return b.Flush()
}

// Decode reads what Encode writes.
func Decode(r io.Reader) (*Summary, error) {
	dec := json.NewDecoder(r)
	dec.DisallowUnknownFields()
	s := new(Summary)
	if err := dec.Decode(s); err != nil {
		return nil, fmt.Errorf("tally: a summary is the JSON that run or merge writes: %w", err)
	}
	ranges := s.Ranges
	s.Ranges = nil
	for _, g := range ranges {
		if g.From >= g.To {
			return nil, fmt.Errorf("tally: seeds from %d to %d: the range is empty", g.From, g.To)
		}
		if err := s.cover(g); err != nil {
			return nil, err
		}
	}
	if s.Cells == nil {
		s.Cells = make(map[string]*Cell)
	}
	for key, c := range s.Cells {
		if _, err := ParseKey(key); err != nil {
			return nil, err
		}
		if c == nil {
			return nil, fmt.Errorf("tally: cell %q is empty", key)
		}
		if c.Outcomes == nil {
			c.Outcomes = make(map[string]int64)
		}
	}
	return s, nil
}

// Seeds returns how many seeds are counted.
func (s *Summary) Seeds() uint64 {
	n := uint64(0)
	for _, r := range s.Ranges {
		n += r.To - r.From
	}
	return n
}

// WithoutTimes returns a view of the summary that leaves out what depends on the machine.
func (s *Summary) WithoutTimes() *Summary {
	out := &Summary{Spec: s.Spec, Ranges: s.Ranges, Cells: make(map[string]*Cell, len(s.Cells))}
	for key, c := range s.Cells {
		d := *c
		d.Time, d.TimeProven, d.Micros = nil, nil, 0
		out.Cells[key] = &d
	}
	return out
}
