package turnlist

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/near"
	"example.com/seatline/reconcile/phrase"
	"example.com/seatline/reconcile/publish/tell"
)

// Line is a kind of joint to make.
type Line struct {
	// Head and Ferrule are indexes into the catalogue's Heads and Ferrules, Tip into the result's Tips. A Ferrule of -1 is a head
	// for which there is none.
	Head, Ferrule, Tip int
	// Count is how many are to be made; less than 1 is 1.
	Count int
	Note  string
}

// Options say how a list is written. The zero Options are metric, on A4.
type Options struct {
	Units fitcalc.Units
	// Language is the reader's, nil English.
	Language *say.Language
	Paper    Paper
	// Title stands at the top; empty is "Turn list". ShopName may be empty.
	Title, ShopName string
}

// Paper is a size of paper. Lists lie across it.
type Paper uint8

const (
	// A4 is 210 by 297 mm (ISO 216).
	A4 Paper = iota
	// Letter is 8.5 by 11 in (ANSI/ASME Y14.1, size A).
	Letter
)

var paperNames = [...]string{"A4", "letter"}

// String returns A4 or letter.
func (p Paper) String() string { return paperNames[p] }

// UnmarshalText reads a4 or letter, in capitals or not.
func (p *Paper) UnmarshalText(text []byte) error {
	for i, name := range paperNames {
		if strings.EqualFold(name, string(text)) {
			*p = Paper(i)
			return nil
		}
	}
	return fmt.Errorf("paper %q: write A4 or letter", text)
}

// MarshalText implements [encoding.TextMarshaler].
func (p Paper) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// Best returns a line for every head that is kept: its best ferrule, or none. A nil keep keeps all.
func Best(r *matrix.Result, keep func(*catalog.Head) bool) []Line {
	var lines []Line
	for head := range r.Catalogue.Heads {
		if keep != nil && !keep(&r.Catalogue.Heads[head]) {
			continue
		}
		lines = append(lines, BestFor(r, head))
	}
	return lines
}

// BestFor returns a line for a head with its best ferrule, or with none.
func BestFor(r *matrix.Result, head int) Line {
	best, found := r.Best(head)
	if !found {
		return Line{Head: head, Ferrule: -1}
	}
	return Line{Head: head, Ferrule: int(best.Ferrule), Tip: int(best.Tip)}
}

// List is a list, ready to be written. Texts are for reading, with both units where there is room; the numbers behind them are in
// millimetres.
type List struct {
	Title    string  `json:"title"`
	ShopName string  `json:"shop"`
	Joints   []Joint `json:"joints"`
	// LayOut is how many of each ferrule the list takes.
	LayOut []Ferrules `json:"lay_out"`
	// Left are heads and joints that are not on the list, each with its reason.
	Left []Left `json:"left_out"`
	// Units and Paper are as asked for.
	Units fitcalc.Units `json:"units"`
	Paper Paper         `json:"paper"`

	language *say.Language

	step string
	shop fitcalc.Shop
	// shared counts the heads of the catalogue that have a part number.
	shared map[string]int
	// measured are the joints whose hosel was.
	measured int
	turned   int
	joints   int
	prepare  int
	// alike finds the joint that a line is another head of.
	alike map[string]int
}

