package measure_test

import (
	"encoding/json"
	"fmt"
	"math/big"
	"testing"

	"example.com/seatline/fitcalc/measure"
	"pgregory.net/rapid"
)

func TestInterval(t *testing.T) {
	lo, hi := length(t, "12.7 mm"), length(t, "13.6 mm")
	pm := measure.Picometres(1)
	mid := length(t, "13 mm")
	tests := []struct {
		interval measure.Interval
		text     string
		json     string
		in, out  []measure.Length
	}{
		{measure.Closed(lo, hi), "[12.7 mm, 13.6 mm]", `{"lower":"12.7 mm","upper":"13.6 mm"}`,
			[]measure.Length{lo, mid, hi}, []measure.Length{lo.Sub(pm), hi.Add(pm)}},
		{measure.NewInterval(measure.Excluding(lo), measure.Including(hi)), "(12.7 mm, 13.6 mm]", `{"lower":"12.7 mm","lower_open":true,"upper":"13.6 mm"}`,
			[]measure.Length{lo.Add(pm), hi}, []measure.Length{lo}},
		{measure.NewInterval(measure.Including(lo), measure.Excluding(hi)), "[12.7 mm, 13.6 mm)", `{"lower":"12.7 mm","upper":"13.6 mm","upper_open":true}`,
			[]measure.Length{lo, hi.Sub(pm)}, []measure.Length{hi}},
		{measure.NewInterval(measure.Unbounded(), measure.Including(hi)), "(-∞, 13.6 mm]", `{"upper":"13.6 mm"}`,
			[]measure.Length{measure.MaxLength.Neg(), hi}, []measure.Length{hi.Add(pm), measure.MaxLength}},
		{measure.NewInterval(measure.Excluding(lo), measure.Unbounded()), "(12.7 mm, ∞)", `{"lower":"12.7 mm","lower_open":true}`,
			[]measure.Length{measure.MaxLength}, []measure.Length{lo, measure.MaxLength.Neg()}},
		{measure.NewInterval(measure.Unbounded(), measure.Unbounded()), "(-∞, ∞)", `{}`,
			[]measure.Length{{}, measure.MaxLength}, nil},
		{measure.Closed(lo, lo), "[12.7 mm, 12.7 mm]", `{"lower":"12.7 mm","upper":"12.7 mm"}`,
			[]measure.Length{lo}, []measure.Length{lo.Add(pm)}},
		{measure.Interval{}, "empty", `null`, nil, []measure.Length{{}, lo}},
	}
	for _, tt := range tests {
		if got := tt.interval.String(); got != tt.text {
			t.Errorf("String = %q; want %q", got, tt.text)
		}
		data, err := json.Marshal(tt.interval)
		if err != nil || string(data) != tt.json {
			t.Errorf("%v: %s, %v; want %s", tt.interval, data, err, tt.json)
		}
		back := measure.Closed(lo, hi)
		if err := json.Unmarshal(data, &back); err != nil || back != tt.interval {
			t.Errorf("%s came back as %v, %v", data, back, err)
		}
		for _, l := range tt.in {
			if !tt.interval.Contains(l) {
				t.Errorf("%v does not contain %v", tt.interval, l)
			}
		}
		for _, l := range tt.out {
			if tt.interval.Contains(l) {
				t.Errorf("%v contains %v", tt.interval, l)
			}
		}
	}
	for _, empty := range []measure.Interval{measure.Closed(hi, lo), measure.NewInterval(measure.Excluding(lo), measure.Including(lo)), measure.NewInterval(measure.Including(lo), measure.Excluding(lo))} {
		if empty != (measure.Interval{}) || !empty.Empty() {
			t.Errorf("%v is not empty", empty)
		}
	}
	if got := dim(t, "13.6 ±0.05 mm").Limits().String(); got != "[13.55 mm, 13.65 mm]" {
		t.Errorf("limits %s", got)
	}
	if !(measure.Dim{}).Limits().Empty() {
		t.Error("a dimension that was not given has limits")
	}
	if w, ok := measure.Closed(lo, hi).Width(); !ok || w != length(t, "0.9 mm") {
		t.Errorf("width %v, %v", w, ok)
	}
	if _, ok := measure.NewInterval(measure.Unbounded(), measure.Including(hi)).Width(); ok {
		t.Error("an unbounded interval has a width")
	}
	for _, data := range []string{`{"lower":12.7}`, `{"lower":"12.7"}`, `[]`, `"x"`} {
		back := measure.Closed(lo, hi)
		if err := json.Unmarshal([]byte(data), &back); err == nil || back != measure.Closed(lo, hi) {
			t.Errorf("%s = %v, and no error", data, back)
		}
	}
}

