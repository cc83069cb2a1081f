package verification

import (
	"github.com/shopspring/decimal"

	"casewright/closure"
	"casewright/margin/reference"
)

// pipeThreadOf is the row's; the zero one, whose numbers are no numbers of the
// table, where there is none so called.
func pipeThreadOf(r *reference.Row) closure.PipeThread {
	t, _ := closure.LookupPipeThread(r.Text("thread"))
	return t
}

func ofPipe(size func(closure.PipeThread) decimal.Decimal, methods ...string) Number {
	return Number{methods, func(r *reference.Row) float64 { return metres(size(pipeThreadOf(r))) }}
}

var portNumbers = map[string]Number{
	"moment at a plugged port over p a²": {plates, func(r *reference.Row) float64 {
		if r.Of("b_over_a") > closure.LargestPort {
			return refused
		}
		return float64(closure.PlateStress(1, 2, length(r, "b_over_a")*2, 1, r.Of("nu"), 2)) / 6 // stress is 6 M/h²
	}},
	"outside diameter of a pipe thread":     ofPipe(func(t closure.PipeThread) decimal.Decimal { return t.Diameter }, "end.port_wall"),
	"hand-tight length of a pipe thread":    ofPipe(func(t closure.PipeThread) decimal.Decimal { return t.HandTight }, "end.port_thread"),
	"effective length of a pipe thread":     ofPipe(closure.PipeThread.EffectiveLength, "end.port_thread"),
	"tap drill of a pipe thread":            ofPipe(func(t closure.PipeThread) decimal.Decimal { return t.TapDrill }, "end.port_thread"),
	"outside diameter of a forged coupling": ofPipe(func(t closure.PipeThread) decimal.Decimal { return t.Coupling }, "end.port_wall", "end.port_floor"),
	"pitch diameter at the end of a pipe thread": {[]string{"end.port_thread"}, func(r *reference.Row) float64 {
		return float64(pipeThreadOf(r).EndPitchDiameter())
	}},
	"pitch diameter at the mouth of a pipe thread": {[]string{"end.port_thread"}, func(r *reference.Row) float64 {
		return float64(pipeThreadOf(r).MouthPitchDiameter())
	}},
}
