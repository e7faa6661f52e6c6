package words_test

import (
	"slices"
	"testing"

	"example.com/seatline/reconcile/catalog/words"
)

func TestBlanks(t *testing.T) {
	v := words.Load()
	all := words.Blanks{}
	for text, want := range map[string]words.Blanks{
		"Blank cells: same as row above":                  all,
		"Fields left blank are as in the line above":      all,
		"Leere Felder: wie in der Zeile darüber":          all,
		"Nicht ausgefüllte Felder wie oben":               all,
		"Case vide = idem ci-dessus":                      all,
		"Les cases vides reprennent la ligne précédente":  all,
		"Celdas en blanco: igual que la fila anterior":    all,
		"Caselle vuote: come riga precedente":             all,
		"Campos em branco: igual à linha de cima":         all,
		"Tomma rutor: som raden ovan":                     all,
		"Tomme felter: som rækken ovenfor":                all,
		"Tyhjät kentät: kuten ylempi rivi":                all,
		"Puste pola: jak w wierszu powyżej":               all,
		"Prázdná pole: jako v řádku výše":                 all,
		"Boş hücreler: üst satırla aynı":                  all,
		"Ô trống: như dòng trên":                          all,
		"ช่องว่าง = เหมือนแถวบน":                          all,
		"※空欄は上の行と同じです":                                    all,
		"빈칸은 위 행과 동일":                                     all,
		"空白处同上一行":                                         all,
		"空白處同上一列":                                         all,
		"Blank price: as above":                           {Roles: []string{"price"}},
		"Lege vakken: maat en prijs als de regel erboven": {Sizes: true, Roles: []string{"price"}},
		"Where blank, bore depth is as above":             {Roles: []string{"bore_depth"}},
		"Blank diameters as in the line above":            {Class: "diameter"},
		"Colour blank: as above":                          {Roles: []string{"colour"}},
	} {
		got, said := v.Blanks("heads", text)
		if !said || !slices.Equal(got.Roles, want.Roles) || got.Class != want.Class || got.Sizes != want.Sizes {
			t.Errorf("%q: %+v %v, want %+v", text, got, said, want)
		}
	}
	for _, text := range []string{"Blank cells: on request", "Leere Felder: auf Anfrage", "Bores as in the line above", "See the note above", "", "Empty boxes are not taken back",
		"Blank = not available"} {
		if got, said := v.Blanks("heads", text); said {
			t.Errorf("%q says of blank cells that they are as above: %+v", text, got)
		}
	}
}

