package jobfile

import (
	"go.yaml.in/yaml/v4"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

const (
	cornersHint = "write the corners as a list of [x, y]"
	sizeHint    = `write two lengths with x between: 14' 6" x 11' 2"`
)

func (d *decoder) rooms(n *yaml.Node, path string) {
	d.items(n, path, "write a - before each room", func(n *yaml.Node, path string) {
		room := cutopt.Room{}
		d.room(n, path, &room)
		d.file.Job.Rooms = append(d.file.Job.Rooms, room)
	})
}

func (d *decoder) room(n *yaml.Node, path string, room *cutopt.Room) {
	w := walk{tolerance: defaultMisclosure(d.file.Job.Unit)}
	walls, errs := false, d.count()
	seen := d.mapping(n, path,
		key{"name", "", d.string(&room.Name)},
		key{"size", "", func(n *yaml.Node, path string) {
			if width, depth, ok := d.size(n, path, "a room"); ok {
				room.Outline = rectangle(measure.Point{}, width, depth)
			}
		}},
		key{"walls", "", func(n *yaml.Node, path string) { walls = d.walls(n, path, &w) }},
		key{"diagonals", "", d.diagonals(&w)},
		key{"inward", "", d.inward(&w)},
		key{"clockwise", "", d.truth(&w.clockwise)},
		key{"misclosure", "", d.length(&w.tolerance)},
		key{"corners", "", d.corners(&room.Outline)},
		key{"gaps", "", d.gaps(room)},
		key{"islands", "", d.islands(room)},
		key{"pipes", "", d.pipes(room)},
		key{"doorways", "", d.doorways(room)},
		key{"breaks", "", d.breaks(room)},
		key{"rows", "", d.rows(room)},
	)
	defer func() { d.broken[path] = room.Outline == nil }()
	if seen == nil {
		return
	}
	switch {
	case !d.oneShape(n, path, seen):
	case walls && seen["diagonals"]:
		if d.count() == errs {
			room.Outline = d.triangulate(path, w)
		}
	case walls && d.walked(path+".walls", w):
		room.Outline = d.close(path+".walls", w)
	}
	d.endAtWalls(path, room, w.tolerance)
	for _, k := range []string{"size", "walls"} {
		if seen[k] {
			d.file.outlineIs(path+".corners", path+"."+k)
		}
	}
}

// oneShape reports keys of a room that say its shape twice or not at all, or belong to a shape that it does not have,
// and returns whether there are none.
func (d *decoder) oneShape(n *yaml.Node, path string, seen map[string]bool) bool {
	shapes := 0
	for _, k := range []string{"size", "walls", "corners"} {
		if seen[k] {
			shapes++
		}
	}
	at := func(key, msg, hint string) { d.failAt(d.file.places[path+"."+key], path+"."+key, msg, hint) }
	const such = `such as size: 14' 6" x 11' 2"`
	switch {
	case shapes == 0:
		d.fail(n, path, "a room needs one of size, walls, corners", such)
	case shapes > 1:
		d.fail(n, path, "a room has only one of size, walls, corners", such)
	case seen["misclosure"] && !seen["walls"]:
		at("misclosure", "only a room given by walls has a misclosure", "drop it")
	case seen["diagonals"] && !seen["walls"]:
		at("diagonals", "only a room given by walls has diagonals", "give its walls too")
	case (seen["inward"] || seen["clockwise"]) && !seen["diagonals"]:
		d.fail(n, path, "inward and clockwise are for a room given by walls and diagonals",
			"drop them, or measure diagonals")
	default:
		return true
	}
	return false
}

// rectangle returns the corners of a rectangle from its corner of least x and y.
func rectangle(at measure.Point, width, depth measure.Length) []measure.Point {
	far := measure.Point{X: at.X + width, Y: at.Y + depth}
	return []measure.Point{at, {X: far.X, Y: at.Y}, far, {X: at.X, Y: far.Y}}
}

// size reads two lengths of something with x, × or "by" between.
func (d *decoder) size(n *yaml.Node, path, of string) (width, depth measure.Length, ok bool) {
	n, s, ok := d.text(n, path, sizeHint)
	if !ok {
		return 0, 0, false
	}
	sides, err := measure.ParseSize(s, d.file.Job.Unit)
	switch {
	case err != nil:
		d.parseError(n, path, 0, err)
		return 0, 0, false
	case len(sides) > 2:
		d.fail(n, path, "a size is two lengths with x between them", sizeHint)
		return 0, 0, false
	}
	width, depth = sides[0], sides[1]
	if width <= 0 || depth <= 0 || width > cutopt.MaxLength || depth > cutopt.MaxLength {
		d.fail(n, path, of+" is larger than 0 and at most 1 km each way", "check its units")
		return 0, 0, false
	}
	return width, depth, true
}

// corners returns a reader of a list of points.
func (d *decoder) corners(into *[]measure.Point) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		var ring []measure.Point
		errs := d.count()
		d.items(n, path, cornersHint, func(n *yaml.Node, path string) {
			var p measure.Point
			d.point(&p)(n, path)
			ring = append(ring, p)
		})
		if d.count() == errs && len(ring) == 0 {
			d.fail(n, path, "an outline has at least three different corners", cornersHint)
		}
		if d.count() == errs {
			*into = ring
		}
	}
}

