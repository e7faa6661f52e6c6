package fitcalc

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

func TestDefaultShop(t *testing.T) {
	shop := DefaultShop()
	if err := shop.Validate(); err != nil || !shop.sound() {
		t.Errorf("the settings to start from cannot be: %v", err)
	}
	for i, field := range reflect.VisibleFields(reflect.TypeFor[Shop]()) {
		if reflect.ValueOf(shop).Field(i).IsZero() {
			t.Errorf("no setting sets %s", field.Name)
		}
	}
	if got, want := len(Settings()), reflect.TypeFor[Shop]().NumField(); got != want {
		t.Errorf("%d settings for %d fields", got, want)
	}
}

// The values that the trade starts from, from memory: common practice.
func TestDefaultsOfTheTrade(t *testing.T) {
	shop := DefaultShop()
	taper := UsualTaperTip(dim(t, ".355 in"))
	for _, test := range []struct {
		what string
		got  measure.Length
		want measure.Length
	}{
		{"flush step", shop.FlushStep, measure.Thou(2)},
		{"turn limit", shop.TurnLimit, measure.Thou(40)},
		{"same size", shop.SameSize, measure.Thou(7).MulRatio(1, 10)},
		{"hosel OD", shop.HoselODTolerance, measure.Thou(3)},
		{"ferrule OD", shop.FerruleODTolerance, measure.Thou(2)},
		{"ferrule bore", shop.FerruleBoreTolerance, measure.Thou(1)},
		{"tip", shop.TipTolerance, measure.Thou(1)},
		{"bore", shop.BoreTolerance, measure.Thou(2)},
		{"taper tip two inches up", taper.Diameter(measure.Inches(2)).Nominal(), measure.Thou(370)},
		{"taper tip ten inches up", taper.Diameter(measure.Inches(10)).Nominal(), measure.Thou(370)},
		{"least wall", shop.LeastWall, measure.Thou(30)},
		{"least clearance", shop.LeastClearance, measure.Thou(1)},
		{"most clearance", shop.MostClearance, measure.Thou(8)},
	} {
		if test.got != test.want {
			t.Errorf("%s: %v, want %v", test.what, test.got, test.want)
		}
	}
	if shop.UndersizeRisk != .16 || shop.TurnShare != .16 || shop.SlipRisk != .05 || shop.StrainLimit != .02 {
		t.Errorf("risks %v %v, strain %v", shop.UndersizeRisk, shop.SlipRisk, shop.StrainLimit)
	}
}

func TestSettingsAreExplained(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range Settings() {
		if s.Key == "" || s.Default == "" || s.Why == "" || s.Source == "" || seen[s.Key] {
			t.Errorf("setting %+v lacks something, or its key is there twice", s)
		}
		seen[s.Key] = true
	}
}

func TestSettingsAreACopy(t *testing.T) {
	Settings()[0].Key = "changed"
	if Settings()[0].Key == "changed" {
		t.Error("the list can be changed from outside")
	}
}

// otherValue is a value that is not the default.
func otherValue(v any) string {
	switch v.(type) {
	case *measure.Length:
		return "1.2345 mm"
	case *measure.Angle:
		return "82.5°"
	case *measure.Taper:
		return "0.0123 in/in"
	}
	return "0.123"
}

func TestSetAndValue(t *testing.T) {
	for _, s := range Settings() {
		t.Run(s.Key, func(t *testing.T) {
			shop := DefaultShop()
			other := otherValue(s.field(&shop))
			switch s.Key { // the two limits of a range may not pass each other
			case "least_clearance":
				other = "0.1234 mm"
			case "most_length":
				other = "50.5 mm"
			}
			if err := shop.Set(s.Key, other); err != nil {
				t.Fatal(err)
			}
			if err := shop.Validate(); err != nil {
				t.Fatal(err)
			}
			value, err := shop.Value(s.Key)
			if err != nil || value != other {
				t.Errorf("Value = %q, %v, want %q", value, err, other)
			}
			back := DefaultShop()
			if err := back.Set(s.Key, value); err != nil || back != shop || back == DefaultShop() {
				t.Errorf("%q set again gives another shop: %v", value, err)
			}
		})
	}
}

func TestEveryFieldHasItsOwnSetting(t *testing.T) {
	for _, s := range Settings() {
		shop := DefaultShop()
		if err := shop.Set(s.Key, otherValue(s.field(&shop))); err != nil {
			continue
		}
		a, b := reflect.ValueOf(shop), reflect.ValueOf(DefaultShop())
		var changed []string
		for i := range a.NumField() {
			if !a.Field(i).Equal(b.Field(i)) {
				changed = append(changed, a.Type().Field(i).Name)
			}
		}
		if len(changed) != 1 {
			t.Errorf("%s changes %v", s.Key, changed)
		}
	}
}

