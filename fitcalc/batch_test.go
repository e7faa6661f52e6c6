package fitcalc

import (
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// mixed are parts that share sizes with each other in every way.
type mixed struct {
	heads    []Head
	tips     []Tip
	ferrules []Ferrule
}

// mix draws a few joints and puts heads and ferrules together from what these bring.
func mix(t *rapid.T) mixed {
	s := sketch{t: t, unit: measure.Thou(1)}
	joints := make([]drawn, rapid.IntRange(1, 4).Draw(t, "joints"))
	for i := range joints {
		joints[i] = s.joint()
	}
	one := func(name string) *drawn { return &joints[rapid.IntRange(0, len(joints)-1).Draw(t, name)] }
	var m mixed
	for i := range joints {
		m.tips = append(m.tips, joints[i].tip)
	}
	for range rapid.IntRange(1, 6).Draw(t, "heads") {
		h := one("head").head
		h.HoselOD, h.BoreDepth, h.Top = one("hosel").head.HoselOD, one("depth").head.BoreDepth, one("top").head.Top
		h.Bore, h.Adapter, h.Counterbore = one("bore").head.Bore, one("adapter").head.Adapter, one("counterbore").head.Counterbore
		m.heads = append(m.heads, h)
	}
	for range rapid.IntRange(1, 6).Draw(t, "ferrules") {
		f := one("ferrule").ferrule
		f.BaseOD, f.Bore, f.Length = one("base").ferrule.BaseOD, one("ferrule bore").ferrule.Bore, one("length").ferrule.Length
		f.TopOD, f.RingDepth = one("top of ferrule").ferrule.TopOD, one("ring").ferrule.RingDepth
		if rapid.IntRange(0, 3).Draw(t, "for a tip") == 3 {
			tips := StandardTips()
			f.ForTip = tips[rapid.IntRange(0, len(tips)-1).Draw(t, "which")].Size()
			f.Bore = rapid.SampledFrom([]measure.Dim{{}, f.Bore}).Draw(t, "with a bore")
		}
		m.ferrules = append(m.ferrules, f)
	}
	return m
}

// A batch says of each pair what DecideInto says of it alone, in whatever order the heads come.
func TestBatchAgreesWithDecideInto(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, shop := mix(t), DefaultShop()
		b := NewBatch(m.ferrules, &shop)
		for range rapid.IntRange(1, 12).Draw(t, "turns") {
			head := &m.heads[rapid.IntRange(0, len(m.heads)-1).Draw(t, "next head")]
			tip := &m.tips[rapid.IntRange(0, len(m.tips)-1).Draw(t, "on tip")]
			b.On(head, tip)
			for i := range m.ferrules {
				checkBrief(t, b, head, tip, i)
			}
		}
	})
}

type fataler interface{ Fatalf(string, ...any) }

func checkBrief(t fataler, b *Batch, head *Head, tip *Tip, i int) Verdict {
	var fit Fit
	DecideInto(&fit, head, tip, &b.ferrules[i], b.shop)
	got, want := b.Decide(i), BriefOf(&fit)
	if got != want {
		t.Fatalf("%+v with %+v on %+v: the batch finds %+v, DecideInto %+v: %+v", head, b.ferrules[i], tip, got, want, fit)
	}
	if got.Verdict == No {
		return No
	}
	if least := b.AtLeast(i); least > fit.Work.Minutes || float32(least) > float32(fit.Work.Minutes) {
		t.Fatalf("%+v with %+v on %+v: at least %v minutes, and it takes %v", head, b.ferrules[i], tip, least, fit.Work.Minutes)
	}
	if turnDown, minutes := b.Work(i); turnDown != fit.Flush.TurnDown.Nominal || minutes != fit.Work.Minutes {
		t.Fatalf("%+v with %+v on %+v: the batch finds %v and %v minutes, DecideInto %v and %v", head, b.ferrules[i], tip, turnDown, minutes,
			fit.Flush.TurnDown.Nominal, fit.Work.Minutes)
	}
	return got.Verdict
}

// Of a list of sizes in the steps of the trade, with many more parts than sizes, all verdicts come about, and rows are forgotten on the way.
func TestBatchOfAList(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	thou := func(least, most, step int) measure.Dim {
		return measure.Nominal(measure.Thou(1).MulInt(int64(least + step*random.IntN((most-least)/step+1))))
	}
	ferrules := make([]Ferrule, 400)
	for i := range ferrules {
		ferrules[i] = Ferrule{Bore: thou(350, 372, 2), BaseOD: thou(490, 560, 5), Length: thou(500, 1000, 125), Style: Plain}
		if i%5 == 0 {
			ferrules[i].Style, ferrules[i].Collar = Collared, Spigot{OD: thou(400, 430, 10), Length: thou(20, 60, 10)}
		}
		if i%7 == 0 {
			ferrules[i].RingDepth = thou(5, 20, 5)
		}
	}
	tips := []Tip{ParallelTip(measure.Nominal(measure.Thou(370))), UsualTaperTip(measure.Nominal(measure.Thou(355))), {}}
	tops := []TopForm{TopFlat, TopFlat, TopRounded, TopCountersunk, TopCounterbored, TopUnknown}
	shop := DefaultShop()
	b := NewBatch(ferrules, &shop)
	b.flush.most = 4 * b.flush.width
	seen := map[Verdict]int{}
	for range 60 {
		head := Head{HoselOD: thou(380, 540, 5), Bore: thou(373, 378, 1), BoreDepth: thou(1100, 1600, 100), Top: tops[random.IntN(len(tops))]}
		tip := &tips[random.IntN(len(tips))]
		b.On(&head, tip)
		for i := range ferrules {
			seen[checkBrief(t, b, &head, tip, i)]++
		}
		if len(b.flush.known) > 4 {
			t.Fatalf("%d rows are kept", len(b.flush.known))
		}
	}
	for _, v := range Verdicts() {
		if seen[v] == 0 {
			t.Errorf("no pair is %v", v)
		}
	}
}
