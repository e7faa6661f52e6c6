package lexicon

// What a heading's score, which the vocabulary gives from 0 to 1, is good for. The numbers are judged by the corpus: each is where the
// headings that mean it and those that do not part best.
const (
	// LeastHeading is the score from which a heading supports a role.
	LeastHeading = 0.3
	// HeadingScore is the least score at which a cell counts as a heading when headings are looked for.
	HeadingScore = 0.4
	// Understood is the score from which a heading means what it says, so that values cannot give it another role.
	Understood = 0.55
	// SpecificHeading is the score from which a heading names its role whatever the table lists.
	SpecificHeading = 0.8
	// SaysOneSize is the score from which a note speaks of one size and not of a part as a whole, as "hosel dimensions" does.
	SaysOneSize = 0.8
	// CertainHeading is the score of a heading that leaves no doubt.
	CertainHeading = 0.9
)

// Lengths of texts, in bytes.
const (
	// LongestHeading is that beyond which a text is no heading.
	LongestHeading = 160
	// LongestLabel is that beyond which a text before a colon is no label.
	LongestLabel = 72
	// longestUnit is that beyond which a word before a number is not asked whether it is a unit.
	longestUnit = 8
	// LongestNote is that beyond which a text is not searched.
	LongestNote = 600
	// LeastInNumber is how many digits make a part number without letters.
	LeastInNumber = 4
)

// fewestTogether is the least number of pieces that a word for them alone makes a pack: a ferrule of two or three pieces is made so.
const fewestTogether = 4

// cacheLimit bounds each cache; a sheet of part numbers has no texts that repeat.
const cacheLimit = 20_000

// longestLeft is how many bytes a word for the value to the left has at most.
const longestLeft = 60

// longestAsSet is how many bytes a word for the value of the set has at most.
const longestAsSet = 80

// longestDitto is how many characters a word for the value above has at most.
const longestDitto = 16

// shortestWord is how many bytes a text has at least that says of a part that it is discontinued.
const shortestWord = 3

// AlikeSure is the difference of two scores that says nothing.
const AlikeSure = 0.02
