package cells

// table leads from keys to values by open addressing. It is asked for every cell of a sheet, and answers a few times as fast as a map.
// No key is zero. The zero table is empty and ready to use.
type table[V any] struct {
	slots []slot[V]
	count int
}

type slot[V any] struct {
	key   memoKey
	value V
}

// leastSlots is the first size of a table, a power of two as all of its sizes are.
const leastSlots = 64

// at returns where a key is, or where it is to be put: the first of the slots from its own on that holds it or none.
func (t *table[V]) at(key memoKey) *slot[V] {
	const golden = 0x9E3779B97F4A7C15 // 2^64 over the golden ratio, which spreads keys that follow each other
	mask := uint64(len(t.slots) - 1)
	for i := (uint64(key) * golden) >> 32 & mask; ; i = (i + 1) & mask {
		if s := &t.slots[i]; s.key == key || s.key == 0 {
			return s
		}
	}
}

// find returns the value of a key, and whether there is one.
func (t *table[V]) find(key memoKey) (v V, found bool) {
	if t.count == 0 {
		return v, false
	}
	s := t.at(key)
	return s.value, s.key != 0
}

// put sets the value of a key.
func (t *table[V]) put(key memoKey, v V) {
	if 2*(t.count+1) > len(t.slots) {
		t.grow()
	}
	s := t.at(key)
	if s.key == 0 {
		t.count++
	}
	*s = slot[V]{key, v}
}

func (t *table[V]) grow() {
	old := t.slots
	t.slots = make([]slot[V], max(leastSlots, 2*len(old)))
	for _, s := range old {
		if s.key != 0 {
			*t.at(s.key) = s
		}
	}
}
