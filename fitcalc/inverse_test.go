package fitcalc_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// joint is one joint that a property is tried on.
type joint struct {
	head    fitcalc.Head
	tip     fitcalc.Tip
	ferrule fitcalc.Ferrule
	shop    fitcalc.Shop
}

func (j joint) verdict(t interface{ Fatal(...any) }) fitcalc.Verdict {
	fit, err := fitcalc.Evaluate(j.head, j.tip, j.ferrule, j.shop)
	if err != nil {
		t.Fatal(err)
	}
	return fit.Verdict
}

// between draws a size in whole micrometres.
func between(t *rapid.T, name string, least, most int64) measure.Length {
	return measure.Micrometres(rapid.Int64Range(least, most).Draw(t, name))
}

// sized draws a dimension, with a tolerance of any shape or without.
func sized(t *rapid.T, name string, least, most int64) measure.Dim {
	size := between(t, name, least, most)
	if rapid.Bool().Draw(t, name+" stated") {
		return measure.Nominal(size)
	}
	shape := measure.Shape(rapid.IntRange(0, 2).Draw(t, name+" shape"))
	return measure.PlusMinus(size, between(t, name+" tolerance", 0, 150)).WithShape(shape)
}

// drawJoint draws joints of real sizes, of every form of top, base and tip.
func drawJoint(t *rapid.T) joint {
	j := joint{shop: fitcalc.DefaultShop()}
	j.head = fitcalc.Head{
		HoselOD: sized(t, "hosel OD", 11500, 14500),
		Top:     fitcalc.TopForm(rapid.IntRange(0, 4).Draw(t, "top")),
	}
	if rapid.Bool().Draw(t, "bore given") {
		j.head.Bore = sized(t, "bore", 8600, 9700)
	}
	if rapid.Bool().Draw(t, "depth given") {
		j.head.BoreDepth = sized(t, "depth", 25000, 40000)
	}
	if rapid.Bool().Draw(t, "countersunk") {
		j.head.Countersink.Mouth = sized(t, "mouth", 9900, 11300)
		j.head.Countersink.Angle = measure.Degrees(rapid.SampledFrom([]int64{0, 60, 82, 90}).Draw(t, "angle"))
	}
	if rapid.Bool().Draw(t, "counterbored") {
		j.head.Counterbore.Diameter = sized(t, "counterbore", 10000, 11000)
		j.head.Counterbore.Depth = sized(t, "counterbore depth", 500, 4000)
	}
	switch rapid.IntRange(0, 2).Draw(t, "tip form") {
	case 0:
		j.tip = fitcalc.ParallelTip(sized(t, "tip", 8500, 9500))
	case 1:
		j.tip = fitcalc.TaperTip(sized(t, "tip", 8500, 9100), j.shop.TipTaper)
	}
	j.ferrule = fitcalc.Ferrule{
		Bore:   sized(t, "ferrule bore", 8450, 9450),
		BaseOD: sized(t, "base OD", 11500, 14500),
	}
	if rapid.Bool().Draw(t, "length given") {
		j.ferrule.Length = sized(t, "length", 3000, 30000)
	}
	switch rapid.IntRange(0, 2).Draw(t, "style") {
	case 0:
		j.ferrule.Collar = fitcalc.Spigot{OD: sized(t, "collar OD", 9700, 10900), Length: sized(t, "collar length", 400, 1500)}
	case 1:
		j.ferrule.Step = fitcalc.Spigot{OD: sized(t, "step OD", 9700, 10900), Length: sized(t, "step length", 400, 4000)}
	}
	if rapid.Bool().Draw(t, "ring") {
		j.ferrule.RingDepth = sized(t, "ring depth", 160, 600)
		j.ferrule.RingHeight = sized(t, "ring height", 200, 4000)
	}
	return j
}

