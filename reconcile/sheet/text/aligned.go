package text

import (
	"cmp"
	"slices"
	"strings"

	"example.com/seatline/reconcile/sheet"
)

const (
	// leastAligned is the share, in percent, of the lines with something in them that must have gaps of two blanks or more for a text to
	// be taken as aligned.
	leastAligned = 40
	// evenlyCut is the evenness from which a separator is believed whatever the blanks in the cells look like.
	evenlyCut = 0.9
	// mostMisfit is the share, in percent, of those lines that may run across the columns that were found.
	mostMisfit = 25
	// mostSoft is the share, in percent, of lines in which a single blank between two words may stand where the others have a gap.
	mostSoft = 25
	// fewLines is the number of lines with gaps below which a block of lines does not stand alone: two lines of a heading say little of
	// the columns beneath.
	fewLines = 3
	// mostColumns is the number of columns, those of blocks beside each other together, beyond which a text is no aligned table.
	mostColumns = 256
	// mostBlocks is the number of blocks beyond which lines do not go together: they only happen to have gaps.
	mostBlocks = 200
	// mostJoins is how often columns of a block are joined with their neighbours, each of which costs a look at all its lines.
	mostJoins = 16
)

// readAligned reads a text whose columns stand one below the other, apart by blanks. ok is false where it is none.
func readAligned(text string, meter *sheet.Meter) (rows [][]*sheet.Cell, rules int, ok bool, err error) {
	if !looksAligned(text) || separated(text) {
		return nil, 0, false, nil
	}
	best := alignment{misfit: -1}
	for _, wide := range []bool{false, true} {
		if wide && ascii([]byte(text)) {
			break
		}
		lines, few := splitLines(text, wide, meter.Limits)
		if !few {
			return nil, 0, false, nil
		}
		if one := align(lines); best.misfit < 0 || one.misfit < best.misfit {
			best = one
		}
	}
	if best.columns < 2 || best.misfit*100 > mostMisfit*best.voting {
		return nil, 0, false, nil
	}
	rows, rules, err = best.cells(meter)
	return rows, rules, err == nil, err
}

// looksAligned looks at the first lines only, since most texts are not aligned.
func looksAligned(text string) bool {
	content, voting := 0, 0
	for lines := 0; len(text) > 0 && content < sampled && lines < maxRows; lines++ {
		line, rest := cutLine(text)
		text = rest
		if len(line) > 4*widest {
			content++
			continue
		}
		one := makeLine(line, false)
		if one.rule && len(one.words) > 1 {
			return true
		}
		if len(one.words) == 0 || one.rule {
			continue
		}
		content++
		if one.gapped() > 0 {
			voting++
		}
	}
	return voting >= 2 && voting*100 >= leastAligned*content
}

// separated reports whether a separator cuts nearly all lines alike: then blanks in a row are part of the cells.
func separated(text string) bool {
	for _, separator := range separators {
		if separator != ',' && evenness(text, separator) >= evenlyCut {
			return true
		}
	}
	// Commas stand in numbers and, with a blank behind them, in texts.
	content, cut := 0, 0
	for lines := 0; len(text) > 0 && content < sampled && lines < maxRows; lines++ {
		line, rest := cutLine(text)
		text = rest
		if strings.TrimSpace(line) == "" {
			continue
		}
		content++
		if _, other := commas(strings.ReplaceAll(line, ", ", "")); other > 0 {
			cut++
		}
	}
	return float64(cut) >= evenlyCut*float64(content)
}

// alignment is a text cut into columns.
type alignment struct {
	lines []textLine
	// at holds of each line the words at which a cell begins, and in which column, both from 0.
	at [][]start
	// columns is how many columns there are, voting how many lines show them and misfit how many of those run across some.
	columns, voting, misfit int
}

type start struct{ word, column int }

