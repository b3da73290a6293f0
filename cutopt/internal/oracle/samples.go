package oracle

import (
	"os"
	"strconv"
)

// Samples returns how many cases a random test tries: n, or a multiple of it where the variable CUTOPT_SAMPLES is a
// whole number above 1, as CI sets it.
func Samples(n int) int {
	if times, err := strconv.Atoi(os.Getenv("CUTOPT_SAMPLES")); err == nil && times > 1 {
		return n * times
	}
	return n
}
