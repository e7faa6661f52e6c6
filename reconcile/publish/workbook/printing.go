package workbook

import (
	"cmp"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// A sheet is printed on as few pages as its letters allow, each as wide as the sheet: upright or across, whichever leaves them larger.
// What is longer than a person reads on paper ends after some pages, and the foot of each says how many rows there are.
const (
	// leastScale leaves 5 of the 9 points of the usual letters.
	leastScale = 0.55
	// mostPages is how many pages one list takes at most.
	mostPages = 4
	// pointsPerWidth is what a unit of a column's width takes at most: a digit of the default font, 7 or 8 pixels by program.
	pointsPerWidth = 6.0
	// usualHigh is the height of a row for which none is said.
	usualHigh = 15.0
)

// paper is a page of A4 less its margins, in points.
type paper struct {
	orientation string
	wide, high  float64
}

const (
	sideMargin = 0.4 // inches
	endMargin  = 0.6
)

// papers are the ways to lay a page: across where both come to the same.
var papers = [...]paper{
	{"landscape", 841.9 - 2*72*sideMargin, 595.3 - 2*72*endMargin},
	{"portrait", 595.3 - 2*72*sideMargin, 841.9 - 2*72*endMargin},
}

// print says how the sheet is printed, once all its rows are written.
func (p *page) print() {
	columns := p.printedColumns()
	last := max(1, p.row)
	on := p.onPaper(columns)
	foot := ""
	if on.last > 0 {
		last = on.last
		foot = fmt.Sprintf("Rows to %d of %d; the others are on the screen", last, p.row)
	}
	f := p.file
	const a4 = 9
	p.do(func() error {
		return f.SetPageLayout(p.name, &excelize.PageLayoutOptions{
			Size: pointer(a4), Orientation: pointer(on.orientation), FitToWidth: pointer(p.layout.across()), FitToHeight: pointer(on.pages),
			PageOrder: pointer("overThenDown"),
		})
	})
	p.do(func() error {
		return f.SetPageMargins(p.name, &excelize.PageLayoutMarginsOptions{
			Left: pointer(sideMargin), Right: pointer(sideMargin), Top: pointer(endMargin), Bottom: pointer(endMargin),
			Header: pointer(0.3), Footer: pointer(0.3),
		})
	})
	p.do(func() error { return f.SetHeaderFooter(p.name, p.headerFooter(foot)) })
	switch {
	case p.layout.unprinted: // programs print hidden sheets that have a print area
	case p.onScreenOnly():
		hidden := len(p.layout.widths) // an area of which nothing is seen leaves no page
		p.define("_xlnm.Print_Area", absolute(hidden, 1)+":"+absolute(hidden, 1))
	default:
		p.define("_xlnm.Print_Area", absolute(1, 1)+":"+absolute(columns, last))
	}
	p.titles()
}

// onScreenOnly reports whether a list is there for looking up alone.
func (p *page) onScreenOnly() bool { return p.section != nil && p.section.LookUp }

func (p *page) printedColumns() int {
	if p.layout.printColumns > 0 {
		return p.layout.printColumns
	}
	return len(p.layout.widths)
}

// across is how many pages stand side by side.
func (l layout) across() int { return max(1, l.pagesWide) }

// printed is how a sheet goes on paper.
type printed struct {
	orientation string
	pages       int // below each other
	last        int // the last row that is printed, 0 where all are
}

// onPaper chooses the fewest pages on which the letters stay large enough. A list that is too long for any is cut.
func (p *page) onPaper(columns int) printed {
	wide := 0.0
	for i, w := range p.layout.widths[:columns] {
		if i < p.layout.freezeColumns || p.layout.across() == 1 {
			wide += w * pointsPerWidth
		} else {
			wide += w * pointsPerWidth / float64(p.layout.across())
		}
	}
	most := mostPages
	if p.section == nil || p.section.Whole {
		most = max(1, p.row)
	}
	for pages := 1; pages <= most; pages++ {
		best, scale := paper{}, 0.0
		for _, paper := range papers {
			if s := min(1, paper.wide/wide, paper.scale(pages, p.high(p.row), p.repeated())); s > scale {
				best, scale = paper, s
			}
		}
		if scale >= min(leastScale, papers[0].wide/wide) {
			return printed{best.orientation, pages, 0}
		}
	}
	across := papers[0]
	scale, last := min(1, across.wide/wide), p.row
	for last > 1 && across.scale(most, p.high(last), p.repeated()) < scale {
		last--
	}
	return printed{across.orientation, most, last}
}

// scale is that at which rows of a height go on some pages, on each of which but the first some are repeated.
func (p paper) scale(pages int, high, repeated float64) float64 {
	const loss = 0.97 // no row is broken
	return loss * float64(pages) * p.high / (high + float64(pages-1)*repeated)
}

// high is the height of the rows up to the given one.
func (p *page) high(row int) float64 {
	row = min(row, len(p.ends))
	if row == 0 {
		return usualHigh
	}
	return p.ends[row-1]
}

// repeated is the height of the rows that stand on every page.
func (p *page) repeated() float64 {
	if p.layout.freezeRows == 0 {
		return 0
	}
	return p.high(p.layout.freezeRows) - p.high(max(1, p.layout.repeatFrom)) + usualHigh
}

// grow keeps where the last row ends.
func (p *page) grow(height float64) {
	end := height
	if n := len(p.ends); n > 0 {
		end += p.ends[n-1]
	}
	p.ends = append(p.ends, end)
}

// titles says which rows and columns stand on every page.
func (p *page) titles() {
	rows := p.layout.freezeRows
	if rows == 0 {
		return
	}
	titles := fmt.Sprintf("$%d:$%d", max(1, p.layout.repeatFrom), rows)
	if n := p.layout.freezeColumns; n > 0 {
		titles = fmt.Sprintf("%s!$A:$%s,%s!%s", quoted(p.name), columnName(n), quoted(p.name), titles)
		p.defineRaw("_xlnm.Print_Titles", titles)
		return
	}
	p.define("_xlnm.Print_Titles", titles)
}

// headerFooter has the shop, the sheet and the page. An & of the shop's is doubled, since & begins a field.
func (p *page) headerFooter(foot string) *excelize.HeaderFooterOptions {
	const most = 120 // of the 255 characters that a header may have
	shop := clean(p.opts.ShopName)
	if utf8.RuneCountInString(shop) > most {
		shop = string([]rune(shop)[:most])
	}
	shop = strings.ReplaceAll(strings.ReplaceAll(shop, "\n", " "), "&", "&&")
	if foot != "" {
		foot = "&C&8" + foot
	}
	return &excelize.HeaderFooterOptions{
		OddHeader: `&L&8` + " " + shop + `&R&8&A`,
		OddFooter: "&L&8" + cmp.Or(p.foot, "A fit on paper is no proof of a bond") + foot + "&R&8" +
			strings.NewReplacer("{n}", "&P", "{of}", "&N").Replace(cmp.Or(p.numbering, "Page {n} of {of}")),
	}
}