// Joint is one kind of joint on a list: a ferrule on heads that are alike in all that the bench does. Differences of diameters are on
// the diameter unless the name says per side.
type Joint struct {
	Number int `json:"number"`
	// Count is how many pieces there are of all its heads.
	Count     int      `json:"count"`
	Heads     []HeadOf `json:"heads"`
	Tip       string   `json:"tip"`
	Ferrule   string   `json:"ferrule"`
	FerruleIs string   `json:"ferrule_is"`
	Verdict   string   `json:"verdict"`
	// BaseOD is the ferrule's base as supplied. FinishedMM is the hosel, which it is turned to, and the range goes from there up by
	// the step that passes: never under.
	BaseOD         string    `json:"-"`
	BaseODMM       float64   `json:"base_od_mm"`
	FinishedMM     float64   `json:"finished_mm"`
	FinishedFromMM float64   `json:"finished_from_mm"`
	FinishedToMM   float64   `json:"finished_to_mm"`
	Finished       [2]string `json:"-"` // the preferred unit, and the other
	FinishedRange  [2]string `json:"-"`
	OffMM          Amount    `json:"turn_down_mm"`
	PerSideMM      float64   `json:"per_side_mm"`
	Off, PerSide   [2]string `json:"-"`
	OffRange       string    `json:"-"`
	// Turned is false for a base that is not turned.
	Turned bool `json:"turned"`
	// Over is how far up from the base the turning goes, nothing where that is not known.
	Over    string   `json:"-"`
	OverMM  float64  `json:"turned_over_mm,omitempty"`
	Prepare []string `json:"prepare"`
	Remarks []string `json:"remarks"`
	// Measured are the sizes that readings gave: hosel_od, base_od and so on.
	Measured []string `json:"measured"`
	hosel    bool     // whether the OD that it is turned to was
	adapter  bool     // whether that is the OD of an adapter's sleeve
	// HoselPM and BasePM are the sizes in picometres, as the page reckons with them.
	HoselPM, BasePM int64 `json:"-"`
}

// HeadOf is a head of a joint.
type HeadOf struct {
	Part     string `json:"part"`
	Is       string `json:"is"`
	Supplier string `json:"supplier"`
	Count    int    `json:"count"`
	Note     string `json:"note,omitempty"`
	// Whose is the supplier where the number alone would not do, since others have it too.
	Whose string `json:"-"`
}

// Piece is one piece of a joint, which has its own line to write on.
type Piece struct {
	Head HeadOf
	// Of numbers the pieces of the head, from 1.
	Of int
	// Label tells it from the other pieces of the joint.
	Label string
}

// Pieces are the pieces of a joint, head by head.
func (j Joint) Pieces() []Piece {
	pieces := make([]Piece, 0, j.Count)
	for _, h := range j.Heads {
		for i := range h.Count {
			p := Piece{Head: h, Of: i + 1, Label: fmt.Sprint(i + 1)}
			if len(j.Heads) > 1 {
				p.Label = h.Part
				if h.Count > 1 {
					p.Label = fmt.Sprintf("%s · %d", h.Part, i+1)
				}
			}
			pieces = append(pieces, p)
		}
	}
	return pieces
}

// Amount is a size that tolerances let vary, in mm: nominal, and limit against limit.
type Amount struct {
	Nominal float64 `json:"nominal"`
	Least   float64 `json:"least"`
	Most    float64 `json:"most"`
}

// Ferrules is how many of a ferrule a list takes.
type Ferrules struct {
	Part        string `json:"part"`
	Description string `json:"description"`
	Supplier    string `json:"supplier"`
	// Whose is what the shop calls the supplier.
	Whose string `json:"-"`
	Count int    `json:"count"`
}

// Left is a line that is not on the list. Its verdict is empty where a part is not known.
type Left struct {
	Head    string `json:"head"`
	HeadIs  string `json:"head_is"`
	Ferrule string `json:"ferrule"`
	Verdict string `json:"verdict"`
	Why     string `json:"why"`
	Count   int    `json:"count"`
	Note    string `json:"note,omitempty"`
}

