// Package proof holds certificates of how few planks can do, and verifies them without solver code.
package proof

// A Certificate proves a lower bound on planks.
type Certificate struct {
	Planks int `json:"planks"` // the claim
}