// At each break point and a picometre beside it, and in between, the windows say what Evaluate says.
func TestWindowsAgreeWithEvaluate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJoint(t)
		windows, err := fitcalc.Windows(j.head, j.tip, j.ferrule, j.shop)
		if err != nil {
			t.Fatal(err)
		}
		deviations := j.head.HoselOD
		check := func(od measure.Length, want fitcalc.Verdict) {
			at := j
			at.head.HoselOD = deviations.Shift(od.Sub(deviations.Nominal()))
			if at.head.Validate() != nil {
				return // a hosel too small for its own bore
			}
			if got := at.verdict(t); got != want {
				t.Fatalf("at a hosel OD of %v: Evaluate says %v, the windows say %v", od, got, want)
			}
		}
		for i, w := range windows {
			from := w.HoselOD.Lower().At()
			check(from, w.Verdict)
			if i > 0 {
				if last := windows[i-1].HoselOD.Upper(); last.At() != from || last.Closed() {
					t.Fatalf("a gap before %v", w.HoselOD)
				}
				check(from.Sub(measure.Picometres(1)), windows[i-1].Verdict)
			}
			if width, bounded := w.HoselOD.Width(); bounded {
				inside := measure.Picometres(rapid.Int64Range(0, width.Picometres()-1).Draw(t, "inside"))
				check(from.Add(inside), w.Verdict)
			} else {
				check(from.Add(between(t, "beyond", 0, 20000)), w.Verdict)
			}
		}
	})
}

// Break points worked out by hand, with tolerances of nothing so that only the limits decide: a base of 13 mm and a step
// of 0.05 mm is flush on hosels of 12.95 to 13.05 mm, and with a turn limit of 1 mm is turned on those from 12 mm. What calipers do
// not tell from a limit, 0.02 mm, is measured first.
func TestWindowsByHand(t *testing.T) {
	exact := func(s string) measure.Dim { return measure.Exactly(measure.MustParseLength(s)) }
	shop := fitcalc.DefaultShop()
	shop.FlushStep, shop.TurnLimit, shop.SameSize = measure.MustParseLength("0.05 mm"), measure.MustParseLength("1 mm"), measure.MustParseLength("0.02 mm")
	head := fitcalc.Head{HoselOD: exact("13 mm"), Top: fitcalc.TopFlat}
	ferrule := fitcalc.Ferrule{Bore: exact("9.35 mm"), BaseOD: exact("13 mm"), Length: exact("12 mm")}
	got, err := fitcalc.Windows(head, fitcalc.ParallelTip(exact("9.398 mm")), ferrule, shop)
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		from    string
		verdict fitcalc.Verdict
		code    fitcalc.Code
	}{
		{"0.000000001 mm", fitcalc.No, fitcalc.FlushTurnLimit},
		{"11.98 mm", fitcalc.Measure, fitcalc.FlushTurnLimit},
		{"12 mm", fitcalc.Turn, fitcalc.FlushTurn},
		{"12.95 mm", fitcalc.Flush, fitcalc.FlushAsSupplied},
		{"13.030000001 mm", fitcalc.Measure, fitcalc.FlushUndersize},
		{"13.050000001 mm", fitcalc.No, fitcalc.FlushUndersize},
	}
	if len(got) != len(want) {
		t.Fatalf("got %v", got)
	}
	for i, w := range want {
		if from := got[i].HoselOD.Lower().At(); from != measure.MustParseLength(w.from) || got[i].Verdict != w.verdict || got[i].Code != w.code {
			t.Errorf("window %d: %v from %v for %v; want %v from %s for %v", i, got[i].Verdict, from, got[i].Code, w.verdict, w.from, w.code)
		}
	}
}

