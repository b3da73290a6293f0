package main

func Example() {
	main()
	// Output:
	// 9 boxes, proven the fewest: true
}
