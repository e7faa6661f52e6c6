package reader_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/seatline/reconcile/finding"
)

// TestNumbersByKey reads sizes out of part numbers by a key above or below the list.
func TestNumbersByKey(t *testing.T) {
	const apart = `
Part No | Price EUR
VF-1350-0925-19-B | 0.48
VF-1300-0885-25-N | 0.52
VF-1200-0840-16-B | 0.45
`
	const together = `
Part No | Price EUR
VF1350092519B | 0.48
VF1300088525N | 0.52
VF1200084016B | 0.45
`
	const sized = "base_od=13.5 bore=9.25"
	for name, test := range map[string]struct{ above, table, below, want string }{
		"letters": {"Ferrules\nOur number: VF-aaaa-bbbb-cc-k\naaaa = base OD in hundredths of mm\nbbbb = bore in hundredths of mm\ncc = length in mm\nk = colour (B black, N navy)",
			apart, "", sized + ` colour="black" length=19`},
		"letters in a sentence": {"Ferrules: VF-dddd-bbbb-ll-c (d = base OD 1/100 mm; b = bore 1/100 mm; l = length mm; c = colour)", apart, "", sized + " length=19"},
		"letters together":      {"Ferrules, number VFddddbbbbllc: dddd = base OD in 1/100 mm, bbbb = bore in 1/100 mm, ll = length in mm, c = colour", together, "", sized + " length=19"},
		"letters below":         {"Ferrules", apart, "Key to numbers: VF-DDDD-BBBB-LL-C\nDDDD | base OD | 1/100 mm\nBBBB | bore | 1/100 mm\nLL | length | mm\nC | colour", sized + " length=19"},
		"names":                 {"Ferrules, numbers are VF-OD-ID-L-colour with OD and ID in 1/100 mm, L in mm", apart, "", sized + " length=19"},
		"names in brackets":     {"Ferrules\nVF-[base OD 1/100 mm]-[bore 1/100 mm]-[length mm]-[colour]", apart, "", sized + " length=19"},
		"names between dashes":  {"Ferrules\nVF - base OD (1/100 mm) - bore (1/100 mm) - length (mm) - colour", apart, "", sized + " length=19"},
		"names behind a number": {"Ferrules\nVF-1350-0925-19-B: base OD (1/100 mm), bore (1/100 mm), length (mm), colour", apart, "", sized + " length=19"},
		"an example":            {"Ferrules, e.g. VF-1350-0925-19-B = base 13.50, bore 9.25, length 19 mm, black", apart, "", sized + " length=19"},
		"an example together":   {"Ferrules, e.g. VF1350092519B = base OD 13.50 mm, bore 9.25 mm, length 19 mm, black", together, "", sized + " length=19"},
		"an example of a list":  {"Ferrules (example: VF-1350-0925-25-B is 13.50 x 9.25 x 25 mm, black)", apart, "", sized + " length=19"},
		"places":                {"Ferrules. The first four digits give the base OD in hundredths of a millimetre, the next four the bore in hundredths of a millimetre, the last two the length in mm", apart, "", sized + " length=19"},
		"digits":                {"Ferrules\nDigits 1-4: base OD 1/100 mm\nDigits 5-8: bore 1/100 mm\nDigits 9-10: length mm", together, "", sized + " length=19"},
		"groups":                {"Ferrules; 2nd group base OD (1/100 mm), 3rd group bore (1/100 mm), 4th group length (mm)", apart, "", sized + " length=19"},
		"signs":                 {"Ferrules\nPos. 3-6 = base OD 1/100 mm\nPos. 7-10 = bore 1/100 mm\nPos. 11-12 = length mm", together, "", sized + " length=19"},
		"no scale":              {"Ferrules, number VF-aaaa-bbbb-cc-k: aaaa = base OD, bbbb = bore, cc = length in mm, k = colour", apart, "", sized},
		"blanks":                {"Ferrules\nCode: VF AAA BBB LL (AAA = outside diameter in tenths of mm, BBB = bore in tenths of mm, LL = length in mm)", "\nCode | Price\nVF 135 093 19 | 0.40\nVF 130 087 25 | 0.42\nVF 120 085 16 | 0.42", "", "base_od=13.5 bore=9.3 length=19"},
		"decimals":              {"Viroles\nRéférence : VF/13,5/9,25/19/N = VF/diamètre base/alésage/longueur/couleur", "\nRéférence | Prix HT\nVF/13,5/9,25/19/N | 42,00\nVF/13,5/9,25/25/N | 45,00\nVF/13,0/8,85/25/B | 26,00", "", sized + " length=19"},
		"thousandths of inches": {"Ferrules, number VF-ddd-bbb-llll: ddd = base OD in thousandths of an inch, bbb = bore in thousandths of an inch, llll = length in thousandths of an inch", "\nPart | Price\nVF-530-364-0750 | 0.40\nVF-535-364-1000 | 0.42\nVF-510-350-0750 | 0.42", "", "base_od=13.462 bore=9.2456 length=19.05"},
		"cells of a line":       {"Ferrules\nItem numbers: first four digits = base OD (1/100 mm) | next four = bore (1/100 mm) | last two = length (mm)", "\nItem no | Price\nVF1350092519 | 0.48\nVF1300088525 | 0.52\nVF1200084016 | 0.45", "", sized + " length=19"},

		"about a dash": {"Ferrules\n1st to 4th digit | base OD in hundredths of mm\n5th to 8th digit | bore in hundredths of mm\nafter the dash | length in eighths of an inch\nlast letter | colour: B black N navy", "\nNumber | Price\nVF13500925-6B | 0.48\nVF13000885-8N | 0.52\nVF12000840-4B | 0.45", "", sized + " length=19.05"},
		"blank dashes": {"Virolas\nCómo se lee la clave | VF - BBBB - AAAA - LL - K\nBBBB = diámetro de la base en centésimas de mm (1350 = 13,50 mm)\nAAAA = diámetro del agujero en centésimas de mm\nLL = largo en mm", apart, "", sized + " length=19"},

		"an explained lead": {"", "\nPart | Price\nVF-135-093-19 | 0.40\nVF-130-087-25 | 0.42\nVF-120-085-16 | 0.42", "How numbers are built: VF = ferrule - base OD in tenths of mm - bore in tenths of mm - length in mm", "base_od=13.5 bore=9.3 length=19"},
		"nl lead": {"Ringkragen", "\nArtikelnr | Prijs\nVF-135-93-25 | 0,48\nVF-130-89-19 | 0,41\nVF-125-84-16 | 0,36",
			"Opbouw artikelnr: VF = ringkraag - buitendiameter onder in tienden mm - boring in tienden mm - lengte in mm\nVoorbeeld: VF-135-93-25 is onder 13,5 mm, boring 9,3 mm, 25 mm lang", "base_od=13.5 bore=9.3 length=25"},
		"de lead": {"Zierringe", "\nArtikelnr. | Preis\nVF-135-93-25 | 0,48\nVF-130-89-19 | 0,41\nVF-125-84-16 | 0,36",
			"Aufbau der Artikelnummer: VF = Zierring - Außendurchmesser unten in Zehntel mm - Bohrung in Zehntel mm - Länge in mm", "base_od=13.5 bore=9.3 length=25"},
		"fr lead": {"Viroles", "\nRéférence | Prix\nVF-135-93-25 | 0,48\nVF-130-89-19 | 0,41\nVF-125-84-16 | 0,36",
			"Construction de la référence : VF = virole - diamètre extérieur bas en dixièmes de mm - alésage en dixièmes de mm - longueur en mm", "base_od=13.5 bore=9.3 length=25"},

		"de letters":  {"Zwingen, unsere Nummer: VF-aaaa-bbbb-cc-k\naaaa = Außendurchmesser unten in 1/100 mm\nbbbb = Bohrung in Hundertstel mm\ncc = Länge in mm\nk = Farbe (B schwarz, N blau)", apart, "", sized + ` colour="schwarz" length=19`},
		"de places":   {"Zwingen: die ersten vier Ziffern sind der Außendurchmesser in 1/100 mm, die nächsten vier die Bohrung in 1/100 mm, die letzten zwei die Länge in mm", apart, "", sized + " length=19"},
		"fr letters":  {"Viroles, notre numéro : VF-aaaa-bbbb-cc-k\naaaa = diamètre extérieur en centièmes de mm\nbbbb = alésage en centièmes de mm\ncc = longueur en mm\nk = couleur", apart, "", sized + " length=19"},
		"fr places":   {"Viroles : les quatre premiers chiffres donnent le diamètre extérieur en centièmes de mm, les quatre suivants l'alésage en centièmes de mm, les deux derniers la longueur en mm", apart, "", sized + " length=19"},
		"es letters":  {"Casquillos, nuestro código: VF-aaaa-bbbb-cc-k\naaaa = diámetro base en centésimas de mm\nbbbb = diámetro taladro en centésimas de mm\ncc = largo en mm\nk = color", apart, "", sized + " length=19"},
		"es example":  {"Casquillos; ejemplo: VF-1350-0925-19-B = base 13,50, taladro 9,25, largo 19 mm, negro", apart, "", sized + " length=19"},
		"it letters":  {"Ghiere, codice: VF-aaaa-bbbb-cc-k\naaaa = diametro esterno in centesimi di mm\nbbbb = foro in centesimi di mm\ncc = lunghezza in mm\nk = colore", apart, "", sized + " length=19"},
		"nl letters":  {"Ferrules, ons nummer: VF-aaaa-bbbb-cc-k\naaaa = buitendiameter in honderdsten van mm\nbbbb = boring in honderdsten van mm\ncc = lengte in mm\nk = kleur", apart, "", sized + " length=19"},
		"zh letters":  {"套环 型号：VF-aaaa-bbbb-cc-k\naaaa＝外径（0.01mm）\nbbbb＝内径（0.01mm）\ncc＝长度（mm）\nk＝颜色（B黑色、N蓝色）", apart, "", sized + ` colour="黑色" length=19`},
		"zh places":   {"套环：前四位数字为外径（百分之一毫米），第5-8位数字为内径（百分之一毫米），第9-10位数字为长度（毫米）", apart, "", sized + " length=19"},
		"ja letters":  {"フェルール 品番：VF-aaaa-bbbb-cc-k\naaaa：外径（1/100mm）\nbbbb：内径（1/100mm）\ncc：長さ（mm）\nk：色", apart, "", sized + " length=19"},
		"ja places":   {"フェルール\n1〜4桁目：外径（1/100mm）\n5〜8桁目：内径（1/100mm）\n9〜10桁目：長さ（mm）", apart, "", sized + " length=19"},
		"ja examples": {"フェルール 例：VF-1350-0925-19-B ＝ 外径13.50、内径9.25、長さ19mm", apart, "", sized + " length=19"},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Ferrules", test.above+"\n"+strings.TrimLeft(test.table, "\n")+"\n"+test.below))
			got := ""
			for _, table := range c.Tables {
				for _, row := range table.Rows {
					if strings.HasPrefix(row.Part, "VF") && got == "" {
						got = rowText(row)
					}
				}
			}
			if !strings.Contains(got, "ed VF") || !strings.Contains(got, test.want) {
				show(t, c)
				t.Errorf("%s, want %s", got, test.want)
			}
		})
	}
}

