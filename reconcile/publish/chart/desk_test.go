package chart_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"golang.org/x/text/unicode/norm"

	"example.com/seatline/examples/shop/shoptest"
	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/internal/browser"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/chart"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

// named is the small catalogue with part numbers as foundries write them.
func named(t *testing.T) *matrix.Result {
	r := telltest.Small(t)
	irons := []string{"OW-M17", "OW-M1-7", "7-IRON-X", "OW-M1-8"}
	for i, part := range irons {
		h := &r.Catalogue.Heads[i]
		h.Part, h.Description, h.Category = part, "cavity back", fitcalc.Iron
		h.Head.Category = fitcalc.Iron
	}
	return matrix.Decide(r.Catalogue, r.Shop)
}

// People leave out hyphens and turn words around.
func TestSearch(t *testing.T) {
	r := named(t)
	b := openTab(t, write(t, r, chart.Options{Language: "de"}), "")
	part := func(i int) string { return r.Catalogue.Heads[i].Part }
	for typed, want := range map[string][]string{
		// OW-M17 and OW-M1-7 are one without their hyphens.
		"OWM17": {"OW-M17", "OW-M1-7"}, "OW-M17": {"OW-M17", "OW-M1-7"}, "ow m17": {"OW-M17", "OW-M1-7"}, "ow-m1-8": {"OW-M1-8"}, "owm18": {"OW-M1-8"},
		"7 iron": {"7-IRON-X", "OW-M1-7"}, "iron 7": {"OW-M1-7", "7-IRON-X"}, "7-iron": {"7-IRON-X", "OW-M1-7"}, "7iron": {"7-IRON-X", "OW-M1-7"}, "Eisen 7": {"OW-M1-7", "7-IRON-X"},
		"7 irons": {"7-IRON-X", "OW-M1-7"}, "nothing of the kind": nil,
	} {
		var got []string
		for _, i := range evaluate[[]int](b, "search.heads("+quote(typed)+")") {
			got = append(got, part(i))
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s finds %v, want %v", typed, got, want)
		}
	}
}

// The first view is the kinds of head; each opens as a chart of its heads, every one of them once.
func TestKindsOfHead(t *testing.T) {
	r := telltest.Small(t)
	b := openTab(t, write(t, r, chart.Options{}), "")
	want := map[string][]string{}
	for i := range r.Catalogue.Heads {
		h := &r.Catalogue.Heads[i]
		want[h.Category.String()] = append(want[h.Category.String()], h.Part)
	}
	if got := evaluate[int](b, "document.querySelectorAll('.kind').length"); got != len(want) {
		t.Errorf("%d kinds are shown, want %d", got, len(want))
	}
	if got := evaluate[int](b, "document.querySelectorAll('.kind svg .hosel').length"); got < 2 {
		t.Errorf("only %d of them have a picture", got)
	}
	for kind := fitcalc.Driver; kind <= fitcalc.Chipper; kind++ {
		parts := want[kind.String()]
		if len(parts) == 0 {
			continue
		}
		at := evaluate[int](b, fmt.Sprintf("[...document.querySelectorAll('.kind')].findIndex((k) => k.querySelector('strong').textContent === say.categoryName(%d))", int(kind)))
		b.Do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf("void document.querySelectorAll('.kind')[%d].click()", at)))
		got := evaluate[[]string](b, "[...document.querySelectorAll('#answer tbody th .pick')].map((e) => e.textContent)")
		slices.Sort(got)
		slices.Sort(parts)
		if !slices.Equal(got, parts) {
			t.Errorf("%v: the chart has %v, the catalogue %v", kind, got, parts)
		}
		if hash := evaluate[string](b, "location.hash"); hash != "#kind="+kind.String() {
			t.Errorf("%v: the address is %s", kind, hash)
		}
		b.Do(chromedp.Evaluate[chromedp.Void]("void document.querySelector('#answer-body .tools button').click()"))
	}
}

