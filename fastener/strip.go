package fastener

import (
	_ "embed"
	"math"
	"sort"
	"strconv"
	"sync"

	"casewright/margin"
	"casewright/quantity"
	"casewright/quantity/rows"
)

//go:embed tolerances.csv
var tolerancesCSV string

// PitchDiameter returns the basic pitch diameter d_2 = d − 0.649519 P, in m.
// Source: ISO 724; ASME B1.1 (3 √3/8 P).
func (t Thread) PitchDiameter() quantity.Length {
	return quantity.LengthOf(t.Diameter) - quantity.Length(3*math.Sqrt(3)/8*t.pitch())
}

// StressDiameter returns the mean of pitch and core diameter, d_0 = (d_2 +
// d_3)/2, in m: that of the tensile stress area. Source: ISO 898-1.
func (t Thread) StressDiameter() quantity.Length {
	return (t.PitchDiameter() + t.MinorDiameter()) / 2
}

// PitchLength returns the pitch P, 1/n of a unified thread, in m. Source:
// definition.
func (t Thread) PitchLength() quantity.Length { return quantity.Length(t.pitch()) }

// LeastMajor returns the least major diameter of a screw, in m: of class 6g of
// a metric thread, 2A of a unified one. Sources, from memory: ISO 965-1; ASME
// B1.1, by its formulas for an engagement of one diameter.
func (t Thread) LeastMajor() quantity.Length {
	d := quantity.LengthOf(t.Diameter)
	if t.Metric {
		tolerance := metricTolerance(t)
		return d - tolerance.allowance - tolerance.major
	}
	return d - quantity.Length((0.3*t.unifiedPitchTolerance()+0.060*math.Pow(t.inches(), 2.0/3))*float64(quantity.Inch))
}

// GreatestPitchDiameter returns the greatest pitch diameter of a tapped hole, in
// m: of class 6H of a metric thread, 2B of a unified one, as
// [Thread.LeastMajor], from memory. Source: ISO 965-1; ASME B1.1.
func (t Thread) GreatestPitchDiameter() quantity.Length {
	if t.Metric {
		return t.PitchDiameter() + metricTolerance(t).pitchDiameter
	}
	return t.PitchDiameter() + quantity.Length(1.3*t.unifiedPitchTolerance()*float64(quantity.Inch))
}

// unifiedPitchTolerance is the tolerance of the pitch diameter of class 2A, in
// inches: 0.0015 D^(1/3) + 0.0015 L_e^(1/2) + 0.015 P^(2/3), with L_e = D.
func (t Thread) unifiedPitchTolerance() float64 {
	d := float64(quantity.LengthOf(t.Diameter) / quantity.Inch)
	return 0.0015*math.Cbrt(d) + 0.0015*math.Sqrt(d) + 0.015*math.Pow(t.inches(), 2.0/3)
}

// inches is the pitch in inches.
func (t Thread) inches() float64 { return t.pitch() / float64(quantity.Inch) }

// StripArea returns the shear area of the tapped thread for each length of
// engagement, in m² per m.
//
//	a_n = π/P D_s,min (P/2 + 0.57735 (D_s,min − E_n,max))
//
// P: pitch. D_s,min: least major diameter of the screw, E_n,max: greatest pitch
// diameter of the tapped hole. Source: FED-STD-H28/2B, AS_n = π n L_e D_s,min
// (1/(2 n) + 0.57735 (D_s,min − E_n,max)).
func (t Thread) StripArea() quantity.Length {
	major, pitch := float64(t.LeastMajor()), t.pitch()
	return quantity.Length(math.Pi / pitch * major * (pitch/2 + (major-float64(t.GreatestPitchDiameter()))/math.Sqrt(3)))
}

// Strip returns the load at which the thread in the end strips, in N.
//
//	F = a_n (l_e − 0.8 P) min(F_su, 0.37 R_m)
//
// strip: a_n, see [Thread.StripArea]. engagement l_e and pitch P: m. fsu: shear
// strength of the end, rm: tensile strength of the screw, Pa: a screw that is
// softer than the end strips first, see [SoftScrew]. Where no thread is left it
// is 0. Sources: FED-STD-H28/2B; VDI 2230, from memory, for the 0.8 P that bear
// nothing.
func Strip(strip, engagement, pitch quantity.Length, fsu, rm quantity.Pressure) quantity.Force {
	weaker := math.Min(float64(fsu), SoftScrew*float64(rm))
	return quantity.Force(float64(strip) * math.Max(0, float64(engagement)-0.8*float64(pitch)) * weaker)
}

// SoftScrew is the shear stress in the end over the tensile strength of the
// screw, unit 1, at which the screw's own thread strips first: it shears at 0.6
// R_m, and its shear area is at least 0.62 of the end's. Sources: EN 1993-1-8
// table 3.4 (0.6); FED-STD-H28/2B, areas of all threads from M2 and #4 up.
const SoftScrew = 0.37

