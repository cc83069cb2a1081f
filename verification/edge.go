package verification

var edgeNumbers = map[string]Number{}
