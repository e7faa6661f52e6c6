package vet

import (
	"fmt"
	"slices"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/finding"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/plan/questions"
)

// mostHeld is the share of rows held, and of pairs undecided, beyond which a catalogue cannot be judged.
const mostHeld = 0.25

// Names of the parts of the report in which the rows behind a fact stand; the writers head their sheets and sections with them.
const (
	SheetGains       = "Gains"
	SheetFerrules    = "New ferrules"
	SheetStock       = "From stock"
	SheetOrder       = "To order"
	SheetSizes       = "House sizes"
	SheetQuality     = "Their sheet"
	SheetEquivalents = "Equivalents"
	SheetSamples     = "Samples"
	SheetQuestions   = "Questions"
	SheetFindings    = "Findings"
)

// judge gives the verdict, the facts that carry it and what would change it.
func (r *Report) judge(in Input) {
	r.Facts = []Fact{r.fitFact(), r.timeFact(), r.sheetFact(), r.sizeFact(in), r.sampleFact(in)}
	switch {
	case r.Samples.Contradicted() > 0, r.Sheet.HeldShare() > mostHeld, r.undecidedShare() > mostHeld:
		r.Verdict = AskFirst
	case !r.gainsAnything():
		r.Verdict = Leave
	default:
		r.Verdict = Take
	}
	r.changes()
}

// undecidedShare is the share of the pairs that wait for what the new sheets do not say.
func (r *Report) undecidedShare() float64 {
	if r.Judged == 0 {
		return 0
	}
	return float64(r.Open) / float64(r.Judged)
}

func (r *Report) gainsAnything() bool {
	return len(r.Ferrules.Gains) > 0 || len(r.Heads.Served) > 0 || slices.ContainsFunc(r.Equivalents, Equivalent.Cheaper)
}

// Why says in a sentence why the verdict is what it is.
func (r *Report) Why() string {
	switch {
	case r.Samples.Contradicted() > 0:
		return fmt.Sprintf("Do not order on what is stated: samples contradict it (%d of %s measured).", r.Samples.Contradicted(), phrase.Count(len(r.Samples.Samples), "size"))
	case r.Sheet.HeldShare() > mostHeld:
		return fmt.Sprintf("Ask before ordering: %d of the sheet's %d rows of parts cannot be used as they stand.", r.Sheet.Ledger.Held, parts(r.Sheet.Ledger))
	case r.undecidedShare() > mostHeld:
		return fmt.Sprintf("Ask before ordering: %d of %d pairs cannot be decided from what the new sheets say.", r.Open, r.Judged)
	case r.Verdict == Leave:
		return "Nothing is gained: no head more can be built, no bench time is saved, and no part is known to cost less."
	}
	return "Worth taking: " + r.worth() + "."
}

func parts(l catalog.Ledger) int { return l.Used + l.Assumed + l.Held }

// mostNamed is how many parts a sentence names.
const mostNamed = 6

// worth names what is worth taking.
func (r *Report) worth() string {
	var clauses []string
	if named := r.usefulFerrules(); len(named) > 0 {
		clauses = append(clauses, fmt.Sprintf("%s (%s)", phrase.Count(len(named), "ferrule"), phrase.Some(named, mostNamed)))
	}
	if len(r.Heads.Served) > 0 {
		clauses = append(clauses, fmt.Sprintf("%s that can be finished from stock", phrase.Count(len(r.Heads.Served), "head")))
	}
	if cheaper := r.cheaper(); len(cheaper) > 0 {
		clauses = append(clauses, fmt.Sprintf("%s that cost less than parts in stock (%s)", phrase.Count(len(cheaper), "part"), phrase.Some(cheaper, mostNamed)))
	}
	return strings.Join(clauses, "; ")
}

// usefulFerrules are the new ferrules that are best for a head, those that save most first.
func (r *Report) usefulFerrules() []string {
	uses := slices.Clone(r.Ferrules.Uses)
	slices.SortStableFunc(uses, func(a, b Use) int {
		if a.New != b.New {
			return b.New - a.New
		}
		return b.Best - a.Best
	})
	var named []string
	for _, u := range uses {
		if u.Best > 0 {
			named = append(named, r.FerruleFits.Catalogue.Ferrules[u.Ferrule].Part)
		}
	}
	return named
}

func (r *Report) cheaper() []string {
	var named []string
	for _, e := range r.Equivalents {
		part := r.partOf(e.Kind, e.New)
		if e.Cheaper() && !slices.Contains(named, part) {
			named = append(named, part)
		}
	}
	return named
}

