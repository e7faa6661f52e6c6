package chart

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"example.com/seatline/fitcalc"
)

// levelsOf are the levels at which package fitcalc gives a reason, by what its source says beside each code.
var levelsOf = map[fitcalc.Code][]fitcalc.Level{
	fitcalc.FlushAsSupplied: {fitcalc.Remarks},
	fitcalc.FlushTurn:       {fitcalc.Turns},
	fitcalc.FlushUndersize:  {fitcalc.Measures, fitcalc.Blocks},
	fitcalc.FlushTurnLimit:  {fitcalc.Remarks, fitcalc.Measures, fitcalc.Blocks},
	fitcalc.GripHolds:       {fitcalc.Remarks},
	fitcalc.GripLoose:       {fitcalc.Remarks, fitcalc.Prepares, fitcalc.Blocks},
	fitcalc.GripSplit:       {fitcalc.Remarks, fitcalc.Prepares, fitcalc.Blocks},
	fitcalc.GripOverTip:     {fitcalc.Remarks, fitcalc.Prepares, fitcalc.Blocks},
	fitcalc.GripShort:       {fitcalc.Prepares},
	fitcalc.WallThin:        {fitcalc.Remarks, fitcalc.Measures, fitcalc.Blocks},
	fitcalc.RingCut:         {fitcalc.Remarks, fitcalc.Measures, fitcalc.Blocks},
	fitcalc.SeatCollarHigh:  {fitcalc.Remarks, fitcalc.Prepares, fitcalc.Measures, fitcalc.Blocks},
	fitcalc.SeatStepWide:    {fitcalc.Remarks, fitcalc.Prepares, fitcalc.Blocks},
	fitcalc.SeatStepLong:    {fitcalc.Remarks, fitcalc.Prepares, fitcalc.Blocks},
	fitcalc.SeatRecessOpen:  {fitcalc.Remarks, fitcalc.Measures, fitcalc.Blocks},
	fitcalc.SeatRounded:     {fitcalc.TakesNone},
	fitcalc.BoreTight:       {fitcalc.Prepares, fitcalc.Blocks},
	fitcalc.BoreLoose:       {fitcalc.Prepares, fitcalc.Blocks},
	fitcalc.BoreShallow:     {fitcalc.Remarks, fitcalc.Measures, fitcalc.Blocks},
	fitcalc.BoreFormed:      {fitcalc.Prepares},
	fitcalc.LengthShort:     {fitcalc.Remarks},
	fitcalc.LengthLong:      {fitcalc.Remarks},
	fitcalc.NeckOverLimit:   {fitcalc.Remarks},
	fitcalc.DataMissing:     {fitcalc.Undecided},
}

// Every reason has a sentence for each of its levels, and no sentence is for a reason or a level that there is not.
func TestReasonsHaveASentencePerLevel(t *testing.T) {
	w := wordsOf(t, "en")
	fields := []fitcalc.Field{fitcalc.NoField, fitcalc.FieldTop, fitcalc.FieldAdapterOD}
	used := map[string]bool{}
	for code := fitcalc.NoCode + 1; code.String() != ""; code++ {
		if len(levelsOf[code]) == 0 {
			t.Errorf("no level of %v is known here", code)
		}
		sentences := map[string]fitcalc.Level{}
		for _, level := range levelsOf[code] {
			key := reasonKey(w, fitcalc.Reason{Code: code, Level: level, Share: 0.5}, false)
			if w[key] == "" {
				t.Errorf("%v at level %d: no word %s", code, level, key)
			}
			if other, same := sentences[w[key]]; same {
				t.Errorf("%v says the same at the levels %d and %d", code, other, level)
			}
			sentences[w[key]] = level
			for _, field := range fields {
				for _, share := range []float64{0, 0.5} {
					for _, measured := range []bool{false, true} {
						used[reasonKey(w, fitcalc.Reason{Code: code, Level: level, Field: field, Share: share}, measured)] = true
						used[reasonKey(w, fitcalc.Reason{Code: code, Level: level, Field: field, Share: share, Size: one}, measured)] = true
					}
				}
			}
		}
	}
	for _, key := range slices.Sorted(maps.Keys(w)) {
		if strings.HasPrefix(key, "reason.") && !used[key] {
			t.Errorf("nothing says %s", key)
		}
	}
}

