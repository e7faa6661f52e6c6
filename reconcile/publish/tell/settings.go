package tell

import (
	"example.com/seatline/fitcalc"
	"example.com/seatline/fitcalc/measure"
)

// Setting is one setting of a shop as it is in force. Value and Default are written as files of settings write them.
type Setting struct {
	Key, Value, Default, Why, Source string
	// Changed is set where the value is not the default.
	Changed bool
}

// Settings returns all settings of a shop, in the order in which people should read them.
func Settings(shop fitcalc.Shop) []Setting {
	start := fitcalc.DefaultShop()
	var settings []Setting
	for _, s := range fitcalc.Settings() {
		settings = append(settings, Setting{
			Key: s.Key, Value: value(shop, s.Key), Default: s.Default, Why: s.Why, Source: s.Source,
			Changed: value(shop, s.Key) != value(start, s.Key),
		})
	}
	return settings
}

// value is empty for a key without a value, which [fitcalc.Settings] does not hold.
func value(shop fitcalc.Shop, key string) string {
	text, err := shop.Value(key)
	if err != nil {
		return ""
	}
	return text
}

// Show returns a setting's value, or its default, for reading: a length in the reader's units, anything else as it is.
func Show(text string, units fitcalc.Units) string {
	length, err := measure.ParseLength(text)
	if err != nil {
		return text // a share, a rate or an angle
	}
	return units.Show(length)
}
