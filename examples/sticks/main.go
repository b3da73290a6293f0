// Command sticks is a module of its own that imports package stock alone: it orders casing for the doors of Wren
// Cottage and says how each stick is cut.
package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

func main() {
	if err := order(context.Background(), os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "sticks:", err)
		os.Exit(1)
	}
}

// order plans the casing of three doors, mitred at the heads, and prints the cuts.
func order(ctx context.Context, w io.Writer) error {
	const in, ft = measure.Inch, measure.Foot
	mitred := stock.End{Mitre: 4500}
	job := &stock.Job{
		Unit: measure.UnitInch,
		Sticks: []stock.Stick{
			{Name: "7 ft", Length: 7 * ft, Price: 790},
			{Name: "14 ft", Length: 14 * ft, Price: 1490},
			{Name: "left from the hall", Length: 80 * in, OnHand: true, Supply: 1},
		},
		Pieces: []stock.Piece{
			{Name: "leg", Length: 83 * in, Count: 12, Ends: [2]stock.End{{}, mitred}},
			{Name: "head", Length: 37*in + in/2, Count: 6, Ends: [2]stock.End{mitred, mitred}},
		},
		Kerf: in / 8,
		Keep: 12 * in,
	}
	result, err := cut.Solve(ctx, job, nil)
	if err != nil {
		return err
	}
	plan := result.Plan
	for _, c := range plan.Cuttings {
		fmt.Fprintf(w, "%d x %s:", c.Count, job.Sticks[c.Stick].Name)
		for _, p := range c.Pieces {
			fmt.Fprintf(w, " %d %s", p.Count, job.Pieces[p.Piece].Name)
		}
		fmt.Fprintf(w, ", leaves %s in\n", c.Offcut.Decimal(measure.UnitInch))
	}
	proven, err := stock.Verify(ctx, job, result.Certificate)
	if err != nil {
		return err
	}
	fmt.Fprintf(
		w,
		"%d.%02d, and no plan costs less than %d.%02d\n",
		plan.Cost/100,
		plan.Cost%100,
		proven.Cost/100,
		proven.Cost%100,
	)
	return nil
}
