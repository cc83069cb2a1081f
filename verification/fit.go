package verification

var fitNumbers = map[string]Number{}
