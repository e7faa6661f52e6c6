// Package palette has the colours that workbooks call by a number (ECMA-376-1, 18.8.27; MS-XLS, 2.5.161), which are the same in old files and new.
package palette

import (
	"strings"

	"example.com/seatline/reconcile/sheet"
)

// Size is how many colours a palette has. Numbers from there on are colours of the screen, which are none.
const Size = 64

// own are those of the numbers from 8 to 63; 0 to 7 are those of 8 to 15.
var own = [56]uint32{
	0x000000, 0xFFFFFF, 0xFF0000, 0x00FF00, 0x0000FF, 0xFFFF00, 0xFF00FF, 0x00FFFF,
	0x800000, 0x008000, 0x000080, 0x808000, 0x800080, 0x008080, 0xC0C0C0, 0x808080,
	0x9999FF, 0x993366, 0xFFFFCC, 0xCCFFFF, 0x660066, 0xFF8080, 0x0066CC, 0xCCCCFF,
	0x000080, 0xFF00FF, 0xFFFF00, 0x00FFFF, 0x800080, 0x800000, 0x008080, 0x0000FF,
	0x00CCFF, 0xCCFFFF, 0xCCFFCC, 0xFFFF99, 0x99CCFF, 0xFF99CC, 0xCC99FF, 0xFFCC99,
	0x3366FF, 0x33CCCC, 0x99CC00, 0xFFCC00, 0xFF9900, 0xFF6600, 0x666699, 0x969696,
	0x003366, 0x339966, 0x003300, 0x333300, 0x993300, 0x993366, 0x333399, 0x333333,
}

// Colour returns the colour of a number, none where there is none.
func Colour(number int) sheet.Colour {
	if number >= 8 {
		number -= 8
	}
	if number < 0 || number >= len(own) {
		return 0
	}
	c := own[number]
	return sheet.RGB(uint8(c>>16), uint8(c>>8), uint8(c))
}

// names are the colours that pages call by a word (CSS Color 4, 6.1), those that people mark cells with.
var names = map[string]uint32{
	"aqua": 0x00FFFF, "black": 0x000000, "blue": 0x0000FF, "cyan": 0x00FFFF, "darkgreen": 0x006400, "darkred": 0x8B0000, "fuchsia": 0xFF00FF,
	"gold": 0xFFD700, "gray": 0x808080, "green": 0x008000, "grey": 0x808080, "khaki": 0xF0E68C, "lightblue": 0xADD8E6, "lightgray": 0xD3D3D3,
	"lightgreen": 0x90EE90, "lightgrey": 0xD3D3D3, "lightyellow": 0xFFFFE0, "lime": 0x00FF00, "magenta": 0xFF00FF, "maroon": 0x800000,
	"navy": 0x000080, "olive": 0x808000, "orange": 0xFFA500, "pink": 0xFFC0CB, "purple": 0x800080, "red": 0xFF0000, "silver": 0xC0C0C0,
	"teal": 0x008080, "white": 0xFFFFFF, "yellow": 0xFFFF00,
}

// Named returns the colour that a style sheet writes: #FFFF00, #FF0, yellow; none for anything else.
func Named(text string) sheet.Colour {
	text = strings.ToLower(strings.TrimSpace(text))
	digits, numbered := strings.CutPrefix(text, "#")
	if !numbered {
		c, known := names[text]
		if !known {
			return 0
		}
		return sheet.RGB(uint8(c>>16), uint8(c>>8), uint8(c))
	}
	if len(digits) == 3 {
		digits = string([]byte{digits[0], digits[0], digits[1], digits[1], digits[2], digits[2]})
	}
	if len(digits) != 6 {
		return 0
	}
	colour, _ := sheet.ParseColour(digits)
	return colour
}
