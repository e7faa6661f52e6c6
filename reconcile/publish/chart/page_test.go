package chart_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"golang.org/x/net/html"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/chart"
	"example.com/seatline/reconcile/publish/tell/telltest"
)

func write(t testing.TB, r *matrix.Result, opts chart.Options) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := chart.Write(&b, r, opts); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// document is a page as a browser without its script sees it.
type document struct {
	t    testing.TB
	root *html.Node
}

func parse(t testing.TB, content []byte) document {
	t.Helper()
	root, err := html.Parse(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	return document{t, root}
}

// all returns the elements of a name, "" for every element.
func (d document) all(name string) []*html.Node { return within(d.root, name) }

func within(root *html.Node, name string) []*html.Node {
	var found []*html.Node
	for n := range root.Descendants() {
		if n.Type == html.ElementNode && (name == "" || n.Data == name) {
			found = append(found, n)
		}
	}
	return found
}

func (d document) id(id string) *html.Node {
	d.t.Helper()
	for _, n := range d.all("") {
		if attribute(n, "id") == id {
			return n
		}
	}
	d.t.Fatalf("no element with the id %s", id)
	return nil
}

func attribute(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func text(n *html.Node) string {
	var b strings.Builder
	for c := range n.Descendants() {
		if c.Type == html.TextNode {
			b.WriteString(c.Data)
		}
	}
	return b.String()
}

// chartData is the part of a page's data that tests look at.
type chartData struct {
	Columns   []string
	Suppliers []string
	Limits    struct{ Measured int64 }
	Tips      []struct{ Name string }
	Heads     struct {
		Part, Description   []string
		OD, Hosel, Answer   []int
		Tips, Assumed       []int
		Supplier, Category_ []int
	}
	Ferrules struct {
		Part, Description []string
		Form, Colour      []int
		Price             []float64
	}
	Hosels []struct {
		Top        int
		Tips, Rows []int
	}
	Bench    []struct{ Top, Hosel int }
	Outcomes [][]int
	Answers  [][]int
	Shapes   [][]json.RawMessage
	Courses  [][]int
	Rows     [][]int64
	Dims     [][3]int64
}

func (d document) data() (raw []byte, chart chartData) {
	d.t.Helper()
	raw = []byte(text(d.id("chart-data")))
	if err := json.Unmarshal(raw, &chart); err != nil {
		d.t.Fatal(err)
	}
	return raw, chart
}

// results are catalogues small and large, tame and wild.
func results(t testing.TB) map[string]*matrix.Result {
	return map[string]*matrix.Result{
		"small": telltest.Small(t), "awkward": telltest.Awkward(t), "large": telltest.Large(t, 600, 40), "varied": varied(t, 160, 60),
		"empty": telltest.Empty(),
	}
}

func TestDataMeetsItsSchema(t *testing.T) {
	described, err := jsonschema.UnmarshalJSON(bytes.NewReader(chart.Schema()))
	if err != nil {
		t.Fatal(err)
	}
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource("chart.json", described); err != nil {
		t.Fatal(err)
	}
	schema, err := compiler.Compile("chart.json")
	if err != nil {
		t.Fatal(err)
	}
	if schema.DraftVersion != 2020 {
		t.Errorf("draft %d", schema.DraftVersion)
	}
	for name, r := range results(t) {
		raw, _ := parse(t, write(t, r, chart.Options{Prices: true, Columns: chart.Columns()})).data()
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(raw))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(value); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		value.(map[string]any)["version"] = json.Number("2")
		if schema.Validate(value) == nil {
			t.Errorf("%s: the schema lets another version pass", name)
		}
	}
}

// Nothing may be fetched: there is no address of anything outside the page, and the policy forbids it too.
func TestNothingFromOutside(t *testing.T) {
	png := []byte("\x89PNG\r\n\x1a\n........")
	content := write(t, telltest.Small(t), chart.Options{ShopName: "Harrowpike Bench", Logo: png})
	// The vocabulary of what the page is about has a name that looks like an address; nothing fetches it.
	rest := bytes.Replace(content, []byte(`"@context":"https://schema.org"`), nil, 1)
	if bytes.Contains(rest, []byte("://")) || bytes.Contains(rest, []byte("@import")) {
		t.Error("the page holds an address or an import")
	}
	for _, n := range parse(t, content).all("") {
		for _, a := range n.Attr {
			switch a.Key {
			case "src", "href", "srcset", "action", "formaction", "data", "poster", "xlink:href", "background", "ping":
				if n.Data != "img" || !strings.HasPrefix(a.Val, "data:image/png;base64,") {
					t.Errorf("<%s %s=%q>", n.Data, a.Key, a.Val)
				}
			case "style":
				t.Errorf("<%s> has a style of its own, which the policy forbids", n.Data)
			}
			if strings.HasPrefix(a.Key, "on") {
				t.Errorf("<%s> has %s, which the policy forbids", n.Data, a.Key)
			}
		}
	}
	for _, sheet := range parse(t, content).all("style") {
		for _, piece := range strings.Split(text(sheet), "url(")[1:] {
			if !strings.HasPrefix(piece, "#") {
				t.Errorf("the style fetches %.30s", piece)
			}
		}
	}
}

func TestPolicyNamesScriptAndStyle(t *testing.T) {
	for _, accent := range []string{"", "#c0ffee"} {
		d := parse(t, write(t, telltest.Small(t), chart.Options{Accent: accent}))
		policy := ""
		for _, n := range d.all("meta") {
			if attribute(n, "http-equiv") == "Content-Security-Policy" {
				policy = attribute(n, "content")
			}
		}
		if !strings.HasPrefix(policy, "default-src 'none'") || strings.Contains(policy, "unsafe") {
			t.Errorf("policy %q", policy)
		}
		for _, n := range append(d.all("script"), d.all("style")...) {
			if strings.HasPrefix(attribute(n, "type"), "application/") {
				continue // data, which no browser runs
			}
			sum := sha256.Sum256([]byte(text(n)))
			if digest := "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"; !strings.Contains(policy, digest) {
				t.Errorf("the policy %q does not admit the page's own %s, %s", policy, n.Data, digest)
			}
		}
	}
}

// Whatever a sheet holds comes out as text.
func TestHostileText(t *testing.T) {
	r := telltest.Awkward(t)
	plain := parse(t, write(t, r, chart.Options{}))
	attacks := []string{
		"<script>alert(1)</script>", "</script><script>alert(2)</script>", "<img src=x onerror=alert(3)>", `"><svg onload=alert(4)>`,
		"<!-- ", "]]>", "</title><b>", "{{.Words}}", "&lt;b&gt;", "\u2028\u202e", "' onfocus='alert(5)", "javascript:alert(6)", "</style><style>*{display:none}",
	}
	for i, attack := range attacks {
		head, ferrule := r.Catalogue.Heads[0], r.Catalogue.Ferrules[0]
		head.Part, head.Description, head.Supplier = attack, attack, attack
		ferrule.Part, ferrule.Description, ferrule.Supplier, ferrule.Colour = attack, attack, attack, attack
		r.Catalogue.Heads[i%len(r.Catalogue.Heads)] = head
		r.Catalogue.Ferrules[i%len(r.Catalogue.Ferrules)] = ferrule
	}
	r = matrix.Decide(r.Catalogue, fitcalc.DefaultShop())
	d := parse(t, write(t, r, chart.Options{
		ShopName: attacks[1], Contact: attacks[3], Columns: chart.Columns(), Prices: true,
	}))
	for _, name := range []string{"script", "style", "img", "svg", "desc", "meta"} {
		if got, want := len(d.all(name)), len(plain.all(name)); got != want {
			t.Errorf("%d elements <%s>, want %d", got, name, want)
		}
	}
	if titles := within(d.all("head")[0], "title"); len(titles) != 1 {
		t.Errorf("%d elements <title> in the head", len(titles))
	}
	for _, n := range d.all("svg") {
		for _, inner := range within(n, "") {
			if !slices.Contains([]string{"title", "desc", "rect", "text", "path", "defs", "pattern"}, inner.Data) {
				t.Errorf("<%s> in a picture", inner.Data)
			}
		}
	}
	_, chart := d.data()
	if chart.Heads.Part[1] != attacks[1] {
		t.Errorf("text was changed: %q", chart.Heads.Part[1])
	}
	seen := map[string]bool{}
	for _, n := range d.all("th") {
		for _, attack := range attacks {
			if strings.HasPrefix(text(n), attack) {
				seen[attack] = true
			}
		}
	}
	for _, attack := range attacks {
		if !seen[attack] {
			t.Errorf("%q does not stand in the table as it was written", attack)
		}
	}
}

func TestAccessibleWithoutScript(t *testing.T) {
	for name, r := range results(t) {
		d := parse(t, write(t, r, chart.Options{Language: "de"}))
		if lang := attribute(d.all("html")[0], "lang"); lang != "de" {
			t.Errorf("%s: language %q", name, lang)
		}
		for _, n := range d.all("table") {
			if captions := within(n, "caption"); len(captions) != 1 || text(captions[0]) == "" {
				t.Errorf("%s: a table without its caption", name)
			}
			for _, th := range within(n, "th") {
				if scope := attribute(th, "scope"); scope != "col" && scope != "row" {
					t.Errorf("%s: the heading %q has the scope %q", name, text(th), scope)
				}
			}
			for _, tr := range within(within(n, "tbody")[0], "tr") {
				if len(within(tr, "th")) != 1 || len(within(tr, "td")) != 7 {
					t.Errorf("%s: row %q has %d cells", name, text(tr), len(within(tr, "td")))
				}
			}
		}
		labelled := map[string]bool{}
		for _, n := range d.all("label") {
			labelled[attribute(n, "for")] = true
			for _, inner := range within(n, "input") {
				labelled[attribute(inner, "value")] = true
			}
		}
		for _, n := range append(d.all("input"), d.all("select")...) {
			if !labelled[attribute(n, "id")] && !labelled[attribute(n, "value")] {
				t.Errorf("%s: <%s id=%q> has no label", name, n.Data, attribute(n, "id"))
			}
		}
		if status := d.id("status"); text(status) != "" || attribute(status, "role") != "status" {
			t.Errorf("%s: the live region must be there and empty", name)
		}
		ids := map[string]bool{}
		for _, n := range d.all("") {
			id := attribute(n, "id")
			if id != "" && ids[id] {
				t.Errorf("%s: two elements with the id %s", name, id)
			}
			ids[id] = true
		}
	}
}

// The table has every head once, with the verdicts and the best ferrule of the result, and the data as many answers as the result
// has pairs that fit or cannot be decided.
func TestCountsEqualTheResult(t *testing.T) {
	for name, r := range results(t) {
		d := parse(t, write(t, r, chart.Options{}))
		var rows []*html.Node
		for _, table := range d.all("table") {
			rows = append(rows, within(within(table, "tbody")[0], "tr")...)
		}
		named := 0
		for _, row := range rows {
			named += len(within(within(row, "th")[0], "b"))
		}
		if named != len(r.Catalogue.Heads) {
			t.Errorf("%s: %d heads in the table of %d", name, named, len(r.Catalogue.Heads))
		}
		want, got := map[string]int{}, map[string]int{}
		for head := range r.Catalogue.Heads {
			if best, fits := r.Best(head); fits {
				want[best.Verdict.String()+" "+chart.Clean(r.Catalogue.Ferrules[best.Ferrule].Part)]++
			}
		}
		for _, row := range rows {
			verdict := strings.TrimPrefix(attribute(within(within(row, "td")[3], "b")[0], "class"), "v ")
			if verdict == "flush" || verdict == "turn" || verdict == "prep" || verdict == "measure" {
				got[verdict+" "+text(within(row, "td")[2])] += len(within(within(row, "th")[0], "b"))
			}
		}
		if !equalCounts(got, want) {
			t.Errorf("%s: the table has %v, the result %v", name, got, want)
		}
		_, chart := d.data()
		counts := map[int]int{}
		for _, answer := range chart.Heads.Answer {
			for i := 0; i < len(chart.Answers[answer]); i += 4 {
				counts[chart.Outcomes[chart.Answers[answer][i+1]][0]]++
			}
		}
		for _, verdict := range []fitcalc.Verdict{fitcalc.Flush, fitcalc.Turn, fitcalc.Prep, fitcalc.Measure, fitcalc.Ask} {
			if got, want := counts[int(verdict)], r.Counts()[verdict]; got != want {
				t.Errorf("%s: %d pairs %v in the data, %d in the result", name, got, verdict, want)
			}
		}
	}
}

func equalCounts(a, b map[string]int) bool {
	for key, n := range a {
		if b[key] != n {
			return false
		}
	}
	return len(a) == len(b)
}

func TestSameInputSameBytes(t *testing.T) {
	opts := chart.Options{ShopName: "Harrowpike Bench", Accent: "#884422", Language: "ja"}
	if !bytes.Equal(write(t, varied(t, 60, 40), opts), write(t, varied(t, 60, 40), opts)) {
		t.Error("the same catalogue gave different pages")
	}
}

func TestOptions(t *testing.T) {
	tests := []struct {
		name   string
		opts   chart.Options
		option string
	}{
		{"colour by name", chart.Options{Accent: "red"}, "accent"},
		{"colour with too many digits", chart.Options{Accent: "#1234567"}, "accent"},
		{"colour of other digits", chart.Options{Accent: "#12345g"}, "accent"},
		{"colour that would end the style", chart.Options{Accent: "#1;}*{"}, "accent"},
		{"unknown column", chart.Options{Columns: []chart.Column{"weight"}}, "column"},
		{"column twice", chart.Options{Columns: []chart.Column{chart.ColumnBase, chart.ColumnBase}}, "column"},
		{"prices by another door", chart.Options{Columns: []chart.Column{"price"}}, "column"},
		{"language", chart.Options{Language: "tlh"}, "language"},
		{"logo that is no image", chart.Options{Logo: []byte("%PDF-1.7")}, "logo"},
		{"logo too large", chart.Options{Logo: append([]byte("\x89PNG\r\n\x1a\n"), make([]byte, chart.MostLogo)...)}, "logo"},
		{"caliper", chart.Options{Caliper: measure.Millimetres(2)}, "caliper"},
		{"currency", chart.Options{Currency: "euro"}, "currency"},
		{"margin", chart.Options{Margin: -0.1}, "margin"},
		{"caliper below nothing", chart.Options{Caliper: measure.Micrometres(-1)}, "caliper"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var b bytes.Buffer
			err := chart.Write(&b, telltest.Empty(), tt.opts)
			var problem *chart.OptionError
			if !errors.As(err, &problem) || problem.Option != tt.option {
				t.Errorf("got %v, want an *OptionError of %s", err, tt.option)
			}
			if b.Len() > 0 {
				t.Error("part of a page was written")
			}
		})
	}
}

