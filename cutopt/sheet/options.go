package sheet

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/enum"
	"plank.example/cutopt/sheet/internal/draw"
	"plank.example/cutopt/words"
)

// Options steer what is written. The zero value and nil are ready to use. Options are only read, so one value may be
// used by several goroutines.
type Options struct {
	Paper    Paper             // size of printed pages; default by the job's unit: Letter for inches and feet, else A4
	Theme    *Theme            // colours; default LightTheme
	Language string            // language of all words: "en" (default) or "de"; one of words.Languages
	Words    map[string]string // replaces single words of the language, by the keys of words.Vocabulary
	// number of the only floor to draw, from 1; default 0 for all. The job sheet and the lists are always whole
	Floor   int
	DPI     float64 // dots per inch of PNG files, 10 to 1200; default 144. At most 40 million dots are painted
	Columns int     // width of Text in characters, 20 or more; default 80
	ASCII   bool    // Text keeps to ASCII characters
	// Verdict, if not nil, is what package risk says of numbers of boxes: the job sheet prints it with the order, and
	// which to buy.
	Verdict *cutopt.Verdict
	// Takeoff, if not nil, is what package takeoff lists of everything to order: the job sheet and the pocket sheet
	// print it.
	Takeoff *cutopt.Takeoff
	// Happened, if not nil, lets the job sheet copy its ticks as lines that plan on.
	Happened *Happened
}

// A Paper is a size of sheet.
type Paper uint8

// The papers. PaperAuto is Letter for jobs in inches and feet and A4 for metric ones.
const (
	PaperAuto   Paper = iota // "auto"
	PaperA4                  // "a4": 210 x 297 mm
	PaperLetter              // "letter": 8 1/2 x 11 in
)

var paperNames = []string{"auto", "a4", "letter"}

// String returns "auto", "a4" or "letter".
func (p Paper) String() string { return enum.String("Paper", paperNames, int(p)) }

// MarshalText returns what String does; it fails for a value that is none of the constants.
func (p Paper) MarshalText() ([]byte, error) { return enum.MarshalText("Paper", paperNames, int(p)) }

// UnmarshalText reads what MarshalText writes.
func (p *Paper) UnmarshalText(text []byte) error {
	return enum.UnmarshalText("Paper", paperNames, text, p)
}

// size returns the paper's width and height in points, upright.
func (p Paper) size() (w, h float64) {
	if p == PaperA4 {
		return 595.28, 841.89
	}
	return 612, 792
}

// A Colour is 0xRRGGBB.
type Colour uint32

// A Theme is the colours of the pictures. No theme leans on colour alone: hatching and letters say the same.
type Theme struct {
	Paper   Colour // behind everything
	Ink     Colour // lines and text
	Soft    Colour // lesser lines and text
	Whole   Colour // whole planks
	Starter Colour
	Ender   Colour
	Only    Colour // pieces that fill their run alone
	Lies    Colour // pieces that lie already, of a job that is begun; not hatched
	Hatch   Colour
	Fixed   Colour // islands and other fixed things
	Accent  Colour // the starting wall and the laying direction
}

// LightTheme returns the default colours: blue and sand tints that stay apart for colour-blind eyes, on white.
func LightTheme() *Theme {
	return &Theme{
		Paper: 0xffffff, Ink: 0x1d2226, Soft: 0x5b6369, Whole: 0xfbfaf7, Starter: 0xbfd8ec, Ender: 0xfbe9c9,
		Only: 0xe3dbe9, Lies: 0xdcdfe1,
		Hatch: 0x7b858d, Fixed: 0xc3c8cc, Accent: 0x0b4f7d,
	}
}

// GreyTheme returns greys only, for printers without colour.
func GreyTheme() *Theme {
	return &Theme{
		Paper: 0xffffff, Ink: 0x000000, Soft: 0x505050, Whole: 0xffffff, Starter: 0xdedede, Ender: 0xf4f4f4,
		Only: 0xcacaca, Lies: 0xd4d4d4,
		Hatch: 0x808080, Fixed: 0xbdbdbd, Accent: 0x000000,
	}
}

// A look is a theme in the drawing model's colours.
type look struct {
	paper, ink, soft, whole, starter, ender, only, lies, hatch, fixed, accent draw.Colour
}

func (t *Theme) look() look {
	c := func(v Colour) draw.Colour { return draw.Colour(v & 0xffffff) }
	return look{
		c(t.Paper), c(t.Ink), c(t.Soft), c(t.Whole), c(t.Starter), c(t.Ender), c(t.Only), c(t.Lies), c(t.Hatch),
		c(t.Fixed), c(t.Accent),
	}
}

// resolve fills in the defaults and reports every value outside its range.
func (o *Options) resolve(job *cutopt.Job, plan *cutopt.Plan) (Options, error) {
	if job == nil || plan == nil {
		return Options{}, errors.New("sheet: the job or the plan is nil: give both, the plan made from the job")
	}
	var r Options
	if o != nil {
		r = *o
	}
	var errs []error
	bad := func(field string, value any, rule string) {
		errs = append(errs, fmt.Errorf("sheet: Options.%s is %v: %s", field, value, rule))
	}
	if r.Paper == PaperAuto {
		r.Paper = PaperLetter
		if job.Unit.Metric() {
			r.Paper = PaperA4
		}
	}
	if r.Paper > PaperLetter {
		bad("Paper", r.Paper, "one of PaperAuto, PaperA4, PaperLetter")
	}
	if r.Theme == nil {
		r.Theme = LightTheme()
	}
	if r.Language == "" {
		r.Language = "en"
	}
	if !slices.Contains(words.Languages(), r.Language) {
		bad("Language", fmt.Sprintf("%q", r.Language), "one of "+strings.Join(words.Languages(), ", "))
	}
	for _, key := range slices.Sorted(maps.Keys(r.Words)) {
		if !words.Has(key) {
			bad("Words", fmt.Sprintf("keyed by %q", key), "a key of words.Vocabulary")
		}
	}
	if r.Floor < 0 || r.Floor > len(plan.Floors) {
		bad("Room", r.Floor, fmt.Sprintf("0 for all, or 1 to %d", len(plan.Floors)))
	}
	if r.DPI == 0 {
		r.DPI = 144
	}
	if !(r.DPI >= 10 && r.DPI <= 1200) {
		bad("DPI", r.DPI, "10 to 1200")
	}
	if r.Columns == 0 {
		r.Columns = 80
	}
	if r.Columns < 20 {
		bad("Columns", r.Columns, "20 or more")
	}
	return r, errors.Join(errs...)
}
