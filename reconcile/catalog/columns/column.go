package columns

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
	"example.com/seatline/reconcile/sheet"
)

// aspect is what a column gives of a dimension that several columns share.
type aspect uint8

const (
	// Nominal is the dimension itself.
	Nominal aspect = iota
	// Least and most are columns of limits.
	Least
	Most
	// Repeat is a column that states the dimension again, in another unit.
	Repeat
	// Mean is a column of means of the readings that stand beside it.
	Mean
)

// Column is one column of a table as it is understood.
type Column struct {
	layout.Heading
	Profile profile
	// Matches are the roles that the heading may have in a table of each kind.
	Matches [4][]words.RoleMatch
	Hints   words.Hints
	// irrelevant is set where the heading speaks of what no joint depends on, or of the price of a quantity.
	irrelevant string
	// ours is the column of the firm's own part numbers where this one gives those of the maker or the customer, nil otherwise.
	ours *Column
	// aside is set where all that is known of the heading is that it speaks of what no joint depends on.
	aside bool
	// breaks is set where the heading gives the quantity from which a price holds.
	breaks bool
	// paidIn is the column of what a buyer pays where this one gives other money, and tied is set where nothing says which of several that is.
	paidIn *Column
	tied   bool
	// byAge is set where a column is taken for the prices and its heading says only how old they are.
	byAge bool
	// paidBy is the note that says that a buyer pays what the column gives, empty where none does.
	paidBy string
	// offered is set where the column is one of quantities that are offered or ordered.
	offered bool
	// reported is set where it was said already why the column is not used.
	reported bool
	Role     catalog.Role
	Aspect   aspect
	// what is known of the role that it had when trait was last asked.
	traitOf catalog.Role
	traits  traits.Trait
	// points are how well the role fits; margin is by how much the best other reading of the table is worse.
	points, margin float64
	// second is the next best role, empty where it is none.
	second catalog.Role
	// rival is the column whose role its heading says as well, and of which it does not state the sizes.
	rival *Column
	// limitWith is the column to the left where the two give the limits of one size, nil otherwise.
	limitWith *Column
	// Older is the column of what the values were before a change, nil where there is none in the same unit.
	Older *Column
	// hasOlder is set where the heading of another column says the same, and that it is old.
	hasOlder bool
	// dated is set where the heading says until or from which date the sizes hold, see findDated.
	dated bool
	// Known is set where the heading itself gives the role.
	Known    bool
	Evidence string
	RunnerUp string
	// GivesPieces is set where the column says for how many pieces the prices beside it are.
	GivesPieces bool
	// InWords is set where it says so in words, which may be those for what is sold as well: "EA", "DZ".
	InWords bool
	// PerBy is the column that says so of each price of this one, nil where Per does.
	PerBy *Column
	// SoldBy is the column that says of each row whether a pack is sold or a piece, which its price is for; nil where none does.
	SoldBy *Column
	// hidden is set where the sheet hides the column.
	hidden bool
	// Held is why the values of the column are not used, empty where they are.
	Held string
	// ByValues is set where the column has a role that only its values give, and is used.
	ByValues bool
	// RoleHeld is set where another column could have the role as well, so that a unit in a cell settles nothing.
	RoleHeld bool
	// HeadingUnit is the unit that the heading or the unit line names.
	HeadingUnit string
	// Scale is what stored numbers are multiplied by: 2 in a column of radii.
	Scale int64
	// Per is how many pieces a price in the column is for, and Lot whether they are those of a set or a pack, then 1 where their number is
	// not known.
	Per float64
	Lot lexicon.Lot
	// PerDoubtful is set where the heading names a number of pieces, and it is not sure that the prices are for so many.
	PerDoubtful bool
	// PerSure is set where a person, or a column beside, says for how many pieces the prices are.
	PerSure bool
	// PackIn is the cell of the note or heading that says how many are in the packs that the prices are for, empty where none does.
	PackIn string
	// LotNoted is set where a note says whether the prices are for packs or sets: rows that are neither may have one of their own.
	LotNoted bool
	// Clubs are the columns that it stands for, where each gives the size of another club.
	Clubs []ClubColumn
	// Covers is the role whose values a column of tolerances covers, empty where none is named.
	Covers catalog.Role
	// Deviation is 1 in a column of upper deviations and -1 in one of lower ones; partner is the column of the others, at the
	// left one of the two.
	Deviation int
	Partner   *Column
}

// Weigh writes down what was weighed in giving the column its role.
func (c *Column) Weigh(t *Table) catalog.Weighed {
	return catalog.Weighed{Margin: c.margin, Ruled: t.ruled(c), Heading: c.headed(t.Kind, c.Role), Fitting: 1, Common: 1, KindInferred: t.KindAssumed != ""}
}

// Trait is what is known of the values of the column's role.
func (c *Column) Trait() traits.Trait {
	if c.traitOf != c.Role {
		c.traitOf, c.traits = c.Role, traits.Of[c.Role]
	}
	return c.traits
}

