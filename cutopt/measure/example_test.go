package measure_test

import (
	"errors"
	"fmt"

	"plank.example/cutopt/measure"
)

func ExampleParse() {
	for _, text := range []string{`12' 6-1/2"`, "3.81 m", "22½", "3,81 m"} {
		l, err := measure.Parse(text, measure.UnitInch)
		var wrong *measure.ParseError
		if errors.As(err, &wrong) {
			fmt.Println(wrong.Reason())
			fmt.Println(wrong.Hint())
			continue
		}
		fmt.Println(l.Format(measure.UnitFoot, measure.Sixteenth))
	}
	// Output:
	// 12' 6 1/2"
	// 12' 6"
	// 1' 10 1/2"
	// a comma may mean decimals or thousands: "3,81" at character 1
	// use a point for decimals and nothing between thousands
}

func ExampleLength_Format() {
	l := 22*measure.Inch + measure.Inch/4
	fmt.Println(l.Format(measure.UnitInch, measure.Sixteenth))
	fmt.Println(l.Format(measure.UnitFoot, measure.Sixteenth))
	fmt.Println(l.Format(measure.UnitMillimetre, measure.Millimetre))
	// Output:
	// 22 1/4 in
	// 1' 10 1/4"
	// 565 mm
}
