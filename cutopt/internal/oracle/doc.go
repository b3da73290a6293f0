// Package oracle has what the tests of several packages share: seeded jobs, plans spoilt on purpose, and plain
// recounts, written from the descriptions and not from the library, that results are held against. Only tests import
// it.
package oracle
