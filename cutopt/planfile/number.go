package planfile

import (
	"errors"
	"math/big"
	"strconv"
	"strings"

	"plank.example/cutopt"
	"plank.example/cutopt/measure"
)

// digits reads a number as it is written. It holds until the next value is read.
func (r *planReader) digits() []byte {
	if r.kind() != '0' {
		r.wrong("a number")
		return nil
	}
	return r.raw()
}

func (r *planReader) count() int {
	s := r.digits()
	if r.err != nil {
		return 0
	}
	n := 0
	for i, c := range s {
		if c < '0' || c > '9' || i > 17 {
			return r.large(string(s))
		}
		n = 10*n + int(c-'0')
	}
	return n
}

// large reads a whole number that is below 0 or has many digits.
func (r *planReader) large(s string) int {
	n, err := strconv.Atoi(s)
	if err != nil {
		r.fail(s, "is no whole number, or too large a one", "")
	}
	return n
}

// index reads a number that counts from 1 and returns it counted from 0.
func (r *planReader) index() int {
	n := r.count()
	if n < 1 && r.err == nil {
		r.fail(strconv.Itoa(n), "counts from 1", "")
	}
	return n - 1
}

func (r *planReader) number() float64 {
	s := r.digits()
	if r.err != nil {
		return 0
	}
	f, err := strconv.ParseFloat(string(s), 64)
	if err != nil {
		r.fail(string(s), "is too large a number", "")
	}
	return f
}

func (r *planReader) length() measure.Length {
	s := r.digits()
	if r.err != nil {
		return 0
	}
	l, err := measure.FromDecimal(s, r.unit)
	if err != nil {
		msg, hint := err.Error(), ""
		if perr := new(measure.ParseError); errors.As(err, &perr) {
			msg, hint = perr.Msg, perr.Hint()
		}
		r.fail(string(s), "is no length: "+msg, hint)
	}
	return l
}

func (r *planReader) point(p *cutopt.Point) {
	if !r.open('[', "a list") {
		return
	}
	r.path = append(r.path, planStep{})
	last := len(r.path) - 1
	for n := 0; r.err == nil; n++ {
		if r.kind() == ']' {
			r.path = r.path[:last]
			r.delimiter()
			if n < 2 {
				r.fail("", "a point is two numbers, x and y", "")
			}
			return
		}
		r.path[last].index = n
		switch l := r.length(); n {
		case 0:
			p.X = l
		case 1:
			p.Y = l
		default:
			r.fail("", "a point is two numbers, x and y", "")
		}
	}
}

// area reads an area in the plan's unit of areas, rounded to the nearer square tick, midway to the even one.
func (r *planReader) area() measure.Area {
	size := measure.SquareFoot
	if r.unit.Metric() {
		size = measure.SquareMetre
	}
	n, _ := r.scaled(int64(size))
	return measure.Area(n)
}

// money reads an amount with at most two decimals.
func (r *planReader) money() cutopt.Money {
	n, exact := r.scaled(100)
	if !exact {
		r.fail("", "an amount has at most two decimals", "")
	}
	return cutopt.Money(n)
}

// scaled reads a number and returns so many times it as a whole number, rounded to the nearer one, midway to the even
// one, and whether it was one to begin with.
func (r *planReader) scaled(size int64) (n int64, exact bool) {
	digits := r.digits()
	if r.err != nil {
		return 0, false
	}
	s := string(digits)
	mantissa, exponent, _ := strings.Cut(strings.ToLower(s), "e")
	v := new(big.Rat)
	if len(mantissa) <= 64 && len(exponent) <= 3 {
		v.SetString(s)
		v.Mul(v, big.NewRat(size, 1))
	} else {
		r.fail(s, "has too many digits", "")
		return 0, false
	}
	q, rest := new(big.Int).DivMod(v.Num(), v.Denom(), new(big.Int))
	exact = rest.Sign() == 0
	switch rest.Lsh(rest, 1).Cmp(v.Denom()) {
	case 1:
		q.Add(q, big.NewInt(1))
	case 0:
		q.Add(q, big.NewInt(int64(q.Bit(0))))
	}
	if !q.IsInt64() {
		r.fail(s, "is too large a number", "")
		return 0, false
	}
	return q.Int64(), exact
}
