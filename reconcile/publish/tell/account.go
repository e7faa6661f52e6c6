package tell

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
)

// Standing is what a result means for one head: [matrix.Result.Standing].
type Standing = matrix.Standing

// The standings, under the names that writers know.
const (
	Served    = matrix.Served
	Selective = matrix.Selective
	Undecided = matrix.Undecided
	Unserved  = matrix.Unserved
	TakesNone = matrix.TakesNone
)

// Account counts a result. Listed + Counted + OutOfRange = Heads × Ferrules, and Listed + Counted is the sum of Verdicts.
type Account struct {
	// Rows are the rows of all tables by what the tables list, and AllRows those of all tables together.
	Rows    map[catalog.Kind]catalog.Ledger
	AllRows catalog.Ledger

	Heads, Ferrules, Tips int
	// HeadGeometries and FerruleGeometries are how many different ones there are.
	HeadGeometries, FerruleGeometries int
	Possible                          int
	// Listed are the pairs that stand in the data files one by one, Counted the others in reach, of which ByReason are those that do not
	// fit.
	Listed, Counted, OutOfRange int
	ByReason                    []matrix.Counted
	// OnlyBest is of how many ferrules for each head, and heads for each ferrule, the pairs are listed, 0 where all that fit are. LeftOut
	// are those that fit and are counted instead.
	OnlyBest int
	LeftOut  map[fitcalc.Verdict]int
	// Verdicts are those of all pairs in reach.
	Verdicts map[fitcalc.Verdict]int

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
	Assumption
	Verdicts int
}

// Take counts a result.
func Take(r *matrix.Result) Account {
	a := Account{
		Rows:       map[catalog.Kind]catalog.Ledger{},
		Heads:      len(r.Catalogue.Heads),
		Ferrules:   len(r.Catalogue.Ferrules),
		Tips:       len(r.Catalogue.Tips),
		Listed:     r.Listed,
		OutOfRange: r.OutOfRange,
		ByReason:   r.Counted,
		OnlyBest:   r.OnlyBest,
		LeftOut:    map[fitcalc.Verdict]int{},
		Verdicts:   r.Counts(),
		Standing:   map[Standing]int{},
		Fits:       make([]int, len(r.Catalogue.Ferrules)),
		Findings:   map[finding.Severity]int{},
	}
	a.HeadGeometries, a.FerruleGeometries = len(r.HeadGeometries()), len(r.FerruleGeometries())
	a.Possible = a.Heads * a.Ferrules
	a.Counted = a.Possible - a.Listed - a.OutOfRange
	for v, n := range a.Verdicts {
		if left := n - r.ListedCount(v); v.Fits() && left > 0 {
			a.LeftOut[v] = left
		}
	}
	a.rows(r.Catalogue.Tables)
	a.standings(r)
	a.pairs(r)
	for _, f := range Findings(r) {
		a.Findings[f.Severity]++
	}
	return a
}

// Listing says which pairs are listed where not all that fit are, as a sentence without its stop, and nothing otherwise.
func (a *Account) Listing() string {
	if a.OnlyBest == 0 {
		return ""
	}
	fit, left := 0, 0
	for v, n := range a.Verdicts {
		if v.Fits() {
			fit += n
		}
		left += a.LeftOut[v]
	}
	best := "the best ferrule of each head and the best head of each ferrule"
	if n := a.OnlyBest; n > 1 {
		best = fmt.Sprintf("the %d best ferrules of each head and the %d best heads of each ferrule", n, n)
	}
	return fmt.Sprintf("of %d pairs that fit are listed %s; the other %d are counted", fit, best, left)
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
		a.Rows[tables[i].Kind] = a.Rows[tables[i].Kind].Add(ledger)
		a.AllRows = a.AllRows.Add(ledger)
	}
}

func (a *Account) standings(r *matrix.Result) {
	for head := range r.Catalogue.Heads {
		s := r.Standing(head)
		a.Standings = append(a.Standings, s)
		a.Standing[s]++
	}
}

func (a *Account) pairs(r *matrix.Result) {
	for i := range a.Fits {
		a.Fits[i] = r.FerruleFits(i)
		if a.Fits[i] > 0 {
			a.UsedFerrules++
		}
	}
	carried := map[Assumption]int{}
	for assumed := fitcalc.Assumption(0); assumed.Code() != ""; assumed++ {
		carried[Assumption{Code: assumed.Code()}] = r.Assumed(assumed)
	}
	readings(r, carried)
	for assumption, count := range carried {
		if count > 0 {
			a.Assumptions = append(a.Assumptions, Carried{assumption, count})
		}
	}
	slices.SortFunc(a.Assumptions, func(x, y Carried) int {
		return cmp.Or(cmp.Compare(y.Verdicts, x.Verdicts), cmp.Compare(x.Code, y.Code), cmp.Compare(x.Text, y.Text))
	})
	a.Assumptions = gathered(a.Assumptions)
}

