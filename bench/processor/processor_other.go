//go:build !unix

package processor

import "time"

var began = time.Now()

// Time is wall clock where the system does not say more: never less than one core's processor time.
func Time() time.Duration { return time.Since(began) }
