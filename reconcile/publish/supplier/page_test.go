package supplier

import (
	"bytes"
	"regexp"
	"testing"

	"github.com/chromedp/chromedp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/internal/browser"
	"example.com/seatline/reconcile/plan/vet"
	"example.com/seatline/reconcile/publish/tell"
)

func TestMain(m *testing.M) { browser.Run(m) }

func pageOf(t *testing.T, r *vet.Report) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := WriteVetHTML(&out, r, Options{Units: fitcalc.Metric, Inputs: []tell.Input{{Name: "/home/me/sheets/new.csv", Kind: "ferrules"}}}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// The page fits a telephone, and a window of 1,280 pixels shows its tables whole. axe-core finds nothing.
func TestPageFits(t *testing.T) {
	axe := browser.AxeCore(t)
	for name, r := range reports(t) {
		for _, scheme := range []string{"light", "dark"} {
			for _, wide := range []int64{390, 1280} {
				b := browser.Open(t, pageOf(t, r), "", chromedp.EmulateViewport(wide, 800), browser.Media("", scheme))
				if got := browser.Evaluate[int64](b, "document.documentElement.scrollWidth"); got > wide {
					t.Errorf("%s is %d pixels wide on a screen of %d", name, got, wide)
				}
				over := browser.Evaluate[[]string](b, `[...document.querySelectorAll(".scroll")].filter((e) => e.scrollWidth > e.clientWidth + 1).map((e) => e.ariaLabel)`)
				if wide == 1280 && len(over) > 0 {
					t.Errorf("%s: %v do not fit %d pixels", name, over, wide)
				}
				b.Axe(axe, name+" "+scheme)
			}
		}
	}
}

var pdfPage = regexp.MustCompile(`/Type\s*/Page\b`)

// On paper the page is two: the answer, and what it rests on.
func TestPagePrintsOnTwo(t *testing.T) {
	for name, r := range reports(t) {
		b := browser.Open(t, pageOf(t, r), "")
		pdf, err := chromedp.Run(b.Context, chromedp.PrintToPDF())
		if err != nil {
			t.Fatal(err)
		}
		if name == "hostile" { // texts that mean harm are long
			continue
		}
		if got := len(pdfPage.FindAll(pdf, -1)); got != 2 {
			t.Errorf("%s takes %d pages", name, got)
		}
	}
}
