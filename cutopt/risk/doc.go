// Package risk says what planks that break mean for the number of boxes to buy. [Assess] lays the floor of a plan again
// and again, each plank lost with a chance, planning on from what is left, and draws up a verdict on each number of
// boxes; with Breakage.Times 0 it reckons with the binomial distribution alone.
package risk
