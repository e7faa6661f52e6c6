package press_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc/press"
)

// properties lists what a material may have, with bounds no solid of this table can leave.
func properties(m press.Material) map[string]struct {
	press.Property
	least, most float64
} {
	type row = struct {
		press.Property
		least, most float64
	}
	return map[string]row{
		"YoungModulusMPa": {m.YoungModulusMPa, 500, 250_000},
		"Poisson":         {m.Poisson, 0.2, 0.45},
		"YieldMPa":        {m.YieldMPa, 15, 1500},
		"YieldStrain":     {m.YieldStrain, 0.01, 0.1},
		"ExpansionPerK":   {m.ExpansionPerK, 5e-6, 20e-5},
		"DensityKgM3":     {m.DensityKgM3, 900, 9000},
		"FrictionOnSteel": {m.FrictionOnSteel, 0.04, 0.6},
		"DeflectionC":     {m.DeflectionC, 50, 200},
		"MaxServiceC":     {m.MaxServiceC, 40, 200},
	}
}

func TestEveryPropertyHasARangeAndASource(t *testing.T) {
	for _, m := range press.Materials() {
		for name, p := range properties(m) {
			if !p.Given() {
				if p.Property != (press.Property{}) {
					t.Errorf("%s: %s is not given and yet %+v", m.Name, name, p.Property)
				}
				continue
			}
			if p.Source == "" || p.Least > p.Value || p.Value > p.Most {
				t.Errorf("%s: %s = %+v", m.Name, name, p.Property)
			}
			if p.Least < p.least || p.Most > p.most {
				t.Errorf("%s: %s = %+v is outside %g to %g", m.Name, name, p.Property, p.least, p.most)
			}
			if (p.Basis == press.FromMemory) != strings.HasPrefix(p.Source, "from memory") {
				t.Errorf("%s: %s is %v, source %q", m.Name, name, p.Basis, p.Source)
			}
		}
	}
}