// point returns a reader of [x, y].
func (d *decoder) point(into *measure.Point) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		if n = d.visit(n, path); n == nil {
			return
		}
		if n.Kind != yaml.SequenceNode || len(n.Content) != 2 {
			d.fail(n, path, "a point is a list of two lengths", `write it as [3' 6", 2']`)
			return
		}
		d.coordinate(n.Content[0], path, &into.X)
		d.coordinate(n.Content[1], path, &into.Y)
	}
}

// coordinate reads a length that may be negative.
func (d *decoder) coordinate(n *yaml.Node, path string, into *measure.Length) {
	at := d.file.places[path]
	n, s, ok := d.text(n, path, lengthHint)
	d.file.places[path] = at // the place of a point is where its list begins
	if !ok {
		return
	}
	l, err := measure.ParseSigned(s, d.file.Job.Unit)
	if err != nil {
		d.parseError(n, path, 0, err)
		return
	}
	*into = l
}

// gaps returns a reader of a mapping from wall number to gap.
func (d *decoder) gaps(room *cutopt.Room) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		if n = d.visit(n, path); n == nil {
			return
		}
		if n.Kind != yaml.MappingNode {
			d.fail(n, path, "this should be a mapping from wall number to gap", "write it as {1: 1/2, 3: 0}")
			return
		}
		room.WallGaps = make(map[int]measure.Length)
		for i := 0; i+1 < len(n.Content); i += 2 {
			name := n.Content[i]
			wall, ok := whole(textOf(name))
			field := path + "[" + shorten(textOf(name)) + "]"
			if !ok {
				d.fail(name, path, "this is no wall number", "walls are numbered from 1")
				continue
			}
			if _, twice := room.WallGaps[wall-1]; twice {
				d.fail(name, path, "this wall is there twice", "keep one of them")
				continue
			}
			var gap measure.Length
			d.length(&gap)(n.Content[i+1], field)
			room.WallGaps[wall-1] = gap
		}
	}
}

// islands returns a reader of the islands of a room.
func (d *decoder) islands(room *cutopt.Room) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		d.items(n, path, "write a - before each island", func(n *yaml.Node, path string) {
			var island cutopt.Island
			kind := n.Kind
			if n.Kind == yaml.AliasNode {
				kind = n.Alias.Kind
			}
			if kind == yaml.SequenceNode {
				d.corners(&island.Outline)(n, path)
				d.file.outlineIs(path+".corners", path)
			} else {
				d.island(n, path, &island)
			}
			d.broken[path] = island.Outline == nil
			room.Islands = append(room.Islands, island)
		})
	}
}

func (d *decoder) island(n *yaml.Node, path string, island *cutopt.Island) {
	var at measure.Point
	var width, depth measure.Length
	sized := false
	seen := d.mapping(n, path,
		key{"name", "", d.string(&island.Name)},
		key{"corners", "", d.corners(&island.Outline)},
		key{"at", "", d.point(&at)},
		key{"size", "", func(n *yaml.Node, path string) { width, depth, sized = d.size(n, path, "an island") }},
		key{"gap", "", d.gap(&island.Gap)},
	)
	if seen == nil {
		return
	}
	if seen["corners"] == seen["size"] || seen["at"] != seen["size"] {
		d.fail(n, path, "an island has corners, or at and size",
			"write at: [x, y] and size: 3' x 2', or a list of corners")
		return
	}
	if sized {
		island.Outline = rectangle(at, width, depth)
		d.file.outlineIs(path+".corners", path) // either may be what is wrong
	}
}