// New makes a list of some lines. Lines that cannot be made, or not be decided, are left out of it and say why.
func New(r *matrix.Result, lines []Line, opts Options) *List {
	l := &List{
		Title: clean(opts.Title), ShopName: clean(opts.ShopName), Units: opts.Units, Paper: opts.Paper, language: opts.Language,
		Joints: []Joint{}, LayOut: []Ferrules{}, Left: []Left{}, step: opts.Units.Show(r.Shop.FlushStep),
		shop: r.Shop, alike: map[string]int{}, shared: map[string]int{},
	}
	for i := range r.Catalogue.Heads {
		l.shared[near.Plain(r.Catalogue.Heads[i].Part)]++
	}
	if l.Title == "" {
		l.Title = "Turn list"
	}
	counts := map[int]int{}
	for _, line := range lines {
		line.Count = max(1, line.Count)
		if line.Ferrule < 0 {
			l.leave(r, line, without(r, line.Head, l))
			continue
		}
		fit := r.Fit(matrix.Pair{Head: int32(line.Head), Ferrule: int32(line.Ferrule), Tip: int32(line.Tip)})
		if !fit.Verdict.Fits() {
			l.leave(r, line, refused(r, line, &fit, l))
			continue
		}
		counts[line.Ferrule] += line.Count
		l.add(r, line, &fit)
	}
	for i := range r.Catalogue.Ferrules {
		if f := &r.Catalogue.Ferrules[i]; counts[i] > 0 {
			l.LayOut = append(l.LayOut, Ferrules{clean(f.Part), clean(f.Description), clean(f.Supplier), clean(r.Catalogue.SupplierCalled(f.Supplier)), counts[i]})
		}
	}
	return l
}

// reason is a verdict with its sentence.
type reason struct {
	verdict fitcalc.Verdict
	why     string
}

func (l *List) leave(r *matrix.Result, line Line, because reason) {
	head := &r.Catalogue.Heads[line.Head]
	left := Left{
		Head: clean(head.Part), HeadIs: describe(head), Verdict: because.verdict.String(), Why: clean(because.why), Count: line.Count, Note: clean(line.Note),
	}
	if line.Ferrule >= 0 {
		left.Ferrule = clean(r.Catalogue.Ferrules[line.Ferrule].Part)
	}
	l.Left = append(l.Left, left)
}

// without says why a head has no ferrule.
func without(r *matrix.Result, head int, in *List) reason {
	switch r.Standing(head) {
	case matrix.TakesNone:
		return reason{fitcalc.Bare, in.language.Meaning(fitcalc.Bare)}
	case matrix.Undecided:
		fit := r.Fit(r.SomeAsked(head)[0])
		return reason{fitcalc.Ask, in.sentence(&fit)}
	}
	nearest, found := r.Nearest(head)
	if !found {
		return reason{fitcalc.No, "no ferrule of the catalogue comes near"}
	}
	fit := r.Fit(nearest)
	return reason{fitcalc.No, "nearest is " + r.Catalogue.Ferrules[nearest.Ferrule].Part + ": " + in.sentence(&fit)}
}

// refused says why a line that was asked for is not made, and what could be taken instead.
func refused(r *matrix.Result, line Line, fit *fitcalc.Fit, in *List) reason {
	why := in.sentence(fit)
	if best, found := r.Best(line.Head); found {
		why += "; the best for this head is " + r.Catalogue.Ferrules[best.Ferrule].Part
	}
	return reason{fit.Verdict, why}
}

func (l *List) sentence(fit *fitcalc.Fit) string {
	deciding, found := tell.Deciding(fit)
	if !found {
		return l.language.Meaning(fit.Verdict)
	}
	return l.language.Reason(deciding, l.Units)
}

