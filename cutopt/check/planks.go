package check

import (
	"slices"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// planks checks that pieces and planks belong to each other, and cuts up every plank again.
func (c *checker) planks() {
	listed := c.listed()
	for i := range c.plan.Planks {
		if c.over() {
			return
		}
		use := &c.plan.Planks[i]
		at := Violation{Plank: i + 1}
		if use.Number != i+1 {
			at.Rule = RuleNumber
			c.report(at, "plank-number", "got", use.Number, "want", i+1)
		}
		var pieces []*cutopt.Piece
		toFit := measure.Length(0)
		for _, ref := range use.Pieces {
			if p := c.piece(at, ref, listed); p != nil {
				pieces = append(pieces, p)
				if c.laidLast(ref) && !c.forcedEnder(use, ref) {
					toFit++
				}
			}
		}
		if len(use.Pieces) == 0 && !use.Opened {
			at.Rule = RuleNumber
			c.report(at, "plank-unused")
		}
		plank := &plankChecker{checker: c, at: at, use: use, pieces: pieces, toFit: toFit}
		if len(pieces) < len(use.Pieces) || !plank.marked() || (len(pieces) > 0 || use.Opened) && !plank.run() {
			c.uncut = true
		}
	}
	c.unlisted(listed)
}

// laidLast reports whether a piece is the last of its run to be laid, which is cut to fit.
func (c *checker) laidLast(ref cutopt.PieceRef) bool {
	floor := &c.plan.Floors[ref.Floor]
	if floor.LaidFrom == cutopt.HandRight {
		return ref.Piece == 0
	}
	return ref.Piece == len(floor.Rows[ref.Row].Runs[ref.Run].Pieces)-1
}

// forcedEnder reports whether a piece has a plank to itself and ends a run in hand: that leaves no choice of its
// length, and none of the plank.
func (c *checker) forcedEnder(use *cutopt.PlankUse, ref cutopt.PieceRef) bool {
	return len(use.Pieces) == 1 && begun(&c.plan.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run])
}

// listed returns a mark for every piece of the plan.
func (c *checker) listed() [][][][]bool {
	rooms := make([][][][]bool, len(c.plan.Floors))
	for i := range rooms {
		rooms[i] = make([][][]bool, len(c.plan.Floors[i].Rows))
		for j := range rooms[i] {
			runs := c.plan.Floors[i].Rows[j].Runs
			rooms[i][j] = make([][]bool, len(runs))
			for k := range runs {
				rooms[i][j][k] = make([]bool, len(runs[k].Pieces))
			}
		}
	}
	return rooms
}

// piece returns the piece that a plank names and marks it, or reports why it cannot be the plank's.
func (c *checker) piece(at Violation, ref cutopt.PieceRef, listed [][][][]bool) *cutopt.Piece {
	at.Rule, at.Floor, at.Row, at.Run, at.Piece = RuleNumber, ref.Floor+1, ref.Row+1, ref.Run+1, ref.Piece+1
	within := func(i, n int) bool { return 0 <= i && i < n }
	if !within(ref.Floor, len(listed)) || !within(ref.Row, len(listed[ref.Floor])) ||
		!within(ref.Run, len(listed[ref.Floor][ref.Row])) ||
		!within(ref.Piece, len(listed[ref.Floor][ref.Row][ref.Run])) {
		at.Floor, at.Row, at.Run, at.Piece = 0, 0, 0, 0
		c.report(at, "piece-nowhere", "floor", ref.Floor+1, "row", ref.Row+1, "run", ref.Run+1, "piece", ref.Piece+1)
		return nil
	}
	at.Name = c.plan.Floors[ref.Floor].Name
	mark := &listed[ref.Floor][ref.Row][ref.Run][ref.Piece]
	p := &c.plan.Floors[ref.Floor].Rows[ref.Row].Runs[ref.Run].Pieces[ref.Piece]
	switch {
	case *mark:
		c.report(at, "piece-again")
	case p.Plank != at.Plank:
		c.report(at, "piece-of-other", "plank", p.Plank)
	default:
		*mark = true
		return p
	}
	*mark = true
	return nil
}

// unlisted reports the pieces that no plank lists.
func (c *checker) unlisted(listed [][][][]bool) {
	for i, rows := range listed {
		for j, runs := range rows {
			for k, pieces := range runs {
				for m, ok := range pieces {
					if !ok {
						p := &c.plan.Floors[i].Rows[j].Runs[k].Pieces[m]
						c.report(Violation{
							Rule: RuleNumber, Floor: i + 1, Name: c.plan.Floors[i].Name, Row: j + 1, Run: k + 1,
							Piece: m + 1,
						}, "piece-unlisted", "plank", p.Plank)
					}
				}
			}
		}
	}
}

