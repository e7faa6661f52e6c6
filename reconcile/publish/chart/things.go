package chart

import (
	"strings"

	"example.com/seatline/fitcalc/measure"
)

// things is what the page is about, as JSON-LD in the vocabulary of schema.org (https://schema.org/ItemList, https://schema.org/Product), so
// that whoever searches for a part finds the page.
type things map[string]any

// mostThings is how many ferrules are described; every copy of the page holds them, and a search engine reads no catalogue of thousands.
const mostThings = 200

func (b *builder) things() things {
	c := b.chart
	page := things{"@context": "https://schema.org", "@type": "WebPage", "name": b.words["page.title"], "inLanguage": c.Language}
	if name := clean(b.opts.ShopName); name != "" {
		page["publisher"] = things{"@type": "Organization", "name": name}
	}
	items := []things{}
	for i := range c.Ferrules.Part {
		if i == mostThings {
			break
		}
		items = append(items, b.product(i))
	}
	page["mainEntity"] = things{"@type": "ItemList", "numberOfItems": len(c.Ferrules.Part), "itemListElement": items}
	return page
}

// product describes a ferrule.
func (b *builder) product(i int) things {
	f := &b.chart.Ferrules
	p := things{"@type": "Product", "sku": f.Part[i], "name": b.words.Fill("page.product", "ferrule", f.Part[i])}
	sizes := []string{}
	if f.Description[i] != "" {
		sizes = append(sizes, f.Description[i])
	}
	say := func(key string, l measure.Length) {
		if !l.IsZero() {
			sizes = append(sizes, b.words[key]+" "+b.show(l))
		}
	}
	form := &b.chart.Forms[f.Form[i]]
	if form.Base >= 0 {
		say("column.base", measure.Picometres(b.chart.Dims[form.Base][0]))
	}
	if form.ForTip == "" {
		say("column.bore", measure.Picometres(int64(form.Bore)))
	}
	say("column.length", measure.Picometres(int64(form.Length)))
	p["description"] = strings.Join(sizes, "; ")
	if colour := b.chart.Colours[f.Colour[i]]; colour != "" {
		p["color"] = colour
	}
	if f.Price != nil && f.Price[i] > 0 {
		p["offers"] = things{"@type": "Offer", "price": f.Price[i], "priceCurrency": b.chart.Currency}
	}
	if supplier := b.chart.Suppliers[f.Supplier[i]]; supplier != "" {
		p["brand"] = things{"@type": "Brand", "name": supplier}
	}
	return p
}
