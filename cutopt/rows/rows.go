// Package rows is the bare problem behind a plank floor: runs to be laid, which of them touch, and the plank.
package rows

// An Instance is the bare problem.
type Instance struct{}
