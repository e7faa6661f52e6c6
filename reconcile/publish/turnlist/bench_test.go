package turnlist

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"
	"github.com/google/go-cmp/cmp"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/internal/browser"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/tell/telltest"
	"example.com/seatline/reconcile/samples"
	"example.com/seatline/reconcile/sheet"
	"example.com/seatline/reconcile/sheet/open"
)

func TestMain(m *testing.M) { browser.Run(m) }

// benchOf is the list of the best ferrules of a result, open in the browser.
func benchOf(t *testing.T, r *matrix.Result, before ...chromedp.Action[chromedp.Void]) *browser.Tab {
	t.Helper()
	b := browser.Open(t, asHTML(t, New(r, Best(r, nil), Options{ShopName: "Harrowpike Bench"})), "", before...)
	b.Do(chromedp.Func(func(context.Context, *chromedp.Target) error { return nil }))
	browser.Evaluate[bool](b, "localStorage.clear() || true") // what another test kept
	b.Reload()
	return b
}

// hosels are the inputs of a list, and at is one of them by its part.
const hosels = `[...document.querySelectorAll(".pieces input[type=text]")]`

func focus(b *browser.Tab, part string) {
	b.T.Helper()
	if !browser.Evaluate[bool](b, `(() => { const i = document.querySelector('li[data-part="`+part+`"] input[type=text]'); i.focus(); return document.activeElement === i; })()`) {
		b.T.Fatalf("%s takes no focus", part)
	}
}

// Sizes that are typed, by hand or by calipers that end with Enter, say at once what to stop at. The joints: TF-610 is .500 in with a
// ferrule of .501 in; TF-640 .510 in with .515 in; TF-900 12.7 mm with .501 in; QM-1W .450 in with .462 in. The step is .002 in.
func TestSaysWhereToStop(t *testing.T) {
	b := benchOf(t, telltest.Small(t))
	for _, test := range []struct{ part, typed, want string }{
		{"TF-640", "12.97", "Stop between 12.97 and 13.02 mm Take off 0.111 mm on the diameter, 0.056 mm per side."},
		{"TF-640", ".511", "Stop between 12.98 and 13.03 mm Take off 0.102 mm on the diameter, 0.051 mm per side."}, // .511 in is 12.9794 mm
		{"TF-610", "12.74 mm", "Nothing to turn The ferrule as supplied ends flush with this hosel."},
		{"TF-900", "12.78", "Do not fit: too small The ferrule as supplied is 0.055 mm under this hosel. Take a larger one."},
		{"QM-1W", "11,43", "Stop between 11.43 and 11.48 mm Take off 0.305 mm on the diameter, 0.152 mm per side."},
		{"QM-1W", "10.6", "Stop between 10.60 and 10.65 mm That is 0.83 mm from the size on the sheet: measure again, or look for the right head. " +
			"Take off 1.135 mm on the diameter, 0.567 mm per side. That is more than the shop turns."},
		{"QM-1W", "3", "Not read Say whether that is in or mm."},
		{"QM-1W", "wide", "Not read That is not a size. Type it like 12.91 mm or .508 in."},
		{"QM-1W", "0", "Not read That is no hosel."},
		{"QM-1W", "", ""},
	} {
		focus(b, test.part)
		browser.Evaluate[bool](b, "document.activeElement.select() || true")
		b.Press("\b" + test.typed)
		got := strings.Join(strings.Fields(b.Text(`li[data-part="`+test.part+`"] output`)), " ")
		if got != test.want {
			t.Errorf("%s with %q: %q, want %q", test.part, test.typed, got, test.want)
		}
	}
}

