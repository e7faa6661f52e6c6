package press

import (
	"math"

	"example.com/seatline/fitcalc/measure"
)

// HeatCaution is the caution that goes with every [Warming].
const HeatCaution = "Heat softens plastic: cellulose acetate deflects under load at about 60 °C, and a ferrule that is " +
	"pushed on soft may be marked or stay wide and loose. Try a spare piece first, use warm water or warm air and never a " +
	"flame, keep solvents away, protect the hands, and remember that hot epoxy gives off fumes. Follow the material " +
	"maker's instructions, local rules and a qualified builder's judgement."

// Easing asks how far a ferrule must be warmed to slip on.
type Easing struct {
	// Interference is on the diameter, at the tightest place.
	Interference measure.Length
	// Bore is the ferrule's bore before it is warmed, which the shaft exceeds by the interference: it is the bore that has to
	// grow.
	Bore measure.Length
	// Ring is the ferrule's material; its ExpansionPerK is needed, its temperatures are compared with.
	Ring Material
	// ShaftExpansionPerK is the linear expansion of the shaft when it is warmed as well, per kelvin. Zero when the
	// shaft stays cold, which is also right for a shaft that does not expand.
	ShaftExpansionPerK float64
	// FromC is the temperature to start from, in °C.
	FromC float64
}

// WarningCode tells warnings apart.
type WarningCode string

const (
	// AboveService: the temperature passes the highest at which the material may be used.
	AboveService WarningCode = "ease.above-service"
	// AboveDeflection: the temperature passes the one at which the material bends under 1.8 MPa.
	AboveDeflection WarningCode = "ease.above-deflection"
	// LimitUnknown: the table has neither temperature for the material, so nothing was checked.
	LimitUnknown WarningCode = "ease.limit-unknown"
)

// Warning is something a person should know about a result that was nevertheless computed.
type Warning struct {
	// Code says what is passed.
	Code WarningCode
	// Text is the sentence to show, with the numbers in it.
	Text string
}

// Warming is how far a ferrule must be warmed.
type Warming struct {
	// RiseK is the rise of temperature in K; 0 when there is no interference.
	RiseK float64
	// ReachedC is the temperature reached, in °C.
	ReachedC float64
	// Warnings say which temperature of the material is passed. None is no promise: see Caution.
	Warnings []Warning
	// Caution is [HeatCaution].
	Caution string
}

// Solve returns the rise at which the interference vanishes, where the bore d, grown to d (1 + α_ring ΔT), is as large as the
// shaft, d + δ, grown to (d + δ)(1 + α_shaft ΔT):
//
//	ΔT = δ / (d α_ring − (d + δ) α_shaft)
//
// with α_shaft = 0 for a shaft that stays cold. The ring's own α is taken as constant; it grows with temperature for
// plastics, so that a little less may do.
//
// It reports an [*InputError] for a bore or temperature that cannot be, or when the bore grows no more than the
// shaft, and a [*MissingPropertyError] when the ring's expansion is not given.
func (e Easing) Solve() (Warming, error) {
	if e.Bore.Sign() <= 0 {
		return Warming{}, lengthError("Bore", e.Bore, "a diameter above 0")
	}
	if !(e.FromC >= absoluteZeroC) || math.IsInf(e.FromC, 1) {
		return Warming{}, numberError("FromC", e.FromC, "°C", "a temperature above -273.15 °C")
	}
	gain, err := e.gainPerK()
	if err != nil {
		return Warming{}, err
	}
	w := Warming{ReachedC: e.FromC, Caution: HeatCaution}
	if e.Interference.Sign() <= 0 {
		return w, nil
	}
	w.RiseK = e.Interference.Millimetres() / gain
	w.ReachedC += w.RiseK
	w.Warnings = e.Ring.warningsAt(w.ReachedC)
	return w, nil
}

const absoluteZeroC = -273.15

// gainPerK returns by how much more the bore grows than the shaft in it, in mm per kelvin.
func (e Easing) gainPerK() (float64, error) {
	if !(e.ShaftExpansionPerK >= 0) || math.IsInf(e.ShaftExpansionPerK, 1) {
		return 0, numberError("ShaftExpansionPerK", e.ShaftExpansionPerK, "1/K", "a finite number of 0 or more")
	}
	ring, err := e.Ring.need("ExpansionPerK", e.Ring.ExpansionPerK)
	if err != nil {
		return 0, err
	}
	shaft := measure.Max(e.Bore, e.Bore.Add(e.Interference))
	gain := e.Bore.Millimetres()*ring - shaft.Millimetres()*e.ShaftExpansionPerK
	if !(gain > 0) {
		return 0, numberError("Ring.ExpansionPerK", ring, "1/K",
			"more than the shaft's "+number(e.ShaftExpansionPerK)+" 1/K, else warming both does not ease the fit")
	}
	return gain, nil
}

func (m Material) warningsAt(reachedC float64) []Warning {
	var warnings []Warning
	warn := func(code WarningCode, limit Property, text string) {
		if limit.Given() && reachedC > limit.Value {
			warnings = append(warnings, Warning{code, m.Name + " would reach " + tenths(reachedC) + " °C, above " +
				text + " of " + tenths(limit.Value) + " °C"})
		}
	}
	warn(AboveService, m.MaxServiceC, "its highest service temperature")
	warn(AboveDeflection, m.DeflectionC, "its deflection temperature under load")
	if !m.MaxServiceC.Given() && !m.DeflectionC.Given() {
		warnings = append(warnings, Warning{LimitUnknown, "no temperature limit of " + m.Name +
			" is known: ask the maker of the material before warming it to " + tenths(reachedC) + " °C"})
	}
	return warnings
}
