package text

import (
	"slices"
	"strings"

	"example.com/seatline/reconcile/sheet"
)

// leastFramed is the share, in percent, of the lines with something in them that must have bars for a text to be taken as a drawn table.
const leastFramed = 60

// framedLine is a line of a drawn table: its cells, and where on the screen each begins.
type framedLine struct {
	fields []string
	at     []int
	rule   bool
}

// readFramed reads a table that is drawn with bars between the columns and lines between the rows. ok is false where it is none.
func readFramed(text string, meter *sheet.Meter) (rows [][]*sheet.Cell, rules int, ok bool, err error) {
	if !looksFramed(text) {
		return nil, 0, false, nil
	}
	var lines []framedLine
	count := map[int]int{}
	places := map[int][]int{}
	for len(text) > 0 {
		line, rest := cutLine(text)
		text = rest
		one := cutFrame(line)
		if len(lines) >= maxRows || len(one.fields) > meter.Limits.Columns {
			return nil, 0, false, nil // beyond the limits: left to the reader of separated text, which says so
		}
		if n := len(one.fields); n > 1 {
			if count[n]++; places[n] == nil {
				places[n] = one.at
			}
		}
		lines = append(lines, one)
	}
	usual := 0
	for n, times := range count {
		if usual == 0 || times > count[usual] || times == count[usual] && n > usual {
			usual = n
		}
	}
	var pool sheet.Pool[string]
	rows = make([][]*sheet.Cell, len(lines))
	for i, line := range lines {
		if line.rule {
			rules++
			continue
		}
		rows[i] = cellsOf(line.under(places[usual]), &pool)
		if err := meter.Row("", i+1, rows[i], 1); err != nil {
			return nil, 0, false, err
		}
	}
	for len(rows) > 0 && rows[len(rows)-1] == nil {
		rows = rows[:len(rows)-1]
	}
	return rows, rules, true, nil
}

// under puts the cells of a line with fewer bars, such as a heading over several columns, where the bars of the others stand.
func (l *framedLine) under(places []int) []string {
	if len(l.fields) < 2 || len(l.fields) >= len(places) {
		return l.fields
	}
	fields := make([]string, len(places))
	for i, at := range l.at {
		c, found := slices.BinarySearch(places, at)
		if !found {
			return l.fields
		}
		fields[c] = l.fields[i]
	}
	return fields
}

// looksFramed looks at the first lines for bars at their beginning, or for lines drawn with bars.
func looksFramed(text string) bool {
	content, barred, framed, drawn := 0, 0, 0, false
	for lines := 0; len(text) > 0 && content < sampled && lines < maxRows; lines++ {
		line, rest := cutLine(text)
		text = rest
		line = strings.TrimSpace(line)
		switch {
		case line == "":
		case isRule(line):
			drawn = drawn || strings.ContainsFunc(line, func(r rune) bool { return r == '+' || r == '|' || r > 0x7f })
		default:
			content++
			bars, first := 0, true
			for _, r := range line {
				if isBar(r) {
					bars++
					if first {
						framed++
					}
				}
				first = false
			}
			if bars > 0 {
				barred++
			}
		}
	}
	return barred > 0 && barred*100 >= leastFramed*content && (drawn || framed*100 >= leastFramed*content)
}

func cutLine(text string) (line, rest string) {
	end := strings.IndexAny(text, "\r\n")
	if end < 0 {
		return text, ""
	}
	next := end + 1
	if text[end] == '\r' && next < len(text) && text[next] == '\n' {
		next++
	}
	return text[:end], text[next:]
}

// cutFrame cuts a line at its bars. A bar after a backslash belongs to the cell, as in tables of Markdown.
func cutFrame(text string) framedLine {
	if isRule(text) {
		return framedLine{rule: true}
	}
	var line framedLine
	var field strings.Builder
	at, begun, bars, escaped := 0, 0, 0, false
	end := func() {
		line.fields = append(line.fields, strings.TrimSpace(field.String()))
		line.at = append(line.at, begun)
		field.Reset()
	}
	for _, r := range text {
		size := onScreen(r)
		if isBar(r) && !escaped {
			if bars > 0 || strings.TrimSpace(field.String()) != "" {
				end()
			}
			field.Reset()
			bars++
			begun = at + size
		} else {
			if isBar(r) && escaped {
				before := strings.TrimSuffix(field.String(), `\`)
				field.Reset()
				field.WriteString(before)
			}
			field.WriteRune(r)
		}
		escaped = r == '\\'
		at += size
	}
	if strings.TrimSpace(field.String()) != "" {
		end()
	}
	return line
}
