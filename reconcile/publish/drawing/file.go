package drawing

import "bytes"

// style is the only style sheet; everything is black on white, so that it prints and copies.
const style = `text{font-family:"Liberation Sans",Arial,Helvetica,sans-serif;font-size:3.4px;fill:#000}
.title{font-size:5px;font-weight:bold}.answer{font-size:4px}.note{font-size:2.9px}
.mid,.letter{text-anchor:middle}.end{text-anchor:end}.letter{font-weight:bold}
path,circle{fill:none;stroke:#000;stroke-width:.25;stroke-linejoin:round}
.paper{fill:#fff;stroke:none}
.outline{stroke-width:.5}.hosel{fill:url(#hatch-hosel);stroke:none}.ferrule{fill:url(#hatch-ferrule);stroke-width:.5}
.turned{fill:url(#hatch-turned);stroke:none}.whole{fill:#fff;stroke:none}
.overlap{fill:#000;stroke:none}.arrow,.dot{fill:#000;stroke:none}
.axis{stroke-dasharray:6 .75 .12 .75;stroke-linecap:round}
.before{stroke-dasharray:3 .75 .12 .75 .12 .75;stroke-linecap:round}
.ring{stroke-width:.25}
`

// patterns are the hatchings: 45° one way for the hosel, the other way and closer for the ferrule, crossed for what comes off.
const patterns = `<pattern id="hatch-hosel" patternUnits="userSpaceOnUse" width="2.4" height="2.4" patternTransform="rotate(45)"><rect class="paper" width="2.4" height="2.4"/><path d="M1.2 0V2.4"/></pattern>
<pattern id="hatch-ferrule" patternUnits="userSpaceOnUse" width="1.5" height="1.5" patternTransform="rotate(-45)"><rect class="paper" width="1.5" height="1.5"/><path d="M.75 0V1.5"/></pattern>
<pattern id="hatch-turned" patternUnits="userSpaceOnUse" width=".7" height=".7" patternTransform="rotate(45)"><rect class="paper" width=".7" height=".7"/><path d="M.35 0V.7M0 .35H.7"/></pattern>
`

// file puts the drawing together with its head.
func (p *page) file() []byte {
	var b bytes.Buffer
	box := "0 0 " + number(paperWidth) + " " + number(p.height)
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="` + number(paperWidth) + `mm" height="` + number(p.height) + `mm" viewBox="` + box +
		`" role="img" aria-labelledby="title desc">` + "\n")
	b.WriteString(`<title id="title">` + escape(orElse(p.opts.Title, "Hosel, shaft and ferrule in section")) + "</title>\n")
	b.WriteString(`<desc id="desc">` + escape(p.description()) + "</desc>\n")
	b.WriteString("<style>" + style + "</style>\n<defs>\n" + patterns + "</defs>\n")
	b.WriteString(`<rect class="paper" width="` + number(paperWidth) + `" height="` + number(p.height) + "\"/>\n")
	b.Write(p.b.Bytes())
	b.WriteString("</svg>\n")
	return b.Bytes()
}

// description says in words what the drawing shows, for those who do not see it.
func (p *page) description() string {
	text := p.sizes()
	for i, l := range p.labels {
		if i == 0 {
			text += "Labels: "
		}
		for _, line := range l.lines {
			text += line + " "
		}
		text = text[:len(text)-1] + "; "
	}
	return text + "two details show the step at the hosel and the grip on the shaft."
}

// sizes is what the description of every drawing begins with.
func (p *page) sizes() string {
	s, f := p.s, &p.s.joint.Ferrule
	text := "Cross-section along the axis, at nominal sizes. " + p.opts.Answer + ". The hosel is " + p.u(2*s.hosel) + " in diameter at its top, the base of the ferrule " +
		p.amount(f.BaseOD.Middle()) + " as supplied, and its length " + p.opts.Units.ShowLength(f.Length.Middle()) + ". "
	if s.turns {
		text += "Turning takes " + p.amount(s.fit.Flush.TurnDown.Nominal) + " off the diameter of the base. "
	}
	if s.standOff > 0 {
		text += "The base stands off the hosel by " + p.amount(s.fit.Seat.StandOff.Nominal) + ". "
	}
	if recess := s.fit.Seat.Recess; recess.Sign() > 0 {
		text += "Under the ferrule " + p.amount(recess) + " of the counterbore stays open. "
	}
	return text
}