// align finds the columns of lines, block by block.
func align(lines []textLine) alignment {
	a := alignment{lines: lines, at: make([][]start, len(lines))}
	first, lastWidth := 0, 0
	for _, b := range blocks(lines) {
		columns, placed := b.columns(lines)
		// Lines of another make must not slip under the headings of those before: they stand beside them.
		if a.columns > 0 && len(columns) != lastWidth {
			first = a.columns + 1
		}
		lastWidth = len(columns)
		for i := b.from; i < b.to; i++ {
			line := &lines[i]
			starts, crossing := placed(line, columns)
			for j := range starts {
				starts[j].column += first
			}
			a.at[i] = starts
			if !line.rule && line.votes {
				a.voting++
				if crossing {
					a.misfit++
				}
			}
		}
		a.columns = max(a.columns, first+len(columns))
		if a.columns > mostColumns {
			return alignment{} // every block has other columns: these are no tables
		}
	}
	return a
}

// cells makes the rows. Lines of ruling signs become rows in which nothing stands, so that rows count as lines do.
func (a *alignment) cells(meter *sheet.Meter) (rows [][]*sheet.Cell, rules int, err error) {
	var pool sheet.Pool[string]
	rows = make([][]*sheet.Cell, len(a.lines))
	for i := range a.lines {
		line := &a.lines[i]
		if line.rule {
			rules++
			continue
		}
		var fields []string
		for j, s := range a.at[i] {
			last := len(line.words) - 1
			if j+1 < len(a.at[i]) {
				last = a.at[i][j+1].word - 1
			}
			for len(fields) <= s.column {
				fields = append(fields, "")
			}
			fields[s.column] = line.text[line.words[s.word].first:line.words[last].last]
		}
		if len(a.at[i]) == 0 && strings.TrimSpace(line.text) != "" {
			fields = []string{strings.TrimSpace(line.text)}
		}
		rows[i] = cellsOf(fields, &pool)
		if err := meter.Row("", i+1, rows[i], 1); err != nil {
			return nil, 0, err
		}
	}
	for len(rows) > 0 && rows[len(rows)-1] == nil {
		rows = rows[:len(rows)-1]
	}
	return rows, rules, nil
}

func cellsOf(fields []string, pool *sheet.Pool[string]) []*sheet.Cell {
	if len(fields) == 0 {
		return nil
	}
	row := make([]*sheet.Cell, len(fields))
	for c, field := range fields {
		row[c] = sheet.BlankCell
		if field == "" {
			continue
		}
		if row[c] = pool.Find(c+1, field); row[c] == nil {
			row[c] = pool.Add(c+1, field, sheet.Cell{Kind: sheet.Text, Raw: field, Shown: field})
		}
	}
	return row
}

// block is a stretch of lines with the same columns, and how often each column of the screen is written in.
type block struct {
	from, to int
	// hard counts the lines with a sign there, soft those with a single blank between two words; voting is the number of lines counted.
	hard, soft []int
	voting     int
	// ruled are the columns that a line of dashes with gaps shows.
	ruled []span
}

// blocks cuts the lines where the gutters before and after do not go together, as on the pages of a document. There are none where that is
// so all the time.
func blocks(lines []textLine) []*block {
	var all []*block
	for from := 0; from < len(lines); {
		to := from + 1
		for to < len(lines) && len(lines[to-1].words) > 0 {
			to++
		}
		next := makeBlock(lines, from, to)
		from = to
		if len(all) == 0 {
			all = append(all, next)
			continue
		}
		last := all[len(all)-1]
		both := last.with(next)
		if last.voting < fewLines || next.voting < fewLines || both.clearGutters() >= max(last.clearGutters(), next.clearGutters()) {
			all[len(all)-1] = both
		} else {
			all = append(all, next)
		}
		if len(all) > mostBlocks {
			return nil
		}
	}
	return all
}

func makeBlock(lines []textLine, from, to int) *block {
	b := &block{from: from, to: to}
	for i := from; i < to; i++ {
		line := &lines[i]
		if line.rule && len(line.words) > 1 {
			b.ruled = line.words
		}
		if line.rule || !line.votes {
			continue
		}
		b.voting++
		if end := line.words[len(line.words)-1].to; end > len(b.hard) {
			b.hard = append(b.hard, make([]int, end-len(b.hard))...)
			b.soft = append(b.soft, make([]int, end-len(b.soft))...)
		}
		for j, w := range line.words {
			for p := w.from; p < w.to; p++ {
				b.hard[p]++
			}
			if j > 0 && !line.gaps[j-1] {
				for p := line.words[j-1].to; p < w.from; p++ {
					b.soft[p]++
				}
			}
		}
	}
	return b
}

