package explain

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/press"
)

// pressMaterials are the names of the ferrule's materials in the table of package press.
var pressMaterials = map[fitcalc.Material]string{
	fitcalc.CelluloseAcetate:         "cellulose acetate",
	fitcalc.CelluloseAcetateButyrate: "cellulose acetate butyrate",
	fitcalc.ABS:                      "ABS",
	fitcalc.Nylon:                    "nylon 6",
	fitcalc.Acetal:                   "POM copolymer",
}

// roomC is the temperature from which warming is reckoned, in °C.
const roomC = 20

// press adds pressure and forces where the ferrule's material is known and it grips. The error is one of package press: a
// shaft material that is not in the table, or sizes that cannot be computed with.
func (b *builder) press() error {
	b.topic("press fit: ring on tube")
	shaft, shaftNote, err := b.shaftElastic()
	if err != nil {
		return err
	}
	name, g := pressMaterials[b.part.Material], &b.fit.Grip
	if name == "" || !g.Known || g.Interference.Nominal.Sign() <= 0 || !b.base().Given() {
		return nil
	}
	material, err := press.MaterialByName(name)
	if err != nil {
		return err
	}
	ring, err := material.Elastic()
	if err != nil {
		return err
	}
	widest, at := b.tightest(g)
	outside := b.outsideAt(at.Sub(g.Insertion))
	section := press.Section{RingOutside: outside, Interface: widest, ShaftInside: b.s.Shaft.Inside}
	if !widest.Less(outside) {
		return nil // the wall is gone, which the verdict says
	}
	joint, err := press.NewJoint(section, ring, shaft)
	if err != nil {
		return err
	}
	solved := joint.Solve(g.Interference.Nominal)
	b.value("materials", "", fmt.Sprintf("%s, E %s MPa (%s to %s by source), ν %s; %s", material.Name, significant(ring.YoungModulusMPa, 3),
		significant(material.YoungModulusMPa.Least, 3), significant(material.YoungModulusMPa.Most, 3), significant(ring.Poisson, 2), shaftNote), "")
	b.value("pressure", "p = δ / {d [((D² + d²)/(D² − d²) + ν)/E + shaft]}", fmt.Sprintf("%s MPa, with δ %s, d %s and D %s", significant(solved.PressureMPa(), 3), b.one(g.Interference.Nominal), b.one(widest), b.one(outside)),
		"Lamé's thick-walled ring, at the tightest place, with the outside as it is after turning")
	b.value("hoop stress at the bore", "p (D² + d²)/(D² − d²)", significant(solved.RingBore().HoopMPa, 3)+" MPa", b.yieldNote(material))
	if err := b.force(material, ring, shaft); err != nil {
		return err
	}
	return b.warming(material, widest)
}

func (b *builder) shaftElastic() (press.Elastic, string, error) {
	if b.s.Shaft.Material == "" {
		return press.Rigid(), "shaft not known and taken as rigid, which gives the highest pressure", nil
	}
	m, err := press.MaterialByName(b.s.Shaft.Material)
	if err != nil {
		return press.Elastic{}, "", err
	}
	e, err := m.Elastic()
	if err != nil {
		return press.Elastic{}, "", err
	}
	tube := "solid"
	if inside := b.s.Shaft.Inside; inside.Sign() > 0 {
		tube = "inside " + b.u.Show(inside)
	}
	return e, fmt.Sprintf("shaft: %s, E %s MPa, %s", m.Name, significant(e.YoungModulusMPa, 3), tube), nil
}

func (b *builder) yieldNote(m press.Material) string {
	if !m.YieldMPa.Given() {
		return ""
	}
	return fmt.Sprintf("%s yields at %s to %s MPa; plastics relax, so this is the first hour's", m.Name, significant(m.YieldMPa.Least, 2), significant(m.YieldMPa.Most, 2))
}