// add puts a joint on the list. A joint that fits has a hosel OD and a base OD.
func (l *List) add(r *matrix.Result, line Line, fit *fitcalc.Fit) {
	head, ferrule := &r.Catalogue.Heads[line.Head], &r.Catalogue.Ferrules[line.Ferrule]
	u, flush := l.Units, &fit.Flush
	j := Joint{
		Tip:     clean(r.Tips[line.Tip].Name),
		Ferrule: clean(ferrule.Part), FerruleIs: clean(ferrule.Description), Verdict: fit.Verdict.String(),
		BaseOD: first(u.Show(ferrule.Ferrule.BaseOD.Middle())), BaseODMM: ferrule.Ferrule.BaseOD.Middle().Millimetres(),
		Prepare: []string{}, Remarks: []string{}, Measured: []string{},
	}
	for _, f := range tell.MeasuredFields(r, matrix.Pair{Head: int32(line.Head), Ferrule: int32(line.Ferrule), Tip: int32(line.Tip)}) {
		j.Measured = append(j.Measured, f.Code())
	}
	j.hosel, j.adapter = flush.HoselOD.Origin() == measure.Measured, head.Head.Adapter.Given()
	for because := range fit.Reasons() {
		switch {
		case because.Code == fitcalc.FlushTurn:
			j.Turned = true
		case because.Level == fitcalc.Prepares || because.Level == fitcalc.Measures:
			j.Prepare = append(j.Prepare, l.language.Reason(because, u))
		case because.Level == fitcalc.Remarks && because.Code != fitcalc.FlushAsSupplied && because.Code != fitcalc.GripHolds:
			j.Remarks = append(j.Remarks, l.language.Reason(because, u))
		}
	}
	hosel, step := flush.HoselOD.Nominal(), r.Shop.FlushStep
	j.HoselPM, j.BasePM = hosel.Picometres(), ferrule.Ferrule.BaseOD.Middle().Picometres()
	from, to := inward(hosel, hosel.Add(step), u)
	j.FinishedMM, j.FinishedFromMM, j.FinishedToMM = hosel.Millimetres(), from.Millimetres(), to.Millimetres()
	j.Finished = both(hosel, u)
	otherFrom, otherTo := inward(hosel, hosel.Add(step), other(u))
	j.FinishedRange = [2]string{between(u, from, to), between(other(u), otherFrom, otherTo)}
	if j.Turned {
		l.turned += line.Count
		l.turn(&j, r, line, fit)
	}
	if len(j.Prepare) > 0 {
		l.prepare += line.Count
	}
	l.joints += line.Count
	h := HeadOf{Part: clean(head.Part), Is: describe(head), Supplier: clean(head.Supplier), Count: line.Count, Note: clean(line.Note)}
	if l.shared[near.Plain(head.Part)] > 1 {
		h.Whose = clean(r.Catalogue.SupplierCalled(head.Supplier))
	}
	l.join(j, h)
}

// join puts a head on the line of the joint that asks the same of the bench, or on a line of its own.
func (l *List) join(j Joint, h HeadOf) {
	key := fmt.Sprintf("%+v", j)
	at, known := l.alike[key]
	if !known {
		at = len(l.Joints)
		l.alike[key] = at
		j.Number = at + 1
		l.Joints = append(l.Joints, j)
		if j.hosel {
			l.measured++
		}
	}
	of := &l.Joints[at]
	of.Count += h.Count
	for i := range of.Heads {
		if same := &of.Heads[i]; same.Part == h.Part && same.Supplier == h.Supplier && same.Note == h.Note {
			same.Count += h.Count
			return
		}
	}
	of.Heads = append(of.Heads, h)
}

// turn fills in what comes off.
func (l *List) turn(j *Joint, r *matrix.Result, line Line, fit *fitcalc.Fit) {
	down, u := fit.Flush.TurnDown, l.Units
	j.OffMM = Amount{down.Nominal.Millimetres(), down.Least.Millimetres(), down.Most.Millimetres()}
	j.PerSideMM = down.PerSide().Nominal.Millimetres()
	j.Off, j.PerSide = both(down.Nominal, u), both(down.PerSide().Nominal, u)
	j.OffRange = between(u, down.Least, down.Most)
	head, ferrule := &r.Catalogue.Heads[line.Head].Head, &r.Catalogue.Ferrules[line.Ferrule].Ferrule
	if turning, err := fitcalc.TurningOf(*head, r.Tips[line.Tip].Tip, *ferrule, r.Shop); err == nil {
		j.Over, j.OverMM = first(u.ShowLength(turning.Height)), turning.Height.Millimetres()
	} // without a length nothing is known of how far up it goes; the joint is made all the same
}

