package explain

import (
	"errors"
	"fmt"

	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
	"example.com/seatline/fitcalc/stack"
)

func (b *builder) flush() {
	b.topic("flush: the base against the hosel")
	f := &b.fit.Flush
	if !f.Known {
		return
	}
	base, hosel, step := f.BaseOD, f.HoselOD, b.shop.FlushStep
	what := b.of.HoselOD.Field.String()
	b.length("oversize", "base OD − "+what, "on the diameter; negative is undersize", "{} − {} = {}", base.Middle(), hosel.Middle(), f.Oversize.Nominal)
	b.length("least oversize", "least base OD − most "+what, "", "{} − {} = {}", base.Lower(), hosel.Upper(), f.Oversize.Least)
	b.length("most oversize", "most base OD − least "+what, "", "{} − {} = {}", base.Upper(), hosel.Lower(), f.Oversize.Most)
	if f.OneSize {
		b.value("one size", "oversize within same_size, and neither measured",
			fmt.Sprintf("within %s: base and hosel are one size stated twice, and the usual joint counts as neither over- nor undersize", b.u.Show(b.shop.SameSize)), "")
		base = base.Shift(f.Oversize.Nominal.Neg())
	}
	sum := stack.Of(base).Minus(hosel)
	b.value("spread", "", b.spread(sum, base, hosel), "")
	b.uses("flush_step", "same_size", "undersize_risk", "turn_share", "turn_limit", "measure_share")
	risk, share := percent(b.shop.UndersizeRisk), percent(b.shop.TurnShare)
	b.value("visibly undersize", "P(oversize < −flush step)", fmt.Sprintf("P(S < −%s) = %s, limit %s", b.one(step), percent(f.VisibleUndersize), risk), "")
	b.value("to be turned", "P(oversize > flush step)", fmt.Sprintf("P(S > %s) = %s, flush as supplied up to %s", b.one(step), percent(f.VisibleOversize), share), "")
	b.value("undersize at all", "P(oversize < 0)", percent(f.Undersize), "")
	t := f.TurnDown
	if t.Most.Sign() <= 0 {
		return
	}
	b.length("turn-down", "oversize, where it is more than nothing", "on the diameter: nominal, least and most", "{} ({} to {})", t.Nominal, t.Least, t.Most)
	side := t.PerSide()
	b.length("per side", "turn-down / 2", "", "{} / 2 = {}", t.Nominal, side.Nominal)
	b.value("against the limit", "turn-down against turn_limit", fmt.Sprintf("%s against %s; %s of joints are over it", b.u.Show(t.Nominal), b.u.Show(b.shop.TurnLimit),
		percent(f.OverTurnLimit)), "")
}

// spread describes how a sum of dimensions spreads.
func (b *builder) spread(sum stack.Sum, dims ...measure.Dim) string {
	mean, errMean := measure.FromMillimetres(sum.Mean())
	sigma, errSigma := measure.FromMillimetres(sum.Sigma())
	if errMean != nil || errSigma != nil {
		return "not known"
	}
	form := "normal: the limits of each stand three standard deviations from its middle"
	for _, d := range dims {
		if d.Shape() != measure.Normal {
			form = "the exact sum of the spreads stated"
		}
	}
	return fmt.Sprintf("mean %s, standard deviation %s (%s)", b.u.Show(mean), b.u.Show(sigma), form)
}

func (b *builder) grip() {
	b.topic("grip: the ferrule's bore against the shaft")
	g := &b.fit.Grip
	if !g.Known {
		return
	}
	b.positions(g)
	b.boreOfTip()
	at := b.of.Tightest()
	shaft, bore := b.of.Shaft(at), b.of.FerruleBore
	widest := g.Interference.Nominal.Add(bore.Middle()) // as the interference gives it exactly
	b.length("interference", "shaft diameter − ferrule bore", "on the diameter, at the tightest place, "+b.u.ShowLength(at)+" above the tip end",
		"{} − {} = {}", widest, bore.Middle(), g.Interference.Nominal)
	b.extreme("least interference", "least shaft − most ferrule bore", shaft.Lower(), bore.Upper(), g.Interference.Least)
	b.extreme("most interference", "most shaft − least ferrule bore", shaft.Upper(), bore.Lower(), g.Interference.Most)
	b.uses("slip_risk", "strain_limit", "split_risk", "least_grip")
	b.value("slips", "P(interference < 0)", fmt.Sprintf("%s, limit %s", percent(g.Slip), percent(b.shop.SlipRisk)), "")
	if g.KnownLength {
		b.length("grips over", "", fmt.Sprintf("of a length of %s; least %s", b.u.ShowLength(b.part.Length.Middle()), b.u.ShowLength(b.shop.LeastGrip)), "{}", g.Length)
	}
	b.value("strain", "interference / ferrule bore", fmt.Sprintf("%s / %s = %s, limit %s; at most %s",
		b.one(measure.Max(g.Interference.Nominal, measure.Length{})), b.one(bore.Middle()), stretch(g.Strain), stretch(b.shop.StrainLimit), stretch(g.MostStrain)), "of the ferrule at its bore")
	b.value("splits", "P(strain > limit)", fmt.Sprintf("%s, limit %s", percent(g.Split), percent(b.shop.SplitRisk)), "")
}