func TestSetErrors(t *testing.T) {
	tests := []struct {
		key, value string
		unknown    bool
	}{
		{"flush_stepp", "1 mm", true}, {"", "", true},
		{"flush_step", "5", false}, {"flush_step", "-1 mm", false}, {"flush_step", "3 m", false}, {"flush_step", "", false},
		{"undersize_risk", "0", false}, {"undersize_risk", "1", false}, {"undersize_risk", "5%", false},
		{"undersize_risk", "NaN", false}, {"undersize_risk", "-0.1", false},
		{"countersink_angle", "0°", false}, {"countersink_angle", "180°", false}, {"countersink_angle", "60", false},
		{"tip_taper", "0 in/in", false}, {"tip_taper", "-0.1 in/in", false}, {"tip_taper", "2 in/in", false}, {"tip_taper", "0.1", false},
		{"minutes_to_fit", "-1", false}, {"minutes_to_fit", "Inf", false}, {"minutes_to_fit", "NaN", false}, {"minutes_to_fit", "10001", false},
		{"length_of_hosel", "0", false}, {"length_of_hosel", "101", false}, {"length_of_hosel", "NaN", false},
	}
	for _, test := range tests {
		shop := DefaultShop()
		err := shop.Set(test.key, test.value)
		var setting *SettingError
		if !errors.As(err, &setting) || setting.Key != test.key || setting.Unknown != test.unknown || setting.Error() == "" {
			t.Errorf("%s = %q: error %v", test.key, test.value, err)
		}
		if shop != DefaultShop() {
			t.Errorf("%s = %q changed the shop in spite of its error", test.key, test.value)
		}
	}
	if _, err := DefaultShop().Value("nothing"); err == nil {
		t.Error("there is a value of no setting")
	}
	shop := DefaultShop()
	if err := shop.Set("flush_step", "5"); !errors.Is(err, measure.ErrNoUnit) {
		t.Errorf("the reason of %v is lost", err)
	}
}

func TestShopsAtOddsWithThemselves(t *testing.T) {
	for _, set := range [][3]string{
		{"most_clearance", "0.01 mm", "most_clearance"}, {"least_clearance", "5 mm", "most_clearance"},
		{"most_length", "1 mm", "most_length"}, {"least_length", "100 mm", "most_length"},
	} {
		shop := DefaultShop()
		if err := shop.Set(set[0], set[1]); err != nil {
			t.Fatal(err)
		}
		var setting *SettingError
		if err := shop.Validate(); !errors.As(err, &setting) || setting.Key != set[2] {
			t.Errorf("%s = %s: %v", set[0], set[1], err)
		}
	}
}

// TestSoundAgreesWithValidate: the quick check finds what the slow one explains, for shops with one value out of order.
func TestSoundAgreesWithValidate(t *testing.T) {
	lengths := []measure.Length{
		{}, measure.Picometres(-1), measure.Picometres(1), measure.Millimetres(2000), measure.Millimetres(2000).Add(measure.Picometres(1)),
		measure.MaxLength, measure.MaxLength.Neg(), measure.Millimetres(5),
	}
	numbers := []float64{0, -1, .5, 1, math.Nextafter(1, 0), math.NaN(), math.Inf(1), math.Inf(-1), 100, 101, 10000, 10001, 5e-324}
	rapid.Check(t, func(t *rapid.T) {
		shop := DefaultShop()
		for range rapid.IntRange(1, 2).Draw(t, "changes") {
			switch v := rapid.SampledFrom(settings).Draw(t, "setting").field(&shop).(type) {
			case *measure.Length:
				*v = rapid.SampledFrom(lengths).Draw(t, "length")
			case *measure.Angle:
				*v = measure.Nanodegrees(rapid.SampledFrom([]int64{0, -1, 1, 1e9 - 1, 1e9, 179e9, 179e9 + 1, 180e9}).Draw(t, "angle"))
			case *measure.Taper:
				*v = measure.TaperPPB(rapid.SampledFrom([]int64{0, -1, 1, 1e9, 1e9 + 1}).Draw(t, "taper"))
			case *float64:
				*v = rapid.SampledFrom(numbers).Draw(t, "number")
			}
		}
		if err := shop.wrong(); (err == nil) != shop.sound() {
			t.Fatalf("sound is %v, but wrong says %v", shop.sound(), err)
		}
	})
}

