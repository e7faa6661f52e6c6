package layout

import "testing"

// TestCountsAsked: a number of pieces beside sizes is the stock where somebody asked how many there are, and a message with what is known of a part is
// one of the list, though it lacks a size.
func TestCountsAsked(t *testing.T) {
	for name, c := range map[string]struct {
		lines []string
		want  string
	}{
		"English": {
			[]string{"08:15 Ann: Hosel first, then the hole and how many there are", "08:31 Bob: HB-61 hosel 13.5 hole 9.5, 8 pcs", "08:33 Bob: HB-62 hosel 13.5 hole 9.06, eleven pieces",
				"08:34 Ann: so that is the taper one", "08:36 Bob: HB-64 hosel 13.2 hole 9.52, 3 pcs", "08:40 Bob: HB-70 hole 9.5, 1 pc. Can't get at the hosel"},
			"HB-61: hosel_od=13.5 bore=9.5 stock=8; HB-62: hosel_od=13.5 bore=9.06 stock=11; HB-64: hosel_od=13.2 bore=9.52 stock=3; HB-70: bore=9.5 stock=1 description=Can't get at the hosel",
		},
		"Italian": {
			[]string{"10:05 Ida: prima il foro, poi la base e quante ce ne sono", "10:15 Eva: GT-12 foro 9,3 base 13,6, 14 pezzi", "10:17 Eva: GT-14 foro 9,3 base 13,9, solo 2 pezzi", "10:18 Eva: GT-15 foro 8,9 base 13,5, 4 pz"},
			"GT-12: bore=9,3 base_od=13,6 stock=14; GT-14: bore=9,3 base_od=13,9 stock=2; GT-15: bore=8,9 base_od=13,5 stock=4",
		},
		"German": {
			[]string{"10:05 Udo: außen, Loch und wie viele es sind", "10:15 Eva: GT-12 außen 13,5 Loch 9,5, 14 Stück", "10:17 Eva: GT-14 außen 13,5 Loch 9,5, 2 Stk", "10:18 Udo: gut", "10:19 Eva: GT-15 Loch 9,5", "10:20 Eva: GT-16 außen 13,5 Loch 9,1, drei Stück"},
			"GT-12: hosel_od=13,5 bore=9,5 stock=14; GT-14: hosel_od=13,5 bore=9,5 stock=2; GT-15: bore=9,5; GT-16: hosel_od=13,5 bore=9,1 stock=3",
		},
		"nobody asked": {
			[]string{"Dear Ann,", "HB-61 hosel 13.5 hole 9.5, 8 pcs", "HB-62 hosel 13.5 hole 9.06, 10 pcs", "HB-64 hosel 13.2 hole 9.52, 8 pcs"},
			"HB-61: hosel_od=13.5 bore=9.5 description=8 pcs; HB-62: hosel_od=13.5 bore=9.06 description=10 pcs; HB-64: hosel_od=13.2 bore=9.52 description=8 pcs",
		},
		"how many are wanted": {
			[]string{"Tell me how many you want of each.", "HB-61 hosel 13.5 hole 9.5, 8 pcs", "HB-62 hosel 13.5 hole 9.06, 10 pcs", "HB-64 hosel 13.2 hole 9.52, 8 pcs"},
			"HB-61: hosel_od=13.5 bore=9.5 description=8 pcs; HB-62: hosel_od=13.5 bore=9.06 description=10 pcs; HB-64: hosel_od=13.2 bore=9.52 description=8 pcs",
		},
	} {
		if got := spokenParts(c.lines...); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, c.want)
		}
	}
}
