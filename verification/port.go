package verification

import (
	"math"

	"github.com/shopspring/decimal"

	"casewright/closure"
	"casewright/margin/reference"
	"casewright/quantity"
)

// ofPipeThread is a size of the row's thread; no number where there is none so
// called, or where the table has no such size of it, which then is 0.
func ofPipeThread(size func(closure.PipeThread) quantity.Length, methods ...string) Number {
	return Number{methods, func(r *reference.Row) float64 {
		t, ok := closure.LookupPipeThread(r.Text("thread"))
		if got := float64(size(t)); ok && got != 0 {
			return got
		}
		return math.NaN()
	}}
}

// ofPipe is the same of a size that the table has exact.
func ofPipe(size func(closure.PipeThread) decimal.Decimal, methods ...string) Number {
	return ofPipeThread(func(t closure.PipeThread) quantity.Length { return quantity.LengthOf(size(t)) }, methods...)
}

var portNumbers = map[string]Number{
	"moment at a plugged port over p a²": {plates, func(r *reference.Row) float64 {
		if r.Of("b_over_a") > closure.LargestPort {
			return r.Refuse()
		}
		return float64(closure.PlateStress(1, 2, length(r, "b_over_a")*2, 1, r.Of("nu"), 2)) / 6 // stress is 6 M/h²
	}},
	"outside diameter of a pipe thread":            ofPipe(func(t closure.PipeThread) decimal.Decimal { return t.Diameter }, "end.port_wall"),
	"hand-tight length of a pipe thread":           ofPipe(func(t closure.PipeThread) decimal.Decimal { return t.HandTight }, "end.port_thread"),
	"effective length of a pipe thread":            ofPipe(closure.PipeThread.EffectiveLength, "end.port_thread"),
	"tap drill of a pipe thread":                   ofPipe(func(t closure.PipeThread) decimal.Decimal { return t.TapDrill }, "end.port_thread"),
	"outside diameter of a forged coupling":        ofPipe(func(t closure.PipeThread) decimal.Decimal { return t.Coupling }, "end.port_wall", "end.port_floor"),
	"pitch diameter at the end of a pipe thread":   ofPipeThread(closure.PipeThread.EndPitchDiameter, "end.port_thread"),
	"pitch diameter at the mouth of a pipe thread": ofPipeThread(closure.PipeThread.MouthPitchDiameter, "end.port_thread"),
}