// A bore of 9.398 mm on a tip of that size grips in no joint, so that one verdict holds everywhere and three reasons decide in
// turn; flush comes before grip where both stand against it.
func TestWindowsByReasonByHand(t *testing.T) {
	exact := func(s string) measure.Dim { return measure.Exactly(measure.MustParseLength(s)) }
	shop := fitcalc.DefaultShop()
	shop.FlushStep, shop.TurnLimit, shop.SameSize = measure.MustParseLength("0.05 mm"), measure.MustParseLength("1 mm"), measure.MustParseLength("0.02 mm")
	head := fitcalc.Head{HoselOD: exact("13 mm"), Top: fitcalc.TopFlat}
	ferrule := fitcalc.Ferrule{Bore: exact("9.398 mm"), BaseOD: exact("13 mm"), Length: exact("12 mm")}
	got, err := fitcalc.WindowsByReason(head, fitcalc.ParallelTip(exact("9.398 mm")), ferrule, shop)
	if err != nil {
		t.Fatal(err)
	}
	open := func(from, to string) measure.Interval {
		if to == "" {
			return measure.NewInterval(measure.Including(measure.MustParseLength(from)), measure.Unbounded())
		}
		return measure.NewInterval(measure.Including(measure.MustParseLength(from)), measure.Excluding(measure.MustParseLength(to)))
	}
	want := []fitcalc.Window{
		{HoselOD: open("0.000000001 mm", "11.98 mm"), Verdict: fitcalc.No, Code: fitcalc.FlushTurnLimit},
		{HoselOD: open("11.98 mm", "13.050000001 mm"), Verdict: fitcalc.No, Code: fitcalc.GripLoose},
		{HoselOD: open("13.050000001 mm", ""), Verdict: fitcalc.No, Code: fitcalc.FlushUndersize},
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	whole, err := fitcalc.Windows(head, fitcalc.ParallelTip(exact("9.398 mm")), ferrule, shop)
	if err != nil {
		t.Fatal(err)
	}
	if one := []fitcalc.Window{{HoselOD: open("0.000000001 mm", ""), Verdict: fitcalc.No, Code: fitcalc.FlushTurnLimit}}; !slices.Equal(whole, one) {
		t.Errorf("got %v, want %v", whole, one)
	}
}

// Windows by reason are windows by verdict cut further: at their ends, and anywhere within, Evaluate has their verdict and
// reason, and joined by verdict they are those of Windows.
func TestWindowsByReasonAgreeWithEvaluate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJoint(t)
		whole, err1 := fitcalc.Windows(j.head, j.tip, j.ferrule, j.shop)
		parts, err2 := fitcalc.WindowsByReason(j.head, j.tip, j.ferrule, j.shop)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		var joined []fitcalc.Window
		for i, w := range parts {
			if i > 0 && w.Verdict == parts[i-1].Verdict && w.Code == parts[i-1].Code {
				t.Fatalf("%v and %v are the same", parts[i-1], w)
			}
			inside := []measure.Length{w.HoselOD.Lower().At()}
			if width, bounded := w.HoselOD.Width(); bounded {
				inside = append(inside, inside[0].Add(measure.Picometres(rapid.Int64Range(0, width.Picometres()-1).Draw(t, "inside"))),
					w.HoselOD.Upper().At().Sub(measure.Picometres(1)))
			} else {
				inside = append(inside, inside[0].Add(between(t, "beyond", 0, 20000)))
			}
			for _, od := range inside {
				at := j
				at.head.HoselOD = j.head.HoselOD.Shift(od.Sub(j.head.HoselOD.Nominal()))
				if at.head.Validate() != nil {
					continue // a hosel too small for its own bore
				}
				fit, err := fitcalc.Evaluate(at.head, at.tip, at.ferrule, at.shop)
				if err != nil {
					t.Fatal(err)
				}
				if fit.Verdict != w.Verdict || fit.Reason().Code != w.Code {
					t.Fatalf("at a hosel OD of %v: %v for %v, the window says %v for %v", od, fit.Verdict, fit.Reason().Code, w.Verdict, w.Code)
				}
			}
			if n := len(joined); n > 0 && joined[n-1].Verdict == w.Verdict {
				joined[n-1].HoselOD = measure.NewInterval(joined[n-1].HoselOD.Lower(), w.HoselOD.Upper())
				continue
			}
			joined = append(joined, w)
		}
		if !slices.Equal(joined, whole) {
			t.Fatalf("joined %v, and Windows says %v", joined, whole)
		}
	})
}