// A plankChecker cuts one plank up again.
type plankChecker struct {
	*checker
	at     Violation
	use    *cutopt.PlankUse
	pieces []*cutopt.Piece // from the left end
	toFit  measure.Length  // how many of them are cut to fit

	stretch measure.Length // where the part of the plank that is being filled ends: what is gone begins there, or it ends

	pos    measure.Length // what is cut so far, with the kerf after it
	piece  int            // the next piece
	left   int            // the next offcut
	cuts   []measure.Length
	longer measure.Length      // what its starter is longer than planned, as no cut is sawn
	spans  [][2]measure.Length // by piece, what it takes of the plank, from and to
}

func (c *plankChecker) report(rule Rule, kind string, figures ...any) {
	v := c.at
	v.Rule = rule
	c.checker.report(v, kind, figures...)
}

// run places pieces and offcuts from the plank's left end to its right, around what is gone, with a kerf after each
// that does not end at the right end of its stretch, and compares cuts and offcuts with those of the plan. It returns
// false where they do not fill the plank.
func (c *plankChecker) run() bool {
	long, kerf := c.job.Plank.Length, c.job.Rules.Kerf
	var sum, gone measure.Length
	for _, p := range c.pieces {
		if p.To <= p.From || p.To-p.From > long {
			return false // reported as the length of the piece
		}
		sum += p.To - p.From
	}
	for _, part := range c.use.Gone {
		gone += part.To - part.From
	}
	c.used += sum
	need, fit := sum+gone, c.job.Rules.Fit
	if len(c.use.Gone) == 0 {
		need += kerf * measure.Length(max(0, len(c.pieces)-1))
	}
	if need > long {
		c.report(RuleFit, "plank-short", "n", len(c.pieces), "length", need, "most", long)
		return false
	}
	planned := slices.ContainsFunc(c.pieces, func(p *cutopt.Piece) bool { return !p.Lies }) // what lies was cut so before
	if slack := fit * c.toFit; planned && len(c.use.Gone) == 0 && need > long-slack {
		c.report(RuleFit, "plank-short-with-fit", "n", len(c.pieces), "length", need, "last", int(c.toFit), "fit", fit,
			"most", long-slack)
	}
	if len(c.pieces) > 0 && len(c.use.Gone) == 0 {
		c.loose()
	}
	if !c.handed() || !c.around() {
		return false
	}
	c.spent += c.longer
	sum += c.longer
	for _, o := range c.use.Left {
		c.spent += o.To - o.From
		sum += o.To - o.From
	}
	c.sawn += long - gone - sum
	if c.use.Brought {
		c.brought += long - gone
	} else {
		c.lost += gone
	}
	c.compareCuts()
	return true
}

// around places what there is of the plank between the parts that are gone, stretch by stretch.
func (c *plankChecker) around() bool {
	long := c.job.Plank.Length
	for _, part := range c.use.Gone {
		if c.stretch = part.From; !c.place() {
			return false
		}
		c.pos = part.To
	}
	if c.stretch = long; !c.place() {
		return false
	}
	switch {
	case c.left < len(c.use.Left):
		o := c.use.Left[c.left]
		c.report(RuleLeftovers, "offcut-astray", "from", o.From, "to", o.To)
	case c.piece < len(c.pieces):
		c.report(RuleLeftovers, "plank-full")
	default:
		return true
	}
	return false
}

// handed checks that only the first piece has the plank's left end and only the last its right end.
func (c *plankChecker) handed() bool {
	ok := true
	for i, p := range c.pieces {
		if p.Ends&cutopt.EndsLeft != 0 && i > 0 {
			c.report(RuleEnds, "left-end-again", "n", i+1)
			ok = false
		}
		if p.Ends&cutopt.EndsRight != 0 && i < len(c.pieces)-1 {
			c.report(RuleEnds, "right-end-early", "n", i+1, "of", len(c.pieces))
			ok = false
		}
	}
	return ok
}

