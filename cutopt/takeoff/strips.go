package takeoff

import (
	"cmp"
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// A covering is underlay or film to be laid in strips.
type covering struct {
	field   string // of its rolls
	rolls   []cutopt.Roll
	run     cutopt.StripsRun
	overlap measure.Length
	turnUp  measure.Length
}

// underlay lies from wall to wall.
func (r *reckoner) underlay() error {
	u := &r.job.Materials.Underlay
	item := cutopt.Item{
		Kind: cutopt.ItemUnderlay, Name: u.Name, Area: r.plan.Waste.Net, Thickness: u.Thickness, Attached: u.Attached,
		Named: u.Name != "" || u.Attached || u.Thickness > 0 || len(u.Rolls) > 0,
	}
	err := r.cover(&item, &covering{
		field: "underlay.rolls", rolls: u.Rolls, run: u.Strips, overlap: u.Overlap,
	})
	if err == nil {
		r.list.Items = append(r.list.Items, item)
		if !u.SelfTaped {
			r.seams += seams(&item)
		}
	}
	return err
}

// film keeps damp out.
func (r *reckoner) film() error {
	f := &r.job.Materials.Film
	item := cutopt.Item{
		Kind: cutopt.ItemFilm, Name: f.Name, Area: r.plan.Waste.Net,
		Named: f.Name != "" || f.Lap > 0 || f.TurnUp > 0 || len(f.Rolls) > 0,
	}
	err := r.cover(&item, &covering{field: "film.rolls", rolls: f.Rolls, overlap: f.Lap, turnUp: f.TurnUp})
	if err == nil {
		r.add(item)
		r.seams += seams(&item)
	}
	return err
}

func seams(item *cutopt.Item) (sum measure.Length) {
	for i := range item.Strips {
		sum += item.Strips[i].Seams
	}
	return sum
}

const (
	allWays     = 3   // the most rooms of which every choice of directions is tried
	mixedRooms  = 20  // the most rooms that are turned by themselves
	mixedPieces = 500 // and the most pieces
)

// cover cuts the strips of all rooms from rolls of one width, each width and direction tried, and keeps what costs
// least; of equal costs what comes first: strips along the rows, the width named first.
func (r *reckoner) cover(item *cutopt.Item, c *covering) error {
	if len(c.rolls) == 0 {
		return nil
	}
	b := &bid{reckoner: r, covering: c, item: item}
	for _, width := range widths(c.rolls) {
		for _, along := range r.directions(c.run) {
			if err := b.try(width, along); err != nil {
				return err
			}
		}
	}
	if c.run == cutopt.StripsEither {
		if err := b.mix(); err != nil {
			return err
		}
	}
	for i := range item.Strips {
		item.Count += len(item.Strips[i].Lengths)
		for _, l := range item.Strips[i].Lengths {
			item.Length += l
		}
	}
	return nil
}

// A bid is the least that a covering was found to cost.
type bid struct {
	*reckoner
	*covering
	item  *cutopt.Item
	cost  cost
	width measure.Length
	along []bool
}

// try cuts the strips of one choice, and keeps it if it costs less.
func (b *bid) try(width measure.Length, along []bool) error {
	var sizes []size
	for _, roll := range b.rolls {
		if roll.Width == width {
			sizes = append(sizes, size{roll.Length, roll.Price, roll.OnHand})
		}
	}
	strips, pieces, err := b.strips(b.covering, width, longest(sizes), along)
	if err != nil {
		return err
	}
	cutting, err := b.cut(b.field, sizes, 0, pieces, cut.AimSticks)
	if err != nil {
		return err
	}
	cost := costOf(cutting, width)
	if b.item.Cutting != nil && !cost.less(b.cost) {
		return nil
	}
	b.cost, b.width, b.along = cost, width, along
	b.item.Strips, b.item.Cutting, b.item.Goods = strips, cutting, goods(cutting, cutopt.GoodsRoll, width)
	return nil
}

// A cost is the money, where there are prices, then the material that rolls hold, then how many they are.
type cost struct {
	money int64
	area  float64
	rolls int
}

func costOf(c *cutopt.Cutting, width measure.Length) cost {
	all := cost{rolls: c.Plan.Sticks}
	if c.Job.Priced() {
		all.money = c.Plan.Cost
	}
	for _, k := range c.Plan.Cuttings {
		if s := &c.Job.Sticks[k.Stick]; !s.OnHand {
			all.area += float64(float64(k.Count) * float64(s.Length) * float64(width))
		}
	}
	return all
}

func (c cost) less(d cost) bool {
	return cmp.Or(cmp.Compare(c.money, d.money), cmp.Compare(c.area, d.area), cmp.Compare(c.rolls, d.rolls)) < 0
}

// widths lists the different widths of rolls, in their order.
func widths(rolls []cutopt.Roll) []measure.Length {
	var list []measure.Length
	for _, roll := range rolls {
		if !slices.Contains(list, roll.Width) {
			list = append(list, roll.Width)
		}
	}
	return list
}

// directions lists the choices that are tried with every width: whether strips run along the rows, in all rooms alike.
func (r *reckoner) directions(run cutopt.StripsRun) [][]bool {
	n := len(r.job.Rooms)
	along, across := slices.Repeat([]bool{true}, n), slices.Repeat([]bool{false}, n)
	switch run {
	case cutopt.StripsAlong:
		return [][]bool{along}
	case cutopt.StripsAcross:
		return [][]bool{across}
	}
	return [][]bool{along, across}
}

// mix tries rooms that differ, with the best width: every choice of few rooms, and else each room turned by itself. It
// leaves rooms alike where they are many, or the pieces are.
func (b *bid) mix() error {
	n := len(b.job.Rooms)
	if n < 2 || n > mixedRooms || len(b.item.Cutting.Job.Pieces) > mixedPieces {
		return nil
	}
	if n > allWays {
		for i := range n {
			along := slices.Clone(b.along)
			along[i] = !along[i]
			if err := b.try(b.width, along); err != nil {
				return err
			}
		}
		return nil
	}
	for code := 1; code < 1<<n-1; code++ {
		along := make([]bool, n)
		for i := range along {
			along[i] = code>>i&1 == 0
		}
		if err := b.try(b.width, along); err != nil {
			return err
		}
	}
	return nil
}

// strips lays the strips of all rooms and returns the pieces they are.
func (r *reckoner) strips(c *covering, width, roll measure.Length, along []bool) ([]cutopt.Strips, []stock.Piece,
	error,
) {
	var list []cutopt.Strips
	var pieces []stock.Piece
	for i := range r.job.Rooms {
		s, err := r.inRoom(c, i, &r.axes[i], width, roll, along[i])
		if err == nil && len(pieces)+len(s.Lengths) > maxPieces {
			err = tooMany(c.field)
		}
		if err != nil {
			return nil, nil, err
		}
		for _, l := range s.Lengths {
			pieces = append(pieces, stock.Piece{Length: l, Count: 1})
		}
		list = append(list, s)
	}
	return list, pieces, nil
}

// maxSearched is the most corners that the strips of a room are held against.
const maxSearched = 50_000_000

// inRoom lays the strips of one room side by side over its extent, and those that doorways take beyond it: from the one
// side or from the other, whichever takes less of them.
func (r *reckoner) inRoom(c *covering, i int, axes *cutopt.Axes, width, roll measure.Length, along bool) (
	cutopt.Strips, error,
) {
	rings := r.floorOf(i, axes, along)
	low, high := extent(rings[0])
	plan := cutopt.Strips{Room: i + 1, Along: along, Extent: high - low + 2*c.turnUp, Width: width, Overlap: c.overlap}
	plan.Count = max(roundUp(plan.Extent-c.overlap, width-c.overlap), 1)
	for _, d := range r.job.Rooms[i].Doorways {
		if d.Through {
			plan.Seams += d.Width // where the strips of both rooms meet
		}
	}
	if plan.Count > maxPieces || plan.Count*(len(rings)*4+len(rings[0])) > maxSearched {
		return plan, tooMany(c.field)
	}
	here, err := r.layStrips(plan, c, rings, roll)
	if err != nil {
		return plan, err
	}
	for _, ring := range rings {
		for k := range ring {
			ring[k].Y = -ring[k].Y
		}
	}
	there, err := r.layStrips(plan, c, rings, roll)
	if err == nil && less(&there, &here) {
		return there, nil
	}
	return here, err
}

// less reports whether strips are shorter in all than others, or as long and fewer.
func less(a, b *cutopt.Strips) bool {
	sum := func(s *cutopt.Strips) (n measure.Length) {
		for _, l := range s.Lengths {
			n += l
		}
		return n
	}
	return cmp.Or(cmp.Compare(sum(a), sum(b)), cmp.Compare(len(a.Lengths), len(b.Lengths))) < 0
}

// layStrips lays the strips of a room whose first lies at the least y of its outline.
func (r *reckoner) layStrips(s cutopt.Strips, c *covering, rings [][]measure.Point, roll measure.Length) (
	cutopt.Strips, error,
) {
	low, high := extent(rings[0])
	low, high = low-c.turnUp, high+c.turnUp
	fits := true
	lay := func(found []interval) {
		for _, v := range found {
			pieces := split((v.to - v.from).Ceil(r.graduation()), roll, c.overlap, 0, r.graduation())
			if fits = fits && pieces != nil && len(s.Lengths)+len(pieces) <= maxPieces; !fits {
				return
			}
			s.Lengths = append(s.Lengths, pieces...)
			s.Seams += measure.Length(len(pieces)-1) * s.Width // end to end
		}
	}
	var before []interval
	for k := range s.Count {
		from := low + measure.Length(k)*(s.Width-s.Overlap)
		found := shadow(rings, from, min(from+s.Width, high), c.turnUp)
		lay(found)
		s.Seams += shared(before, found)
		before = found
	}
	for _, ring := range rings[1:] { // what reaches beyond the walls
		l, h := extent(ring)
		for _, beyond := range []interval{{l, min(h, low)}, {max(l, high), h}} {
			if beyond.to > beyond.from {
				found := shadow([][]measure.Point{ring}, beyond.from, beyond.to, 0)
				lay(found)
				for _, v := range found {
					s.Seams += v.to - v.from // to the strip beside it
				}
			}
		}
	}
	if !fits {
		return s, tooMany(c.field)
	}
	return s, nil
}