func TestIntersect(t *testing.T) {
	bound := rapid.Custom(func(t *rapid.T) measure.Bound {
		at := measure.Picometres(rapid.Int64Range(0, 6).Draw(t, "at"))
		return rapid.SampledFrom([]measure.Bound{measure.Including(at), measure.Excluding(at), measure.Unbounded()}).Draw(t, "bound")
	})
	rapid.Check(t, func(t *rapid.T) {
		a := measure.NewInterval(bound.Draw(t, "a lower"), bound.Draw(t, "a upper"))
		b := measure.NewInterval(bound.Draw(t, "b lower"), bound.Draw(t, "b upper"))
		both := a.Intersect(b)
		if both != b.Intersect(a) || a.Intersect(a) != a {
			t.Fatalf("%v and %v", a, b)
		}
		for pm := int64(-1); pm <= 7; pm++ {
			l := measure.Picometres(pm)
			if both.Contains(l) != (a.Contains(l) && b.Contains(l)) {
				t.Fatalf("%v and %v give %v, wrong at %v", a, b, both, l)
			}
		}
	})
}

func TestInward(t *testing.T) {
	mm := func(text string) measure.Length { return length(t, text+" mm") }
	step := mm("0.01")
	tests := []struct {
		in, want measure.Interval
	}{
		{measure.Closed(mm("12.034"), mm("12.969")), measure.Closed(mm("12.04"), mm("12.96"))},
		{measure.Closed(mm("12.03"), mm("12.97")), measure.Closed(mm("12.03"), mm("12.97"))},
		{measure.NewInterval(measure.Excluding(mm("12.03")), measure.Excluding(mm("12.97"))), measure.Closed(mm("12.04"), mm("12.96"))},
		{measure.NewInterval(measure.Excluding(mm("12.03")), measure.Unbounded()), measure.NewInterval(measure.Including(mm("12.04")), measure.Unbounded())},
		{measure.NewInterval(measure.Unbounded(), measure.Including(mm("-0.001"))), measure.NewInterval(measure.Unbounded(), measure.Including(mm("-0.01")))},
		{measure.Closed(mm("12.031"), mm("12.039")), measure.Interval{}},
		{measure.NewInterval(measure.Excluding(mm("12.03")), measure.Excluding(mm("12.04"))), measure.Interval{}},
		{measure.Interval{}, measure.Interval{}},
		{measure.NewInterval(measure.Excluding(measure.MaxLength), measure.Unbounded()), measure.Interval{}},
	}
	for _, tt := range tests {
		if got := tt.in.Inward(step); got != tt.want {
			t.Errorf("%v inward is %v, want %v", tt.in, got, tt.want)
		}
		if got := tt.in.Inward(step.Neg()); got != tt.want {
			t.Errorf("the sign of the step matters: %v", got)
		}
	}
	open := measure.NewInterval(measure.Excluding(mm("1")), measure.Excluding(mm("2")))
	if got, want := open.Inward(measure.Length{}), measure.Closed(mm("1.000000001"), mm("1.999999999")); got != want {
		t.Errorf("without a step %v, want %v", got, want)
	}
}

// anyInterval draws intervals with ends of every kind.
func anyInterval(t *rapid.T) measure.Interval {
	bound := func(name string) measure.Bound {
		at := measure.Picometres(rapid.OneOf(rapid.Int64Range(-3, 3), rapid.Int64Range(-2e10, 2e10),
			rapid.SampledFrom([]int64{254e5, 25.4e9, 127e6, -254e5, 1e15, -1e15})).Draw(t, name))
		return rapid.SampledFrom([]measure.Bound{measure.Including(at), measure.Excluding(at), measure.Unbounded()}).Draw(t, name+" bound")
	}
	return measure.NewInterval(bound("lower"), bound("upper"))
}