// pipes returns a reader of the round things of a room.
func (d *decoder) pipes(room *cutopt.Room) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		d.items(n, path, "write a - before each pipe", func(n *yaml.Node, path string) {
			var pipe cutopt.Pipe
			d.mapping(n, path,
				key{"name", "", d.string(&pipe.Name)},
				key{"at", "measure to the middle of the pipe", d.point(&pipe.At)},
				key{"diameter", "measure across the pipe", d.length(&pipe.Diameter)},
				key{"gap", "", d.gap(&pipe.Gap)},
			)
			room.Pipes = append(room.Pipes, pipe)
		})
	}
}

// gap returns a reader of the gap round a fixed thing.
func (d *decoder) gap(into *measure.Length) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		d.length(into)(n, path)
		if *into == 0 {
			*into = cutopt.GapNone
		}
	}
}

// doorways returns a reader of the doorways of a room.
func (d *decoder) doorways(room *cutopt.Room) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		d.items(n, path, "write a - before each doorway", func(n *yaml.Node, path string) {
			var door cutopt.Doorway
			wall := 0
			d.mapping(n, path,
				key{"name", "", d.string(&door.Name)},
				key{"wall", "walls are numbered from 1", d.whole(&wall)},
				key{"at", "measure it from the corner where the wall begins", d.length(&door.At)},
				key{"width", "it is the clear width of the opening", d.length(&door.Width)},
				key{"depth", "it is how far the floor runs into the wall", d.length(&door.Depth)},
				key{"casing", "", d.constant(&door.Casing, "wood", "metal")},
				key{"to", "", d.string(&door.To)},
				key{"through", "", d.truth(&door.Through)},
				key{"break", "", d.truth(&door.Break)},
				key{"transition", "", d.constant(&door.Transition, "open", "level", "lower", "edge", "nosing")},
				key{"height", "", d.height(&door.Height)},
				key{"clearance", "", d.length(&door.Clearance)},
			)
			door.Wall = wall - 1
			room.Doorways = append(room.Doorways, door)
		})
	}
}

// breaks returns a reader of the breaks of a room.
func (d *decoder) breaks(room *cutopt.Room) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		d.items(n, path, "write a - before each break", func(n *yaml.Node, path string) {
			var b cutopt.Break
			wall := 0
			d.mapping(n, path,
				key{"name", "", d.string(&b.Name)},
				key{"wall", "walls are numbered from 1", d.whole(&wall)},
				key{"at", "measure it from the corner where the wall begins", d.length(&b.At)},
			)
			b.Wall = wall - 1
			room.Breaks = append(room.Breaks, b)
		})
	}
}

// rows returns a reader of the rows of a room: a direction, or a mapping.
func (d *decoder) rows(room *cutopt.Room) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		r := &room.Rows
		kind := n.Kind
		if n.Kind == yaml.AliasNode {
			kind = n.Alias.Kind
		}
		if kind != yaml.MappingNode {
			d.direction(r)(n, path)
			d.file.places[path+".direction"] = d.file.places[path]
			return
		}
		d.mapping(n, path,
			key{"direction", "", d.direction(r)},
			key{"start", "", d.start(r)},
			key{"from", "", d.constant(&r.LaidFrom, "left", "right")},
			key{"first", "", func(n *yaml.Node, path string) {
				n, s, ok := d.text(n, path, lengthHint+", or auto")
				if !ok {
					return
				}
				first, err := cutopt.ParseFirstRow(s, d.file.Job.Unit)
				if !d.refused(n, path, err) {
					r.FirstRow = first
				}
			}},
		)
	}
}

// start returns a reader of near, far or the number of a wall.
func (d *decoder) start(r *cutopt.RowRules) func(*yaml.Node, string) {
	side := d.constant(&r.Start, "near", "far")
	return func(n *yaml.Node, path string) {
		at := n
		if n.Kind == yaml.AliasNode {
			at = n.Alias
		}
		wall, ok := whole(textOf(at))
		if !ok {
			side(n, path)
			return
		}
		d.visit(n, path)
		if wall == 0 {
			d.fail(n, path, "walls are numbered from 1", "")
		}
		r.StartWall = wall
	}
}

// direction returns a reader of along, across, diagonal or an angle.
func (d *decoder) direction(r *cutopt.RowRules) func(*yaml.Node, string) {
	return func(n *yaml.Node, path string) {
		if n, s, ok := d.text(n, path, "write along, across, diagonal or an angle in degrees"); ok {
			d.refused(n, path, r.ParseDirection(s))
		}
	}
}
