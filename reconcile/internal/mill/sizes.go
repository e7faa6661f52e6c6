package mill

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/seatline/reconcile/catalog"
)

// tipClass is a tip of the trade with what is bored for it, in inches and in mm: holes of heads a little over it, bores of ferrules a little
// under. Common practice, from memory.
type tipClass struct {
	name         string
	wood         bool
	holes, bores map[string][]string
}

var tipClasses = []tipClass{
	{".370", false, by(".372 .373 .374 .375", "9.45 9.48 9.5 9.52"), by(".367 .368 .3675", "9.3 9.32 9.35")},
	{".355", false, by(".357 .358 .359", "9.07 9.08 9.1 9.12"), by(".352 .353", "8.92 8.95 8.97")},
	{".335", true, by(".337 .338 .339", "8.57 8.58 8.6"), by(".332 .333", "8.42 8.45 8.46")},
	{".350", true, by(".352 .353", "8.95 8.97"), by(".347 .348", "8.8 8.82 8.85")},
}

func by(inches, millimetres string) map[string][]string {
	return map[string][]string{"in": strings.Fields(inches), "mm": strings.Fields(millimetres)}
}

// Sizes of the trade by role, from memory; those of wood heads are smaller.
var (
	ironODs = by(".480 .490 .500 .505 .510 .515 .520 .525 .530 .535 .540 .545 .550", "12.2 12.5 12.7 12.9 13 13.2 13.4 13.5 13.6 13.7 13.8 14")
	woodODs = by(".450 .455 .460 .465 .470 .475 .480 .485 .490 .500 .510", "11.5 11.6 11.8 12 12.2 12.4 12.5 12.7 13")
	usual   = map[catalog.Role]map[string][]string{
		catalog.BoreDepth:        by("1 1.125 1.25 1.375 1.5", "25.4 28 30 32 33.5 35 38"),
		catalog.HoselLength:      by("2 2.125 2.25 2.375 2.5 2.625 2.75", "50 54 58 60 63.5 66 70"),
		catalog.CountersinkMouth: by(".410 .415 .420 .425 .430", "10.4 10.5 10.8 11"),
		catalog.CountersinkDepth: by(".030 .040 .050 .060", ".8 1 1.2 1.5"),
		catalog.TopOD:            by(".395 .400 .405 .410 .415", "10 10.2 10.4 10.5"),
		catalog.Length:           by(".5 .625 .75 .875 1 1.125 1.25", "12.7 15 16 19 20 22 25 25.4 30"),
		catalog.CollarOD:         by(".400 .405 .410 .415", "10.2 10.4 10.5"),
		catalog.CollarLength:     by(".030 .040 .050 .060", ".8 1 1.2 1.5"),
		catalog.StepOD:           by(".420 .425 .430 .435", "10.7 10.8 11"),
		catalog.StepLength:       by(".125 .150 .200 .250", "3 4 5 6"),
	}
	// lengths are written as fractions where the habit is so, diameters as decimals.
	lengths = map[catalog.Role]bool{catalog.BoreDepth: true, catalog.HoselLength: true, catalog.Length: true, catalog.CountersinkDepth: false}
)

// roles are the sizes that the sheet states: the key ones always, the others by chance.
func (m *maker) roles() []catalog.Role {
	if m.sheet.Kind == catalog.Heads {
		roles := []catalog.Role{catalog.HoselOD, catalog.Bore}
		for _, role := range []catalog.Role{catalog.BoreDepth, catalog.HoselLength} {
			if chance(m.Rand, 50) {
				roles = append(roles, role)
			}
		}
		if chance(m.Rand, 25) {
			roles = append(roles, catalog.CountersinkMouth, catalog.CountersinkDepth)
		}
		return roles
	}
	roles := []catalog.Role{catalog.Bore, catalog.BaseOD, catalog.Length}
	if m.habits.layout == "size triples" {
		return roles
	}
	if chance(m.Rand, 30) {
		roles = append(roles, catalog.TopOD)
	}
	switch m.IntN(6) {
	case 0:
		roles = append(roles, catalog.CollarOD, catalog.CollarLength)
	case 1:
		roles = append(roles, catalog.StepOD, catalog.StepLength)
	}
	return roles
}

