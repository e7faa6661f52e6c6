package value

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"example.com/seatline/fitcalc/measure"
)

// spellings of the two units in the nine languages and their signs.
var spellings = map[measure.Unit][]string{
	measure.Millimetre: {"mm", " mm", "MM", "㎜", " ｍｍ", " millimetres", " Millimeter", " millimètres", " milímetros", " millimetri", "ミリ", "ミリメートル", "밀리미터", "毫米", " 公厘"},
	measure.Inch:       {`"`, " in", "in.", " inch", " inches", "″", "”", "''", " Zoll", " pouces", " po", " pulgadas", " pulg.", " pollici", "インチ", " 인치", "英寸", "英吋", "吋"},
}

// digits of several scripts, from zero.
var digits = []rune{'0', '０', '٠', '۰', '०', '๐', '𝟎'}

// TestAnyNotationReadsBackTheSame writes a length in any notation and script and reads it.
func TestAnyNotationReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]measure.Unit{measure.Millimetre, measure.Inch}).Draw(t, "unit")
		decimals := rapid.IntRange(1, 5).Draw(t, "decimals")
		whole := rapid.IntRange(0, 99).Draw(t, "whole")
		part := rapid.IntRange(0, pow10(decimals)-1).Draw(t, "part")
		text := fmt.Sprintf("%d.%0*d", whole, decimals, part)
		want, _, err := parsed(t, text).In(unit)
		if err != nil {
			t.Fatal(err)
		}
		ctx := Context{Want: WantDiameter}
		written := text
		if whole == 0 && rapid.Bool().Draw(t, "no leading zero") {
			written = strings.TrimPrefix(written, "0")
		}
		if rapid.Bool().Draw(t, "comma") {
			written = strings.Replace(written, ".", ",", 1)
			ctx.Mark = MarkComma
		}
		written = inScript(written, rapid.SampledFrom(digits).Draw(t, "script"))
		if rapid.Bool().Draw(t, "full width point") {
			written = strings.NewReplacer(".", "．", ",", "，").Replace(written)
		}
		if rapid.Bool().Draw(t, "unit in the cell") {
			written += rapid.SampledFrom(spellings[unit]).Draw(t, "spelling")
		} else {
			ctx.Unit = map[measure.Unit]string{measure.Millimetre: "mm", measure.Inch: "in"}[unit]
		}
		written = rapid.SampledFrom([]string{"", "Ø", "Ø ", "φ", "⌀ ", "dia. ", "外径", "直径 ", "OD "}).Draw(t, "sign") + written
		written = rapid.SampledFrom([]string{"", " ", "\u00a0", "\u3000"}).Draw(t, "before") + written + rapid.SampledFrom([]string{"", " ", "*", "\u3000", " †"}).Draw(t, "after")
		r := Read(written, ctx)
		if r.Kind != Length || r.Dim.Nominal() != want {
			t.Fatalf("%q reads as %s, want %v", written, brief(r), want)
		}
	})
}

// TestAnyFractionReadsBackTheSame does the same for fractions of an inch.
func TestAnyFractionReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		den := rapid.SampledFrom([]int{2, 4, 8, 16, 32, 64}).Draw(t, "den")
		num := rapid.IntRange(1, den-1).Draw(t, "num")
		whole := rapid.IntRange(0, 3).Draw(t, "whole")
		want := measure.Inches(int64(whole)).Add(measure.Inches(1).MulRatio(int64(num), int64(den)))
		written := fmt.Sprintf("%d%s%d", num, rapid.SampledFrom([]string{"/", "⁄", "／", " / "}).Draw(t, "slash"), den)
		if whole > 0 {
			written = fmt.Sprintf("%d%s%s", whole, rapid.SampledFrom([]string{" ", "-"}).Draw(t, "joint"), written)
		}
		written += rapid.SampledFrom(spellings[measure.Inch]).Draw(t, "spelling")
		if r := Read(written, Context{Want: WantLength}); r.Kind != Length || r.Dim.Nominal() != want {
			t.Fatalf("%q reads as %s, want %v", written, brief(r), want)
		}
	})
}