// Points of the assignment of roles to columns. A heading that says exactly a role is worth ten; the values say how
// well they fit. They order readings of a table and are no probabilities.
const (
	headingPoints = 10.0
	// leastPoints is what a column needs to get a role at all.
	leastPoints = 2.5
	// countPoints are taken from a column of small whole numbers that nothing calls part numbers: it may be one of counts, such as the stock.
	countPoints = 1.5
	// leastMargin is how far the best reading must be ahead of the next for a column of sizes to be used.
	leastMargin = 1.5
)

// columnsOf looks at every column of a region that has content.
func columnsOf(r *layout.Region, lex *lexicon.Lexicon) []*Column {
	lines := r.SampleLines()
	var columns []*Column
	for _, h := range r.Columns {
		own := lines
		if len(h.Beside) > 0 { // the one size of the column counts as much as each of the others
			own = lines[:min(len(lines), 1)]
		}
		p := profileOf(r, lex, h.Col, own)
		for _, text := range h.Beside {
			p.add(lex, text, sheet.Cell{Kind: sheet.Text, Raw: text, Shown: text})
		}
		if h.Text == "" && p.Filled == 0 {
			continue
		}
		columns = append(columns, newColumn(lex, r, withWords(h, lex, &p), p))
	}
	pairDeviations(columns)
	pairLimits(columns)
	pairAges(columns, lex)
	pairPacks(columns, lex)
	preferSpoken(columns)
	pairSets(columns, r.Grid, lex, lines)
	return columns
}

// newColumn looks at what the heading of a column says.
func newColumn(lex *lexicon.Lexicon, r *layout.Region, h layout.Heading, p profile) *Column {
	c := &Column{Heading: h, Profile: p, Scale: 1, hidden: r.Grid.AsDrawn() && r.Grid.Sheet.HiddenCols[h.Col]}
	for _, kind := range []catalog.Kind{catalog.UnknownKind, catalog.Heads, catalog.Ferrules, catalog.Tips} {
		c.Matches[kind] = headingMatches(lex, kind, besideTips(lex, h, &p))
	}
	c.Hints = lex.Words.Hints(h.Text)
	if h.Gives != layout.Itself {
		c.Hints = lex.Words.Hints(strings.Join(h.Parts, " ")) // what counts its readings says nothing of the size
	}
	c.HeadingUnit = layout.HeadingUnit(lex, h)
	if len(p.Sizes) > 0 && p.tipShare(c.units()) < fewTips {
		c.Matches[catalog.Ferrules] = orTop(c.Matches[catalog.Ferrules], c.Matches[catalog.Heads])
	}
	switch {
	case h.Packs:
		c.headPacks()
	case h.Types:
		c.irrelevant = "says which kind of part each row is"
	case lex.HeadsPieces(h.Text) && p.Filled > 0 && !slices.ContainsFunc(p.Texts, func(text string) bool { return lexicon.PiecesOf(text) == 0 }):
		c.irrelevant, c.GivesPieces = givesPieces, true
	case (lex.HeadsPieces(h.Text) || lex.SaysUnit(h.Text)) && lex.NamesPieces(p.Texts): // EA and DZ under "UOM"
		c.irrelevant, c.GivesPieces, c.InWords = givesPieces, true, true
	case lexicon.IsPriceBreak(h.Text) && !(lexicon.FromOne(h.Text) && words.IsCurrency(c.HeadingUnit)):
		c.irrelevant, c.breaks = "heading gives a quantity, as for a price of several", true
	case lex.CountsPacks(h.Text):
		c.irrelevant = countsPacks
	case p.Filled > 0 && p.share(p.small) == 1 && lex.PerSet(h.Text) && c.headed(catalog.UnknownKind, catalog.Pack) < lexicon.SpecificHeading:
		c.irrelevant = countsSet
	case c.Hints.Measured && len(c.Matches[catalog.UnknownKind]) > 0 && traits.Of[catalog.Role(c.Matches[catalog.UnknownKind][0].Role)].Want == traits.Count:
		c.irrelevant = "counts what was measured"
	case c.hardlyCounts() && p.numbersLines(): // "Sl." in India
		c.irrelevant = "numbers the lines"
	case len(c.Matches[catalog.UnknownKind]) == 0 && lex.Words.Irrelevant(h.Parts...):
		c.irrelevant, c.aside = "heading speaks of what no joint depends on", true
	}
	c.Per, c.Lot, c.PerDoubtful = lex.PricePerOrDoubt(h.Text)
	for _, part := range h.Parts { // "Bag of 12" above "£": together twelve pounds
		if per, lot, _ := lex.PricePerOrDoubt(part); c.Per <= 1 && per > 1 {
			c.Per, c.Lot, c.PerDoubtful = per, lot, false
		}
	}
	return c
}

// hardlyCounts reports whether a heading is one of counts, but hardly.
func (c *Column) hardlyCounts() bool {
	found := c.Matches[catalog.UnknownKind]
	return len(found) > 0 && found[0].Score < lexicon.Understood && traits.Of[catalog.Role(found[0].Role)].Want == traits.Count
}

// headPacks takes a column for one of packs.
func (c *Column) headPacks() {
	said := []words.RoleMatch{{Role: string(catalog.Pack), Score: 1, Words: c.Text}}
	c.Matches = [4][]words.RoleMatch{catalog.UnknownKind: said, catalog.Heads: said, catalog.Ferrules: said, catalog.Tips: said}
}

