package layout

// longestTalk is in how many lines letters and talks are looked for, and mostCardLines in how many cards without colons are: nobody writes more
// by hand, and each line costs what a thousand cells of a table do.
const longestTalk, mostCardLines = 6_000, 20_000

// Limits of tables whose parts have several lines each.
const (
	// leastRecord is how many lines a part of such has at least, and leastRecords how many parts there are: fewer are a form.
	leastRecord, leastRecords = 2, 2
	// mostBroken is for how many parts that have all their lines one may have not.
	mostBroken = 3
)

// Limits of the search for keys to part numbers, so that no list of any length is searched for one as a whole.
const (
	// keyZone is in how many lines above the headings of a table, and in how many of the last of its sheet, a key is looked for.
	keyZone = 60
	// mostKeyTexts is how many texts are looked at.
	mostKeyTexts = 240
	// mostPairs is how many codes a legend of one field has at most.
	mostPairs = 60
	// longestCode is how many signs a code has at most.
	longestCode = 4
	// leastNumbers is how many part numbers a column has at least so that a key is tried on it.
	leastNumbers = 2
	// leastOfKey is the share of a column's part numbers in percent that have to be built as a key says.
	leastOfKey = 60
	// mostTemplates is how many of the words of a key are compared with the part numbers.
	mostTemplates = 400
	// leastCoded is how many digits a part number of digits alone has at least that may hold sizes.
	leastCoded = 6
	// longestNumber is how many bytes a part number has at most that is read by a key.
	longestNumber = 60
)
