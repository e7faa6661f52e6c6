package questions

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/seatline/fitcalc/say"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/traits"
)

// about is what people call a role, and what an answer looks like. The name is empty where the words of letters have it: of what is easily
// measured in the wrong place a letter says more than what the size is called elsewhere.
type about struct {
	name, example string
	length        bool
}

const (
	diameterExample = "such as 13.6 mm or .535 in"
	lengthExample   = "such as 32 mm or 1-1/4 in"
)

// abouts are the roles that decide a joint.
var abouts = map[catalog.Role]about{
	catalog.HoselOD:          {"", diameterExample, true},
	catalog.AdapterOD:        {"outside diameter at the top of the adapter sleeve", diameterExample, true},
	catalog.Bore:             {"bore, the inside diameter of the hole itself", diameterExample, true},
	catalog.BoreDepth:        {"depth of the bore", lengthExample, true},
	catalog.HoselLength:      {"length of the hosel", lengthExample, true},
	catalog.NeckTop:          {"distance from the sole to the top of the neck", lengthExample, true},
	catalog.Top:              {"form of the hosel's top", "flat, rounded, countersunk or counterbored", false},
	catalog.CountersinkMouth: {"diameter of the countersink at its mouth", diameterExample, true},
	catalog.CountersinkAngle: {"included angle of the countersink", "such as 60°", false},
	catalog.CountersinkDepth: {"depth of the countersink", "such as 1.5 mm or .060 in", true},
	catalog.CounterboreOD:    {"diameter of the counterbore", diameterExample, true},
	catalog.CounterboreDepth: {"depth of the counterbore", "such as 4 mm or .160 in", true},
	catalog.TipTaken:         {"diameter of the shaft tip that the head takes", "such as .370 in", true},
	catalog.BaseOD:           {"", diameterExample, true},
	catalog.TopOD:            {"outside diameter at the top", diameterExample, true},
	catalog.Length:           {"", "such as 12.7 mm or 1/2 in", true},
	catalog.Style:            {"form of the base", "plain, collared or stepped", false},
	catalog.CollarOD:         {"diameter of the collar", diameterExample, true},
	catalog.CollarLength:     {"length of the collar", "such as 0.8 mm or .030 in", true},
	catalog.StepOD:           {"diameter of the step", diameterExample, true},
	catalog.StepLength:       {"length of the step", "such as 4 mm or .160 in", true},
	catalog.Rings:            {"number of decorative rings", "such as 2", false},
	catalog.TipOD:            {"diameter at the tip end", "such as .370 in", true},
	catalog.Taper:            {"growth of the diameter", "such as 0.0075 in/in", false},
	catalog.ParallelLength:   {"length of the parallel section", lengthExample, true},
}

// decides reports whether a role decides a joint.
func decides(role catalog.Role) bool { _, known := abouts[role]; return known }

// IsLength reports whether a role is a length, which an answer has to give with its unit.
func IsLength(role catalog.Role) bool { return abouts[role].length }

// nameOf is what people call a role.
func nameOf(role catalog.Role) string {
	if a, known := abouts[role]; known {
		return cmp.Or(a.name, sizeCalled(LetterLanguage(""), role))
	}
	return catalog.RoleName(catalog.UnknownKind, role)
}

// sizeCalled is what a letter calls a size, empty where it is called what it is called elsewhere.
func sizeCalled(l *say.Language, role catalog.Role) string {
	return l.Words()["letter.size_"+string(role)]
}

func asksFor(part string, role catalog.Role) string {
	a, known := abouts[role]
	if !known {
		return fmt.Sprintf("%s: what is the %s?", part, nameOf(role))
	}
	unit := ""
	if a.length {
		unit = "with its unit, "
	}
	return fmt.Sprintf("%s: what is the %s? (%s%s)", part, nameOf(role), unit, a.example)
}

// rolesFor are the roles that a column of a table may be given in an answer, those that decide a joint.
func rolesFor(kind catalog.Kind) []string {
	order := []catalog.Role{
		catalog.Part, catalog.HoselOD, catalog.BaseOD, catalog.TipOD, catalog.Bore, catalog.BoreDepth, catalog.Length, catalog.HoselLength,
		catalog.Top, catalog.CountersinkMouth, catalog.CountersinkDepth, catalog.TipTaken, catalog.AdapterOD, catalog.Style, catalog.CollarOD,
		catalog.CollarLength, catalog.StepOD, catalog.StepLength, catalog.Taper, catalog.ParallelLength,
	}
	var names []string
	for _, role := range order {
		if traits.IsRole(kind, role) {
			names = append(names, catalog.RoleName(kind, role))
		}
	}
	return names
}

// roleCalled is the role that people call by a name, in any table; a word that is none is left as it is, in small letters.
func roleCalled(name string) string {
	name = strings.ToLower(strings.TrimSpace(name))
	for _, kind := range []catalog.Kind{catalog.Heads, catalog.Ferrules, catalog.Tips} {
		for _, role := range traits.OfKind[kind] {
			if strings.ToLower(catalog.RoleName(kind, role)) == name {
				return string(role)
			}
		}
	}
	return name
}