// besideTips takes off the end of a heading in brackets over cells that all end in a tip in brackets, which it names: "Inner dia (for tip)" over
// 9.25 (.370).
func besideTips(lex *lexicon.Lexicon, h layout.Heading, p *profile) layout.Heading {
	before, _, found := lexicon.CutBrackets(h.Text)
	if !found || len(h.Parts) != 1 || len(p.Texts) == 0 {
		return h
	}
	for _, text := range p.Texts {
		size, tip, both := lexicon.CutBrackets(text)
		if !both || !lexicon.LooksNumeric(size) || len(lexicon.Named(lex.TipsIn(tip, false))) == 0 {
			return h
		}
	}
	h.Parts, h.Text = []string{before}, before
	return h
}

// withWords adds to a heading that is vague by itself the word that stands with the number in every cell below, where the two
// together name a size: "Hosel" over "0.370 bore".
func withWords(h layout.Heading, lex *lexicon.Lexicon, p *profile) layout.Heading {
	found := lex.Match(h.Parts...)
	if len(p.Texts) < 2 || len(found) == 0 || found[0].Score > lexicon.SpecificHeading {
		return h
	}
	shared := lexicon.WordsBeside(p.Texts[0])
	for _, text := range p.Texts[1:] {
		own := lexicon.WordsBeside(text)
		shared = slices.DeleteFunc(shared, func(word string) bool { return !slices.Contains(own, word) })
	}
	for _, word := range shared {
		joined := append(slices.Clone(h.Parts), word)
		better := lex.Match(joined...)
		if len(better) > 0 && better[0].Score >= lexicon.CertainHeading && traits.Of[catalog.Role(better[0].Role)].Want == traits.Length {
			h.Parts, h.Text = joined, h.Text+" "+word
			return h
		}
	}
	return h
}

// headingMatches returns the roles that a heading may have. Where the fragments together say nothing, the last one
// alone may, unless it is no more than the unit or the count of what no joint depends on: "pcs" below "MOQ", "qty" below "You asked for".
func headingMatches(l *lexicon.Lexicon, kind catalog.Kind, h layout.Heading) []words.RoleMatch {
	found := l.MatchIn(kind, h.Parts...)
	for i := len(h.Parts) - 1; i >= 0 && len(found) == 0 && len(h.Parts) > 1; i-- {
		if (l.IsUnit(h.Parts[i]) || l.Words.Means("count", h.Parts[i])) && slices.ContainsFunc(h.Parts, func(part string) bool { return l.Words.Irrelevant(part) }) {
			continue
		}
		for _, m := range l.MatchIn(kind, h.Parts[i]) {
			m.Score *= 0.8
			found = append(found, m)
		}
	}
	if len(found) == 0 {
		found = namedBeside(l, kind, h.Text)
	}
	return found
}

// fewTips is the share of sizes that are those of tips below which a column of them hardly gives tips.
const fewTips = 0.3

// orTop lets a heading of the tip that a ferrule takes, as found for heads, also be that of a ferrule's top, which the word for an end means
// as well: "Ø punta" over sizes of which few are those of tips.
func orTop(ferrules, heads []words.RoleMatch) []words.RoleMatch {
	at := slices.IndexFunc(heads, func(m words.RoleMatch) bool { return catalog.Role(m.Role) == catalog.TipTaken })
	if at < 0 || slices.ContainsFunc(ferrules, func(m words.RoleMatch) bool { return catalog.Role(m.Role) == catalog.TopOD }) {
		return ferrules
	}
	top := heads[at]
	top.Role, top.Score = string(catalog.TopOD), 0.9*top.Score
	return append(slices.Clip(ferrules), top)
}

// namedBeside returns the roles of texts in a heading that names something else beside them: "Model & loft" is over models. Of sizes and
// numbers nobody could know which of the two a cell gives.
func namedBeside(l *lexicon.Lexicon, kind catalog.Kind, heading string) []words.RoleMatch {
	pieces := strings.FieldsFunc(heading, func(r rune) bool { return strings.ContainsRune("&/+＆／", r) })
	if len(pieces) != 2 {
		return nil
	}
	var found []words.RoleMatch
	for i, piece := range pieces {
		if len(l.Match(pieces[1-i])) > 0 {
			continue
		}
		for _, m := range l.MatchIn(kind, strings.TrimSpace(piece)) {
			if traits.Of[catalog.Role(m.Role)].Want == traits.Text {
				m.Score *= 0.8
				found = append(found, m)
			}
		}
	}
	return found
}

// headed returns how strongly the heading supports a role in a table of a kind.
func (c *Column) headed(kind catalog.Kind, role catalog.Role) float64 {
	for _, m := range c.Matches[headingKind(kind, role)] {
		if catalog.Role(m.Role) == role {
			return m.Score
		}
	}
	return 0
}

// headingKind is the kind of table by which a heading is judged: the tip is a role of heads, and means the same where a
// table of ferrules says which tip they fit.
func headingKind(kind catalog.Kind, role catalog.Role) catalog.Kind {
	if role == catalog.TipTaken {
		return catalog.Heads
	}
	return kind
}

// bestHeading returns the strongest support for any role.
func (c *Column) bestHeading() float64 {
	if len(c.Matches[catalog.UnknownKind]) == 0 {
		return 0
	}
	return c.Matches[catalog.UnknownKind][0].Score
}

