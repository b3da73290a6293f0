package cutopt

import "errors"

// MaxPieces is the most pieces of planks, and the most rows, that the floors of a job may take together.
const MaxPieces = 2_000_000

// MaxGraduations is the most lines of the grid that a plank may have: starters are searched on them.
const MaxGraduations = 1_000_000

// ErrTooLarge is wrapped by the errors of jobs that have too much of something: rooms, corners, pieces of planks. They
// are refused before what they would take is stored. A server may tell them from jobs that are wrong.
var ErrTooLarge = errors.New("too large")