// TestBlanksInEveryLanguage knows the ways in which people say that blank cells mean what stands above, and takes nothing else for it that
// they say of blank cells. The sentences are from memory, in languages of which their author speaks a few.
func TestBlanksInEveryLanguage(t *testing.T) {
	v := words.Load()
	for language, texts := range map[string]struct{ above, other []string }{
		"en": {
			[]string{"Empty cells repeat the value of the row above", "Where a cell is empty, the value from the line above applies", "Blanks: like the previous line", "Fields that are empty carry down from the row above",
				"If a field is open take the entry of the preceding row", "Blank means same as the item above", "Cells are left empty where they repeat the line before"},
			[]string{"Empty = not made", "Blank: on request", "Blank: see price list above", "Empty cells are not as in the row above", "Fields left open: to be confirmed", "Blank cells: no value known"},
		},
		"de": {
			[]string{"Leere Zellen wiederholen den Wert der Zeile darüber", "Bei leeren Feldern gilt der Wert der vorherigen Zeile", "Offene Felder wie Vorzeile", "Freigelassene Felder: Angaben der vorstehenden Zeile gelten",
				"Wo nichts steht, gilt das Obenstehende", "leer = wie vorstehend", "Leerfelder übernehmen den oberen Wert"},
			[]string{"leer = wird nicht gefertigt", "Leere Felder: auf Anfrage", "Leere Felder: siehe Preisliste oben", "Leere Felder bedeuten nicht dasselbe wie oben", "Offene Felder folgen"},
		},
		"fr": {
			[]string{"Les cellules vides répètent la valeur de la ligne supérieure", "Cellule vide : même valeur que la ligne précédente", "Les champs laissés vides sont identiques à la ligne du dessus", "Vide = comme au-dessus",
				"Si la case est vide, reprendre la valeur de la ligne d'au-dessus", "Case non renseignée : idem ligne précédente"},
			[]string{"vide = non fabriqué", "Case vide : sur demande", "Cases vides : voir le tarif ci-après", "Une case vide n'est pas identique à la ligne précédente"},
		},
		"es": {
			[]string{"Las celdas vacías repiten el valor de la fila superior", "Celda vacía: mismo valor que la fila de arriba", "Los campos vacíos son iguales a la línea anterior", "En blanco = ídem anterior",
				"Si la casilla está vacía se toma el dato de la fila precedente", "Las casillas sin datos heredan lo de arriba"},
			[]string{"vacío = no se fabrica", "En blanco: consultar", "Celdas vacías: según tarifa adjunta", "Las celdas vacías no repiten la fila anterior"},
		},
		"it": {
			[]string{"Le celle vuote ripetono il valore della riga superiore", "Cella vuota: stesso valore della riga precedente", "I campi vuoti sono uguali alla riga sopra", "Vuoto = idem come sopra",
				"Se la casella è vuota vale il dato della riga soprastante", "I campi non compilati ereditano il valore sovrastante"},
			[]string{"vuoto = non prodotto", "Campi vuoti: su richiesta", "Caselle vuote: vedi listino allegato", "Le celle vuote non ripetono la riga precedente"},
		},
		"pt": {
			[]string{"As células vazias repetem o valor da linha de cima", "Célula vazia: mesmo valor da linha anterior", "Os campos vazios são iguais aos da linha acima", "Em branco = idem acima",
				"Se a casa estiver vazia, vale o dado da linha precedente", "Campos não preenchidos herdam o valor superior"},
			[]string{"vazio = não fabricado", "Em branco: sob consulta", "Campos vazios: ver tabela anexa", "As células vazias não repetem a linha anterior"},
		},
		"nl": {
			[]string{"Lege cellen herhalen de waarde van de bovenliggende rij", "Bij lege velden geldt de waarde van de vorige regel", "Open vakken: zelfde als de regel hierboven", "leeg = idem als erboven",
				"Niet ingevulde velden nemen de waarde van de rij erboven over", "Leeg vakje: gelijk aan vorige rij"},
			[]string{"leeg = niet gemaakt", "Lege velden: op aanvraag", "Lege vakken: zie prijslijst", "Lege cellen zijn niet gelijk aan de vorige regel"},
		},
		"sv": {
			[]string{"Tomma celler upprepar värdet på raden ovanför", "Tom ruta: samma värde som föregående rad", "Tomma fält är lika med raden ovan", "Tomt = samma som ovan",
				"Om fältet är tomt gäller uppgiften på raden innan", "Ej ifyllda fält ärver värdet ovanför"},
			[]string{"tomt = tillverkas inte", "Tomma fält: på begäran", "Tomma rutor: se prislistan", "Tomma celler är inte samma som raden ovan"},
		},
		"da": {
			[]string{"Tomme celler gentager værdien fra rækken ovenover", "Tomt felt: samme værdi som forrige linje", "Tomme felter er lig med linjen ovenfor", "Tom = samme som ovenfor",
				"Hvis feltet er tomt, gælder værdien i foregående række", "Ikke udfyldte felter arver værdien ovenfor", "Tomme felt gjentar verdien fra raden over", "Tomt felt: samme verdi som forrige linje"},
			[]string{"tom = fremstilles ikke", "Tomme felter: på forespørgsel", "Tomme felter: se prislisten", "Tomme celler er ikke som rækken ovenfor"},
		},
		"fi": {
			[]string{"Tyhjät solut toistavat yllä olevan rivin arvon", "Tyhjä kenttä: sama arvo kuin edellisellä rivillä", "Tyhjissä kentissä pätee edellisen rivin arvo", "Tyhjä = sama kuin yllä",
				"Jos ruutu on tyhjä, arvo on sama kuin ylemmällä rivillä", "Täyttämättömät kentät: kuten edellinen rivi"},
			[]string{"tyhjä = ei valmisteta", "Tyhjät kentät: pyynnöstä", "Tyhjät ruudut: katso hinnasto", "Tyhjät solut eivät ole samat kuin edellisellä rivillä"},
		},
		"pl": {
			[]string{"Puste komórki powtarzają wartość z wiersza powyżej", "Puste pole: ta sama wartość co w poprzednim wierszu", "W pustych polach obowiązuje wartość z poprzedniego wiersza", "Puste = jw.",
				"Jeśli pole jest puste, należy przyjąć wartość z wiersza wyżej", "Niewypełnione pola: tak jak wyżej"},
			[]string{"puste = nie produkujemy", "Puste pola: na zapytanie", "Puste pola: patrz cennik", "Puste komórki nie powtarzają poprzedniego wiersza"},
		},
		"cs": {
			[]string{"Prázdné buňky opakují hodnotu z řádku výše", "Prázdné pole: stejná hodnota jako v předchozím řádku", "V prázdných polích platí hodnota z předchozího řádku", "Prázdné = dtto výše",
				"Je-li pole prázdné, platí údaj z řádku nad ním", "Nevyplněná pole jsou shodná s předchozím řádkem"},
			[]string{"prázdné = nevyrábí se", "Prázdná pole: na dotaz", "Prázdná pole: viz ceník", "Prázdné buňky nejsou stejné jako v předchozím řádku"},
		},
		"tr": {
			[]string{"Boş hücreler üst satırdaki değeri tekrarlar", "Boş hücre: önceki satırdaki değer geçerlidir", "Boş alanlar bir önceki satırla aynıdır", "Boş = yukarıdakinin aynısı",
				"Hücre boşsa üstteki satırın değeri alınır", "Boş bırakılan alanlarda yukarıdaki değer geçerlidir"},
			[]string{"boş = üretilmiyor", "Boş alanlar: sorunuz", "Boş hücreler: fiyat listesine bakınız", "Boş hücreler üst satırla aynı değildir"},
		},
		"vi": {
			[]string{"Ô trống lặp lại giá trị của hàng trên", "Ô để trống: giá trị giống dòng trước", "Các ô trống lấy theo dòng phía trên", "Trống = như ở trên",
				"Nếu ô trống thì áp dụng giá trị của hàng ngay trên", "Chỗ bỏ trống có giá trị như hàng liền trước"},
			[]string{"trống = không sản xuất", "Ô trống: liên hệ", "Ô trống: xem bảng giá", "Ô trống không giống dòng trên"},
		},
		"th": {
			[]string{"เซลล์ว่างใช้ค่าซ้ำจากแถวบน", "ช่องว่าง: ค่าเดียวกับแถวก่อนหน้า", "ช่องที่เว้นว่างให้ใช้ค่าของบรรทัดบน", "ว่าง = เหมือนบรรทัดบน",
				"หากช่องว่าง ให้ถือตามแถวด้านบน"},
			[]string{"ว่าง = ไม่ผลิต", "ช่องว่าง: สอบถาม", "ช่องว่าง: ดูใบราคา", "ช่องว่างไม่เหมือนแถวบน"},
		},
		"ja": {
			[]string{"空欄は上の行の値を繰り返します", "空白セルは前の行と同じ値です", "空欄の場合は直上の値を適用", "未記入欄は一つ上の行に準ずる",
				"空欄＝上段に同じ", "ブランクは上の値と同様"},
			[]string{"空欄＝製造なし", "空欄：お問い合わせください", "空欄は価格表をご覧ください", "空欄は上の行と同じではありません"},
		},
		"ko": {
			[]string{"빈 셀은 위 행의 값을 반복합니다", "빈칸: 이전 행과 같은 값", "공란은 윗줄의 값을 적용", "빈칸 = 상동",
				"비어 있는 칸은 바로 위 값과 동일합니다", "빈칸은 앞 줄과 같습니다"},
			[]string{"빈칸 = 생산 안 함", "빈칸: 문의", "공란은 가격표를 참조", "빈칸은 위 행과 같지 않음"},
		},
		"zh-Hans": {
			[]string{"空白单元格重复上一行的值", "空格：与上一行数值相同", "未填写的与前一行一致", "留空表示同上",
				"空白处沿用上行数据", "空栏按上面一行"},
			[]string{"空白＝不生产", "空白处请询价", "空白处见价格表", "空白不代表同上一行"},
		},
		"zh-Hant": {
			[]string{"空白儲存格重複上一列的值", "空格：與上一列數值相同", "未填寫者與前一列一致", "留空表示同上",
				"空白處沿用上行資料", "空欄依上面一列"},
			[]string{"空白＝不生產", "空白處請詢價", "空白處見價格表", "空白不代表同上一列"},
		},
	} {
		for _, text := range texts.above {
			if got, said := v.Blanks("heads", text); !said || !got.All() {
				t.Errorf("%s, %q: %+v %v, want all cells", language, text, got, said)
			}
		}
		for _, text := range texts.other {
			if got, said := v.Blanks("heads", text); said {
				t.Errorf("%s, %q says of blank cells that they are as above: %+v", language, text, got)
			}
		}
	}
}

