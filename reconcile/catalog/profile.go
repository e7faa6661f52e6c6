package catalog

import (
	"strconv"
	"strings"
	"unicode"

	"example.com/seatline/reconcile/catalog/value"
	"example.com/seatline/reconcile/sheet"
)

// profile is what the values of a column look like.
type profile struct {
	texts []string
	// sizes are the values that could be lengths.
	sizes []size
	// codes, whole, decimals, empty, dates count values of these sorts; distinct counts different texts.
	codes, whole, decimals, dates, distinct int
	// filled is how many cells of the sample hold something.
	filled int
	// longTexts is how many are several words.
	longTexts int
	// commas and points count numbers with a decimal comma and a decimal point that can be nothing else.
	commas, points int
	// digits is the greatest number of decimals among the plain numbers of the column: a spreadsheet program stores 13.0
	// as 13, and what the others show says how fine it is.
	digits int
	// pairs counts the cells with two sizes and a slash between them that are near enough to be limits.
	pairs int
	// formatUnits counts the units that number formats show.
	formatUnits map[string]int
	// statedUnits counts the units that cells name themselves.
	statedUnits map[string]int
}

// size is a number that may be a length: bare, or with the unit that the cell names.
type size struct {
	number float64
	unit   string
}

// mm returns the size in mm, taking a bare number in a unit.
func (s size) mm(unit string) float64 {
	if s.unit != "" {
		unit = s.unit
	}
	return s.number * unitMM[unit]
}

// profileOf looks at the values of a column.
func profileOf(r *region, lex *lexicon, col int, lines []int) profile {
	p := profile{formatUnits: map[string]int{}, statedUnits: map[string]int{}}
	seen := map[string]bool{}
	for _, line := range lines {
		fromLine, fromCol := r.grid.source(line, col)
		if fromCol != col {
			continue
		}
		text := r.grid.at(fromLine, fromCol)
		if text == "" {
			continue
		}
		cell := r.grid.cell(fromLine, fromCol)
		p.filled++
		if !seen[text] {
			seen[text] = true
			p.distinct++
		}
		p.texts = append(p.texts, text)
		p.look(lex, text, cell)
	}
	return p
}

// look counts one cell.
func (p *profile) look(lex *lexicon, text string, cell sheet.Cell) {
	if cell.Kind == sheet.Date {
		p.dates++
		return
	}
	if looksLikeCode(text) {
		p.codes++
	}
	if strings.Count(text, " ") >= 2 {
		p.longTexts++
	}
	if unit := lex.formatUnit(cell.Format); unit != "" && cell.Kind == sheet.Number {
		p.formatUnits[unit]++
	}
	if !looksNumeric(text) {
		return
	}
	p.lookNumber(text)
	reading := lex.read(text, value.Context{Want: value.WantDiameter, Unit: ""})
	switch reading.Kind {
	case value.Length:
		p.sizes = append(p.sizes, size{number: mm(reading.Dim.Nominal()), unit: "mm"})
		if reading.UnitStated {
			p.statedUnits[reading.Unit]++
		}
	case value.Number:
		p.sizes = append(p.sizes, size{number: reading.Number})
	case value.List:
		if limits := lex.read(text, value.Context{Want: value.WantDiameter, Unit: "mm", Limits: true}); limits.Kind == value.Length && limits.Dim.HasLimits() {
			p.pairs++
		}
		for _, one := range reading.List {
			switch {
			case one.Kind == value.Number:
				p.sizes = append(p.sizes, size{number: one.Number})
			case one.Kind == value.Length && !one.Dim.HasLimits():
				p.sizes = append(p.sizes, size{number: mm(one.Dim.Nominal()), unit: "mm"})
			}
		}
	}
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
	case mark == ',':
		p.decimals++
		if after != 3 || strings.HasPrefix(text, "0") || strings.HasPrefix(text, ",") {
			p.commas++
		}
	default:
		p.decimals++
		p.points++
	}
	if end := len(text) - after; mark != 0 && after > 0 && end > 0 && (text[end-1] == '.' || text[end-1] == ',') {
		p.digits = max(p.digits, min(after, 4))
	}
}

// counts reports whether the values only number the lines: 1, 2, 3.
func (p *profile) counts() bool {
	last, steps := 0, 0
	for i, text := range p.texts {
		n, err := strconv.Atoi(strings.TrimRight(text, "."))
		if err != nil || i > 0 && n <= last || n > 10*len(p.texts)+10 {
			return false
		}
		if i > 0 && n == last+1 {
			steps++
		}
		last = n
	}
	return len(p.texts) >= 2 && steps*2 >= len(p.texts)-1
}

// share returns n of the filled cells as a share.
func (p *profile) share(n int) float64 {
	if p.filled == 0 {
		return 0
	}
	return float64(n) / float64(p.filled)
}

// within returns the shares of the sizes that are possible and common in one unit.
func (p *profile) within(b bounds, unit string, scale float64) (possible, common float64) {
	if len(p.sizes) == 0 {
		return 0, 0
	}
	for _, s := range p.sizes {
		x := s.mm(unit) * scale
		if b.possible(x) {
			possible++
		}
		if b.common(x) {
			common++
		}
	}
	n := float64(len(p.sizes))
	return possible / n, common / n
}

// tipShare returns the share of the sizes that are those by which tips are called, in the unit in which it is greatest.
func (p *profile) tipShare(units []string) float64 {
	best := 0
	for _, unit := range units {
		count := 0
		for _, s := range p.sizes {
			if isNearTip(s.mm(unit)) {
				count++
			}
		}
		best = max(best, count)
	}
	return float64(best) / float64(len(p.sizes))
}

// best returns the greatest shares over the units that the column may be in.
func (p *profile) best(b bounds, units []string, scale float64) (possible, common float64) {
	for _, unit := range units {
		a, c := p.within(b, unit, scale)
		if a > possible || a == possible && c > common {
			possible, common = a, c
		}
	}
	return possible, common
}