// with returns the block of both, which follow each other.
func (b *block) with(next *block) *block {
	both := &block{from: b.from, to: next.to, voting: b.voting + next.voting, ruled: b.ruled}
	if both.ruled == nil {
		both.ruled = next.ruled
	}
	both.hard, both.soft = added(b.hard, next.hard), added(b.soft, next.soft)
	return both
}

func added(a, b []int) []int {
	sum := make([]int, max(len(a), len(b)))
	copy(sum, a)
	for i, n := range b {
		sum[i] += n
	}
	return sum
}

// gutters are the stretches in which hardly a line has a sign, and few have a single blank that may belong to a text. They lie between
// columns; from and to are where the columns begin and end.
func (b *block) gutters() (found []span, from, to int) {
	tolerated := b.voting / 8
	if b.voting >= 5 {
		tolerated = max(tolerated, 1)
	}
	open := -1
	for p := range b.hard {
		blank := b.hard[p] <= tolerated && b.soft[p]*100 <= mostSoft*b.voting
		switch {
		case blank && open < 0:
			open = p
		case !blank && open == 0:
			from, open = p, -1
		case !blank && open > 0:
			found, open = append(found, span{from: open, to: p}), -1
		}
	}
	if to = len(b.hard); open > 0 {
		to = open
	}
	return found, from, to
}

// clearGutters is how many gutters are more than the single blank between two words of a line: what they say of few lines is not worth
// much.
func (b *block) clearGutters() int {
	clear := 0
	between, _, _ := b.gutters()
	for _, g := range between {
		if slices.Contains(b.soft[g.from:g.to], 0) {
			clear++
		}
	}
	return clear
}

// columns are the stretches between the gutters, and those within them in which few lines have something that stands by itself; placed is
// how lines are cut at them.
func (b *block) columns(lines []textLine) (columns []span, placed func(*textLine, []span) ([]start, bool)) {
	if b.ruled != nil && b.fits(lines) {
		return b.ruled, placeRuled
	}
	if len(b.hard) == 0 {
		return []span{{from: 0, to: 1}}, place
	}
	between, from, to := b.gutters()
	begin := 0
	for _, g := range append(between, span{from: len(b.hard), to: len(b.hard)}) {
		columns = append(columns, span{from: begin, to: g.from})
		begin = g.to
	}
	return b.ends(lines, b.together(lines, b.sparse(lines, columns)), from, to), place
}

// ends adds columns before from and behind to, where hardly a line has a sign: a line with more texts than there are columns heads one there,
// with nothing below it. Other texts stand there since something before them is long.
func (b *block) ends(lines []textLine, columns []span, from, to int) []span {
	var extra []span
	for i := b.from; i < b.to; i++ {
		line := &lines[i]
		if line.rule || !line.votes {
			continue
		}
		all := segments(line)
		if len(all) <= len(columns) {
			continue
		}
		for _, s := range all {
			if s.to <= from || s.from >= to {
				extra = append(extra, s)
			}
		}
	}
	for _, s := range extra {
		if s.to <= from {
			columns[0].from = max(columns[0].from, from)
		} else {
			last := &columns[len(columns)-1]
			last.to = min(last.to, to)
		}
	}
	return withExtra(columns, extra)
}

// fits reports whether most lines keep clear of the gaps of the ruling line.
func (b *block) fits(lines []textLine) bool {
	crossed := 0
	for i := b.from; i < b.to; i++ {
		if line := &lines[i]; !line.rule && line.votes {
			if _, crossing := placeRuled(line, b.ruled); crossing {
				crossed++
			}
		}
	}
	return crossed*5 <= b.voting
}

