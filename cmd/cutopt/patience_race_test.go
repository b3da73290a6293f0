//go:build race

package main

// patience is how many seconds a script waits for a plan that takes tenths of one without the race detector.
const patience = "15"
