package chart_test

import (
	"bytes"
	"context"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/google/go-cmp/cmp"
	"golang.org/x/net/html"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/chart"
	"example.com/seatline/reconcile/publish/picture"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// manySuppliers has more suppliers than a picture names, one that is not stated, a head of no category and one without an OD.
func manySuppliers(t testing.TB) *matrix.Result {
	t.Helper()
	r := varied(t, 80, 40)
	for i := range r.Catalogue.Heads {
		r.Catalogue.Heads[i].Supplier = fmt.Sprintf("Foundry %d", i%20)
	}
	first, last := &r.Catalogue.Heads[0], &r.Catalogue.Heads[79]
	first.Supplier, first.Category, last.Head.HoselOD = "", fitcalc.AnyCategory, measure.Dim{}
	return matrix.Decide(r.Catalogue, r.Shop)
}

var number = regexp.MustCompile(`\d+`)

// counted are the counts in a picture, by what a reader is told of each bar or column: the number, or it and the whole.
func counted(pictures []*html.Node) []string {
	var all []string
	for _, p := range pictures {
		for _, rect := range within(p, "rect") {
			for _, title := range within(rect, "title") {
				said := text(title)
				all = append(all, strings.Join(number.FindAllString(said[strings.LastIndex(said, ":"):], -1), " of "))
			}
		}
	}
	return all
}

// The pictures of the page show what package picture draws, whatever the language, and no address comes with them.
func TestPictures(t *testing.T) {
	for name, r := range map[string]*matrix.Result{"small": telltest.Small(t), "many suppliers": manySuppliers(t), "empty": telltest.Empty()} {
		for _, units := range []fitcalc.Units{fitcalc.Metric, fitcalc.Fractions} {
			var own bytes.Buffer
			for _, c := range picture.All(r, units) {
				if err := c.WriteSVG(&own, picture.Options{}); err != nil {
					t.Fatal(err)
				}
			}
			want := counted(parse(t, own.Bytes()).all("svg"))
			if len(want) == 0 && name != "empty" {
				t.Fatalf("%s: nothing is counted", name)
			}
			for _, tag := range chart.Languages() {
				section := parse(t, write(t, r, chart.Options{Language: tag, Units: units})).id("pictures")
				if got := len(within(section, "svg")); got != 3 {
					t.Errorf("%s, %s: %d pictures", name, tag, got)
				}
				if diff := cmp.Diff(want, counted(within(section, "svg"))); diff != "" {
					t.Errorf("%s, %s, %v (-want +got):\n%s", name, tag, units, diff)
				}
			}
		}
	}
}

// Titles, legends, what a picture says and how it is read are in the reader's language. Only what appears over a bar under the
// pointer joins its words in English.
func TestPicturesInEveryLanguage(t *testing.T) {
	for name, r := range map[string]*matrix.Result{"many suppliers": manySuppliers(t), "empty": telltest.Empty()} {
		english := []string{"the columns count", "The number at the end", "Nothing to show", "others", "not stated", "hosels with", "up to", "heads:", "ferrules:", "Diameter"}
		for _, c := range picture.All(r, fitcalc.Metric) {
			english = append(english, c.Title, c.Said, c.Note)
		}
		for _, tag := range chart.Languages() {
			section := parse(t, write(t, r, chart.Options{Language: tag})).id("pictures")
			var said strings.Builder
			for _, element := range []string{"h2", "text", "desc"} {
				for _, n := range within(section, element) {
					said.WriteString(text(n) + "\n")
				}
			}
			if open := regexp.MustCompile(`\{\w+\}`).FindString(said.String()); open != "" {
				t.Errorf("%s, %s: %s is left open", name, tag, open)
			}
			for _, phrase := range english {
				if found := strings.Contains(said.String(), phrase); tag != "en" && found {
					t.Errorf("%s, %s: %q is English", name, tag, phrase)
				}
			}
		}
	}
}

// What the English pictures say is right, by counts made here.
func TestPicturesSayTheCounts(t *testing.T) {
	r := telltest.Small(t)
	section := text(parse(t, write(t, r, chart.Options{})).id("pictures"))
	found, fit := 0, 0
	for head := range r.Catalogue.Heads {
		if _, fits := r.Best(head); fits {
			found++
		}
	}
	for p := range r.Pairs() {
		if p.Verdict.Fits() {
			fit++
		}
	}
	hosels, without := 0, 0
	for i := range r.Catalogue.Heads {
		od := r.Catalogue.Heads[i].Head.JointOD()
		if !od.Given() {
			continue
		}
		hosels++
		inSize := false
		for k := range r.Catalogue.Ferrules {
			if base := r.Catalogue.Ferrules[k].Ferrule.BaseOD; base.Given() {
				over := base.Nominal().Sub(od.Nominal())
				inSize = inSize || !over.Less(r.Shop.FlushStep.Neg()) && !r.Shop.TurnLimit.Less(over)
			}
		}
		if !inSize {
			without++
		}
	}
	if without == 0 || without == hosels {
		t.Fatalf("of %d hosels %d have no ferrule in size: the fixture shows nothing", hosels, without)
	}
	for _, want := range []string{
		fmt.Sprintf("Heads that have a ferrule: %d.", found), fmt.Sprintf("Pairs within reach: %d. Of these fit: %d.", r.InReachCount(), fit), fmt.Sprintf("Hosels: %d. Without a ferrule in size: %d (", hosels, without),
		fmt.Sprintf("hosels without (%d)", without), fmt.Sprintf("hosels with a ferrule in size (%d)", hosels-without),
	} {
		if !strings.Contains(section, want) {
			t.Errorf("the pictures do not say %q", want)
		}
	}
}

// media emulates a medium and its colours.
func media(medium, scheme string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Media: medium, Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
		})
		return err
	})
}