// Base says what the base is as supplied, and that it was measured.
func (j Joint) Base() string {
	text := "base as supplied " + j.BaseOD
	if slices.Contains(j.Measured, fitcalc.FieldBaseOD.Code()) {
		text += ", measured"
	}
	return text
}

// Hosel says that the hosel, or the adapter's sleeve, was measured; nothing where it was not.
func (j Joint) Hosel() string {
	if j.hosel {
		return "hosel was measured"
	}
	return ""
}

// inward rounds a range inward to what calipers show: 0.01 mm or .0005 in, or finer where nothing would be left.
func inward(from, to measure.Length, units fitcalc.Units) (least, most measure.Length) {
	steps := []measure.Length{measure.Micrometres(10), measure.Micrometres(1)}
	if units != fitcalc.Metric {
		steps = []measure.Length{measure.Picometres(12_700_000), measure.Picometres(2_540_000)}
	}
	for _, step := range steps {
		least, most = from.RoundTo(step, measure.Up), to.RoundTo(step, measure.Down)
		if least.Less(most) {
			return least, most
		}
	}
	return from, to
}

// both writes a length in the preferred unit and in the other.
func both(l measure.Length, u fitcalc.Units) [2]string {
	preferred, second, _ := strings.Cut(u.Show(l), " (")
	return [2]string{preferred, strings.TrimSuffix(second, ")")}
}

// first is the preferred unit of what Show writes.
func first(shown string) string {
	text, _, _ := strings.Cut(shown, " (")
	return text
}

// between writes a range in the preferred unit, which stands once.
func between(u fitcalc.Units, from, to measure.Length) string {
	low, high := first(u.Show(from)), first(u.Show(to))
	return low[:strings.LastIndexByte(low, ' ')] + " to " + high
}

// other is the unit that stands second.
func other(u fitcalc.Units) fitcalc.Units {
	if u == fitcalc.Metric {
		return fitcalc.Imperial
	}
	return fitcalc.Metric
}

func describe(h *catalog.Head) string {
	if h.Description != "" {
		return clean(h.Description)
	}
	return h.Category.String()
}

// clean leaves out what is no letter and puts everything on one line.
func clean(text string) string {
	text = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r) || r == 0xFEFF || r == 0xFFFE || r == 0xFFFF:
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, string(utf8.RuneError)))
	return strings.Join(strings.Fields(text), " ")
}

// Summary is what the list asks of the bench, in a sentence.
func (l *List) Summary() string {
	text := fmt.Sprintf("%s: %s to turn", phrase.Count(l.joints, "joint"), phrase.Count(l.turned, "ferrule"))
	if l.prepare > 0 {
		text += fmt.Sprintf(", on %d something to do first", l.prepare)
	}
	text += "."
	if len(l.Left) > 0 {
		text += fmt.Sprintf(" Not on the list: %s, see the end.", phrase.Count(len(l.Left), "line"))
	}
	return text
}

// Rule says how the finished diameter is meant.
func (l *List) Rule() string {
	first, hosel := "Measure the hosel in hand at its very top and turn to that, or a little over, never under.", "nominal hosel"
	switch {
	case l.measured == 0:
	case l.measured == len(l.Joints):
		first, hosel = "Turn to the hosel at its very top, or a little over, never under; hosels of these heads were measured.", "hosel as measured"
	default:
		first = "Measure the hosel in hand at its very top, but where it says that it was measured, and turn to that, or a little over, never under."
	}
	return first + " Up to " + l.step + " over the hosel passes as flush; the range given is that for the " + hosel +
		". What comes off is nominal, then least to most, limit against limit."
}

// Leave puts a row of an order at the end of the list, among what cannot be made.
func (l *List) Leave(u Unread) {
	l.Left = append(l.Left, Left{Head: clean(u.Head), Ferrule: clean(u.Ferrule), Why: clean(u.Why), Count: max(1, u.Count), Note: clean(u.Note)})
}

// Answer is the verdict in a word.
func (l Left) Answer() string {
	if l.Verdict == "" {
		return "not known"
	}
	return l.Verdict
}
