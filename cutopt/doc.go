// Package cutopt plans floating plank floors with proof: from tape measurements and the product's label to a plan that
// can be laid, its real waste, and a certificate that fewer planks cannot do.
package cutopt
