package cutopt

import (
	"fmt"
	"strconv"
	"strings"
)

// String prints the amount with its hundredths: "52.50".
func (m Money) String() string {
	sign, hundredths := "", uint64(m)
	if m < 0 {
		sign, hundredths = "-", -hundredths
	}
	return fmt.Sprintf("%s%d.%02d", sign, hundredths/100, hundredths%100)
}

// ParseMoney reads an amount of 0 or more with at most two decimals: "52", "52.5", "52.50". A price has one currency,
// so it names none.
func ParseMoney(s string) (Money, error) {
	whole, part, point := strings.Cut(strings.TrimSpace(s), ".")
	digits := whole + part
	if whole == "" || point && part == "" || strings.Trim(digits, "0123456789") != "" {
		return 0, fmt.Errorf(
			"cutopt: %q is no amount: write digits and at most two decimals, such as 52.50, without the currency",
			s,
		)
	}
	if len(part) > 2 {
		return 0, fmt.Errorf("cutopt: %q has more than two decimals: write it as 52.50", s)
	}
	m, err := strconv.ParseInt(digits+"00"[len(part):], 10, 64)
	if err != nil {
		return 0, fmt.Errorf("cutopt: %q is too large an amount", s)
	}
	return Money(m), nil
}
