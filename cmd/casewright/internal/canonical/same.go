package canonical

import (
	"math"
	"reflect"
)

// same tells whether two decoded values say the same: they are equal, but for a
// quantity that is spelt anew. table is the path of what holds them.
func same(table string, a, b any) bool {
	switch a := a.(type) {
	case map[string]any:
		b, ok := b.(map[string]any)
		if !ok || len(a) != len(b) {
			return false
		}
		for name, value := range a {
			other, ok := b[name]
			if text, isText := value.(string); ok && isText && other == spelling(table, name, text) {
				continue
			}
			if !ok || !same(join(table, name), value, other) {
				return false
			}
		}
		return true
	case []map[string]any:
		b, ok := b.([]map[string]any)
		if !ok || len(a) != len(b) {
			return false
		}
		for i := range a {
			if !same(table, a[i], b[i]) {
				return false
			}
		}
		return true
	case []any:
		b, ok := b.([]any)
		if !ok || len(a) != len(b) {
			return false
		}
		for i := range a {
			if !same(table, a[i], b[i]) {
				return false
			}
		}
		return true
	case float64:
		b, ok := b.(float64)
		return ok && (a == b || math.IsNaN(a) && math.IsNaN(b))
	}
	return reflect.DeepEqual(a, b)
}

func join(table, name string) string {
	if table == "" {
		return name
	}
	return table + "." + name
}