func TestPricesOnlyWhenAskedFor(t *testing.T) {
	r := telltest.Small(t)
	price := func(i int, price float64, text string) {
		f := &r.Catalogue.Ferrules[i]
		f.Price, f.HasPrice, f.Fields = price, true, catalog.FieldsOf(map[catalog.Role]catalog.Field{catalog.Price: {Text: text}})
	}
	price(0, 4.87, "$4.87")
	price(1, 3, "3")
	if content := write(t, r, chart.Options{Columns: chart.Columns()}); bytes.Contains(content, []byte("4.87")) {
		t.Error("a price stands in a page without prices")
	}
	priced := func(opts chart.Options) []float64 {
		opts.Prices = true
		_, chart := parse(t, write(t, r, opts)).data()
		return chart.Ferrules.Price[:3]
	}
	// A number without a currency is nobody's price; a dozen at 4.87 with half as much again is 0.61 a piece.
	if got := priced(chart.Options{}); !slices.Equal(got, []float64{4.87, 0, 0}) {
		t.Errorf("prices %v", got)
	}
	r.Catalogue.Ferrules[0].Pack = 12
	if got := priced(chart.Options{Margin: 0.5, PricePerPack: true}); !slices.Equal(got, []float64{0.61, 0, 0}) {
		t.Errorf("prices of a pack with a margin: %v", got)
	}
	price(1, 3, "3 EUR")
	if got := priced(chart.Options{Currency: "EUR"}); !slices.Equal(got, []float64{0, 3, 0}) {
		t.Errorf("prices in euros: %v", got)
	}
	var option *chart.OptionError
	if err := chart.Write(io.Discard, r, chart.Options{Prices: true}); !errors.As(err, &option) || option.Option != "currency" {
		t.Errorf("two currencies, and none is named: %v", err)
	}
}