// outsideAt is the ferrule's outside diameter at a height above its base, turned down to the hosel: a straight cone from base
// to top, cut off at the hosel's OD.
func (b *builder) outsideAt(height measure.Length) measure.Length {
	base, top := b.base().Nominal(), b.part.TopOD.Nominal()
	if !b.part.TopOD.Given() || !b.part.Length.Given() {
		top = base // a cylinder: the stiffest it can be
	}
	outside := base
	if length := b.part.Length.Nominal(); length.Sign() > 0 {
		outside = base.Add(top.Sub(base).MulRatio(height.Picometres(), length.Picometres()))
	}
	if hosel := b.hosel(); hosel.Given() {
		outside = measure.Min(outside, hosel.Nominal())
	}
	return outside
}

// force adds up the grip along the ferrule.
func (b *builder) force(material press.Material, ring, shaft press.Elastic) error {
	length := b.part.Length.Nominal()
	if length.Sign() <= 0 {
		return nil
	}
	g := &b.fit.Grip
	tip, err := b.tipProfile(g.Insertion.Add(length))
	if err != nil {
		return err
	}
	outside, err := press.NewProfile(press.Point{Diameter: b.outsideAt(measure.Length{})}, press.Point{At: length, Diameter: b.outsideAt(length)})
	if err != nil {
		return err
	}
	friction, note := b.friction(material)
	assembly, err := press.NewAssembly(
		press.Ferrule{Length: length, Bore: press.Constant(b.part.Bore.Nominal()), Outside: outside, Elastic: ring},
		press.Tip{Outside: tip, Inside: press.Constant(b.s.Shaft.Inside), Elastic: shaft}, friction)
	if err != nil {
		return err
	}
	seated, err := assembly.At(g.Insertion)
	if err != nil {
		b.value("push-on force", "", "not worked out: "+err.Error(), "")
		return nil
	}
	b.value("force between the surfaces", "N = ∫ p π d dx", significant(seated.NormalN, 3)+" N", "over the length that grips")
	if friction == 0 {
		b.value("push-on force", "F = µ N", fmt.Sprintf("µ × %s N", significant(seated.NormalN, 3)), note)
		return nil
	}
	b.value("push-on force", "F = µ N, and the climb of a taper", fmt.Sprintf("µ %s: %s N; it resists %s N afterwards", significant(friction, 2), significant(seated.PushOnN, 3), significant(seated.PushOffN, 3)), note)
	return nil
}

func (b *builder) friction(m press.Material) (float64, string) {
	switch {
	case b.s.Shaft.Friction > 0:
		return b.s.Shaft.Friction, "friction as given"
	case m.FrictionOnSteel.Given():
		return m.FrictionOnSteel.Value, "friction on steel, " + m.FrictionOnSteel.Basis.String() + ": " + m.FrictionOnSteel.Source
	}
	return 0, "no published friction of " + m.Name + " on a shaft was found; give yours"
}

// tipProfile is the tip from its end to a position, with a point wherever it bends.
func (b *builder) tipProfile(to measure.Length) (press.Profile, error) {
	const parts = 64 // a profile of stations is straight between them; these follow it closely
	points := make([]press.Point, 0, parts+1)
	for i := range int64(parts + 1) {
		at := to.MulRatio(i, parts)
		points = append(points, press.Point{At: at, Diameter: b.tip.Diameter(at).Nominal()})
	}
	return press.NewProfile(points...)
}

// warming says how far the ferrule must be warmed to slip on.
func (b *builder) warming(m press.Material, widest measure.Length) error {
	if !m.ExpansionPerK.Given() {
		return nil
	}
	w, err := press.Easing{Interference: b.fit.Grip.Interference.Nominal, Diameter: widest, Ring: m, FromC: roomC}.Solve()
	if err != nil {
		return err
	}
	b.heat = true
	var notes []string
	for _, warning := range w.Warnings {
		notes = append(notes, warning.Text)
	}
	if len(notes) > 0 {
		notes = append(notes, "push it on cold")
	}
	b.value("warming that frees it", "ΔT = δ / (d α)", fmt.Sprintf("%s K, from %d to %s °C", significant(w.RiseK, 2), roomC, significant(w.ReachedC, 2)), strings.Join(notes, "; "))
	return nil
}
