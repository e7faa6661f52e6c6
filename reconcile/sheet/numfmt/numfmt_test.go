package numfmt_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/seatline/reconcile/sheet/numfmt"
)

// TestGeneral holds results of Excel, as the public test data of the projects SheetJS (ssf, general.json) and
// borgar/numfmt (ssf-general) list them.
func TestGeneral(t *testing.T) {
	for raw, want := range map[string]string{
		"1.234567E-14": "1.23457E-14", "1.234567E-9": "1.23457E-09", "0.000001234567": "1.23457E-06", "0.00001234567": "1.23457E-05",
		"0.0001234567": "0.000123457", "0.001234567": "0.001234567", "123456700": "123456700", "12345670000": "12345670000",
		"123456700000": "1.23457E+11", "123456700000000": "1.23457E+14", "1E-10": "1E-10", "1E-9": "0.000000001", "0.00001": "0.00001",
		"10000000000": "10000000000", "100000000000": "1E+11", "1.2E-9": "1.2E-09", "1.2E-8": "0.000000012", "1.23E-8": "1.23E-08",
		"0.000001234": "0.000001234", "0.0000012345": "1.2345E-06", "0.000012345": "0.000012345", "0.00123456789": "0.001234568",
		"0.0123456789": "0.012345679", "0.123456789": "0.123456789", "0.1234567891": "0.123456789", "12345678.9": "12345678.9",
		"123.4567891": "123.4567891", "1234567.89": "1234567.89",
	} {
		if got, ok := numfmt.General(raw); got != want || !ok {
			t.Errorf("General(%s) = %s, want %s", raw, got, want)
		}
		if got, ok := numfmt.General("-" + raw); got != "-"+want || !ok {
			t.Errorf("General(-%s) = %s, want -%s", raw, got, want)
		}
	}
}

// TestGeneralForms covers the ways in which a file may write the same number.
func TestGeneralForms(t *testing.T) {
	for raw, want := range map[string]string{
		"0": "0", "-0": "0", "0.0": "0", "007": "7", "1.50": "1.5", "+3": "3", ".5": "0.5", "5.": "5", "1e3": "1000", "0.33500000000000002": "0.335",
		"0.30000000000000004": "0.3", "99999999999.9": "1E+11", "9.9999999999": "10", "1e300": "1E+300", "4.9e-324": "4.9E-324",
	} {
		if got, ok := numfmt.General(raw); got != want || !ok {
			t.Errorf("General(%s) = %s, want %s", raw, got, want)
		}
	}
	for _, raw := range []string{"", "-", ".", "x", "1,5", "1 2", "NaN", "inf", "0x10", "1e", "1e+", "1e99999", "1_000", "١"} {
		if got, ok := numfmt.General(raw); ok || numfmt.IsNumber(raw) {
			t.Errorf("General(%q) = %q, and it is no number", raw, got)
		}
	}
}