// A caliper types a size and Enter, and the next piece is to be measured. What was typed and ticked is there when the page is loaded
// again, and not in another list.
func TestKeepsWhatIsTyped(t *testing.T) {
	r := telltest.Small(t)
	b := benchOf(t, r)
	focus(b, "TF-610")
	b.Press("12.71\r12.98\r")
	if got := browser.Evaluate[string](b, `document.activeElement.closest("li").dataset.part`); got != "TF-900" {
		t.Errorf("after two sizes %s is next, want TF-900", got)
	}
	b.Do(chromedp.Focus(chromedp.CSS(`li[data-part="TF-640"] input[type=checkbox]`)))
	b.Press(" ")
	check := func(when, values, count string) {
		t.Helper()
		if got := browser.Evaluate[string](b, hosels+`.map((i) => i.value).join()`); got != values {
			t.Errorf("%s: %q is typed, want %q", when, got, values)
		}
		if got := b.Text("#count"); got != count {
			t.Errorf("%s: %q, want %q", when, got, count)
		}
	}
	check("typed", "12.71,12.98,,,", "1 of 5 done, 2 measured")
	b.Reload()
	check("again", "12.71,12.98,,,", "1 of 5 done, 2 measured")

	other := browser.Open(t, asHTML(t, New(r, Best(r, nil), Options{Title: "Another"})), "")
	if got := other.Text("#count"); got != "0 of 5 done, 0 measured" {
		t.Errorf("another list has %q", got)
	}

	focusOn := func() { b.Do(chromedp.Focus(chromedp.CSS("#clear"))) }
	focusOn()
	b.Press("\r")
	check("asked", "12.71,12.98,,,", "1 of 5 done, 2 measured")
	b.Press("\r")
	check("cleared", ",,,,", "0 of 5 done, 0 measured")
}

// What the page saves is what --measured reads: the loop from the bench to the next list.
func TestSavedReadingsAreRead(t *testing.T) {
	r, dir := telltest.Small(t), t.TempDir()
	b := benchOf(t, r)
	b.Do(chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{
			Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir,
		})
		return err
	}))
	if !browser.Evaluate[bool](b, `document.getElementById("save").disabled`) {
		t.Error("nothing can be saved")
	}
	for part, typed := range map[string]string{"TF-610": ".4995", "TF-640": "12.98", "QM-1W": "11.5"} {
		focus(b, part)
		b.Press(typed)
	}
	b.Do(chromedp.Focus(chromedp.CSS("#save")))
	b.Press("\r")
	b.Wait(`document.getElementById("saved").textContent.includes("--measured readings-")`)
	content := downloaded(t, dir)
	const want = "part,supplier,measured,reading (mm)\r\nTF-610,,hosel OD,12.6873\r\nTF-640,,hosel OD,12.98\r\nQM-1W,,adapter OD,11.50\r\n"
	if diff := cmp.Diff(want, string(content)); diff != "" {
		t.Errorf("the readings (-want +got):\n%s", diff)
	}

	book, err := open.Bytes("readings.csv", content)
	if err != nil {
		t.Fatal(err)
	}
	c := samples.Apply(r.Catalogue, []*sheet.Book{book}, samples.Options{Shop: fitcalc.DefaultShop()})
	sizes := map[string]string{}
	for _, h := range c.Heads {
		for name, od := range map[string]measure.Dim{"hosel": h.Head.HoselOD, "adapter": h.Head.Adapter.TopOD} {
			if od.Origin() == measure.Measured {
				sizes[h.Part+" "+name] = od.Nominal().String()
			}
		}
	}
	if diff := cmp.Diff(map[string]string{"TF-610 hosel": "12.6873 mm", "TF-640 hosel": "12.98 mm", "QM-1W adapter": "11.5 mm"}, sizes); diff != "" {
		t.Errorf("sizes measured (-want +got):\n%s\n%v", diff, c.Findings)
	}
}