// boreOfTip is the bore of a ferrule that is known by the tip it is for.
func (b *builder) boreOfTip() {
	if !b.of.FerruleBore.Derived {
		return
	}
	b.uses("usual_interference")
	bore, tip := b.of.FerruleBore.Nominal(), b.part.ForTip.Tip(*b.shop)
	formula, note := "that tip − usual_interference", "the ferrule is for a tip of "+b.part.ForTip.String()
	if tip.Form() != fitcalc.TipParallel {
		formula, note = "that tip where it is widest under the ferrule − usual_interference", note+", and made for where it ends up on it"
	}
	b.length("bore of the ferrule", formula, note, "{} − {} = {}", bore.Add(b.shop.UsualInterference), b.shop.UsualInterference, bore)
}

// extreme is a worst case, to which the play of depth and length adds where these have limits: a tip that is not parallel
// then has another diameter under the ferrule.
func (b *builder) extreme(name, formula string, shaft, bore, result measure.Length) {
	play := result.Sub(shaft.Sub(bore))
	if play.IsZero() {
		b.length(name, formula, "", "{} − {} = {}", shaft, bore, result)
		return
	}
	sign := "+"
	if play.Sign() < 0 {
		sign = "−"
	}
	b.length(name, formula+" "+sign+" play of depth and length", "", "{} − {} "+sign+" {} = {}", shaft, bore, play.Abs(), result)
}

func stretch(strain float64) string { return significant(100*strain, 3) + "%" }

// positions says where the ferrule sits on the tip, and how wide a tip that is not parallel is there.
func (b *builder) positions(g *fitcalc.GripFit) {
	top := b.of.Seated
	from := "the bore depth"
	if !b.of.BoreDepth.Given() {
		from = "insertion_depth, since no bore depth is given"
	}
	b.length("base sits at", "", "above the tip end: "+from, "{}", g.Insertion)
	switch b.of.Tip.Form() {
	case fitcalc.TipTapered:
		end := b.of.Tip.Diameter(b.of.Tip.Trimmed().Neg()).Middle()
		for _, place := range [...]struct {
			name string
			at   measure.Length
		}{{"shaft at the base", g.Insertion}, {"shaft at the top", top}} {
			position := place.at.Add(b.of.Tip.Trimmed())
			note := "the tip grows as it leaves the hosel"
			if trimmed := b.of.Tip.Trimmed(); trimmed.Sign() > 0 {
				note = "positions from the end before trimming by " + b.u.ShowLength(trimmed)
			}
			diameter := b.of.Tip.Diameter(place.at).Middle()
			if diameter.Less(end.Add(b.of.Tip.Taper().Growth(position))) {
				b.length(place.name, "", "above its cone the tip is parallel", "{}", diameter)
				continue
			}
			b.length(place.name, "diameter at the end + taper × position", note,
				fmt.Sprintf("{} + %s × {} = {}", significant(b.of.Tip.Taper().Ratio(), 3)), end, position, diameter)
		}
		if !b.of.Tip.StatesTaper() {
			b.uses("tip_taper")
		}
		if !b.of.Tip.StatesTaperTo() {
			b.uses("tip_taper_to")
		}
	case fitcalc.TipProfiled:
		b.length("shaft at the base", "straight between the stations", "", "{}", b.of.Tip.Diameter(g.Insertion).Middle())
		b.length("shaft at the top", "straight between the stations", "", "{}", b.of.Tip.Diameter(top).Middle())
	}
}

