// Package press computes press fits: a ring forced over a bar or tube of another material, as a ferrule over a shaft.
//
// # Symbols
//
//	d      mm    interface diameter
//	d_o    mm    outside diameter of the ring
//	d_i    mm    bore of the shaft; zero for a solid bar
//	δ      mm    interference, shaft diameter minus ring bore: on the diameter, always
//	E, ν   MPa   Young's modulus and Poisson's ratio; index o for the ring, i for the shaft
//	p      MPa   pressure between the two
//	σθ, σr MPa   hoop and radial stress; tension is positive
//	µ            coefficient of friction
//	α      1/K   linear thermal expansion; also the half angle of a taper, where no heat is meant
//
// Every diameter is a diameter, and every interference and growth is on the diameter; per side is half of it. Books
// that work in radii give radial interferences: double them first.
//
// # Pressure and stress
//
// Thick-walled cylinders in plane stress (Lamé):
//
//	p  = δ / { d [ ((d_o²+d²)/(d_o²−d²) + ν_o)/E_o + ((d²+d_i²)/(d²−d_i²) − ν_i)/E_i ] }
//	p  = E δ/(2d³) · (d_o²−d²)(d²−d_i²)/(d_o²−d_i²)            one material
//	σθ = +p (d_o²+d²)/(d_o²−d²)    at the bore of the ring;     σr = −p
//	σθ = −p (d²+d_i²)/(d²−d_i²)    at the surface of the shaft; σr = −p
//	σθ = −2p d²/(d²−d_i²)          at the bore of a tube;       σr = 0
//
// Source: Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th ed., section 7-8, eqs. (7-39) to (7-47).
// [Joint] solves one section and gives its inverse, the most interference for a limit; [Pair] is the same without
// ceremony for millions of sections.
//
// A ring that is short, or free to change its length, is in plane stress. Formulas for plane strain, which for
// one material give a pressure 1/(1−ν²) times as high, belong to long cylinders held at their ends and are not offered.
//
// # Grip along a ferrule
//
// [Assembly] adds slices of independent rings along a ferrule whose bore, wall and shaft vary with position:
//
//	F = µ ∫ p π d dx     T = µ ∫ p π d²/2 dx     parallel: F = µ p π d L, T = F d/2
//
// On a taper of half angle α, pushing up takes ∫ p π d (µ + tan α) dx, and pushing back ∫ p π d (µ − tan α) dx.
//
// # Heat
//
// A ferrule slips on when it is warmer by ΔT = δ/(d α_ring), d its bore, or δ/(d α_ring − (d + δ) α_shaft) when the shaft is
// warmed too. For .002 in on a bore of .368 in in cellulose acetate that is 45 K, which from a room at 20 °C is above the 60 °C
// the plastic stands: [Easing] says so.
//
// # What the numbers are worth
//
// The theory is linear, elastic and immediate. Plastics are none of these: above about 1 % strain they carry less stress
// than computed, and a pressed ring relaxes within days to a part of its first pressure (from memory: a half or less).
// Published moduli of cellulose acetate span a factor of three, and friction is rarely known better than to a half. So
// compare fits with one another, and hold strains against a strain limit; do not rely on a force for safety. A head is
// held by its bond, never by the ferrule. Follow the adhesive maker's instructions, local rules and a qualified
// builder's judgement.
//
// Materials with their ranges and sources are in [Materials]; a number no source gave is absent, not zero.
package press
