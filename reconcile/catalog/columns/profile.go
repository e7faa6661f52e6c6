package columns

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/reconcile/catalog/layout"
	"example.com/seatline/reconcile/catalog/lexicon"
	"example.com/seatline/reconcile/catalog/traits"
	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/internal/pattern"
	"example.com/seatline/reconcile/sheet"
)

// profile is what the values of a column look like.
type profile struct {
	Texts []string
	// Sizes are the values that could be lengths.
	Sizes []size
	// codes, whole, decimals, empty, dates count values of these sorts; distinct counts different texts.
	codes, whole, decimals, dates, distinct int
	// small counts the whole numbers of up to three digits.
	small int
	// Filled is how many cells of the sample hold something.
	Filled int
	// clubs counts the texts that are clubs or sets of them, sets those of several clubs, and plainClubs numbers and lofts, which may be anything.
	clubs, sets, plainClubs int
	// longTexts is how many are several words.
	longTexts int
	// Commas and points count numbers with a decimal comma and a decimal point that can be nothing else.
	Commas, Points int
	// Digits is the greatest number of decimals among the plain numbers of the column: a spreadsheet program stores 13.0
	// as 13, and what the others show says how fine it is.
	Digits int
	// significant is that number without the noughts that they end in, and fractions counts the different numbers that have decimals.
	significant, fractions int
	// pairs counts the cells with two sizes and a slash between them that are near enough to be limits.
	pairs int
	// falling counts those of pairs whose greater size stands first.
	falling int
	// shownDecimals counts the numbers that are shown with decimals, those that end in noughts too.
	shownDecimals int
	// formatUnits counts the units that number formats show.
	formatUnits map[string]int
	// StatedUnits counts the units that cells name themselves.
	StatedUnits map[string]int
}

// size is a number that may be a length: bare, or with the unit that the cell names.
type size struct {
	number float64
	unit   string
}

// MM returns the size in mm, taking a bare number in a unit.
func (s size) MM(unit string) float64 {
	if s.unit != "" {
		unit = s.unit
	}
	return s.number * traits.UnitMM[unit]
}

// profileOf looks at the values of a column.
func profileOf(r *layout.Region, lex *lexicon.Lexicon, col int, lines []int) profile {
	p := profile{formatUnits: map[string]int{}, StatedUnits: map[string]int{}}
	seen := map[string]bool{}
	last, above := sheet.Cell{}, ""
	for _, line := range lines {
		fromLine, fromCol := r.Grid.Source(line, col)
		if fromCol != col {
			continue
		}
		text := r.Grid.At(fromLine, fromCol)
		if text == "" {
			continue
		}
		cell := r.Grid.Cell(fromLine, fromCol)
		if above != "" && r.Grid.Is(lexicon.AsDitto, lex, r.Grid.Id(fromLine, fromCol)) {
			text, cell = above, last // it stands for the value above it
		}
		last, above = cell, text
		if !seen[text] {
			seen[text] = true
			p.distinct++
			p.countDecimals(text)
		}
		p.add(lex, text, cell)
	}
	return p
}

// countDecimals counts the decimals of a plain number, and those of them that say something.
func (p *profile) countDecimals(text string) {
	point := strings.LastIndexAny(text, ".,")
	if point < 0 || strings.Trim(text[point+1:], "0123456789") != "" {
		return
	}
	decimals := text[point+1:]
	decimals = decimals[:min(len(decimals), mostDecimals)]
	p.significant = max(p.significant, len(strings.TrimRight(decimals, "0")))
	p.fractions++
}

// Padded returns with how many noughts all plain numbers of the column are filled up: 0.5310 beside 0.5280 is written to four decimals and
// known to three.
func (p *profile) Padded() int {
	if p.fractions < leastPadded {
		return 0
	}
	return max(p.Digits-p.significant, 0)
}

const (
	// leastPadded is how many different numbers must end in noughts for these to say nothing: by chance one of 10,000 columns has four such.
	leastPadded = 4
	// mostDecimals is how many decimals of a number count: more are those of a sum of binary fractions.
	mostDecimals = 4
)

// add counts a cell that holds something.
func (p *profile) add(lex *lexicon.Lexicon, text string, cell sheet.Cell) {
	p.Filled++
	p.Texts = append(p.Texts, text)
	p.lookClub(lex, text)
	p.look(lex, text, cell)
}

// lookClub counts a text that is a club or a set of them.
func (p *profile) lookClub(lex *lexicon.Lexicon, text string) {
	switch set := lex.SetOf("", text); {
	case len(set) > 0 && !strings.Contains(text, "°"):
		p.clubs++
		if len(set) > 1 {
			p.sets++
		}
	case plainClub().MatchString(text):
		p.plainClubs++
	}
}

