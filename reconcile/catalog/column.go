package catalog

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/catalog/words"
)

// aspect is what a column gives of a dimension that several columns share.
type aspect uint8

const (
	// nominal is the dimension itself.
	nominal aspect = iota
	// least and most are columns of limits.
	least
	most
	// repeat is a column that states the dimension again, in another unit.
	repeat
)

// column is one column of a table as it is understood.
type column struct {
	heading
	profile profile
	// matches are the roles that the heading may have in a table of each kind.
	matches [4][]words.RoleMatch
	hints   words.Hints
	// irrelevant is set where the heading speaks of what no joint depends on, or of the price of a quantity.
	irrelevant string
	role       Role
	aspect     aspect
	// what is known of the role that it had when trait was last asked.
	traitOf Role
	traits  trait
	// points are how well the role fits; margin is by how much the best other reading of the table is worse.
	points, margin float64
	// second is the next best role, empty where it is none.
	second Role
	// known is set where the heading itself gives the role.
	known    bool
	evidence string
	runnerUp string
	// hidden is set where the sheet hides the column.
	hidden bool
	// held is why the values of the column are not used, empty where they are.
	held string
	// headingUnit is the unit that the heading or the unit line names.
	headingUnit string
	// scale is what stored numbers are multiplied by: 2 in a column of radii.
	scale int64
	// clubs are the columns that it stands for, where each gives the size of another club.
	clubs []clubColumn
	// covers is the role whose values a column of tolerances covers, empty where none is named.
	covers Role
	// deviation is 1 in a column of upper deviations and -1 in one of lower ones; partner is the column of the others, at the
	// left one of the two.
	deviation int
	partner   *column
}

// trait is what is known of the values of the column's role.
func (c *column) trait() trait {
	if c.traitOf != c.role {
		c.traitOf, c.traits = c.role, traits[c.role]
	}
	return c.traits
}

// Points of the assignment of roles to columns. A heading that says exactly a role is worth ten; the values say how
// well they fit. They order readings of a table and are no probabilities.
const (
	headingPoints = 10.0
	// leastPoints is what a column needs to get a role at all.
	leastPoints = 2.5
	// leastMargin is how far the best reading must be ahead of the next for a column of sizes to be used.
	leastMargin = 1.5
)

// columnsOf looks at every column of a region that has content.
func columnsOf(r *region, lex *lexicon) []*column {
	lines := r.sampleLines()
	var columns []*column
	for _, h := range r.columns {
		p := profileOf(r, lex, h.col, lines)
		if h.text == "" && p.filled == 0 {
			continue
		}
		columns = append(columns, newColumn(lex, r, withWords(h, lex, &p), p))
	}
	pairDeviations(columns)
	return columns
}

// newColumn looks at what the heading of a column says.
func newColumn(lex *lexicon, r *region, h heading, p profile) *column {
	c := &column{heading: h, profile: p, scale: 1, hidden: !r.grid.turned && r.grid.sheet.HiddenCols[h.col]}
	for _, kind := range []Kind{UnknownKind, Heads, Ferrules, Tips} {
		c.matches[kind] = headingMatches(lex, kind, h)
	}
	c.hints = lex.words.Hints(h.text)
	switch {
	case isPriceBreak(h.text):
		c.irrelevant = "heading gives a quantity, as for a price of several"
	case len(c.matches[UnknownKind]) == 0 && lex.words.Irrelevant(h.parts...):
		c.irrelevant = "heading speaks of what no joint depends on"
	}
	c.headingUnit = headingUnit(lex, h)
	return c
}

// withWords adds to a heading that is vague by itself the word that stands with the number in every cell below, where the two
// together name a size: "Hosel" over "0.370 bore".
func withWords(h heading, lex *lexicon, p *profile) heading {
	found := lex.match(h.parts...)
	if len(p.texts) < 2 || len(found) == 0 || found[0].Score > specificHeading {
		return h
	}
	shared := wordsBeside(p.texts[0])
	for _, text := range p.texts[1:] {
		own := wordsBeside(text)
		shared = slices.DeleteFunc(shared, func(word string) bool { return !slices.Contains(own, word) })
	}
	for _, word := range shared {
		joined := append(slices.Clone(h.parts), word)
		better := lex.match(joined...)
		if len(better) > 0 && better[0].Score >= certainHeading && traits[Role(better[0].Role)].want == wantLength {
			h.parts, h.text = joined, h.text+" "+word
			return h
		}
	}
	return h
}

