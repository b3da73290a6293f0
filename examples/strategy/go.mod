module strategy.example

go 1.26.0

// The harness is taken from the tree that this module lies in.
replace plank.example => ../..

require plank.example v0.0.0-00010101000000-000000000000

require gonum.org/v1/gonum v0.17.0 // indirect
