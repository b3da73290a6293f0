package planfile_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"plank.example/cutopt"
	"plank.example/cutopt/internal/oracle"
	"plank.example/cutopt/measure"
	"plank.example/cutopt/planfile"
)

// hallPlan has so many rows of twenty pieces, every tenth of which is shaped, and about ten kilobytes of file a row.
func hallPlan(rows int) *cutopt.Plan {
	const mm = measure.Millimetre
	p := fullPlan()
	p.Unit = measure.UnitMillimetre
	floor := &p.Floors[0]
	floor.Rows, p.Planks = nil, nil
	for r := range rows {
		row := cutopt.PlanRow{From: measure.Length(r) * 180 * mm, Width: 180 * mm}
		row.To = row.From + row.Width
		run := cutopt.PlanRun{From: 6 * mm, To: 24_006 * mm}
		for i := range 20 {
			from := run.From + measure.Length(i)*1200*mm + measure.Length(r%7)
			piece := cutopt.Piece{
				Plank:  len(p.Planks) + 1,
				From:   from,
				To:     from + 1200*mm,
				Length: 1200 * mm,
				Ends:   cutopt.Ends(i % 4),
			}
			if i == 9 {
				piece.Shape = []cutopt.Point{
					{X: from, Y: row.From},
					{X: piece.To, Y: row.From},
					{X: piece.To, Y: row.To},
					{X: from + 90*mm, Y: row.To},
				}
				piece.Shaping = []cutopt.Fact{{Kind: cutopt.FactEndCut, End: cutopt.EndsLeft, Front: 1200 * mm, Back: 1110 * mm}}
			}
			run.Pieces = append(run.Pieces, piece)
			p.Planks = append(p.Planks, cutopt.PlankUse{
				Number: piece.Plank, Pieces: []cutopt.PieceRef{{Row: r, Piece: i}},
				Cuts: []cutopt.Cut{{At: 400 * mm}}, Left: []cutopt.Leftover{{From: 403 * mm, To: 1200*mm + 1}},
			})
		}
		row.Runs = []cutopt.PlanRun{run}
		floor.Rows = append(floor.Rows, row)
	}
	return p
}

// BenchmarkDecode reads 10 MB, and the same into plain structs by encoding/json, which checks neither keys nor lengths.
func BenchmarkDecode(b *testing.B) {
	data := oracle.Encode(b, hallPlan(1500))
	b.Run("planfile", func(b *testing.B) {
		b.SetBytes(int64(len(data)))
		b.ReportAllocs()
		for b.Loop() {
			if _, err := planfile.Decode(bytes.NewReader(data)); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("encoding-json", func(b *testing.B) {
		b.SetBytes(int64(len(data)))
		b.ReportAllocs()
		for b.Loop() {
			if err := json.Unmarshal(data, new(plainPlan)); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// A plainPlan is a plan file as a program without this package might hold it.
type plainPlan struct {
	Version                      int
	Job, Unit                    string
	Order, Bound, Waste, Quality map[string]any
	Floors                       []struct {
		Name  string
		Axes  map[string]any
		Facts []map[string]any
		Rows  []struct {
			From, To, Width float64
			Runs            []struct {
				From, To float64
				Pieces   []struct {
					Plank            int
					From, To, Length float64
					FactoryEnds      string `json:"factory_ends"`
					Shape            [][2]float64
					Shaping          []map[string]any
				}
			}
		}
	}
	Planks []struct {
		Number int
		Pieces []struct{ Floor, Row, Run, Piece int }
		Cuts   []struct{ At float64 }
		Left   []struct {
			From, To    float64
			FactoryEnds string `json:"factory_ends"`
		}
	}
}