// Moving a dimension by what Sensitivity says changes the verdict as it says, and a picometre less does not.
func TestSensitivityIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJoint(t)
		changes, err := fitcalc.Sensitivity(j.head, j.tip, j.ferrule, j.shop)
		if err != nil {
			t.Fatal(err)
		}
		now := j.verdict(t)
		for i, c := range changes {
			if i > 0 && c.Shift.Abs().Less(changes[i-1].Shift.Abs()) {
				t.Fatal("the smallest shift does not come first")
			}
			dim := map[fitcalc.Field]func(*joint) *measure.Dim{
				fitcalc.FieldHoselOD:     func(j *joint) *measure.Dim { return &j.head.HoselOD },
				fitcalc.FieldBaseOD:      func(j *joint) *measure.Dim { return &j.ferrule.BaseOD },
				fitcalc.FieldFerruleBore: func(j *joint) *measure.Dim { return &j.ferrule.Bore },
			}[c.Field]
			if dim == nil {
				continue
			}
			at := func(shift measure.Length) (fitcalc.Verdict, bool) {
				moved := j
				d := dim(&moved)
				*d = d.Shift(shift)
				fit, err := fitcalc.Evaluate(moved.head, moved.tip, moved.ferrule, moved.shop)
				return fit.Verdict, err == nil
			}
			if v, ok := at(c.Shift); ok && v != c.To {
				t.Fatalf("%v moved by %v: %v, want %v", c.Field, c.Shift, v, c.To)
			}
			less := c.Shift.Sub(measure.Picometres(int64(c.Shift.Sign())))
			if v, ok := at(less); ok && v != now {
				t.Fatalf("%v moved by %v already changes %v to %v", c.Field, less, now, v)
			}
		}
	})
}

// A base OD .012 in over with a turn limit of .040 in and tolerances of nothing: .010 in up to the step from flush, and
// so on, by hand.
func TestSensitivityByHand(t *testing.T) {
	exact := func(s string) measure.Dim { return measure.Exactly(measure.MustParseLength(s)) }
	head := fitcalc.Head{HoselOD: exact(".500 in"), Top: fitcalc.TopFlat}
	ferrule := fitcalc.Ferrule{Bore: exact(".368 in"), BaseOD: exact(".512 in"), Length: exact(".5 in")}
	changes, err := fitcalc.Sensitivity(head, fitcalc.ParallelTip(exact(".370 in")), ferrule, fitcalc.DefaultShop())
	if err != nil {
		t.Fatal(err)
	}
	if first := changes[0]; first.Shift.Abs().Compare(measure.Thou(2)) > 0 {
		t.Errorf("the grip of .002 in is the nearest; got %+v", first)
	}
	found := map[fitcalc.Field]fitcalc.Change{}
	for _, c := range changes {
		if _, known := found[c.Field]; !known {
			found[c.Field] = c
		}
	}
	if c := found[fitcalc.FieldHoselOD]; c.Shift != measure.Thou(10) || c.To != fitcalc.Flush {
		t.Errorf("hosel OD: %+v, want +.010 in to flush", c)
	}
	if c := found[fitcalc.FieldBaseOD]; c.Shift != measure.Thou(-10) || c.To != fitcalc.Flush {
		t.Errorf("base OD: %+v, want -.010 in to flush", c)
	}
}

