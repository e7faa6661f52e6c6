package shop_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/pelletier/go-toml/v2"

	"example.com/seatline/examples/shop"
	"example.com/seatline/fitcalc/measure"
)

// TestFilesAreAllNamed sees that a caller that writes out the named files has the whole shop, and no name is wrong.
func TestFilesAreAllNamed(t *testing.T) {
	want := slices.Concat(shop.Heads(), shop.Ferrules(), shop.Tips(), shop.Readings(), []string{shop.Demand(), shop.Settings})
	slices.Sort(want)
	entries, err := fs.ReadDir(shop.Files(), ".")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, entry := range entries {
		got = append(got, entry.Name())
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// TestEncodings guards the suppliers' encodings against editors and version control.
func TestEncodings(t *testing.T) {
	tests := []struct {
		name string
		has  []byte
	}{
		{"osterwhin_heads_2026.xlsx", []byte("PK\x03\x04")},
		{"brackenfold_price_list.csv", []byte("\xef\xbb\xbfPart No.")},
		{"brackenfold_price_list.csv", []byte("(GBP)\r\n00412,")},
		{"varnhusen_koepfe.csv", []byte("Varnhusen Schl\xe4gerk\xf6pfe")},
		{"varnhusen_koepfe.csv", []byte("Au\xdfen-\xd8;")},
		// 编号 in GB 18030, where both signs have the codes they have in GB 2312.
		{"lantangling_2026.csv", []byte("\xb1\xe0\xba\xc5,")},
		{"fennimarsh_stock.tsv", []byte("\xff\xfeF\x00e\x00n\x00")},
		{"shop_tips.csv", []byte("Part,Description")},
	}
	for _, test := range tests {
		data, err := fs.ReadFile(shop.Files(), test.name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Contains(data, test.has) {
			t.Errorf("%s does not contain %q", test.name, test.has)
		}
	}
}

// TestSettings sees that the settings are TOML, and that its lengths have units.
func TestSettings(t *testing.T) {
	data, err := fs.ReadFile(shop.Files(), shop.Settings)
	if err != nil {
		t.Fatal(err)
	}
	var settings struct {
		Name          string                       `toml:"name"`
		Page          map[string]string            `toml:"page"`
		FlushStep     string                       `toml:"flush_step"`
		TurnLimit     string                       `toml:"turn_limit"`
		UndersizeRisk float64                      `toml:"undersize_risk"`
		House         map[string]map[string]string `toml:"house"`
		Suppliers     map[string]map[string]string `toml:"suppliers"`
	}
	if err := toml.NewDecoder(bytes.NewReader(data)).DisallowUnknownFields().Decode(&settings); err != nil {
		t.Fatal(err)
	}
	step, err := measure.ParseLength(settings.FlushStep)
	if err != nil {
		t.Error(err)
	}
	limit, err := measure.ParseLength(settings.TurnLimit)
	if err != nil {
		t.Error(err)
	}
	if step.Sign() <= 0 || !step.Less(limit) || settings.UndersizeRisk <= 0 || settings.UndersizeRisk >= 0.5 {
		t.Errorf("the settings make no shop: %+v", settings)
	}
	for category, sizes := range settings.House {
		for role, text := range sizes {
			if size, err := measure.ParseDim(text); err != nil || !size.HasLimits() {
				t.Errorf("house.%s.%s is %q: %v", category, role, text, err)
			}
		}
	}
}

func ExampleFiles() {
	data, err := fs.ReadFile(shop.Files(), shop.Tips()[0])
	if err != nil {
		fmt.Println(err)
		return
	}
	heading, _, _ := bytes.Cut(data, []byte("\n"))
	fmt.Println(string(heading))
	// Output: Part,Description,Tip OD (in),Taper (in per in),Parallel length (in)
}
