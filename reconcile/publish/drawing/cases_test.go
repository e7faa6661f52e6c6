package drawing_test

import (
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/joint"
	"example.com/seatline/reconcile/publish/drawing"
)

// cases are joints of every form that a drawing has to show.
var cases = []struct{ name, text string }{
	{"flush", `{"head":{"hosel_od":".500 in ±.001","bore":".373 in","bore_depth":"1.25 in","top":"flat"},"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":".5005 in ±.001","top_od":".400 in","length":"1/2 in","style":"plain"}}`},
	{"heavy-turn-down", `{"head":{"hosel_od":"12.2 mm","bore":"9.5 mm","bore_depth":"32 mm","top":"flat"},"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":"12.95 mm","length":"1 in","style":"plain"}}`},
	{"collar-stands-off", `{"head":{"hosel_od":"13.6 mm","bore":"9.5 mm","bore_depth":"32 mm","countersink_mouth":"10.4 mm","countersink_angle":"60°","top":"countersunk"},"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":"13.75 mm","length":"13 mm","collar_od":"10.2 mm","collar_length":"1.2 mm","style":"collared"}}`},
	{"stepped-with-recess", `{"head":{"hosel_od":"13.6 mm","bore":"9.5 mm","bore_depth":"36 mm","counterbore":"10.6 mm","counterbore_depth":"3 mm","top":"counterbored"},"tip":".370 in parallel","ferrule":{"bore":".368 in","base_od":"13.75 mm","length":"20 mm","step_od":"10.3 mm","step_length":"2.4 mm","style":"stepped","rings":2,"ring_depth":".5 mm","ring_height":"4 mm"}}`},
	{"taper-tip", `{"head":{"hosel_od":".535 in","bore":".358 in","bore_depth":"1.5 in","bore_form":"taper","top":"flat"},"tip":".355 in taper","ferrule":{"bore":".368 in","base_od":".545 in","length":"1/2 in","style":"plain"}}`},
	{"undersize", `{"head":{"hosel_od":".540 in","bore":".373 in","bore_depth":"1.25 in","top":"flat"},"tip":".370 in parallel","ferrule":{"bore":".371 in","base_od":".528 in","length":"5/8 in","style":"plain"}}`},
	{"profile", `{"head":{"hosel_od":".500 in","top":"flat"},"tip":"0: .335 in, 1 in: .350 in, 2 in: .350 in","ferrule":{"bore":".348 in","base_od":".508 in","length":"1.75 in","style":"plain"}}`},
	{"shallow-bore", `{"head":{"hosel_od":"13.6 mm","bore":"9.5 mm","bore_depth":"8 mm","countersink_mouth":"11 mm","countersink_depth":"1.5 mm"},"tip":"9.4 mm parallel","ferrule":{"bore":"9.35 mm","base_od":"14 mm","length":"8 mm","style":"plain"}}`},
}

func section(t testing.TB, text string) *drawing.Section {
	t.Helper()
	shop := fitcalc.DefaultShop()
	line, err := joint.ParseJSON([]byte(text), &shop)
	if err != nil {
		t.Fatal(err)
	}
	j := line.Joint
	fit, err := fitcalc.Evaluate(j.Head, j.Tip, j.Ferrule, shop)
	if err != nil {
		t.Fatal(err)
	}
	s, err := drawing.Of(j, fit, shop)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
