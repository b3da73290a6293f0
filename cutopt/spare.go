package cutopt

import (
	"math/big"
	"regexp"
	"strconv"
	"strings"
)

// Spare says how many whole planks to keep back for repairs, bought on top of those laid. At most one of its fields is
// set; the zero value keeps none. Whatever it asks for, fewer planks laid never ask for more boxes. ParseSpare makes
// one.
type Spare struct {
	Planks int // so many planks, at most MaxSpare
	// Percent keeps so many percent of the planks laid (Order.Planks, all that are cut or laid), rounded up to whole
	// planks; at most MaxAllowance. The number is taken as it is written in decimals: 0.1 % of 1,000 planks is 1.
	Percent float64
	// BoxPer keeps whole boxes, unopened: one for each BoxPer boxes of planks laid or fraction of that number; at most
	// MaxSpare. It is the attic stock, or extra stock, of project specifications: one box in 50 in section 09 65 19 of a
	// county's.
	BoxPer int
}

// spareText matches the three forms of ParseSpare.
var spareText = regexp.MustCompile(`^(?:([0-9]+)|([0-9]+(?:\.[0-9]+)?) *%|1 box per ([0-9]+))$`)

// ParseSpare reads what String prints: "4" planks, "3 %" of those laid, or "1 box per 50". "0" keeps none. The error is
// a *FieldError of the field "spare".
func ParseSpare(text string) (Spare, error) {
	var s Spare
	text = strings.TrimSpace(text)
	wrong := &FieldError{
		Field: "spare", Value: text, Rule: "spares are a number of planks, a percentage of those laid, or whole boxes",
		Mend: "write them as 4, 3 % or 1 box per 50",
	}
	m := spareText.FindStringSubmatch(text)
	if m == nil {
		return s, wrong
	}
	var err error // too large: the figure is then the largest there is, and refused below
	switch {
	case m[1] != "":
		s.Planks, err = strconv.Atoi(m[1])
	case m[2] != "":
		s.Percent, err = strconv.ParseFloat(m[2], 64)
	default:
		s.BoxPer, err = strconv.Atoi(m[3])
		if s.BoxPer == 0 {
			s.BoxPer = -1 // which says that it is set, and is no more allowed than 0
		}
	}
	if rule, hint := s.broken(); err != nil || rule != "" {
		wrong.Rule, wrong.Mend = rule, hint
		return Spare{}, wrong
	}
	return s, nil
}

// broken returns the rule that s breaks and how to mend it; "" when it breaks none.
func (s Spare) broken() (rule, hint string) {
	set := 0
	for _, is := range []bool{s.Planks != 0, s.Percent != 0, s.BoxPer != 0} {
		if is {
			set++
		}
	}
	switch {
	case set > 1:
		return "spares are a number of planks, a percentage of those laid, or whole boxes", "keep one of Planks, Percent " +
			"and BoxPer"
	case s.Planks < 0 || s.Planks > MaxSpare:
		return "spare planks are at least 0 and at most 1,000,000", ""
	case !(0 <= s.Percent && s.Percent <= MaxAllowance):
		return "spare planks are at least 0 % and at most 1000 % of those laid", ""
	case s.BoxPer < 0 || s.BoxPer > MaxSpare:
		return "one box is kept for each 1 to 1,000,000 boxes laid", "write 1 box per 50, or 0 to keep none"
	}
	return "", ""
}

// String prints what ParseSpare reads back: "4", "3 %", "1 box per 50"; "0" for none.
func (s Spare) String() string {
	var parts []string
	if s.Planks != 0 {
		parts = append(parts, strconv.Itoa(s.Planks))
	}
	if s.Percent != 0 {
		parts = append(parts, s.decimal()+" %")
	}
	if s.BoxPer != 0 {
		parts = append(parts, "1 box per "+strconv.Itoa(s.BoxPer))
	}
	if parts == nil {
		return "0"
	}
	return strings.Join(parts, " and ") // only one in a Spare that is in order
}

// decimal prints Percent with the fewest digits that read back.
func (s Spare) decimal() string { return strconv.FormatFloat(s.Percent, 'f', -1, 64) }

// share returns Percent as an exact part of one.
func (s Spare) share() *big.Rat {
	part, ok := new(big.Rat).SetString(s.decimal())
	if !ok {
		return new(big.Rat) // no number; Validate refuses it
	}
	return part.Quo(part, big.NewRat(100, 1))
}

// Kept returns how many planks are kept for repairs where so many are laid, with perBox planks, at least 1, in a box.
// All of them are whole, and with BoxPer they fill unopened boxes. Like Boxes and MostPlanks it expects a Spare that
// Validate accepts, takes a box of less than one plank for one of one, and takes the time of a few divisions.
func (s Spare) Kept(planks, perBox int) int {
	perBox = max(perBox, 1)
	switch {
	case s.Percent > 0:
		kept := s.share()
		kept.Mul(kept, new(big.Rat).SetInt64(int64(planks)))
		whole, rest := new(big.Int).DivMod(kept.Num(), kept.Denom(), new(big.Int))
		return int(whole.Int64()) + rest.Sign()
	case s.BoxPer > 0:
		return roundUp(roundUp(planks, perBox), s.BoxPer) * perBox
	}
	return s.Planks
}

// Boxes returns how many boxes hold so many planks to lay and those to keep for repairs. It never falls as planks grow.
func (s Spare) Boxes(planks, perBox int) int {
	return roundUp(planks+s.Kept(planks, perBox), max(perBox, 1))
}

// MostPlanks returns the most planks that can be laid from so many boxes, after those to keep for repairs: the largest
// n with Boxes(n, perBox) <= boxes. It is below 0 where the boxes do not even hold what is kept.
func (s Spare) MostPlanks(boxes, perBox int) int {
	perBox = max(perBox, 1)
	switch {
	case s.Percent > 0:
		// n + n share <= boxes perBox, as boxes perBox - n is whole.
		all := new(big.Rat).SetInt64(int64(boxes) * int64(perBox))
		all.Quo(all, new(big.Rat).Add(s.share(), big.NewRat(1, 1)))
		return int(new(big.Int).Div(all.Num(), all.Denom()).Int64())
	case s.BoxPer > 0:
		// b boxes and one for each BoxPer of them: b + b/BoxPer <= boxes, as boxes - b is whole. So b is boxes less one in
		// every BoxPer + 1, begun or full.
		return (boxes - roundUp(boxes, s.BoxPer+1)) * perBox
	}
	return boxes*perBox - s.Planks
}

// roundUp returns n/by rounded up, for n of 0 or more.
func roundUp(n, by int) int { return (n + by - 1) / by }
