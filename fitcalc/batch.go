package fitcalc

import "example.com/seatline/fitcalc/measure"

// Batch decides many heads against the same ferrules, each pair as [DecideInto] does. Lists quote sizes in steps, so that many pairs have
// a part of their joint in common: the same hosel OD meets the same base OD, the same tip as deep in its bore the same ferrule bore over
// the same length. Each such part is judged once, by the code that judges whole joints, and a pair is put together from its parts. Where the
// parts of a joint are judged by each other, as where a wall gets thin, the pair is decided whole.
//
// Heads share most if those of one OD follow each other. A Batch is not for several goroutines at once.
type Batch struct {
	shop     *Shop
	ferrules []Ferrule
	forms    []batchForm
	// bases, bores and feet are the ferrules that stand for those whose part of the joint is the same.
	bases, bores, feet []int32

	flush rows[Taken, flushPart]
	grip  rows[gripKey, gripPart]
	seat  rows[Head, judged]

	// What follows is of the head under way: its joint with no ferrule, what is judged of its bore and under plain ferrules, and its rows.
	head      *Head
	tip       *Tip
	joint     Joint
	ofBore    judged
	ofPlain   judged
	flushRow  []flushPart
	gripRow   []gripPart // of any depth where the tip is parallel
	deepRow   []gripPart
	seatRow   []judged
	leastWall measure.Length

	fit      Fit
	whole    bool // whether fit is the pair decided last
	prepares bool // whether the pair decided last has something to be prepared
}

// Brief is what [Batch.Decide] finds for a pair.
type Brief struct {
	// Verdict is that of [Fit].
	Verdict Verdict
	// Code is that of [Fit.Reason] where the verdict is [No] or [Bare].
	Code Code
	// Missing has a bit for each field that is missing, 1<<[FieldTip] where the tip is, where the verdict is [Ask].
	Missing uint64
}

// batchForm is a ferrule: its places among the bases, bores and feet, and what its turning depends on besides.
type batchForm struct {
	base, bore, foot int32
	// deep is set where the bore follows from a tip that tapers, and so from how deep the ferrule sits.
	deep bool
}

// noFoot is the place of plain ferrules among the feet.
const noFoot = 0

// judged is what a stage of the judging finds.
type judged struct {
	known    bool
	prepares bool
	worst    Level
	code     Code // of the first reason that rules the joint out
	missing  uint64
}

// flushPart is what base and hosel make of a joint, a ferrule's rings included.
type flushPart struct {
	judged
	// risky is set where a ring may be cut through: the pair is decided whole.
	risky, given bool
	// outside is the least diameter that the ferrule has after turning.
	outside, turnDown measure.Length
	takenOff          takenOff
}

// gripPart is what shaft and ferrule bore make of a joint. Inside is the largest diameter that the ferrule's wall begins at.
type gripPart struct {
	judged
	inside measure.Length
}

type gripKey struct {
	tip   *Tip
	depth Taken
}

// Up to how many parts of joints of each kind are kept. Heads come by their ODs, so that few rows of flush parts are in use at a time; how
// deep a bore is comes and goes.
const (
	mostFlush = 1 << 16
	mostGrip  = 1 << 21
	mostSeat  = 1 << 18
)

// NewBatch returns a Batch for ferrules by the limits of a shop. All of them must be valid, and neither may change; what is found for
// parts that are not valid means nothing.
func NewBatch(ferrules []Ferrule, shop *Shop) *Batch {
	b := &Batch{shop: shop, ferrules: ferrules, forms: make([]batchForm, len(ferrules)), feet: []int32{0}}
	type base struct{ od, ring measure.Dim }
	type bore struct {
		bore, length measure.Dim
		forTip       TipSize
	}
	type foot struct {
		style        Style
		collar, step Spigot
	}
	bases, bores, feet := map[base]int32{}, map[bore]int32{}, map[foot]int32{}
	for i := range ferrules {
		f, form := &ferrules[i], &b.forms[i]
		form.base = place(bases, base{f.BaseOD, f.RingDepth}, &b.bases, i)
		form.bore = place(bores, bore{f.Bore, f.Length, f.ForTip}, &b.bores, i)
		if style := f.TakenStyle(); style != Plain {
			form.foot = place(feet, foot{style, f.Collar, f.Step}, &b.feet, i)
		}
		form.deep = !f.Bore.Given() && f.ForTip.Known() && f.ForTip.Named().Form == TipTapered
	}
	b.flush.width, b.flush.most = len(b.bases), mostFlush
	b.grip.width, b.grip.most = len(b.bores), mostGrip
	b.seat.width, b.seat.most = len(b.feet), mostSeat
	b.leastWall = shop.LeastWall.MulInt(2).Add(shop.SameSize)
	return b
}

