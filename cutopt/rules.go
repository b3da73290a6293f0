package cutopt

import (
	"encoding"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"plank.example/cutopt/measure"
)

// A Rule is a row of the table of rules. Job files, flags, [DefaultRules], [Job.Validate], the schema and the help all
// follow that table, so a rule is added by a field of [Rules] and a row in rules.go.
type Rule struct {
	Key  string // in job files and flags; errors put "rules." before it
	Help string // what it is, in a few words
	// Default is that of inch and foot jobs, MetricDefault that of metric jobs, as a job file writes them.
	Default, MetricDefault string
	Zero                   string // the word for a length of 0, such as "half" or "none"; "" where 0 is written as 0
	Source                 string // of the default

	field func(*Rules) any // *measure.Length, *float64 for percent, or an enumeration that spells itself
	is    string           // begins the sentence that states the range: "the gap is"
	least measure.Length
	most  reach
	// percent is the end of the range of a percentage.
	percent float64
}

// A reach is the end of the range of a rule.
type reach uint8

const (
	kilometre   reach = iota // MaxLength
	plankLength              // at most the plank's length
	belowPlank               // less than the plank's length
	plankWidth               // at most the plank's width
)

const common = "common practice"

// ruleTable has a row for each field of Rules. No published norm fixes these figures for locking planks: the product's
// own instruction overrides each default.
var ruleTable = []Rule{
	{
		Key: "gap", Default: "1/4 in", MetricDefault: "6 mm",
		Help: "expansion gap at every wall and fixed thing",
		Source: common + "; a gap that grows with the floor: the larger of 8 mm and 1.5 mm per m " +
			"(NF DTU 51.11, from memory)",
		field: func(r *Rules) any { return &r.Gap }, is: "the gap is",
	},
	{
		Key: "min-piece", Default: "8 in", MetricDefault: "200 mm",
		Help:   "shortest starter or ender",
		Source: common,
		field:  func(r *Rules) any { return &r.MinPiece }, is: "the shortest piece is", most: plankLength,
	},
	{
		Key: "stagger", Default: "8 in", MetricDefault: "200 mm",
		Help: "least distance of end joints in neighbouring rows",
		Source: common + "; as reported, not read: 6 to 10 in by width for nailed wood (NWFA guideline, an analogy " +
			"only), twice the width for glued resilient planks (TKB data sheet 15)",
		field: func(r *Rules) any { return &r.Stagger }, is: "the stagger is", most: belowPlank,
	},
	{
		Key: "min-rip", Default: "half", MetricDefault: "half", Zero: "half",
		Help:   "narrowest edge row, or half a plank",
		Source: common + "; with the half-module rule, edge = (rest + width)/2, of NAVEDTRA 14044 p. 7-23",
		field:  func(r *Rules) any { return &r.MinRip }, is: "the narrowest edge row is", most: plankWidth,
	},
	{
		Key: "min-strip", Default: "1 in", MetricDefault: "25 mm", Zero: "none",
		Help:   "narrowest strip that can be held and locks",
		Source: common,
		field:  func(r *Rules) any { return &r.MinStrip }, is: "the narrowest strip is", most: plankWidth,
	},
	{
		Key: "edges", Default: "balance", MetricDefault: "balance",
		Help:   "first and last row: balance, or whole-first where the last is then wide enough",
		Source: common + ": balanced by NAVEDTRA 14044 p. 7-23; many layers leave the first row whole",
		field:  func(r *Rules) any { return &r.Edges }, is: "the edge rows are",
	},
	{
		Key: "kerf", Default: "1/8 in", MetricDefault: "3 mm",
		Help:   "width of a saw cut",
		Source: common,
		field:  func(r *Rules) any { return &r.Kerf }, is: "the kerf is", most: belowPlank,
	},
	{
		Key: "grid", Default: "1/16 in", MetricDefault: "1 mm",
		Help:   "graduation that starters are measured to",
		Source: "tolerance of a tape: 1/32 in to 6 ft, 1/16 in to 30 ft (NIST Handbook 44 sec. 5.52)",
		field:  func(r *Rules) any { return &r.Grid }, is: "the graduation is", least: measure.Tick, most: plankLength,
	},
	{
		Key: "fit", Default: "1/2 in", MetricDefault: "12 mm",
		Help:   "how much longer or shorter a run may turn out than measured; 0 trusts the tape",
		Source: common + ": what a wall and a tape leave open",
		field:  func(r *Rules) any { return &r.Fit }, is: "the fit allowance is",
	},
	{
		Key: "as-it-comes", Default: "1 in", MetricDefault: "25 mm", Zero: "never",
		Help:   "offcuts up to so much longer than their starters are laid as they come",
		Source: common + ": nobody saws 3/8 in off a plank",
		field:  func(r *Rules) any { return &r.AsItComes }, is: "what is laid as it comes is", most: plankLength,
	},
	{
		Key: "smooth", Default: "1/8 in", MetricDefault: "3 mm",
		Help:   "edges of an outline shorter than this are drawing noise",
		Source: common + ": hidden by the trim",
		field:  func(r *Rules) any { return &r.Smooth }, is: "the smoothing tolerance is",
	},
	{
		Key: "cover", Default: "1/4 in", MetricDefault: "6 mm",
		Help:   "width beside the gap that the trim hides",
		Source: common,
		field:  func(r *Rules) any { return &r.Cover }, is: "the cover of the trim is",
	},
	{
		Key: "under", Default: "1/2 in", MetricDefault: "12 mm",
		Help:   "how far the floor runs beneath a wooden casing, on each side",
		Source: common,
		field:  func(r *Rules) any { return &r.Under }, is: "what runs beneath a casing is",
	},
	{
		Key: "max-along", Default: "none", MetricDefault: "none", Zero: "none",
		Help:   "longest floor along the rows without a break",
		Source: "only the product tells",
		field:  func(r *Rules) any { return &r.MaxAlong }, is: "the longest floor along the rows is",
	},
	{
		Key: "max-across", Default: "none", MetricDefault: "none", Zero: "none",
		Help:   "longest floor across the rows without a break",
		Source: "only the product tells",
		field:  func(r *Rules) any { return &r.MaxAcross }, is: "the longest floor across the rows is",
	},
	{
		Key: "break-width", Default: "1/4 in", MetricDefault: "6 mm",
		Help:   "width of what stands in a break, as the stem of a T-moulding",
		Source: common,
		field:  func(r *Rules) any { return &r.BreakWidth }, is: "the width of a break is",
	},
	{
		Key: "in-line", Default: "1 in", MetricDefault: "25 mm",
		Help:   "joints two rows apart are in line, and steps equal, within this",
		Source: common,
		field:  func(r *Rules) any { return &r.InLine }, is: "joints are in line within", most: plankLength,
	},
	{
		Key: "prefer-stagger", Default: "12 in", MetricDefault: "300 mm",
		Help:   "a least stagger that is as good as any larger one",
		Source: common,
		field:  func(r *Rules) any { return &r.PreferStagger }, is: "the preferred stagger is",
	},
	{
		Key: "round", Default: "1 in", MetricDefault: "10 mm", Zero: "none",
		Help:   "starters cut to a multiple of it are round figures",
		Source: common,
		field:  func(r *Rules) any { return &r.Round }, is: "the round figure of starters is",
	},
	{
		Key: "loss", Default: "2 %", MetricDefault: "2 %",
		Help:   "planks that are culled or miscut, on average: an assumption",
		Source: "an assumption: common practice has no figure",
		field:  func(r *Rules) any { return &r.Loss }, is: "the planks lost are", percent: 50,
	},
	{
		Key: "risk-limit", Default: "2 %", MetricDefault: "2 %",
		Help:   "the chance of running short that you accept",
		Source: "an assumption",
		field:  func(r *Rules) any { return &r.RiskLimit }, is: "the accepted chance of running short is", percent: 99,
	},
	{
		Key: "waste-allowance", Default: "10 %", MetricDefault: "10 %",
		Help:   "what the rule of thumb adds to the floor area; the plan is compared with it",
		Source: common,
		field:  func(r *Rules) any { return &r.WasteAllowance }, is: "the allowance is", percent: MaxAllowance,
	},
}

