package main

func Example() {
	main()
	// Output:
	// 10 boxes, proven the fewest: true
}