// units returns the units in which the column's bare numbers may be.
func (c *Column) units() []string {
	if traits.IsLengthUnit(c.HeadingUnit) {
		return []string{c.HeadingUnit}
	}
	if unit := c.FormatUnit(); unit != "" {
		return []string{unit}
	}
	return []string{"mm", "in", "thou"}
}

// fit returns how well a column fits a role in a table of a kind, in points. Of columns that fit alike the one that can
// be seen and stands further left is better.
func (c *Column) fit(lex *lexicon.Lexicon, kind catalog.Kind, role catalog.Role, guessed bool) float64 {
	points := c.fitAlone(lex, kind, role, guessed) - 0.001*float64(c.Col)
	if c.hidden {
		points -= 0.5
	}
	return points
}

func (c *Column) fitAlone(lex *lexicon.Lexicon, kind catalog.Kind, role catalog.Role, guessed bool) float64 {
	if c.irrelevant != "" || c.Deviation != 0 || c.follower() || c.limitWith != nil || c.TickedIn > 0 {
		return -20
	}
	h := c.headed(kind, role)
	if role == catalog.Price && h < currencyHeading && (words.IsCurrency(c.HeadingUnit) || lex.OnlyPer(c.Text) || c.pricesPack()) {
		h = currencyHeading
	}
	if role == catalog.Pack && (c.pricesPack() || c.Per > 1 && lex.SpeaksOfPrice(c.Text)) {
		return -20
	}
	if want := traits.Of[role].Want; (want == traits.Text || want == traits.Code) && h >= lexicon.LeastHeading && c.givesMoney(lex) {
		return -20
	}
	values := func() float64 { return c.valuePoints(lex, kind, role) } // only where they count: they are looked at one by one
	if role == catalog.Club && c.Profile.counts() && c.Profile.Texts[0] == "1" {
		return -20 // numbers of lines
	}
	if role == catalog.Club && ((c.bestHeading() < lexicon.SpecificHeading || c.headsSizes(kind)) && c.namesClubs() || c.onlyClubs()) {
		return headingPoints*max(h, lexicon.Understood) + values()
	}
	refuted := traits.Of[role].Want == traits.Count && (c.uniqueCodes() || c.onlyClubs()) || role == catalog.UnitRole && c.mostlyCodes()
	if h >= lexicon.LeastHeading && !refuted {
		points := headingPoints*h + values() + traits.Of[role].Prior
		switch {
		case role == catalog.Part && c.namesKinds(lex):
			points -= kindPoints
		case role == catalog.Stock && c.flags():
			points -= flagPoints
		case role == catalog.Top && h < lexicon.SpecificHeading && c.Profile.Filled > 2 && c.Profile.distinct == 1:
			return -20 // "Type" above one word for all says nothing of hosels
		}
		return points
	}
	if role == catalog.Part && c.refuted(lex, kind) {
		return headingPoints*lexicon.Understood + values() + traits.Of[role].Prior
	}
	if lex.Recogniser(role) != nil && role != catalog.Club && c.bestHeading() < lexicon.Understood && c.Profile.Filled > 0 {
		return values()
	}
	if traits.Of[role].Prior == 0 || c.Profile.Filled == 0 || !guessed && (c.bestHeading() >= lexicon.Understood || !keyRoles[role]) {
		return -20
	}
	points := values()
	if !guessed && c.Text != "" {
		points--
	}
	if role == catalog.Part && c.Profile.share(c.Profile.small) > 0.5 {
		points -= countPoints
	}
	return points - 0.5 + traits.Of[role].Prior/2
}

// flagPoints is what a column loses that only says whether parts are in stock: one beside it says how many.
const flagPoints = 6

// flags reports whether the values of a column are ones and noughts, as answers of a shop's program are.
func (c *Column) flags() bool {
	p := &c.Profile
	return p.Filled > 2 && len(p.Texts) > 2 && !slices.ContainsFunc(p.Texts, func(text string) bool { return text != "0" && text != "1" })
}

// pricesPack reports whether the heading of a column names a pack and how many are in it, "bag of 25", and the amounts below are no counts.
func (c *Column) pricesPack() bool {
	return c.Lot == lexicon.OfPack && c.Per > 1 && c.Profile.share(c.Profile.shownDecimals) > 0.5
}

// preferSpoken lets a heading of which another language knows something else mean what it means in the language of the others: "Stok" is a club in Dutch,
// and the stock in Turkish.
func preferSpoken(columns []*Column) {
	spoken := languageOf(columns, catalog.UnknownKind)
	if spoken == "" || spoken == "en" { // English words stand in lists of all languages
		return
	}
	for _, c := range columns {
		for kind, found := range c.Matches {
			if strings.ContainsFunc(c.Text, lexicon.IsWide) { // Chinese and Japanese share their words
				continue
			}
			if len(found) < 2 || found[0].Language == spoken || found[0].Language == "en" || found[0].Language == "sign" {
				continue
			}
			at := slices.IndexFunc(found, func(m words.RoleMatch) bool {
				return m.Language == spoken && m.Words == found[0].Words && m.Score >= lexicon.Understood
			})
			if at < 0 {
				continue
			}
			found = slices.Clone(found)
			found[0].Score, found[at].Score = found[at].Score, found[0].Score
			found[0], found[at] = found[at], found[0]
			c.Matches[kind] = found
		}
	}
}

