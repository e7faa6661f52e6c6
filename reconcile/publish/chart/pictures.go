package chart

import (
	"bytes"
	"fmt"
	"html/template"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/reconcile/publish/picture"
)

// drawnPicture is a picture of the whole catalogue, as it stands in the page.
type drawnPicture struct {
	ID, Title string
	SVG       template.HTML
}

// pictures draws the pictures of the catalogue in the reader's language.
func (b *builder) pictures() ([]drawnPicture, error) {
	var all []drawnPicture
	for _, c := range picture.All(b.result, b.opts.Units) {
		switch c.ID {
		case "sizes":
			b.sayBySize(&c)
		case "turn-down":
			b.sayTurnDowns(&c)
		case "verdicts":
			b.sayVerdicts(&c)
		}
		c.Phrases = picture.Phrases{
			ColumnsCount: b.words["picture.columns_count"], EndCounts: b.words["picture.end_counts"], Nothing: b.words["picture.nothing"],
		}
		var drawn bytes.Buffer
		if err := c.WriteSVG(&drawn, picture.Options{Prefix: "picture-"}); err != nil {
			return nil, err
		}
		// Package picture escapes whatever comes from a sheet.
		all = append(all, drawnPicture{ID: c.ID, Title: c.Title, SVG: template.HTML(inline(drawn.String()))})
	}
	return all, nil
}

// inline makes a drawing part of a page, which knows the namespace of SVG by itself and is free of addresses.
func inline(svg string) string {
	return strings.Replace(svg, ` xmlns="http://www.w3.org/2000/svg"`, "", 1)
}

// unit is the name of the reader's unit.
func (b *builder) unit() string {
	if b.opts.Units == fitcalc.Metric {
		return "mm"
	}
	return "in"
}

func (b *builder) sayBySize(c *picture.Graph) {
	w, shop := b.words, &b.result.Shop
	with, without, offered := &c.Series[0], &c.Series[1], &c.Series[2]
	with.Name, without.Name, offered.Name = w["picture.with"], w["picture.without"], w["picture.offered"]
	c.Title, c.LabelsAre, c.Counted = w["picture.sizes"], w.Fill("picture.diameter", "unit", b.unit()), w["picture.parts"]
	c.Note = w.Fill("picture.sizes_note", "step", b.show(shop.FlushStep), "turn", b.show(shop.TurnLimit))
	hosels := with.Total() + without.Total()
	c.Said = w.Fill("picture.sizes_said", "hosels", fmt.Sprint(hosels), "ferrules", fmt.Sprint(offered.Total()),
		"without", fmt.Sprint(without.Total())+b.where(c.Labels, without.Values))
	if unsized := len(b.result.Catalogue.Heads) + len(b.result.Catalogue.Ferrules) - hosels - offered.Total(); unsized > 0 {
		c.Said += " " + w.Fill("picture.unsized", "n", fmt.Sprint(unsized))
	}
}

// where lists the first classes in which there is something.
func (b *builder) where(labels []string, values []int) string {
	const most = 8
	var named []string
	for i, v := range values {
		if v == 0 {
			continue
		}
		if len(named) == most {
			named = append(named, "…")
			break
		}
		named = append(named, labels[i])
	}
	if len(named) == 0 {
		return ""
	}
	return " (" + strings.Join(named, ", ") + " " + b.unit() + ")"
}

func (b *builder) sayTurnDowns(c *picture.Graph) {
	w := b.words
	c.Title, c.Note, c.LabelsAre, c.Counted = w["picture.turn_down"], w["picture.turn_down_note"], w["column.category"], w["picture.heads"]
	heads := 0
	for i := range c.Series {
		s := &c.Series[i]
		heads += s.Total()
		switch {
		case s.From == "" && s.To == "":
			s.Name = w["column.nothing"]
		case s.From == "":
			s.Name = w.Fill("picture.up_to", "to", s.To, "unit", b.unit())
		case s.To == "":
			s.Name = w.Fill("picture.over", "from", s.From, "unit", b.unit())
		default:
			s.Name = w.Fill("picture.class", "from", s.From, "to", s.To, "unit", b.unit())
		}
	}
	c.Said = w.Fill("picture.turn_down_said", "heads", fmt.Sprint(heads), "none", fmt.Sprint(c.Series[0].Total()))
	if some := picture.Selective(b.result); some > 0 {
		c.Said += " " + w.Fill("picture.turn_down_measure", "n", fmt.Sprint(some))
	}
	for i, of := range c.About {
		c.Labels[i] = w["picture.not_stated"]
		if of.Category != fitcalc.AnyCategory {
			c.Labels[i] = b.language.Category(of.Category)
		}
	}
}

func (b *builder) sayVerdicts(c *picture.Graph) {
	w := b.words
	c.Title, c.Note, c.LabelsAre, c.Counted = w["picture.verdicts"], w["picture.verdicts_note"], w["column.supplier"], w["picture.pairs"]
	for i := range c.Series {
		c.Series[i].Name = b.language.Verdict(c.Series[i].Verdict)
	}
	for i, of := range c.About {
		key, supplier := "picture.of_heads", of.Supplier
		if of.Ferrules {
			key = "picture.of_ferrules"
		}
		switch {
		case of.Others > 0:
			supplier = w.Fill("picture.others", "n", fmt.Sprint(of.Others))
		case supplier == "":
			supplier = w["picture.not_stated"]
		}
		c.Labels[i] = w.Fill(key, "supplier", supplier)
	}
	serve, counted := 0, b.result.Counts()
	for verdict, n := range counted {
		if verdict.Serves() {
			serve += n
		}
	}
	c.Said = w.Fill("picture.verdicts_said", "pairs", fmt.Sprint(b.result.InReachCount()), "fit", fmt.Sprint(serve))
	if some := counted[fitcalc.Measure]; some > 0 {
		c.Said += " " + w.Fill("picture.verdicts_measure", "n", fmt.Sprint(some))
	}
}
