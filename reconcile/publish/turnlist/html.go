package turnlist

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"html/template"
	"io"
	"sync"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/publish/web"
)

//go:embed assets
var assets embed.FS

// listTemplate is parsed when it is first used.
var listTemplate = sync.OnceValue(func() *template.Template {
	return template.Must(template.ParseFS(assets, "assets/list.html"))
})

// view is what the template shows besides the list.
type view struct {
	*List
	// ID is the same for the same list: what was typed into another is not taken for it.
	ID              string
	Policy          string
	Style           template.CSS
	Script          template.JS
	StepPM, LimitPM int64
}

// WriteHTML writes the list as one HTML file that holds all it needs: on a screen a page to tick off and to type hosels into, which keeps
// them in the browser, and on paper the list. Without its script it is the list. The error is the writer's.
func (l *List) WriteHTML(w io.Writer) error {
	style, err := assets.ReadFile("assets/list.css")
	if err != nil {
		return err
	}
	own, err := assets.ReadFile("assets/bench.js")
	if err != nil {
		return err
	}
	content, err := json.Marshal(l)
	if err != nil {
		return err
	}
	sum := sha256.Sum256(content)
	v := view{List: l, ID: hex.EncodeToString(sum[:8]), StepPM: l.shop.FlushStep.Picometres(), LimitPM: l.shop.TurnLimit.Picometres()}
	sheet, script := fmt.Sprintf("@page { size: %s landscape }\n%s", l.Paper, style), web.Lengths+string(own)
	v.Style, v.Script, v.Policy = template.CSS(sheet), template.JS(script), web.Policy(sheet, script)
	return listTemplate().Execute(w, v)
}

// Cautions are the warnings that stand on top.
func (l *List) Cautions() []say.Caution { return l.language.Cautions() }

// HowFar says how far up the turning goes, where that is known.
func (j Joint) HowFar() string {
	if j.Over == "" {
		return "on the diameter"
	}
	return "over the lowest " + j.Over
}

// MeasuredAs is what a reading of the hosel is called in a sheet of readings: where a head has an adapter, the ferrule ends at its sleeve.
func (j Joint) MeasuredAs() string {
	if j.adapter {
		return fitcalc.FieldAdapterOD.String()
	}
	return fitcalc.FieldHoselOD.String()
}

// Name names a piece where its joint is not in sight.
func (p Piece) Name() string {
	if p.Head.Count > 1 {
		return fmt.Sprintf("%s, piece %d", p.Head.Part, p.Of)
	}
	return p.Head.Part
}