// place returns the place of a key among those known, which a new one is the ferrule i of.
func place[K comparable](known map[K]int32, key K, first *[]int32, i int) int32 {
	at, is := known[key]
	if !is {
		at = int32(len(*first))
		known[key], *first = at, append(*first, int32(i))
	}
	return at
}

// rows are parts of joints by what the head brings, each with a cell for all that ferrules bring. All are forgotten where they get too many.
type rows[K comparable, C any] struct {
	width, most int
	known       map[K][]C
}

func (r *rows[K, C]) of(key K) []C {
	row, is := r.known[key]
	if !is {
		if r.known == nil || (len(r.known)+1)*r.width > r.most {
			r.known = map[K][]C{}
		}
		row = make([]C, r.width)
		r.known[key] = row
	}
	return row
}

// On takes the head and the tip on which pairs are decided next. The same tip has to come from the same place, and neither may change while
// the Batch is in use.
func (b *Batch) On(head *Head, tip *Tip) {
	b.head, b.tip = head, tip
	if head.Top == TopRounded {
		return
	}
	b.fit = Fit{}
	j := newJoint(&b.fit, head, tip, &Ferrule{Style: Plain}, b.shop)
	j.seat()
	b.ofPlain = j.judged()
	b.fit, j.worst, j.prepares = Fit{}, Remarks, false
	j.bore()
	b.ofBore = j.judged()
	b.joint = j.Joint
	b.flushRow = b.flush.of(j.HoselOD)
	b.deepRow = b.grip.of(gripKey{tip, j.BoreDepth})
	b.gripRow = b.deepRow
	if tip.form == TipParallel {
		b.gripRow = b.grip.of(gripKey{tip: tip})
	}
	b.seatRow = nil
	if len(b.feet) > 1 {
		b.seatRow = b.seat.of(Head{
			HoselOD: head.HoselOD, Bore: head.Bore, Top: head.Top, Countersink: head.Countersink, Counterbore: head.Counterbore, Adapter: head.Adapter,
		})
	}
}

// Decide decides the head with a ferrule.
func (b *Batch) Decide(ferrule int) Brief {
	b.whole = false
	if b.head.Top == TopRounded {
		return Brief{Verdict: Bare, Code: SeatRounded}
	}
	form := &b.forms[ferrule]
	flush := &b.flushRow[form.base]
	if !flush.known {
		b.judgeFlush(flush, form)
	}
	if flush.worst == Blocks {
		return Brief{Verdict: No, Code: flush.code}
	}
	grip := b.gripOf(form)
	if grip.worst == Blocks {
		return Brief{Verdict: No, Code: grip.code}
	}
	seat := &b.ofPlain
	if form.foot != noFoot {
		seat = b.seatOf(form)
	}
	if seat.worst == Blocks {
		return Brief{Verdict: No, Code: seat.code}
	}
	if b.ofBore.worst == Blocks {
		return Brief{Verdict: No, Code: b.ofBore.code}
	}
	if flush.risky || flush.given && b.tip.form != TipUnknown && flush.outside.Sub(grip.inside).Less(b.leastWall) {
		return b.decideWhole(ferrule)
	}
	b.prepares = flush.prepares || grip.prepares || seat.prepares || b.ofBore.prepares
	brief := Brief{Verdict: verdictOf[max(flush.worst, grip.worst, seat.worst, b.ofBore.worst)]}
	if brief.Verdict == Ask {
		brief.Missing = flush.missing | grip.missing | seat.missing | b.ofBore.missing
	}
	return brief
}

