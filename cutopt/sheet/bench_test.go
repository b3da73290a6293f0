package sheet_test

import (
	"io"
	"testing"

	"plank.example/cutopt"
)

// BenchmarkSheet writes the documents of a room of 30 rows.
func BenchmarkSheet(b *testing.B) {
	job := jobOf("Barn", cutopt.Room{Name: "Barn", Outline: rect(0, 0, 240, 207)})
	plan := layOut(job)
	for _, doc := range documents() {
		b.Run(doc.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := doc.write(io.Discard, job, plan, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkHall writes the documents of a hall of 2,000 rows, 100 ft wide.
func BenchmarkHall(b *testing.B) {
	job := hallJob(2000)
	plan := layOut(job)
	for _, doc := range documents() {
		b.Run(doc.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := doc.write(io.Discard, job, plan, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
