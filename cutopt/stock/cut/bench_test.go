package cut_test

import (
	"context"
	"testing"

	"plank.example/cutopt/stock"
	"plank.example/cutopt/stock/cut"
)

// BenchmarkTrim cuts twelve kinds of pieces, inches and millimetres, from sticks of three lengths: the trim of a room.
func BenchmarkTrim(b *testing.B) {
	b.ReportAllocs()
	job := mixed(2, 12)
	for b.Loop() {
		if _, err := cut.Solve(context.Background(), job, &cut.Options{Aim: cut.AimSticks}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkDoors cuts two kinds of pieces from one stick, as most jobs of a stream are.
func BenchmarkDoors(b *testing.B) {
	b.ReportAllocs()
	job := &stock.Job{
		Sticks: []stock.Stick{{Length: 16 * ft}}, Kerf: in / 8,
		Pieces: []stock.Piece{{Length: 84 * in, Count: 64}, {Length: 32 * in, Count: 32}},
	}
	for b.Loop() {
		if _, err := cut.Solve(context.Background(), job, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkVerify verifies the certificate of BenchmarkTrim.
func BenchmarkVerify(b *testing.B) {
	b.ReportAllocs()
	job := mixed(2, 12)
	r, err := cut.Solve(context.Background(), job, &cut.Options{Aim: cut.AimSticks})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := stock.Verify(context.Background(), job, r.Certificate); err != nil {
			b.Fatal(err)
		}
	}
}