// The ends that Inward returns lie in the interval on whole steps, and one step further out does not.
func TestInwardIsTight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i := anyInterval(t)
		step := measure.Picometres(rapid.SampledFrom([]int64{1, 3, 1e7, 254e5, 396875e3}).Draw(t, "step"))
		in := i.Inward(step)
		if in.Empty() {
			first := i.Lower().At().RoundTo(step, measure.Up)
			for _, at := range []measure.Length{first, first.Add(step)} {
				if i.Contains(at) && !at.Overflowed() {
					t.Fatalf("%v by %v holds %v, and inward is empty", i, step, at)
				}
			}
			return
		}
		for _, end := range []struct {
			got, of measure.Bound
			out     measure.Length
		}{{in.Lower(), i.Lower(), step.Neg()}, {in.Upper(), i.Upper(), step}} {
			if end.got.Bounded() != end.of.Bounded() {
				t.Fatalf("%v inward is %v", i, in)
			}
			at := end.got.At()
			if !end.got.Bounded() || at.Add(end.out).Overflowed() {
				continue
			}
			if !end.got.Closed() || !i.Contains(at) || at.RoundTo(step, measure.Down) != at || i.Contains(at.Add(end.out)) {
				t.Fatalf("%v by %v inward is %v", i, step, in)
			}
		}
	})
}

// What is printed is read as an exact fraction, so that the check owes nothing to the rounding of the printer.
func TestNoPrintedLimitLies(t *testing.T) {
	units := []struct {
		name   string
		pm     int64
		format func(measure.Interval, int) (string, string, bool)
	}{
		{"mm", 1e9, measure.Interval.FormatMillimetres},
		{"in", 25.4e9, measure.Interval.FormatInches},
	}
	rapid.Check(t, func(t *rapid.T) {
		i, decimals := anyInterval(t), rapid.IntRange(0, 9).Draw(t, "decimals")
		unit := rapid.SampledFrom(units).Draw(t, "unit")
		lower, upper, ok := unit.format(i, decimals)
		last := new(big.Rat).SetFrac(big.NewInt(unit.pm), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(decimals)), nil))
		within := func(pm *big.Rat) bool {
			if i.Empty() {
				return false
			}
			from, to := pm.Cmp(new(big.Rat).SetInt64(i.Lower().At().Picometres())), pm.Cmp(new(big.Rat).SetInt64(i.Upper().At().Picometres()))
			return (!i.Lower().Bounded() || from > 0 || from == 0 && i.Lower().Closed()) &&
				(!i.Upper().Bounded() || to < 0 || to == 0 && i.Upper().Closed())
		}
		if !ok {
			if lower != "" || upper != "" {
				t.Fatalf("%v is printed %q to %q, and said not to be", i, lower, upper)
			}
			if i.Empty() {
				return
			}
			// No multiple of the last decimal lies within: neither the first at or above the lower end nor the one after it.
			steps := new(big.Rat).Quo(new(big.Rat).SetInt64(i.Lower().At().Picometres()), last)
			floor := new(big.Int).Div(steps.Num(), steps.Denom())
			for k := range int64(3) {
				n := new(big.Rat).SetInt(new(big.Int).Add(floor, big.NewInt(k)))
				if within(n.Mul(n, last)) {
					t.Fatalf("%v holds a size of %d decimals in %s, and none is printed", i, decimals, unit.name)
				}
			}
			return
		}
		for _, end := range []struct {
			text string
			of   measure.Bound
			out  int64
		}{{lower, i.Lower(), -1}, {upper, i.Upper(), 1}} {
			if (end.text != "") != end.of.Bounded() {
				t.Fatalf("%v is printed %q to %q", i, lower, upper)
			}
			if end.text == "" {
				continue
			}
			size, read := new(big.Rat).SetString(end.text)
			if !read {
				t.Fatalf("%q is no number", end.text)
			}
			size.Mul(size, new(big.Rat).SetInt64(unit.pm))
			out := new(big.Rat).Add(size, new(big.Rat).Mul(last, new(big.Rat).SetInt64(end.out)))
			if !within(size) || within(out) {
				t.Fatalf("%v is printed %q to %q %s", i, lower, upper, unit.name)
			}
		}
	})
}

func ExampleInterval_FormatMillimetres() {
	// Every hosel from 12.034 mm to just under 12.969 mm: a caliper that shows hundredths reads 12.04 to 12.96 on them.
	window := measure.NewInterval(measure.Including(measure.Micrometres(12_034)), measure.Excluding(measure.Micrometres(12_969)))
	fmt.Println(window.FormatMillimetres(2))
	fmt.Println(window.FormatInches(3))
	fmt.Println(window.Inward(measure.Micrometres(50)))
	// Output:
	// 12.04 12.96 true
	// 0.474 0.510 true
	// [12.05 mm, 12.95 mm]
}
