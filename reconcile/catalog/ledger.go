package catalog

import "fmt"

// String says the account in words: 139 rows: 101 used, 0 used with assumptions, 6 held, 32 set aside; of those used, 1 with
// values left open.
func (l Ledger) String() string {
	open := ""
	if l.Open > 0 {
		open = fmt.Sprintf("; of those used, %d with values left open", l.Open)
	}
	rows := "rows"
	if l.Rows == 1 {
		rows = "row"
	}
	return fmt.Sprintf("%d %s: %d used, %d used with assumptions, %d held, %d set aside%s", l.Rows, rows, l.Used, l.Assumed, l.Held, l.SetAside, open)
}

// Add returns the sum of two accounts.
func (l Ledger) Add(o Ledger) Ledger {
	return Ledger{
		Rows: l.Rows + o.Rows, Used: l.Used + o.Used, Assumed: l.Assumed + o.Assumed, Held: l.Held + o.Held, SetAside: l.SetAside + o.SetAside,
		Open: l.Open + o.Open,
	}
}

// Count fills the ledger. A source row counts once, also where it gave several rows; then the most doubtful of their
// outcomes counts.
func (t *Table) Count() {
	t.Ledger = Ledger{}
	for i := 0; i < len(t.Rows); {
		worst, open := t.Rows[i].Outcome, len(t.Rows[i].Open) > 0
		next := i + 1
		for ; next < len(t.Rows) && t.Rows[next].Row == t.Rows[i].Row; next++ {
			worst, open = max(worst, t.Rows[next].Outcome), open || len(t.Rows[next].Open) > 0
		}
		i = next
		t.Ledger.Rows++
		if open && (worst == Used || worst == Assumed) {
			t.Ledger.Open++
		}
		switch worst {
		case Used:
			t.Ledger.Used++
		case Assumed:
			t.Ledger.Assumed++
		case Held:
			t.Ledger.Held++
		default:
			t.Ledger.SetAside++
		}
	}
}