// sparse adds columns in which so few lines have something that they were taken for gutters.
func (b *block) sparse(lines []textLine, columns []span) []span {
	var extra []span
	for i := b.from; i < b.to; i++ {
		line := &lines[i]
		if line.rule || !line.votes {
			continue
		}
		for _, s := range segments(line) {
			if first, last := overlapped(s, columns); first > last {
				extra = append(extra, s)
			}
		}
	}
	return withExtra(columns, extra)
}

// withExtra returns columns with further ones, those that lie in one place as one.
func withExtra(columns, extra []span) []span {
	slices.SortFunc(extra, func(a, b span) int { return a.from - b.from })
	for _, s := range extra {
		if n := len(columns); n > 0 && s.from <= columns[n-1].to && s.to >= columns[n-1].from {
			columns[n-1].to = max(columns[n-1].to, s.to)
			continue
		}
		columns = append(columns, span{from: s.from, to: s.to})
	}
	slices.SortFunc(columns, func(a, b span) int { return a.from - b.from })
	return columns
}

// together joins neighbours that no line has both of with a gap between them: a heading on the left and its numbers on the right of one
// column, or the words of a heading above numbers that stand below one of them.
func (b *block) together(lines []textLine, columns []span) []span {
	for range mostJoins {
		apart := make([]bool, len(columns))
		for i := b.from; i < b.to; i++ {
			line := &lines[i]
			if line.rule || !line.votes {
				continue
			}
			starts, _ := place(line, columns)
			for j := 1; j < len(starts); j++ {
				if starts[j].column == starts[j-1].column+1 && line.gaps[starts[j].word-1] {
					apart[starts[j].column] = true
				}
			}
		}
		joined := joinNearest(columns, apart)
		if len(joined) == len(columns) {
			return columns
		}
		columns = joined
	}
	return columns
}

// joinNearest joins columns with those to their left which they are not apart from, the nearest first, each once.
func joinNearest(columns []span, apart []bool) []span {
	var order []int
	for c := 1; c < len(columns); c++ {
		if !apart[c] {
			order = append(order, c)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(columns[a].from-columns[a-1].to, columns[b].from-columns[b-1].to)
	})
	taken, gone := make([]bool, len(columns)), make([]bool, len(columns))
	joined := slices.Clone(columns)
	for _, c := range order {
		if taken[c] || taken[c-1] {
			continue
		}
		taken[c], taken[c-1], gone[c] = true, true, true
		joined[c-1].to = columns[c].to
	}
	kept := joined[:0]
	for c, column := range joined {
		if !gone[c] {
			kept = append(kept, column)
		}
	}
	return kept
}

// segments are the stretches of a line between gaps.
func segments(line *textLine) []span {
	var all []span
	for i, w := range line.words {
		if i > 0 && !line.gaps[i-1] {
			last := &all[len(all)-1]
			last.to, last.last = w.to, w.last
			continue
		}
		all = append(all, w)
	}
	return all
}

// overlapped returns the first and last column that a stretch has a part of; first is beyond last where there is none, and then the one
// after it. What is drawn out over columns may reach a little into the one before.
func overlapped(s span, columns []span) (first, last int) {
	first, _ = slices.BinarySearchFunc(columns, s.from, func(c span, from int) int {
		if c.to <= from {
			return -1
		}
		return 1
	})
	last = first
	for last < len(columns) && columns[last].from < s.to {
		last++
	}
	if s.drawn && first+1 < last && 2*(columns[first].to-s.from) < columns[first].to-columns[first].from {
		first++
	}
	return first, last - 1
}

// place says at which words of a line cells begin. crossing is set where two that stand apart came into one column, or one runs across
// columns and has no blank between them. A line that a long text has pushed to the right is told by its gaps, where they are as many as
// those of the columns.
func place(line *textLine, columns []span) (starts []start, crossing bool) {
	if line.gapped() == 0 || line.head {
		return whole(line, columns), false
	}
	before, split := -1, false
	for i, w := range line.words {
		first, last := overlapped(w, columns)
		apart := i == 0 || line.gaps[i-1]
		if first > last {
			if !apart {
				continue // the end of a text that is longer than the others
			}
			first = nearestTo(w, columns, first)
			last = first
		}
		switch {
		case first > before:
			starts = append(starts, start{i, first})
			split = split || !apart
		case apart:
			crossing = true
		}
		crossing = crossing || last > first
		before = max(before, last)
	}
	if crossing || split {
		if byGaps := inOrder(line); len(byGaps) == len(columns) && !standElsewhere(line, byGaps, columns) {
			return byGaps, false
		}
	}
	if title := titled(line, starts, columns); title != nil {
		return title, crossing
	}
	return starts, crossing
}