// downloaded is the one file that a page has saved.
func downloaded(t *testing.T, dir string) []byte {
	t.Helper()
	for range 200 {
		files, err := filepath.Glob(filepath.Join(dir, "readings-*.csv"))
		if err != nil {
			t.Fatal(err)
		}
		if len(files) == 1 {
			content, err := os.ReadFile(files[0])
			if err != nil {
				t.Fatal(err)
			}
			return content
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Fatal("nothing was saved")
	return nil
}

// Part numbers that a spreadsheet program would take for formulas, or with commas and quotes, come back as what they are.
func TestSavedReadingsOfAwkwardParts(t *testing.T) {
	r := telltest.Awkward(t)
	b := benchOf(t, r)
	browser.Evaluate[bool](b, hosels+`.forEach((i) => { i.value = "12.7"; i.dispatchEvent(new Event("input", {bubbles: true})); }) || true`)
	book, err := open.Bytes("readings.csv", []byte(browser.Evaluate[string](b, `document.getElementById("text").value`)))
	if err != nil {
		t.Fatal(err)
	}
	var got, want []string
	for _, row := range book.Sheets[0].Rows[1:] {
		got = append(got, clean(strings.TrimPrefix(row[0].Shown, "'")))
	}
	for _, j := range New(r, Best(r, nil), Options{}).Joints {
		for _, p := range j.Pieces() {
			want = append(want, strings.TrimPrefix(p.Head.Part, "'"))
		}
	}
	if diff := cmp.Diff(want, got); diff != "" || len(got) < 5 {
		t.Errorf("parts (-want +got):\n%s", diff)
	}
}

// On a telephone nothing runs out of the screen, and what is to be touched is large enough for a finger. axe-core finds nothing.
func TestBenchOnATelephone(t *testing.T) {
	for _, scheme := range []string{"light", "dark"} {
		b := benchOf(t, telltest.Awkward(t), chromedp.EmulateViewport(390, 800, chromedp.EmulateMobile), browser.Media("", scheme))
		if wide := browser.Evaluate[int](b, "document.documentElement.scrollWidth"); wide > 390 {
			t.Errorf("%d pixels wide on a screen of 390", wide)
		}
		small := browser.Evaluate[[]string](b, `[...document.querySelectorAll("button, summary, label, input[type=text]")]
			.filter((e) => e.offsetParent && e.offsetHeight < 40).map((e) => e.outerHTML)`)
		if len(small) > 0 {
			t.Errorf("too small for a finger: %v", small)
		}
	}
}

func TestBenchAxe(t *testing.T) {
	axe := browser.AxeCore(t)
	for _, scheme := range []string{"light", "dark"} {
		b := benchOf(t, telltest.Small(t), chromedp.EmulateViewport(390, 800), browser.Media("", scheme))
		browser.Evaluate[bool](b, `document.querySelectorAll("details").forEach((d) => { d.open = true; }) || true`)
		for part, typed := range map[string]string{"TF-610": "12.7", "TF-640": "12.98", "TF-900": "12.9", "QM-1W": "wide"} {
			focus(b, part)
			b.Press(typed)
		}
		b.Axe(axe, scheme)
	}
}

// Printed, the page is the list for the wall, with what was typed in its boxes.
func TestBenchPrinted(t *testing.T) {
	b := benchOf(t, telltest.Small(t))
	focus(b, "TF-640")
	b.Press("12.98")
	b.Do(browser.Media("print", ""))
	shown := b.Text("body")
	for _, want := range []string{"Harrowpike Bench", "Hosel measured", "12.98 mm", "Dust and fingers", "12.96 to 13.00 mm"} {
		if !strings.Contains(shown, want) {
			t.Errorf("the print does not have %q", want)
		}
	}
	for _, control := range []string{"Save readings", "Clear ticks", "Not read"} {
		if strings.Contains(shown, control) {
			t.Errorf("the print has the control %q", control)
		}
	}
	b.Do(browser.Media("screen", ""))
	if shown := b.Text("body"); strings.Contains(shown, "Finished measured") || !strings.Contains(shown, "Save readings") {
		t.Error("the screen shows the paper, or not the page")
	}
	if !slices.Contains([]string{"none"}, browser.Evaluate[string](b, `getComputedStyle(document.querySelector(".paper")).display`)) {
		t.Error("the paper takes room on the screen")
	}
}
