package sizing

// Open is what tests outside the package open a design with.
var Open = open
