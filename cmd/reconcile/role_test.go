package main

import (
	"errors"
	"strings"
	"testing"

	"example.com/seatline/reconcile"
	"example.com/seatline/reconcile/catalog"
	"example.com/seatline/reconcile/catalog/reader"
	"example.com/seatline/reconcile/finding"
)

// roleCases are sheets with the flag that they were given to, and what a person with both in hand says: the kind that the sheet lists
// instead, "neither", or nothing where the flag is right. Written before what judges them; the words and sizes are such as lists of the
// trade have, from memory.
var roleCases = []struct {
	name, given, want, text string
}{
	{"trim rings with a top diameter, sizes in two units", "heads", "ferrules", `
Part No,Description,Category,Colour,Material,Unit,Bore ID,Base OD,Top OD (in),Length (in),Base Form,Tol,Price USD,Stock
F-10000,"Ferrule .350 0.625 in, universal",Wood,Black,Acetate,mm,8.84,13.67,0.38,0.625,universal,±0.076 mm,3.75,1968
F-10001,"Ferrule .370 1 in, chamfer",Hybrid,Black,ABS,in,0.37,"0.592""",0.4,1.0,chamfer,±0.025 mm,0.81,3027
F-10002,"Ferrule .370 0.875 in, universal",Hybrid,Blue,ABS,in,0.364,"0.598""",0.4,0.875,universal,±0.0020 in,3.09,125`},
	{"heads with a series and a loft", "ferrules", "heads", `
Part No,Description,Series,Category,Hand,Loft,Hosel OD,OD Unit,Bore (in),Bore Depth (mm),Hosel Top,OD Tol,Price USD,Stock
H-100000,"Iron head series 37 18 deg, 0.370",Series 37,Iron,RH,43.0,12.66,mm,0.370,33.5,flat,"+/- .0010""",41.17,303
H-100001,"Iron head series 29 19 deg, .355 taper",Series 29,Iron,RH,16.5,"0.5005""",in,.355 taper,31.6,flat,±0.0010 in,20.8,246`},
	{"bare names, bores under their tips and short lengths", "heads", "ferrules", `
Part,OD (mm),ID (mm),Length (mm)
A1,13.6,9.35,19
A2,13.6,9.35,12.7
A3,13.2,8.97,25`},
	{"bare names in inches, bores under their tips", "heads", "ferrules", `
Item #,ID,OD,L,Price
R-1,.368,.540,1.00,0.60
R-2,.368,.530,.750,0.60
R-3,.353,.530,.500,0.55`},
	{"bare names in inches, bores over their tips and a depth", "ferrules", "heads", `
Item #,ID,OD,Depth,Price
R-1,.374,.540,1.250,16.60
R-2,.373,.530,1.375,16.60
R-3,.358,.530,1.250,15.55`},
	{"German trim rings", "heads", "ferrules", `
Art.-Nr.;Bezeichnung;Innen-Ø mm;Außen-Ø mm;Länge mm;Farbe
Z-1;schwarz;9,35;13,6;19;schwarz
Z-2;schwarz mit Ring;9,32;13,2;25;schwarz
Z-3;schwarz;8,45;12,2;15;schwarz`},
	{"German heads", "ferrules", "heads", `
Art.-Nr.;Bezeichnung;Hosel-Außen-Ø mm;Bohrung mm;Bohrtiefe mm;Loft
K-1;Eisen 7;13,6;9,5;32;34
K-2;Wedge 56;13,7;9,5;32;56`},
	{"French heads", "ferrules", "heads", `
Réf.;Désignation;Ø extérieur hosel (mm);Alésage (mm);Profondeur d'alésage (mm)
T-1;fer 7;13,5;9,48;30
T-2;fer 8;13,5;9,48;30`},
	{"French ferrules", "heads", "ferrules", `
Réf.;Ø intérieur (mm);Ø extérieur (mm);Hauteur (mm);Couleur;Prix les 100
V-1;9,35;13,5;20;noir;42,00
V-2;8,95;13,2;16;noir;42,00`},
	{"Japanese ferrules", "heads", "ferrules", `
品番,内径(mm),外径(mm),長さ(mm),色
S-11,9.35,13.5,25,黒
S-12,8.45,12.0,20,黒
S-13,8.45,12.2,20,黒`},
	{"Chinese heads", "ferrules", "heads", `
型号,产品名称,管口外径(mm),孔径(mm),孔深(mm),重量(g)
C-71,铁杆头,13.5,9.50,32,245
C-72,铁杆头,13.5,9.50,32,252`},
	{"Spanish ferrules", "heads", "ferrules", `
Código;Casquillo;Diámetro interior mm;Diámetro exterior mm;Longitud mm
E-1;casquillo negro;9,35;13,5;19
E-2;casquillo negro;9,32;13,2;25`},
	{"Korean ferrules", "heads", "ferrules", `
품번,내경(mm),외경(mm),길이(mm),색상
W-1,9.35,13.5,22,검정
W-2,8.95,13.0,22,검정`},
	{"Italian heads", "ferrules", "heads", `
Codice;Descrizione;Ø esterno hosel (mm);Foro (mm);Profondità foro (mm)
I-1;ferro 7;13,6;9,5;30
I-2;ferro 8;13,6;9,5;30`},
	{"a title says ferrules", "heads", "ferrules", `
Ferrules price list 2026,,,
Code,Bore (in),OD (in),Price
P-1,.368,.535,.60
P-2,.353,.530,.60`},
	{"tips", "heads", "tips", `
Part,Shaft,Tip OD (in),Taper,Weight g
S-1,steel,.355,.0075 in/in,120
S-2,graphite,.370,parallel,85`},
	{"trim rings named by tips", "heads", "ferrules", `
Item,For tip,OD (in),Height (in),Colour,Pack of
N-1,.370,.540,.750,black,50
N-2,.355,.530,1.000,black,50`},
	{"heads that name their ferrules", "heads", "", `
Part #,Product,Hosel O.D.,Bore,Ferrule P/N,Ferrule OD,Ferrule length
KR-50,Iron head,"0.535""","0.374""",F-1,"0.540""","0.75"""
KR-51,Iron head,"0.530""","0.374""",F-1,"0.540""","0.75"""`},
	{"a mixed list as heads", "heads", "", mixedList},
	{"a mixed list as ferrules", "ferrules", "", mixedList},
	{"heads by bare names", "heads", "", `
Part,OD (mm),ID (mm)
B1,13.6,9.5
B2,13.4,9.5
B3,13.2,9.1`},
	{"heads by bare names and a length", "heads", "", `
Part,OD (mm),ID (mm),Length (mm)
B1,13.6,9.5,60
B2,13.4,9.5,63.5`},
	{"ferrules by bare names", "ferrules", "", `
Part,OD,ID,Height
B1,.540,.368,.75
B2,.530,.353,1.00`},
	{"ferrules for one tip, bored as heads for another are", "ferrules", "", `
Part,OD (mm),ID (mm),Length (mm)
D1,12.4,8.97,19
D2,12.2,8.97,25`},
	{"heads bored as ferrules for another tip are", "heads", "", `
Part,OD (mm),ID (mm)
D1,12.4,8.97
D2,12.2,8.95`},
	{"heads by the names of tips", "heads", "", `
Model,OD,ID
M-1,.535,.370
M-2,.530,.355`},
	{"ferrules by the names of tips", "ferrules", "", `
Model,OD,ID
M-1,.535,.370
M-2,.530,.355`},
	{"cars", "heads", "neither", `
Make,Model,Year,Bore (mm),Stroke (mm),Price
Alda,Corto,2019,86.0,86.0,21500
Alda,Lungo,2021,79.5,80.5,23900
Brun,Zwei,2018,92.8,82.0,31000`},
	{"a list of ids", "heads", "neither", `
ID,Name,Country
1001,North Depot,DE
1002,South Depot,FR
1003,West Depot,IT`},
	{"a list of orders", "ferrules", "neither", `
ID,Date,Amount
1001,2026-01-04,118.00
1002,2026-01-09,54.50
1003,2026-02-11,240.00`},
	{"price terms", "ferrules", "neither", `
Price terms 2026,
Quantity,Discount
50,5%
100,8%
500,12%
Prices are net ex works,`},
	{"customers", "heads", "neither", `
Customer,Street,City,Phone
North Depot,1 Mill Lane,Harrow,555 0100
South Depot,2 Mill Lane,Harrow,555 0101`},
}