// StrongestScrew is the tensile strength that a screw may have over that which
// its class asks, unit 1. Source: greatest hardness of ISO 898-1, 320 HV (some
// 1030 MPa) of 8.8, 380 HV of 10.9, 435 HV of 12.9; from memory.
const StrongestScrew = 1.3

// tolerances of a metric thread, in m.
type tolerances struct{ allowance, major, pitchDiameter quantity.Length }

// metricTolerance finds the tolerances of a metric thread; a test holds that
// every thread has them.
func metricTolerance(t Thread) tolerances {
	if found, ok := metricTolerances()[t.Name]; ok {
		return found
	}
	none := quantity.Length(math.NaN())
	return tolerances{none, none, none}
}

// metricTolerances are those of all metric threads, by name.
var metricTolerances = sync.OnceValue(func() map[string]tolerances {
	// The columns after the pitch and the screw's two tolerances are for
	// diameters up to these, in m.
	upTo := []float64{2.8e-3, 5.6e-3, 11.2e-3, 22.4e-3}
	micrometres := func(text string) quantity.Length {
		return quantity.Length(float64(rows.Must(strconv.Atoi(text))) * 1e-6)
	}
	all := map[string]tolerances{}
	for _, t := range Threads() {
		for _, row := range rows.Of(tolerancesCSV, 7) {
			if !t.Metric || !rows.Must(quantity.ParseDimension(row[0])).Nominal().Equal(t.Pitch) {
				continue
			}
			column := 3 + sort.SearchFloat64s(upTo, t.Diameter.InexactFloat64())
			if column < len(row) && row[column] != "" {
				all[t.Name] = tolerances{micrometres(row[1]), micrometres(row[2]), micrometres(row[column])}
			}
		}
	}
	return all
})

const stripRange = "screw of class 6g or 2A in a tapped hole of 6H or 2B, of whose engagement at most 1.5 diameters count; geometric area, of which a little less is effective; as tightened, cold; no thread insert"

// ThreadStrip checks the thread in the end under the preload of its screw, in
// N. Source: FED-STD-H28/2B.
var ThreadStrip = margin.Method{
	ID: "thread.strip", Title: "thread in the end strips as its screw is tightened", Part: "the thread strips", Key: "end.screws.engagement",
	Source: "FED-STD-H28/2B (shear area of the tapped thread); VDI 2230 (0.8 P bear nothing), from memory", Range: stripRange,
	Why:  "A steel screw strips an aluminium thread before it breaks. The end is then scrap, or worse, the screw holds by its last turns and nobody sees it.",
	Kind: margin.Strength, Mode: margin.Rule, Factor: margin.UltimateFactor, Unit: quantity.KindForce,
	Demand: "F_M", Capacity: "a_n (L − 0.8 P) min(F_su, 0.37 R_m)",
	Symbols: []margin.Symbol{
		margin.Preload.At(margin.Only), margin.ThreadShear.At(margin.Only), margin.EngagedLength.At(margin.Least),
		margin.ThreadPitch.At(margin.Only), margin.EndShear.At(margin.Only), margin.ScrewStrength.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return v[0], float64(Strip(length(v[1]), length(v[2]), length(v[3]), quantity.Pressure(v[4]), quantity.Pressure(v[5])))
	},
}

// ThreadOutlasts tells whether the screw breaks before the thread in the end
// strips; unit 1. Source: VDI 2230.
var ThreadOutlasts = margin.Method{
	ID: "thread.outlasts", Title: "thread in the end outlasts its screw", Part: "the thread strips before the screw breaks", Key: "end.screws.engagement",
	Source: "FED-STD-H28/2B; VDI 2230 (the screw should break first), from memory; screws may be 1.3 times as strong as their class asks: greatest hardness of ISO 898-1, from memory", Range: stripRange,
	Why:  "A broken screw is seen and replaced; a stripped thread is felt only by the one who tightens. Where this is below 1, tighten by torque and never by feel.",
	Kind: margin.AtLeast, Mode: margin.Rule, Unit: quantity.KindRatio, Default: "1.0", NoteOnly: true,
	Value: "a_n (L − 0.8 P) min(F_su, 0.37 R_m)/(1.3 R_m A_s)",
	Symbols: []margin.Symbol{
		margin.ThreadShear.At(margin.Only), margin.EngagedLength.At(margin.Least), margin.ThreadPitch.At(margin.Only), margin.EndShear.At(margin.Only),
		margin.ScrewStrength.At(margin.Only), margin.StressArea.At(margin.Only),
	},
	Eval: func(v *margin.Values) (float64, float64) {
		return float64(Strip(length(v[0]), length(v[1]), length(v[2]), quantity.Pressure(v[3]), quantity.Pressure(v[4]))) / (StrongestScrew * v[4] * v[5]), 0
	},
}
