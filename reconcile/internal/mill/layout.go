package mill

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/sheet"
)

// A column of the sheet: a size, or what stands beside the sizes.
type column struct {
	roles   []catalog.Role // those of a size column; several where one cell states them all
	key     string         // what the heading says, by the name of the words
	unit    string         // that of the heading, empty where it says none
	heading string         // as it was written last
	short   string         // what it is called below the heading of a group
	other   bool           // states the sizes in the other unit
	write   func(p *part, i int) *cell
}

// A table is its headings and its lines.
type table struct {
	headings [][]*cell
	lines    [][]*cell
}

// names are the keys of the headings of sizes.
func (m *maker) key(role catalog.Role) string {
	if role == catalog.Bore && m.sheet.Kind == catalog.Ferrules {
		return "ferrule.bore"
	}
	return string(role)
}

var shortNames = map[catalog.Role]string{catalog.HoselOD: "od", catalog.Bore: "id", catalog.BoreDepth: "depth", catalog.HoselLength: "high", catalog.BaseOD: "od", catalog.Length: "high"}

func (m *maker) makeColumns() {
	m.plant()
	m.columns = []*column{{key: "part", write: func(p *part, _ int) *cell {
		p.first = word(p.number)
		return p.first
	}}}
	if m.habits.layout == "sets" {
		m.columns = append(m.columns, &column{key: "set", write: func(p *part, _ int) *cell { return word(p.set) }})
	}
	m.maybe(50, "description", func(p *part, i int) *cell {
		return word(m.words.say(m.Rand, "irons") + " " + strconv.Itoa(1+i/3))
	})
	if m.sheet.Kind == catalog.Heads {
		m.maybe(20, "loft", func(_ *part, i int) *cell { return &cell{text: strconv.Itoa(18 + 4*(i%10)), number: true} })
		m.maybe(20, "weight", func(_ *part, i int) *cell { return &cell{text: strconv.Itoa(230 + 7*(i%10)), number: true} })
	} else {
		m.maybe(30, "colour", func(*part, int) *cell { return word(m.words.say(m.Rand, "black")) })
		m.maybe(15, "material", func(*part, int) *cell { return word("ABS") })
	}
	m.sizeColumns()
	if m.habits.unit == "column" {
		m.columns = append(m.columns, &column{key: "unit", write: func(*part, int) *cell { return word(m.unitWord(m.unitOf(""))) }})
	}
	m.maybe(20, "pack", func(*part, int) *cell { return &cell{text: pick(m.Rand, "12", "50", "100"), number: true} })
	m.maybe(40, "price", func(*part, int) *cell { return m.money(fmt.Sprintf("%d.%02d", 1+m.IntN(60), m.IntN(100))) })
	m.maybe(30, "stock", func(*part, int) *cell { return &cell{text: strconv.Itoa(m.IntN(900)), number: true} })
	m.maybe(20, "remark", func(*part, int) *cell { return word(pick(m.Rand, "", "", "RH", "new", "*")) })
}

func (m *maker) money(text string) *cell {
	if m.habits.number == "decimal comma" {
		return word(strings.ReplaceAll(text, ".", ","))
	}
	return &cell{text: text, number: true}
}

func (m *maker) maybe(percent int, key string, write func(*part, int) *cell) {
	if chance(m.Rand, percent) {
		m.columns = append(m.columns, &column{key: key, write: write})
	}
}

// sizeColumns adds the columns of the sizes, in an order of the sheet's own.
func (m *maker) sizeColumns() {
	var roles []catalog.Role
	for role := range m.parts[0].sizes {
		roles = append(roles, role)
	}
	slices.Sort(roles)
	if m.habits.layout == "size triples" {
		m.columns = append(m.columns, &column{roles: []catalog.Role{catalog.Bore, catalog.BaseOD, catalog.Length}, unit: m.headingUnit(catalog.BaseOD), write: m.triple})
		return
	}
	if m.habits.layout != "merged groups" {
		m.Shuffle(len(roles), func(i, j int) { roles[i], roles[j] = roles[j], roles[i] })
	}
	for _, role := range roles {
		m.columns = append(m.columns, &column{roles: []catalog.Role{role}, key: m.key(role), short: shortNames[role], unit: m.headingUnit(role), write: m.size(role, false)})
		if m.parts[0].sizes[role].other != nil {
			m.columns = append(m.columns, &column{roles: []catalog.Role{role}, key: m.key(role), unit: m.parts[0].sizes[role].other.unit, other: true, write: m.size(role, true)})
		}
	}
}