// Values copied from the sources a second time, so that a slip in the table shows: Springer Handbook of Condensed
// Matter and Materials Data, table 3.3-23; Plascams data for cellulose acetate; Dowling, table 4.3; Engineering
// Plastics Handbook, table 5.5; Hibbeler, appendix.
func TestPublishedValues(t *testing.T) {
	type ranges struct{ Least, Most float64 }
	for _, c := range []struct {
		name     string
		property func(press.Material) press.Property
		want     ranges
	}{
		{"cellulose acetate", func(m press.Material) press.Property { return m.YoungModulusMPa }, ranges{1000, 3000}},
		{"cellulose acetate", func(m press.Material) press.Property { return m.YieldMPa }, ranges{25, 55}},
		{"cellulose acetate", func(m press.Material) press.Property { return m.YieldStrain }, ranges{0.025, 0.04}},
		{"cellulose acetate", func(m press.Material) press.Property { return m.ExpansionPerK }, ranges{10e-5, 12e-5}},
		{"cellulose acetate", func(m press.Material) press.Property { return m.DensityKgM3 }, ranges{1260, 1320}},
		{"cellulose acetate", func(m press.Material) press.Property { return m.DeflectionC }, ranges{60, 60}},
		{"cellulose acetate", func(m press.Material) press.Property { return m.MaxServiceC }, ranges{60, 60}},
		{"CAB", func(m press.Material) press.Property { return m.YoungModulusMPa }, ranges{800, 2300}},
		{"CAB", func(m press.Material) press.Property { return m.YieldStrain }, ranges{0.035, 0.05}},
		{"CAB", func(m press.Material) press.Property { return m.ExpansionPerK }, ranges{10e-5, 15e-5}},
		{"ABS", func(m press.Material) press.Property { return m.YoungModulusMPa }, ranges{2100, 2800}},
		{"ABS", func(m press.Material) press.Property { return m.YieldMPa }, ranges{34, 50}},
		{"ABS", func(m press.Material) press.Property { return m.DeflectionC }, ranges{90, 104}},
		{"nylon 6", func(m press.Material) press.Property { return m.YoungModulusMPa }, ranges{2600, 3200}},
		{"POM-C", func(m press.Material) press.Property { return m.YieldMPa }, ranges{67, 67}},
		{"POM-H", func(m press.Material) press.Property { return m.YoungModulusMPa }, ranges{3000, 3000}},
		{"304", func(m press.Material) press.Property { return m.YoungModulusMPa }, ranges{193_000, 193_000}},
		{"304", func(m press.Material) press.Property { return m.YieldMPa }, ranges{207, 207}},
		{"Ti-6Al-4V", func(m press.Material) press.Property { return m.Poisson }, ranges{0.36, 0.36}},
		{"zinc", func(m press.Material) press.Property { return m.YieldMPa }, ranges{221, 221}},
	} {
		p := c.property(mustMaterial(t, c.name))
		if diff := cmp.Diff(c.want, ranges{p.Least, p.Most}); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
	// Unit conversions, by the definitions of inch and pound.
	near(t, "ABS, 53e-6 per °F", mustMaterial(t, "ABS").ExpansionPerK.Value, 53e-6*1.8, 5e-7)
	near(t, "nylon, 45e-6 per °F", mustMaterial(t, "PA6").ExpansionPerK.Value, 45e-6*1.8, 1e-12)
	near(t, "titanium, 16.5e6 psi", mustMaterial(t, "titanium").YoungModulusMPa.Least, 16.5e6*psi, 1)
	near(t, "titanium, 120 ksi", mustMaterial(t, "titanium").YieldMPa.Least, 120e3*psi, 0.5)
	const poundPerCubicInch = 0.45359237 / (0.0254 * 0.0254 * 0.0254)
	near(t, "titanium, 0.161 lb/in³", mustMaterial(t, "titanium").DensityKgM3.Most, 0.161*poundPerCubicInch, 1)
	near(t, "zinc, 0.24 lb/in³", mustMaterial(t, "zinc").DensityKgM3.Value, 0.24*poundPerCubicInch, 50)
	near(t, "steel, 30e6 psi", mustMaterial(t, "steel").YoungModulusMPa.Value, 30e6*psi, 1)
}

// Wrong numbers that are in circulation for cellulose acetate: thermal expansion 14e-6/K, ten times too low; glass
// transition at 230 °C, which is a melting figure; flexural modulus 8.3 to 27.6 GPa.
func TestAcetateIsNotTheWrongTable(t *testing.T) {
	ca := mustMaterial(t, "acetate")
	if ca.ExpansionPerK.Least < 8e-5 {
		t.Errorf("expansion %g per K", ca.ExpansionPerK.Least)
	}
	if ca.YoungModulusMPa.Most > 4000 {
		t.Errorf("modulus up to %g MPa", ca.YoungModulusMPa.Most)
	}
	if ca.DeflectionC.Most > 110 || ca.MaxServiceC.Most > 110 {
		t.Errorf("softens at %g °C, serves to %g °C", ca.DeflectionC.Most, ca.MaxServiceC.Most)
	}
}

func TestAbsentIsNotZero(t *testing.T) {
	for _, c := range []struct {
		name, property string
		get            func(press.Material) press.Property
	}{
		{"nylon 6", "FrictionOnSteel", func(m press.Material) press.Property { return m.FrictionOnSteel }}, // 0.32 is against itself
		{"cellulose acetate", "FrictionOnSteel", func(m press.Material) press.Property { return m.FrictionOnSteel }},
		{"ABS", "YieldStrain", func(m press.Material) press.Property { return m.YieldStrain }}, // 5 to 60 % is at break
		{"zinc die cast", "YoungModulusMPa", func(m press.Material) press.Property { return m.YoungModulusMPa }},
		{"17-4", "Poisson", func(m press.Material) press.Property { return m.Poisson }},
		{"CFRP", "YieldMPa", func(m press.Material) press.Property { return m.YieldMPa }},
	} {
		if c.get(mustMaterial(t, c.name)).Given() {
			t.Errorf("%s: %s is given", c.name, c.property)
		}
	}
	for name, property := range map[string]string{"zinc": "YoungModulusMPa", "17-4": "Poisson"} {
		_, err := mustMaterial(t, name).Elastic()
		var missing *press.MissingPropertyError
		if !errors.As(err, &missing) || missing.Property != property {
			t.Errorf("%s: %v", name, err)
		}
	}
	var missing *press.MissingPropertyError
	if _, err := (press.Material{}).Elastic(); !errors.As(err, &missing) || missing.Material == "" {
		t.Errorf("zero material: %v", err)
	}
}

func TestOwnMaterial(t *testing.T) {
	own := mustMaterial(t, "zinc")
	own.YoungModulusMPa = press.OwnValue(85_000, "short pull on the bench")
	e, err := own.Elastic()
	if want := (press.Elastic{YoungModulusMPa: 85_000, Poisson: 0.30}); err != nil || e != want {
		t.Errorf("got %+v, %v", e, err)
	}
	own.YoungModulusMPa = press.OwnValue(-1, "typed wrongly")
	_, err = own.Elastic()
	wantField(t, err, "zinc die cast.YoungModulusMPa")
}

func TestMaterialByName(t *testing.T) {
	for name, want := range map[string]string{
		"Cellulose Acetate": "cellulose acetate", "ca": "cellulose acetate", " cab ": "cellulose acetate butyrate",
		"pom_c": "POM copolymer", "acetal": "POM copolymer", "TI 6AL 4V": "Ti-6Al-4V", "17-4ph": "17-4 PH stainless steel",
	} {
		if got := mustMaterial(t, name).Name; got != want {
			t.Errorf("%q is %q, want %q", name, got, want)
		}
	}
	_, err := press.MaterialByName("unobtainium")
	var unknown *press.UnknownMaterialError
	if !errors.As(err, &unknown) || unknown.Name != "unobtainium" || len(unknown.Known) != len(press.Materials()) {
		t.Fatalf("got %v", err)
	}
	for _, m := range press.Materials() {
		if !strings.Contains(err.Error(), m.Name) {
			t.Errorf("%q does not list %s", err, m.Name)
		}
	}
	if _, err := press.MaterialByName(""); !errors.As(err, &unknown) {
		t.Errorf("empty name: %v", err)
	}
}

func TestNamesAreUnique(t *testing.T) {
	seen := map[string]string{}
	for _, m := range press.Materials() {
		for _, name := range append([]string{m.Name}, m.Aliases...) {
			if other, ok := seen[strings.ToLower(name)]; ok {
				t.Errorf("%q is both %s and %s", name, other, m.Name)
			}
			seen[strings.ToLower(name)] = m.Name
			if got := mustMaterial(t, name).Name; got != m.Name {
				t.Errorf("%q finds %s, want %s", name, got, m.Name)
			}
		}
	}
}

func TestTableIsACopy(t *testing.T) {
	first := press.Materials()
	first[0].Aliases[0], first[0].Name = "changed", "changed"
	if again := press.Materials()[0]; again.Name == "changed" || again.Aliases[0] == "changed" {
		t.Error("a caller can change the table for others")
	}
}
