package say

import (
	"fmt"
	"math"
	"math/bits"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// template is a text with blanks.
type template struct {
	traits traits
	parts  []part
}

// part is a stretch of text, then a blank. Parts of one group are left out together.
type part struct {
	text string
	// blank is the name of what is filled in, empty where nothing is; made is what is made of it.
	blank, made string
	// group is 0 for what is always said.
	group int
}

// parse reads a text with blanks and, in brackets, what may be left out.
func parse(text string) ([]part, error) {
	var parts []part
	group, groups, plain := 0, 0, 0
	for at := 0; at < len(text); at++ {
		switch text[at] {
		case '[':
			if group > 0 {
				return nil, fmt.Errorf("a bracket within brackets: %s", text)
			}
			parts = append(parts, part{text: text[plain:at]})
			groups++
			group, plain = groups, at+1
		case ']':
			if group == 0 {
				return nil, fmt.Errorf("a bracket that nothing opens: %s", text)
			}
			parts = append(parts, part{text: text[plain:at], group: group})
			group, plain = 0, at+1
		case '{':
			end := strings.IndexByte(text[at:], '}')
			if end < 0 {
				return nil, fmt.Errorf("a brace that nothing closes: %s", text)
			}
			name, made, _ := strings.Cut(text[at+1:at+end], ".")
			parts = append(parts, part{text: text[plain:at], blank: name, made: made, group: group})
			at += end
			plain = at + 1
		}
	}
	if group > 0 {
		return nil, fmt.Errorf("a bracket that nothing closes: %s", text)
	}
	return append(parts, part{text: text[plain:]}), nil
}

// makings are what can be made of a number, by its kind.
var makings = map[string]func(fitcalc.NumberKind) bool{
	"":        func(fitcalc.NumberKind) bool { return true },
	"side":    func(k fitcalc.NumberKind) bool { return k == fitcalc.OnDiameter },
	"twice":   func(k fitcalc.NumberKind) bool { return k == fitcalc.PerSide },
	"ten":     func(k fitcalc.NumberKind) bool { return k == fitcalc.ShareOfJoints },
	"others":  func(k fitcalc.NumberKind) bool { return k == fitcalc.ShareOfJoints },
	"hundred": func(k fitcalc.NumberKind) bool { return k == fitcalc.ShareOfJoints },
}

// check demands that the blanks of a text are numbers of a code, or what every sentence has.
func check(parts []part, code fitcalc.Code, phrases map[string][]template) error {
	for _, p := range parts {
		switch {
		case p.blank == "" || p.blank == "carrier" || p.blank == "field":
			continue
		case strings.HasPrefix(p.blank, "@"):
			of := phrases[p.blank[1:]]
			if of == nil {
				return fmt.Errorf("there is no phrase %s here", p.blank)
			}
			for i := range of { // phrases have no phrases in them
				if err := check(of[i].parts, code, nil); err != nil {
					return fmt.Errorf("%s: %w", p.blank, err)
				}
			}
			continue
		}
		var names []string
		fits := false
		for n := range code.Numbers() {
			names = append(names, "{"+n.Name+"}")
			if n.Name == p.blank {
				of := makings[p.made]
				fits = of != nil && of(n.Kind)
			}
		}
		if !fits {
			return fmt.Errorf("nothing is filled in for {%s}; there are %s", strings.TrimSuffix(p.blank+"."+p.made, "."), strings.Join(names, " "))
		}
	}
	return nil
}

// choose returns the text of those for a code or phrase whose cases apply, nil where none does.
func choose(from []template, t traits) *template {
	for i := range from {
		if from[i].traits&^t == 0 {
			return &from[i]
		}
	}
	return nil
}

// order puts the texts with most cases first, and of two those whose cases decide.
func order(all []template) {
	slices.SortFunc(all, func(a, b template) int {
		if n := bits.OnesCount16(uint16(b.traits)) - bits.OnesCount16(uint16(a.traits)); n != 0 {
			return n
		}
		return int(bits.Reverse16(uint16(b.traits))) - int(bits.Reverse16(uint16(a.traits)))
	})
}

// filling is a sentence being made.
type filling struct {
	*Language
	reason  *fitcalc.Reason
	numbers []fitcalc.Number
	units   fitcalc.Units
	traits  traits
}

func (f *filling) append(b []byte, t *template) []byte {
	silent := 0
	for i := range t.parts {
		p := &t.parts[i]
		if p.group > 0 && p.group == silent {
			continue
		}
		if p.group > 0 && (i == 0 || t.parts[i-1].group != p.group) && !f.tells(t.parts[i:], p.group) {
			silent = p.group
			continue
		}
		b = append(b, p.text...)
		if p.blank != "" {
			b = f.fill(b, p)
		}
	}
	return b
}

// tellingShare is the least share that is said in brackets, and the least that it leaves: one in a thousand.
const tellingShare = 0.001

// tells reports whether every number of a group says something.
func (f *filling) tells(parts []part, group int) bool {
	for i := range parts {
		if parts[i].group != group {
			return true
		}
		if parts[i].blank == "" || parts[i].blank[0] == '@' || parts[i].blank == "field" || parts[i].blank == "carrier" {
			continue
		}
		n, known := find(f.numbers, parts[i].blank)
		switch {
		case !known:
			return false
		case n.Kind == fitcalc.PerSide && n.Length.Sign() <= 0:
			return false
		case n.Kind == fitcalc.ShareOfJoints && parts[i].made == "" && (n.Ratio < tellingShare || n.Ratio > 1-tellingShare):
			return false
		}
	}
	return true
}

func (f *filling) fill(b []byte, p *part) []byte {
	switch {
	case p.blank == "carrier":
		if f.traits&adapter != 0 {
			return append(b, f.words["carrier.adapter"]...)
		}
		return append(b, f.words["carrier.hosel"]...)
	case p.blank == "field":
		return append(b, f.Field(f.reason.Field)...)
	case p.blank[0] == '@':
		if t := choose(f.phrases[p.blank[1:]], f.traits); t != nil {
			return f.append(b, t)
		}
		return b
	}
	n, known := find(f.numbers, p.blank)
	if !known {
		return b // the text has it in brackets, or for a case in which it is known
	}
	return append(b, f.number(n, p.made)...)
}

func (f *filling) number(n *fitcalc.Number, made string) string {
	switch n.Kind {
	case fitcalc.OnDiameter, fitcalc.Height:
		if made == "side" {
			return f.Length(n.Length.Half().Abs(), f.units)
		}
		return f.Length(n.Length.Abs(), f.units)
	case fitcalc.PerSide: // a wall is never less than none
		wall := measure.Max(n.Length, measure.Length{})
		if made == "twice" {
			wall = wall.MulInt(2)
		}
		return f.Length(wall, f.units)
	case fitcalc.AlongAxis:
		return f.AxialLength(n.Length.Abs(), f.units)
	case fitcalc.Stretch:
		return f.percent(100*n.Ratio, 2)
	}
	switch made {
	case "ten":
		return fmt.Sprint(ofTen(n.Ratio))
	case "others":
		return fmt.Sprint(ofTen(1 - n.Ratio))
	case "hundred":
		return fmt.Sprint(ofHundred(n.Ratio))
	}
	return f.Share(n.Ratio)
}

// ofTen and ofHundred are a share in so many parts, never none nor all.
func ofTen(share float64) int { return min(9, max(1, int(math.Round(10*share)))) }

func ofHundred(share float64) int { return min(99, max(1, int(math.RoundToEven(100*share)))) }
