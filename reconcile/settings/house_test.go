package settings

import (
	"errors"
	"strings"
	"testing"
)

func TestHouse(t *testing.T) {
	s, err := Parse("shop.toml", []byte("name = \"Harrow Lane\"\n\n[house.iron]\nhosel_od = \"13.0 mm ±0.1\"\nbore = \"9.50 mm +0.05/-0\"\n\n[house.ferrule]\nbore = \".368 in ±.001\"\n"))
	if err != nil {
		t.Fatal(err)
	}
	if od, found := s.House.Of("iron", "hosel_od"); !found || od.Line != 4 || od.Size.String() != "13 ±0.1 mm" {
		t.Errorf("hosel OD %+v, %v", od, found)
	}
	if bore, found := s.House.Of(FerruleStandards, "bore"); !found || bore.Line != 8 || bore.Size.Nominal().Inches() != 0.368 {
		t.Errorf("bore %+v, %v", bore, found)
	}
	if _, found := s.House.Of("driver", "hosel_od"); found {
		t.Error("a size of drivers came from nowhere")
	}
	inline, err := Parse("shop.toml", []byte("house.iron.hosel_od = \"13.0 mm ±0.1\"\n"))
	if err != nil || len(inline.House) != 1 {
		t.Errorf("%+v, %v", inline.House, err)
	}
}

func TestHouseRefuses(t *testing.T) {
	for name, test := range map[string]struct {
		text, want string
		line       int
	}{
		"no such club":  {"[house.spoon]\nhosel_od = \"13 mm ±0.1\"", "there is no table of this name", 1},
		"no such size":  {"[house.iron]\nhosel_do = \"13 mm ±0.1\"", "did you mean hosel_od?", 2},
		"of a ferrule":  {"[house.ferrule]\nhosel_od = \"13 mm ±0.1\"", "the sizes are bore, base_od, top_od, length", 2},
		"a bare number": {"[house.iron]\nhosel_od = 13.0", "is not a text", 2},
		"no unit":       {"[house.iron]\nhosel_od = \"13.0 ±0.1\"", "unit", 2},
		"no limits":     {"[house.iron]\nhosel_od = \"13.0 mm\"", "has no limits", 2},
		"negative":      {"[house.iron]\nhosel_od = \"-13.0 mm ±0.1\"", "no size of a part", 2},
		"no category":   {"house.hosel_od = \"13 mm ±0.1\"", "no kind of club", 1},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Parse("shop.toml", []byte(test.text))
			var problem *Error
			if !errors.As(err, &problem) || problem.Line != test.line || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want %q on line %d", err, test.want, test.line)
			}
		})
	}
}