// TestShow holds results of Excel for Mac 16.35, as the tests of borgar/numfmt (ssf-oddities, ssf-fraction, ssf-exp) list
// them, without the spaces around them.
func TestShow(t *testing.T) {
	for code, cases := range map[string]string{
		`"foo";"bar";"baz"`: "1=foo -1=bar 0=baz",
		`"foo";"bar"`:       "1=foo -1=bar 0=foo",
		`"foo";"bar";@`:     "1=foo -1=bar 0=foo",
		`A"TODO"`:           "1=ATODO -1=-ATODO",
		`\r`:                "1=r -1=-r",
		"@@":                "1=11",
		"[Blue]General":     "1=1 -1=-1",
		`_($* #,##0_);_($* (#,##0);_($* "-"_);_(@_)`: "1=$1 -1=$(1) 0=$-",
		"#0.#":                               "0=0. 1=1. 12=12. 12.34=12.3 -1.23=-1.2",
		"#,##0.0":                            "1=1.0 -1=-1.0 0=0.0",
		"#,##0.00000":                        "1000000=1,000,000.00000",
		"#,###":                              "1=1 -1=-1 0= 12345.6789=12,346",
		"#.##":                               "1=1. -1=-1. 0=.",
		"0;0":                                "1.1=1 -1.1=1 0=0",
		"0.##":                               "1=1. 1.1=1.1 -1.2=-1.2 1000000000000.01=1000000000000.01 0.1=0.1 1.007=1.01 -1.008=-1.01",
		"0.0#":                               "12345=12345.0 1234.5=1234.5 123.45=123.45 12.345=12.35 1.2345=1.23 0.12345=0.12 0.0012345=0.0 15.06=15.06",
		"00,000.00,":                         "12345=00,012.35",
		"00,000.00":                          "12345=12,345.00",
		"** #,###,#00,000.00,**":             "1.2345=00,000.00 12345.67=00,012.35 1234567.89=01,234.57 123456822333=123,456,822.33",
		"##0.0E+0":                           "1=1.0E+0 12=12.0E+0 123=123.0E+0 1234=1.2E+3 12345=12.3E+3 123456=123.5E+3 123456789=123.5E+6",
		"#0.0E+0":                            "1.23457E-13=12.3E-14 1.23457E-12=1.2E-12 0.00000123457=1.2E-6 0.001234568=12.3E-4",
		"00000-0000":                         "941051630=94105-1630 12345.6789=00001-2346",
		`000\-00\-0000`:                      "123456789=123-45-6789",
		"[<=9999999]###-####;(###) ###-####": "8675309=867-5309 2813308004=(281)~330-8004",
		`###\\###\\##\0`:                     "12345.6789=\\123\\460",
		"# ?/?":                              "1=1 -1.2=-1~1/5 12.3=12~1/3 123.45=123~4/9 -123.456=-123~1/2 1234.567=1234~4/7 12345.6789=12345~2/3 0.3=2/7 1.3=1~1/3 2.3=2~2/7",
		"# ??/??":                            "-1.2=-1~~1/5 12.3=12~~3/10 -12.34=-12~17/50 123.45=123~~9/20 -123.456=-123~26/57 1234.567=1234~55/97 -1234.5678=-1234~46/81 12345.6789=12345~55/81",
		"# ???/???":                          "-12.34=-12~~17/50 -123.456=-123~~57/125 -1234.5678=-1234~~67/118 12345.6789=12345~~74/109 -12345.67891=-12345~573/844",
		"# ?/2":                              "-1.2=-1 12.3=12~1/2",
		"# ?/8":                              "-1.2=-1~2/8 -12.34=-12~3/8 123.45=123~4/8 12345.6789=12345~5/8",
		"# ??/16":                            "-1.2=-1~~3/16 12345.6789=12345~11/16",
		"# ?/10":                             "1234.567=1234~6/10",
		"# ??/100":                           "-123.456=-123~46/100",
		"??/??":                              "1=1/1 -1.2=-~6/5 12.3=123/10 -12.34=-617/50 -123.456=-7037/57 1234.567=119753/97 12.3456789=1000/81 0.00001=0/1",
		"0 0/0":                              "0=0~0/1 1=1~0/1 12.345=12~1/3",
		"#/#":                                "0=0/1 12.345=37/3",
		"# #/#":                              "0=0 1=1 123=123 12.345=12~1/3",
		"hh:mm AM/PM":                        "0.7=04:48~PM",
		"hhh:mmm:sss":                        "0.7=16:Jan:00",
		"hh:mm:ss.000":                       "0.7=16:48:00.000 0.70707=16:58:10.848",
		"[hhh]":                              "1=024 0=000",
		"A/P":                                "0.7=P",
		"e":                                  "0.7=1900",
		"[Red][>25]0.0;[Blue][<=25]0.00;[Green]0.000": "26=26.0 25=25.00",
	} {
		f := numfmt.Parse(code)
		if f.Code() != code {
			t.Errorf("the code %s became %s", code, f.Code())
		}
		for _, one := range strings.Fields(cases) {
			raw, want, _ := strings.Cut(one, "=")
			want = strings.ReplaceAll(want, "~", " ")
			if got, ok := f.Show(raw, false); got != want || !ok {
				t.Errorf("%s in %s is %q (%v), want %q", raw, code, got, ok, want)
			}
		}
	}
}

// TestSizes are the formats in which sheets of parts give sizes. Each result is that of LibreOffice 7.4.7 for the same
// cell.
func TestSizes(t *testing.T) {
	for _, test := range []struct{ code, raw, want string }{
		{`0.000"in"`, "0.335", "0.335in"}, {`0.00" mm"`, "8.509", "8.51 mm"}, {`"Ø"0.0`, "13.64", "Ø13.6"}, {`0.0\°`, "10.5", "10.5°"},
		{`0.00\"`, "0.375", `0.38"`}, {"# ??/64", "0.359375", "23/64"}, {"# ??/??", "2.015625", "2  1/64"}, {"0.00", "1.005", "1.01"},
		{"[$€-407] #,##0.00", "1234.5", "€ 1,234.50"}, {"#,##0.00 [$€-1]", "1234.5", "1,234.50 €"}, {"0.00E+00", "2.675", "2.68E+00"},
		{`_(* #,##0.00_);_(* \(#,##0.00\);_(* "-"??_);_(@_)`, "0", "-"}, {"0;0;;@", "0", ""}, {"0.0,,", "1234567", "1.2"}, {"0%", "0.335", "34%"},
		{".000", "1.5", "1.500"}, {".00", "12.25", "12.25"}, {".000", "0.5", ".500"}, {".###", "1.5", "1.5"},
	} {
		if got, ok := numfmt.Parse(test.code).Show(test.raw, false); got != test.want || !ok {
			t.Errorf("%s in %s is %q (%v), want %q", test.raw, test.code, got, ok, test.want)
		}
	}
}

