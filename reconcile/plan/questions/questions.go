package questions

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
)

// Kind is what is wrong with what is asked about.
type Kind uint8

const (
	// Missing is a value that is not there.
	Missing Kind = iota + 1
	// Ambiguous can be read in more than one way, so that it is not used.
	Ambiguous
	// Contradictory is stated twice, and not the same.
	Contradictory
	// Implausible is a size that the joint does not allow, or far from the others.
	Implausible
	// Unreadable is no value, or was damaged by a program.
	Unreadable
	// Confirm is used as it was understood; a person may confirm or correct it.
	Confirm
)

// String returns the kind's word.
func (k Kind) String() string {
	return [...]string{"", "missing", "ambiguous", "contradictory", "implausible", "unreadable", "confirm"}[k]
}

// Question is one thing to ask of a supplier.
type Question struct {
	// Key is the key of the mapping file that an answer is given to. No two questions have the same.
	Key  string
	Kind Kind
	// Supplier is its key; see [catalog.Supplier].
	Supplier string
	// Place is where the answer would stand; Cell is a heading's for a question about a column.
	Place finding.Place
	// Part is the part number in question, as the sheet has it; empty for a column or table.
	Part string
	// Role is what the answer gives, empty for a column or table.
	Role catalog.Role
	// Lists is what the table of the part lists, and On the tip that its row names, as far as that is known.
	Lists catalog.Kind
	On    string
	// ByTip is set where it is asked what the tips are in a table of ferrules that gives no bores.
	ByTip bool
	// Says is what stands there now.
	Says string
	// Asks is what is asked, as a sentence.
	Asks string
	// Why says why it is asked, and WhySent the same for the supplier, who need not know what others state.
	Why, WhySent string
	// Ours is set where the shop itself can see the answer: what a table lists and where its headings stand.
	Ours bool
	// Settles, Helps and Carries count pairs; the package's page says which.
	Settles, Helps, Carries int
}

// List is the questions of a catalogue.
type List struct {
	// Questions are sorted by how many pairs they settle, then help, then carry.
	Questions []Question
	// Undecided is how many pairs in reach cannot be decided, and Pairs how many are in reach.
	Undecided, Pairs int
	// Suppliers are what is known of those who are asked, by their key.
	Suppliers map[string]catalog.Supplier
}

// Supplier is what is known of a supplier by its key: nothing else where nothing is.
func (l List) Supplier(key string) catalog.Supplier {
	if s, known := l.Suppliers[key]; known {
		return s
	}
	return catalog.Supplier{Key: key}
}

// Ask returns the questions of a decided catalogue.
func Ask(r *matrix.Result) List {
	a := newAsker(r)
	a.fromFindings()
	a.fromPairs()
	a.confirms()
	list := List{Pairs: r.InReachCount(), Undecided: r.Counts()[fitcalc.Ask], Suppliers: map[string]catalog.Supplier{}}
	for i := range r.Catalogue.Tables {
		if s := r.Catalogue.Tables[i].Supplier; s.Key != "" {
			list.Suppliers[s.Key] = s
		}
	}
	for _, q := range a.byKey {
		list.Questions = append(list.Questions, *q)
	}
	slices.SortFunc(list.Questions, compare)
	return list
}

func compare(a, b Question) int {
	return cmp.Or(
		cmp.Compare(b.Settles, a.Settles), cmp.Compare(b.Helps, a.Helps), cmp.Compare(b.Carries, a.Carries),
		cmp.Compare(a.Kind, b.Kind), strings.Compare(a.Place.File, b.Place.File), strings.Compare(a.Place.Sheet, b.Place.Sheet),
		cmp.Compare(a.Place.Row, b.Place.Row), strings.Compare(a.Key, b.Key),
	)
}

// Group is the questions for one supplier.
type Group struct {
	Supplier  catalog.Supplier
	Questions []Question
}

// Settles returns how many pairs the group's questions settle, each by itself.
func (g Group) Settles() int {
	sum := 0
	for _, q := range g.Questions {
		sum += q.Settles
	}
	return sum
}

