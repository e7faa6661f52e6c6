package value

import "testing"

// TestMoney: prices as shops of many countries write them.
func TestMoney(t *testing.T) {
	for text, want := range map[string]float64{
		"Rs.15/-": 15, "Rs. 15/-": 15, "Rs.1,250.50": 1250.5, "USD.85": 0.85, "15/=": 15,
		"12:50": 12.5, "12:50 kr": 12.5, "12:-": 12, "12€50": 12.5, "1'250.00": 1250, "CHF 1’250.–": 1250, "12,-": 12,
		"2.5k": 2500, "1.2万元": 12000, "38千": 38000, "3만": 30000, "¥1.5万": 15000, "2,5 tis. Kč": 2500, "12 kr": 12, "12 each": 12,
		"Rp 12.500": 12500, "₩38,000": 38000,
	} {
		r := Read(text, Context{Want: WantPrice})
		if r.Kind != Number || r.Number < want-1e-9 || r.Number > want+1e-9 {
			t.Errorf("%q: %s %g %v, want %g", text, r.Kind, r.Number, r.Problem, want)
		}
	}
}

// TestMultipliedCounts: what multiplies a number in a count does so too, and no other word does.
func TestMultipliedCounts(t *testing.T) {
	for text, want := range map[string]float64{"1.2万": 12000, "2k": 2000, "3千个": 3000, "12 kg": 12, "40 pcs": 40} {
		r := Read(text, Context{Want: WantCount})
		if r.Kind != Number || r.Number != want {
			t.Errorf("%q: %s %g %v, want %g", text, r.Kind, r.Number, r.Problem, want)
		}
	}
}
