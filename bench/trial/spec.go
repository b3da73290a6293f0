// Package trial runs strategies on sample rooms and hands out one record for each room, setting and strategy, in the
// same order whatever the number of workers.
package trial

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"plank.example/bench/sample"
	"plank.example/bench/strategy"
	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A Spec says what to measure: the rooms of a mix, by seed, times planks times rules times strategies. It is plain
// text, so that it can be stored beside its results and two results can be seen to be of the same thing.
type Spec struct {
	Mix        sample.Mix `json:"mix"`
	Planks     []string   `json:"planks"`     // as sample.ParseProduct reads them
	MinPieces  []string   `json:"min_pieces"` // lengths, bare numbers in inches
	Staggers   []string   `json:"staggers"`   // lengths, bare numbers in inches
	Strategies []string   `json:"strategies"` // as strategy.Parse reads them
	// Vary are more settings, each the first one but for one thing, "key=value": a rule by its key in job files ("kerf=0",
	// "fit=1/2 in"), or box (planks in one), direction, start or first-row as a room has them.
	Vary []string `json:"vary,omitempty"`
	// Verify recomputes every certificate; else the claim of a certificate counts as it stands.
	Verify bool `json:"verify"`
	// Layings is how often the floors of strategies that make plans are laid with planks that break, with each of Losses.
	Layings int `json:"layings,omitempty"`
	// Whole sums all rooms together only; else also by kind, shape, size and rows.
	Whole bool `json:"whole,omitempty"`
	// Full crosses all planks with all rules; else only one of plank, shortest piece and stagger differs from the first.
	Full bool `json:"full"`
}

// A Setting is one product under one set of rules.
type Setting struct {
	Name    string // "48x7 piece 8 stagger 8", then what is varied: "kerf 0"
	Product *sample.Product
	Rules   cutopt.Rules
	Rows    cutopt.RowRules // of every room
}

// Job is the job of laying a room so.
func (s *Setting) Job(room *sample.Room) *cutopt.Job {
	job := room.Job(s.Product, &s.Rules)
	for i := range job.Rooms {
		job.Rooms[i].Rows = s.Rows
	}
	return job
}

// vary changes one thing, "key=value".
func (s *Setting) vary(text string) error {
	key, value, ok := strings.Cut(text, "=")
	if !ok {
		return fmt.Errorf("trial: %q varies nothing: write key=value, such as kerf=0", text)
	}
	s.Name += " " + key + " " + value
	switch key {
	case "box":
		product, err := sample.ParseProduct(s.Product.Name + ":" + value)
		s.Product = product
		return err
	case "direction":
		return s.Rows.ParseDirection(value)
	case "start":
		return s.Rows.Start.UnmarshalText([]byte(value))
	case "first-row":
		width, err := measure.Parse(value, measure.UnitInch)
		s.Rows.FirstRow = width
		return err
	}
	for _, rule := range cutopt.RuleTable() {
		if rule.Key == key {
			return rule.Parse(&s.Rules, value, measure.UnitInch)
		}
	}
	return fmt.Errorf("trial: %q is the key of no rule, nor box, direction, start or first-row", key)
}

// Settings returns the planks times the shortest pieces times the staggers, in that order, then what is varied.
func (s *Spec) Settings() ([]Setting, error) {
	var out []Setting
	seen := make(map[string]bool)
	for i, p := range s.Planks {
		product, err := sample.ParseProduct(p)
		if err != nil {
			return nil, err
		}
		for j, m := range s.MinPieces {
			for k, g := range s.Staggers {
				if differ := min(i, 1) + min(j, 1) + min(k, 1); !s.Full && differ > 1 {
					continue
				}
				set := Setting{Product: product, Rules: sample.Rules()}
				if set.Rules.MinPiece, err = measure.Parse(m, measure.UnitInch); err != nil {
					return nil, fmt.Errorf("trial: shortest piece: %w", err)
				}
				if set.Rules.Stagger, err = measure.Parse(g, measure.UnitInch); err != nil {
					return nil, fmt.Errorf("trial: stagger: %w", err)
				}
				set.Name = fmt.Sprintf("%s piece %s stagger %s", p, m, g)
				if seen[set.Name] {
					return nil, fmt.Errorf("trial: %s is asked for twice", set.Name)
				}
				seen[set.Name] = true
				out = append(out, set)
			}
		}
	}
	if len(out) == 0 {
		return nil, errors.New("trial: name at least one plank, one shortest piece and one stagger")
	}
	for _, text := range s.Vary {
		set := out[0]
		if err := set.vary(text); err != nil {
			return nil, fmt.Errorf("trial: %q: %w", text, err)
		}
		if seen[set.Name] {
			return nil, fmt.Errorf("trial: %s is asked for twice", set.Name)
		}
		seen[set.Name] = true
		out = append(out, set)
	}
	return out, nil
}

// Laying returns the strategies. The limit is that of programs for one floor; own are strategies that are in no list
// but may be named in the spec.
func (s *Spec) Laying(limit time.Duration, own ...strategy.Strategy) ([]strategy.Strategy, error) {
	return strategy.Parse(strings.Join(s.Strategies, ","), limit, own...)
}

// Names returns the names that the strategies have in records.
func (s *Spec) Names() []string {
	var names []string
	for _, word := range s.Strategies {
		names = append(names, strategy.NameOf(word))
	}
	return names
}

// A Record is what one strategy made of one room under one setting. Figures are whole numbers, so that sums of them do
// not depend on their order.
type Record struct {
	Seed     uint64 `json:"seed"`
	Kind     string `json:"kind"`
	Shape    string `json:"shape"`
	Setting  string `json:"setting"`
	Strategy string `json:"strategy"`
	Net      int64  `json:"net"`  // floor area in square millimetres
	Rows     int    `json:"rows"` // rows one behind the other; 0 where the rows cannot be laid at all
	Runs     int    `json:"runs"`
	Outcome  string `json:"outcome"` // one of the constants below
	Note     string `json:"note,omitempty"`
	Planks   int    `json:"planks"` // 0 where nothing was laid
	// OpenedPile and OpenedLast are the planks opened by someone who lays run after run, with a pile of all offcuts and
	// with the last one of each factory end only: strategy.Opened. Planks pairs what is left in hindsight.
	OpenedPile int `json:"opened_pile"`
	OpenedLast int `json:"opened_last"`
	Boxes      int `json:"boxes"`
	Bound      int `json:"bound"` // proven; 0 for none
	BoxBound   int `json:"box_bound"`
	// AreaBound is the bound that anyone gets by dividing lengths: all runs together by the length of a plank, rounded up.
	AreaBound int   `json:"area_bound"`
	Thumb     int   `json:"thumb"` // boxes by the rule of thumb
	PerBox    int   `json:"per_box"`
	Plank     int64 `json:"plank"` // area of one plank in square millimetres
	Steps     int64 `json:"steps"`
	// Breakings is by Losses; nil without Spec.Layings.
	Breakings []Breaking `json:"breakings,omitempty"`
	Micros    int64      `json:"micros"` // of the strategy alone, see Options.Times; 0 where times are left out
}

// The outcomes.
const (
	Laid    = "laid"
	Counted = "counted" // planks, but no layout that needs them
	Bought  = "bought"  // boxes alone
	None    = "none"    // no layout found
	Broken  = "broken"  // an answer that does not hold
)