// TestNumbersLeftOpen leaves open, with a word, what a key does not tell of a number.
func TestNumbersLeftOpen(t *testing.T) {
	const key = "Ferrules\nOur number: VF-aaaa-bbbb-cc-k\naaaa = base OD in hundredths of mm\nbbbb = bore in hundredths of mm\ncc = length in mm\nk = colour (B black, N navy)\nPart No | Price EUR\n"
	const codes = "Ferrules\nOur number: VF-aaaa-tt-cc\naaaa = base OD in hundredths of mm\ntt = tip code (37 = .370, 35 = .350)\ncc = length in mm\nPart No | Price EUR\n"
	const rest = "\nVF-1300-0885-25-N | 0.52\nVF-1200-0840-16-B | 0.45\nVF-1380-0925-19-B | 0.48"
	for name, test := range map[string]struct{ table, part, code, want string }{
		"two exchanged":          {key + "VF-0885-1300-25-B | 0.50" + rest, "VF-0885-1300-25-B", "data.unreadable", "held"},
		"otherwise built":        {key + "VF-13500925-25-B | 0.50" + rest, "VF-13500925-25-B", "data.unreadable", "held"},
		"a letter among digits":  {key + "VF-135O-0925-25-B | 0.50" + rest, "VF-135O-0925-25-B", "data.unreadable", "held"},
		"an impossible size":     {key + "VF-1350-0325-25-B | 0.50" + rest, "VF-1350-0325-25-B", "data.implausible", `base_od=13.5 bore="3.25" colour="black" length=25 price="0.50" {open bore}`},
		"an unexplained colour":  {key + "VF-1350-0925-25-X | 0.50" + rest, "VF-1350-0925-25-X", "data.unreadable", "base_od=13.5 bore=9.25"},
		"an unexplained tip":     {codes + "VF-1350-38-25 | 0.50\nVF-1350-37-25 | 0.50\nVF-1350-35-25 | 0.50\nVF-1300-35-25 | 0.50", "VF-1350-38-25", "data.unreadable", "base_od=13.5"},
		"an explained tip":       {codes + "VF-1350-38-25 | 0.50\nVF-1350-37-25 | 0.50\nVF-1350-35-25 | 0.50\nVF-1300-35-25 | 0.50", "VF-1350-37-25", "data.unreadable", "base_od=13.5"},
		"a key without meanings": {"Ferrules\nOur number: VF-aaaa-bbbb-cc-k\nPart No | Price EUR\nVF-1350-0925-25-B | 0.50" + rest, "", "layout.sizes", ""},
		"an unclear scale":       {"Ferrules\nOur number: VF-aa-bb\naa = base OD, bb = bore\nPart No | Price EUR\nVF-01-02 | 0.50\nVF-03-04 | 0.50\nVF-05-06 | 0.50", "", "layout.sizes", ""},
	} {
		t.Run(name, func(t *testing.T) {
			c := read(t, grid("Ferrules", test.table))
			got := ""
			if test.part != "" {
				got = rowOf(t, c, test.part)
			}
			said := slices.ContainsFunc(c.Findings, func(f finding.Finding) bool { return f.Code == test.code && f.Severity != finding.Note })
			if !said || !strings.Contains(got, test.want) || strings.Contains(got, "bore=13 ") || strings.Contains(got, "bore=38") {
				show(t, c)
				t.Errorf("%s, want %s and %s", got, test.want, test.code)
			}
		})
	}
}