func (m *maker) makeParts() {
	n := 4 + m.IntN(14)
	wood := chance(m.Rand, 35)
	prefix := pick(m.Rand, "VX-", "KH", "TR ", "Q-", "HB.", "N", "AL/", "ZF-", "")
	start := 100 + m.IntN(8000)
	roles := m.roles()
	var classes []tipClass
	for _, c := range tipClasses {
		if c.wood == wood {
			classes = append(classes, c)
		}
	}
	for i := range n {
		p := &part{number: prefix + strconv.Itoa(start+3*i+m.IntN(3)), tip: pick(m.Rand, classes...), sizes: map[catalog.Role]*stated{}, clubs: 1}
		if prefix == "" {
			p.number = fmt.Sprintf("%d-%02d", start, i+1)
		}
		if m.habits.layout == "sets" {
			set := pick(m.Rand, sets...)
			p.set, p.clubs = set.text, set.clubs
		}
		for _, role := range roles {
			p.sizes[role] = m.state(role, p.tip)
		}
		m.parts = append(m.parts, p)
	}
}

var sets = []struct {
	text  string
	clubs int
}{{"4-PW", 7}, {"3-PW", 8}, {"5-9", 5}, {"5-PW", 6}, {"SW", 1}}

// unitOf is the unit in which the sheet states a role.
func (m *maker) unitOf(role catalog.Role) string {
	inches := m.habits.inches
	if m.habits.unit == "mixed columns" && (lengths[role] || role == catalog.Bore) {
		inches = !inches
	}
	if m.habits.unit == "mixed cells" {
		inches = chance(m.Rand, 50)
	}
	if inches {
		return "in"
	}
	return "mm"
}

func (m *maker) state(role catalog.Role, tip tipClass) *stated {
	unit := m.unitOf(role)
	s := &stated{unit: unit}
	var sizes []string
	switch {
	case role == catalog.Bore && m.habits.tips == "tip names" && unit == "in":
		s.digits, s.tipName = tip.name, true
	case role == catalog.Bore && m.sheet.Kind == catalog.Heads:
		sizes = tip.holes[unit]
	case role == catalog.Bore:
		sizes = tip.bores[unit]
	case role == catalog.HoselOD || role == catalog.BaseOD:
		sizes = ironODs[unit]
		if tip.wood {
			sizes = woodODs[unit]
		}
	default:
		sizes = usual[role][unit]
	}
	if !s.tipName {
		s.digits = pick(m.Rand, sizes...)
	}
	if role == catalog.HoselOD || role == catalog.BaseOD {
		m.deviate(s)
		if m.habits.unit == "two columns" {
			s.other = otherUnit(s)
		}
	}
	return s
}

// deviate states deviations where that is the habit.
func (m *maker) deviate(s *stated) {
	deviations := map[string]string{"in": pick(m.Rand, ".002", ".003"), "mm": pick(m.Rand, "0.05", "0.08")}
	switch m.habits.number {
	case "± in cell":
		s.plus, s.minus = deviations[s.unit], deviations[s.unit]
	case "one-sided limits":
		s.plus, s.minus = "0", deviations[s.unit]
	}
}

// otherUnit is the same size in the other unit, rounded as people do.
func otherUnit(s *stated) *stated {
	if s.unit == "in" {
		text, _ := s.length().FormatMillimetres(2)
		return &stated{digits: text, unit: "mm"}
	}
	text, _ := s.length().FormatInches(3)
	return &stated{digits: text, unit: "in"}
}

// write writes a size's digits in the sheet's habit, without its unit.
func (h habits) write(role catalog.Role, s *stated) string {
	digits := s.digits
	switch h.number {
	case "fractions":
		if lengths[role] && s.unit == "in" {
			digits = fraction(s)
		}
	case "thousandths":
		if s.unit == "in" && !lengths[role] {
			text, _ := s.length().FormatThou(1)
			digits = strings.TrimSuffix(text, ".0")
			return digits
		}
	case "fixed digits":
		digits = fixed(s)
	}
	switch h.number {
	case "leading dot", "fractions":
	default:
		digits = withZero(digits)
	}
	if h.number == "diameter sign" && !lengths[role] {
		digits = "Ø" + digits
	}
	switch {
	case s.plus == "":
	case s.plus == s.minus:
		digits += " ±" + s.plus
	default:
		digits += " +0/-" + s.minus
	}
	if h.number == "decimal comma" {
		digits = strings.ReplaceAll(digits, ".", ",")
	}
	return digits
}

func withZero(digits string) string {
	if strings.HasPrefix(digits, ".") {
		return "0" + digits
	}
	return digits
}

func fixed(s *stated) string {
	whole, decimals, _ := strings.Cut(withZero(s.digits), ".")
	places := 2
	if s.unit == "in" {
		places = 4
	}
	for len(decimals) < places {
		decimals += "0"
	}
	return whole + "." + decimals
}

// fraction writes a length of whole eighths of an inch.
func fraction(s *stated) string {
	f, _ := s.length().FormatFraction(8)
	return f.String()
}