// place puts pieces and offcuts one after the other into a stretch of the plank, and reports the first thing that does
// not fit together.
func (c *plankChecker) place() bool {
	long, kerf := c.job.Plank.Length, c.job.Rules.Kerf
	from, first := c.pos, c.piece
	for c.pos < c.stretch {
		var end measure.Length
		switch {
		case c.left < len(c.use.Left) && c.use.Left[c.left].From == c.pos:
			o := c.use.Left[c.left]
			c.left++
			if !c.offcut(o) {
				return false
			}
			end = o.To
		case c.piece < len(c.pieces):
			p := c.pieces[c.piece]
			c.piece++
			pos := c.pos
			start, ok := c.start(p)
			if !ok {
				return false
			}
			end = start + p.To - p.From
			if p.AsItComes == 0 {
				pos = start
			}
			if p.AsItComes > 0 && p.Ends == cutopt.EndsLeft && c.piece < len(c.pieces) {
				// It reaches to where the next piece is sawn off, from the right end.
				next := c.pieces[c.piece]
				c.comes(long - (next.To - next.From) - kerf - end)
				end += c.longer
			}
			c.spans = append(c.spans, [2]measure.Length{pos, end})
		default:
			c.report(RuleLeftovers, "offcut-untold", "from", c.pos, "to", c.stretch)
			return false
		}
		if end > c.stretch {
			c.report(RuleLeftovers, "plank-full")
			return false
		}
		if end == c.stretch {
			c.pos = end
			break
		}
		c.cuts = append(c.cuts, end)
		c.pos = min(end+kerf, c.stretch)
	}
	if len(c.use.Gone) > 0 {
		c.fits(from, c.pieces[first:c.piece], c.use.Pieces[first:c.piece])
	}
	return true
}

// fits holds the pieces of one stretch against its length: those cut to fit may have to be so much longer. What lies
// already was cut so before.
func (c *plankChecker) fits(from measure.Length, pieces []*cutopt.Piece, refs []cutopt.PieceRef) {
	fit := c.job.Rules.Fit
	need, toFit, planned := measure.Length(0), measure.Length(0), false
	for i, p := range pieces {
		need += p.To - p.From
		if i > 0 {
			need += c.job.Rules.Kerf
		}
		if c.laidLast(refs[i]) && !c.forcedEnder(c.use, refs[i]) {
			toFit++
		}
		planned = planned || !p.Lies
	}
	if most := c.stretch - from - fit*toFit; planned && need > most {
		c.report(RuleFit, "plank-short-with-fit", "n", len(pieces), "length", need, "last", int(toFit), "fit", fit,
			"most", most)
	}
}

// offcut checks one offcut by itself.
func (c *plankChecker) offcut(o cutopt.Leftover) bool {
	long := c.job.Plank.Length
	if o.To <= o.From || o.To > long {
		c.report(RuleLeftovers, "offcut-beyond", "from", o.From, "to", o.To)
		return false
	}
	ends := cutopt.EndsNone
	if o.From == 0 {
		ends |= cutopt.EndsLeft
	}
	if o.To == long {
		ends |= cutopt.EndsRight
	}
	if o.Ends != ends {
		c.report(RuleLeftovers, "offcut-ends", "from", o.From, "to", o.To, "got", o.Ends, "want", ends)
		return false
	}
	return true
}

// start returns where on the plank a piece begins: where the kerf before it ends, or so that it ends with the plank
// when it keeps the right end. Then sawdust of up to a kerf may lie before it.
func (c *plankChecker) start(p *cutopt.Piece) (measure.Length, bool) {
	long, kerf := c.job.Plank.Length, c.job.Rules.Kerf
	length := p.To - p.From
	begin := c.pos
	if p.Ends&cutopt.EndsRight != 0 {
		begin = long - length
	}
	switch dust := begin - c.pos; {
	case dust < 0:
		c.report(RuleLeftovers, "plank-full")
		return 0, false
	case p.AsItComes > 0:
		c.comes(dust)
	case dust > kerf:
		c.report(RuleLeftovers, "offcut-untold", "from", c.pos, "to", begin-kerf)
		return 0, false
	case dust > 0:
		c.cuts = append(c.cuts, begin-kerf)
	}
	if atLeft := begin == 0; atLeft != (p.Ends&cutopt.EndsLeft != 0) {
		c.report(RuleEnds, "left-end-other", "n", c.piece, "at", begin, "ends", p.Ends)
		return 0, false
	}
	if p.Ends&cutopt.EndsRight == 0 && begin+length == long {
		c.report(RuleEnds, "right-end-other", "n", c.piece, "ends", p.Ends)
		return 0, false
	}
	return begin, true
}

// comes notes how much longer than planned the starter is that is laid as it comes.
func (c *plankChecker) comes(longer measure.Length) { c.longer = max(0, longer) }

// compareCuts holds the plank's cuts, in whatever order they are sawn, against those that its pieces need.
func (c *plankChecker) compareCuts() {
	got := make([]measure.Length, len(c.use.Cuts))
	for i, cut := range c.use.Cuts {
		got[i] = cut.At
	}
	slices.Sort(got)
	slices.Sort(c.cuts)
	if !slices.Equal(got, c.cuts) {
		c.report(RuleCuts, "cuts-other", "got", got, "want", c.cuts)
	}
}
