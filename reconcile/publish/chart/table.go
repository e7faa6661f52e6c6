package chart

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
)

// The whole chart as a plain table, for readers without the script. It is kept short: pages of thousands of heads have to open fast.

// group is a table of heads of one supplier and kind.
type group struct {
	Caption string
	Rows    []row
}

// row is a head with its best ferrule, or several heads that have everything in common but what they are called.
type row struct {
	Heads   []named
	OD, Tip string
	// Verdict is the word of the contract, by which the page styles Word, the reader's.
	Verdict, Word string
	Best          string
	Off, Side     string
	Notes         []string
	Next          []next
}

// named is a head by its part number, and what it is, where the one before it is not the same.
type named struct{ Part, Description string }

// next is a ferrule that fits too.
type next struct{ Ferrule, Verdict, Word, Off string }

const (
	// mostRows is how many heads stand in one table.
	mostRows = 150
	// fewHeads is up to how many heads a catalogue lists many alternates; beyond it the next two, and beyond manyHeads none, one note at
	// most, and not what the heads are called or why a top takes none.
	fewHeads, manyHeads, manyNext, fewNext = 500, 2000, 4, 2
)

// groups parts the heads by supplier and kind, in the order of the catalogue.
func (b *builder) groups() []group {
	var order []string
	members, captions := map[string][]int{}, map[string]string{}
	for i := range b.result.Catalogue.Heads {
		h := &b.result.Catalogue.Heads[i]
		supplier := b.supplierName(&h.Item)
		key := supplier + "\x00" + h.Category.String()
		if _, seen := members[key]; !seen {
			order = append(order, key)
			captions[key] = b.caption(supplier, h.Category)
		}
		members[key] = append(members[key], i)
	}
	var groups []group
	for _, key := range order {
		rows := b.together(members[key])
		parts := (len(rows) + mostRows - 1) / mostRows
		for part := range parts {
			g := group{Caption: captions[key]}
			if parts > 1 {
				g.Caption += " · " + b.words.Fill("page.part", "n", fmt.Sprint(part+1), "of", fmt.Sprint(parts))
			}
			g.Rows = rows[part*mostRows : min(len(rows), (part+1)*mostRows)]
			groups = append(groups, g)
		}
	}
	return groups
}

// together returns the rows of some heads. Those of a set have one row where they have one OD, one tip and one answer.
func (b *builder) together(heads []int) []row {
	type same struct{ od, tips, answer, hosel int }
	var rows []row
	at := map[same]int{}
	d := &b.chart.Heads
	for _, head := range heads {
		key := same{d.OD[head], d.Tips[head], d.Answer[head], d.Hosel[head]}
		place, known := at[key]
		if !known {
			place = len(rows)
			at[key] = place
			rows = append(rows, b.tableRow(head))
		}
		name := named{Part: d.Part[head]}
		if len(b.heads) <= manyHeads {
			name.Description = d.Description[head]
		}
		rows[place].Heads = append(rows[place].Heads, name)
	}
	for i := range rows {
		described := ""
		for k := range rows[i].Heads {
			if h := &rows[i].Heads[k]; h.Description == described {
				h.Description = ""
			} else {
				described = h.Description
			}
		}
	}
	return rows
}

func (b *builder) caption(supplier string, c fitcalc.Category) string {
	kind := categoryOf(b.words, c)
	if supplier == "" {
		return kind
	}
	return supplier + " · " + kind
}

func categoryOf(w words, c fitcalc.Category) string {
	if c == fitcalc.AnyCategory {
		return w["category.other"]
	}
	return w["category."+c.String()]
}

func (b *builder) tableRow(head int) row {
	r := row{}
	if od := b.hoselOD(head); od.Given() {
		r.OD = b.show(od.Nominal())
		if od.Origin() == measure.Measured {
			r.OD += " " + b.words["answer.measured"]
		}
	}
	pairs := b.result.HeadPairs(head)
	if best, fits := b.result.Best(head); fits {
		b.best(&r, best, pairs[1:])
	} else {
		b.without(&r, head)
	}
	r.Word = b.words["verdict."+r.Verdict]
	if len(b.result.Catalogue.Heads) > manyHeads {
		r.Notes = r.Notes[:min(len(r.Notes), 1)]
		if r.Verdict == fitcalc.Bare.String() {
			r.Notes = nil // the key says it
		}
	}
	return r
}