// mostInText is how many columns the words of a text without gaps are put into at most: two texts that fill theirs have one blank between them.
const mostInText = 2

// titled places the texts of a line as they are, under their first words, where one of them runs through several columns and they are few: "DIMENSIONS IN MM
// UNLESS SAID        PRICES EACH" is no row. It returns nil for any other line.
func titled(line *textLine, starts []start, columns []span) (texts []start) {
	through, most := 0, 0
	for _, s := range starts {
		if s.word == 0 || line.gaps[s.word-1] {
			texts, through = append(texts, s), 0
		}
		through++
		most = max(most, through)
	}
	if most <= mostInText || 2*len(texts) > len(columns) {
		return nil
	}
	return texts
}

// whole places a line as one cell, a title or a note, under its first word.
func whole(line *textLine, columns []span) []start {
	if len(line.words) == 0 {
		return nil
	}
	first, last := overlapped(line.words[0], columns)
	if first > last {
		first = nearestTo(line.words[0], columns, first)
	}
	return []start{{0, first}}
}

// standElsewhere reports whether most of the texts that gaps give another column than their place does begin right where that one
// begins: nothing has pushed them, and what two columns were made of is the heading of one.
func standElsewhere(line *textLine, byGaps []start, columns []span) bool {
	moved, exact := 0, 0
	for _, s := range byGaps {
		w := line.words[s.word]
		if at, last := overlapped(w, columns); at <= last && at != s.column {
			moved++
			if columns[at].from == w.from {
				exact++
			}
		}
	}
	return exact*2 > moved
}

// inOrder gives each text between gaps the next column.
func inOrder(line *textLine) []start {
	starts := []start{{0, 0}}
	for i, wide := range line.gaps {
		if wide {
			starts = append(starts, start{i + 1, len(starts)})
		}
	}
	return starts
}

// placeRuled is place under a line of dashes, which shows the columns also where only one blank is between them.
func placeRuled(line *textLine, columns []span) (starts []start, crossing bool) {
	if line.head {
		return whole(line, columns), false
	}
	before := -1
	for i, w := range line.words {
		first, last := overlapped(w, columns)
		if first > last {
			if i > 0 && !line.gaps[i-1] {
				continue // the end of a text that is longer than its heading, under which the dashes are
			}
			first = nearestTo(w, columns, first)
			last = first
		}
		if first > before {
			starts = append(starts, start{i, first})
		}
		crossing = crossing || last > first
		before = max(before, last)
	}
	if line.gapped() == 0 && (crossing || strewn(line, starts, columns)) {
		return whole(line, columns), false
	}
	if title := titled(line, starts, columns); crossing && title != nil {
		return title, true
	}
	return starts, crossing
}

// strewn reports whether the pieces of a line that fall into several columns mostly neither begin nor end where these do, as the words of a sentence
// and not the cells of a row.
func strewn(line *textLine, starts []start, columns []span) bool {
	flush := 0
	for j, s := range starts {
		last := len(line.words) - 1
		if j+1 < len(starts) {
			last = starts[j+1].word - 1
		}
		if column := columns[s.column]; line.words[s.word].from == column.from || line.words[last].to == column.to {
			flush++
		}
	}
	return len(starts) > mostInText && flush*2 < len(starts)
}

// nearestTo is the column nearest to a word that lies in none; next is the one after it.
func nearestTo(w span, columns []span, next int) int {
	switch {
	case next == len(columns), next > 0 && w.from-columns[next-1].to <= columns[next].from-w.to:
		return next - 1
	}
	return next
}
