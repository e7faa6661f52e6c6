package units

// Thresholds of this stage. Where no source is named they are common practice, judged by the corpus.
const (
	// leastCovered is the share of a column's bare sizes that must be possible in the units of a column of units for it to be covered by
	// it, or in one unit for that to be its own. Tried on lists of 5,000 and 100,000 rows, with no value wrong and no row held.
	leastCovered = 0.9
	// leastOfEach is the share of a column's bare sizes that must be possible in inches or in millimetres for each to be taken in its own.
	leastOfEach = 0.8
	// leastPairs is how many columns of units directly beside sizes show that each is for the one to its left.
	leastPairs = 2
	// leastNamed is the score from which words in a note name a size beside others: "over" and "larger" do not.
	leastNamed = 0.66
	// leastSizes is how many sizes a column must have for its fit to count.
	leastSizes = 2
	// leastMisfits is how many sizes a column must have to be doubted as a whole since most are impossible.
	leastMisfits = 3
	// leastRare is how many sizes of a column must be impossible for it to be doubted as a whole since none of the others is common: one may have
	// slipped.
	leastRare = 2
)
