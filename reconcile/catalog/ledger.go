package catalog

// Count fills the ledger. A source row counts once, also where it gave several rows; then the most doubtful of their
// outcomes counts.
func (t *Table) Count() {
	t.Ledger = Ledger{}
	for i := 0; i < len(t.Rows); {
		worst := t.Rows[i].Outcome
		next := i + 1
		for ; next < len(t.Rows) && t.Rows[next].Row == t.Rows[i].Row; next++ {
			worst = max(worst, t.Rows[next].Outcome)
		}
		i = next
		t.Ledger.Rows++
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