func (b *builder) seat() {
	b.topic("seat: the base on the hosel's top")
	s := &b.fit.Seat
	if !s.Known || b.head.Top == fitcalc.TopRounded {
		return
	}
	b.value("form", "", fmt.Sprintf("%s ferrule on a %s top", b.of.Style, b.of.Top), "")
	b.countersink()
	b.collar(s)
	b.stepped(s)
	if s.Recess.Sign() > 0 {
		b.uses("recess_limit")
		b.length("open recess", "counterbore depth − what fills it", "limit "+b.u.ShowLength(b.shop.RecessLimit), "{}", s.Recess)
	}
	if s.StandOff.Most.Sign() > 0 {
		b.uses("seat_gap", "seat_risk")
		b.length("stands off", "", "nominal, least and most; up to "+b.u.Show(b.shop.SeatGap)+" does not show", "{} ({} to {})", s.StandOff.Nominal, s.StandOff.Least, s.StandOff.Most)
		b.value("stands off visibly", "P(stand-off > seat_gap)", fmt.Sprintf("%s, limit %s", percent(s.Proud), percent(b.shop.SeatRisk)), "")
	}
	if s.CutDeeper.Sign() > 0 {
		b.uses("least_hosel_wall")
		b.length("cut deeper by", "the stand-off", "", "{}", s.CutDeeper)
		b.length("mouth then", "collar OD + 2 × collar length × tan(angle / 2), or mouth + 2 × cut × tan(angle / 2) where that is more", "", "{}", s.CutMouth)
		if s.WallLeft.Sign() > 0 {
			b.length("hosel wall then", "(least hosel OD − mouth) / 2", "per side; least "+b.u.Show(b.shop.LeastHoselWall),
				"({} − {}) / 2 = {}", b.of.HoselOD.Lower(), s.CutMouth, s.WallLeft)
		}
	}
}

// countersink makes the cone complete where two of mouth, angle and depth are given.
func (b *builder) countersink() {
	c, bore := &b.head.Countersink, b.of.Bore
	if !c.Mouth.Given() || !bore.Given() {
		return
	}
	switch {
	case !c.Angle.IsZero() && !c.Depth.Given():
		depth := fitcalc.CountersinkDepth(c.Mouth.Middle(), bore.Middle(), c.Angle)
		b.length("depth of the cone", fmt.Sprintf("(mouth − bore) / (2 tan(%s° / 2))", significant(c.Angle.Degrees(), 3)), "", "({} − {}) / "+significant(2*c.Angle.Half().Tan(), 4)+" = {}",
			c.Mouth.Middle(), bore.Middle(), depth)
	case c.Angle.IsZero() && c.Depth.Given():
		angle := fitcalc.CountersinkAngle(c.Mouth.Middle(), bore.Middle(), c.Depth.Middle())
		b.value("angle of the cone", "2 atan((mouth − bore) / (2 × depth))", significant(angle, 3)+"°", "included")
	}
}

func (b *builder) collar(s *fitcalc.SeatFit) {
	c := &b.part.Collar
	if b.of.Style != fitcalc.Collared || !c.OD.Given() || !c.Length.Given() {
		return
	}
	b.uses("length_tolerance", "ferrule_od_tolerance", "recess_tolerance")
	b.length("collar", "", "long; goes in until its lower edge meets the cone, or the bottom", "{}", c.Length.Middle())
	if s.StandOff.Nominal.Less(c.Length.Middle()) {
		b.length("goes in by", "collar length − stand-off", "", "{} − {} = {}", c.Length.Middle(), s.StandOff.Nominal, c.Length.Middle().Sub(s.StandOff.Nominal))
	}
}

// stepped is the seat of a stepped ferrule.
func (b *builder) stepped(s *fitcalc.SeatFit) {
	p, c := &b.part.Step, &b.head.Counterbore
	if b.of.Style != fitcalc.Stepped || !p.OD.Given() || !p.Length.Given() || !c.Diameter.Given() || !c.Depth.Given() {
		return
	}
	b.uses("length_tolerance", "ferrule_od_tolerance", "recess_tolerance")
	b.length("room beside the step", "counterbore − step OD", "on the diameter", "{} − {} = {}", c.Diameter.Middle(), p.OD.Middle(), c.Diameter.Middle().Sub(p.OD.Middle()))
	b.length("room below the step", "counterbore depth − step length", "", "{} − {} = {}", c.Depth.Middle(), p.Length.Middle(), c.Depth.Middle().Sub(p.Length.Middle()))
}