func TestIsDate(t *testing.T) {
	for code, want := range map[string]bool{
		"d-mmm": true, "m/d/yyyy": true, "yyyy-mm-dd;@": true, "[h]:mm": true, "mm:ss.0": true, "h:mm AM/PM": true, "[$-409]d-mmm-yy;@": true, `yyyy"年"m"月"`: true,
		"[$-F800]dddd, mmmm dd, yyyy": true, "[$-411]ge.m.d": true, "ว/ด/ปปปป": true, "[Red]dd.mm.yyyy": true, "YYYY-MM-DD": true, "[mm]": true, "上午/下午h\"时\"": true,
		"": false, "General": false, "[Red]General": false, "GENERAL": false, `0.000"in"`: false, `0.0" mm"`: false, `0" days"`: false, `0.0\d`: false, "0.00_m": false, "0*d": false,
		"[Magenta]0": false, "[Color10]0.00": false, "@": false, "0.00E+00": false, "# ??/??": false, "[$USD] 0.00": false, "[>=100]0": false, "$#,##0.00": false, `"d-mmm"`: false,
	} {
		if got := numfmt.Parse(code).IsDate(); got != want {
			t.Errorf("IsDate(%s) = %v", code, got)
		}
	}
}

func TestAffixes(t *testing.T) {
	for code, want := range map[string][2]string{
		`0.000"in"`: {"", "in"}, `0.000\ \i\n`: {"", "in"}, `0.00" mm"`: {"", "mm"}, `"Ø"0.0`: {"Ø", ""}, `0.000\"`: {"", `"`}, `0.0" mm";-0.0" mm"`: {"", "mm"},
		`"ca. "0.0" mm (tip)"`: {"ca.", "mm (tip)"}, "# ??/64": {}, `# ??/64"in"`: {"", "in"}, `# ??/??"in"`: {"", "in"}, "0-00": {"", ""}, "[$€-407] #,##0.00": {"€", ""}, `General" mm"`: {"", "mm"},
		"": {}, "General": {}, "0.00": {}, "0%": {}, "@": {}, `"none"`: {}, `d" mm"`: {}, "0.00E+00": {}, `0.0" mm"_)`: {"", "mm"},
	} {
		before, after := numfmt.Parse(code).Affixes()
		if got := [2]string{before, after}; got != want {
			t.Errorf("%s: %q, want %q", code, got, want)
		}
	}
}

// TestBuiltin checks the built-in formats: which are dates (ECMA-376-1, 18.8.30, in all its languages), and that all but
// the Thai ones are understood.
func TestBuiltin(t *testing.T) {
	if code, ok := numfmt.Builtin(0); code != "" || !ok {
		t.Errorf("General is %q", code)
	}
	for id := 1; id < 164; id++ {
		code, ok := numfmt.Builtin(id)
		if !ok {
			continue
		}
		f := numfmt.Parse(code)
		want := id >= 14 && id <= 22 || id >= 27 && id <= 36 || id >= 45 && id <= 47 || id >= 50 && id <= 58 || id >= 71 && id <= 81
		if f.IsDate() != want {
			t.Errorf("%d, %s: IsDate is %v", id, code, f.IsDate())
		}
		if _, ok := f.Show("45724.5", false); ok != (id < 59) {
			t.Errorf("%d, %s: understood is %v", id, code, ok)
		}
	}
	for id, want := range map[int]string{2: "0.00", 10: "0.00%", 12: "# ?/?", 13: "# ??/??", 14: "m/d/yyyy", 16: "d-mmm", 49: "@"} {
		if code, _ := numfmt.Builtin(id); code != want {
			t.Errorf("%d is %s, want %s", id, code, want)
		}
	}
	if code, ok := numfmt.Builtin(23); ok {
		t.Errorf("23 is %s and should be nothing", code)
	}
}

// TestDates checks days whose serial numbers ECMA-376-1, 18.17.4.1 and its neighbours give: the first day, the day that
// never was, the day after it, a leap day and the last day.
func TestDates(t *testing.T) {
	f := numfmt.Parse("yyyy-mm-dd")
	for _, test := range []struct {
		raw      string
		date1904 bool
		want     string
	}{
		{"1", false, "1900-01-01"}, {"59", false, "1900-02-28"}, {"60", false, "1900-02-29"}, {"61", false, "1900-03-01"}, {"41260", false, "2012-12-17"},
		{"45292", false, "2024-01-01"}, {"45351", false, "2024-02-29"}, {"2958465", false, "9999-12-31"},
		{"0", true, "1904-01-01"}, {"39798", true, "2012-12-17"}, {"43830", true, "2024-01-01"}, {"2957003", true, "9999-12-31"},
	} {
		if got, ok := f.Show(test.raw, test.date1904); got != test.want || !ok {
			t.Errorf("%s (1904 %v) is %s, want %s", test.raw, test.date1904, got, test.want)
		}
	}
	for _, raw := range []string{"-1", "2958466", "1e12"} {
		if got, ok := f.Show(raw, false); ok {
			t.Errorf("%s is no date but shown as %s", raw, got)
		}
	}
	// A time that rounds up to midnight takes the day with it.
	if got, _ := numfmt.Parse("yyyy-mm-dd hh:mm:ss").Show("45291.999999", false); got != "2024-01-01 00:00:00" {
		t.Errorf("just before midnight is %s", got)
	}
}