// countsPacks is said of a column of numbers of packs.
const countsPacks = "counts packs, and not the pieces in one"

// pairPacks finds the columns that count the packs of which another one has the price and says how many are in one, "Bag of 10", "Bags", or gives that
// for each row: "Nb sachets", "Pièces par sachet".
func pairPacks(columns []*Column, lex *lexicon.Lexicon) {
	if slices.ContainsFunc(columns, func(c *Column) bool {
		return c.headed(catalog.UnknownKind, catalog.Pack) >= lexicon.SpecificHeading && lex.PerPack(c.Text)
	}) {
		for _, c := range columns {
			if c.irrelevant == "" && c.Profile.share(c.Profile.whole) > 0.5 && lex.NumbersPacks(c.Text) && !lex.PerPack(c.Text) {
				c.irrelevant = countsPacks
			}
		}
	}
	if !slices.ContainsFunc(columns, (*Column).pricesPack) {
		return
	}
	for _, c := range columns {
		if lex.NamesPack(c.Text) && c.Profile.distinct > 1 {
			c.irrelevant = countsPacks
		}
	}
}

// uniqueCodes reports whether the values look like part numbers, each another one.
func (c *Column) uniqueCodes() bool {
	p := &c.Profile
	return p.Filled >= 3 && p.distinct == p.Filled && p.share(p.codes) >= 0.9 && p.share(p.whole+p.decimals) < 0.5
}

// mostlyCodes reports whether most values look like part numbers, each another one: those of a table on its side stand in one line with the
// heading of its remarks.
func (c *Column) mostlyCodes() bool {
	p := &c.Profile
	return p.Filled >= 3 && p.distinct == p.Filled && p.share(p.codes) > 0.7 && p.share(p.whole+p.decimals) < 0.5
}

// headsSizes reports whether the heading of a column says a size of a kind of part, which clubs are in no language but another: "Hole" is
// Czech for clubs.
func (c *Column) headsSizes(kind catalog.Kind) bool {
	found := c.Matches[kind]
	return len(found) > 0 && traits.Of[catalog.Role(found[0].Role)].Want == traits.Length
}

// namesClubs reports whether most texts of a column are unmistakable clubs or sets of them: 4-PW, 3W, #7. Plain numbers and
// lofts may be anything, but beside several sets they are clubs too: 52 below "4-PW" and "5-PW, SW".
func (c *Column) namesClubs() bool {
	return c.Profile.sets > 0 && c.Profile.named()*5 >= c.Profile.Filled*3
}

// onlyClubs reports whether all texts of a column are clubs and several of them sets: then they are whatever a word above them says that is no part
// number, "What's in it".
func (c *Column) onlyClubs() bool {
	return c.Profile.sets >= leastSets && c.Profile.named() == c.Profile.Filled
}

// saysClubs reports whether a column has a heading that says clubs, and clubs below it in most cells: then no other one is of clubs for its
// values alone.
func (c *Column) saysClubs(lex *lexicon.Lexicon, kind catalog.Kind) bool {
	return kind == catalog.Heads && c.headed(kind, catalog.Club) >= lexicon.LeastHeading &&
		c.Profile.share(c.Profile.count(func(text string) bool { return len(lex.SetOf("", text)) > 0 })) >= rivalSizes
}

// kindPoints is what a column of part numbers loses whose texts are kinds of clubs, some of them several times: those under "Item" say what
// each is, and its number stands elsewhere.
const kindPoints = 8

// namesKinds reports whether nearly all texts of a column name a kind of club, and some stand several times.
func (c *Column) namesKinds(lex *lexicon.Lexicon) bool {
	p := &c.Profile
	if p.Filled < 3 || p.distinct == p.Filled {
		return false
	}
	return p.share(p.count(lex.Recogniser(catalog.Category))) >= 0.8
}

// brief reports whether a column says the same few things again and again, in fewer than five characters on the average, wide
// ones counted threefold.
func (c *Column) brief() bool {
	count := 0
	for _, text := range c.Profile.Texts {
		for _, r := range text {
			count++
			if r >= 0x1100 {
				count += 2
			}
		}
	}
	return count < 5*c.Profile.Filled && c.Profile.distinct*2 <= c.Profile.Filled
}

// wordy reports whether at least half of the texts of a column have a word in them, as descriptions have and part numbers have not.
func (c *Column) wordy() bool {
	count := 0
	for _, text := range c.Profile.Texts {
		if strings.ContainsFunc(text, func(r rune) bool { return unicode.Is(unicode.Lo, r) }) || lexicon.HasWord(text) {
			count++
		}
	}
	return count > 0 && count*2 >= c.Profile.Filled
}

// refuted reports whether the values speak against the role that the heading says: codes under "Stock no." and "Lot", and under "Material", as some
// software calls everything that it keeps account of, or beside the heading of the units of a table on its side.
func (c *Column) refuted(lex *lexicon.Lexicon, kind catalog.Kind) bool {
	if len(c.Matches[kind]) == 0 {
		return false
	}
	role := catalog.Role(c.Matches[kind][0].Role)
	if c.Matches[kind][0].Score > lexicon.SpecificHeading && role != catalog.Material && traits.Of[role].Want != traits.Count {
		return false
	}
	if role == catalog.UnitRole {
		return c.mostlyCodes()
	}
	return role != catalog.Part && c.uniqueCodes() && c.valuePoints(lex, kind, role) <= -2
}