// headingMatches returns the roles that a heading may have. Where the fragments together say nothing, the last one
// alone may.
func headingMatches(l *lexicon, kind Kind, h heading) []words.RoleMatch {
	found := l.matchIn(kind, h.parts...)
	for i := len(h.parts) - 1; i >= 0 && len(found) == 0 && len(h.parts) > 1; i-- {
		for _, m := range l.matchIn(kind, h.parts[i]) {
			m.Score *= 0.8
			found = append(found, m)
		}
	}
	return found
}

// headed returns how strongly the heading supports a role in a table of a kind.
func (c *column) headed(kind Kind, role Role) float64 {
	for _, m := range c.matches[headingKind(kind, role)] {
		if Role(m.Role) == role {
			return m.Score
		}
	}
	return 0
}

// headingKind is the kind of table by which a heading is judged: the tip is a role of heads, and means the same where a
// table of ferrules says which tip they fit.
func headingKind(kind Kind, role Role) Kind {
	if role == TipTaken {
		return Heads
	}
	return kind
}

// bestHeading returns the strongest support for any role.
func (c *column) bestHeading() float64 {
	if len(c.matches[UnknownKind]) == 0 {
		return 0
	}
	return c.matches[UnknownKind][0].Score
}

// units returns the units in which the column's bare numbers may be.
func (c *column) units() []string {
	if isLengthUnit(c.headingUnit) {
		return []string{c.headingUnit}
	}
	if unit := c.formatUnit(); unit != "" {
		return []string{unit}
	}
	return []string{"mm", "in", "thou"}
}

// fit returns how well a column fits a role in a table of a kind, in points. Of columns that fit alike the one that can
// be seen and stands further left is better.
func (c *column) fit(lex *lexicon, kind Kind, role Role, guessed bool) float64 {
	points := c.fitAlone(lex, kind, role, guessed) - 0.001*float64(c.col)
	if c.hidden {
		points -= 0.5
	}
	return points
}

func (c *column) fitAlone(lex *lexicon, kind Kind, role Role, guessed bool) float64 {
	if c.irrelevant != "" || c.deviation != 0 {
		return -20
	}
	h := c.headed(kind, role)
	if role == Price && h < currencyHeading && isCurrency(c.headingUnit) {
		h = currencyHeading
	}
	values := func() float64 { return c.valuePoints(lex, kind, role) } // only where they count: they are looked at one by one
	if role == Club && c.profile.counts() && c.profile.texts[0] == "1" {
		return -20 // numbers of lines
	}
	if role == Club && c.bestHeading() < specificHeading && c.namesClubs(lex) {
		return headingPoints*max(h, understood) + values()
	}
	if h >= leastHeading && !(traits[role].want == wantCount && h <= specificHeading && c.uniqueCodes()) {
		return headingPoints*h + values() + traits[role].prior
	}
	if role == Part && c.uniqueCodes() && c.refuted(lex, kind) {
		return headingPoints*understood + values() + traits[role].prior
	}
	if lex.recogniser(role) != nil && role != Club && c.bestHeading() < understood && c.profile.filled > 0 {
		return values()
	}
	if traits[role].prior == 0 || c.profile.filled == 0 || !guessed && (c.bestHeading() >= understood || !keyRoles[role]) {
		return -20
	}
	points := values()
	if !guessed && c.text != "" {
		points--
	}
	return points - 0.5 + traits[role].prior/2
}

// uniqueCodes reports whether the values look like part numbers, each another one.
func (c *column) uniqueCodes() bool {
	p := &c.profile
	return p.filled >= 3 && p.distinct == p.filled && p.share(p.codes) >= 0.9 && p.share(p.whole+p.decimals) < 0.5
}