func TestReasonKeys(t *testing.T) {
	w := wordsOf(t, "en")
	for _, tt := range []struct {
		reason   fitcalc.Reason
		measured bool
		want     string
	}{
		{fitcalc.Reason{Code: fitcalc.FlushUndersize, Level: fitcalc.Measures, Share: 0.7}, false, "flush.undersize.measure"},
		{fitcalc.Reason{Code: fitcalc.FlushUndersize, Level: fitcalc.Measures, Share: 0.7, Field: fitcalc.FieldAdapterOD}, false, "flush.undersize.measure.adapter"},
		{fitcalc.Reason{Code: fitcalc.FlushUndersize, Level: fitcalc.Measures}, false, "flush.undersize.measure.close"},
		{fitcalc.Reason{Code: fitcalc.FlushUndersize, Level: fitcalc.Measures}, true, "flush.undersize.measured"},
		{fitcalc.Reason{Code: fitcalc.FlushUndersize, Level: fitcalc.Blocks, Field: fitcalc.FieldAdapterOD}, true, "flush.undersize"},
		{fitcalc.Reason{Code: fitcalc.GripLoose, Level: fitcalc.Prepares}, true, "grip.loose.prep"},
		{fitcalc.Reason{Code: fitcalc.GripLoose, Level: fitcalc.Remarks}, false, "grip.loose"},
		{fitcalc.Reason{Code: fitcalc.SeatCollarHigh, Level: fitcalc.Prepares, Field: fitcalc.FieldTop}, false, "seat.collar-high.prep.top"},
		{fitcalc.Reason{Code: fitcalc.SeatCollarHigh, Level: fitcalc.Prepares}, false, "seat.collar-high.prep.some"},
		{fitcalc.Reason{Code: fitcalc.SeatCollarHigh, Level: fitcalc.Prepares, Size: one}, false, "seat.collar-high.prep"},
		{fitcalc.Reason{Code: fitcalc.SeatCollarHigh, Level: fitcalc.Measures, Field: fitcalc.FieldTop}, true, "seat.collar-high.measure"},
		{fitcalc.Reason{Code: fitcalc.SeatRounded, Level: fitcalc.TakesNone}, false, "seat.rounded"},
	} {
		if got := reasonKey(w, tt.reason, tt.measured); got != "reason."+tt.want {
			t.Errorf("%v at level %d, measured %v: %s, want %s", tt.reason.Code, tt.reason.Level, tt.measured, got, tt.want)
		}
	}
}

// No sentence tells a reader who has measured the hosel to measure it.
func TestMeasuredNeedsNoMeasuring(t *testing.T) {
	w := wordsOf(t, "en")
	for code, levels := range levelsOf {
		if !slices.Contains(levels, fitcalc.Measures) {
			continue
		}
		key := reasonKey(w, fitcalc.Reason{Code: code, Level: fitcalc.Measures, Share: 0.5}, true)
		if strings.Contains(w[key], "before you choose") || !strings.Contains(strings.ToLower(w[key]), "measure") {
			t.Errorf("%v: %q does not say what is left to measure", code, w[key])
		}
	}
}

// Verdicts stand out from every ground of the page, by WCAG 2.2, 1.4.3, in light, dark and print. The colours are those of the style sheet.
func TestVerdictsCanBeRead(t *testing.T) {
	sheet, err := readAll([]string{"page.css"})
	if err != nil {
		t.Fatal(err)
	}
	roots := regexp.MustCompile(`:root, :host \{([^}]*)\}`).FindAllStringSubmatch(sheet, -1)
	if len(roots) != 3 {
		t.Fatalf("%d sets of colours, want those of light, dark and print", len(roots))
	}
	property := regexp.MustCompile(`--(\w+): (#[0-9a-f]{3,6})`)
	for i, medium := range []string{"light", "dark", "print"} {
		colours := map[string]colour{}
		for _, p := range property.FindAllStringSubmatch(roots[i][1], -1) {
			text := p[2]
			if len(text) == 4 {
				text = "#" + strings.Repeat(text[1:2], 2) + strings.Repeat(text[2:3], 2) + strings.Repeat(text[3:4], 2)
			}
			if colours[p[1]], err = parseColour(text); err != nil {
				t.Fatal(err)
			}
		}
		for _, v := range fitcalc.Verdicts() {
			letters, given := colours[v.String()]
			if !given {
				t.Errorf("%s: no colour for %v", medium, v)
			}
			for _, ground := range []string{"ground", "sheet", "band"} {
				if ratio := contrast(letters, colours[ground]); ratio < 4.5 {
					t.Errorf("%s: %v on %s has a contrast of %.2f", medium, v, ground, ratio)
				}
			}
		}
	}
}