// headingUnit is the unit that the heading of a size says, empty where the habit is another.
func (m *maker) headingUnit(role catalog.Role) string {
	switch m.habits.unit {
	case "heading", "mixed columns", "two columns":
	default:
		return ""
	}
	unit := m.parts[0].sizes[role].unit
	if m.habits.number == "thousandths" && unit == "in" && !lengths[role] {
		return "thou"
	}
	return unit
}

func (m *maker) unitWord(unit string) string {
	if unit == "in" {
		return m.words.say(m.Rand, "inch")
	}
	return unit
}

func (m *maker) size(role catalog.Role, other bool) func(*part, int) *cell {
	return func(p *part, _ int) *cell {
		s := p.sizes[role]
		if other {
			c := m.sizeCell(role, s.other)
			s.at = append(s.at, c)
			return c
		}
		c := m.sizeCell(role, s)
		s.at = append([]*cell{c}, s.at...)
		return c
	}
}

func (m *maker) sizeCell(role catalog.Role, s *stated) *cell {
	c := word(m.habits.write(role, s))
	c.number = plainNumber(c.text) && (m.habits.number != "leading dot" || chance(m.Rand, 50))
	switch {
	case m.habits.unit == "cell" || m.habits.unit == "mixed cells":
		c.number = false
		c.text += m.cellUnit(role, s)
	case m.habits.unit == "number format":
		c.format = map[string]string{"in": `0.000" in"`, "mm": `0.00" mm"`}[s.unit]
	case m.habits.number == "fixed digits" && c.number:
		c.format = map[string]string{"in": "0.0000", "mm": "0.00"}[s.unit]
	}
	return c
}

func (m *maker) cellUnit(role catalog.Role, s *stated) string {
	switch {
	case m.habits.number == "thousandths" && s.unit == "in" && !lengths[role]:
		return " thou"
	case s.unit == "in" && s.plus == "" && m.habits.number != "decimal comma":
		return pick(m.Rand, `"`, `"`, " in", "in")
	case s.unit == "in":
		return " in"
	}
	return pick(m.Rand, " mm", "mm")
}

func (m *maker) triple(p *part, _ int) *cell {
	var texts []string
	c := word("")
	for _, role := range []catalog.Role{catalog.Bore, catalog.BaseOD, catalog.Length} {
		texts = append(texts, m.habits.write(role, p.sizes[role]))
		p.sizes[role].at = []*cell{c}
	}
	c.text = strings.Join(texts, " x ")
	return c
}

func plainNumber(text string) bool {
	return text != "" && strings.Trim(text, "0123456789.") == "" && strings.Count(text, ".") <= 1
}

// layOut places the tables on the sheet and fills Sheet.
func (m *maker) layOut() {
	if m.habits.layout == "ditto" {
		outside, _ := m.keyRoles()
		slices.SortStableFunc(m.parts, func(a, b *part) int { return a.sizes[outside].length().Compare(b.sizes[outside].length()) })
	}
	for i, p := range m.parts {
		p.cells = nil
		for _, c := range m.columns {
			p.cells = append(p.cells, c.write(p, i))
		}
	}
	if m.habits.layout == "ditto" {
		m.ditto()
	}
	m.spoil()
	m.sheet.Habits["fault"] = m.habits.fault
	half := (len(m.parts) + 1) / 2
	grid := m.above()
	switch m.habits.layout {
	case "side by side":
		grid = append(grid, beside(m.table(m.parts[:half]), m.table(m.parts[half:]))...)
	case "stacked":
		grid = append(grid, m.table(m.parts[:half]).grid()...)
		grid = append(grid, nil)
		grid = append(grid, m.table(m.parts[half:]).grid()...)
	case "transposed":
		grid = append(grid, turned(m.table(m.parts).grid())...)
		m.sheet.OnSide = true
	case "cards":
		grid = append(grid, m.cards()...)
	default:
		grid = append(grid, m.table(m.parts).grid()...)
	}
	m.sheet.cells = append(grid, m.below()...)
	m.sheet.Lines = len(m.sheet.cells)
	m.record()
}

func (m *maker) ditto() {
	marks := pick(m.Rand, `"`, "〃", "ditto", `-"-`, "''")
	for c, col := range m.columns {
		if len(col.roles) == 0 {
			continue
		}
		last := ""
		for _, p := range m.parts {
			own := p.cells[c].text
			if own == last {
				p.cells[c].text, p.cells[c].number, p.cells[c].format = marks, false, ""
			}
			last = own
		}
	}
}

