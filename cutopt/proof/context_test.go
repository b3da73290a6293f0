package proof_test

import (
	"context"
	"errors"
	"testing"

	"plank.example/cutopt/proof"
)

// A patience is a context that is done after it was asked so often.
type patience struct {
	context.Context
	left int
}

func (p *patience) Err() error {
	if p.left--; p.left < 0 {
		return context.Canceled
	}
	return nil
}

// TestVerifyCutShort ends verifying at every place where the context is asked: it never passes what it did not see
// through, and a false claim is never taken for true.
func TestVerifyCutShort(t *testing.T) {
	claims := byHand()
	claims.Planks = 8
	for _, test := range []struct {
		name   string
		verify func(ctx context.Context) error
		want   error
	}{
		{"a plan's", func(ctx context.Context) error { return byHand().VerifyContext(ctx, three()) }, nil},
		{"a false one", func(ctx context.Context) error { return claims.VerifyContext(ctx, three()) }, proof.ErrUnproven},
		{"by counts", func(ctx context.Context) error { return byCounts(7).VerifyContext(ctx, three()) }, nil},
		{"a family's", func(ctx context.Context) error { return familyByHand().VerifyContext(ctx, lying()) }, nil},
	} {
		asked := 0
		for ; ; asked++ {
			err := test.verify(&patience{t.Context(), asked})
			if !errors.Is(err, context.Canceled) {
				if !errors.Is(err, test.want) {
					t.Errorf("%s, asked %d times: %v, want %v", test.name, asked, err, test.want)
				}
				break
			}
		}
		if asked == 0 {
			t.Errorf("%s: the context is never asked", test.name)
		}
	}
}

func TestVerifyNone(t *testing.T) {
	var none *proof.Certificate
	if err := none.Verify(three()); !errors.Is(err, proof.ErrUnproven) {
		t.Errorf("no certificate: %v", err)
	}
	var family *proof.FamilyCertificate
	if err := family.Verify(lying()); !errors.Is(err, proof.ErrUnproven) {
		t.Errorf("no certificate of a family: %v", err)
	}
}