// TestAnyToleranceReadsBackTheSame does the same for limits.
func TestAnyToleranceReadsBackTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.IntRange(500, 3000).Draw(t, "hundredths")
		plus := rapid.IntRange(1, 50).Draw(t, "plus")
		minus := rapid.IntRange(1, 50).Draw(t, "minus")
		mm := func(hundredths int) string { return fmt.Sprintf("%d.%02d", hundredths/100, hundredths%100) }
		length := func(hundredths int) measure.Length { return measure.Micrometres(int64(hundredths) * 10) }
		written, want := "", measure.Dim{}
		switch rapid.IntRange(0, 2).Draw(t, "form") {
		case 0:
			written = mm(size) + rapid.SampledFrom([]string{" ±", "±", " +/- ", " +/-", " ± "}).Draw(t, "sign") + mm(plus)
			want = measure.PlusMinus(length(size), length(plus))
		case 1:
			written = mm(size) + " +" + mm(plus) + rapid.SampledFrom([]string{"/", " ", " / ", ", "}).Draw(t, "between") + "-" + mm(minus)
			want = measure.WithDeviations(length(size), length(-minus), length(plus))
		case 2:
			written = mm(size) + rapid.SampledFrom([]string{"~", "-", " - ", "–", " to ", " bis ", "～"}).Draw(t, "to") + mm(size+plus)
			want = measure.Between(length(size), length(size+plus))
		}
		if rapid.Bool().Draw(t, "comma") {
			written = strings.ReplaceAll(written, ", ", " ")
			written = strings.ReplaceAll(written, ".", ",")
		}
		written += rapid.SampledFrom(spellings[measure.Millimetre]).Draw(t, "spelling")
		if r := Read(written, Context{Want: WantDiameter}); r.Dim != want {
			t.Fatalf("%q reads as %s, want %v", written, brief(r), want)
		}
	})
}

// TestTwoUnitsAgreeWithinTheirRounding writes an inch size beside its rounded conversion, and then beside one that is two
// units of the last place off.
func TestTwoUnitsAgreeWithinTheirRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thou := rapid.IntRange(200, 900).Draw(t, "thou")
		size := measure.Thou(int64(thou))
		mm, _ := size.FormatMillimetres(rapid.IntRange(1, 3).Draw(t, "decimals"))
		written := fmt.Sprintf(`.%03d" (%s mm)`, thou, mm)
		if r := Read(written, Context{Want: WantDiameter}); r.Kind != Length || r.Leniencies[len(r.Leniencies)-1].Code != ForgaveBothUnits {
			t.Fatalf("%q reads as %s", written, brief(r))
		}
		off, _ := size.Add(measure.Micrometres(200)).FormatMillimetres(2)
		if r := Read(fmt.Sprintf(`.%03d" (%s mm)`, thou, off), Context{Want: WantDiameter}); r.Problem.Code != problemConflict {
			t.Fatalf("%03d thou and %s mm are taken for the same: %s", thou, off, brief(r))
		}
	})
}

func pow10(n int) int {
	p := 1
	for range n {
		p *= 10
	}
	return p
}

func parsed(t *rapid.T, text string) measure.Number {
	n, rest, err := measure.ParseNumber(text)
	if err != nil || rest != "" {
		t.Fatalf("%q: %v", text, err)
	}
	return n
}

func inScript(s string, zero rune) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return zero + r - '0'
		}
		return r
	}, s)
}

// FuzzRead reads every text in every context: it never panics, every length has a unit, and what is not usable says why.
func FuzzRead(f *testing.F) {
	for _, seed := range []string{"13.6 mm", `.370" (9.398 mm)`, "fits .335/.350", "13.60 +0.00/-0.10", "１３，６㎜", "8-Mar", "1,250", "½\"", "12 h9", "R6.8*", "ca. 13,6 mm", "±0.05", "ISO 2768-m", "\xff", "(((((", "1/0", "9999999999999999999999", "+0/-0.1", "0.5×45°", "1:0 in/in", "''''", "=", "#N/A", "13.6¹⁾", "..5", "5..", "-", "/", "1/2/3/4", "½½"} {
		f.Add(seed, uint8(0), uint8(0))
		f.Add(seed, uint8(1), uint8(1))
		f.Add(seed, uint8(6), uint8(2))
	}
	units := []string{"", "mm", "in", "deg"}
	f.Fuzz(func(t *testing.T, text string, want, unit uint8) {
		ctx := Context{Want: Want(want % 7), Unit: units[int(unit)%len(units)], Mark: Mark(unit / 4 % 3)}
		r := Read(text, ctx)
		if r.Text != text {
			t.Fatalf("%q came back as %q", text, r.Text)
		}
		var check func(Reading)
		check = func(r Reading) {
			if r.Kind == Length && (!r.Dim.Given() || r.Unit == "" || r.Dim.Nominal().Overflowed()) {
				t.Fatalf("%q: a length without a size or a unit: %+v", text, r)
			}
			if r.Kind == Unreadable && (r.Problem.Code == "" || r.Problem.Message == "") {
				t.Fatalf("%q: unreadable without a reason", text)
			}
			if r.Kind == List && len(r.List) < 2 {
				t.Fatalf("%q: a list of %d", text, len(r.List))
			}
			if utf8.ValidString(text) && !utf8.ValidString(r.Problem.Message) {
				t.Fatalf("%q: message %q", text, r.Problem.Message)
			}
			for _, item := range r.List {
				check(item)
			}
		}
		check(r)
		for _, tolerance := range ReadTolerances(text, ctx) {
			if _, err := tolerance.Apply(measure.Nominal(measure.Millimetres(12))); err == nil && tolerance.Problem.Code != "" {
				t.Fatalf("%q: a tolerance with the problem %v applies", text, tolerance.Problem)
			}
		}
	})
}
