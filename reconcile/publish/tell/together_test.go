package tell_test

import (
	"testing"

	"example.com/seatline/reconcile/publish/tell"
)

func TestTogether(t *testing.T) {
	for _, tt := range []struct {
		parts []string
		want  string
	}{
		{[]string{"OW-M1-4"}, "OW-M1-4"},
		{[]string{"OW-M1-4", "OW-M1-5"}, "OW-M1-4, 5"},
		{[]string{"OW-M1-4", "OW-M1-5", "OW-M1-6", "OW-M1-7", "OW-M1-8", "OW-M1-9", "OW-M1-PW"}, "OW-M1-4 … PW"},
		{[]string{"OW-M1-4", "OW-M1-5", "OW-M1-PW", "KX 3", "KX 4"}, "OW-M1-4 … PW, KX 3, 4"},
		{[]string{"A1", "A2"}, "A1, A2"},
		{[]string{"A1", "B2", "C3", "D4", "E5"}, "A1, B2, C3 and 2 more"},
		{[]string{"H-100001", "H-100002"}, "H-100001, H-100002"},
		{[]string{"-4", "-5"}, "-4, -5"},
		{nil, ""},
	} {
		if got := tell.Together(tt.parts); got != tt.want {
			t.Errorf("Together(%q) = %q, want %q", tt.parts, got, tt.want)
		}
	}
}

func TestAreOneSet(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want bool
	}{{"OW-M1-4", "OW-M1-PW", true}, {"OW-M1-4", "OW-M2-4", false}, {"A1", "A2", false}, {"H-100001", "H-100002", false}} {
		if got := tell.AreOneSet(tt.a, tt.b); got != tt.want {
			t.Errorf("AreOneSet(%q, %q) = %v", tt.a, tt.b, got)
		}
	}
}
