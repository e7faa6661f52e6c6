package measure_test

import (
	"encoding/json"
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
