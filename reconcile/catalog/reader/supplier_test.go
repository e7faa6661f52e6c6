package reader_test

import "testing"

func TestSupplier(t *testing.T) {
	for title, want := range map[string]string{
		"Supplier: Orrin Vale Foundry":            "Orrin Vale Foundry",
		"Lieferant | Belmar Zierringe":            "Belmar Zierringe",
		"Firma Belmar GmbH, Musterstadt":          "Firma Belmar GmbH",
		"Orrin Vale Co., Ltd. price list":         "Orrin Vale Co., Ltd.",
		"东岭五金有限公司 产品规格表":                          "东岭五金有限公司",
		"株式会社オーリン ヘッド一覧":                          "株式会社オーリン",
		"供应商：东岭五金":                                "东岭五金",
		"공급사: 오린":                                 "오린",
		"Catálogo de cabezas - Forja Belmar S.L.": "Forja Belmar S.L.",
		"Price list of heads":                     "orrin",
		"Agenda of the limited edition":           "orrin",
		"Fournisseur : Atelier des Deux Rus":      "Atelier des Deux Rus",
	} {
		c := read(t, grid("Heads", title+"\n"+plainHeads[1:]))
		if len(c.Heads) != 2 || c.Heads[0].Supplier != want {
			t.Errorf("%s: supplier %q of %d heads, want %q", title, c.Heads[0].Supplier, len(c.Heads), want)
		}
	}
}
