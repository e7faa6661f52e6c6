package text

import (
	"strings"
	"sync"
	"unicode"
)

// script is what a text of an encoding is expected to be written in.
type script uint8

const (
	western script = iota
	simplified
	traditional
	kana
	hangul
)

// The most frequent characters of running text and of sheets of parts, from general knowledge of the languages. They
// need not be complete: read in the wrong encoding, a text has hardly any of them.
var (
	commonSimplified  = set("的一是不了在人有我他这个们中来上大为和国地到以说时要就出会可也你对生能而子那得于着下自之年过发后作里用道行所然家种事成方多经么去法学如都同现当没动面起看定天分还进好小部其些主样理心本前开但因只从想实日军者意无力它与长把机十民第公此已工使情明性知全三又关点正业外将两高间由问很最重并物手应战向头文体政美相见被利什二等产或新己制身果加西斯月话合回特代内信表化老给世位次度门任常先海通教儿原东声提立及比员解水名真论处走义各入几口认条平系气题活尔更别打女变四神总何电数安少报才结反受目太量再感建务做接必场件计管期市直德资命山金指克许统区保至队形社便空决治展马科司五基眼书非则听白却界达光放强即像难且权思王象完设式色路记南品住告类求据程北边死张该交规万取拉格望觉术领共确传师观清今切院让识候带导争运笔径号型规格备注单价厘毫米英寸材料质颜色编厂壁厚孔杆套头铁木钛铝黑银红蓝绿寸含税库存差胶圈镀铬碳纤维装饰环锥销热挖推左右手")
	commonTraditional = set("的一是不了在人有我他這個們中來上大為和國地到以說時要就出會可也你對生能而子那得於著下自之年過發後作裡用道行所然家種事成方多經麼去法學如都同現當沒動面起看定天分還進好小部其些主樣理心本前開但因只從想實日軍者意無力它與長把機十民第公此已工使情明性知全三又關點正業外將兩高間由問很最重並物手應戰向頭文體政美相見被利什二等產或新己制身果加西斯月話合回特代內信表化老給世位次度門任常先海通教兒原東聲提立及比員解水名真論處走義各入幾口認條平系氣題活爾更別打女變四神總何電數安少報才結反受目太量再感建務做接必場件計管期市直德資命山金指克許統區保至隊形社便空決治展馬科司五基眼書非則聽白卻界達光放強即像難且權思王象完設式色路記南品住告類求據程北邊死張該交規萬取拉格望覺術領共確傳師觀清今切院讓識候帶導爭運筆徑號型規格備註單價厘毫米英吋材料質顏色編廠壁厚孔桿套頭鐵木鈦鋁黑銀紅藍綠含稅庫存差膠圈鍍鉻碳纖維裝飾環錐銷熱挖推左右手")
	commonKanji       = set("日一国会人年大十二本中長出三同時政事自行社見月分議後前民生連五発間対上部東者党地合市業内相方四定今回新場金員九入選立開手米力学問高代明実円関決子動京全目表戦経通外最言氏現理調体化田当八六約主題下首意法不来作性的要用制治度務強気小七成期公野協取都和統以機平総加山思家話世受区領多県続進正安設保改数記院女初北午指権心界支第産結百派点教報済書府活原先共得解名交資予川向際査勝面委告軍文反元重近千考判認画海参売利組知案道信策集在件団別物側任引使求所次水半品昨論計死官増係感特情投示変打男基私各始島直両朝革価式確村提運終挙果西勢減台広容必応演電歳住争談能無再位置企真流格有疑口過局少放税検藤町常校料沢裁状工建語球営空職証土与急止送援供可役構木割聞身費付施切由説転食比難防補車優夫研収断井何南石足違消境神番規術護展態導鮮備宅害配副算視条幹独警宮究育席輸訪楽起万着乗店述残想線率病農州武声質念待試族象銀域助労例衛然早張映限親額監環験追審商葉義伝働形景落欧担好退準賞訴辺造英被株頭技低毎医復仕去姿味負閣韓渡失移差衆個門写評課末守若脳極種美岡影命含福蔵量望松非撃佐核観察整段横融型白深字答夜製票況音申様財港識注呼渉達径番材質厚穴寸法単価在庫備考色黒赤青緑軸鉄管")
	commonHangul      = set("이다는의가에고을하지한로은기사도자리서를나어인대그시아수정들부일만스해보제라주있과니여상전게것으구면원장적와모관우화성동비신무중공유조경선연소물국생방개산없였었던요세실발문분기학내외경길품번재질량격단위색상무게규비모델명칭두께직호각종류용체헤드샤프트페룰티아연검정은파빨강초록흑백재고판매코소켓블랙부품실버레드공차도금왼오른손원")
	// westernLetters are the letters beyond ASCII in German, French, Spanish, Italian, Portuguese, Dutch and the
	// Scandinavian languages, and westernSigns the signs of sheets of parts.
	westernLetters = set("äöüÄÖÜßéèêëÉÈÊàâáåãÀÂÁÅçÇñÑóòôõÓúùûÚíìîïÍæøœÆØ")
	westernSigns   = set("°±µ½¼¾²³×÷–—‘’“”„•…€£™®©·«»§¡¿ºª\u00a0´")
	// eastern signs of sheets of parts.
	easternSigns = set("、。，．：；（）「」【】《》・ー～±×÷°φΦ∅№℃㎜㎝㎏％＃＋－／＝０１２３４５６７８９\u3000“”‘’→○●◎★△■□※〜")
)