func TestWords(t *testing.T) {
	check := func(what string, got, want []string) {
		t.Helper()
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", what, diff)
		}
	}
	words := func(text func(uint8) string) (all []string) {
		for i := range uint8(9) {
			all = append(all, text(i))
		}
		return all
	}
	check("verdicts", words(func(i uint8) string { return Verdict(i).String() }),
		[]string{"", "flush", "turn", "prep", "measure", "ask", "no", "bare", ""})
	check("categories", words(func(i uint8) string { return Category(i).String() }),
		[]string{"", "driver", "fairway", "hybrid", "iron", "wedge", "putter", "chipper", ""})
	check("tops", words(func(i uint8) string { return TopForm(i).String() }),
		[]string{"", "flat", "rounded", "countersunk", "counterbored", "", "", "", ""})
	check("bores", words(func(i uint8) string { return BoreForm(i).String() }),
		[]string{"", "parallel", "taper", "", "", "", "", "", ""})
	check("styles", words(func(i uint8) string { return Style(i).String() }),
		[]string{"", "plain", "collared", "stepped", "", "", "", "", ""})
	check("materials", words(func(i uint8) string { return Material(i).String() }),
		[]string{"", "cellulose acetate", "cellulose acetate butyrate", "ABS", "nylon", "acetal", "other", "", ""})
	check("tips", words(func(i uint8) string { return TipForm(i).String() }),
		[]string{"", "parallel", "taper", "profile", "", "", "", "", ""})
	check("units", words(func(i uint8) string { return Units(i).String() }),
		[]string{"mm", "in", "frac", "", "", "", "", "", ""})
	if Code(200).String() != "" || Field(200).String() != "" || Assumption(200).String() != "" || Assumption(200).Code() != "" {
		t.Error("a value beyond its names has one")
	}
}

func TestWordsAreReadBack(t *testing.T) {
	for i := range uint8(8) {
		if c, ok := ParseCategory(Category(i).String()); ok != (i > 0) || c != Category(i) {
			t.Errorf("category %d comes back as %d, %v", i, c, ok)
		}
	}
	for i := range uint8(5) {
		if f, ok := ParseTopForm(TopForm(i).String()); ok != (i > 0) || f != TopForm(i) {
			t.Errorf("top %d comes back as %d, %v", i, f, ok)
		}
	}
	for i := range uint8(3) {
		if f, ok := ParseBoreForm(BoreForm(i).String()); ok != (i > 0) || f != BoreForm(i) {
			t.Errorf("bore %d comes back as %d, %v", i, f, ok)
		}
	}
	for i := range uint8(4) {
		if s, ok := ParseStyle(Style(i).String()); ok != (i > 0) || s != Style(i) {
			t.Errorf("style %d comes back as %d, %v", i, s, ok)
		}
	}
	for i := range uint8(7) {
		if m, ok := ParseMaterial(Material(i).String()); ok != (i > 0) || m != Material(i) {
			t.Errorf("material %d comes back as %d, %v", i, m, ok)
		}
	}
	if _, ok := ParseStyle("Plain"); ok {
		t.Error("words are those that String writes, in lower case")
	}
	for _, word := range []string{"mm", "in", "frac"} {
		var u Units
		if err := u.UnmarshalText([]byte(word)); err != nil || u.String() != word {
			t.Errorf("%s comes back as %v, %v", word, u, err)
		}
		if text, err := u.MarshalText(); err != nil || string(text) != word {
			t.Errorf("%v is written as %s, %v", u, text, err)
		}
	}
	if _, err := ParseUnits("inch"); err == nil {
		t.Error("units inch were read")
	}
}

func TestVerdictsThatFit(t *testing.T) {
	for v, fits := range map[Verdict]bool{NoVerdict: false, Flush: true, Turn: true, Prep: true, Ask: false, No: false, Bare: false} {
		if v.Fits() != fits {
			t.Errorf("%v.Fits() = %v", v, !fits)
		}
	}
}