// RuleTable returns the table of rules, in the order in which job files are written.
func RuleTable() []Rule { return slices.Clone(ruleTable) }

// DefaultRules returns the defaults of the table of rules for a job in the given unit: those in inches for inch and
// foot jobs, those in round millimetres for metric ones. The example of [RuleTable] prints them.
func DefaultRules(unit measure.Unit) Rules {
	var rules Rules
	for _, r := range ruleTable {
		text := r.Default
		if unit.Metric() {
			text = r.MetricDefault
		}
		if err := r.Parse(&rules, text, unit); err != nil {
			// a fault in the table, which a test would show
			panic("cutopt: the default of " + r.Key + ": " + err.Error())
		}
	}
	return rules
}

// Kind is what a rule takes: "length", "percent" or "word".
func (r Rule) Kind() string {
	switch r.field(new(Rules)).(type) {
	case *measure.Length:
		return "length"
	case *float64:
		return "percent"
	}
	return "word"
}

// Parse reads the value of the rule from text, as job files and flags have it, and sets it in rules: a length, a bare
// number in unit; the word of Zero; a percentage with or without its sign. The error is a *measure.ParseError or a
// *FieldError, and rules are unchanged then.
func (r Rule) Parse(rules *Rules, text string, unit measure.Unit) error {
	wrong := func(rule, hint string) error {
		return &FieldError{Field: "rules." + r.Key, Value: text, Rule: rule, Mend: hint}
	}
	switch field := r.field(rules).(type) {
	case *measure.Length:
		l, err := parseLengthOr(text, r.Zero, unit)
		if err != nil {
			return inField(err, "rules."+r.Key)
		}
		*field = l
	case *float64:
		v, ok := parseDecimal(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%")))
		if !ok {
			return wrong("this is no percentage", "write it as 10 or 10 %")
		}
		*field = v
	case encoding.TextUnmarshaler:
		if err := field.UnmarshalText([]byte(text)); err != nil {
			return wrong(strings.TrimPrefix(err.Error(), "cutopt: "), "")
		}
	}
	return nil
}

// Text returns the value of the rule as Parse reads it back.
func (r Rule) Text(rules Rules, unit measure.Unit) string {
	switch field := r.field(&rules).(type) {
	case *measure.Length:
		if *field == 0 && r.Zero != "" {
			return r.Zero
		}
		return field.Compact(unit, measure.Tick)
	case *float64:
		return strconv.FormatFloat(*field, 'f', -1, 64) + " %"
	case fmt.Stringer:
		return field.String()
	}
	return ""
}

// rules holds each rule against its range, and then the fit allowance against the others.
func (v *validator) rules() {
	rules := v.job.Rules
	if rules == (Rules{}) {
		v.add("rules", "empty", "a zero rule is a rule of zero, and the graduation is above 0", "begin with DefaultRules")
		return
	}
	for _, r := range ruleTable {
		path := "rules." + r.Key
		switch field := r.field(&rules).(type) {
		case *measure.Length:
			most, ends := v.reach(r.most)
			from, hint := "at least 0", ""
			if r.least > 0 {
				from = "above 0"
			}
			if *field > most {
				hint = "check the sizes of the plank and their unit, or ask for less"
			}
			v.withinElse(path, *field, r.least, most, r.is+" "+from+" and "+ends, hint)
		case *float64:
			if !(*field >= 0 && *field <= r.percent) {
				rule := fmt.Sprintf("%s at least 0 %% and at most %g %%", r.is, r.percent)
				v.add(path, fmt.Sprintf("%v %%", *field), rule, "")
			}
		case encoding.TextMarshaler:
			if _, err := field.MarshalText(); err != nil {
				v.add(path, fmt.Sprint(field), strings.TrimPrefix(err.Error(), "cutopt: "), "")
			}
		}
	}
	v.fit()
	if least := 0.0001; rules.Loss > 0 && rules.RiskLimit < least {
		v.add(
			"rules.risk-limit",
			fmt.Sprintf("%v %%", rules.RiskLimit),
			fmt.Sprintf("where planks are lost, the accepted chance of "+
				"running short is at least %g %%: no number of boxes is always enough", least),
			"write 2 %, or a loss of 0",
		)
	}
}

// reach returns the end of a range and what to call it. A plank whose sizes are wrong limits nothing.
func (v *validator) reach(most reach) (measure.Length, string) {
	p := v.job.Plank
	if !p.sized() {
		return MaxLength, "at most 1 km"
	}
	switch most {
	case plankLength:
		return p.Length, "at most the plank's length, " + v.text(p.Length)
	case belowPlank:
		return p.Length - 1, "less than the plank's length, " + v.text(p.Length)
	case plankWidth:
		return p.Width, "at most the plank's width, " + v.text(p.Width)
	}
	return MaxLength, "at most 1 km"
}

// fit holds the fit allowance against the plank: an ender is planned fit longer than the shortest piece and fit shorter
// than a plank, and joints twice fit farther apart than the stagger.
func (v *validator) fit() {
	r := v.job.Rules
	if r.Fit <= 0 || r.Fit > MaxLength || !v.job.Plank.sized() {
		return
	}
	long := v.job.Plank.Length
	hint := "allow a smaller fit, or 0 to trust every measurement"
	switch {
	case r.MinPiece <= long && r.MinPiece+2*r.Fit > long:
		v.add("rules.fit", v.text(r.Fit), "twice the fit allowance and the shortest piece, "+v.text(r.MinPiece)+
			", are at most the plank's length", hint)
	case r.Stagger < long && r.Stagger+2*r.Fit >= long:
		v.add("rules.fit", v.text(r.Fit), "twice the fit allowance and the stagger, "+v.text(r.Stagger)+
			", are less than the plank's length", hint)
	}
}