// currencyHeading is the score of a heading that names a currency, or a number of pieces alone, as one of prices.
const currencyHeading = 0.6

// keyRoles are the roles that a table cannot do without, so that a column whose heading is not understood is suggested for
// them by its values. Others are not: a column of lofts looks like one of bores.
var keyRoles = map[catalog.Role]bool{catalog.Part: true, catalog.HoselOD: true, catalog.BaseOD: true, catalog.TipOD: true}

// valuePoints returns what the values of a column say for or against a role.
func (c *Column) valuePoints(lex *lexicon.Lexicon, kind catalog.Kind, role catalog.Role) float64 {
	p := &c.Profile
	if p.Filled == 0 {
		return 0
	}
	switch traits.Of[role].Want {
	case traits.Length:
		return c.sizePoints(kind, role)
	case traits.Code:
		distinct := float64(p.distinct) / float64(p.Filled)
		points := 2*p.share(p.codes) + 2*distinct - 6*(1-distinct) - 6*p.share(p.decimals)
		if p.counts() {
			points -= 13
		}
		return points
	case traits.Price:
		return 2*p.share(p.whole+p.decimals) - 1
	case traits.Count:
		return 2*p.share(p.whole) - 3*p.share(p.decimals) - 3*p.share(p.Filled-p.whole-p.decimals)
	case traits.Angle:
		return c.anglePoints()
	case traits.Tolerance:
		return 2*c.toleranceShare(lex) - 1
	case traits.Taper:
		return 1
	}
	return c.textPoints(lex, role)
}

// sizePoints compares the sizes of a column with what a role's sizes are.
func (c *Column) sizePoints(kind catalog.Kind, role catalog.Role) float64 {
	p := &c.Profile
	b, known := traits.BoundsOf(kind, role)
	if !known {
		return 0
	}
	if len(p.Sizes) == 0 {
		if role == catalog.TipTaken {
			return 0
		}
		return -5 * p.share(p.Filled-p.dates)
	}
	scale := 1.0
	if c.Hints.Radius {
		scale = 2
	}
	possible, common := p.best(b, c.units(), scale)
	readable := p.share(len(p.Sizes))
	points := (2*possible + 2*common - 5*(1-possible)) * min(1, readable)
	if role == catalog.TipTaken {
		tips := p.tipShare(c.units())
		points -= 3 * (1 - tips)
		if tips == 0 { // the far end of a ferrule, perhaps: 10.3
			points -= notTips
		}
	}
	return points
}

// notTips is what tells against a column of tips none of which is one that shafts have.
const notTips = 3

func (c *Column) anglePoints() float64 {
	if len(c.Profile.Sizes) == 0 {
		return 0
	}
	fitting := 0
	for _, s := range c.Profile.Sizes {
		if s.number >= 15 && s.number <= 180 {
			fitting++
		}
	}
	return 4*float64(fitting)/float64(len(c.Profile.Sizes)) - 2
}

func (c *Column) toleranceShare(lex *lexicon.Lexicon) float64 {
	fitting := 0
	for _, text := range c.Profile.Texts {
		if tolerance, ok := lex.ReadTolerance(text, c.HeadingUnit); ok && tolerance.Problem.Code == "" {
			fitting++
			continue
		}
		if reading := lex.Read(text, value.Context{Want: value.WantLength, Unit: "mm"}); reading.Kind == value.Length && traits.MM(reading.Dim.Nominal()) <= 1.5 {
			fitting++
		}
	}
	return c.Profile.share(fitting)
}

// textPoints says how many of a column's texts are words of a role.
func (c *Column) textPoints(lex *lexicon.Lexicon, role catalog.Role) float64 {
	recognise := lex.Recogniser(role)
	p := &c.Profile
	if recognise == nil {
		switch role {
		case catalog.Description:
			if c.brief() {
				return -6 // yes and no, signs, codes of a letter or two
			}
			points := p.share(p.longTexts) + float64(p.distinct)/float64(p.Filled) - 3*p.share(p.decimals)
			if last := c.Text[max(0, len(c.Text)-1):]; last >= "2" && last <= "9" {
				points -= 2 // the second line of a description goes on with the first
			}
			return points
		case catalog.Colour, catalog.Note:
			return -2 * p.share(p.decimals)
		}
		return 0
	}
	known := p.count(recognise)
	if role == catalog.Category && known == 0 && p.share(len(p.Sizes)) >= allSizes && p.whole == 0 {
		return -20 // sizes are no kinds of club, whatever stands above them: "Ø fer" beside "Ø canne"
	}
	points := 5*p.share(known) - 2
	if role == catalog.Category && !c.headedCategory() && p.Filled >= 3 && (p.distinct == p.Filled || c.numbersClubs(lex)) {
		points -= 5 // names of heads that begin with their kind: Iron 5, Iron 6; and clubs that come twice: 3 wood, 5 wood, 3 wood
	}
	return points
}

