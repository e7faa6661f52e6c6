package numberkey

// Limits of the search for keys to part numbers.
const (
	// leastExplained is how many codes a legend of one field has at least, and how many fields a template or a list names.
	leastExplained = 2
	// leastSizes is how many sizes an example gives at least.
	leastSizes = 2
	// mostPairs is how many codes a legend of one field has at most.
	mostPairs = 60
	// longestCode is how many signs a code has at most.
	longestCode = 4
	// leastNumbers is how many part numbers a column has at least so that a key is tried on it.
	leastNumbers = 2
	// LeastOfKey is the share of a column's part numbers in percent that have to be built as a key says.
	LeastOfKey = 60
	// mostTemplates is how many of the words of a key are compared with the part numbers.
	mostTemplates = 400
	// leastCoded is how many digits a part number of digits alone has at least that may hold sizes.
	leastCoded = 6
	// longestNumber is how many bytes a part number has at most that is read by a key.
	longestNumber = 60
)
