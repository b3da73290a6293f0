package stock

import (
	"errors"
	"math/big"
)

var errRange = errors.New("out of range")

// at returns an element of a list whose zeros at the end may be left out.
func at(list []int64, i int) int64 {
	if i < len(list) {
		return list[i]
	}
	return 0
}

func (v *verifier) leaf(n *Node) error {
	for i, x := range n.Values {
		if x < 0 {
			return v.fail("the value %d of kind %d is out of range: below 0", x, i)
		}
	}
	worth, err := v.worth(n.Values)
	if err != nil {
		return err
	}
	allowed, err := v.allowed(&multipliers{n.Cost, n.Count, n.Sticks})
	if err != nil {
		return err
	}
	slack := new(big.Int).Sub(allowed, worth)
	if slack.Sign() >= 0 && n.Shortlist == nil {
		return v.fail("the pieces are worth %v, the sticks of the claim %v", worth, allowed)
	}
	if err := v.patterns(n); err != nil || slack.Sign() < 0 {
		return err
	}
	return v.shortlist(n, slack)
}

// worth is what all pieces are worth together.
func (v *verifier) worth(values []int64) (*big.Int, error) {
	if len(values) > len(v.sizes) {
		return nil, v.fail("%d values are more than there are kinds", len(values))
	}
	worth, size := new(big.Int), new(big.Int)
	for i, x := range values {
		part := new(big.Int).Mul(big.NewInt(x), big.NewInt(int64(v.demand[i])))
		worth.Add(worth, part)
		size.Add(size, part.Abs(part))
		if x < -maxWorth || x > maxWorth {
			return nil, v.fail("the value %d of kind %d is out of range", x, i)
		}
	}
	if size.Cmp(big.NewInt(maxWorth)) > 0 {
		return nil, v.fail("the pieces are worth more than can be added")
	}
	return worth, nil
}

// multipliers are those of a leaf or a step.
type multipliers struct {
	cost, count int64
	sticks      []int64
}

// allowed is what the sticks of the claim allow together.
func (v *verifier) allowed(m *multipliers) (*big.Int, error) {
	if len(m.sticks) > len(v.sticks) {
		return nil, v.fail("%d sticks are more than there are", len(m.sticks))
	}
	if m.cost < 0 || m.count < 0 || m.count > 0 && v.claim.Sticks == 0 {
		return nil, v.fail("a multiplier is below 0, or on a number of sticks that the claim leaves open")
	}
	allowed := new(big.Int).Mul(big.NewInt(m.cost), big.NewInt(v.claim.Cost))
	allowed.Add(allowed, new(big.Int).Mul(big.NewInt(m.count), big.NewInt(int64(v.claim.Sticks))))
	for k, s := range v.sticks {
		x := at(m.sticks, k)
		count := s.least
		if x > 0 {
			if count = s.most; count < 0 {
				return nil, v.fail("nothing limits the sticks of kind %d from above", k+1)
			}
		}
		allowed.Add(allowed, new(big.Int).Mul(big.NewInt(x), big.NewInt(int64(count))))
	}
	return allowed, nil
}

// limit is what a pattern on a stick of kind k may be worth; limited is false where that is more than all pieces can
// be.
func (v *verifier) limit(m *multipliers, k int) (limit int64, limited bool, err error) {
	x := new(big.Int).Mul(big.NewInt(m.cost), big.NewInt(v.sticks[k].cost))
	x.Add(x, big.NewInt(m.count)).Add(x, big.NewInt(at(m.sticks, k)))
	if x.Cmp(big.NewInt(maxWorth)) >= 0 {
		return 0, false, nil
	}
	if x.CmpAbs(big.NewInt(maxWorth)) >= 0 {
		return 0, false, v.fail("the limit %v of a stick of kind %d is out of range", x, k+1)
	}
	return x.Int64(), true, nil
}
