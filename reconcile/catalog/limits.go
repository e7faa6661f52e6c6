package catalog

// What a heading's score, which the vocabulary gives from 0 to 1, is good for. The numbers are judged by the corpus: each is where the
// headings that mean it and those that do not part best.
const (
	// leastHeading is the score from which a heading supports a role.
	leastHeading = 0.3
	// headingScore is the least score at which a cell counts as a heading when headings are looked for.
	headingScore = 0.4
	// understood is the score from which a heading means what it says, so that values cannot give it another role.
	understood = 0.55
	// specificHeading is the score from which a heading names its role whatever the table lists.
	specificHeading = 0.8
	// saysOneSize is the score from which a note speaks of one size and not of a part as a whole, as "hosel dimensions" does.
	saysOneSize = 0.8
	// certainHeading is the score of a heading that leaves no doubt.
	certainHeading = 0.9
)

// Lengths of texts, in bytes.
const (
	// longestHeading is that beyond which a text is no heading.
	longestHeading = 160
	// longestNote is that beyond which a text is not searched.
	longestNote = 600
)

// cacheLimit bounds each cache; a sheet of part numbers has no texts that repeat.
const cacheLimit = 20_000