// plainClub is the number of a club, or its loft.
var plainClub = pattern.Lazy(`^[0-9]{1,2}°?$`)

// named is how many texts name clubs: beside several sets plain numbers do too.
func (p *profile) named() int {
	if p.sets >= leastSets {
		return p.clubs + p.plainClubs
	}
	return p.clubs
}

// leastSets is how many sets of clubs there are at least where plain numbers beside them are clubs.
const leastSets = 2

// look counts one cell.
func (p *profile) look(lex *lexicon.Lexicon, text string, cell sheet.Cell) {
	if cell.Kind == sheet.Date {
		p.dates++
		return
	}
	if lexicon.LooksLikeCode(text) {
		p.codes++
	}
	if strings.Count(text, " ") >= 2 {
		p.longTexts++
	}
	if strings.ContainsAny(cell.Shown, ".,") && (cell.Kind == sheet.Number || lexicon.LooksNumeric(text)) {
		p.shownDecimals++
	}
	if unit := lex.FormatUnit(cell.Format); unit != "" && cell.Kind == sheet.Number {
		p.formatUnits[unit]++
	}
	if !lexicon.LooksNumeric(text) && !lex.UnitBefore(text) && !value.FormBeforeTip(text) || isShelf(lex, text) {
		return
	}
	p.lookNumber(text)
	reading := lex.Read(text, value.Context{Want: value.WantDiameter, Unit: ""})
	switch reading.Kind {
	case value.Length:
		p.Sizes = append(p.Sizes, size{number: traits.MM(reading.Dim.Nominal()), unit: "mm"})
		if reading.UnitStated {
			p.StatedUnits[reading.Unit]++
		}
	case value.Number:
		p.Sizes = append(p.Sizes, size{number: reading.Number})
	case value.List:
		if limits := lex.Read(text, value.Context{Want: value.WantDiameter, Unit: "mm", Limits: true}); limits.Kind == value.Length && limits.Dim.HasLimits() {
			p.pairs++
			if slices.ContainsFunc(limits.Leniencies, func(l value.Leniency) bool { return l.Code == value.ForgaveReversed }) {
				p.falling++
			}
		}
		for _, one := range reading.List {
			switch {
			case one.Kind == value.Number:
				p.Sizes = append(p.Sizes, size{number: one.Number})
			case one.Kind == value.Length && !one.Dim.HasLimits():
				p.Sizes = append(p.Sizes, size{number: traits.MM(one.Dim.Nominal()), unit: "mm"})
			}
		}
	}
}

// isShelf reports whether a text is a whole number with a letter behind it that is no unit, as shelves and drawers are numbered: 1a, 12B.
func isShelf(lex *lexicon.Lexicon, text string) bool {
	at := len(text) - 1
	return at > 0 && at <= 2 && unicode.IsLetter(rune(text[at])) && strings.Trim(text[:at], "0123456789") == "" && !lex.IsUnit(text[at:])
}

// lookNumber counts whole and broken numbers and what marks their decimals.
func (p *profile) lookNumber(text string) {
	digits, mark, after := 0, rune(0), 0
	for _, r := range text {
		switch {
		case unicode.IsDigit(r):
			digits++
			if mark != 0 {
				after++
			}
		case r == '.' || r == ',':
			if mark != 0 {
				if parted().MatchString(text) {
					p.whole++
				}
				return
			}
			mark = r
		case digits > 0:
			goto done
		}
	}
done:
	switch {
	case mark == 0 || after == 0:
		p.whole++
		if digits <= 3 {
			p.small++
		}
	case mark == ',':
		p.decimals++
		if after != 3 || strings.HasPrefix(text, "0") || strings.HasPrefix(text, ",") {
			p.Commas++
		}
	default:
		p.decimals++
		p.Points++
	}
	if end := len(text) - after; mark != 0 && after > 0 && end > 0 && (text[end-1] == '.' || text[end-1] == ',') {
		p.Digits = max(p.Digits, min(after, mostDecimals))
	}
}

// thousands is a number whose digits are parted by threes, and marked one with any mark.
var thousands, marked = pattern.Lazy(`^[1-9]\d{0,2}(?:[.,]\d{3})+$`), pattern.Lazy(`\d[.,]\d`)

// parted is a whole number of which several marks part the digits, by threes or as in India: 1,250,000 and 12,50,000.
var parted = pattern.Lazy(`^(?:[1-9]\d{0,2}(?:,\d{3}){2,}|[1-9]\d{0,2}(?:\.\d{3}){2,}|[1-9]\d?(?:,\d{2})+,\d{3})$`)