// TestOldStays tells notes that let old values stay beside blank new ones from those that say something else of blank cells.
func TestOldStays(t *testing.T) {
	v := words.Load()
	for text, want := range map[string]struct{ stays, said bool }{
		"Where NEW is blank the old size stays":               {true, true},
		"Blank = no change":                                   {true, true},
		"Wo NEU leer ist, bleibt das alte Maß":                {true, true},
		"Leere Felder: unverändert":                           {true, true},
		"Case vide : cote inchangée":                          {true, true},
		"Si la celda está vacía se mantiene la medida actual": {true, true},
		"Caselle vuote: quota invariata":                      {true, true},
		"Campo vazio: medida inalterada":                      {true, true},
		"Waar NIEUW leeg is, blijft de oude maat":             {true, true},
		"Tomma fält: oförändrat":                              {true, true},
		"Tomme felter: uændret":                               {true, true},
		"Tyhjä: ei muutosta":                                  {true, true},
		"Puste pole: bez zmian":                               {true, true},
		"Prázdné pole: beze změny":                            {true, true},
		"Boş hücre: eski ölçü":                                {true, true},
		"Ô trống: giữ nguyên":                                 {true, true},
		"ช่องว่าง: คงเดิม":                                    {true, true},
		"空欄は変更なし":                                             {true, true},
		"빈칸은 변경 없음":                                           {true, true},
		"空白表示不变":                                              {true, true},
		"空白表示不變":                                              {true, true},
		"Wo NEU leer ist, entfällt das Teil":                  {false, true},
		"Blank: discontinued":                                 {false, true},
		"Where NEW is blank the old size must not be used":    {false, true},
		"Old sizes are for reference only":                    {false, false},
	} {
		if stays, said := v.OldStays(text); stays != want.stays || said != want.said {
			t.Errorf("%q: %v %v, want %+v", text, stays, said, want)
		}
	}
}
