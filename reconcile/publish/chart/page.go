package chart

import (
	"bufio"
	"cmp"
	"embed"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"
	"sync"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/matrix"
	"example.com/seatline/reconcile/publish/web"
)

//go:embed assets
var assets embed.FS

//go:embed schema/chart.schema.json
var schema []byte

// Schema returns the JSON Schema (2020-12) of the data that a page carries in its element chart-data.
func Schema() []byte { return slices.Clone(schema) }

// scripts are the parts of the page's script, in their order after the reader of sizes.
var scripts = []string{"answer.js", "say.js", "section.js", "search.js", "state.js", "tables.js", "share.js", "order.js", "finder.js"}

// Write writes the fit chart of a result as one HTML file. The error is an [*OptionError], a [*WordsError] or the writer's.
func Write(w io.Writer, r *matrix.Result, opts Options) error {
	if err := opts.validate(); err != nil {
		return err
	}
	l, err := language(opts.Language, opts.Words)
	if err != nil {
		return err
	}
	b := newBuilder(r, opts, l)
	chart, err := b.build()
	if err != nil {
		return fmt.Errorf("writing the chart: %w", err)
	}
	v, err := b.view(chart)
	if err != nil {
		return fmt.Errorf("writing the chart: %w", err)
	}
	out := bufio.NewWriterSize(w, 1<<16)
	if err := pageTemplate().Execute(out, v); err != nil {
		return fmt.Errorf("writing the chart: %w", err)
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("writing the chart: %w", err)
	}
	return nil
}

// pageTemplate is parsed when it is first used.
var pageTemplate = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("page.html").Funcs(template.FuncMap{"join": strings.Join}).ParseFS(assets, "assets/page.html"))
})

// view is what the template shows.
type view struct {
	Words             words
	Language          string
	ShopName, Contact string
	Logo              template.URL
	Policy            string
	Style             template.CSS
	Script            template.JS
	Chart             *chart
	Groups            []group
	Cautions          []say.Caution
	Limits            string
	Suppliers         []option
	Categories        []option
	Tips, Tops        []option
	Filters           []filter
	Things            things
	Verdicts          []verdictOption
}

// option is an entry of a list to choose from. Name is what it is called in an address, whatever the language.
type option struct {
	Value int64
	Text  string
	Name  string
}

// filter is a list by which ferrules are narrowed down.
type filter struct {
	ID, Label string
	Options   []option
}

// verdictOption explains a verdict.
type verdictOption struct{ Verdict, Word, Meaning string }

func (b *builder) view(c *chart) (*view, error) {
	style, err := b.style()
	if err != nil {
		return nil, err
	}
	own, err := readAll(append([]string{"start.js"}, scripts...))
	if err != nil {
		return nil, err
	}
	script := lean(web.Lengths) + own
	image, err := logo(b.opts.Logo)
	if err != nil {
		return nil, err
	}
	w := b.words
	v := &view{
		Words: w, Language: c.Language, ShopName: clean(b.opts.ShopName), Contact: clean(b.opts.Contact), Logo: image,
		Style: template.CSS(style), Script: template.JS(script), Chart: c, Groups: b.groups(),
		Policy: web.Policy(style, script),
		Limits: b.limits(),
	}
	v.Things, v.Cautions = b.things(), b.language.Cautions()
	b.choices(v)
	return v, nil
}

// limits says what passes as flush and how much is turned off.
func (b *builder) limits() string {
	return b.words.Fill("page.limits", "step", b.show(b.result.Shop.FlushStep), "turn", b.show(b.result.Shop.TurnLimit))
}