func TestTipsForBore(t *testing.T) {
	tests := []struct {
		bore     string
		form     BoreForm
		category Category
		want     []string
	}{
		{".339 in", BoreUnknown, AnyCategory, []string{".335 parallel"}},
		{".336 in", BoreUnknown, Driver, []string{".335 parallel"}}, // clears it by .001 in, the least
		{".3359 in", BoreUnknown, Driver, nil},
		{".343 in", BoreUnknown, Driver, []string{".335 parallel"}}, // by .008 in, the most
		{".3431 in", BoreUnknown, Driver, nil},
		{".374 in", BoreUnknown, Iron, []string{".370 parallel"}},
		{".374 in", BoreParallel, Driver, []string{".370 parallel"}}, // unusual, but no other
		{".374 in", BoreTapered, Iron, nil},
		{".399 in", BoreUnknown, Putter, []string{".395 parallel"}},
		{".358 in", BoreUnknown, Iron, []string{".355 taper"}},
		{".358 in", BoreUnknown, Driver, []string{".350 parallel"}},
		{".358 in", BoreUnknown, AnyCategory, []string{".350 parallel", ".355 taper"}}, // a question
		{".358 in", BoreTapered, AnyCategory, []string{".355 taper"}},
		{".358 in", BoreParallel, AnyCategory, []string{".350 parallel"}},
		{"9.5 mm", BoreUnknown, Iron, []string{".370 parallel"}}, // .3740 in
		{".500 in", BoreUnknown, AnyCategory, nil},
	}
	for _, test := range tests {
		var got []string
		for _, tip := range TipsForBore(dim(t, test.bore), test.form, test.category, DefaultShop()) {
			got = append(got, tip.Name)
		}
		if diff := cmp.Diff(test.want, got); diff != "" {
			t.Errorf("%s %v %v (-want +got):\n%s", test.bore, test.form, test.category, diff)
		}
	}
	if got := TipsForBore(measure.Dim{}, BoreUnknown, Iron, DefaultShop()); got != nil {
		t.Errorf("a bore that is not given takes %v", got)
	}
}

func TestStandardTips(t *testing.T) {
	shop := DefaultShop()
	last := measure.Length{}
	for _, s := range StandardTips() {
		tip := s.Tip(shop)
		if err := tip.Validate(); err != nil {
			t.Errorf("%s: %v", s.Name, err)
		}
		end := tip.Diameter(measure.Length{})
		if tip.Form() != s.Form || end.Nominal() != s.Diameter || end.HasLimits() || !last.Less(s.Diameter) || !s.Suits(AnyCategory) {
			t.Errorf("%s is %v of %v", s.Name, tip.Form(), end)
		}
		if tapers := !tip.Taper().IsZero(); tapers != (s.Form == TipTapered) {
			t.Errorf("%s grows by %v", s.Name, tip.Taper())
		}
		last = s.Diameter
	}
	StandardTips()[0].Name = "changed"
	if StandardTips()[0].Name == "changed" {
		t.Error("the list can be changed from outside")
	}
}

// textForm is an enumeration as its words.
type textForm struct {
	what    string
	count   int
	zero    string // the word of the first value, nothing where that is unknown
	text    func(uint8) ([]byte, error)
	name    func(uint8) string
	read    func([]byte) (uint8, error)
	parse   func(string) (uint8, bool)
	example string
}

func textFormOf[T interface {
	~uint8
	String() string
	MarshalText() ([]byte, error)
}, P interface {
	*T
	UnmarshalText([]byte) error
}](what string, count int, parse func(string) (T, bool), example string) textForm {
	return textForm{
		what: what, count: count, zero: T(0).String(), example: example,
		text:  func(i uint8) ([]byte, error) { return T(i).MarshalText() },
		name:  func(i uint8) string { return T(i).String() },
		read:  func(text []byte) (uint8, error) { v := T(1); err := P(&v).UnmarshalText(text); return uint8(v), err },
		parse: func(word string) (uint8, bool) { v, ok := parse(word); return uint8(v), ok },
	}
}

