package lexicon

import "testing"

// TestPackIn reads of descriptions how many pieces are sold together, and tells such numbers from sizes, boxes and pieces of one part.
func TestPackIn(t *testing.T) {
	lex := New(nil)
	for text, want := range map[string]struct {
		count float64
		found bool
	}{
		"Ferrule, black, fits .370 tip, 13.5 mm base x 25 mm long, bag of 12": {12, true},
		"Ferrule .370 black 12 per bag":                                       {12, true},
		"Ferrule .370 black, 12 pcs per bag":                                  {12, true},
		"Ferrule black 12-pack":                                               {12, true},
		"Ferrule black (24 ct)":                                               {24, true},
		"Ferrule black 25 mm x 10 pcs":                                        {10, true},
		"Ferrule black, 10 pcs":                                               {10, true},
		"Hülse schwarz 25 mm, Beutel à 25":                                    {25, true},
		"Hülse schwarz 25 mm, Beutel zu je 25 Stk":                            {25, true},
		"Hülse schwarz 25er-Beutel":                                           {25, true},
		"Hülse schwarz (25 Stück)":                                            {25, true},
		"Virole noire 25 mm, sachet de 10":                                    {10, true},
		"Virole noire, le lot de 10":                                          {10, true},
		"Casquillo negro, bolsa de 10":                                        {10, true},
		"Casquillo negro, bolsa c/10":                                         {10, true},
		"Ghiera nera conf. da 10 pz":                                          {10, true},
		"Bus zwart, zakje à 10 stuks":                                         {10, true},
		"Hylsa svart, 10 st/påse":                                             {10, true},
		"Hylsa svart, påse om 10":                                             {10, true},
		"Ponteira preta, pacote com 10":                                       {10, true},
		"Skuwka czarna, woreczek po 10 szt.":                                  {10, true},
		"フェルール 黒 10個入":                                                        {10, true},
		"フェルール 黒 1袋10個":                                                       {10, true},
		"套环 黑色 10个/包":                                                         {10, true},
		"페룰 검정 10개입":                                                          {10, true},
		"เฟอร์รูลดำ แพ็ค 12 ชิ้น":                                             {12, true},
		"Pyntering sort, pose m. 15 stk.":                                     {15, true},
		"Bus zwart, verpakt per 10":                                           {10, true},
		"Férula negra, bolsa de 24 uds.":                                      {24, true},
		"Hülse schwarz VE 25":                                                 {0, true},
		"Ferrule black, box 3":                                                {0, true},
		"Ferrule black x12":                                                   {0, true},
		"bag of 12, pack of 10":                                               {0, true},
		"Ferrule black 13.5 x 25":                                             {0, false},
		"Ferrule black 13.5 mm x 25":                                          {0, false},
		"Ferrule .370, 2 piece, black":                                        {0, false},
		"Ferrule 25 mm, box":                                                  {0, false},
		"Ferrule in poly bag 100 mm":                                          {0, false},
		"Ferrule in bag of 500 g":                                             {0, false},
		"Ferrule black 13.5 mm base, 25 mm long":                              {0, false},
		"Ferrule 5 rings black":                                               {0, false},
		"Hülse 13,5 x 25 mit 2 Ringen":                                        {0, false},
		"Epoxy, 24 h cure, 2 x 50 ml bottles":                                 {0, false},
	} {
		if count, found := lex.PackIn(text); count != want.count || found != want.found {
			t.Errorf("%q: %g, %v, want %g, %v", text, count, found, want.count, want.found)
		}
	}
}
