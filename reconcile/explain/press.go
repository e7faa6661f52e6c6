package explain

import (
	"fmt"
	"strings"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/press"
)

// roomC is the temperature from which warming is reckoned, in °C.
const roomC = 20

// press adds pressure and forces where the ferrule's material is known and it grips. The error is one of package press: a
// shaft material that is not in the table, or sizes that cannot be computed with.
func (b *builder) press() error {
	b.topic("press fit: ring on tube")
	if name := b.s.Shaft.Material; name != "" {
		if _, err := press.MaterialByName(name); err != nil {
			return err
		}
	}
	g := &b.fit.Grip
	if of := b.part.Material; of == fitcalc.MaterialUnknown || of == fitcalc.OtherMaterial ||
		!g.Known || g.Interference.Nominal.Sign() <= 0 || !b.of.BaseOD.Given() {
		return nil
	}
	m, err := fitcalc.MechanicsOf(*b.head, b.of.Tip, *b.part, *b.shop, fitcalc.Shaft(b.s.Shaft))
	if err != nil {
		return err
	}
	section := m.Section()
	if !section.Interface.Less(section.RingOutside) {
		return nil // the wall is gone, which the verdict says
	}
	joint, err := press.NewJoint(section, m.Ring, m.Shaft)
	if err != nil {
		return err
	}
	solved := joint.Solve(m.Interference)
	b.value("materials", "", fmt.Sprintf("%s, E %s MPa (%s to %s by source), ν %s; %s", m.Material.Name, significant(m.Ring.YoungModulusMPa, 3),
		significant(m.Material.YoungModulusMPa.Least, 3), significant(m.Material.YoungModulusMPa.Most, 3), significant(m.Ring.Poisson, 2), b.shaftNote(&m)), "")
	b.value("pressure", "p = δ / {d [((D² + d²)/(D² − d²) + ν)/E + shaft]}", fmt.Sprintf("%s MPa, with δ %s, d %s and D %s", significant(solved.PressureMPa(), 3), b.one(m.Interference), b.one(section.Interface), b.one(section.RingOutside)),
		"Lamé's thick-walled ring, at the tightest place, with the outside as it is after turning")
	b.value("hoop stress at the bore", "p (D² + d²)/(D² − d²)", significant(solved.RingBore().HoopMPa, 3)+" MPa", b.yieldNote(m.Material))
	if err := b.force(&m); err != nil {
		return err
	}
	return b.warming(&m)
}

func (b *builder) shaftNote(m *fitcalc.Mechanics) string {
	if m.ShaftMaterial.Name == "" {
		return "shaft not known and taken as rigid, which gives the highest pressure"
	}
	tube := "solid"
	if inside := b.s.Shaft.Inside; inside.Sign() > 0 {
		tube = "inside " + b.u.Show(inside)
	}
	return fmt.Sprintf("shaft: %s, E %s MPa, %s", m.ShaftMaterial.Name, significant(m.Shaft.YoungModulusMPa, 3), tube)
}

func (b *builder) yieldNote(m press.Material) string {
	if !m.YieldMPa.Given() {
		return ""
	}
	return fmt.Sprintf("%s yields at %s to %s MPa; plastics relax, so this is the first hour's", m.Name, significant(m.YieldMPa.Least, 2), significant(m.YieldMPa.Most, 2))
}

// force adds up the grip along the ferrule, turned down to the hosel.
func (b *builder) force(m *fitcalc.Mechanics) error {
	if !b.part.Length.Given() {
		return nil
	}
	assembly, err := m.Turned()
	if err != nil {
		return err
	}
	seated, err := assembly.At(m.Insertion)
	if err != nil {
		b.value("push-on force", "", "not worked out: "+err.Error(), "")
		return nil
	}
	b.value("force between the surfaces", "N = ∫ p π d dx", significant(seated.NormalN, 3)+" N", "over the length that grips")
	friction, note := b.friction(m)
	if friction == 0 {
		b.value("push-on force", "F = µ N", fmt.Sprintf("µ × %s N", significant(seated.NormalN, 3)), note)
		return nil
	}
	b.value("push-on force", "F = µ N, and the climb of a taper", fmt.Sprintf("µ %s: %s N; it resists %s N afterwards", significant(friction, 2), significant(seated.PushOnN, 3), significant(seated.PushOffN, 3)), note)
	return nil
}

func (b *builder) friction(m *fitcalc.Mechanics) (float64, string) {
	switch of := m.Friction; {
	case of.Basis == press.Own:
		return of.Value, "friction as given"
	case of.Given():
		return of.Value, "friction on steel, " + of.Basis.String() + ": " + of.Source
	}
	return 0, "no published friction of " + m.Material.Name + " on a shaft was found; give yours"
}

// warming says how far the ferrule must be warmed to slip on.
func (b *builder) warming(m *fitcalc.Mechanics) error {
	if !m.Material.ExpansionPerK.Given() {
		return nil
	}
	w, err := m.Easing(roomC).Solve()
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