// partOf is the number of a new part.
func (r *Report) partOf(kind catalog.Kind, item int) string {
	if kind == catalog.Heads {
		return r.HeadFits.Catalogue.Heads[item].Part
	}
	return r.FerruleFits.Catalogue.Ferrules[item].Part
}

// fitFact says what can be built.
func (r *Report) fitFact() Fact {
	var texts []string
	sheet := SheetStock
	if g := r.Ferrules; r.FerruleFits != nil {
		sheet = SheetGains
		texts = append(texts, fmt.Sprintf("House heads that take a ferrule: %d; served from stock: %d; with these: %d (%d more).", g.Heads, g.Before, g.After, g.After-g.Before))
	}
	if n := r.Heads; r.HeadFits != nil {
		text := fmt.Sprintf("New heads: %d; finished from stock: %d; in need of a ferrule that is not in stock: %d; undecided: %d; without a ferrule: %d.",
			n.Heads, len(n.Served), len(n.Orders), len(n.Undecided), len(n.Bare))
		if len(n.Lots) > 0 {
			text += fmt.Sprintf(" %s would serve those that can be specified.", phrase.Count(len(n.Lots), "size of ferrule"))
		}
		texts = append(texts, text)
	}
	return Fact{"What can be built", strings.Join(texts, " "), sheet}
}

// timeFact says what the bench saves.
func (r *Report) timeFact() Fact {
	var texts []string
	sheet := SheetStock
	if g := r.Ferrules; r.FerruleFits != nil {
		sheet = SheetFerrules
		over := "when each head is built once"
		if g.Weighted {
			over = "in a year of the numbers given"
		}
		texts = append(texts, fmt.Sprintf("Heads that take less bench time than with the best ferrule in stock: %d, saving %s in all %s. New ferrules of use: %d of %d.",
			g.Faster(), phrase.Minutes(g.Minutes), over, len(r.usefulFerrules()), len(g.Uses)))
	}
	if r.HeadFits != nil && len(r.Heads.Served) > 0 {
		texts = append(texts, fmt.Sprintf("Heads finished from stock take %s of bench time each, on average.", phrase.Minutes(r.Heads.Minutes)))
	}
	if len(texts) == 0 {
		texts = append(texts, "No head can be finished from stock, so that no bench time can be told.")
	}
	return Fact{"Bench time", strings.Join(texts, " "), sheet}
}

// sheetFact says how good the sheet is.
func (r *Report) sheetFact() Fact {
	l := r.Sheet.Ledger
	errors, warnings := 0, 0
	for _, g := range r.Sheet.Groups {
		switch g.Severity {
		case finding.Error:
			errors += g.Count
		case finding.Warning:
			warnings += g.Count
		}
	}
	text := fmt.Sprintf("Needed values given: %d of %d. Rows with parts: %d, of which used as they stand %d, used with assumptions %d, held %d. %s, %s.",
		r.Sheet.NeededGiven, r.Sheet.Needed, parts(l), l.Used, l.Assumed, l.Held, phrase.Count(errors, "error"), phrase.Count(warnings, "warning"))
	return Fact{"Their sheet", text, SheetQuality}
}

// sizeFact says how stated sizes lie against the shop's own.
func (r *Report) sizeFact(in Input) Fact {
	f := Fact{Title: "House sizes", Sheet: SheetSizes}
	counts := map[Position]int{}
	for _, c := range r.Sizes {
		counts[c.Position]++
	}
	switch {
	case len(in.Standards) == 0:
		f.Text = "The shop's settings give no sizes of its own to hold these against (tables such as [house.iron] in shop.toml)."
	case len(r.Sizes) == 0:
		f.Text = "None of the new parts is of a kind for which the shop's settings give sizes."
	default:
		f.Text = fmt.Sprintf("Stated sizes against the shop's own: %d compared, %d inside its limits, %d partly outside, %d below, %d above.",
			len(r.Sizes), counts[Within], counts[Straddles], counts[Below], counts[Above])
	}
	return f
}