// TestNotUnderstood lists codes for which nothing is shown rather than something wrong.
func TestNotUnderstood(t *testing.T) {
	for code, raw := range map[string]string{
		"[$-411]ge.m.d": "45724", "[DBNum1]0": "1", "[$-F800]dddd": "45724", "[$-407]mmm": "45724", "[$-1070000]d/mm/yyyy": "45724", `0"open`: "1", "[0": "1",
		"0.00 General": "1", "hh 0": "1", "[>=1]0;0.0": "-1", "# ?/????????": "0.1", "mm:ss.0000": "1", "# ?/0": "-", strings.Repeat("0", 1025): "1", "bbbb": "45724",
	} {
		if got, ok := numfmt.Parse(code).Show(raw, false); ok {
			t.Errorf("%s in %s is shown as %q", raw, code, got)
		}
	}
}

func TestShowText(t *testing.T) {
	for _, test := range []struct{ code, want string }{
		{"General", "4-PW"}, {"@", "4-PW"}, {"0.00", "4-PW"}, {`0;0;0;"set "@`, "set 4-PW"}, {`0;0;0;`, ""}, {`"qux";@"!"`, "4-PW!"}, {"_(@_)", " 4-PW "},
	} {
		if got, ok := numfmt.Parse(test.code).ShowText("4-PW"); got != test.want || !ok {
			t.Errorf("%s: %q, want %q", test.code, got, test.want)
		}
	}
}

// TestPlaces checks 0.000 against the standard library on numbers whose 15 digits are exact.
func TestPlaces(t *testing.T) {
	formats := map[int]*numfmt.Format{}
	for places := range 6 {
		formats[places] = numfmt.Parse(strings.TrimSuffix("0."+strings.Repeat("0", places), "."))
	}
	rapid.Check(t, func(t *rapid.T) {
		digits := rapid.Int64Range(0, 1e12).Draw(t, "digits")
		places := rapid.IntRange(0, 5).Draw(t, "places")
		raw := fmt.Sprintf("%d.%05d", digits/100000, digits%100000)
		power := int64(math.Pow10(5 - places))
		rounded := (digits + power/2) / power // halves up, in whole numbers
		scale := int64(math.Pow10(places))
		want := strconv.FormatInt(rounded/scale, 10)
		if places > 0 {
			want += fmt.Sprintf(".%0*d", places, rounded%scale)
		}
		if got, ok := formats[places].Show(raw, false); got != want || !ok {
			t.Fatalf("%s with %d places is %s, want %s", raw, places, got, want)
		}
	})
}

func FuzzShow(f *testing.F) {
	for _, code := range []string{"General", "0.00", "# ??/??", "[h]:mm:ss.000", `_("$"* #,##0_);[Red]\(0\);;@`, "##0.0E+0", "[$-409]d-mmm", "[>=1]0,;0%", "上午/下午h"} {
		f.Add(code, "45724.75")
		f.Add(code, "-0.33500000000000002")
	}
	f.Fuzz(func(t *testing.T, code, raw string) {
		format := numfmt.Parse(code)
		shown, ok := format.Show(raw, len(code)%2 == 0)
		if ok != (ok && numfmt.IsNumber(raw)) {
			t.Errorf("%q in %q is shown as %q", raw, code, shown)
		}
		format.ShowText(raw)
	})
}

func BenchmarkShow(b *testing.B) {
	for _, code := range []string{`0.000"in"`, "# ??/64", "yyyy-mm-dd"} {
		b.Run(code, func(b *testing.B) {
			format := numfmt.Parse(code)
			for b.Loop() {
				format.Show("0.359375", false)
			}
		})
	}
}

func ExampleFormat_Show() {
	format := numfmt.Parse(`0.00" mm"`)
	shown, ok := format.Show("8.509", false)
	fmt.Println(shown, ok, format.IsDate())

	// A size typed as 3/8 that the program took for the eighth of March.
	format = numfmt.Parse("d-mmm")
	shown, ok = format.Show("45724", false)
	fmt.Println(shown, ok, format.IsDate())
	// Output:
	// 8.51 mm true false
	// 8-Mar true true
}
