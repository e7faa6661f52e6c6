package settings_test

import (
	"errors"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/settings"
)

func TestParse(t *testing.T) {
	s, err := settings.Parse("shop.toml", []byte(`
# how we work
name = "Harrow Lane Clubworks"
turn_limit = "1.2 mm"
undersize_risk = 0.02
minutes_to_fit = 2
countersink_angle = "90°"
`))
	if err != nil {
		t.Fatal(err)
	}
	if s.Name != "Harrow Lane Clubworks" || s.Lines["turn_limit"] != 4 {
		t.Errorf("name %q, line of turn_limit %d", s.Name, s.Lines["turn_limit"])
	}
	want := fitcalc.DefaultShop()
	want.TurnLimit = measure.Micrometres(1200)
	want.UndersizeRisk = 0.02
	want.MinutesToFit = 2
	want.CountersinkAngle = measure.Degrees(90)
	if s.Shop != want {
		t.Errorf("got %+v", s.Shop)
	}
}

func TestParseErrors(t *testing.T) {
	tests := []struct {
		name, content string
		line          int
		key, says     string
	}{
		{"unknown key", "flush_step = \".002 in\"\nturn_limits = \"1 mm\"\n", 2, "turn_limits", "did you mean turn_limit?"},
		{"unknown key, nothing near", "colour = \"red\"\n", 1, "colour", "the settings are flush_step"},
		{"words in another order", "limit_turn = \"1 mm\"\n", 1, "limit_turn", "turn_limit"},
		{"no unit", "turn_limit = \"1.0\"\n", 1, "turn_limit", "unit"},
		{"a number for a length", "\n\nturn_limit = 1.0\n", 3, "turn_limit", "as text with its unit"},
		{"negative", "turn_limit = \"-1 mm\"\n", 1, "turn_limit", "between 0 and"},
		{"percent as a whole number", "undersize_risk = 5\n", 1, "undersize_risk", "0.05"},
		{"not a number", "slip_risk = nan\n", 1, "slip_risk", "between 0 and 1"},
		{"infinite", "minutes_to_turn = inf\n", 1, "minutes_to_turn", "number"},
		{"contradiction", "least_clearance = \".01 in\"\n\nmost_clearance = \".005 in\"\n", 3, "most_clearance", "less than least_clearance"},
		{"table", "[limits]\nturn_limit = \"1 mm\"\n", 1, "limits", "no table"},
		{"list", "turn_limit = [\"1 mm\"]\n", 1, "turn_limit", "a text or a number"},
		{"syntax", "turn_limit = \n", 1, "", "shop.toml:1"},
		{"twice", "turn_limit = \"1 mm\"\nturn_limit = \"2 mm\"\n", 2, "turn_limit", "shop.toml:2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			refused(t, tt.content, tt.line, tt.key, tt.says)
		})
	}
}

// refused demands that settings are refused at that line and key, with an error that says a text.
func refused(t *testing.T, content string, line int, key, says string) {
	t.Helper()
	_, err := settings.Parse("shop.toml", []byte(content))
	var problem *settings.Error
	if !errors.As(err, &problem) {
		t.Fatalf("got %v, want a *settings.Error", err)
	}
	if problem.Line != line || problem.Key != key {
		t.Errorf("at line %d, key %q; want line %d, key %q", problem.Line, problem.Key, line, key)
	}
	if !strings.Contains(err.Error(), says) {
		t.Errorf("%q does not say %q", err, says)
	}
}

func TestParseReportsEveryProblem(t *testing.T) {
	_, err := settings.Parse("shop.toml", []byte("a = 1\nb = 2\n"))
	if text := err.Error(); !strings.Contains(text, "shop.toml:1: a:") || !strings.Contains(text, "shop.toml:2: b:") {
		t.Errorf("got %q", text)
	}
	var setting *fitcalc.SettingError
	if !errors.As(err, &setting) || !setting.Unknown {
		t.Errorf("the cause is not reachable in %v", err)
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte("turn_limit = \"1 mm\"\n"))
	f.Add([]byte("a.b.c = 1\n[x]\ny = {z = 1}\n"))
	f.Add([]byte("undersize_risk = 1_0.5\n"))
	f.Fuzz(func(t *testing.T, content []byte) {
		s, err := settings.Parse("shop.toml", content)
		if err == nil && s.Shop.Validate() != nil {
			t.Error("accepted a shop that is not valid")
		}
	})
}
