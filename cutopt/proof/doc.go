// Package proof holds certificates of how few planks can do, and verifies them without solver code.
package proof
