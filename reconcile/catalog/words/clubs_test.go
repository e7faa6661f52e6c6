package words

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestClubs(t *testing.T) {
	v := Load()
	for text, want := range map[string]string{
		"4-PW": "4 5 6 7 8 9 PW", "4 - PW": "4 5 6 7 8 9 PW", "4–PW": "4 5 6 7 8 9 PW", "4~PW": "4 5 6 7 8 9 PW", "４－ＰＷ": "4 5 6 7 8 9 PW", "#4 to PW": "4 5 6 7 8 9 PW", "5 à PW": "5 6 7 8 9 PW", "7 a SW": "7 8 9 PW SW", "9 P A S": "9 PW AW SW", "5 bis PW": "5 6 7 8 9 PW",
		"#5-#9": "5 6 7 8 9", "#5-PW": "5 6 7 8 9 PW", "5i-SW": "5i 6i 7i 8i 9i PW SW", "4i-9i": "4i 5i 6i 7i 8i 9i", "3-5H": "3H 4H 5H", "3,5,7W": "3W 5W 7W", "3/5/7W": "3W 5W 7W", "3W, 5, 7": "3W 5W 7W",
		"PW/SW/LW": "PW SW LW", "PW-LW": "PW SW LW", "PW-SW": "PW SW", "4-AW": "4 5 6 7 8 9 PW AW", "4-GW": "4 5 6 7 8 9 PW GW", "4-SW": "4 5 6 7 8 9 PW SW", "3-PW, AW, SW": "3 4 5 6 7 8 9 PW AW SW", "5-9,P,A,S": "5 6 7 8 9 PW AW SW",
		"50/54/58": "50 54 58", "52°/56°": "52 56", "56°": "56", "4H,5H,6-PW": "4H 5H 6 7 8 9 PW",
		"4i": "4i", "#5": "5", "PW": "PW", "P/W": "PW", "SW": "SW", "GW": "GW", "AW": "AW", "LW": "LW", "3W": "3W", "W3": "3W", "FW5": "5W", "5H": "5H", "H4": "4H", "4U": "4U", "7-iron": "7", "7 iron": "7", "Iron 7": "7", "No. 7 iron": "7",
		"Eisen 7": "7", "Eisen 5-9": "5 6 7 8 9", "Fer 7": "7", "Hierro 7": "7", "Ferro 7": "7", "Holz 3": "3W", "bois 3, 5": "3W 5W", "Hybrid 3-5": "3H 4H 5H", "Híbrido 4": "4H",
		"7番": "7", "7番アイアン": "7", "アイアン #5-#9": "5 6 7 8 9", "3番ウッド": "3W", "7번 아이언": "7", "아이언 5-9": "5 6 7 8 9", "7号铁": "7", "7號鐵桿": "7", "3号木": "3W", "鐵桿 4-PW": "4 5 6 7 8 9 PW",
		"Gap wedge 52": "GW", "SW 56°": "SW", "Lob wedge 60": "LW", "PW 46": "PW", "PW 52 56": "PW 52 56", "PW 52": "PW 52", "SW, 56": "SW 56", "52 SW": "52 SW",
		"Fer 5 / 5 iron": "5", "Eisen 5-9 / 5-9 irons": "5 6 7 8 9", "Cocheur 52° / 52 wedge": "52", "3番ウッド / 3W": "3W", "Fer 7 / Eisen 7 / 7 iron": "7", "PW / pitching wedge": "PW", "5 / 5i": "5i", "5I / 5 iron": "5I",
		"Pitching wedge": "PW", "sand wedge": "SW", "ピッチングウェッジ": "PW", "沙坑桿": "SW",
	} {
		got, ok := v.Clubs(text)
		if diff := cmp.Diff(strings.Fields(want), got); diff != "" || !ok {
			t.Errorf("%q %v (-want +got):\n%s", text, ok, diff)
		}
	}
}

func TestNoClubs(t *testing.T) {
	v := Load()
	for _, text := range []string{
		"7", "12", "12-345", "05-123", "A-12", "S100", "10.5", "3-4", "4-9", "1-1/4", "3/8", "P", "S", "X4", "3A", "9P", "4-", "-PW", "9-4", "PW-4", "4--PW", "4H-PW", "100-104", "13", "4-7-9W-", "", " ",
		"PW-100", "7 irons and more", "0W", "W", "#", "44", ".370", "13.6 mm", "IW-200", "SWX", "S2/3", "A1-4", "S2", "5W-3W", "4i-5W", strings.Repeat("4i,", 60),
	} {
		if clubs, ok := v.Clubs(text); ok {
			t.Errorf("%q gives %v", text, clubs)
		}
	}
}

func TestClubsInAKnownCategory(t *testing.T) {
	v := Load()
	for _, test := range []struct{ category, text, want string }{
		{"iron", "7", "7"}, {"iron", "4-9", "4 5 6 7 8 9"}, {"fairway", "3", "3W"}, {"fairway", "3, 5, 7", "3W 5W 7W"}, {"hybrid", "3-5", "3H 4H 5H"}, {"wedge", "52", "52"},
	} {
		got, ok := v.ClubsIn(test.category, test.text)
		if diff := cmp.Diff(strings.Fields(test.want), got); diff != "" || !ok {
			t.Errorf("%s %q (-want +got):\n%s", test.category, test.text, diff)
		}
	}
	if clubs, ok := v.ClubsIn("iron", "12-345"); ok {
		t.Errorf("a part number gives %v", clubs)
	}
}

func TestFindClubs(t *testing.T) {
	v := Load()
	for text, want := range map[string]string{
		"Forged iron heads 4-PW": "4-PW", "Alloy set #5-#9 RH": "#5-#9", "Head X (3-PW)": "3-PW", "Item 12-345 plain": "", "Iron head": "", "Hybrid 3H chrome": "Hybrid 3H", "5 heads per box": "",
		"AW, 50 deg, RH": "AW", "Gap wedge GW, 52°": "Gap wedge GW", "PW, 46 degrees": "PW",
	} {
		clubs, place, ok := v.FindClubs(text)
		if place != want || ok != (want != "") {
			t.Errorf("%q: %v in %q, want %q", text, clubs, place, want)
		}
	}
}

func ExampleVocabulary_Clubs() {
	v := Load()
	for _, text := range []string{"4-PW", "3,5,7W", "7番アイアン", "12-345"} {
		clubs, ok := v.Clubs(text)
		fmt.Println(text, clubs, ok)
	}
	// Output:
	// 4-PW [4 5 6 7 8 9 PW] true
	// 3,5,7W [3W 5W 7W] true
	// 7番アイアン [7] true
	// 12-345 [] false
}

func TestClubsInOwnLetters(t *testing.T) {
	v := Load()
	for _, test := range []struct{ language, text, want string }{
		{"fr", "F4–F9, PW", "4–9, PW"}, {"fr", "B3, B5", "3W, 5W"}, {"en", "F4-F9", "F4-F9"}, {"de", "E5-E9", "5-9"}, {"it", "L3", "3W"}, {"fr", "XF4", "XF4"},
	} {
		if got := v.InOwnLetters(test.language, test.text); got != test.want {
			t.Errorf("%s %q: got %q, want %q", test.language, test.text, got, test.want)
		}
	}
}