// BySupplier groups the questions, the supplier whose answers settle most first; the order of questions stays.
func (l List) BySupplier() []Group {
	var groups []Group
	for _, q := range l.Questions {
		at := slices.IndexFunc(groups, func(g Group) bool { return g.Supplier.Key == q.Supplier })
		if at < 0 {
			at = len(groups)
			groups = append(groups, Group{Supplier: l.Supplier(q.Supplier)})
		}
		groups[at].Questions = append(groups[at].Questions, q)
	}
	slices.SortStableFunc(groups, func(a, b Group) int {
		return cmp.Or(cmp.Compare(b.Settles(), a.Settles()), strings.Compare(a.Supplier.Key, b.Supplier.Key))
	})
	return groups
}

// asker gathers the questions.
type asker struct {
	result    *matrix.Result
	tables    []tableOf
	byKey     map[string]*Question
	suppliers map[[2]string]string // by file and sheet
	heads     []partOf
	ferrules  []partOf
	// decided counts the decided pairs of each head and ferrule.
	decidedHead, decidedFerrule []int
	// holes are the keys of missing fields, and instead the questions that would replace assumptions, once they were looked up: pairs
	// are many, and parts few.
	holes   map[hole]string
	instead map[hole]*Question
	// unconfirmed are the keys whose answer would confirm what was taken for granted.
	unconfirmed map[string]scope
}

// hole is a field of a part, or an assumption about it.
type hole struct {
	ferrule bool
	part    int32
	field   fitcalc.Field
	assumed fitcalc.Assumption
}

// tableOf is a table with what its findings ask.
type tableOf struct {
	*catalog.Table
	prefix string
	// open are the keys below the prefix of which a finding says that something is not used because of it.
	open map[string]bool
	rows map[string][]int // places in Rows by part
}

// partOf is where a part of the catalogue stands.
type partOf struct {
	item *catalog.Item
	// lists is what kind of part it is.
	lists catalog.Kind
	// table is a place in tables, -1 where it is none of them, and line the row's name in the mapping file.
	table int
	line  string
	// impossible is the field that keeps the part from being decided with the sizes it has, and whyNot the reason.
	impossible fitcalc.Field
	whyNot     string
	// tipOpen says why the tip of a head is not known, where several suit its bore; empty where it is known, or nothing says it.
	tipOpen string
}

// scope is what an answer speaks of: a table, of it a column or a row.
type scope struct {
	table     int
	line      string
	role      catalog.Role
	wholeSide bool // the table's kind or layout: all its parts
}

func newAsker(r *matrix.Result) *asker {
	a := &asker{
		result: r, byKey: map[string]*Question{}, suppliers: map[[2]string]string{}, unconfirmed: map[string]scope{}, holes: map[hole]string{}, instead: map[hole]*Question{},
		decidedHead: make([]int, len(r.Catalogue.Heads)), decidedFerrule: make([]int, len(r.Catalogue.Ferrules)),
	}
	for i := range r.Catalogue.Tables {
		a.tables = append(a.tables, newTableOf(&r.Catalogue.Tables[i]))
	}
	for i := range r.Catalogue.Heads {
		h := &r.Catalogue.Heads[i]
		p := a.place(&h.Item, catalog.Heads, h.Head.Validate())
		bore := h.Head.JointBore()
		if tips := &r.HeadTips[i]; r.Tips[tips.Tips[0]].Name == "" && bore.Given() {
			p.tipOpen = tips.Why
		}
		a.heads = append(a.heads, p)
	}
	for i := range r.Catalogue.Ferrules {
		f := &r.Catalogue.Ferrules[i]
		a.ferrules = append(a.ferrules, a.place(&f.Item, catalog.Ferrules, f.Ferrule.Validate()))
	}
	for i := range r.Catalogue.Tips {
		a.supplier(&r.Catalogue.Tips[i].Item)
	}
	return a
}

func newTableOf(t *catalog.Table) tableOf {
	key := t.Key
	if key == "" {
		key = cmp.Or(t.Sheet, t.File)
	}
	of := tableOf{Table: t, prefix: fmt.Sprintf("sheets.%q.", key), open: map[string]bool{}, rows: map[string][]int{}}
	for _, f := range t.Findings.Each() {
		if rest, own := strings.CutPrefix(f.Settle, of.prefix); own && f.Severity == finding.Error {
			of.open[rest] = true
		}
	}
	for i := range t.Rows {
		if part := t.Rows[i].Part; part != "" {
			of.rows[part] = append(of.rows[part], i)
		}
	}
	return of
}

