package verification

var portNumbers = map[string]Number{}