// namesClubs reports whether most texts of a column are unmistakable clubs or sets of them: 4-PW, 3W, #7. Plain numbers and
// lofts may be anything.
func (c *column) namesClubs(lex *lexicon) bool {
	named, sets := 0, 0
	for _, text := range c.profile.texts {
		if set := lex.setOf("", text); len(set) > 0 && !strings.Contains(text, "°") {
			named++
			if len(set) > 1 {
				sets++
			}
		}
	}
	return sets > 0 && named*5 >= c.profile.filled*3
}

// brief reports whether a column says the same few things again and again, in fewer than five characters on the average, wide
// ones counted threefold.
func (c *column) brief() bool {
	count := 0
	for _, text := range c.profile.texts {
		for _, r := range text {
			count++
			if r >= 0x1100 {
				count += 2
			}
		}
	}
	return count < 5*c.profile.filled && c.profile.distinct*2 <= c.profile.filled
}

// wordy reports whether at least half of the texts of a column have a word in them, as descriptions have and part numbers have not.
func (c *column) wordy() bool {
	count := 0
	for _, text := range c.profile.texts {
		if strings.ContainsFunc(text, func(r rune) bool { return unicode.Is(unicode.Lo, r) }) || hasWord(text) {
			count++
		}
	}
	return count > 0 && count*2 >= c.profile.filled
}

// refuted reports whether the values speak against the role that the heading says: codes under "Stock no.".
func (c *column) refuted(lex *lexicon, kind Kind) bool {
	if len(c.matches[kind]) == 0 || c.matches[kind][0].Score > specificHeading {
		return false
	}
	role := Role(c.matches[kind][0].Role)
	return role != Part && c.valuePoints(lex, kind, role) <= -2
}

// currencyHeading is the score of a heading that names a currency as one of prices.
const currencyHeading = 0.6

