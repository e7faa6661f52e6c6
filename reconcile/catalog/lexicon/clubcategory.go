package lexicon

import "strings"

// ClubCategory returns the kind of a club in short form.
func ClubCategory(club string) string {
	club = strings.ToUpper(strings.TrimSpace(club))
	switch club {
	case "":
		return ""
	case "1W", "DR":
		return "driver"
	case "PW", "GW", "AW", "SW", "LW", "UW":
		return "wedge"
	}
	if IsDigits(club) && len(club) == 1 {
		return "iron"
	}
	if len(club) < 2 {
		return ""
	}
	switch digits := club[:len(club)-1]; {
	case strings.Trim(digits, "0123456789") != "":
		return ""
	case club[len(club)-1] == 'W':
		return "fairway"
	case club[len(club)-1] == 'H':
		return "hybrid"
	case club[len(club)-1] == 'I':
		return "iron"
	}
	return ""
}