// What is specified fits, each range with the best of the other sizes: at its ends, anywhere within, and nothing a picometre
// outside, up to where a length is unusual.
func TestSpecifyIsWhatEvaluateAccepts(t *testing.T) {
	accepted := 0
	rapid.Check(t, func(t *rapid.T) {
		j := drawJoint(t)
		if j.tip.Form() == fitcalc.TipUnknown || !j.head.JointOD().Given() {
			return
		}
		j.head.Top, j.head.Counterbore, j.head.Countersink = fitcalc.TopFlat, fitcalc.Counterbore{}, fitcalc.Countersink{}
		spec, err := fitcalc.Specify(j.head, j.tip, fitcalc.Ferrule{}, j.shop)
		if err != nil {
			t.Fatal(err)
		}
		if spec.BaseOD.Empty() || spec.Bore.Empty() {
			return
		}
		accepted++
		refused := func(base, bore, length measure.Length) []fitcalc.Code {
			j.ferrule = fitcalc.Ferrule{
				BaseOD: measure.PlusMinus(base, spec.BaseODTolerance), Bore: measure.PlusMinus(bore, spec.BoreTolerance),
				Length: measure.Nominal(length), Style: fitcalc.Plain,
			}
			fit, err := fitcalc.Evaluate(j.head, j.tip, j.ferrule, j.shop)
			if err != nil {
				t.Fatal(err)
			}
			var codes []fitcalc.Code
			for r := range fit.Reasons() {
				switch r.Code {
				case fitcalc.FlushUndersize, fitcalc.FlushTurnLimit, fitcalc.WallThin,
					fitcalc.GripLoose, fitcalc.GripSplit, fitcalc.GripShort, fitcalc.GripOverTip:
					if r.Level >= fitcalc.Prepares {
						codes = append(codes, r.Code)
					}
				}
			}
			return codes
		}
		within := func(name string, i measure.Interval) []measure.Length {
			from, to := i.Lower().At(), i.Upper().At()
			if !i.Upper().Closed() {
				to = to.Sub(measure.Picometres(1))
			}
			part := rapid.Int64Range(0, 1000).Draw(t, name)
			return []measure.Length{from, from.Add(to.Sub(from).MulRatio(part, 1000)), to}
		}
		if codes := refused(spec.BestBaseOD, spec.BestBore, spec.ForLength); codes != nil {
			t.Fatalf("the best: %v (%+v)", codes, spec)
		}
		for _, base := range within("base", spec.BaseOD) {
			if codes := refused(base, spec.BestBore, spec.ForLength); codes != nil {
				t.Fatalf("base %v: %v (%+v)", base, codes, spec)
			}
		}
		for _, bore := range within("bore", spec.Bore) {
			if codes := refused(spec.BestBaseOD, bore, spec.ForLength); codes != nil {
				t.Fatalf("bore %v: %v (%+v)", bore, codes, spec)
			}
		}
		if !spec.Length.Empty() {
			for _, length := range within("length", spec.Length) {
				if codes := refused(spec.BestBaseOD, spec.BestBore, length); codes != nil {
					t.Fatalf("length %v: %v (%+v)", length, codes, spec)
				}
			}
		}
		one := measure.Picometres(1)
		for _, base := range []measure.Length{spec.BaseOD.Lower().At().Sub(one), spec.BaseOD.Upper().At()} {
			if refused(base, spec.BestBore, spec.ForLength) == nil {
				t.Fatalf("base %v, outside, is accepted (%+v)", base, spec)
			}
		}
		for _, bore := range []measure.Length{spec.Bore.Lower().At().Sub(one), spec.Bore.Upper().At()} {
			if refused(spec.BestBaseOD, bore, spec.ForLength) == nil {
				t.Fatalf("bore %v, outside, is accepted (%+v)", bore, spec)
			}
		}
	})
	if accepted == 0 {
		t.Error("nothing could be specified for any joint")
	}
}

func TestSpecifyByHand(t *testing.T) {
	head := fitcalc.Head{HoselOD: measure.Nominal(measure.Thou(500)), Top: fitcalc.TopFlat}
	tip := fitcalc.ParallelTip(measure.Nominal(measure.Thou(370)))
	spec, err := fitcalc.Specify(head, tip, fitcalc.Ferrule{}, fitcalc.DefaultShop())
	if err != nil {
		t.Fatal(err)
	}
	// Common practice: a ferrule for a .370 in parallel tip is made about .002 in under.
	if spec.BestBore != measure.Thou(368) {
		t.Errorf("best bore %v, want .368 in", spec.BestBore)
	}
	// The hosel's own size ends flush. P(S < -step) = 16 % at a mean of .994458 standard deviations above the step, the deviation
	// being sqrt(.003² + .002²)/3 in: -.002 + .0011952 = -.0008048 in from the hosel. The quantile is Python's NormalDist.
	if spec.BestBaseOD != measure.Thou(500) {
		t.Errorf("best base OD %v, want .500 in", spec.BestBaseOD)
	}
	want := 0.500 - 0.002 + 0.994457883209753*math.Sqrt(0.003*0.003+0.002*0.002)/3
	if got := spec.BaseOD.Lower().At().Inches(); math.Abs(got-want) > 1e-9 {
		t.Errorf("least base OD %v in, want %v", got, want)
	}
	for _, missing := range []struct {
		head  fitcalc.Head
		tip   fitcalc.Tip
		field fitcalc.Field
	}{
		{fitcalc.Head{}, tip, fitcalc.FieldHoselOD},
		{head, fitcalc.Tip{}, fitcalc.FieldTip},
	} {
		_, err := fitcalc.Specify(missing.head, missing.tip, fitcalc.Ferrule{}, fitcalc.DefaultShop())
		var input *fitcalc.InputError
		if !errors.As(err, &input) || input.Field != missing.field {
			t.Errorf("got %v, want an error that names the %v", err, missing.field)
		}
	}
}