// All letters in the pictures stand out from what is behind them, by WCAG 2.2, 1.4.3: axe-core does not look at the text of drawings.
func TestPicturesCanBeRead(t *testing.T) {
	content := write(t, manySuppliers(t), chart.Options{})
	for _, medium := range []string{"screen", "print"} {
		for _, scheme := range []string{"light", "dark"} {
			b := openTab(t, content, "", media(medium, scheme))
			if shown := evaluate[bool](b, "document.getElementById('pictures').offsetHeight > 0"); shown {
				t.Errorf("%s: the pictures are shown before they are asked for", medium)
			}
			evaluate[bool](b, "document.getElementById('show-all').click() || true")
			if shown := evaluate[bool](b, "document.getElementById('pictures').offsetHeight > 500"); !shown {
				t.Errorf("%s: the pictures are not shown with the whole chart", medium)
			}
			type letters struct {
				Text  string
				Ratio float64
			}
			all := evaluate[[]letters](b, `(() => {
				const luminance = (color) => {
					const [r, g, b] = color.match(/[\d.]+/g).map((x) => x / 255).map((x) => x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4);
					return 0.2126 * r + 0.7152 * g + 0.0722 * b;
				};
				const found = [];
				for (const text of document.querySelectorAll("#pictures text")) {
					const box = text.getBoundingClientRect(), x = box.x + box.width / 2, y = box.y + box.height / 2;
					let behind = null;
					for (const rect of text.parentNode.querySelectorAll("rect")) {
						const r = rect.getBoundingClientRect();
						if (r.left <= x && x <= r.right && r.top <= y && y <= r.bottom) behind = rect;
					}
					const a = luminance(getComputedStyle(text).fill), b = luminance(getComputedStyle(behind).fill);
					found.push({text: text.textContent, ratio: (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05)});
				}
				return found;
			})()`)
			if len(all) < 50 {
				t.Errorf("%s, %s: only %d texts", medium, scheme, len(all))
			}
			for _, l := range all {
				if l.Ratio < 4.5 {
					t.Errorf("%s, %s: %q has a contrast of %.2f", medium, scheme, l.Text, l.Ratio)
				}
			}
			if wide := evaluate[bool](b, "document.documentElement.scrollWidth > document.documentElement.clientWidth"); wide {
				t.Errorf("%s: wider than the page", medium)
			}
		}
	}
}

func TestPicturesWithoutScript(t *testing.T) {
	off := chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		return err
	})
	b := openTab(t, write(t, telltest.Small(t), chart.Options{}), "", off, chromedp.EmulateViewport(360, 740, chromedp.EmulateMobile))
	heights := evaluate[[]float64](b, "[...document.querySelectorAll('#pictures svg')].map((s) => s.getBoundingClientRect().height)")
	if len(heights) != 3 || heights[0] < 200 || heights[1] < 100 || heights[2] < 100 {
		t.Errorf("heights of the pictures: %v", heights)
	}
	if wide := evaluate[int](b, "document.documentElement.scrollWidth"); wide > 360 {
		t.Errorf("%d pixels wide on a screen of 360", wide)
	}
}
