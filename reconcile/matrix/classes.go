package matrix

import (
	"encoding/binary"

	"example.com/seatline/fitcalc"
)

// classes are parts by geometry.
type classes struct {
	// of is the class of each part, members the parts of each class in their order.
	of      []int32
	members [][]int32
}

// first is the part that stands for a class.
func (c *classes) first(class int32) int32 { return c.members[class][0] }

// classify puts parts of one key into one class; classes are in the order of their first parts.
func classify[K comparable](parts int, key func(int) K) classes {
	c := classes{of: make([]int32, parts)}
	known := make(map[K]int32, parts)
	for i := range parts {
		k := key(i)
		class, seen := known[k]
		if !seen {
			class = int32(len(c.members))
			known[k] = class
			c.members = append(c.members, nil)
		}
		c.of[i] = class
		c.members[class] = append(c.members[class], int32(i))
	}
	return c
}

// headKey is all of a head that its pairs depend on.
type headKey struct {
	head    fitcalc.Head
	tips    string
	assumed bool
}

// tipsKey is a text that heads on the same tips have in common.
func (r *Result) tipsKey(head int32) string {
	key := make([]byte, 0, 16)
	for _, tip := range r.HeadTips[head].Tips {
		key = binary.LittleEndian.AppendUint32(key, uint32(tip))
	}
	return string(key)
}

func (r *Result) classify() {
	r.ofHeads = classify(len(r.heads), func(i int) headKey {
		return headKey{r.heads[i], r.tipsKey(int32(i)), r.HeadTips[i].Assumed}
	})
	r.ofFerrules = classify(len(r.parts), func(i int) fitcalc.Ferrule { return r.parts[i] })
}
