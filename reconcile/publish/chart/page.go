package chart

import (
	"bufio"
	"embed"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"
	"sync"

	"example.com/seatline/fitcalc"
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
var scripts = []string{"answer.js", "section.js", "finder.js"}

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
	Pictures          []drawnPicture
	Cautions          []say.Caution
	Measured, Limits  string
	Suppliers         []option
	Categories        []option
	Tips, Tops        []option
	Verdicts          []verdictOption
}

// option is an entry of a list to choose from.
type option struct {
	Value int
	Text  string
}

// verdictOption explains a verdict.
type verdictOption struct{ Verdict, Word, Meaning string }

func (b *builder) view(c *chart) (*view, error) {
	style, err := b.style()
	if err != nil {
		return nil, err
	}
	own, err := readAll(scripts)
	if err != nil {
		return nil, err
	}
	script := web.Lengths + own
	image, err := logo(b.opts.Logo)
	if err != nil {
		return nil, err
	}
	w := b.words
	v := &view{
		Words: w, Language: c.Language, ShopName: clean(b.opts.ShopName), Contact: clean(b.opts.Contact), Logo: image,
		Style: template.CSS(style), Script: template.JS(script), Chart: c, Groups: b.groups(),
		Policy: web.Policy(style, script),
		Limits: w.Fill("page.limits", "step", b.show(b.result.Shop.FlushStep), "turn", b.show(b.result.Shop.TurnLimit)),
	}
	key := "page.measured_shop"
	if !b.opts.Caliper.IsZero() {
		key = "page.measured_caliper"
	}
	v.Measured = w.Fill(key, "tolerance", b.show(b.tolerance))
	v.Cautions = b.language.Cautions()
	if v.Pictures, err = b.pictures(); err != nil {
		return nil, err
	}
	b.choices(v)
	return v, nil
}

// choices fills in what can be chosen from.
func (b *builder) choices(v *view) {
	w, c := b.words, b.chart
	for i, name := range c.Suppliers {
		if slices.Contains(c.Heads.Supplier, i) && name != "" {
			v.Suppliers = append(v.Suppliers, option{i, name})
		}
	}
	for category := fitcalc.Driver; category <= fitcalc.Chipper; category++ {
		if slices.Contains(c.Heads.Category, int(category)) {
			v.Categories = append(v.Categories, option{int(category), categoryOf(w, category)})
		}
	}
	for _, tip := range b.benchSet {
		v.Tips = append(v.Tips, option{tip, tipOf(w, clean(c.Tips[tip].Name))})
	}
	for i, top := range benchTops {
		name := top.String()
		if top == fitcalc.TopUnknown {
			name = "unknown"
		}
		v.Tops = append(v.Tops, option{i, w["top."+name]})
	}
	for _, verdict := range fitcalc.Verdicts() {
		name := verdict.String()
		v.Verdicts = append(v.Verdicts, verdictOption{name, w["verdict."+name], w["meaning."+name]})
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
		all.Write(content)
	}
	return all.String(), nil
}
