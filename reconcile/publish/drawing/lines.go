package drawing

import (
	"math"
	"strings"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
)

// glyphs are the characters of a picture: hatched as in the drawing.
type glyphs struct{ hosel, ferrule, turned, gap, left, right string }

var (
	inUnicode = glyphs{"╱", "╲", "▓", "·", "▏", "▕"}
	inASCII   = glyphs{"/", `\`, "#", ".", "|", "|"}
)

func (g *glyphs) of(m material) string {
	switch m {
	case ofHosel:
		return g.hosel
	case ofFerrule:
		return g.ferrule
	case ofTurned:
		return g.turned
	case ofGap:
		return g.gap
	}
	return " "
}

const (
	pictureColumns = 46
	pictureRows    = 28
	zoomColumns    = 25
	zoomRows       = 11
	zoomGap        = 6
	// zoomStep is how many columns the step takes in the enlarged picture.
	zoomStep = 6
)

// Lines returns the section as lines of characters, each shown twice as high as wide, the hosel's edge enlarged beside it. Plain
// asks for ASCII only.
func Lines(s *Section, units fitcalc.Units, plain bool) []string {
	g := inUnicode
	if plain {
		g = inASCII
	}
	high := s.standOff + s.length + 1.5
	low := -max(s.cone, s.counterDeep, s.spigotLength-s.standOff) - 2.5
	column := max(2*max(s.hosel, s.base)/(pictureColumns-4), (high-low)/(2*pictureRows))
	view := s.picture(&g, 0, high, column, pictureColumns, int(math.Ceil((high-low)/(2*column)-invisible)))
	step := max(math.Abs(s.base-s.hosel), s.standOff/2)
	fine := min(max(step/zoomStep, 0.005), column/2)
	zoom := s.picture(&g, (s.base+s.hosel)/2, s.standOff/2+fine*zoomRows, fine, zoomColumns, zoomRows)
	zoom = append(frame(zoom, plain), "edge, one column is", show(fine, units))
	lines := beside(view, zoom, int((high-s.standOff)/(2*column))-zoomRows)
	lines = append(lines, "", g.hosel+" hosel   "+g.ferrule+" ferrule   "+g.turned+" turned off   "+g.gap+" open   (shaft blank); one column is "+show(column, units))
	return lines
}

// show writes a length in mm in both units.
func show(v float64, units fitcalc.Units) string {
	p := page{opts: Options{Units: units}}
	return p.u(v)
}

// picture samples the section at the middle of each character. X is the radius in the middle of the picture, high the height of its
// upper edge.
func (s *Section) picture(g *glyphs, x, high, column float64, columns, rows int) []string {
	lines := make([]string, rows)
	for row := range rows {
		var b strings.Builder
		z := high - (float64(row)+0.5)*2*column
		for i := range columns {
			r := x + (float64(i)-float64(columns-1)/2)*column
			m := s.at(r, z)
			switch {
			case m == ofShaft && s.at(r-column, z) != ofShaft:
				b.WriteString(g.left)
			case m == ofShaft && s.at(r+column, z) != ofShaft:
				b.WriteString(g.right)
			default:
				b.WriteString(g.of(m))
			}
		}
		lines[row] = b.String()
	}
	return lines
}

func frame(lines []string, plain bool) []string {
	corners := [...]string{"┌", "─", "┐", "│", "└", "┘"}
	if plain {
		corners = [...]string{"+", "-", "+", "|", "+", "+"}
	}
	edge := strings.Repeat(corners[1], zoomColumns)
	framed := []string{corners[0] + edge + corners[2]}
	for _, line := range lines {
		framed = append(framed, corners[3]+line+corners[3])
	}
	return append(framed, corners[4]+edge+corners[5])
}

// beside puts one picture to the right of another, from a row on.
func beside(left, right []string, from int) []string {
	from = max(0, min(from, len(left)-len(right)))
	var lines []string
	for i := range max(len(left), from+len(right)) {
		line := ""
		if i < len(left) {
			line = left[i]
		}
		if at := i - from; at >= 0 && at < len(right) {
			line += strings.Repeat(" ", pictureColumns+zoomGap-utf8.RuneCountInString(line)) + right[at]
		}
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return lines
}
