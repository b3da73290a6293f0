// Package sticks draws classes of cutting-stock jobs as they are published, and hands them to other methods: best fit
// decreasing and, as an arc flow, a general solver.
package sticks

import (
	"bufio"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"

	"plank.example/cutopt/measure"
	"plank.example/cutopt/stock"
)

// An Instance is a job and what is known of it.
type Instance struct {
	Name string
	Job  *stock.Job
	Best int // published optimum in sticks; 0 where none is
}

// A Class is a family of instances.
type Class struct {
	Name   string
	Source string
	Draw   func() ([]Instance, error)
	Offcut bool // the largest offcut is an aim too
}

// Classes are the classes of the table. Folder holds the published files; those that are not there are left out.
func Classes(folder string) []Class {
	out := []Class{
		{
			"worked examples",
			"18 published ones, each with its source in the file",
			file(folder, "worked_examples.jsonl"),
			false,
		},
		{"Falkenauer U", "E. Falkenauer, J. Heuristics 2, 1996, from OR-Library", file(folder, "falkenauer_u.jsonl"), false},
		{"Falkenauer T", "as above: triplets", file(folder, "falkenauer_t.jsonl"), false},
	}
	out = slices.DeleteFunc(out, func(c Class) bool { _, err := c.Draw(); return err != nil })
	return append(
		out,
		Class{"uniform", "drawn as Falkenauer's U: sizes 20 to 100 over 150; 120, 250, 500, 1,000 pieces", uniform, false},
		Class{
			"triplets",
			"drawn as Falkenauer's T: 38.0 to 49.0, then 25.0 to half of what is left of 100.0, then the rest; " +
				"60, 120, 249, 501 pieces",
			triplets,
			false,
		},
		Class{"duty", "drawn as P. Schwerin and G. Wäscher, Int. Trans. Oper. Res. 4, 1997: sizes 150 to 200 over 1,000; " +
			"100 and 120 pieces", duty, false},
		Class{"residual", "five published instances whose rounded linear bound misses the optimum (Fieldhouse 1990; " +
			"Gau and Wäscher; Rietz: two; Marcotte 1986), each with 0 to 9 full sticks cut at random added", residual, false},
		Class{"trim", "of our own: 8 to 40 kinds, inches and millimetres mixed, sticks of 8, 12 and 16 ft with prices, " +
			"kerf 1/8 in, an offcut on hand in each fourth; cost and sticks", trim, false},
		Class{"trim, offcut too", "the same with the largest single offcut as the third aim", trim, true},
	)
}

func file(folder, name string) func() ([]Instance, error) {
	return func() ([]Instance, error) {
		f, err := os.Open(filepath.Join(folder, name))
		if err != nil {
			return nil, err
		}
		defer f.Close()
		var out []Instance
		in := bufio.NewScanner(f)
		in.Buffer(nil, 1<<20)
		for in.Scan() {
			var p struct {
				Name     string
				Capacity int
				Optimum  int
				Items    []int
			}
			if err := json.Unmarshal(in.Bytes(), &p); err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			out = append(out, Instance{p.Name, Plain(p.Capacity, p.Items), p.Optimum})
		}
		return out, in.Err()
	}
}

// Plain is the job of one stick length and no kerf, in ticks; every stick costs 1.
func Plain(capacity int, sizes []int) *stock.Job {
	job := &stock.Job{Sticks: []stock.Stick{{Length: measure.Length(capacity), Price: 1}}}
	at := map[int]int{}
	for _, w := range sizes {
		i, ok := at[w]
		if !ok {
			i = len(job.Pieces)
			at[w] = i
			job.Pieces = append(job.Pieces, stock.Piece{Length: measure.Length(w)})
		}
		job.Pieces[i].Count++
	}
	return job
}

// drawn draws instances of each number of pieces, sizes from low to high alike.
func drawn(name string, numbers []int, seeds uint64, capacity, low, high int) []Instance {
	var out []Instance
	for _, n := range numbers {
		for seed := range seeds {
			r := rand.New(rand.NewPCG(seed, uint64(n)))
			sizes := make([]int, n)
			for i := range sizes {
				sizes[i] = low + r.IntN(high-low+1)
			}
			out = append(out, Instance{fmt.Sprintf("%s %d/%d", name, n, seed), Plain(capacity, sizes), 0})
		}
	}
	return out
}

