package cutopt_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// wren returns a job that names every product.
func wren() *cutopt.Job {
	j := den()
	j.Plank.Thickness = inch / 4
	j.Rooms[0].Doorways = []cutopt.Doorway{{Name: "Garden", Wall: 0, At: 10 * inch, Width: 32 * inch, Height: inch / 8}}
	sticks := []cutopt.Stick{{Length: 96 * inch, Price: 990}, {Length: 40 * inch, OnHand: 2}}
	j.Materials = cutopt.Materials{
		Trim:        []cutopt.Trim{{Kind: cutopt.TrimBase, Thickness: inch / 2, Sticks: slices.Clone(sticks)}},
		Transitions: []cutopt.Profile{{Kind: cutopt.TransitionLower, Sticks: slices.Clone(sticks)}},
		Underlay: cutopt.Underlay{
			Thickness: inch / 16, Rolls: []cutopt.Roll{{Width: 48 * inch, Length: 300 * inch, Price: 3900}},
		},
		Film:       cutopt.Film{Lap: 8 * inch, Rolls: []cutopt.Roll{{Width: 120 * inch, Length: 600 * inch}}},
		Tape:       cutopt.Tape{Length: 2160 * inch, Price: 850},
		Spacers:    cutopt.Spacers{Pack: 40, Price: 590},
		Appliances: []cutopt.Appliance{{Name: "Dishwasher", Opening: 34 * inch, Height: 33 * inch}},
	}
	return j
}

