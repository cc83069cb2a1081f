package drawing

import (
	"fmt"
	"image/color"
)

// A tint is a colour by day, on white, and by night, on black.
type tint struct{ day, night uint32 }

var (
	inkTint   = tint{0x111111, 0xeeeeee} // of lines and texts
	paperTint = tint{0xffffff, 0x16191c}
	faultTint = tint{0xb00020, 0xff8a96}
	gridTint  = tint{0xd8dde2, 0x343b42}
)

// curveTints are those of the curves, in turn. They help to follow a line; its
// dashes tell it from the others.
var curveTints = [...]tint{
	inkTint,
	{0x0b5cad, 0x7db8f0},
	{0xa34a00, 0xf0a868},
	{0x0a6b3c, 0x6fd09c},
	{0x8a2a7a, 0xe39bd3},
	{0x55606a, 0xa8b3bd},
}

// fillTints are those of areas; None has none, and Solid that of its line.
var fillTints = [NumFills]tint{
	Paper: paperTint, Aluminium: {0xd5dbe1, 0x39424a}, Metal: {0xb7c0c9, 0x4d5862},
	Steel: {0x8d969e, 0x727d87}, Seal: {0x333333, 0xc9ced3}, Faulty: {0xffd9dd, 0x5a1f27},
}

// tint is that of a style's lines and texts.
func (s Style) tint() tint {
	switch {
	case s == Fault:
		return faultTint
	case s == Grid:
		return gridTint
	case s >= Curve && s < Curve+Curves:
		return curveTints[int(s-Curve)%len(curveTints)]
	}
	return inkTint
}

// Ink is the colour of a style's lines by day, on white.
func (s Style) Ink() color.RGBA { return rgba(s.tint().day) }

func rgba(hex uint32) color.RGBA {
	return color.RGBA{uint8(hex >> 16), uint8(hex >> 8), uint8(hex), 0xff}
}

// css is a colour as a style sheet has it.
func css(hex uint32) string {
	text := fmt.Sprintf("%06x", hex)
	if text[0] == text[1] && text[2] == text[3] && text[4] == text[5] {
		text = string([]byte{text[0], text[2], text[4]})
	}
	return "#" + text
}
