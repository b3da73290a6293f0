package main

import (
	"context"
	"os"
)

func Example() {
	if err := order(context.Background(), os.Stdout); err != nil {
		panic(err)
	}
	// Output:
	// 6 x 14 ft: 2 leg, leaves 1.75 in
	// 1 x 14 ft: 4 head, leaves 17.5 in
	// 1 x left from the hall: 2 head, leaves 4.75 in
	// 104.30, and no plan costs less than 104.30
}
