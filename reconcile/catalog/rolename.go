package catalog

import "example.com/seatline/fitcalc"

// plainRoles are what people call the roles that are no dimension of a joint.
var plainRoles = map[Role]string{
	Part: "part number", Description: "description", Category: "kind of club", Club: "club", Note: "remark", UnitRole: "unit of the row", Tolerance: "tolerance",
	Price: "price", Stock: "stock", Style: "form of the base", BoreForm: "form of the bore", TipForm: "form of the tip", Material: "material", Colour: "colour",
	Pack: "pieces in a pack", TipTaken: "tip", TipOD: "diameter of the tip", Taper: "taper", ParallelLength: "length of the parallel section",
}

// RoleName returns what people call a role in tables of a kind, in English: "hosel OD" and not hosel_od. A role that is unknown is its own name.
func RoleName(kind Kind, role Role) string {
	if name, known := plainRoles[role]; known {
		return name
	}
	if field := FieldOf(kind, role); field != fitcalc.NoField {
		return field.String()
	}
	return fieldNamed(role, string(role))
}

// fieldNamed is the name of the field that the engine calls by a role's word, such as the form of a hosel's top.
func fieldNamed(role Role, otherwise string) string {
	for _, owner := range []fitcalc.Owner{fitcalc.OfHead, fitcalc.OfFerrule, fitcalc.OfTip} {
		for _, field := range fitcalc.FieldsOf(owner) {
			if field.Column() == string(role) {
				return field.String()
			}
		}
	}
	return otherwise
}
