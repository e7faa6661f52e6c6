package layout

// longestTalk is in how many lines letters and talks are looked for, and mostCardLines in how many cards without colons are: nobody writes more
// by hand, and each line costs what a thousand cells of a table do.
const longestTalk, mostCardLines = 6_000, 20_000

// leastTicked is how many columns of tips a matrix of ticks has at least: one column may be marked for anything.
const leastTicked = 2

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
)

// longestShortened is how many letters a word has at most that a point shortens: "indv.", "vnitř.".
const longestShortened = 5