func (b *builder) best(r *row, p matrix.Pair, others []matrix.Pair) {
	fit := b.result.Fit(p)
	outcome := resultOf(&fit)
	r.Tip, r.Verdict, r.Best = b.tipName(p.Tip), fit.Verdict.String(), b.chart.Ferrules.Part[p.Ferrule]
	r.Off, r.Side = b.off(&fit, &outcome)
	r.Notes = b.notes(p.Ferrule, &fit, &outcome)
	most := manyNext
	switch n := len(b.result.Catalogue.Heads); {
	case n > manyHeads:
		most = 0
	case n > fewHeads:
		most = fewNext
	}
	for _, other := range others {
		if !other.Verdict.Fits() || len(r.Next) == most {
			return
		}
		fit := b.result.Fit(other)
		outcome := resultOf(&fit)
		n := next{Ferrule: b.chart.Ferrules.Part[other.Ferrule], Verdict: other.Verdict.String(), Word: b.words["verdict."+other.Verdict.String()]}
		if outcome.turns() {
			n.Off, _ = b.off(&fit, &outcome)
		}
		r.Next = append(r.Next, n)
	}
}

// without says why a head has no ferrule.
func (b *builder) without(r *row, head int) {
	r.Verdict = fitcalc.No.String()
	tips := b.result.HeadTips[head].Tips
	r.Tip = b.tipName(tips[0])
	var p matrix.Pair
	var found bool
	if asked := b.result.SomeAsked(head); len(asked) > 0 {
		p, found = asked[0], true
	} else if p, found = b.result.Nearest(head); found {
		r.Best = b.words.Fill("answer.nearest", "ferrule", b.chart.Ferrules.Part[p.Ferrule])
	}
	if b.heads[head].Top == fitcalc.TopRounded { // however few ferrules are in reach
		r.Verdict, r.Best, r.Notes = fitcalc.Bare.String(), "", []string{b.words["reason.seat.rounded"]}
		return
	}
	if !found {
		return
	}
	fit := b.result.Fit(p)
	outcome := resultOf(&fit)
	r.Verdict, r.Notes = p.Verdict.String(), b.notes(p.Ferrule, &fit, &outcome)
}

func (b *builder) tipName(tip int32) string {
	if name := clean(b.result.Tips[tip].Name); name != "" {
		return tipOf(b.words, name)
	}
	return b.words["tip.unknown"]
}

// tip translates the form at the end of a tip's name: .370 parallel.
func tipOf(w words, name string) string {
	for _, form := range []fitcalc.TipForm{fitcalc.TipParallel, fitcalc.TipTapered, fitcalc.TipProfiled} {
		if rest, found := strings.CutSuffix(name, " "+form.String()); found {
			return rest + " " + w["tip."+form.String()]
		}
	}
	return name
}

// off returns what comes off, on the diameter and per side: that of the usual joint, or where that is nothing, the most.
func (b *builder) off(fit *fitcalc.Fit, outcome *result) (diameter, side string) {
	if !outcome.turns() {
		nothing := b.words["column.nothing"]
		return nothing, nothing
	}
	off, upTo := fit.Flush.TurnDown.Nominal, ""
	if off.IsZero() {
		off, upTo = fit.Flush.TurnDown.Most, b.words["column.most"]+" "
	}
	return upTo + b.show(off), upTo + b.show(off.Half())
}

// notes are the reasons that a reader should know, in words. That a length is not given is one of them: no time is counted for what is
// turned off such a ferrule.
func (b *builder) notes(ferrule int32, fit *fitcalc.Fit, outcome *result) []string {
	var notes []string
	for _, reason := range outcome.reasons[:outcome.count] {
		if reason.Code == fitcalc.FlushTurn && reason.Share == 0 || reason.Code == fitcalc.GripHolds {
			continue
		}
		notes = append(notes, b.sentence(reason, b.most(fit)))
	}
	if fit.Verdict.Fits() && !b.result.Catalogue.Ferrules[ferrule].Ferrule.Length.Given() {
		notes = append(notes, b.sentence(fitcalc.Reason{Code: fitcalc.DataMissing, Field: fitcalc.FieldLength}, ""))
	}
	return notes
}

func (b *builder) most(fit *fitcalc.Fit) string { return b.show(fit.Flush.TurnDown.Most) }

// show writes a length for reading.
func (b *builder) show(l measure.Length) string { return b.language.Length(l, b.opts.Units) }