// What is saved is what is shown, with the decimal mark of the reader's country, and no text becomes a formula.
func TestSavesCSV(t *testing.T) {
	r := telltest.Small(t)
	b := openTab(t, write(t, r, chart.Options{Language: "de"}), "#head=TF-610")
	saved := evaluate[[][]any](b, `(() => {
		let saved;
		share.save = (name, rows) => { saved = rows; };
		document.getElementById("answer-save").click();
		return saved;
	})()`)
	fits := 0
	for _, p := range r.HeadPairs(0) {
		if p.Verdict.Fits() {
			fits++
			fit := r.Fit(p)
			row := saved[fits]
			if want := r.Catalogue.Ferrules[p.Ferrule].Part; row[0] != want {
				t.Errorf("row %d is %v, want %s", fits, row[0], want)
			}
			if off := fit.Flush.TurnDown.Nominal; fit.Verdict == fitcalc.Turn && !off.IsZero() {
				if got := fmt.Sprintf("%.4f", row[7]); got != strings.TrimSpace(fmt.Sprintf("%.4f", float64(off.Picometres())/1e9)) {
					t.Errorf("row %d: %v mm off, the library %v", fits, got, off)
				}
			}
		}
	}
	if len(saved) != fits+1 {
		t.Errorf("%d rows for %d ferrules and the headings", len(saved), fits)
	}
	if got := evaluate[string](b, `share.csv([["=1+1", "a;b", "c\"d", 12.5, "-x"]])`); got != "\ufeff'=1+1;\"a;b\";\"c\"\"d\";12,5;'-x\r\n" {
		t.Errorf("%q", got)
	}
}

// Numbers are written as in the page's language.
func TestNumbersInTheLanguage(t *testing.T) {
	r := telltest.Small(t)
	f := &r.Catalogue.Ferrules[0]
	f.Price, f.HasPrice, f.Fields = 1234.5, true, catalog.FieldsOf(map[catalog.Role]catalog.Field{catalog.Price: {Text: "1234.5 EUR"}})
	for language, want := range map[string][]string{"en": {"12,345", "€1,234.50", "13.60 mm"}, "de": {"12.345", "1.234,50 €", "13,60 mm"}, "fr": {"12 345", "1 234,50 €", "13,60 mm"}} {
		b := openTab(t, write(t, r, chart.Options{Language: language, Prices: true}), "")
		got := evaluate[[]string](b, "[say.count(12345), say.price(answers.data.ferrules.price[0]), say.brief(13600000000)]")
		for i := range want {
			if plain := strings.Join(strings.Fields(norm.NFKC.String(got[i])), " "); plain != want[i] {
				t.Errorf("%s: %q, want %q", language, plain, want[i])
			}
		}
	}
}