// isCurrency reports whether a unit is a currency: three capitals.
func isCurrency(unit string) bool {
	return len(unit) == 3 && strings.ToUpper(unit) == unit && strings.Trim(unit, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// keyRoles are the roles that a table cannot do without, so that a column whose heading is not understood is suggested for
// them by its values. Others are not: a column of lofts looks like one of bores.
var keyRoles = map[Role]bool{Part: true, HoselOD: true, BaseOD: true, TipOD: true}

// valuePoints returns what the values of a column say for or against a role.
func (c *column) valuePoints(lex *lexicon, kind Kind, role Role) float64 {
	p := &c.profile
	if p.filled == 0 {
		return 0
	}
	switch traits[role].want {
	case wantLength:
		return c.sizePoints(kind, role)
	case wantCode:
		distinct := float64(p.distinct) / float64(p.filled)
		points := 2*p.share(p.codes) + 2*distinct - 6*(1-distinct) - 6*p.share(p.decimals)
		if p.counts() {
			points -= 13
		}
		return points
	case wantPrice:
		return 2*p.share(p.whole+p.decimals) - 1
	case wantCount:
		return 2*p.share(p.whole) - 3*p.share(p.decimals) - 3*p.share(p.filled-p.whole-p.decimals)
	case wantAngle:
		return c.anglePoints()
	case wantTolerance:
		return 2*c.toleranceShare(lex) - 1
	case wantTaper:
		return 1
	}
	return c.textPoints(lex, role)
}

// sizePoints compares the sizes of a column with what a role's sizes are.
func (c *column) sizePoints(kind Kind, role Role) float64 {
	p := &c.profile
	b, known := boundsOf(kind, role)
	if !known {
		return 0
	}
	if len(p.sizes) == 0 {
		if role == TipTaken {
			return 0
		}
		return -5 * p.share(p.filled-p.dates)
	}
	scale := 1.0
	if c.hints.Radius {
		scale = 2
	}
	possible, common := p.best(b, c.units(), scale)
	readable := p.share(len(p.sizes))
	points := (2*possible + 2*common - 5*(1-possible)) * min(1, readable)
	if role == TipTaken {
		points -= 3 * (1 - p.tipShare(c.units()))
	}
	return points
}

func (c *column) anglePoints() float64 {
	if len(c.profile.sizes) == 0 {
		return 0
	}
	fitting := 0
	for _, s := range c.profile.sizes {
		if s.number >= 15 && s.number <= 180 {
			fitting++
		}
	}
	return 4*float64(fitting)/float64(len(c.profile.sizes)) - 2
}

func (c *column) toleranceShare(lex *lexicon) float64 {
	fitting := 0
	for _, text := range c.profile.texts {
		if tolerance, ok := lex.readTolerance(text, c.headingUnit); ok && tolerance.Problem.Code == "" {
			fitting++
			continue
		}
		if reading := lex.read(text, value.Context{Want: value.WantLength, Unit: "mm"}); reading.Kind == value.Length && mm(reading.Dim.Nominal()) <= 1.5 {
			fitting++
		}
	}
	return c.profile.share(fitting)
}

// textPoints says how many of a column's texts are words of a role.
func (c *column) textPoints(lex *lexicon, role Role) float64 {
	recognise := lex.recogniser(role)
	p := &c.profile
	if recognise == nil {
		switch role {
		case Description:
			if c.brief() {
				return -6 // yes and no, signs, codes of a letter or two
			}
			return p.share(p.longTexts) + float64(p.distinct)/float64(p.filled) - 3*p.share(p.decimals)
		case Colour, Note:
			return -2 * p.share(p.decimals)
		}
		return 0
	}
	hits := 0
	for _, text := range p.texts {
		if recognise(text) {
			hits++
		}
	}
	points := 5*p.share(hits) - 2
	if role == Category && c.text == "" && p.filled >= 3 && p.distinct == p.filled {
		points -= 5 // names of heads that begin with their kind: Iron 5, Iron 6
	}
	return points
}

// plan is one reading of a table: a kind, and a role for each column.
type plan struct {
	kind   Kind
	roles  []Role
	points [][]float64
	chosen []int
	total  float64
	// bonus is for what the user or a title says.
	bonus float64
	// stated is set where somebody says what the table lists: the user, a title, or a heading that only such tables have.
	stated bool
	// named is set where the user or a title says so.
	named bool
}

// rank is what plans of different kinds are compared by.
func (p *plan) rank() float64 { return p.total + p.bonus }

// planFor finds the best roles for the columns of a table if it lists a kind.
func planFor(lex *lexicon, columns []*column, kind Kind, guessed bool) plan {
	p := plan{kind: kind, roles: kindRoles[kind]}
	for _, c := range columns {
		row := make([]float64, len(p.roles))
		for j, role := range p.roles {
			row[j] = c.fit(lex, kind, role, guessed)
		}
		p.points = append(p.points, row)
	}
	p.chosen = assign(p.points, leastPoints)
	p.total = total(p.points, p.chosen)
	return p
}

// role returns the role that a column gets.
func (p *plan) role(i int) Role {
	if p.chosen[i] < 0 {
		return ""
	}
	return p.roles[p.chosen[i]]
}

func (p *plan) has(roles ...Role) bool {
	for i := range p.chosen {
		if slices.Contains(roles, p.role(i)) {
			return true
		}
	}
	return false
}

// keyed reports whether a heading names the size that tables of the kind are about, with at least a score.
func (p *plan) keyed(columns []*column, score float64) bool {
	for i, c := range columns {
		if role := p.role(i); role != Part && role != Bore && traits[role].prior == 2 && c.headed(p.kind, role) >= score {
			return true
		}
	}
	return false
}

// specific reports whether a heading clearly names what only tables of the kind have.
func (p *plan) specific(columns []*column) bool {
	for i, c := range columns {
		role := p.role(i)
		if traits[role].want == wantText || role == Length || c.headed(UnknownKind, role) < specificHeading {
			continue
		}
		others := 0
		for _, kind := range []Kind{Heads, Ferrules, Tips} {
			if kind != p.kind && slices.Contains(kindRoles[kind], role) {
				others++
			}
		}
		if others == 0 {
			return true
		}
	}
	return false
}

// sensible reports whether the reading has what makes a table of its kind.
func (p *plan) sensible() bool {
	switch p.kind {
	case Heads:
		return p.has(HoselOD, AdapterOD, Bore, BoreDepth, HoselLength, CountersinkMouth, CounterboreOD)
	case Ferrules:
		return p.has(BaseOD, Bore, CollarOD, StepOD)
	case Tips:
		return p.has(TipOD)
	}
	return false
}

// runnerUp returns the role that a column gets, and by how much the whole reading is worse, when it may not have the
// one chosen. A column that has no role does not take the place: it states the same again, and is compared value by
// value.
func (p *plan) runnerUp(i int) (Role, float64) {
	points := slices.Clone(p.points)
	for k := range points {
		if k == i || p.chosen[k] < 0 {
			points[k] = slices.Clone(points[k])
			points[k][p.chosen[i]] = -20
		}
	}
	chosen := assign(points, leastPoints)
	second := Role("")
	if chosen[i] >= 0 {
		second = p.roles[chosen[i]]
	}
	return second, p.total - total(points, chosen)
}

// apply gives the columns the roles of the plan, with the evidence.
func (p *plan) apply(columns []*column) {
	for i, c := range columns {
		c.role = p.role(i)
		if c.role == "" {
			c.evidence = c.unassigned()
			continue
		}
		c.points = p.points[i][p.chosen[i]]
		c.known = c.headed(p.kind, c.role) >= leastHeading || c.role == Price
		second, margin := p.runnerUp(i)
		c.second, c.margin = second, margin
		name := string(second)
		if name == "" {
			name = "no role"
		}
		c.runnerUp = fmt.Sprintf("%s, %.1f points behind", name, margin)
		c.evidence = c.explain(p.kind)
	}
}

// unassigned says why a column has no role.
func (c *column) unassigned() string {
	if c.irrelevant != "" {
		return c.irrelevant
	}
	if found := c.matches[UnknownKind]; len(found) > 0 {
		return fmt.Sprintf("heading could be %s, but its values or another column speak against it", found[0].Role)
	}
	if c.text == "" {
		return "no heading"
	}
	return "heading not understood"
}

// explain says why a column has its role.
func (c *column) explain(kind Kind) string {
	var reasons []string
	if h := c.headed(kind, c.role); h >= leastHeading {
		for _, m := range c.matches[headingKind(kind, c.role)] {
			if Role(m.Role) == c.role {
				reasons = append(reasons, fmt.Sprintf("heading says %q (%s, score %.2f)", m.Words, m.Language, m.Score))
				break
			}
		}
	} else {
		reasons = append(reasons, "values only")
	}
	if b, ok := boundsOf(kind, c.role); ok && len(c.profile.sizes) > 0 {
		possible, _ := c.profile.best(b, c.units(), float64(c.scale))
		reasons = append(reasons, fmt.Sprintf("%.0f%% of its sizes are between %g and %g mm", possible*100, b.least, b.most))
	}
	return strings.Join(reasons, "; ")
}

// pairsAreLimits reports whether two sizes with a slash between them are limits in this column: its heading says so, or
// nearly all its cells have such pairs and the heading does not name two things itself: "before / after".
func (c *column) pairsAreLimits() bool {
	if c.hints.Min && c.hints.Max {
		return true
	}
	return !strings.ContainsAny(c.text, "/／|") && c.profile.pairs >= 2 && c.profile.pairs*5 >= c.profile.filled*4
}

// formatUnit returns the unit that the number formats of the column show, where they agree.
func (c *column) formatUnit() string {
	if len(c.profile.formatUnits) != 1 {
		return ""
	}
	for unit, count := range c.profile.formatUnits {
		if isLengthUnit(unit) && count*2 > len(c.profile.sizes) {
			return unit
		}
	}
	return ""
}

// bare returns the sizes that stand without a unit.
func (c *column) bare() []float64 {
	var numbers []float64
	for _, s := range c.profile.sizes {
		if s.unit == "" {
			numbers = append(numbers, s.number)
		}
	}
	return numbers
}

// factor is what sizes are multiplied by to be diameters.
func (c *column) factor() float64 { return float64(c.scale) }

// name is how findings call a column.
func (c *column) name() string {
	if c.text != "" {
		return c.text
	}
	return string(c.role)
}
