package canonical

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"sync"

	"github.com/BurntSushi/toml"

	"casewright"
)

// order brings sections and pairs in their order. Tables of different names at
// the top, and of different names in one entry, cannot touch each other; those of
// one name keep their order.
func (d *document) order() {
	if len(d.list) == 0 {
		return
	}
	for i := range d.list {
		d.list[i].order()
	}
	first := d.list[0].above
	d.orderSections()
	if len(d.head) > 0 || len(first) == 0 {
		return
	}
	isFirst := func(s section) bool { return len(s.above) > 0 && &s.above[0] == &first[0] }
	if i := slices.IndexFunc(d.list, isFirst); i > 0 {
		// The head of the file stays, apart from what has come below it.
		d.list[i].above = nil
		d.head = []paragraph{{below: first}}
	}
}

// order brings the pairs of each paragraph in their order.
func (s *section) order() {
	if !isFlat(s.header.key, s.body) {
		return
	}
	table := path(s.header.key)
	rank := func(one pair) int { return rankOfKey(table, one.key[len(one.key)-1]) }
	for _, p := range s.body {
		slices.SortStableFunc(p.pairs, func(a, b pair) int { return cmp.Compare(rank(a), rank(b)) })
	}
}

func (d *document) orderSections() {
	var roots []string // in their order in the file
	of := map[string][]section{}
	for _, s := range d.list {
		root := s.header.key[0]
		if of[root] == nil {
			roots = append(roots, root)
		}
		of[root] = append(of[root], s)
	}
	slices.SortStableFunc(roots, func(a, b string) int { return cmp.Compare(rankOfTable(a), rankOfTable(b)) })
	d.list = d.list[:0]
	for _, root := range roots {
		list := of[root]
		for len(list) > 0 {
			end := 1
			for end < len(list) && !list[end].isEntry() {
				end++
			}
			entry := list[:end]
			list = list[end:]
			slices.SortStableFunc(entry, func(a, b section) int {
				return cmp.Compare(rankWithin(a.header.key), rankWithin(b.header.key))
			})
			d.list = append(d.list, entry...)
		}
	}
}

// rankWithin orders the tables of an entry: itself, then those within it.
func rankWithin(key toml.Key) int {
	if len(key) == 1 {
		return -1
	}
	return rankOfTable(path(key[:2]))
}

// path is a key as casewright.Key has it.
func path(key toml.Key) string { return strings.Join(key, ".") }

const unknown = math.MaxInt

// ranks are the places of tables and keys in a file that is best written.
var ranks = sync.OnceValues(func() (tables, keys map[string]int) {
	tables, keys = map[string]int{}, map[string]int{}
	for i, name := range casewright.Tables() {
		tables[name] = i
	}
	for i, k := range casewright.Keys() {
		keys[k.Path] = i
		if _, told := tables[k.Table()]; !told {
			tables[k.Table()] = i
		}
	}
	return tables, keys
})

func rankOfTable(path string) int {
	tables, _ := ranks()
	if rank, known := tables[path]; known {
		return rank
	}
	return unknown
}

func rankOfKey(table, name string) int {
	_, keys := ranks()
	if rank, known := keys[casewright.StockTable(table)+"."+name]; known {
		return rank
	}
	return unknown
}
