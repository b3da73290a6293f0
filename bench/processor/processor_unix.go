//go:build unix

// Package processor measures the processor time of this process.
package processor

import (
	"syscall"
	"time"
)

// Time is the processor time this process has used.
func Time() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
