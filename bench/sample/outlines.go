package sample

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// KindOutline is the kind of a room that was not drawn here.
const KindOutline Kind = "outline"

// maxLine is the longest line of a file of outlines, in bytes.
const maxLine = 1 << 20

// ReadOutlines reads the rooms of all files *.jsonl in a folder, in the order of their names, one JSON object a line:
// outer, a closed ring of corners, and holes, closed rings too, in metres; other keys are passed over. Corners are
// rounded to the nearest tick and nothing is squared or smoothed. The seed of a room is its index.
func ReadOutlines(folder string) ([]*Room, error) {
	names, err := filepath.Glob(filepath.Join(folder, "*.jsonl"))
	if err != nil {
		return nil, err
	}
	var out []*Room
	for _, name := range names {
		if out, err = readOutlines(out, name); err != nil {
			return nil, fmt.Errorf("sample: %s: %w", name, err)
		}
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("sample: no outlines in %q: files *.jsonl are read", folder)
	}
	return out, nil
}

func readOutlines(out []*Room, name string) ([]*Room, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	lines.Buffer(nil, maxLine)
	for n := 1; lines.Scan(); n++ {
		var line struct {
			Outer [][2]float64
			Holes [][][2]float64
		}
		if err := json.Unmarshal(lines.Bytes(), &line); err != nil {
			return nil, fmt.Errorf("line %d: %w", n, err)
		}
		seed := uint64(len(out))
		room := &Room{Mix: MixOutlines, Seed: seed, Kind: KindOutline, Shape: ShapeOutline}
		room.Plan = cutopt.Room{Name: fmt.Sprintf("Outline %d", seed), Outline: ring(line.Outer)}
		room.Net = area(room.Plan.Outline)
		for _, hole := range line.Holes {
			island := cutopt.Island{Outline: ring(hole)}
			room.Plan.Islands = append(room.Plan.Islands, island)
			room.Net -= area(island.Outline)
		}
		out = append(out, room)
	}
	return out, lines.Err()
}

// ring turns a closed ring in metres into corners.
func ring(points [][2]float64) []cutopt.Point {
	if n := len(points) - 1; n > 0 && points[0] == points[n] {
		points = points[:n]
	}
	ticks := func(metres float64) measure.Length {
		return measure.Length(math.Round(metres * float64(measure.Metre)))
	}
	out := make([]cutopt.Point, len(points))
	for i, p := range points {
		out[i] = cutopt.Point{X: ticks(p[0]), Y: ticks(p[1])}
	}
	return out
}