func uniform() ([]Instance, error) {
	return drawn("uniform", []int{120, 250, 500, 1000}, 20, 150, 20, 100), nil
}

func duty() ([]Instance, error) { return drawn("duty", []int{100, 120}, 50, 1000, 150, 200), nil }

func triplets() ([]Instance, error) {
	var out []Instance
	for _, n := range []int{60, 120, 249, 501} {
		for seed := range uint64(20) {
			r := rand.New(rand.NewPCG(seed, uint64(n)))
			var sizes []int
			for range n / 3 {
				a := 380 + r.IntN(111)
				b := 250 + r.IntN((1000-a)/2-250+1)
				sizes = append(sizes, a, b, 1000-a-b)
			}
			out = append(out, Instance{fmt.Sprintf("triplets %d/%d", n, seed), Plain(1000, sizes), n / 3})
		}
	}
	return out, nil
}

// missed are published instances whose linear bound, rounded up, is one short: capacity, then size and count in turn.
var missed = [][]int{
	{30, 15, 3, 10, 5, 6, 9},                // Fieldhouse
	{60, 30, 1, 22, 1, 20, 1, 19, 1, 12, 2}, // Gau and Wäscher, in small numbers
	{387, 177, 3, 145, 2, 133, 2, 130, 1, 129, 5, 127, 2, 121, 2, 113, 1, 105, 1, 97, 1}, // Rietz
	{132, 44, 2, 33, 3, 12, 6},              // Marcotte's, from memory
	{45, 27, 3, 23, 3, 15, 6, 11, 6, 9, 10}, // Rietz, modell
}

func residual() ([]Instance, error) {
	var out []Instance
	for i, m := range missed {
		for seed := range uint64(20) {
			r := rand.New(rand.NewPCG(seed, uint64(100+i)))
			var sizes []int
			for k := 1; k < len(m); k += 2 {
				for range m[k+1] {
					sizes = append(sizes, m[k])
				}
			}
			for range seed / 2 {
				sizes = append(sizes, fullStick(r, m[0])...)
			}
			out = append(out, Instance{fmt.Sprintf("residual %d/%d", i, seed), Plain(m[0], sizes), 0})
		}
	}
	return out, nil
}

// fullStick cuts a stick at random into two to four pieces.
func fullStick(r *rand.Rand, capacity int) []int {
	var out []int
	for n := 2 + r.IntN(3); n > 1; n-- {
		most := capacity - 2*(n-1)
		w := 2 + r.IntN(max(most*2/n-2, 1))
		out = append(out, w)
		capacity -= w
	}
	return append(out, capacity)
}

func trim() ([]Instance, error) {
	var out []Instance
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 77))
		job := &stock.Job{
			Unit: measure.UnitInch, Kerf: measure.Inch / 8, Keep: 12 * measure.Inch,
			Sticks: []stock.Stick{
				{Name: "8 ft", Length: 8 * measure.Foot, Price: 899 + int64(r.IntN(200))},
				{Name: "12 ft", Length: 12 * measure.Foot, Price: 1349 + int64(r.IntN(300))},
				{Name: "16 ft", Length: 16 * measure.Foot, Price: 1799 + int64(r.IntN(400))},
			},
		}
		if seed%4 == 3 {
			job.Sticks = append(job.Sticks, stock.Stick{
				Name: "offcut", Length: measure.Length(30+r.IntN(60)) * measure.Inch, OnHand: true, Supply: 1 + r.IntN(3),
			})
		}
		for range 8 + r.IntN(33) {
			l := measure.Length(6*16+r.IntN(110*16)) * measure.Sixteenth
			if r.IntN(2) == 0 {
				l = measure.Length(150+r.IntN(2800)) * measure.Millimetre
			}
			job.Pieces = append(job.Pieces, stock.Piece{Length: l, Count: 1 + r.IntN(3)})
		}
		out = append(out, Instance{fmt.Sprintf("trim %d", seed), job, 0})
	}
	return out, nil
}
