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
	part *fitcalc.Ferrule
	// of is the joint as the shop takes it: the sizes that were used.
	of     *fitcalc.Joint
	shop   *fitcalc.Shop
	fit    *fitcalc.Fit
	u      fitcalc.Units
	topics []Topic
	used   []string // keys of settings, in the order of use
	heat   bool
}

func newBuilder(s *Subject, of *fitcalc.Joint, fit *fitcalc.Fit) *builder {
	return &builder{s: s, head: &s.Joint.Head, part: &s.Joint.Ferrule, of: of, shop: &s.Shop.Shop, fit: fit, u: s.Units}
}

func (b *builder) tipKnown() bool { return b.of.Tip.Form() != fitcalc.TipUnknown }

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
