// Command strategy is a module of its own that runs strategies of its own on the sample rooms of bench: Mine, and the
// same in Python where python3 is installed.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"

	"plank.example/bench/harness"
)

func main() {
	if err := compare(context.Background(), os.Stdout, 200); err != nil {
		fmt.Fprintln(os.Stderr, "strategy:", err)
		os.Exit(1)
	}
}

func compare(ctx context.Context, w io.Writer, rooms uint64) error {
	beside := []string{"carry"}
	if _, err := exec.LookPath("python3"); err == nil {
		beside = append(beside, "python=python3 mine.py")
	}
	return harness.Compare(ctx, w, &harness.Options{Rooms: rooms, Beside: beside}, Mine{})
}