func (m *maker) above() [][]*cell {
	var grid [][]*cell
	title := "title." + m.sheet.Kind.String()
	if slices.Contains([]string{"title", "sections", "foot", "merged groups"}, m.habits.layout) || m.habits.unit == "title" {
		grid = append(grid, []*cell{word(m.words.say(m.Rand, title) + " 2026")})
	}
	if m.habits.unit == "title" {
		grid = append(grid, []*cell{word(m.words.say(m.Rand, "all."+m.unitOf("")))})
	}
	if len(grid) > 0 && chance(m.Rand, 50) {
		grid = append(grid, nil)
	}
	return grid
}

func (m *maker) below() [][]*cell {
	if m.habits.layout != "foot" {
		return nil
	}
	total := []*cell{word(m.words.say(m.Rand, "total"))}
	for _, col := range m.columns[1:] {
		if col.key == "stock" {
			total = append(total, &cell{text: "1834", number: true})
		} else {
			total = append(total, word(""))
		}
	}
	return [][]*cell{total, nil, {word(m.words.say(m.Rand, "note"))}}
}

func (t table) grid() [][]*cell { return append(slices.Clone(t.headings), t.lines...) }

// table makes the headings and lines of some parts.
func (m *maker) table(parts []*part) table {
	t := table{headings: m.headings()}
	for _, p := range parts {
		for c, col := range m.columns {
			for _, role := range col.roles {
				s := p.sizes[role]
				for _, line := range t.headings {
					s.at = append(s.at, line[c])
				}
			}
		}
		for c, col := range m.columns {
			if col.key == "unit" {
				for _, s := range p.sizes {
					s.at = append(s.at, p.cells[c])
				}
			}
		}
	}
	for i, p := range parts {
		if m.habits.layout == "sections" && i%5 == 0 {
			t.lines = append(t.lines, []*cell{word(m.words.say(m.Rand, pick(m.Rand, "irons", "wedges")))})
		}
		if m.habits.layout == "blank rows" && i%3 == 2 {
			t.lines = append(t.lines, nil)
		}
		t.lines = append(t.lines, p.cells)
	}
	return t
}

func (m *maker) headings() [][]*cell {
	var line, units []*cell
	for _, col := range m.columns {
		if col.heading == "" || m.anew {
			col.heading = m.heading(col)
		}
		line = append(line, word(col.heading))
		unit := ""
		if len(col.roles) > 0 {
			unit = m.unitOf(col.roles[0])
		}
		units = append(units, word(unit))
	}
	m.exchangeHeadings(line)
	lines := [][]*cell{line}
	switch m.habits.layout {
	case "merged groups":
		lines = m.grouped(line)
	case "two-row headings":
		lines = twoRows(line)
	case "hidden columns":
		hidden := slices.IndexFunc(m.columns, func(c *column) bool { return c.key == "price" || c.key == "stock" || c.key == "weight" })
		if hidden > 0 {
			m.hidden = append(m.hidden, line[hidden])
		}
	}
	if m.habits.unit == "units row" {
		lines = append(lines, units)
	}
	return lines
}

func (m *maker) heading(col *column) string {
	if col.key == "set" {
		return "Set"
	}
	text := ""
	if len(col.roles) > 1 {
		text = strings.Join([]string{m.words.say(m.Rand, "id"), m.words.say(m.Rand, "od"), m.words.say(m.Rand, "high")}, " x ")
	} else {
		text = m.words.say(m.Rand, col.key)
	}
	if m.habits.layout == "merged groups" && col.short != "" {
		text = m.words.say(m.Rand, col.short)
	}
	if col.unit == "" {
		return text
	}
	unit := m.unitWord(col.unit)
	return text + pick(m.Rand, " ("+unit+")", " ("+unit+")", " ["+unit+"]", " "+unit, ", "+unit)
}

func (m *maker) exchangeHeadings(line []*cell) {
	if m.habits.fault != "two headings exchanged" {
		return
	}
	outside, inside := m.keyRoles()
	at := func(role catalog.Role) int {
		return slices.IndexFunc(m.columns, func(c *column) bool { return slices.Contains(c.roles, role) })
	}
	a, b := at(outside), at(inside)
	line[a].text, line[b].text = line[b].text, line[a].text
}

