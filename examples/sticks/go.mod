module sticks.example

go 1.26.0

// The library is taken from the tree that this module lies in.
replace plank.example => ../..

require plank.example v0.0.0-00010101000000-000000000000