// supplier remembers whose sheet it is.
func (a *asker) supplier(item *catalog.Item) {
	if item.Supplier != "" {
		a.suppliers[[2]string{item.Source.File, item.Source.Sheet}] = item.Supplier
		if _, known := a.suppliers[[2]string{item.Source.File}]; !known {
			a.suppliers[[2]string{item.Source.File}] = item.Supplier
		}
	}
}

// place finds the row of a part. The rows of a table on its side are columns of the sheet, so the part number finds them.
func (a *asker) place(item *catalog.Item, kind catalog.Kind, invalid error) partOf {
	a.supplier(item)
	p := partOf{item: item, lists: kind, table: -1, line: strconv.Itoa(item.Source.Row)}
	p.impossible, p.whyNot = impossibleField(invalid)
	for i, t := range a.tables {
		if t.File != item.Source.File || t.Sheet != item.Source.Sheet || t.Kind != kind {
			continue
		}
		if p.table < 0 && (len(t.Rows) == 0 || len(t.rows[item.Part]) > 0) {
			p.table = i
		}
		for n, at := range t.rows[item.Part] {
			row := t.Rows[at].Row
			if n == 0 && p.table == i || row == item.Source.Row {
				p.table, p.line = i, t.Rows[at].Name()
			}
			if row == item.Source.Row {
				return p
			}
		}
	}
	return p
}

// supplierOf is whose a file is, by its name where nothing says it.
func (a *asker) supplierOf(file, sheet string) string {
	return cmp.Or(a.suppliers[[2]string{file, sheet}], a.suppliers[[2]string{file}], file)
}

// fromPairs counts for each undecided pair what would settle it, and for each listed pair what it rests on.
func (a *asker) fromPairs() {
	r := a.result
	for i := range a.heads {
		a.decidedHead[i] = decided(func(v fitcalc.Verdict) int { return r.HeadCount(i, v) })
		a.open(hole{part: int32(i)}, r.Asked(i))
	}
	for i := range a.ferrules {
		a.decidedFerrule[i] = decided(func(v fitcalc.Verdict) int { return r.FerruleCount(i, v) })
		a.open(hole{ferrule: true, part: int32(i)}, r.FerruleAsked(i))
	}
	var fit fitcalc.Fit
	for heads, pairs := range r.ByGeometry() {
		for _, p := range pairs {
			r.FitInto(&fit, p)
			for _, p.Head = range heads {
				a.restsOn(p, &fit)
			}
		}
	}
}

// decided sums the pairs of a part that could be decided.
func decided(count func(fitcalc.Verdict) int) int {
	sum := 0
	for v := fitcalc.Flush; v <= fitcalc.Bare; v++ {
		if v != fitcalc.Ask {
			sum += count(v)
		}
	}
	return sum
}

// open counts the pairs of a part that wait for what it does not say. An answer settles them where it is the only one they wait for.
func (a *asker) open(h hole, asked []matrix.Asked) {
	for _, lacking := range asked {
		var keys []string
		for _, h.field = range lacking.Fields {
			if key := a.keyOf(h); !slices.Contains(keys, key) {
				keys = append(keys, key)
			}
		}
		for _, key := range keys {
			if len(keys) == 1 && !lacking.Others {
				a.byKey[key].Settles += lacking.Pairs
			} else {
				a.byKey[key].Helps += lacking.Pairs
			}
		}
	}
}

// Add puts a question in its place; one whose key is there already is not added again.
func (l *List) Add(q Question) {
	if slices.ContainsFunc(l.Questions, func(known Question) bool { return known.Key == q.Key }) {
		return
	}
	at, _ := slices.BinarySearchFunc(l.Questions, q, compare)
	l.Questions = slices.Insert(l.Questions, at, q)
}

// Theirs reports whether the group has a question that the supplier can answer.
func (g Group) Theirs() bool {
	return slices.ContainsFunc(g.Questions, func(q Question) bool { return !q.Ours })
}