// What a sheet is called is no customer's business: a supplier that is known by its file alone is not named.
func TestNoFileNames(t *testing.T) {
	r := telltest.Small(t)
	for i := range r.Catalogue.Heads {
		h := &r.Catalogue.Heads[i]
		h.Supplier, h.Source.File = "secret_costs_2026", "in/secret_costs_2026.v2.xlsx"
		if i > 0 {
			h.Source.File = `C:\in\secret_costs_2026.xlsx`
		}
	}
	r.Catalogue.Heads[0].Supplier = "secret_costs_2026.v2"
	for i := range r.Catalogue.Ferrules {
		r.Catalogue.Ferrules[i].Supplier, r.Catalogue.Ferrules[i].Source.File = "net_list", "net_list.csv"
	}
	content := write(t, r, chart.Options{Suppliers: map[string]string{"net_list": "Hollin"}, Columns: chart.Columns()})
	if bytes.Contains(content, []byte("secret_costs")) || bytes.Contains(content, []byte("net_list")) {
		t.Error("the name of a file stands in the page")
	}
	if !bytes.Contains(content, []byte("Hollin")) {
		t.Error("the supplier is not called what the seller calls it")
	}
	r.Catalogue.Heads[1].Supplier = "Tarrow Castings"
	if content := write(t, r, chart.Options{}); !bytes.Contains(content, []byte("Tarrow Castings")) {
		t.Error("a supplier that the sheet names is not named")
	}
}

