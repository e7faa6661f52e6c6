package numfmt

import (
	"math"
	"strings"
	"time"
)

// LastSerial is the last day that the 1900 system counts, 9999-12-31 (ECMA-376-1, 18.17.4.1).
const LastSerial = 2_958_465

// offset1904 is how many days the 1904 system is behind the 1900 system.
const offset1904 = 1462

// Serial returns the serial number of the date and time that a clock on the wall shows at a moment, whatever its zone, to
// the nearest 10⁻⁹ day. It is negative before the first day of the system.
func Serial(moment time.Time, date1904 bool) float64 {
	_, offset := moment.Zone()
	moment = moment.Add(time.Duration(offset) * time.Second).UTC()
	epoch := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	if date1904 {
		epoch = epoch.AddDate(0, 0, offset1904)
	}
	days := float64(moment.Truncate(24*time.Hour).Unix()-epoch.Unix()) / 86400
	if !date1904 && days < 61 {
		days-- // the 1900 system has a day too many in February 1900
	}
	return days + TimeOfDay(moment)
}

// TimeOfDay returns the part of the day that has passed at a moment, to the nearest 10⁻⁹.
func TimeOfDay(moment time.Time) float64 {
	midnight := time.Date(moment.Year(), moment.Month(), moment.Day(), 0, 0, 0, 0, moment.Location())
	return math.Round(moment.Sub(midnight).Seconds()/86400*1e9) / 1e9
}

// arrangeDate tells minutes from months, and joins the digits behind the seconds.
func (s *section) arrangeDate() {
	s.joinSubseconds()
	last := byte(0)
	for i := range s.tokens {
		t := &s.tokens[i]
		switch t.kind {
		case placeholder, power, percent, at, general:
			s.known = false
		case slash, point, comma:
			t.kind = literal
		case date, elapsed:
			if t.kind == date && (t.text == "m" || t.text == "mm") && (last == 'h' || s.nextUnit(i) == 's') {
				t.text = strings.Repeat("n", len(t.text)) // minutes
			}
			last = t.text[0]
		}
		if t.kind == date && s.foreign && len(t.text) > 2 && (t.text[0] == 'm' || t.text[0] == 'd') {
			s.known = false
		}
	}
}

// joinSubseconds makes one token of .000 behind seconds.
func (s *section) joinSubseconds() {
	var joined []token
	for i := 0; i < len(s.tokens); i++ {
		t := s.tokens[i]
		seconds := len(joined) > 0 && joined[len(joined)-1].text != "" && joined[len(joined)-1].text[0] == 's' &&
			joined[len(joined)-1].kind != literal
		if t.kind == point && seconds && s.digits == 0 {
			for i+1 < len(s.tokens) && s.tokens[i+1].kind == placeholder && s.tokens[i+1].text == "0" {
				s.digits++
				i++
			}
			if s.digits > 0 {
				t = token{date, "." + strings.Repeat("0", s.digits)}
			}
			s.known = s.known && s.digits <= 3
		}
		joined = append(joined, t)
	}
	s.tokens = joined
}

// nextUnit returns the letter of the next unit of time behind a token, 0 for none.
func (s *section) nextUnit(i int) byte {
	for _, t := range s.tokens[i+1:] {
		if t.kind == date || t.kind == elapsed {
			return t.text[0]
		}
	}
	return 0
}

// moment is a serial number taken apart.
type moment struct {
	year, month, day     int
	weekday              time.Weekday
	hour, minute, second int
	fraction             int     // of the second, in units of the last digit shown
	total                float64 // the serial number, rounded to what is shown of the seconds
}

// dated shows a serial number as a date or time. ok is false for a number that is no date.
func (s *section) dated(out []byte, d *decimal, date1904 bool) (shown []byte, ok bool) {
	if d.neg && d.n > 0 {
		return nil, false
	}
	m, ok := s.moment(d.float(), date1904)
	if !ok {
		return nil, false
	}
	half := false
	for _, t := range s.tokens {
		half = half || t.kind == halfDay
	}
	for _, t := range s.tokens {
		switch t.kind {
		case date:
			out = m.append(out, t.text, half)
		case elapsed:
			out = m.appendElapsed(out, t.text)
		case halfDay:
			out = m.appendHalf(out, t.text)
		default:
			out = append(out, t.text...)
		}
	}
	return out, true
}

// moment takes a serial number apart. The 1900 system counts a 29 February 1900 that never was as day 60, and a day 0.
func (s *section) moment(serial float64, date1904 bool) (moment, bool) {
	scale := math.Pow10(s.digits)
	days := math.Floor(serial)
	ticks := math.Round((serial - days) * 86400 * scale)
	if ticks >= 86400*scale {
		days++
		ticks = 0
	}
	m := moment{total: days + ticks/scale/86400}
	if date1904 {
		days += offset1904
	}
	if days > LastSerial {
		return moment{}, false
	}
	day := int(days)
	m.weekday = time.Weekday((day + 6) % 7)
	switch {
	case day == 0:
		m.year, m.month, m.day = 1900, 1, 0
	case day == 60:
		m.year, m.month, m.day = 1900, 2, 29
	default:
		if day < 60 {
			day++
		}
		year, month, dayOfMonth := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC).AddDate(0, 0, day).Date()
		m.year, m.month, m.day = year, int(month), dayOfMonth
	}
	seconds := int(math.Floor(ticks / scale))
	m.fraction = int(ticks - float64(seconds)*scale)
	m.hour, m.minute, m.second = seconds/3600, seconds/60%60, seconds%60
	return m, true
}

func (m *moment) append(out []byte, unit string, half bool) []byte {
	width := min(len(unit), 2)
	switch unit[0] {
	case 'y':
		if len(unit) <= 2 {
			return appendInt(out, m.year%100, 2)
		}
		return appendInt(out, m.year, 4)
	case 'e':
		return appendInt(out, m.year, 4)
	case 'm':
		name := time.Month(m.month).String()
		switch len(unit) {
		case 1, 2:
			return appendInt(out, m.month, width)
		case 3:
			return append(out, name[:3]...)
		case 5:
			return append(out, name[0])
		}
		return append(out, name...)
	case 'd':
		switch len(unit) {
		case 1, 2:
			return appendWhole(out, m.day, width)
		case 3:
			return append(out, m.weekday.String()[:3]...)
		}
		return append(out, m.weekday.String()...)
	case 'h':
		hour := m.hour
		if half {
			hour = (hour+11)%12 + 1
		}
		return appendWhole(out, hour, width)
	case 'n':
		return appendWhole(out, m.minute, width)
	case 's':
		return appendWhole(out, m.second, width)
	}
	return appendInt(append(out, '.'), m.fraction, len(unit)-1)
}

// appendWhole appends a number that may be 0 with at least one digit.
func appendWhole(out []byte, value, width int) []byte { return appendInt(out, value, max(width, 1)) }

func (m *moment) appendElapsed(out []byte, unit string) []byte {
	factor := map[byte]float64{'h': 24, 'm': 24 * 60, 's': 24 * 60 * 60}[unit[0]]
	// The small addition keeps a whole number of units whole although a day is no binary fraction.
	return appendWhole(out, int(math.Floor(m.total*factor+1e-6)), len(unit))
}

func (m *moment) appendHalf(out []byte, mark string) []byte {
	afternoon := m.hour >= 12
	first, second, _ := strings.Cut(mark, "/")
	switch {
	case !afternoon:
		return append(out, first...)
	default:
		return append(out, second...)
	}
}
