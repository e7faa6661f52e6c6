package fitcalc

import (
	"flag"
	"testing"

	"example.com/seatline/fitcalc/measure"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// Update is set where the golden files are to be written anew.
func Update() bool { return *update }

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

// SentenceCases are joints that between them give every code and every turn that a sentence takes.
func SentenceCases(t *testing.T, each func(name string, fit *Fit)) {
	one := func(name string, change func(*parts)) {
		p := soundParts(t)
		change(p)
		fit := p.evaluate()
		each(name, &fit)
	}
	for _, c := range codeCases {
		one(c.code.String()+", "+c.name, c.with)
	}
	for _, c := range wordCases {
		one(c.name, c.change)
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
