// Package sample draws rooms to measure on: dwelling rooms, halls and offices, as rectangles, L, U, with alcoves,
// islands, angled walls and crooked walls.
//
// [Draw] turns a mix and a seed into a room. It depends on nothing else: the generator is PCG-DXSM (math/rand/v2, whose
// stream is fixed by its documentation), every draw is integer arithmetic of this package, and sizes are whole
// sixteenths of an inch. The same seed is the same room on every machine.
//
// # Where the sizes come from
//
// The sizes are our assumption: no public survey of single rooms, with their shapes, was found. Each side of the
// bounding rectangle is the mean of two uniform draws between a shortest and a longest side, so that middling rooms are
// common and both ends rare:
//
//	kind      share of dwelling   long side     short side
//	bedroom   35 %                9 to 17 ft    7 to 14 ft
//	living    25 %                12 to 24 ft   10 to 18 ft
//	kitchen   20 %                8 to 18 ft    7 to 14 ft
//	utility   10 %                5 to 10 ft    4 ft 6 in to 8 ft
//	passage   10 %                6 to 24 ft    3 ft to 4 ft 6 in
//
// The short sides of bedrooms, living rooms and kitchens start at 7 ft and those of passages at 3 ft, the least that
// the International Residential Code asks for (sections R304 and R311.6, from memory). A hall is 24 to 80 ft by 18 to
// 50 ft. Of the offices 60 % are rooms of 9 to 18 ft by 8 to 14 ft and 40 % open floors of 24 to 64 ft by 16 to 40 ft.
// The mix "mixed" is 80 % dwelling rooms, 15 % offices and 5 % halls. A house is five dwelling rooms that follow each
// other by seed.
//
// Shapes, where the room is large enough for them, else it is a rectangle: 50 % rectangles, 20 % L, 6 % U, 8 % with an
// alcove, 8 % with an island, 8 % with one or two corners cut at 45 degrees. In four rooms of ten the walls are
// crooked: each corner is moved by up to 1/2 in along either axis. Rooms are mirrored and turned by quarters at random.
// All of this is our assumption.
package sample

