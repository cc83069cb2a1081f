// Package live follows files as they are saved, and shows what comes of them:
// on a page of this machine that renews itself, or on a terminal.
package live
