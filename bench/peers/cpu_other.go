//go:build !unix

package main

import "time"

var began = time.Now()

// cpuTime is wall clock where the system does not say more: never less than one core's processor time.
func cpuTime() time.Duration { return time.Since(began) }
