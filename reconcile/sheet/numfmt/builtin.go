package numfmt

// Builtin returns the code of a built-in number format, which workbooks name by number only. The codes are those of
// ECMA-376-1, 18.8.30, with the dates 14 and 22 as an American program shows them; General is the empty code. The
// numbers 5 to 8 and 41 to 44 take the currency of the reader's country; here it is the dollar. The numbers 27 to 36 and
// 50 to 58 stand for different codes in China, Taiwan, Japan and Korea; all of them are dates or times in all four, and
// the codes here are those of China. The numbers 71 to 81 are the Thai dates. ok is false for a number without a
// meaning.
func Builtin(id int) (code string, ok bool) {
	if id == 0 {
		return "", true
	}
	code, ok = builtin[id]
	return code, ok
}

var builtin = map[int]string{
	1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00",
	5: `"$"#,##0_);("$"#,##0)`, 6: `"$"#,##0_);[Red]("$"#,##0)`, 7: `"$"#,##0.00_);("$"#,##0.00)`, 8: `"$"#,##0.00_);[Red]("$"#,##0.00)`,
	9: "0%", 10: "0.00%", 11: "0.00E+00", 12: "# ?/?", 13: "# ??/??",
	14: "m/d/yyyy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy",
	18: "h:mm AM/PM", 19: "h:mm:ss AM/PM", 20: "h:mm", 21: "h:mm:ss", 22: "m/d/yyyy h:mm",
	27: `yyyy"年"m"月"`, 28: `m"月"d"日"`, 29: `m"月"d"日"`, 30: "m-d-yy", 31: `yyyy"年"m"月"d"日"`,
	32: `h"时"mm"分"`, 33: `h"时"mm"分"ss"秒"`, 34: `上午/下午h"时"mm"分"`, 35: `上午/下午h"时"mm"分"ss"秒"`, 36: `yyyy"年"m"月"`,
	37: "#,##0_);(#,##0)", 38: "#,##0_);[Red](#,##0)", 39: "#,##0.00_);(#,##0.00)", 40: "#,##0.00_);[Red](#,##0.00)",
	41: `_(* #,##0_);_(* \(#,##0\);_(* "-"_);_(@_)`, 42: `_("$"* #,##0_);_("$"* \(#,##0\);_("$"* "-"_);_(@_)`,
	43: `_(* #,##0.00_);_(* \(#,##0.00\);_(* "-"??_);_(@_)`, 44: `_("$"* #,##0.00_);_("$"* \(#,##0.00\);_("$"* "-"??_);_(@_)`,
	45: "mm:ss", 46: "[h]:mm:ss", 47: "mm:ss.0", 48: "##0.0E+0", 49: "@",
	50: `yyyy"年"m"月"`, 51: `m"月"d"日"`, 52: `yyyy"年"m"月"`, 53: `m"月"d"日"`, 54: `m"月"d"日"`,
	55: `上午/下午h"时"mm"分"`, 56: `上午/下午h"时"mm"分"ss"秒"`, 57: `yyyy"年"m"月"`, 58: `m"月"d"日"`,
	59: "t0", 60: "t0.00", 61: "t#,##0", 62: "t#,##0.00", 67: "t0%", 68: "t0.00%", 69: "t# ?/?", 70: "t# ??/??",
	71: "ว/ด/ปปปป", 72: "ว-ดดด-ปป", 73: "ว-ดดด", 74: "ดดด-ปป", 75: "ช:นน", 76: "ช:นน:ทท",
	77: "ว/ด/ปปปป ช:นน", 78: "นน:ทท", 79: "[ช]:นน:ทท", 80: "นน:ทท.0", 81: "d/m/bb",
}