// What was typed is read back with the reader's decimal mark, whichever was typed.
func TestReadsBackInTheLanguage(t *testing.T) {
	b := openTab(t, write(t, telltest.Small(t), chart.Options{Language: "de"}), "#od=13.25+mm")
	if got, want := b.Text("#od-read"), "gelesen als 13,25 mm = 0,5217 in"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestCopiesLink(t *testing.T) {
	b := openTab(t, write(t, telltest.Small(t), chart.Options{}), "#head=TF-610")
	evaluate[bool](b, `(() => { Object.defineProperty(navigator, "clipboard", {value: {writeText: async (text) => { window.copied = text; }}}); document.getElementById("answer-link").click(); return true; })()`)
	b.Wait("document.getElementById('copied').textContent !== ''")
	if got := evaluate[string](b, "window.copied"); !strings.HasSuffix(got, "page.html#head=TF-610") {
		t.Errorf("%q was copied", got)
	}
}

// Filters leave the ferrules that have what was asked for, and say so where there is none.
func TestFilters(t *testing.T) {
	r := telltest.Small(t)
	for i := range r.Catalogue.Ferrules {
		r.Catalogue.Ferrules[i].Colour = []string{"black", "red"}[i%2]
	}
	r = matrix.Decide(r.Catalogue, r.Shop)
	b := openTab(t, write(t, r, chart.Options{}), "#head=TF-610&only-colour=red")
	var want []string
	for _, p := range r.HeadPairs(0) {
		if f := &r.Catalogue.Ferrules[p.Ferrule]; p.Verdict.Fits() && f.Colour == "red" {
			want = append(want, f.Part)
		}
	}
	shown := func() []string {
		return evaluate[[]string](b, "[...document.querySelectorAll('#answer .fitting .pick')].map((e) => e.textContent)")
	}
	if got := shown(); !slices.Equal(got, want) || len(want) == 0 {
		t.Errorf("red: %v, want %v", got, want)
	}
	choose := func(id, value string) {
		evaluate[bool](b, fmt.Sprintf("(document.getElementById(%q).value = %s, document.getElementById(%[1]q).dispatchEvent(new Event('change')))", id, value))
	}
	choose("only-colour", "''")
	if got := len(shown()); got <= len(want) {
		t.Errorf("only %d ferrules without the filter", got)
	}
	choose("only-tip", "[...document.getElementById('only-tip').options].at(-1).value")
	if got := b.Text("#answer-body"); len(shown()) > 0 || !strings.Contains(got, "Nothing has all that was asked for.") {
		t.Errorf("on a tip that the head does not take: %v, %q", shown(), got)
	}
	evaluate[bool](b, "document.querySelector('#answer-body .empty button').click() || true")
	if got := len(shown()); got <= len(want) {
		t.Errorf("%d ferrules after the filters were taken away", got)
	}
}

// Two ferrules stand side by side, each with its section and its own numbers.
func TestCompares(t *testing.T) {
	r := telltest.Small(t)
	b := openTab(t, write(t, r, chart.Options{}), "#head=TF-610")
	pairs := r.HeadPairs(0)
	other := r.Catalogue.Ferrules[pairs[1].Ferrule]
	evaluate[bool](b, fmt.Sprintf("(document.getElementById('beside').value = '%d', document.getElementById('beside').dispatchEvent(new Event('change')))", pairs[1].Ferrule))
	if got := evaluate[int](b, "document.querySelectorAll('.beside svg.section').length"); got != 2 {
		t.Errorf("%d sections, want two", got)
	}
	text := strings.Join(strings.Fields(b.Text(".beside")), " ")
	for _, want := range []string{other.Part, r.Catalogue.Ferrules[pairs[0].Ferrule].Part, strings.Join(strings.Fields(fitcalc.Metric.Show(other.Ferrule.BaseOD.Nominal())), " ")} {
		if !strings.Contains(text, want) {
			t.Errorf("%q does not say %s", text, want)
		}
	}
	if got := b.focus(); got != "beside" {
		t.Errorf("the focus went to %q", got)
	}
}

// The list is in the address, counts pieces, adds prices up, and prints alone.
func TestOrderList(t *testing.T) {
	r := telltest.Small(t)
	b := openTab(t, write(t, r, chart.Options{}), "#head=TF-610")
	best := r.Catalogue.Ferrules[r.HeadPairs(0)[0].Ferrule].Part
	b.Do(chromedp.SetValue(chromedp.ID("pieces"), "8"), chromedp.Click(".adder button"))
	if got := b.Text("#order"); !strings.Contains(got, best) || !strings.Contains(got, "Pieces: 8") {
		t.Errorf("the list says %q", got)
	}
	hash := evaluate[string](b, "decodeURIComponent(location.hash)")
	if !strings.Contains(hash, "order="+best+"*8") {
		t.Errorf("the address is %s", hash)
	}
	again := openTab(t, write(t, r, chart.Options{}), "#order="+best+"*8+nothing*3+HM-21*99999999+HM-35*0")
	if got := evaluate[int](again, "document.querySelectorAll('#order tbody tr').length"); got != 1 {
		t.Errorf("%d lines, want that of %s alone", got, best)
	}
	evaluate[bool](again, "(page.top.classList.add('only-order'), true)")
	again.Do(browser.Media("print", ""))
	if got := again.Text("main"); !strings.Contains(got, best) || strings.Contains(got, "Which kind of head") || strings.Contains(got, "Remove") || strings.Contains(got, "Before you start") {
		t.Errorf("the print has %q", got)
	}
	evaluate[bool](b, "document.getElementById('order-clear').click() || true")
	if hidden := evaluate[bool](b, "document.getElementById('order').offsetHeight === 0"); !hidden {
		t.Error("an empty list is shown")
	}
}

// The reader's unit comes first, in the answer, in the whole chart and in the address.
func TestUnitSwitch(t *testing.T) {
	r := telltest.Small(t)
	b := openTab(t, write(t, r, chart.Options{}), "#head=TF-610")
	evaluate[bool](b, "document.querySelector('input[name=unit][value=in]').click() || document.getElementById('show-all').click() || true")
	od := r.Catalogue.Heads[0].Head.HoselOD.Nominal()
	want := strings.Join(strings.Fields(fitcalc.Imperial.Show(od)), " ")
	for _, place := range []string{"#answer .facts", "#all-sheets"} {
		all := norm.NFKC.String(evaluate[string](b, "document.querySelector("+quote(place)+").textContent"))
		if got := strings.Join(strings.Fields(all), " "); !strings.Contains(got, want) {
			t.Errorf("%s: %q does not say %s", place, got, want)
		}
	}
	if hash := evaluate[string](b, "location.hash"); hash != "#head=TF-610&units=in" {
		t.Errorf("the address is %s", hash)
	}
	missing := evaluate[[]string](b, `data_parts().filter((p) => !document.getElementById("all-sheets").textContent.includes(p)); function data_parts() { return answers.data.heads.part; }`)
	if len(missing) > 0 {
		t.Errorf("the whole chart in inches lacks %v", missing)
	}
}

// A part number stands in one line on any screen: who copies half of it orders the wrong part.
func TestPartNumbersAreNotBroken(t *testing.T) {
	r := telltest.Small(t)
	long := "VX-37-0S-11-BK"
	r.Catalogue.Ferrules[r.HeadPairs(0)[0].Ferrule].Part = long
	for _, fragment := range []string{"", "#kind=iron", "#head=TF-610", "#ferrule=" + long} {
		b := openTab(t, write(t, r, chart.Options{Columns: chart.Columns()}), fragment, chromedp.EmulateViewport(320, 700, chromedp.EmulateMobile))
		evaluate[bool](b, "document.getElementById('show-all').click() || true")
		broken := evaluate[[]string](b, "[...document.querySelectorAll('.part, #all b:not(.v)')].filter((e) => new Set([...e.getClientRects()].map((r) => r.top)).size > 1).map((e) => e.textContent)")
		if len(broken) > 0 {
			t.Errorf("%s: broken: %v", fragment, broken)
		}
		if fragment != "" && fragment != "#kind=iron" {
			if n := evaluate[int](b, "[...document.querySelectorAll('.part')].filter((e) => e.textContent === "+quote(long)+").length"); n == 0 {
				t.Errorf("%s: %s is not marked as a part number", fragment, long)
			}
		}
	}
}

// Search engines read what the page is about: every ferrule by its number, with its maker and its price.
func TestStructuredData(t *testing.T) {
	r := telltest.Small(t)
	for i := range r.Catalogue.Ferrules {
		f := &r.Catalogue.Ferrules[i]
		f.Colour = "</script>black"
	}
	content := write(t, r, chart.Options{ShopName: "Harrowpike Bench"})
	var page struct {
		Context    string `json:"@context"`
		Type       string `json:"@type"`
		MainEntity struct {
			Type     string `json:"@type"`
			Elements []struct {
				Type, SKU, Color, Description string
				Brand                         struct{ Name string }
			} `json:"itemListElement"`
		}
	}
	for _, n := range parse(t, content).all("script") {
		if attribute(n, "type") == "application/ld+json" {
			if err := json.Unmarshal([]byte(text(n)), &page); err != nil {
				t.Fatal(err)
			}
		}
	}
	if page.Context != "https://schema.org" || page.Type != "WebPage" || page.MainEntity.Type != "ItemList" || len(page.MainEntity.Elements) != len(r.Catalogue.Ferrules) {
		t.Fatalf("%+v", page)
	}
	for i, e := range page.MainEntity.Elements {
		f := &r.Catalogue.Ferrules[i]
		if e.SKU != f.Part || e.Color != f.Colour || e.Brand.Name != f.Supplier {
			t.Errorf("%+v, want %s", e, f.Part)
		}
		if l := f.Ferrule.Length; l.Given() && !strings.Contains(strings.Join(strings.Fields(e.Description), " "), strings.Join(strings.Fields(fitcalc.Metric.Show(l.Nominal())), " ")) {
			t.Errorf("%q does not say how long it is", e.Description)
		}
	}
}

// The demo's chart is what a visitor of the seller's site waits for.
func TestDemoIsSmall(t *testing.T) {
	r := matrix.Decide(reader.Read(shoptest.Inputs(t), reader.Options{}), fitcalc.DefaultShop())
	content := write(t, r, chart.Options{ShopName: "Harrowpike Bench"})
	if most := 350_000; len(content) > most {
		t.Errorf("%d bytes, at most %d", len(content), most)
	}
}

func embedded(t *testing.T, r *matrix.Result, opts chart.Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := chart.WriteEmbed(&b, r, opts); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// In a seller's page the chart is one element: the strictest policy admits it with its script alone, the page's style does not reach into
// it, and it leaves neither a style nor a name nor an address behind.
func TestEmbed(t *testing.T) {
	r := telltest.Small(t)
	script := embedded(t, r, chart.Options{Language: "fr"})
	if at := strings.IndexFunc(script, func(r rune) bool { return r >= 0x80 }); at >= 0 || strings.Contains(script, "</script") {
		t.Errorf("not plain ASCII from %.40q on", script[max(0, at):])
	}
	host := `<!doctype html><html lang="fr"><head><title>Boutique</title><meta charset="utf-8"><meta http-equiv="Content-Security-Policy"
		content="default-src 'none'; style-src 'nonce-h'; script-src 'nonce-s'; require-trusted-types-for 'script'">
		<style nonce="h">* { color: #f00 !important; } button, table { display: none; } .page { font: 40px serif; } main { padding: 20px; }</style></head><body>
		<main><h1>Boutique</h1><fit-chart></fit-chart></main>
		<script nonce="s">window.before = Object.getOwnPropertyNames(window); window.sizes = []; addEventListener("fit-chart-size", (e) => sizes.push(e.detail.height));</script>
		<script nonce="s">` + script + `</script></body></html>`
	b := openTab(t, []byte(host), "#here")
	b.Wait("document.querySelector('fit-chart').shadowRoot.querySelectorAll('.kind').length > 1 && sizes.length > 0")
	if names := evaluate[[]string](b, "Object.getOwnPropertyNames(window).filter((n) => !before.includes(n) && n !== 'before' && n !== 'sizes')"); len(names) > 0 {
		t.Errorf("names left behind: %v", names)
	}
	if sheets := evaluate[int](b, "document.styleSheets.length + document.adoptedStyleSheets.length"); sheets != 1 {
		t.Errorf("%d style sheets in the page, want its own", sheets)
	}
	before := evaluate[float64](b, "sizes.at(-1)")
	evaluate[bool](b, "document.querySelector('fit-chart').shadowRoot.querySelector('.kind').click() || true")
	b.Wait(fmt.Sprintf("sizes.at(-1) !== %v", before))
	b.Wait("Math.abs(sizes.at(-1) - document.querySelector('fit-chart').offsetHeight) < 1")
	seen := evaluate[[]string](b, `(() => {
		const root = document.querySelector("fit-chart").shadowRoot, button = root.querySelector("#answer tbody .pick");
		button.click();
		return [root.getElementById("answer-title").textContent, getComputedStyle(root.querySelector("#answer-body")).color, getComputedStyle(root.getElementById("answer-link")).display, location.hash,
			String(root.querySelector("svg.section .hosel") !== null && root.querySelector("svg.section").namespaceURI)];
	})()`)
	part := r.Catalogue.Heads[0].Part
	if !slices.ContainsFunc(r.Catalogue.Heads, func(h catalog.Head) bool { return strings.HasSuffix(seen[0], h.Part) }) || seen[1] == "rgb(255, 0, 0)" || seen[2] == "none" || seen[3] != "#here" {
		t.Errorf("%q, want an answer in the chart's own style, such as for %s", seen, part)
	}
	b.Axe(browser.AxeCore(t), "embedded")
}

// A link that was copied in a seller's page leads to the same answer there.
func TestEmbedLink(t *testing.T) {
	script := embedded(t, telltest.Small(t), chart.Options{})
	host := "<!doctype html><html lang=\"en\"><title>Shop</title><fit-chart></fit-chart><script>" + script + "</script>"
	b := openTab(t, []byte(host), "#fit-chart:head=TF-610")
	if got := evaluate[string](b, "document.querySelector('fit-chart').shadowRoot.getElementById('answer-title').textContent"); got != "Ferrules for TF-610" {
		t.Errorf("the answer is %q", got)
	}
	evaluate[bool](b, `(() => { Object.defineProperty(navigator, "clipboard", {value: {writeText: async (text) => { window.copied = text; }}}); document.querySelector("fit-chart").shadowRoot.getElementById("answer-link").click(); return true; })()`)
	b.Wait("window.copied !== undefined")
	if got := evaluate[string](b, "window.copied"); !strings.HasSuffix(got, "page.html#fit-chart:head=TF-610") {
		t.Errorf("%q was copied", got)
	}
}

// A page in a frame tells the page around it how high it is.
func TestFrameTellsItsHeight(t *testing.T) {
	content := write(t, telltest.Small(t), chart.Options{})
	host := "<!doctype html><html lang=\"en\"><title>Shop</title><script>addEventListener('message', (e) => { window.told = e.data.fitChart; });</script><iframe title=\"chart\" width=\"900\" srcdoc=\"" +
		html.EscapeString(string(content)) + "\"></iframe>"
	b := openTab(t, []byte(host), "")
	b.Wait("window.told !== undefined && window.told.height > 300")
}