// OnlyThousands reports whether all marks within the numbers stand where they part thousands: 1.450 beside 410, $ 54.500.
func (p *profile) OnlyThousands() bool {
	found := false
	for _, text := range p.Texts {
		text = strings.TrimFunc(text, func(r rune) bool { return !unicode.IsDigit(r) })
		if marked().MatchString(text) {
			if !thousands().MatchString(text) {
				return false
			}
			found = true
		}
	}
	return found
}

// Has returns in how many cells a text stands.
func (p *profile) Has(text string) int {
	n := 0
	for _, one := range p.Texts {
		if one == text {
			n++
		}
	}
	return n
}

// MostlyDecimal reports whether most cells are numbers with decimals.
func (p *profile) MostlyDecimal() bool { return p.share(p.decimals) > 0.5 }

// MostlyPoints reports whether most cells are numbers with a decimal point.
func (p *profile) MostlyPoints() bool { return p.share(p.Points) > 0.5 }

// MostlyNumbers reports whether nearly all cells are numbers, and there are several.
func (p *profile) MostlyNumbers() bool {
	numbers := p.whole + p.decimals
	return numbers >= leastNumbers && p.share(numbers) >= nearlyAll
}

// leastNumbers is how many numbers a column has at least in which a word is a stray one, and nearlyAll which share of its cells they are.
const leastNumbers, nearlyAll = 4, 0.75

// counts reports whether the values only number the lines: 1, 2, 3.
func (p *profile) counts() bool {
	last, steps := 0, 0
	for i, text := range p.Texts {
		n, err := strconv.Atoi(strings.TrimRight(text, "."))
		if err != nil || i > 0 && n <= last || n > 10*len(p.Texts)+10 {
			return false
		}
		if i > 0 && n == last+1 {
			steps++
		}
		last = n
	}
	return len(p.Texts) >= 2 && steps*2 >= len(p.Texts)-1
}

// numbersLines reports whether the values number all lines from 1 on and say nothing else, anew in each section perhaps, beside the letters of
// sections: A., 1, 2, 3, B., 4, 5. A column of other numbers would hardly do so.
func (p *profile) numbersLines() bool {
	last, numbers := 0, 0
	for _, text := range p.Texts {
		text = strings.Trim(text, ".()")
		if utf8.RuneCountInString(text) == 1 && unicode.IsLetter([]rune(text)[0]) {
			continue
		}
		n, err := strconv.Atoi(text)
		if err != nil || n != last+1 && (n != 1 || last < 2) {
			return false
		}
		last, numbers = n, numbers+1
	}
	return numbers >= leastNumbers && p.share(numbers) >= nearlyAll
}

// share returns n of the filled cells as a share.
func (p *profile) share(n int) float64 {
	if p.Filled == 0 {
		return 0
	}
	return float64(n) / float64(p.Filled)
}

// count returns how many texts are such as are asked for.
func (p *profile) count(are func(string) bool) (n int) {
	for _, text := range p.Texts {
		if are(text) {
			n++
		}
	}
	return n
}

// Within returns the shares of the sizes that are possible and common in one unit.
func (p *profile) Within(b traits.Bounds, unit string, scale float64) (possible, common float64) {
	if len(p.Sizes) == 0 {
		return 0, 0
	}
	for _, s := range p.Sizes {
		x := s.MM(unit) * scale
		if b.Possible(x) {
			possible++
		}
		if b.Common(x) {
			common++
		}
	}
	n := float64(len(p.Sizes))
	return possible / n, common / n
}

// fitsOnly reports whether nearly all cells hold sizes, not all the same and some with decimals, and all of these are such as parts
// commonly have, in one of the units.
func (p *profile) fitsOnly(b traits.Bounds, units []string) bool {
	if p.distinct < 2 || len(p.Sizes) < leastByValues || p.share(len(p.Sizes)) < 0.9 || p.decimals == 0 {
		return false
	}
	return slices.ContainsFunc(units, func(unit string) bool {
		_, common := p.Within(b, unit, 1)
		return common == 1
	})
}

// leastByValues is how many sizes a column has to have for these to say what it is.
const leastByValues = 3

// tipShare returns the share of the sizes that are those by which tips are called, in the unit in which it is greatest.
func (p *profile) tipShare(units []string) float64 {
	best := 0
	for _, unit := range units {
		count := 0
		for _, s := range p.Sizes {
			if traits.IsNearTip(s.MM(unit)) {
				count++
			}
		}
		best = max(best, count)
	}
	return float64(best) / float64(len(p.Sizes))
}

// best returns the greatest shares over the units that the column may be in.
func (p *profile) best(b traits.Bounds, units []string, scale float64) (possible, common float64) {
	for _, unit := range units {
		a, c := p.Within(b, unit, scale)
		if a > possible || a == possible && c > common {
			possible, common = a, c
		}
	}
	return possible, common
}