func (b *builder) bore() {
	b.topic("bore and bond: the tip in the head")
	f := &b.fit.Bore
	if f.Known {
		b.uses("least_clearance", "most_clearance")
		b.length("clearance", "bore − tip diameter", "on the diameter, at the tightest place; "+b.u.Show(b.shop.LeastClearance)+" to "+b.u.Show(b.shop.MostClearance)+" leaves room for adhesive without a shim",
			"{} ({} to {})", f.Clearance.Nominal, f.Clearance.Least, f.Clearance.Most)
	}
	if f.KnownInsertion {
		b.uses("least_insertion")
		depth := b.of.BoreDepth.Middle()
		b.length("tip in the bore", "bore depth − recess in its mouth", "least "+b.u.ShowLength(b.shop.LeastInsertion), "{} − {} = {}", depth, depth.Sub(f.Insertion), f.Insertion)
	}
	bond, err := fitcalc.BondOf(*b.head, b.of.Tip, *b.shop)
	var input *fitcalc.InputError
	switch {
	case err == nil:
		const squareInch = 25.4 * 25.4
		b.value("bond area", "π × mean diameter × length along the surface", fmt.Sprintf("%s mm² (%s in²)", significant(bond.AreaMM2, 4), significant(bond.AreaMM2/squareInch, 3)), "the tip's surface in the bore")
		b.value("adhesive", "volume between tip and bore", fmt.Sprintf("%s mm³, a line of %s per side", significant(bond.GapMM3, 3), b.u.Show(bond.Line)), "")
		const pull = 1000.0
		b.value("average shear", "pull / bond area", fmt.Sprintf("%s MPa for every 1000 N of pull", significant(bond.ShearMPa(pull), 3)), "geometry only: the ends of a bond carry more, and how well an adhesive holds is for its maker and a test to say")
	case errors.As(err, &input):
		b.value("bond area", "", "not worked out: the "+input.Field.String()+" "+input.Reason, "")
	}
}

func (b *builder) work() {
	b.topic("wall and work")
	w := &b.fit.Work
	if !w.Known {
		return
	}
	b.uses("least_wall", "minutes_to_fit", "minutes_to_turn", "minutes_per_cm3")
	outside := measure.Min(b.of.HoselOD.Lower(), b.of.BaseOD.Lower())
	inside := outside.Sub(w.WallLeft.MulInt(2))
	b.length("wall left", "(least outside after turning − most inside) / 2", "per side, at the base; least "+b.u.Show(b.shop.LeastWall), "({} − {}) / 2 = {}", outside, inside, w.WallLeft)
	if b.part.RingDepth.Given() {
		b.length("ring", "", "how deep the rings go, per side; turning takes "+b.u.Show(b.fit.Flush.TurnDown.Nominal.Half())+" per side at the base", "{}", b.part.RingDepth.Middle())
	}
	b.value("bench time", "to fit + share turned × (to turn + volume × rate) + preparation", significant(w.Minutes, 3)+" min", "mean over many such joints")
}

// order is what a ferrule for this head and tip has to be.
func (b *builder) order() {
	b.topic("a ferrule made for this head and tip")
	if !b.of.HoselOD.Given() || !b.tipKnown() || b.head.Top == fitcalc.TopRounded {
		return
	}
	spec, err := fitcalc.Specify(*b.head, b.of.Tip, fitcalc.Ferrule{Length: b.part.Length}, *b.shop)
	if err != nil {
		b.value("cannot be specified", "", err.Error(), "")
		return
	}
	b.between("base OD", spec.BaseOD, fmt.Sprintf("± %s; %s leaves least to turn", b.u.Show(spec.BaseODTolerance), b.u.Show(spec.BestBaseOD)))
	b.between("bore", spec.Bore, fmt.Sprintf("± %s, for a length of %s; best %s", b.u.Show(spec.BoreTolerance), b.u.ShowLength(spec.ForLength), b.u.Show(spec.BestBore)))
	b.between("length", spec.Length, "with the best bore")
	b.uses("usual_interference", "least_length", "most_length")
	if b.head.HoselLength.Given() {
		b.uses("length_of_hosel")
	}
}

func (b *builder) between(name string, i measure.Interval, note string) {
	if i.Empty() {
		b.value(name, "", "none does", "")
		return
	}
	b.length(name, "", note, "{} to {}", inward(i.Lower().At(), measure.Up), inward(i.Upper().At(), measure.Down))
}