// Every value of every enumeration comes back from its text, and unknown words are errors that list those there are.
func TestTextForms(t *testing.T) {
	for _, e := range []textForm{
		textFormOf("verdict", int(Bare)+1, ParseVerdict, "flush"),
		textFormOf("category", int(Chipper)+1, ParseCategory, "driver"),
		textFormOf("top", int(TopCounterbored)+1, ParseTopForm, "rounded"),
		textFormOf("bore", int(BoreTapered)+1, ParseBoreForm, "taper"),
		textFormOf("style", int(Stepped)+1, ParseStyle, "stepped"),
		textFormOf("material", int(OtherMaterial)+1, ParseMaterial, "ABS"),
		textFormOf("tip", int(TipProfiled)+1, ParseTipForm, "profile"),
		textFormOf("code", int(DataMissing)+1, ParseCode, "flush.undersize"),
		textFormOf("level", int(TakesNone)+1, ParseLevel, "takes none"),
		textFormOf("field", int(FieldRingHeight)+1, ParseField, "hosel OD"),
	} {
		seen := map[string]bool{}
		for i := range uint8(e.count) {
			text, err := e.text(i)
			if err != nil || string(text) != e.name(i) || seen[string(text)] || (len(text) == 0) != (i == 0 && e.zero == "") {
				t.Errorf("%s %d is written %q, %v", e.what, i, text, err)
			}
			seen[string(text)] = true
			if back, err := e.read(text); err != nil || back != i {
				t.Errorf("%s %q comes back as %d, %v; want %d", e.what, text, back, err, i)
			}
			if back, ok := e.parse(string(text)); ok != (len(text) > 0) || back != i {
				t.Errorf("%s %q is parsed as %d, %v; want %d", e.what, text, back, ok, i)
			}
		}
		if !seen[e.example] {
			t.Errorf("%s has no %q", e.what, e.example)
		}
		var unknown *measure.NameError
		if text, err := e.text(uint8(e.count)); !errors.As(err, &unknown) || text != nil {
			t.Errorf("%s %d is written %q, %v", e.what, e.count, text, err)
		}
		kept, err := e.read([]byte("Flush "))
		if !errors.As(err, &unknown) || kept != 1 || unknown.Name != "Flush " || !slices.Contains(unknown.Accepts, e.example) ||
			slices.Contains(unknown.Accepts, "") || !strings.Contains(err.Error(), strconv.Quote(e.example)) {
			t.Errorf("%s: an unknown word gives %d, %v", e.what, kept, err)
		}
		if _, ok := e.parse("Flush "); ok {
			t.Errorf("%s: an unknown word is parsed", e.what)
		}
	}
}

// Parts go through JSON and come back the same.
func TestPartsAsJSON(t *testing.T) {
	full := Head{
		Category: Wedge, HoselOD: dim(t, "12.7 ±0.05 mm"), Bore: dim(t, ".374 in"), BoreForm: BoreParallel, BoreDepth: dim(t, "32 mm"),
		HoselLength: dim(t, "60 mm"), NeckTop: dim(t, "70 mm"), Top: TopCountersunk,
		Countersink: Countersink{Mouth: dim(t, "11 mm"), Angle: measure.Degrees(60), Depth: dim(t, "1 mm")},
		Counterbore: Counterbore{Diameter: dim(t, "10.5 mm"), Depth: dim(t, "2 mm")},
		Adapter:     Adapter{TopOD: dim(t, "12.5 mm"), Bore: dim(t, "9 mm"), BoreDepth: dim(t, "30 mm").WithShape(measure.Uniform)},
	}
	ferrule := Ferrule{
		Bore: dim(t, "9.35 +0/-0.03 mm"), ForTip: TipSize{measure.Thou(370), TipParallel}, BaseOD: dim(t, "13.2 mm"), TopOD: dim(t, "10 mm"), Length: dim(t, "15 mm"), Style: Collared,
		Collar: Spigot{OD: dim(t, "10.5 mm"), Length: dim(t, "1 mm")}, Step: Spigot{OD: dim(t, "10.4 mm"), Length: dim(t, "3 mm")},
		Rings: 2, RingDepth: dim(t, "0.3 mm"), RingHeight: dim(t, "4 mm"), Material: CelluloseAcetate,
	}
	for name, v := range map[string]reflect.Value{"head": reflect.ValueOf(full), "ferrule": reflect.ValueOf(ferrule)} {
		for i := range v.NumField() {
			if v.Field(i).IsZero() {
				t.Errorf("the full %s lacks %s", name, v.Type().Field(i).Name)
			}
		}
	}
	for _, want := range []Head{{}, full, {Top: TopRounded}, {HoselOD: dim(t, "12.7 mm")}} {
		text, err := json.Marshal(want)
		var got Head
		if err2 := json.Unmarshal(text, &got); err != nil || err2 != nil || got != want {
			t.Errorf("%s: %v, %v", text, err, err2)
		}
	}
	for _, want := range []Ferrule{{}, ferrule, {Style: Plain}, {Material: OtherMaterial}} {
		text, err := json.Marshal(want)
		var got Ferrule
		if err2 := json.Unmarshal(text, &got); err != nil || err2 != nil || got != want {
			t.Errorf("%s: %v, %v", text, err, err2)
		}
	}
	if text, err := json.Marshal(Ferrule{}); err != nil || string(text) != "{}" {
		t.Errorf("nothing given is %s, %v", text, err)
	}
	var head Head
	var unknown *measure.NameError
	if err := json.Unmarshal([]byte(`{"top":"domed"}`), &head); !errors.As(err, &unknown) || head.Top != TopUnknown {
		t.Errorf("a top that is domed: %v, %v", head.Top, err)
	}
}