// allSizes is the share of the texts of a column that are sizes, none of them a whole number, where it gives sizes and no names.
const allSizes = 0.9

// numbersClubs reports whether most texts of a column are clubs by their numbers, one or a set, and the others kinds of which there is one alone:
// driver, 3 wood, 5 wood.
func (c *Column) numbersClubs(lex *lexicon.Lexicon) bool {
	numbered, kind := 0, lex.Recogniser(catalog.Category)
	for _, text := range c.Profile.Texts {
		switch {
		case lexicon.BearsNumber(text) && len(lex.SetOf("", text)) > 0:
			numbered++
		case !kind(text):
			return false
		}
	}
	return numbered*2 > len(c.Profile.Texts)
}

// headedCategory reports whether the heading of a column speaks of kinds of clubs rather than of clubs.
func (c *Column) headedCategory() bool {
	category := c.headed(catalog.Heads, catalog.Category)
	return category > 0 && category > c.headed(catalog.Heads, catalog.Club)
}

// plan is one reading of a table: a kind, and a role for each column.
type plan struct {
	kind   catalog.Kind
	roles  []catalog.Role
	points [][]float64
	chosen []int
	total  float64
	// bonus is for what the user or a title says.
	bonus float64
	// stated is set where somebody says what the table lists: the user, a title, or a heading that only such tables have.
	stated bool
	// named is set where the user or a title says so, given where the user does.
	named, given bool
}

// rank is what plans of different kinds are compared by.
func (p *plan) rank() float64 { return p.total + p.bonus }

// planFor finds the best roles for the columns of a table if it lists a kind.
func planFor(lex *lexicon.Lexicon, columns []*Column, kind catalog.Kind, guessed bool) plan {
	p := plan{kind: kind, roles: traits.OfKind[kind]}
	said := slices.ContainsFunc(columns, func(c *Column) bool { return c.saysClubs(lex, kind) })
	for _, c := range columns {
		row := make([]float64, len(p.roles))
		for j, role := range p.roles {
			row[j] = c.fit(lex, kind, role, guessed)
			if role == catalog.Club && said && c.headed(kind, role) < lexicon.LeastHeading {
				row[j] = -20
			}
		}
		p.points = append(p.points, row)
	}
	p.chosen = assign(p.points, leastPoints)
	p.total = total(p.points, p.chosen)
	return p
}

// role returns the role that a column gets.
func (p *plan) role(i int) catalog.Role {
	if p.chosen[i] < 0 {
		return ""
	}
	return p.roles[p.chosen[i]]
}

func (p *plan) has(roles ...catalog.Role) bool {
	for i := range p.chosen {
		if slices.Contains(roles, p.role(i)) {
			return true
		}
	}
	return false
}

// keyed reports whether a heading names the size that tables of the kind are about, with at least a score.
func (p *plan) keyed(columns []*Column, score float64) bool {
	for i, c := range columns {
		if role := p.role(i); role != catalog.Part && role != catalog.Bore && traits.Of[role].Prior == 2 && c.headed(p.kind, role) >= score {
			return true
		}
	}
	return false
}

// keyUnusual reports whether the sizes under the headings by which the reading is keyed are mostly not such as its parts commonly have.
func (p *plan) keyUnusual(columns []*Column) bool {
	for i, c := range columns {
		role := p.role(i)
		b, known := traits.BoundsOf(p.kind, role)
		if !known || role == catalog.Bore || traits.Of[role].Prior != 2 || c.headed(p.kind, role) < lexicon.CertainHeading {
			continue
		}
		if _, common := c.Profile.best(b, c.units(), 1); common >= rivalShare {
			return false
		}
	}
	return true
}

// specific reports whether a heading clearly names what only tables of the kind have.
func (p *plan) specific(columns []*Column) bool {
	for i, c := range columns {
		role := p.role(i)
		if traits.Of[role].Want == traits.Text || role == catalog.Length || c.headed(catalog.UnknownKind, role) < lexicon.SpecificHeading {
			continue
		}
		others := 0
		for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
			if kind != p.kind && slices.Contains(traits.OfKind[kind], role) {
				others++
			}
		}
		if others == 0 {
			return true
		}
	}
	return false
}

// makes are the roles of which a table of each kind has to have one.
var makes = [...][]catalog.Role{
	catalog.Heads:    {catalog.HoselOD, catalog.AdapterOD, catalog.Bore, catalog.BoreDepth, catalog.HoselLength, catalog.CountersinkMouth, catalog.CounterboreOD},
	catalog.Ferrules: {catalog.BaseOD, catalog.Bore, catalog.CollarOD, catalog.StepOD},
	catalog.Tips:     {catalog.TipOD},
}

// sensible reports whether the reading has what makes a table of its kind.
func (p *plan) sensible() bool { return p.has(makes[p.kind]...) }

// credible reports whether some of the sizes that make a table of its kind are such as parts of the kind have, in any unit and as radii
// too: cars have bores as well.
func (p *plan) credible(columns []*Column) bool {
	for i, c := range columns {
		role := p.role(i)
		b, known := traits.BoundsOf(p.kind, role)
		if !known || !slices.Contains(makes[p.kind], role) {
			continue
		}
		if c.Profile.Filled == 0 || c.Profile.dates > 0 {
			return true
		}
		for _, scale := range []float64{1, 2} {
			if possible, _ := c.Profile.best(b, traits.LengthUnits, scale); possible*float64(len(c.Profile.Sizes)) >= 0.3*float64(c.Profile.Filled) && possible > 0 {
				return true
			}
		}
	}
	return false
}

