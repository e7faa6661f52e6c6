package explain

import (
	"fmt"
	"slices"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// builder collects the steps of one joint.
type builder struct {
	s    *Subject
	head *fitcalc.Head
	tip  *fitcalc.Tip
	// part is the ferrule with the bore that was used; ofTip is set where that is taken from the tip it is for.
	part   *fitcalc.Ferrule
	ofTip  bool
	shop   *fitcalc.Shop
	fit    *fitcalc.Fit
	u      fitcalc.Units
	topics []Topic
	used   []string // keys of settings, in the order of use
	heat   bool
}

func newBuilder(s *Subject, fit *fitcalc.Fit) *builder {
	tip := s.Joint.Tip.ByShop(&s.Shop.Shop)
	b := &builder{s: s, head: &s.Joint.Head, tip: &tip, shop: &s.Shop.Shop, fit: fit, u: s.Units}
	part := s.Joint.Ferrule
	if !part.Bore.Given() {
		part.Bore = part.JointBore(b.head, b.shop)
		b.ofTip = part.Bore.Given()
	}
	b.part = &part
	return b
}

func (b *builder) tipKnown() bool { return b.tip.Form() != fitcalc.TipUnknown }

// topic begins a group of steps; one that stays empty is left out.
func (b *builder) topic(title string) {
	if n := len(b.topics); n > 0 && len(b.topics[n-1].Steps) == 0 {
		b.topics = b.topics[:n-1]
	}
	b.topics = append(b.topics, Topic{Title: title})
}

func (b *builder) step(s Step) {
	t := &b.topics[len(b.topics)-1]
	t.Steps = append(t.Steps, s)
}

// length is a step whose result is a length: the expression has a {} for each number, the result last.
func (b *builder) length(name, formula, note, expression string, lengths ...measure.Length) {
	mm, in := both(expression, lengths...)
	b.step(Step{Name: name, Formula: formula, MM: mm, In: in, Note: note})
}

// one writes a length in the reader's unit alone, for use within a formula.
func (b *builder) one(l measure.Length) string {
	if b.u == fitcalc.Metric {
		return mmText(l) + " mm"
	}
	return inText(l) + " in"
}

// value is a step whose result is no length.
func (b *builder) value(name, formula, value, note string) {
	b.step(Step{Name: name, Formula: formula, Value: value, Note: note})
}

// uses notes settings that a step compares with.
func (b *builder) uses(keys ...string) {
	for _, key := range keys {
		if !slices.Contains(b.used, key) {
			b.used = append(b.used, key)
		}
	}
}

// settingOf are the settings that stand in for what is not said.
var settingOf = map[fitcalc.Assumption]string{
	fitcalc.AssumedHoselODTolerance:     "hosel_od_tolerance",
	fitcalc.AssumedBaseODTolerance:      "ferrule_od_tolerance",
	fitcalc.AssumedFerruleBoreTolerance: "ferrule_bore_tolerance",
	fitcalc.AssumedTipTolerance:         "tip_tolerance",
	fitcalc.AssumedBoreTolerance:        "bore_tolerance",
	fitcalc.AssumedInsertion:            "insertion_depth",
	fitcalc.AssumedCountersinkAngle:     "countersink_angle",
	fitcalc.AssumedBoreTaper:            "tip_taper",
}

// rest is what the answer rests on besides what is given: assumptions, the settings that stand in for what is not said, and
// those it was held against.
func (b *builder) rest() []Input {
	var inputs []Input
	for a := range b.fit.Assumptions.All() {
		if key := settingOf[a]; key != "" {
			inputs = append(inputs, b.setting(key))
			continue
		}
		inputs = append(inputs, Input{Name: a.Code(), Value: b.s.Language.Assumption(a), Kind: Assumption})
	}
	for _, key := range b.used {
		if !slices.ContainsFunc(inputs, func(in Input) bool { return in.Name == key }) {
			inputs = append(inputs, b.setting(key))
		}
	}
	return inputs
}

// setting follows a setting to its line, or to why its default is what it is.
func (b *builder) setting(key string) Input {
	in := Input{Name: key, Kind: Default}
	for _, s := range fitcalc.Settings() {
		if s.Key == key {
			in.Value, in.Why = b.settingValue(s), s.Why+" ("+s.Source+")"
		}
	}
	if line := b.s.Shop.Lines[key]; line > 0 {
		in.Kind, in.Place, in.Why = Setting, fmt.Sprintf("%s:%d", b.s.Shop.File, line), ""
	}
	return in
}

func (b *builder) settingValue(s fitcalc.Setting) string {
	text, err := b.shop.Value(s.Key)
	if err != nil {
		return s.Default
	}
	if l, err := measure.ParseLength(text); err == nil {
		return b.u.Show(l)
	}
	return text
}

// base is the ferrule's base OD with the limits that were used, and so are the others.
func (b *builder) base() measure.Dim {
	return b.part.BaseOD.OrPlusMinus(b.shop.FerruleODTolerance)
}

func (b *builder) hosel() measure.Dim {
	od := b.head.HoselOD
	if b.head.Adapter.Given() {
		od = b.head.Adapter.TopOD
	}
	return od.OrPlusMinus(b.shop.HoselODTolerance)
}

func (b *builder) ferruleBore() measure.Dim {
	return b.part.Bore.OrPlusMinus(b.shop.FerruleBoreTolerance)
}

// shaft is the tip's diameter at a position above the trimmed tip end.
func (b *builder) shaft(at measure.Length) measure.Dim {
	return b.tip.Diameter(at).OrPlusMinus(b.shop.TipTolerance)
}

func (b *builder) headBore() measure.Dim {
	bore := b.head.Bore
	if b.head.Adapter.Bore.Given() {
		bore = b.head.Adapter.Bore
	}
	return bore.OrPlusMinus(b.shop.BoreTolerance)
}

func (b *builder) boreDepth() measure.Dim {
	if b.head.Adapter.BoreDepth.Given() {
		return b.head.Adapter.BoreDepth
	}
	return b.head.BoreDepth
}