// The pin and collar of ISO 10123 (12.675 mm in 12.700 mm, engaged over 11.1 mm): the collar's area is 442.87 mm², 20 MPa
// over it is 8857.4 N, and the bond line 0.0125 mm.
func TestBond(t *testing.T) {
	exact := func(s string) measure.Dim { return measure.Exactly(measure.MustParseLength(s)) }
	head := fitcalc.Head{Bore: exact("12.7 mm"), BoreDepth: exact("11.1 mm"), BoreForm: fitcalc.BoreParallel}
	bond, err := fitcalc.BondOf(head, fitcalc.ParallelTip(exact("12.675 mm")), fitcalc.DefaultShop())
	if err != nil {
		t.Fatal(err)
	}
	near := func(what string, got, want, tolerance float64) {
		t.Helper()
		if math.Abs(got-want) > tolerance {
			t.Errorf("%s: got %v, want %v", what, got, want)
		}
	}
	near("area of the pin", bond.AreaMM2, 442.870*12.675/12.7, 0.001)
	near("shear under 8857.4 N", bond.ShearMPa(8857.4), 20*12.7/12.675, 0.001)
	near("room", bond.GapMM3, math.Pi/4*(12.7*12.7-12.675*12.675)*11.1, 1e-9)
	near("line", bond.Line.Millimetres(), 0.0125, 0.0001)
	// 0.2 kg at 45 m/s on 1.6 m.
	near("pull", fitcalc.CentripetalN(0.2, 45, 1.6), 253.125, 1e-9)

	// A taper tip over two inches: its surface is that of a cone cut off, π (R + r) sqrt(h² + (R − r)²).
	shop := fitcalc.DefaultShop()
	shop.TipTaper = measure.TaperPPB(7_500_000)
	taper := fitcalc.TaperTip(exact(".355 in"), shop.TipTaper)
	head = fitcalc.Head{Bore: exact(".358 in"), BoreDepth: exact("2 in"), BoreForm: fitcalc.BoreTapered}
	bond, err = fitcalc.BondOf(head, taper, shop)
	if err != nil {
		t.Fatal(err)
	}
	r, h := 0.355/2*25.4, 2*25.4
	R := 0.370 / 2 * 25.4
	near("area of the cone", bond.AreaMM2, math.Pi*(R+r)*math.Sqrt(h*h+(R-r)*(R-r)), 1e-6)
	near("line of a taper in a taper", bond.Line.Inches(), 0.0015, 0.0001)
	// An inch further up both are parallel: the cylinder's π d h is added.
	deep := head
	deep.BoreDepth = exact("3 in")
	longer, err := fitcalc.BondOf(deep, taper, shop)
	if err != nil {
		t.Fatal(err)
	}
	near("area above the cone", longer.AreaMM2-bond.AreaMM2, math.Pi*2*R*25.4, 1e-6)
	near("line above the cone", longer.Line.Inches(), 0.0015, 0.0001)

	for field, head := range map[fitcalc.Field]fitcalc.Head{
		fitcalc.FieldHeadBore:  {Bore: exact(".350 in"), BoreDepth: exact("1 in")},
		fitcalc.FieldBoreDepth: {Bore: exact(".358 in")},
	} {
		_, err := fitcalc.BondOf(head, taper, fitcalc.DefaultShop())
		var input *fitcalc.InputError
		if !errors.As(err, &input) || input.Field != field {
			t.Errorf("got %v, want an error that names the %v", err, field)
		}
	}
}
