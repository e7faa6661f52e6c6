package words

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestInPieces(t *testing.T) {
	tests := map[string]string{
		"2 doz": "24", "3 dz.": "36", "1 dozen": "12", "6 douzaines": "72", "3 dozijn": "36", "2 dussin": "24", "7 dz": "84", "a gross": "144",
		"half a dozen": "6", "2 doz + 4": "28", "1 1/2 doz": "18", "1½ doz": "18", "½ doz": "6", "2½ doz left": "30 left", "1-1/2 doz": "18", "2 doz + 4 left": "28 left", "1 gross, 2 doz": "168", "two doz": "24", "2打": "24", "3 Dtzd": "36",
		"10 doz": "120", "half doz": "6", "2 gross": "288", "1/2 gross": "72", "1.5 doz": "18", "2,5 dz": "30", "Two dozen": "24",
		"3 doz left": "36 left", "2 doz in stock": "24 in stock", "about 2 doz": "about 24", "c. 3 doz": "c. 36", "2doz": "24", "2 DOZ.": "24",
		"2 doz (24)": "24", "1 gross 2 doz": "168", "1 doz and 5": "17", "2 Dutzend": "24", "ein Dutzend": "12", "ein halbes Dutzend": "6",
		"zwei Dutzend": "24", "une douzaine": "12", "une demi-douzaine": "6", "deux douzaines et demie": "30", "media docena": "6", "3 docenas": "36",
		"una docena y media": "18", "mezza dozzina": "6", "2 dozzine": "24", "meia dúzia": "6", "2 dúzias": "24", "pół tuzina": "6", "3 tuziny": "36",
		"5 tuzinów": "60", "půl tuctu": "6", "4 tucty": "48", "2 dusin": "24", "et halvt dusin": "6", "et dusin": "12", "ett dussin": "12",
		"puoli tusinaa": "6", "2 tusinaa": "24", "yarım düzine": "6", "2 düzine": "24", "2ダース": "24", "半ダース": "6", "半打": "6", "一打": "12", "两打": "24",
		"一打半": "18", "2 다스": "24", "반 다스": "6", "2 โหล": "24", "ครึ่งโหล": "6", "2 tá": "24", "nửa tá": "6", "2 罗": "288", "2 gros": "288", "2 score": "40",
		"3 pair": "6", "een half dozijn": "6", "twee dozijn": "24", "2 dozijn + 3": "27", "2 dozijnen": "24", "2 Dtz": "24", "2 Dzd": "24",

		"12/3 doz": "12/3 doz", "2-3 doz": "2-3 doz", "2 - 3 doz": "2 - 3 doz", "2 x 3 doz": "2 x 3 doz", "2 doz + 3 on order": "24 + 3 on order", "2 doz, 3 Dec": "24, 3 Dec", "2 doz short": "24 short", "1.000 doz": "1.000 doz",
		"24": "24", "24 left": "24 left", "12 pcs": "12 pcs", "2 bags": "2 bags", "2 bags of a dozen": "2 bags of a dozen", "none": "none", "dozen": "dozen",
		"30 gr": "30 gr", "6 of each": "6 of each", "36 (3 doz)": "36 (3 doz)", "0.4 doz": "0.4 doz", "a few": "a few", "2 hundred": "2 hundred", "2 bin": "2 bin", "12 on 3 doz order": "12 on 3 doz order",
	}
	v := Load()
	got := map[string]string{}
	for text := range tests {
		got[text] = v.InPieces(text)
	}
	if diff := cmp.Diff(tests, got); diff != "" {
		t.Errorf("counts (-want +got):\n%s", diff)
	}
}