// words are headings of sheets of parts. A short file may have no other text.
var words = map[script][]string{
	simplified:  {"外径", "内径", "长度", "型号", "材料", "材质", "数量", "价格", "单价", "单位", "颜色", "重量", "品名", "规格", "备注", "名称", "编号", "直径", "厚度", "产品", "毫米"},
	traditional: {"外徑", "內徑", "長度", "型號", "材料", "材質", "數量", "價格", "單價", "單位", "顏色", "重量", "品名", "規格", "備註", "名稱", "編號", "直徑", "厚度", "產品", "公釐"},
	kana:        {"外径", "内径", "長さ", "型番", "品番", "材質", "数量", "価格", "単価", "単位", "重量", "品名", "規格", "備考", "名称", "番号", "直径", "厚さ", "製品", "カラー", "サイズ", "ヘッド", "シャフト"},
	hangul:      {"외경", "내경", "길이", "품번", "재질", "수량", "가격", "단가", "단위", "색상", "무게", "중량", "품명", "규격", "비고", "명칭", "번호", "직경", "두께", "제품", "모델"},
}

// set returns a function that returns the set of characters of a text, which is made when it is first called: most files tell their
// encoding without it.
func set(characters string) func() map[rune]bool {
	return sync.OnceValue(func() map[rune]bool {
		all := map[rune]bool{}
		for _, r := range characters {
			all[r] = true
		}
		return all
	})
}

// plausibility is how much a decoded text is like one in a script: the mean over its characters beyond ASCII, from about
// 3 for ordinary text to far below 0 where characters are undefined.
func plausibility(text string, s script) float64 {
	runes := []rune(text)
	sum, count := 0.0, 0
	for i, r := range runes {
		if r < 0x80 {
			continue
		}
		count++
		sum += weight(runes, i, s)
	}
	if count == 0 {
		return 0
	}
	for _, word := range words[s] {
		sum += 2 * float64(strings.Count(text, word)*len([]rune(word)))
	}
	return sum / float64(count)
}

// weight is the part of one character.
func weight(runes []rune, i int, s script) float64 {
	r := runes[i]
	switch {
	case r == unicode.ReplacementChar:
		return -15
	case r >= 0x80 && r < 0xa0, unicode.Is(unicode.Co, r), !unicode.IsGraphic(r):
		return -10
	}
	if s == western {
		return westernWeight(runes, i)
	}
	if easternSigns()[r] {
		return 1.5
	}
	switch s {
	case simplified, traditional:
		return chineseWeight(r, s)
	case kana:
		return japaneseWeight(r)
	}
	return koreanWeight(r)
}

// westernWeight: characters beyond ASCII stand alone in Western words, or in pairs of ordinary letters (Größe); a row of
// them is text in another encoding.
func westernWeight(runes []rune, i int) float64 {
	r := runes[i]
	run := 1
	for j := i - 1; j >= 0 && runes[j] >= 0x80; j-- {
		run++
	}
	for j := i + 1; j < len(runes) && runes[j] >= 0x80; j++ {
		run++
	}
	known := westernLetters()[r] || westernSigns()[r]
	switch {
	case run > 2:
		return -2
	case run == 2 && known && unicode.IsLower(r):
		return 1.5
	case run == 2 && westernSigns()[r]:
		return 0.5
	case run == 2:
		return -1
	case westernLetters()[r]:
		return letterInWord(runes, i)
	case westernSigns()[r]:
		return 2
	}
	return -0.5
}

// letterInWord tells ö in a word from one between signs or after a capital in the middle of a word.
func letterInWord(runes []rune, i int) float64 {
	before, after := i > 0 && unicode.IsLetter(runes[i-1]), i+1 < len(runes) && unicode.IsLetter(runes[i+1])
	if unicode.IsUpper(runes[i]) && before && unicode.IsLower(runes[i-1]) {
		return -1
	}
	if before || after {
		return 3
	}
	return 1.5
}

func chineseWeight(r rune, s script) float64 {
	common := commonSimplified
	if s == traditional {
		common = commonTraditional
	}
	switch {
	case common()[r]:
		return 3
	case unicode.Is(unicode.Han, r):
		return 0.3
	case unicode.Is(unicode.Hiragana, r), unicode.Is(unicode.Katakana, r):
		return -0.5
	}
	return -1
}

func japaneseWeight(r rune) float64 {
	switch {
	case r >= 0xff61 && r <= 0xff9f: // narrow katakana, which bytes of other encodings become
		return 0.2
	case unicode.Is(unicode.Hiragana, r), unicode.Is(unicode.Katakana, r):
		return 3
	case commonKanji()[r]:
		return 3
	case unicode.Is(unicode.Han, r):
		return 0.3
	}
	return -1
}

func koreanWeight(r rune) float64 {
	switch {
	case commonHangul()[r]:
		return 3
	case unicode.Is(unicode.Hangul, r):
		return 1
	}
	return -1
}
