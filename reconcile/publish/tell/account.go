package tell

import (
	"cmp"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
)

// Standing is what a result means for one head.
type Standing uint8

const (
	// Served is a head that at least one ferrule fits.
	Served Standing = iota
	// Undecided is a head that no ferrule is known to fit, and at least one may.
	Undecided
	// Unserved is a head that no ferrule fits.
	Unserved
	// TakesNone is a head that takes no ferrule.
	TakesNone
)

// Account counts a result. Listed + OutOfRange = Heads × Ferrules, and Listed is the sum of Verdicts.
type Account struct {
	// Rows are the rows of all tables by what the tables list, and AllRows those of all tables together.
	Rows    map[catalog.Kind]catalog.Ledger
	AllRows catalog.Ledger

	Heads, Ferrules, Tips int
	Possible              int
	Listed, OutOfRange    int
	Verdicts              map[fitcalc.Verdict]int

	// Standings are the heads by what the result means for them, in the order of the catalogue.
	Standings []Standing
	// Standing counts them.
	Standing map[Standing]int
	// Fits counts for each ferrule the heads it fits.
	Fits []int
	// UsedFerrules fit at least one head.
	UsedFerrules int

	Findings    map[finding.Severity]int
	Assumptions []Carried
}

// Carried is an assumption and how many verdicts of listed pairs rest on it.
type Carried struct {
	Code, Text string
	Verdicts   int
}

// Take counts a result.
func Take(r *matrix.Result) Account {
	a := Account{
		Rows:       map[catalog.Kind]catalog.Ledger{},
		Heads:      len(r.Catalogue.Heads),
		Ferrules:   len(r.Catalogue.Ferrules),
		Tips:       len(r.Catalogue.Tips),
		Listed:     len(r.Pairs),
		OutOfRange: r.OutOfRange,
		Verdicts:   r.Counts(),
		Standing:   map[Standing]int{},
		Fits:       make([]int, len(r.Catalogue.Ferrules)),
		Findings:   map[finding.Severity]int{},
	}
	a.Possible = a.Heads * a.Ferrules
	a.rows(r.Catalogue.Tables)
	a.standings(r)
	a.pairs(r)
	for _, f := range Findings(r) {
		a.Findings[f.Severity]++
	}
	return a
}

// Findings returns all findings of a result, of the reading and of the deciding, sorted.
func Findings(r *matrix.Result) finding.List {
	all := slices.Concat(r.Catalogue.Findings, r.Findings)
	all.Sort()
	return all
}

func (a *Account) rows(tables []catalog.Table) {
	for i := range tables {
		ledger := tables[i].Ledger
		a.Rows[tables[i].Kind] = sum(a.Rows[tables[i].Kind], ledger)
		a.AllRows = sum(a.AllRows, ledger)
	}
}

func sum(a, b catalog.Ledger) catalog.Ledger {
	return catalog.Ledger{
		Rows: a.Rows + b.Rows, Used: a.Used + b.Used, Assumed: a.Assumed + b.Assumed,
		Held: a.Held + b.Held, SetAside: a.SetAside + b.SetAside,
	}
}

func (a *Account) standings(r *matrix.Result) {
	for head := range r.Catalogue.Heads {
		s := standing(r, head)
		a.Standings = append(a.Standings, s)
		a.Standing[s]++
	}
}

func standing(r *matrix.Result, head int) Standing {
	pairs := r.HeadPairs(head)
	is := func(want func(fitcalc.Verdict) bool) bool {
		return slices.ContainsFunc(pairs, func(p matrix.Pair) bool { return want(p.Verdict) })
	}
	switch {
	case is(fitcalc.Verdict.Fits):
		return Served
	case r.Catalogue.Heads[head].Head.Top == fitcalc.TopRounded,
		is(func(v fitcalc.Verdict) bool { return v == fitcalc.Bare }):
		return TakesNone
	case is(func(v fitcalc.Verdict) bool { return v == fitcalc.Ask }):
		return Undecided
	}
	return Unserved
}

func (a *Account) pairs(r *matrix.Result) {
	carried := map[string]int{}
	texts := map[string]string{}
	for _, p := range r.Pairs {
		if p.Verdict.Fits() {
			a.Fits[p.Ferrule]++
		}
		fit := r.Fit(p)
		for _, c := range Assumptions(r, p, &fit) {
			carried[c.Code]++
			texts[c.Code] = c.Text
		}
	}
	for _, count := range a.Fits {
		if count > 0 {
			a.UsedFerrules++
		}
	}
	for code, count := range carried {
		a.Assumptions = append(a.Assumptions, Carried{code, texts[code], count})
	}
	slices.SortFunc(a.Assumptions, func(x, y Carried) int {
		return cmp.Or(cmp.Compare(y.Verdicts, x.Verdicts), cmp.Compare(x.Code, y.Code))
	})
}

// Assumption is something that one pair's verdict rests on and that no sheet says.
type Assumption struct{ Code, Text string }

// Assumptions returns what a pair's verdict rests on: first what deciding took for granted, then the tip where no sheet names
// it, then what reading the rows of head and ferrule took for granted. Each stands once.
func Assumptions(r *matrix.Result, p matrix.Pair, fit *fitcalc.Fit) []Assumption {
	var all []Assumption
	add := func(code, text string) {
		if !slices.ContainsFunc(all, func(a Assumption) bool { return a.Code == code }) {
			all = append(all, Assumption{code, text})
		}
	}
	for a := range fit.Assumptions.All() {
		add(a.Code(), a.String())
	}
	if r.HeadTips[p.Head].Assumed && r.Tips[p.Tip].Name != "" {
		add("tip.bore", "the tip is the usual one that the bore is made for")
	}
	for _, code := range r.Catalogue.Heads[p.Head].Assumptions {
		add(code, code)
	}
	for _, code := range r.Catalogue.Ferrules[p.Ferrule].Assumptions {
		add(code, code)
	}
	return all
}
