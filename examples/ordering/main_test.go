package main

func Example() {
	main()
	// Output:
	// buy 10 boxes, proven the fewest at the loss assumed: true
	// 9 hold the floor, proven the fewest: true
}