import (
	"fmt"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// A Mix is a population of rooms.
type Mix string

// The mixes.
const (
	MixDwelling Mix = "dwelling"
	MixOffice   Mix = "office"
	MixHall     Mix = "hall"
	MixMixed    Mix = "mixed"
	MixHouse    Mix = "house"    // five rooms of a dwelling that are laid together
	MixOutlines Mix = "outlines" // those of ReadOutlines: no room is drawn
)

var mixes = []Mix{MixDwelling, MixOffice, MixHall, MixMixed, MixHouse}

// ParseMix reads the name of a mix.
func ParseMix(s string) (Mix, error) {
	for _, m := range mixes {
		if string(m) == s {
			return m, nil
		}
	}
	return "", fmt.Errorf("sample: %q is no mix of rooms: one of %v", s, mixes)
}

// A Kind says what a room is used for.
type Kind string

// The kinds.
const (
	KindBedroom Kind = "bedroom"
	KindLiving  Kind = "living"
	KindKitchen Kind = "kitchen"
	KindUtility Kind = "utility"
	KindPassage Kind = "passage"
	KindOffice  Kind = "office"
	KindOpen    Kind = "open-floor"
	KindHall    Kind = "hall"
)

// A Shape is the outline of a room.
type Shape string

// The shapes.
const (
	ShapeRectangle Shape = "rectangle"
	ShapeL         Shape = "L"
	ShapeU         Shape = "U"
	ShapeAlcove    Shape = "alcove"
	ShapeIsland    Shape = "island"
	ShapeAngled    Shape = "angled"
	ShapeRooms     Shape = "rooms"   // of a house
	ShapeOutline   Shape = "outline" // as ReadOutlines found it
)

// A Room is a room that was drawn.
type Room struct {
	Mix     Mix
	Seed    uint64
	Kind    Kind
	Shape   Shape
	Crooked bool
	Plan    cutopt.Room
	Others  []cutopt.Room // rooms of a house beside the first
	Net     measure.Area  // floor area: outline less islands, of all rooms
}

// Draw makes the room, or the rooms of a house, of a seed.
func Draw(mix Mix, seed uint64) *Room {
	if mix == MixHouse {
		return house(seed)
	}
	d := newDraws(mix, seed)
	room := &Room{Mix: mix, Seed: seed, Kind: d.kind(mix)}
	s := sizes[room.Kind]
	w, h := d.side(s.long), d.side(s.short)
	w, h = max(w, h), min(w, h)
	room.Shape = d.shape(w, h)
	o := outline{corners: rectangle(0, 0, w, h)}
	switch room.Shape {
	case ShapeL:
		o.corners = d.lShape(w, h)
	case ShapeU:
		o.corners = d.uShape(w, h)
	case ShapeAlcove:
		o.corners = d.alcove(w, h)
	case ShapeIsland:
		o.island = d.island(w, h)
	case ShapeAngled:
		o.corners = d.angled(w, h)
	}
	if room.Crooked = d.below(10) < 4; room.Crooked {
		d.crook(o.corners)
	}
	d.turn(&o)
	room.Plan = cutopt.Room{Name: "Sample " + string(room.Kind), Outline: o.corners}
	room.Net = area(o.corners)
	if o.island != nil {
		room.Plan.Islands = []cutopt.Island{{Outline: o.island}}
		room.Net -= area(o.island)
	}
	return room
}

// Job is the job of laying one product in the room under the given rules.
func (r *Room) Job(p *Product, rules *cutopt.Rules) *cutopt.Job {
	return &cutopt.Job{
		Name: fmt.Sprintf("%s %d", r.Mix, r.Seed), Unit: measure.UnitInch, Plank: p.Plank, Box: p.Box, Rules: *rules,
		Rooms: append([]cutopt.Room{r.Plan}, r.Others...),
	}
}

// A Product is a plank and the box it comes in.
type Product struct {
	Name  string
	Plank cutopt.Plank
	Box   cutopt.Box
}

// boxArea is what a box holds, nearly: our assumption.
const boxArea = 20 * measure.SquareFoot

// ParseProduct reads a plank's length and width, "48x7" in inches or "1220mm x 180mm", and packs it in boxes of the
// number of planks that comes nearest to 20 sq ft (our assumption); "48x7:8" states the number.
func ParseProduct(s string) (*Product, error) {
	size, box, boxed := strings.Cut(s, ":")
	l, w, ok := strings.Cut(size, "x")
	if !ok {
		return nil, fmt.Errorf("sample: %q is no product: write length x width, such as 48x7", s)
	}
	length, err := measure.Parse(strings.TrimSpace(l), measure.UnitInch)
	if err != nil {
		return nil, fmt.Errorf("sample: length of product %q: %w", s, err)
	}
	width, err := measure.Parse(strings.TrimSpace(w), measure.UnitInch)
	if err != nil {
		return nil, fmt.Errorf("sample: width of product %q: %w", s, err)
	}
	if length <= 0 || width <= 0 || length > 10*measure.Metre || width > 10*measure.Metre {
		return nil, fmt.Errorf("sample: product %q: a plank is longer and wider than 0 and at most 10 m", s)
	}
	one := measure.Area(length) * measure.Area(width)
	planks := max(int((boxArea+one/2)/one), 1)
	if boxed {
		if _, err := fmt.Sscanf(box, "%d", &planks); err != nil || planks < 1 || planks > cutopt.MaxBoxPlanks ||
			fmt.Sprint(planks) != box {
			return nil, fmt.Errorf("sample: product %q: after the colon stands the number of planks in a box, at least 1", s)
		}
	}
	return &Product{Name: s, Plank: cutopt.Plank{Length: length, Width: width}, Box: cutopt.Box{Planks: planks}}, nil
}

// Products are the sizes measured by default. They are common sizes of click-lock planks: our assumption.
func Products() []*Product {
	var out []*Product
	for _, s := range []string{"36x6", "48x7", "60x9", "72x7", "1220mmx180mm"} {
		p, err := ParseProduct(s)
		if err != nil {
			panic(err)
		}
		out = append(out, p)
	}
	return out
}