// grouped puts a merged heading over the sizes that stand below it.
func (m *maker) grouped(line []*cell) [][]*cell {
	group := "group.sizes"
	if m.sheet.Kind == catalog.Heads {
		group = "group.hosel"
	}
	upper := make([]*cell, len(line))
	var covered []*cell
	for c := range line {
		upper[c] = word("")
		if m.columns[c].short != "" {
			covered = append(covered, upper[c])
		} else if len(covered) > 0 {
			break
		}
	}
	for c := range line {
		if upper[c] == nil {
			upper[c] = word("")
		}
	}
	covered[0].text = m.words.say(m.Rand, group)
	if len(covered) > 1 {
		m.merges = append(m.merges, [2]*cell{covered[0], covered[len(covered)-1]})
	}
	// A size of the group that stands apart keeps its full name.
	inside := false
	for c, col := range m.columns {
		if col.short == "" {
			continue
		}
		inside = slices.Contains(covered, upper[c])
		if !inside {
			line[c].text = m.words.say(m.Rand, col.key)
		}
	}
	return [][]*cell{upper, line}
}

func twoRows(line []*cell) [][]*cell {
	upper, lower := make([]*cell, len(line)), make([]*cell, len(line))
	for c, cell := range line {
		first, second, found := strings.Cut(cell.text, " ")
		// A single word stands above: below, it would seem to belong to the word above its neighbour.
		if !found {
			first, second = cell.text, ""
		}
		upper[c], lower[c] = word(first), word(second)
	}
	return [][]*cell{upper, lower}
}

func beside(a, b table) [][]*cell {
	left, right := a.grid(), b.grid()
	var grid [][]*cell
	for i := range max(len(left), len(right)) {
		var line []*cell
		if i < len(left) {
			line = append(line, left[i]...)
		}
		for len(line) <= len(a.headings[0]) {
			line = append(line, word(""))
		}
		if i < len(right) {
			line = append(line, right[i]...)
		}
		grid = append(grid, line)
	}
	return grid
}

func turned(grid [][]*cell) [][]*cell {
	out := make([][]*cell, len(grid[0]))
	for i := range out {
		for _, line := range grid {
			if i < len(line) {
				out[i] = append(out[i], line[i])
			} else {
				out[i] = append(out[i], word(""))
			}
		}
	}
	return out
}

// cards writes each part as lines of a name and a value.
func (m *maker) cards() [][]*cell {
	headings := m.headings()[0]
	var grid [][]*cell
	first := make([]*cell, len(m.columns)) // where a finding about all cards may stand
	for _, p := range m.parts {
		for c, col := range m.columns {
			key := word(headings[c].text + ":")
			if first[c] == nil {
				first[c] = key
				if m.habits.file == "text" {
					first[c] = p.cells[c]
				}
			}
			for _, role := range col.roles {
				p.sizes[role].at = append(p.sizes[role].at, key, first[c])
			}
			if m.habits.file == "text" {
				p.cells[c].text = key.text + " " + p.cells[c].text
				grid = append(grid, []*cell{p.cells[c]})
				continue
			}
			grid = append(grid, []*cell{key, p.cells[c]})
		}
		grid = append(grid, nil)
	}
	return grid[:len(grid)-1]
}

// record says where everything came to stand.
func (m *maker) record() {
	where := map[*cell]sheet.Ref{}
	for r, line := range m.sheet.cells {
		for c, one := range line {
			where[one] = sheet.Ref{Row: r + 1, Col: c + 1}
		}
	}
	for _, p := range m.parts {
		part := Part{Number: p.number, Clubs: p.clubs, Row: where[p.first].Row, Sizes: map[catalog.Role]Size{}}
		for role, s := range p.sizes {
			size := Size{Length: s.length(), TipName: s.tipName, Absent: s.absent, Fault: s.fault}
			if s.other != nil {
				size.Other = s.other.length()
			}
			if s.plus != "" {
				size.Most = size.Length.Add(deviation(s.plus, s.unit))
				size.Least = size.Length.Sub(deviation(s.minus, s.unit))
			}
			for _, at := range s.at {
				size.Cells = append(size.Cells, where[at])
			}
			part.Sizes[role] = size
		}
		m.sheet.Parts = append(m.sheet.Parts, part)
	}
}

func deviation(digits, unit string) (l measure.Length) {
	if digits == "0" {
		return l
	}
	return measure.MustParseLength(digits + " " + unit)
}
