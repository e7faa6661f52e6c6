package numfmt

import "strconv"

// precision is how many significant digits a spreadsheet program shows of a number. It is why 0.33500000000000002,
// which is what the nearest double to 0.335 is written as, appears as 0.335.
const precision = 15

// decimal is a number rounded to 15 significant digits: 0.d₁d₂… · 10^exp. A zero has no digits.
type decimal struct {
	neg    bool
	n      int // how many digits are in use; the last is not 0
	exp    int
	digits [precision + 2]byte // values 0 to 9
}

// parseDecimal reads a number as a sheet stores it: an optional sign, digits with at most one point, an optional
// exponent. It reports false for anything else.
func parseDecimal(raw string) (d decimal, ok bool) {
	i := 0
	if i < len(raw) && (raw[i] == '-' || raw[i] == '+') {
		d.neg = raw[i] == '-'
		i++
	}
	seen, point, exact := false, false, true
	for ; i < len(raw); i++ {
		c := raw[i]
		if c == '.' && !point {
			point = true
			continue
		}
		if c < '0' || c > '9' {
			break
		}
		seen = true
		if d.n == 0 && c == '0' {
			if point {
				d.exp--
			}
			continue
		}
		if !point {
			d.exp++
		}
		if d.n == precision {
			exact = exact && c == '0'
			continue
		}
		d.digits[d.n] = c - '0'
		d.n++
	}
	if !seen {
		return decimal{}, false
	}
	if i < len(raw) {
		power, ok := exponent(raw[i:])
		if !ok {
			return decimal{}, false
		}
		d.exp += power
	}
	if !exact {
		value, err := strconv.ParseFloat(raw, 64)
		if err != nil {
			return decimal{}, false
		}
		return fromFloat(value), true
	}
	d.trim()
	return d, true
}

// exponent reads e±digits.
func exponent(text string) (int, bool) {
	if text[0] != 'e' && text[0] != 'E' || len(text) < 2 {
		return 0, false
	}
	digits := text[1:]
	if digits[0] == '+' || digits[0] == '-' {
		digits = digits[1:]
	}
	if digits == "" || len(digits) > 4 {
		return 0, false
	}
	for _, c := range []byte(digits) {
		if c < '0' || c > '9' {
			return 0, false
		}
	}
	power, err := strconv.Atoi(text[1:])
	return power, err == nil
}

// fromFloat rounds a double to 15 significant digits. The value must be finite.
func fromFloat(value float64) decimal {
	var buffer [32]byte
	text := strconv.AppendFloat(buffer[:0], value, 'e', precision-1, 64)
	d, _ := parseDecimal(string(text))
	return d
}

// trim drops zeros at the end.
func (d *decimal) trim() {
	for d.n > 0 && d.digits[d.n-1] == 0 {
		d.n--
	}
	if d.n == 0 {
		d.exp = 0
	}
}

// round keeps a number of decimal places, halves away from zero, as spreadsheet programs display numbers.
func (d *decimal) round(places int) {
	keep := d.exp + places
	if keep >= d.n {
		return
	}
	if keep < 0 {
		d.n, d.exp = 0, 0
		return
	}
	up := d.digits[keep] >= 5
	d.n = keep
	if up {
		i := keep - 1
		for ; i >= 0 && d.digits[i] == 9; i-- {
			d.n--
		}
		if i < 0 {
			d.digits[0], d.n = 1, 1
			d.exp++
			return
		}
		d.digits[i]++
		return
	}
	d.trim()
}

// at returns the digit that stands for 10^power.
func (d *decimal) at(power int) byte {
	i := d.exp - 1 - power
	if i < 0 || i >= d.n {
		return 0
	}
	return d.digits[i]
}

// float returns the number as a double.
func (d *decimal) float() float64 {
	var buffer [40]byte
	text := append(buffer[:0], "0."...)
	if d.neg {
		text = append(buffer[:0], "-0."...)
	}
	for _, digit := range d.digits[:d.n] {
		text = append(text, '0'+digit)
	}
	text = append(text, '0', 'e')
	text = strconv.AppendInt(text, int64(d.exp), 10)
	value, _ := strconv.ParseFloat(string(text), 64)
	return value
}

// IsNumber reports whether a text is a number as a sheet stores it.
func IsNumber(raw string) bool {
	_, ok := parseDecimal(raw)
	return ok
}