// AtLeast returns no more than the minutes of [Batch.Work], and is quickly found.
func (b *Batch) AtLeast(ferrule int) float64 {
	if b.whole || b.head.Top == TopRounded {
		return 0
	}
	flush := &b.flushRow[b.forms[ferrule].base]
	if !flush.given || b.tip.form == TipUnknown {
		return 0
	}
	minutes := b.shop.MinutesToFit + flush.takenOff.share*b.shop.MinutesToTurn
	if b.prepares {
		minutes += b.shop.MinutesToPrep
	}
	return minutes
}

// Work returns what [FlushFit.TurnDown] is nominally and [WorkFit.Minutes] for the pair that was decided last, which must not be one that
// does not fit.
func (b *Batch) Work(ferrule int) (turnDown measure.Length, minutes float64) {
	if b.whole {
		return b.fit.Flush.TurnDown.Nominal, b.fit.Work.Minutes
	}
	if b.head.Top == TopRounded {
		return measure.Length{}, 0
	}
	flush := &b.flushRow[b.forms[ferrule].base]
	if !flush.given || b.tip.form == TipUnknown {
		return flush.turnDown, 0
	}
	f := &b.ferrules[ferrule]
	b.joint.Seated = b.joint.Insertion.Add(f.Length.Middle())
	return flush.turnDown, b.shop.minutes(&flush.takenOff, b.joint.outsideOf(f, flush.takenOff.base), b.prepares)
}

func (b *Batch) decideWhole(ferrule int) Brief {
	DecideInto(&b.fit, b.head, b.tip, &b.ferrules[ferrule], b.shop)
	b.whole = true
	return BriefOf(&b.fit)
}

// BriefOf returns what a Batch would have found for a pair that was decided otherwise.
func BriefOf(fit *Fit) Brief {
	brief := Brief{Verdict: fit.Verdict}
	switch fit.Verdict {
	case No, Bare:
		brief.Code = fit.Reason().Code
	case Ask:
		brief.Missing = fit.missing()
	}
	return brief
}

// missing has a bit for each field that is missing.
func (f *Fit) missing() uint64 {
	var fields uint64
	for i := range f.reasons[:f.count] {
		if r := &f.reasons[i]; r.Level == Undecided {
			fields |= 1 << r.Field
		}
	}
	return fields
}

// judged is what the joint was found to be so far.
func (j *joint) judged() judged {
	found := judged{known: true, prepares: j.prepares, worst: j.worst, missing: j.fit.missing()}
	for i := range j.fit.reasons[:j.fit.count] {
		if r := &j.fit.reasons[i]; r.Level == Blocks {
			found.code = r.Code
			break
		}
	}
	return found
}

// begin brings the head together with the ferrule that stands for some.
func (b *Batch) begin(ferrule int32) joint {
	b.fit = Fit{}
	return newJoint(&b.fit, b.head, b.tip, &b.ferrules[ferrule], b.shop)
}

func (b *Batch) judgeFlush(part *flushPart, form *batchForm) {
	j := b.begin(b.bases[form.base])
	j.flush()
	part.judged = j.judged()
	f := &b.fit.Flush
	if part.given = f.Known; !part.given {
		return
	}
	part.turnDown, part.takenOff = f.TurnDown.Nominal, j.takenOff()
	part.outside = measure.Min(j.HoselOD.Lower(), j.BaseOD.Lower())
	if ring := j.ferrule.RingDepth; ring.Given() {
		cut, _ := j.cutsTo(ring.Middle().MulInt(2))
		part.risky = cut != certain
	}
}

func (b *Batch) gripOf(form *batchForm) *gripPart {
	row := b.gripRow
	if form.deep {
		row = b.deepRow
	}
	part := &row[form.bore]
	if !part.known {
		j := b.begin(b.bores[form.bore])
		j.grip()
		part.judged = j.judged()
		if j.Tip.form != TipUnknown {
			part.inside = j.inside()
		}
	}
	return part
}

func (b *Batch) seatOf(form *batchForm) *judged {
	part := &b.seatRow[form.foot]
	if !part.known {
		j := b.begin(b.feet[form.foot])
		j.seat()
		*part = j.judged()
	}
	return part
}
