package fitcalc

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/measure"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// wordCases are joints whose sentences take a turn that no case of codeCases shows.
var wordCases = []struct {
	name   string
	change func(*parts)
}{
	{"nominally equal", func(p *parts) { p.ferrule.BaseOD = p.dim(".500 ±.001 in") }},
	{"nominally equal, and too rough", func(p *parts) { p.ferrule.BaseOD = p.dim(".500 ±.006 in") }},
	{"smaller and still flush", func(p *parts) { p.ferrule.BaseOD = p.dim(".4995 ±.001 in") }},
	{"larger and undersize", func(p *parts) { p.ferrule.BaseOD = p.dim(".5005 ±.008 in") }},
	{"turning in sixty-fourths", func(p *parts) { p.ferrule.BaseOD, p.ferrule.Length = p.dim(".515625 ±.001 in"), p.dim("1.875 in") }},
	{"loose on the tip", func(p *parts) { p.ferrule.Bore = p.dim(".375 ±.0005 in") }},
	{"stretched by just over the limit", func(p *parts) { p.ferrule.Bore = p.dim(".3627 ±.0005 in") }},
	{"holds on a length that is not known", func(p *parts) { p.ferrule.Length = measure.Dim{} }},
	{"no wall", func(p *parts) { p.thinHosel(".3715 ±.001 in"); p.head.Bore = measure.Dim{} }},
	{"step into nothing", func(p *parts) { p.step(".42 in", "7/32 in") }},
	{"collar in some joints", func(p *parts) { p.countersunk(".430 ±.001 in"); p.collar(".385 in", ".042 in") }},
	{"collar in few joints", func(p *parts) {
		p.countersunk(".4301 ±.001 in")
		p.collar(".385 ±.001 in", ".0389 ±.012 in")
	}},
	{"collar, hosel not given", func(p *parts) { p.collar(".385 in", ".030 in"); p.head.HoselOD = measure.Dim{} }},
	{"collar, wall not left", func(p *parts) { p.collar(".455 in", ".060 in") }},
	{"bore narrower than the tip", func(p *parts) { p.head.Bore = p.dim(".368 ±.001 in") }},
	{"recess as deep as the bore", func(p *parts) {
		p.counterbored(".44 in", ".8 in")
		p.head.BoreDepth = p.dim(".8 in")
		p.step(".42 in", ".79 in")
	}},
	{"neck of a wood", func(p *parts) { p.head.NeckTop = p.dim("5-1/64 in") }},
	{"nothing given", func(p *parts) { p.head, p.tip, p.ferrule = Head{}, Tip{}, Ferrule{} }},
}

// TestSentences holds the wording of every reason and assumption, in all units, against testdata/sentences.golden.
func TestSentences(t *testing.T) {
	var b strings.Builder
	written := map[string]bool{} // each sentence stands once
	write := func(name string, change func(*parts)) {
		p := soundParts(t)
		change(p)
		fit := p.evaluate()
		fmt.Fprintf(&b, "%s: %v\n", name, fit.Verdict)
		for r := range fit.Reasons() {
			if written[r.Sentence(Metric)] {
				continue
			}
			written[r.Sentence(Metric)] = true
			fmt.Fprintf(&b, "  %v\n", r.Code)
			for _, u := range []Units{Metric, Imperial, Fractions} {
				fmt.Fprintf(&b, "    %-4v %s\n", u, r.Sentence(u))
			}
		}
		for a := range fit.Assumptions.All() {
			fmt.Fprintf(&b, "  assumes %s: %v\n", a.Code(), a)
		}
		b.WriteString("\n")
	}
	for _, c := range codeCases {
		write(c.code.String()+", "+c.name, c.with)
	}
	for _, c := range wordCases {
		write(c.name, c.change)
	}
	golden := filepath.Join("testdata", "sentences.golden")
	if *update {
		if err := os.WriteFile(golden, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(b.String(), "\n")); diff != "" {
		t.Errorf("run go test -run Sentences -update when the new wording is meant (-want +got):\n%s", diff)
	}
}

func TestEveryCodeHasASentence(t *testing.T) {
	for code := NoCode + 1; code.String() != ""; code++ {
		if s := (Reason{Code: code}).Sentence(Metric); s == code.String() || s == "" {
			t.Errorf("%v has no sentence", code)
		}
	}
	for _, code := range []Code{NoCode, 200} {
		if s := (Reason{Code: code}).Sentence(Metric); s != "" {
			t.Errorf("code %d reads %q", code, s)
		}
	}
}

// TestSentencesNameNoZeroTheyDoNotKnow: the wall left by a cut is not told where the hosel OD is not given.
func TestSentencesNameNoZeroTheyDoNotKnow(t *testing.T) {
	p := soundParts(t)
	p.collar(".385 in", ".030 in")
	p.head.HoselOD = measure.Dim{}
	fit := p.evaluate()
	r, found := reasonOf(&fit, SeatCollarHigh)
	if !found || strings.Contains(r.Sentence(Metric), "wall") {
		t.Errorf("%v %q", found, r.Sentence(Metric))
	}
}

func TestPercent(t *testing.T) {
	for share, want := range map[float64]string{
		0: "0%", -1: "0%", 1e-9: "under 0.1%", .00099: "under 0.1%", .001: "0.1%", .0123: "1.2%", .05: "5%", .0997: "10%",
		.104: "10%", .5: "50%", .989: "99%", .991: "99.1%", .9949: "99.5%", .9987: "99.9%", .9991: "over 99.9%", 1: "100%", 1.5: "150%",
	} {
		if got := percent(share); got != want {
			t.Errorf("%v is written %s, want %s", share, got, want)
		}
	}
	for strain, want := range map[float64]string{.02: "2%", .0204: "2.04%", .0196: "1.96%", .1: "10%", 0: "0%"} {
		if got := stretch(strain); got != want {
			t.Errorf("a strain of %v is written %s, want %s", strain, got, want)
		}
	}
}

func TestShow(t *testing.T) {
	tests := []struct{ size, metric, imperial, fraction string }{
		{"12.7 mm", "12.70 mm (.500 in)", ".500 in (12.70 mm)", `1/2" (12.70 mm)`},
		{"-.012 in", "-0.305 mm (-.012 in)", "-.012 in (-0.305 mm)", "-.012 in (-0.305 mm)"},
		{"1.25 in", "31.75 mm (1.250 in)", "1.250 in (31.75 mm)", `1-1/4" (31.75 mm)`},
		{"0 mm", "0.00 mm (.000 in)", ".000 in (0.00 mm)", `0" (0.00 mm)`},
		{".00001 in", "under 0.001 mm (under .0001 in)", "under .0001 in (under 0.001 mm)", "under .0001 in (under 0.001 mm)"},
		{".0125 in", "0.318 mm (.0125 in)", ".0125 in (0.318 mm)", ".0125 in (0.318 mm)"},
		{"127 mm", "127.00 mm (5.000 in)", "5.000 in (127.00 mm)", `5" (127.00 mm)`},
	}
	for _, test := range tests {
		l := long(t, test.size)
		if got := Metric.Show(l); got != test.metric || Metric.ShowLength(l) != got {
			t.Errorf("%s in mm: %s", test.size, got)
		}
		if got := Imperial.Show(l); got != test.imperial || Imperial.ShowLength(l) != got || Fractions.Show(l) != got {
			t.Errorf("%s in inches: %s", test.size, got)
		}
		if got := Fractions.ShowLength(l); got != test.fraction {
			t.Errorf("%s in fractions: %s, want %s", test.size, got, test.fraction)
		}
	}
}
