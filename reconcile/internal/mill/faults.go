package mill

import (
	"strings"

	"example.com/seatline/reconcile/catalog"
)

// faults are what goes wrong in making a list, each in one cell but for the exchanged headings.
var faults = []string{"decimal slipped", "other unit in a cell", "two cells exchanged", "two headings exchanged", "letter for a digit", "another size of the part",
	"nothing in a cell", "price for a size", "a limit only"}

// keyRoles are the two diameters that faults are planted in.
func (m *maker) keyRoles() (outside, inside catalog.Role) {
	if m.sheet.Kind == catalog.Heads {
		return catalog.HoselOD, catalog.Bore
	}
	return catalog.BaseOD, catalog.Bore
}

// planted plants a fault of values, which are not written yet; spoil those of what is written.
func (m *maker) plant() {
	if m.habits.fault != "another size of the part" {
		return
	}
	outside, _ := m.keyRoles()
	old := pick(m.Rand, m.parts...)
	again := *old
	again.sizes = map[catalog.Role]*stated{}
	for role, s := range old.sizes {
		another := *s
		again.sizes[role] = &another
	}
	s := again.sizes[outside]
	for s.length() == old.sizes[outside].length() {
		all := ironODs[s.unit]
		if old.tip.wood {
			all = woodODs[s.unit]
		}
		s.digits = pick(m.Rand, all...)
	}
	if s.other != nil {
		s.other = otherUnit(s)
	}
	s.fault, old.sizes[outside].fault = true, true
	m.parts = append(m.parts, &again)
}

// spoil puts a fault into the cells of the size columns.
func (m *maker) spoil() {
	outside, inside := m.keyRoles()
	victim := pick(m.Rand, m.parts...)
	s := victim.sizes[outside]
	if len(s.at) == 0 {
		return
	}
	c := s.at[0]
	done := true
	switch m.habits.fault {
	case "decimal slipped":
		done = replaceDigits(c, s, slipped(m, s))
	case "other unit in a cell":
		other := map[string]string{"in": " mm", "mm": " in"}[s.unit]
		c.text = strings.TrimRight(strings.TrimSuffix(strings.TrimSuffix(strings.TrimSuffix(c.text, s.unit), `"`), "thou"), " ") + other
		c.number, c.format = false, ""
		done = m.habits.number != "thousandths"
	case "two cells exchanged":
		done = m.exchange(victim, outside, inside)
	case "two headings exchanged":
		// The headings are made with the table: swapped there.
		done = m.habits.layout != "cards" && m.habits.layout != "size triples" && m.habits.unit != "mixed columns" && m.habits.unit != "two columns" && m.habits.number != "thousandths"
		if done {
			for _, p := range m.parts {
				p.sizes[outside].fault, p.sizes[inside].fault = true, true
			}
			return
		}
	case "letter for a digit":
		done = m.misread(c, s)
	case "nothing in a cell":
		c.text, c.number, c.format = pick(m.Rand, "", "-", "n/a", "?", "TBA"), false, ""
		s.absent = true
		if s.other != nil {
			// The second column still says it.
			s.absent = false
		}
		done = m.habits.layout != "size triples"
	case "price for a size":
		c.text, c.number, c.format = pick(m.Rand, "$18.50", "18,50 €", "US$ 4.20"), false, ""
		done = m.habits.layout != "size triples"
	case "a limit only":
		c.text, c.number, c.format = pick(m.Rand, "max ", "≤ ", "<")+c.text, false, ""
		done = m.habits.layout != "size triples" && s.plus == ""
	default:
		return
	}
	if !done {
		m.habits.fault = "none"
		s.absent = false
		return
	}
	s.fault = true
}

// slipped are the digits with the decimal point one place off.
func slipped(m *maker, s *stated) string {
	l := s.length()
	if chance(m.Rand, 50) {
		l = l.MulInt(10)
	} else {
		l = l.DivRound(10)
	}
	var text string
	if s.unit == "in" {
		text, _ = l.FormatInches(4)
	} else {
		text, _ = l.FormatMillimetres(3)
	}
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

// replaceDigits writes other digits in the place of the size's own, where they stand in the cell as they are.
func replaceDigits(c *cell, s *stated, digits string) bool {
	for _, own := range []string{withZero(s.digits), s.digits} {
		if before, after, found := strings.Cut(c.text, own); found && !strings.ContainsAny(after, "x") && !strings.HasSuffix(before, "x ") {
			if strings.Contains(digits, ".") && strings.HasPrefix(after, ".") {
				after = after[1:]
			}
			c.text = before + digits + strings.TrimLeft(after, "0")
			return true
		}
	}
	return false
}

func (m *maker) exchange(p *part, a, b catalog.Role) bool {
	first, second := p.sizes[a], p.sizes[b]
	if m.habits.layout == "size triples" || m.habits.unit == "mixed columns" || m.habits.unit == "two columns" || m.habits.number == "thousandths" {
		return false
	}
	first.at[0].text, second.at[0].text = second.at[0].text, first.at[0].text
	first.at[0].number, second.at[0].number = second.at[0].number, first.at[0].number
	second.fault = true
	return true
}

func (m *maker) misread(c *cell, s *stated) bool {
	for _, pair := range [][2]string{{"0", "O"}, {"1", "l"}, {"5", "S"}, {"1", "I"}, {"0", "o"}} {
		if strings.Contains(c.text, pair[0]) && m.habits.layout != "size triples" && s.plus == "" {
			c.text, c.number, c.format = strings.Replace(c.text, pair[0], pair[1], 1), false, ""
			return true
		}
	}
	return false
}