func TestValidateMaterials(t *testing.T) {
	type job = *cutopt.Job
	for _, c := range []struct {
		name   string
		change func(job)
		want   []string
	}{
		{"as it is", func(job) {}, nil},
		{"no kind of trim", func(j job) { j.Materials.Trim[0].Kind = 7 }, []string{"trim[1].kind"}},
		{"no thickness", func(j job) { j.Materials.Trim[0].Thickness = 0 }, []string{"trim[1].thickness"}},
		{"a casing below 0", func(j job) { j.Materials.Trim[0].Casing = -1 }, []string{"trim[1].casing"}},
		{
			"a stick that two mitres use up", func(j job) { j.Materials.Trim[0].Sticks[0].Length = inch },
			[]string{"trim[1].sticks[1].length"},
		},
		{
			"a stick of no length", func(j job) { j.Materials.Trim[0].Sticks[0].Length = 0 },
			[]string{"trim[1].sticks[1].length"},
		},
		{
			"a price of what lies on hand", func(j job) { j.Materials.Trim[0].Sticks[1].Price = 1 },
			[]string{"trim[1].sticks[2].price"},
		},
		{
			"one stick without a price", func(j job) { j.Materials.Trim[0].Sticks[1].OnHand = 0 },
			[]string{"trim[1].sticks[2].price"},
		},
		{
			"too dear", func(j job) { j.Materials.Trim[0].Sticks[0].Price = cutopt.MaxPrice + 1 },
			[]string{"trim[1].sticks[1].price"},
		},
		{
			"on hand below 0", func(j job) { j.Materials.Trim[0].Sticks[0].OnHand = -1 },
			[]string{"trim[1].sticks[1].on-hand"},
		},
		{
			"too many sizes", func(j job) { j.Materials.Trim[0].Sticks = make([]cutopt.Stick, 101) },
			append(slices.Repeat([]string{"trim[1].sticks[].length"}, 100), "trim[1].sticks"),
		},
		{
			"a profile for nothing", func(j job) { j.Materials.Transitions[0].Kind = cutopt.TransitionOpen },
			[]string{"transitions[1].kind"},
		},
		{"two profiles for one", func(j job) {
			j.Materials.Transitions = append(j.Materials.Transitions, cutopt.Profile{Kind: cutopt.TransitionLower})
		}, []string{"transitions[2].kind"}},
		{
			"an opening wider than any stick", func(j job) { j.Rooms[0].Doorways[0].Width = 97 * inch / 2 * 2 },
			[]string{"rooms[1].doorways[1]", "transitions[1].sticks"},
		},
		{"attached, and rolls", func(j job) { j.Materials.Underlay.Attached = true }, []string{"underlay.rolls"}},
		{
			"strips that overlap altogether", func(j job) { j.Materials.Underlay.Overlap = 48 * inch },
			[]string{"underlay.rolls[1].width"},
		},
		{"strips of no kind", func(j job) { j.Materials.Underlay.Strips = 9 }, []string{"underlay.strips"}},
		{"a roll of no length", func(j job) { j.Materials.Film.Rolls[0].Length = 0 }, []string{"film.rolls[1].length"}},
		{
			"a lap as wide as the film", func(j job) { j.Materials.Film.Lap = 120 * inch },
			[]string{"film.rolls[1].width"},
		},
		{"turned up below 0", func(j job) { j.Materials.Film.TurnUp = -1 }, []string{"film.turn-up"}},
		{"a price of tape that is not counted", func(j job) { j.Materials.Tape.Length = 0 }, []string{"tape.price"}},
		{
			"a price of spacers that are not counted", func(j job) { j.Materials.Spacers.Pack = 0 },
			[]string{"spacers.price"},
		},
		{
			"spacers too far apart", func(j job) { j.Materials.Spacers.Every = cutopt.MaxLength + 1 },
			[]string{"spacers.every"},
		},
		{
			"an appliance of no height", func(j job) { j.Materials.Appliances[0].Height = 0 },
			[]string{"appliances[1].height"},
		},
		{
			"an appliance higher than its opening", func(j job) { j.Materials.Appliances[0].Height = 35 * inch },
			[]string{"appliances[1].height"},
		},
		{
			"a name with a line break", func(j job) { j.Materials.Appliances[0].Name = "a\nb" },
			[]string{"appliances[1].name"},
		},
		{
			"no transition", func(j job) { j.Rooms[0].Doorways[0].Transition = 9 },
			[]string{"rooms[1].doorways[1].transition"},
		},
		{
			"a height below 0", func(j job) { j.Rooms[0].Doorways[0].Height = -1 },
			[]string{"rooms[1].doorways[1].height"},
		},
		{
			"a clearance below 0", func(j job) { j.Rooms[0].Doorways[0].Clearance = -1 },
			[]string{"rooms[1].doorways[1].clearance"},
		},
		{"too many trims", func(j job) { j.Materials.Trim = make([]cutopt.Trim, 101) }, []string{"trim"}},
	} {
		j := wren()
		c.change(j)
		got := fields(t, j)
		for i, f := range got {
			if len(got) > 50 && f != "trim[1].sticks" { // a hundred of them
				got[i] = "trim[1].sticks[].length"
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: errors in %q, want %q", c.name, got, c.want)
		}
	}
}

// A stick shorter than a piece: the error names both.
func TestProfileTooShort(t *testing.T) {
	j := wren()
	j.Materials.Transitions[0].Sticks = []cutopt.Stick{{Length: 30 * inch}}
	err := fmt.Sprint(j.Validate())
	for _, want := range []string{
		"transitions[1].sticks", "30 in", `doorway "Garden"`, "32 in",
		"add a stick at least as long",
	} {
		if !strings.Contains(err, want) {
			t.Errorf("%q does not name %q", err, want)
		}
	}
}

// The floor rises by 1/4 in of plank and 1/16 in of underlay; 1/8 in more or less is level.
func TestDoorTransitions(t *testing.T) {
	rise := inch/4 + inch/16
	for _, c := range []struct {
		door cutopt.Doorway
		want cutopt.Transition
		why  string
	}{
		{cutopt.Doorway{}, cutopt.TransitionOpen, "nothing is known"},
		{cutopt.Doorway{To: "Garden"}, cutopt.TransitionOpen, "the garden is no room of the job"},
		{cutopt.Doorway{To: "Den"}, cutopt.TransitionLevel, "the same planks lie there"},
		{cutopt.Doorway{To: "Den", Through: true}, cutopt.TransitionOpen, "there is none"},
		{cutopt.Doorway{Height: rise}, cutopt.TransitionLevel, "equal"},
		{cutopt.Doorway{Height: rise + inch/8}, cutopt.TransitionLevel, "1/8 in higher"},
		{cutopt.Doorway{Height: rise + inch/8 + 1}, cutopt.TransitionEdge, "higher"},
		{cutopt.Doorway{Height: rise - inch/8}, cutopt.TransitionLevel, "1/8 in lower"},
		{cutopt.Doorway{Height: rise - inch/8 - 1}, cutopt.TransitionLower, "lower"},
		{cutopt.Doorway{Height: rise, Transition: cutopt.TransitionNosing}, cutopt.TransitionNosing, "as asked"},
	} {
		j := wren()
		j.Rooms[0].Doorways = []cutopt.Doorway{c.door}
		if got := j.DoorTransitions()[0][0]; got != c.want {
			t.Errorf("%s: %v, want %v", c.why, got, c.want)
		}
	}
	j := wren()
	if got := j.Rise(); got != rise {
		t.Errorf("the floor rises by %d, want %d", got, rise)
	}
	if j.Materials.Underlay.Attached = true; j.Rise() != inch/4 {
		t.Errorf("with attached underlay the floor rises by %d, want %d", j.Rise(), inch/4)
	}
	if j.Plank.Thickness = 0; j.Rise() != 0 {
		t.Error("the rise is known without the plank's thickness")
	}
	if got := j.Spacing(); got != 24*inch {
		t.Errorf("spacers every %d, want 24 in", got)
	}
	if j.Unit = measure.UnitMillimetre; j.Spacing() != 600*measure.Millimetre {
		t.Error("spacers of metric jobs are not 600 mm apart")
	}
}