func TestColumns(t *testing.T) {
	for _, tt := range []struct {
		opts chart.Options
		want string
	}{
		{chart.Options{}, "supplier length"},
		{chart.Options{Columns: []chart.Column{}}, ""},
		{chart.Options{Columns: []chart.Column{chart.ColumnMinutes}, Prices: true}, "minutes price"},
	} {
		_, chart := parse(t, write(t, telltest.Empty(), tt.opts)).data()
		if got := strings.Join(chart.Columns, " "); got != tt.want {
			t.Errorf("columns %q, want %q", got, tt.want)
		}
	}
}

type brokenWriter struct{}

var errFull = errors.New("the disk is full")

func (brokenWriter) Write([]byte) (int, error) { return 0, errFull }

func TestWriterFails(t *testing.T) {
	if err := chart.Write(brokenWriter{}, telltest.Small(t), chart.Options{}); !errors.Is(err, errFull) {
		t.Errorf("got %v", err)
	}
}

// A chart of a large seller's catalogue has to open fast on a telephone.
func TestSize(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	r := varied(t, 2000, 500)
	content := write(t, r, chart.Options{})
	t.Logf("%d heads, %d ferrules, %d pairs listed: %d bytes", len(r.Catalogue.Heads), len(r.Catalogue.Ferrules), r.Listed, len(content))
	if most := 3_000_000; len(content) > most {
		t.Errorf("%d bytes; at most %d", len(content), most)
	}
}

func BenchmarkWrite(b *testing.B) {
	r := varied(b, 2000, 500)
	for b.Loop() {
		write(b, r, chart.Options{})
	}
}