// runnerUp returns the role that a column gets, and by how much the whole reading is worse, when it may not have the
// one chosen. A column that has no role does not take the place: it states the same again, and is compared value by
// value.
func (p *plan) runnerUp(i int) (catalog.Role, float64) {
	points := slices.Clone(p.points)
	for k := range points {
		if k == i || p.chosen[k] < 0 {
			points[k] = slices.Clone(points[k])
			points[k][p.chosen[i]] = -20
		}
	}
	chosen := assign(points, leastPoints)
	second := catalog.Role("")
	if chosen[i] >= 0 {
		second = p.roles[chosen[i]]
	}
	return second, p.total - total(points, chosen)
}

// apply gives the columns the roles of the plan, with the evidence.
func (p *plan) apply(columns []*Column) {
	for i, c := range columns {
		c.Role = p.role(i)
		if c.Role == "" {
			c.Evidence = c.unassigned()
			continue
		}
		c.points = p.points[i][p.chosen[i]]
		c.Known = c.headed(p.kind, c.Role) >= lexicon.LeastHeading || c.Role == catalog.Price
		second, margin := p.runnerUp(i)
		c.second, c.margin = second, margin
		c.RunnerUp = string(second)
		c.Evidence = c.explain(p.kind)
	}
}

// alike is the score from which on a heading has the very words of the vocabulary, but for their form.
const alike = 0.9

// headingSays says how surely a heading has words.
func headingSays(words string, score float64) string {
	if words == "" {
		return "heading names a currency, or for how many pieces a price is"
	}
	if score < alike {
		return fmt.Sprintf("heading is much like %q", words)
	}
	return fmt.Sprintf("heading says %q", words)
}

// unassigned says why a column has no role.
func (c *Column) unassigned() string {
	if c.irrelevant != "" {
		return c.irrelevant
	}
	if found := c.Matches[catalog.UnknownKind]; len(found) > 0 {
		return fmt.Sprintf("heading could be %s, but its values or another column speak against it", catalog.RoleName(catalog.UnknownKind, catalog.Role(found[0].Role)))
	}
	if c.Text == "" {
		return "no heading"
	}
	return "heading not understood"
}

// explain says why a column has its role.
func (c *Column) explain(kind catalog.Kind) string {
	if c.Packs {
		return "read from texts, where they speak of packs"
	}
	var reasons []string
	if h := c.headed(kind, c.Role); h >= lexicon.LeastHeading {
		for _, m := range c.Matches[headingKind(kind, c.Role)] {
			if catalog.Role(m.Role) == c.Role {
				reasons = append(reasons, headingSays(m.Words, m.Score))
				break
			}
		}
	} else if c.Role == catalog.Price && c.Per > 1 && !c.Lot.Bundles() {
		reasons = append(reasons, fmt.Sprintf("heading says per %g and nothing else", c.Per))
	} else {
		reasons = append(reasons, "values only")
	}
	if b, ok := traits.BoundsOf(kind, c.Role); ok && len(c.Profile.Sizes) > 0 {
		possible, _ := c.Profile.best(b, c.units(), float64(c.Scale))
		reasons = append(reasons, fmt.Sprintf("%.0f%% of its sizes are between %g and %g mm", possible*100, b.Least, b.Most))
	}
	return strings.Join(reasons, "; ")
}

// PairsAreLimits reports whether two sizes with a slash between them are limits in this column: its heading says so, or
// nearly all its cells have such pairs and the heading does not name two things itself: "before / after".
func (c *Column) PairsAreLimits() bool {
	if c.Hints.Min && c.Hints.Max {
		return true
	}
	return !strings.ContainsAny(c.Text, "/／|") && c.Profile.pairs >= 2 && c.Profile.pairs*5 >= c.Profile.Filled*4
}

// PairsFall reports whether the greater of two limits stands first in this column.
func (c *Column) PairsFall() bool { return c.Profile.falling*2 > c.Profile.pairs }

// FormatUnit returns the unit that the number formats of the column show, where they agree.
func (c *Column) FormatUnit() string {
	if len(c.Profile.formatUnits) != 1 {
		return ""
	}
	for unit, count := range c.Profile.formatUnits {
		if traits.IsLengthUnit(unit) && count*2 > len(c.Profile.Sizes) {
			return unit
		}
	}
	return ""
}

// Bare returns the sizes that stand without a unit.
func (c *Column) Bare() []float64 {
	var numbers []float64
	for _, s := range c.Profile.Sizes {
		if s.unit == "" {
			numbers = append(numbers, s.number)
		}
	}
	return numbers
}

// Factor is what sizes are multiplied by to be diameters.
func (c *Column) Factor() float64 { return float64(c.Scale) }

// Name is how findings call a column.
func (c *Column) Name() string {
	if c.Text != "" {
		return c.Text
	}
	return catalog.RoleName(catalog.UnknownKind, c.Role)
}
