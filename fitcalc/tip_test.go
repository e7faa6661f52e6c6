package fitcalc

import (
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"example.com/seatline/fitcalc/measure"
)

// Half-inch stations of a tip with a bulge: .350 in, .380 in at .5 in, .360 in at 1 in and from there on.
func bulge(t testing.TB) Tip {
	p := &parts{t: t}
	p.profile(".001 in", "0 mm", ".350 in", ".5 in", ".380 in", "1 in", ".360 in")
	return p.tip
}

func TestTipDiameter(t *testing.T) {
	taper := TaperTip(dim(t, ".355 ±.001 in"), measure.TaperPPB(7_500_000))
	tests := []struct {
		name string
		tip  Tip
		at   string
		want string
	}{
		{"parallel", ParallelTip(dim(t, ".370 ±.001 in")), "3 in", ".370 ±.001 in"},
		{"parallel, trimmed", ParallelTip(dim(t, ".370 ±.001 in")).Trim(long(t, "1 in")), "3 in", ".370 ±.001 in"},
		{"taper at its end", taper, "0 mm", ".355 ±.001 in"},
		{"taper, two inches up", taper, "2 in", ".370 ±.001 in"},
		{"taper, trimmed by one inch", taper.Trim(long(t, "1 in")), "1 in", ".370 ±.001 in"},
		{"taper, trimmed twice", taper.Trim(long(t, ".25 in")).Trim(long(t, ".75 in")), "0 mm", ".3625 ±.001 in"},
		{"profile at its end", bulge(t), "0 mm", ".350 ±.001 in"},
		{"profile between stations", bulge(t), ".25 in", ".365 ±.001 in"},
		{"profile at a station", bulge(t), ".5 in", ".380 ±.001 in"},
		{"profile on the way down", bulge(t), ".75 in", ".370 ±.001 in"},
		{"profile beyond the last", bulge(t), "9 in", ".360 ±.001 in"},
		{"profile trimmed", bulge(t).Trim(long(t, ".25 in")), ".25 in", ".380 ±.001 in"},
		{"profile below the end", bulge(t), "-1 in", ".350 ±.001 in"},
	}
	for _, test := range tests {
		if got, want := test.tip.Diameter(long(t, test.at)), dim(t, test.want); got != want {
			t.Errorf("%s at %s: %v, want %v", test.name, test.at, got, want)
		}
	}
}

func TestTipTells(t *testing.T) {
	tip := TaperTip(dim(t, ".355 in"), measure.TaperPPB(7_500_000)).Trim(measure.Millimetres(3))
	if tip.Form() != TipTapered || tip.Taper().PPB() != 7_500_000 || tip.Trimmed() != measure.Millimetres(3) {
		t.Errorf("%v %v %v", tip.Form(), tip.Taper(), tip.Trimmed())
	}
}

// TestProfileIsACopy: a tip does not change with the stations it was made from.
func TestProfileIsACopy(t *testing.T) {
	stations := []Station{{measure.Length{}, measure.Millimetres(9)}}
	tip, err := ProfileTip(measure.Length{}, stations...)
	if err != nil {
		t.Fatal(err)
	}
	stations[0].Diameter = measure.Millimetres(5)
	if got := tip.Diameter(measure.Length{}).Nominal(); got != measure.Millimetres(9) {
		t.Errorf("the tip is %v now", got)
	}
}

func TestWidest(t *testing.T) {
	tip := bulge(t)
	for _, test := range []struct{ from, to, want string }{
		{"0 mm", ".25 in", ".365 in"},
		{"0 mm", "1 in", ".380 in"},   // the station between
		{".75 in", "2 in", ".370 in"}, // it narrows
		{"1 in", "2 in", ".360 in"},
	} {
		if got := tip.widest(long(t, test.from), long(t, test.to)); got != long(t, test.want) {
			t.Errorf("%s to %s: %v, want %s", test.from, test.to, got, test.want)
		}
	}
}

// TestTrimmedProfile: trimming moves the stations down.
func TestTrimmedProfile(t *testing.T) {
	tip := bulge(t).Trim(long(t, ".25 in"))
	zero, half, inch := measure.Length{}, long(t, ".5 in"), long(t, "1 in")
	if got := tip.widest(zero, half); got != long(t, ".380 in") {
		t.Errorf("the bulge is now at a quarter of an inch, but the widest below half an inch is %v", got)
	}
	if got := tip.widest(long(t, ".4 in"), inch); got != long(t, ".374 in") { // .380 − .15 × .040
		t.Errorf("above the bulge it is %v", got)
	}
	if got := tip.lengthAbove(long(t, ".365 in"), zero, inch); got != long(t, ".625 in") {
		t.Errorf("it is above .365 in over %v", got)
	}
}

func TestLengthAbove(t *testing.T) {
	tip := bulge(t)
	for _, test := range []struct{ bore, from, to, want string }{
		// up from .350 to .380 over .5 in, down to .360 over another: .365 is passed at .25 in and at .875 in
		{".365 in", "0 mm", "2 in", ".625 in"},
		{".365 in", ".5 in", "2 in", ".375 in"},
		{".380 in", "0 mm", "2 in", "0 mm"},     // touched at one place only
		{".360 in", "1 in", "2 in", "0 mm"},     // as wide as the bore is no grip
		{".355 in", "1 in", "2 in", "1 in"},     // everywhere
		{".368 in", ".25 in", ".5 in", ".2 in"}, // from .3 in, at .060 in per inch
	} {
		if got := tip.lengthAbove(long(t, test.bore), long(t, test.from), long(t, test.to)); got != long(t, test.want) {
			t.Errorf("%s from %s to %s: %v, want %s", test.bore, test.from, test.to, got, test.want)
		}
	}
}