const mixedList = `
Type,Part,OD (mm),Bore (mm),Length (mm)
Head,X-1,13.6,9.5,60
Head,X-2,13.4,9.5,60
Ferrule,X-3,13.7,9.35,19
Ferrule,X-4,13.5,9.35,25`

func TestRoles(t *testing.T) {
	for _, c := range roleCases {
		t.Run(c.name+" as "+c.given, func(t *testing.T) {
			kind, err := parseKind(c.given)
			if err != nil {
				t.Fatal(err)
			}
			sources := []reconcile.Source{{Name: "list.csv", Data: []byte(strings.TrimPrefix(c.text, "\n")), Kind: kind}}
			cat, err := reconcile.Read(sources, reader.Options{}, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got := judgedRole(t, checkRoles(cat, sources, "--")); got != c.want {
				t.Errorf("judged to be %q, want %q", got, c.want)
			}
			if c.want == "neither" {
				holdsNothing(t, cat)
			}
		})
	}
}

// judgedRole is what a refusal says that a sheet is, empty where there is none.
func judgedRole(t *testing.T, err error) string {
	t.Helper()
	var wrong *roleError
	switch {
	case err == nil:
		return ""
	case !errors.As(err, &wrong):
		t.Fatal(err)
	case wrong.list == catalog.UnknownKind:
		return "neither"
	case !strings.Contains(err.Error(), "give it as --"+wrong.list.String()):
		t.Errorf("%v names no flag", err)
	}
	return wrong.list.String()
}

// holdsNothing holds that a sheet of something else asks nothing.
func holdsNothing(t *testing.T, c *catalog.Catalogue) {
	t.Helper()
	for i := range c.Tables {
		table := &c.Tables[i]
		if table.Ledger.Held+table.Ledger.Used+table.Ledger.Assumed > 0 {
			t.Errorf("the ledger is %v", table.Ledger)
		}
		for _, f := range table.Findings {
			if f.Severity == finding.Error {
				t.Errorf("it asks: %s", f.Message)
			}
		}
	}
}