// sampleFact says what was measured, or where nothing was, what can stand for what and at which price.
func (r *Report) sampleFact(in Input) Fact {
	if len(in.Measured) > 0 {
		s := r.Samples
		text := fmt.Sprintf("%s measured: %d as stated, %d not as stated, %d too uncertain to tell.", phrase.Count(len(s.Samples), "size"),
			s.Supported(), s.Contradicted(), len(s.Samples)-s.Supported()-s.Contradicted())
		if s.Known {
			text += fmt.Sprintf(" By the sizes as measured they serve %d heads, by those stated %d.", s.Measured, s.Stated)
		}
		return Fact{"Samples", text, SheetSamples}
	}
	ferrules, heads := map[int]bool{}, map[int]bool{}
	cheaper, priced := 0, 0
	for _, e := range r.Equivalents {
		if e.Kind == catalog.Heads {
			heads[e.New] = true
			continue
		}
		ferrules[e.New] = true
		if e.Comparable {
			priced++
		}
		if e.Cheaper() {
			cheaper++
		}
	}
	text := "No samples were measured."
	if r.FerruleFits != nil {
		text += fmt.Sprintf(" %s can stand for ferrules that the house has", phrase.Count(len(ferrules), "new ferrule"))
		if priced > 0 {
			text += fmt.Sprintf("; %s with prices in one currency, of which cheaper by the piece: %d", phrase.Count(priced, "such pair"), cheaper)
		} else if len(ferrules) > 0 {
			text += "; their prices cannot be compared"
		}
		text += "."
	}
	if r.HeadFits != nil {
		text += fmt.Sprintf(" %s the joint of a head that the house has.", phrase.Count(len(heads), "new head")+" "+hasHave(len(heads)))
	}
	return Fact{"Equivalents and samples", text, SheetEquivalents}
}

// changes says what would change the verdict, the surest first.
func (r *Report) changes() {
	add := func(format string, args ...any) { r.Changes = append(r.Changes, fmt.Sprintf(format, args...)) }
	if n := r.Samples.Contradicted(); n > 0 {
		add("Parts that are what the sheet states, or a sheet that states what the parts are: %s now contradicted.", phrase.Count(n, "size")+" "+isAre(n))
	}
	if q := r.topQuestion(); q != nil {
		add("An answer to: %s It settles %d of %d undecided pairs.", q.Asks, q.Settles, r.Open)
	}
	for _, a := range r.Assumptions {
		if a.Flips > 0 {
			add("Knowing instead of taking for granted: %s. %d of %d answers that rest on it would change with %s.", say.English().Assumed(a.Code), a.Flips, a.Verdicts, a.Tried)
			break
		}
	}
	if undecided := len(r.Samples.Samples) - r.Samples.Supported() - r.Samples.Contradicted(); undecided > 0 {
		add("More readings: %s neither borne out nor contradicted; %d pieces, all within the limits, would bear one out.",
			phrase.Count(undecided, "size")+" "+isAre(undecided), r.Samples.Enough)
	}
	r.nearChanges(add)
}

func hasHave(n int) string {
	if n == 1 {
		return "has"
	}
	return "have"
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

func (r *Report) topQuestion() *questions.Question {
	if len(r.Questions.Questions) == 0 || r.Questions.Questions[0].Settles == 0 {
		return nil
	}
	return &r.Questions.Questions[0]
}

// nearChanges names what comes nearest to being of use and is not.
func (r *Report) nearChanges(add func(string, ...any)) {
	if n := len(r.Heads.Lots); n > 0 {
		add("Having %s made: %s that are not served now would be.", phrase.Count(n, "size of ferrule"), phrase.Count(r.lotHeads(), "new head"))
	}
	if r.FerruleFits == nil {
		return
	}
	if part, head, miss, found := nearestMiss(r.House, r.FerruleFits); found {
		add("A size nearer to the heads that nothing serves: %s comes nearest, to %s, and is out by %.3f mm on the diameter.", part, head, miss)
	}
}

func (r *Report) lotHeads() int {
	count := 0
	for _, lot := range r.Heads.Lots {
		count += len(lot.Heads)
	}
	return count
}

// nearestMiss is the new ferrule that comes nearest to fitting a head for which neither the stock nor the new ferrules have one.
func nearestMiss(house, fits *matrix.Result) (part, head string, miss float64, found bool) {
	for h := range house.Catalogue.Heads {
		if _, served := house.Best(h); served {
			continue
		}
		if _, served := fits.Best(h); served {
			continue
		}
		near, ok := fits.Nearest(h)
		if ok && near.Miss > 0 && !undecided(fits, near) && (!found || float64(near.Miss) < miss) {
			part, head, miss, found = fits.Catalogue.Ferrules[near.Ferrule].Part, house.Catalogue.Heads[h].Part, float64(near.Miss), true
		}
	}
	return part, head, miss, found
}

// undecided reports whether something is missing of a pair that is ruled out all the same.
func undecided(r *matrix.Result, p matrix.Pair) bool {
	for reason := range r.Fit(p).Reasons() {
		if reason.Level == fitcalc.Undecided {
			return true
		}
	}
	return false
}