// choices fills in what can be chosen from.
func (b *builder) choices(v *view) {
	w, c := b.words, b.chart
	named := map[string]bool{}
	for i, name := range c.Suppliers {
		if slices.Contains(c.Heads.Supplier, i) && name != "" && !named[name] {
			named[name] = true
			v.Suppliers = append(v.Suppliers, option{int64(i), name, name})
		}
	}
	for category := fitcalc.Driver; category <= fitcalc.Chipper; category++ {
		if slices.Contains(c.Heads.Category, int(category)) {
			v.Categories = append(v.Categories, option{int64(category), categoryOf(w, category), category.String()})
		}
	}
	if len(v.Categories) > 0 && slices.Contains(c.Heads.Category, 0) {
		v.Categories = append(v.Categories, option{0, categoryOf(w, fitcalc.AnyCategory), "other"})
	}
	for _, tip := range b.benchSet {
		v.Tips = append(v.Tips, option{int64(tip), tipOf(w, clean(c.Tips[tip].Name)), c.Tips[tip].Name})
	}
	for i, top := range benchTops {
		name := top.String()
		if top == fitcalc.TopUnknown {
			name = "unknown"
		}
		v.Tops = append(v.Tops, option{int64(i), w["top."+name], name})
	}
	v.Filters = b.filters(v.Tips)
	for _, verdict := range fitcalc.Verdicts() {
		name := verdict.String()
		v.Verdicts = append(v.Verdicts, verdictOption{name, w["verdict."+name], w["meaning."+name]})
	}
}

// filters are the lists by which ferrules are narrowed down: tips, and what the ferrules have.
func (b *builder) filters(tips []option) []filter {
	c, w := b.chart, b.words
	lengths, colours, styles := []option{}, []option{}, []option{}
	for _, form := range c.Forms {
		if at := int64(form.Length); at > 0 && !slices.ContainsFunc(lengths, func(o option) bool { return o.Value == at }) {
			l := measure.Picometres(at)
			name, _ := l.FormatMillimetres(4)
			lengths = append(lengths, option{at, b.language.AxialLength(l, b.opts.Units), name})
		}
	}
	slices.SortFunc(lengths, func(x, y option) int { return cmp.Compare(x.Value, y.Value) })
	for i, colour := range c.Colours {
		if colour != "" {
			colours = append(colours, option{int64(i), colour, colour})
		}
	}
	slices.SortFunc(colours, func(x, y option) int { return cmp.Compare(x.Text, y.Text) })
	for style := fitcalc.Plain; style <= fitcalc.Stepped; style++ {
		if slices.ContainsFunc(c.Forms, func(f formData) bool { return f.Style == int(style) }) {
			styles = append(styles, option{int64(style), w["style."+style.String()], style.String()})
		}
	}
	return []filter{
		{"only-tip", w["column.tip"], tips}, {"only-length", w["column.length"], lengths}, {"only-colour", w["column.colour"], colours},
		{"only-style", w["column.style"], styles},
	}
}

// style is the page's style sheet in the seller's colour.
func (b *builder) style() (string, error) {
	sheet, err := readAll([]string{"page.css"})
	if err != nil {
		return "", err
	}
	accent := b.opts.Accent
	if accent == "" {
		accent = ownAccent
	}
	c, err := parseColour(accent)
	if err != nil {
		return "", err
	}
	const text, edge = 4.5, 3 // contrasts that WCAG 2.2 asks for, 1.4.3 and 1.4.11
	return strings.NewReplacer(
		"var(--seller)", c.String(),
		"var(--accent-light)", c.readable(lightGround, text).String(),
		"var(--accent-dark)", c.readable(darkGround, text).String(),
		"var(--edge-light)", c.readable(lightGround, edge).String(),
		"var(--edge-dark)", c.readable(darkGround, edge).String(),
	).Replace(sheet), nil
}

func readAll(names []string) (string, error) {
	var all strings.Builder
	for _, name := range names {
		content, err := assets.ReadFile("assets/" + name)
		if err != nil {
			return "", err
		}
		all.WriteString(lean(string(content)))
	}
	return all.String(), nil
}

// lean leaves out what only the readers of a script or a style sheet need: the indentation, and lines that are a comment. Every copy of the
// page would hold them.
func lean(content string) string {
	var kept strings.Builder
	for line := range strings.Lines(content) {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "//") || strings.HasPrefix(line, "/*") && strings.HasSuffix(line, "*/") {
			continue
		}
		kept.WriteString(line)
		kept.WriteByte('\n')
	}
	return kept.String()
}
