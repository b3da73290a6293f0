// Command plots draws the figures of summaries that `go run ./bench run` writes, each as SVG and PNG. It is a module of
// its own, so that nobody who imports the library fetches a plotting package. From the root of the repository:
//
//	go run -C bench/plots . -out DIR waste SUMMARY     planks and boxes against the size of rooms
//	go run -C bench/plots . -out DIR saved SUMMARY     boxes saved against the rule of thumb
//	go run -C bench/plots . -out DIR factors SUMMARY   waste against plank length, stagger and shortest piece
//	go run -C bench/plots . -out DIR proof SUMMARY     time to proof
//	go run -C bench/plots . -out DIR cost SUMMARY…     time against rows
//
// Paths are relative to bench/plots, or absolute.
package main

import (
	"flag"
	"fmt"
	"os"

	"plank.example/bench/tally"
)

func main() {
	out := flag.String("out", ".", "folder for the pictures")
	flag.Parse()
	if err := run(*out, flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "plots:", err)
		os.Exit(1)
	}
}

// pictures are the kinds by name.
var pictures = map[string]func(s *tally.Summary) (map[string]*picture, error){
	"waste": waste, "saved": saved, "factors": factors, "proof": proof, "cost": cost,
}

func run(out string, args []string) error {
	if len(args) < 2 || pictures[args[0]] == nil {
		return fmt.Errorf("%q: name one of waste, saved, factors, proof, cost, and a summary", args)
	}
	var sum *tally.Summary
	for _, name := range args[1:] {
		f, err := os.Open(name)
		if err != nil {
			return err
		}
		s, err := tally.Decode(f)
		f.Close()
		if err == nil && sum != nil {
			err = sum.Merge(s)
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if sum == nil {
			sum = s
		}
	}
	drawn, err := pictures[args[0]](sum)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	for name, p := range drawn {
		if err := p.save(out, name); err != nil {
			return err
		}
	}
	return nil
}
