package verification

var tighteningNumbers = map[string]Number{}