// Tips go through JSON and come back the same, and what is no tip is an error that leaves the tip alone.
func TestTipAsJSON(t *testing.T) {
	taper := TaperTip(dim(t, ".355 ±.001 in"), measure.TaperPPB(7_500_000))
	for _, want := range []Tip{
		{}, ParallelTip(dim(t, ".370 in")), ParallelTip(dim(t, "9.4 ±0.02 mm").WithShape(measure.Uniform)).Trim(long(t, "1 in")),
		taper, taper.Trim(long(t, ".5 in")), TaperTip(dim(t, ".355 in"), measure.Taper{}), bulge(t), bulge(t).Trim(long(t, ".25 in")),
		taper.UpTo(long(t, ".365 in")), UsualTaperTip(dim(t, ".355 in")), UsualTaperTip(dim(t, ".355 in")).UpTo(long(t, ".372 in")).Trim(long(t, "1 in")),
	} {
		text, err := json.Marshal(want)
		got := taper
		if err2 := json.Unmarshal(text, &got); err != nil || err2 != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s comes back as %+v: %v, %v", text, got, err, err2)
		}
	}
	var got Tip
	if err := json.Unmarshal([]byte(`{"form": "taper", "diameter": ".355 ±.001 in", "taper": "0.0075 in/in"}`), &got); err != nil || !reflect.DeepEqual(got, taper) {
		t.Errorf("written by hand: %+v, %v", got, err)
	}
	for _, text := range []string{
		`{}`, `{"diameter": ".370 in"}`, `{"form": "parallel"}`, `{"form": "parallel", "diameter": "-1 mm"}`,
		`{"form": "taper"}`, `{"form": "taper", "diameter": ".355 in", "to": ".350 in"}`, `{"form": "taper", "diameter": ".355 in", "to": "355 in"}`,
		`{"form": "parallel", "diameter": ".355 in", "to": ".370 in"}`, `{"form": "parallel", "diameter": ".355 in", "taper": "0.0075 in/in"}`,
		`{"form": "taper", "diameter": ".355 in", "taper": "-0.0075 in/in"}`,
		`{"form": "profile", "diameter": ".355 in"}`, `{"form": "parallel", "diameter": ".355 in", "stations": [{"at": "0 mm", "diameter": ".355 in"}]}`,
		`{"form": "profile", "stations": [{"at": "1 mm", "diameter": ".355 in"}]}`,
		`{"form": "profile", "diameter": ".350 in", "stations": [{"at": "0 mm", "diameter": ".355 in"}]}`,
		`{"form": "parallel", "diameter": ".370 in", "trimmed": "-1 mm"}`,
	} {
		got := taper
		var input *InputError
		if err := json.Unmarshal([]byte(text), &got); !errors.As(err, &input) || !reflect.DeepEqual(got, taper) {
			t.Errorf("%s: %v, %+v", text, err, got)
		}
	}
	for _, text := range []string{`{"form": "conical", "diameter": ".370 in"}`, `{"form": "parallel", "diameter": "370"}`, `[]`, `{`} {
		got := taper
		if err := json.Unmarshal([]byte(text), &got); err == nil || !reflect.DeepEqual(got, taper) {
			t.Errorf("%s: %v, %+v", text, err, got)
		}
	}
	profile := []byte(`{"form": "profile", "stations": [{"at": "0 mm", "diameter": ".350 in"}, {"at": "1 in", "diameter": ".360 in"}]}`)
	if err := json.Unmarshal(profile, &got); err != nil || got.Diameter(long(t, ".5 in")) != dim(t, ".355 in") {
		t.Errorf("a profile without limits: %+v, %v", got, err)
	}
}

// Whatever is read as a tip is one that can be, and is written and read again the same.
func FuzzTipJSON(f *testing.F) {
	for _, seed := range []string{
		`null`, `{}`, `{"form":"parallel","diameter":".370 in"}`, `{"form":"taper","diameter":{"nominal":"9 mm","lower":"8.9 mm","upper":"9.1 mm"},"taper":"0.0075 in/in","trimmed":"1 in"}`,
		`{"form":"taper","diameter":".355 in"}`, `{"form":"taper","diameter":".355 in","taper":"0.0075 in/in","to":".370 in"}`,
		`{"form":"profile","diameter":"9 ±0.02 mm","stations":[{"at":"0 mm","diameter":"9 mm"},{"at":"10 mm","diameter":"9.3 mm"}]}`,
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var tip, back Tip
		if json.Unmarshal([]byte(text), &tip) != nil {
			return
		}
		if err := tip.Validate(); err != nil {
			t.Fatalf("%s is read, and is no tip: %v", text, err)
		}
		written, err := json.Marshal(tip)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(written, &back); err != nil || !reflect.DeepEqual(back, tip) {
			t.Fatalf("%s is written as %s, which is %+v, %v", text, written, back, err)
		}
	})
}
