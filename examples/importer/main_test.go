package main

import (
	"context"
	"os"
)

func Example() {
	if err := compare(context.Background(), os.Stdout); err != nil {
		panic(err)
	}
	// Output:
	// rows along: 44 planks, at least 44 needed
	// rows across: 45 planks, at least 45 needed
}
