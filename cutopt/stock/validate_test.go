package stock_test

import (
	"errors"
	"strings"
	"testing"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
)

func TestValidate(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*stock.Job)
		want   string // part of the error, "" for none
		large  bool
	}{
		{"as it is", func(*stock.Job) {}, "", false},
		{
			"a piece longer than every stick names both", func(j *stock.Job) { j.Pieces[1].Length = 101 },
			"pieces[2].length is 0.316 mm: no stick is so long: sticks[1], the longest, has 0.312 mm to cut from", false,
		},
		{"no sticks", func(j *stock.Job) { j.Sticks = nil }, "sticks is empty", false},
		{"no pieces", func(j *stock.Job) { j.Pieces = nil }, "pieces is empty", false},
		{"no count", func(j *stock.Job) { j.Pieces[0].Count = 0 }, "pieces[1].count is 0: a count is 1 or more", false},
		{"too many pieces", func(j *stock.Job) { j.Pieces[0].Count = stock.MaxPieces }, "pieces[2].count", true},
		{"all is lost at the ends", func(j *stock.Job) { j.Sticks[0].Waste = 51 }, "sticks[1].waste", false},
		{"a kerf below 0", func(j *stock.Job) { j.Kerf = -1 }, "kerf", false},
		{
			"longer than a kilometre", func(j *stock.Job) { j.Sticks[0].Length = stock.MaxLength + 1 }, "sticks[1].length",
			true,
		},
		{"a price on hand", func(j *stock.Job) { j.Sticks[1].Price = 1 }, "a stick on hand costs nothing", false},
		{"no number on hand", func(j *stock.Job) { j.Sticks[1].Supply = 0 }, "what is on hand has a number", false},
		{
			"one without a price", func(j *stock.Job) { j.Sticks = append(j.Sticks, stock.Stick{Length: 90}) },
			"sticks[3].price is 0: other sticks have a price", false,
		},
		{"a price below 0", func(j *stock.Job) { j.Sticks[0].Price = -1 }, "sticks[1].price", false},
		{"dear", func(j *stock.Job) { j.Sticks[0].Price = stock.MaxPrice + 1 }, "sticks[1].price", true},
		{
			"a mitre of a right angle", func(j *stock.Job) { j.Pieces[0].Ends[1].Mitre = 9000 }, "pieces[1].ends[2].mitre",
			false,
		},
		{"a unit that there is not", func(j *stock.Job) { j.Unit = 99 }, "unit", false},
		{"too many lengths", func(j *stock.Job) {
			j.Sticks[0].Length = 5000
			for i := range stock.MaxKinds {
				j.Pieces = append(j.Pieces, stock.Piece{Length: measure.Length(100 + i), Count: 1})
			}
		}, "pieces is 1002 lengths", true},
	} {
		job, _ := shelf()
		c.change(job)
		err := job.Validate()
		switch {
		case c.want == "" && err != nil:
			t.Errorf("%s: %v", c.name, err)
		case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		case errors.Is(err, stock.ErrTooLarge) != c.large:
			t.Errorf("%s: too large: %v", c.name, !c.large)
		}
		var field *stock.FieldError
		if err != nil && !errors.As(err, &field) {
			t.Errorf("%s: %v is no FieldError", c.name, err)
		}
	}
}

// TestHints: a job that is none is refused too, and an error tells how to mend it apart from its sentence.
func TestHints(t *testing.T) {
	var none *stock.Job
	if err := none.Validate(); err == nil || !strings.Contains(err.Error(), "job is nil") {
		t.Errorf("a nil job gives %v", err)
	}
	var field *stock.FieldError
	if err := new(stock.Job).Validate(); !errors.As(err, &field) || field.Hint() != "add a stick" {
		t.Errorf("a job without sticks gives %v", err)
	}
}