// readings counts the listed pairs that rest on what was taken for granted in reading rows, and on a tip that no sheet names. A text
// that stands on both sides of a pair counts once.
func readings(r *matrix.Result, carried map[Assumption]int) {
	ofFerrules := map[string]bool{}
	for i := range r.Catalogue.Ferrules {
		for _, text := range r.Catalogue.Ferrules[i].Assumptions {
			ofFerrules[text] = true
		}
	}
	pairs := make([]int, len(r.Catalogue.Ferrules))
	for heads, listed := range r.ByGeometry() {
		onTip := 0
		for _, p := range listed {
			pairs[p.Ferrule] += len(heads)
			if r.Tips[p.Tip].Name != "" {
				onTip++
			}
		}
		if r.HeadTips[heads[0]].Assumed {
			carried[tipOfBore] += onTip * len(heads)
		}
		for _, head := range heads {
			for _, text := range distinct(r.Catalogue.Heads[head].Assumptions) {
				n := len(listed)
				for _, p := range listed {
					if ofFerrules[text] && slices.Contains(r.Catalogue.Ferrules[p.Ferrule].Assumptions, text) {
						n-- // counted with the ferrule
					}
				}
				carried[Assumption{Reading, text}] += n
			}
		}
	}
	for i, n := range pairs {
		for _, text := range distinct(r.Catalogue.Ferrules[i].Assumptions) {
			carried[Assumption{Reading, text}] += n
		}
	}
}

// distinct are the texts, each once.
func distinct(texts []string) []string {
	if len(texts) < 2 {
		return texts
	}
	return slices.Compact(slices.Sorted(slices.Values(texts)))
}

var tipOfBore = Assumption{Code: TipOfBore}

// mostReadings is how many assumptions made in reading rows are listed one by one.
const mostReadings = 40

// gathered keeps those assumptions made in reading rows that carry most, and counts the others: large catalogues have thousands.
func gathered(all []Carried) []Carried {
	var kept []Carried
	readings, others, verdicts := 0, 0, 0
	for _, c := range all {
		if c.Code == Reading {
			readings++
		}
		if c.Code != Reading || readings <= mostReadings {
			kept = append(kept, c)
			continue
		}
		others++
		verdicts = max(verdicts, c.Verdicts)
	}
	if others > 0 {
		text := fmt.Sprintf("%d more, made in reading single rows; none carries more verdicts than this", others)
		kept = append(kept, Carried{Assumption{Reading, text}, verdicts})
	}
	return kept
}

// Codes of assumptions that are not those of package fitcalc.
const (
	// TipOfBore is a tip that no sheet names.
	TipOfBore = "tip.bore"
	// Reading is what was taken for granted in reading a row; only its text says what.
	Reading = "row.reading"
)

// Assumption is something that one pair's verdict rests on and that no sheet says. Of what was taken for granted in reading a row, Text
// says what; package say has the words of any other code.
type Assumption struct{ Code, Text string }

// In returns the assumption in words.
func (a Assumption) In(l *say.Language) string {
	if a.Code == Reading {
		return a.Text
	}
	return l.Assumed(a.Code)
}

// String returns the code, and of what was taken for granted in reading a row, the text.
func (a Assumption) String() string {
	if a.Code == Reading {
		return a.Text
	}
	return a.Code
}

// Assumptions returns what a pair's verdict rests on: first what deciding took for granted, then the tip where no sheet names
// it, then what reading the rows of head and ferrule took for granted. Each stands once.
func Assumptions(r *matrix.Result, p matrix.Pair, fit *fitcalc.Fit) []Assumption {
	all := make([]Assumption, 0, 8)
	for a := range fit.Assumptions.All() {
		all = append(all, Assumption{Code: a.Code()})
	}
	if r.HeadTips[p.Head].Assumed && r.Tips[p.Tip].Name != "" {
		all = append(all, tipOfBore)
	}
	read := len(all)
	for _, item := range [...]*catalog.Item{&r.Catalogue.Heads[p.Head].Item, &r.Catalogue.Ferrules[p.Ferrule].Item} {
		for _, text := range item.Assumptions {
			if a := (Assumption{Reading, text}); !slices.Contains(all[read:], a) {
				all = append(all, a)
			}
		}
	}
	return all
}
