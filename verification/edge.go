package verification

import (
	"math"

	"casewright/casing"
	"casewright/margin/reference"
)

var endBending = []string{"tube.end_bending"}

var edgeNumbers = map[string]Number{
	"largest stress beside an end over p D_m/(2 t)": {endBending, func(r *reference.Row) float64 {
		return casing.EndBendingFactor(r.Of("be"), r.Of("bc"), r.Of("nu"))
	}},
	"largest stress beside the end of a tube over p D_m/(2 t)": {endBending, func(r *reference.Row) float64 {
		beta := casing.Decay(length(r, "Db"), length(r, "t"), r.Of("nu"))
		return casing.EndBendingFactor(beta*r.Of("e"), beta*r.Of("c"), r.Of("nu"))
	}},
	// The wall built in where the pressure begins: hoop stress there is ν times
	// the axial one, so that the axial one follows from von Mises'.
	"axial stress at a built-in edge": {endBending, func(r *reference.Row) float64 {
		nu := r.Of("nu")
		mises := casing.EndBendingStress(pressure(r, "p"), length(r, "Db"), length(r, "t"), casing.BuiltInFactor(nu))
		return float64(mises) / math.Sqrt(1-nu+nu*nu)
	}},
	"decay of bending along a tube, 1/β": {endBending, func(r *reference.Row) float64 {
		return 1 / casing.Decay(length(r, "Db"), length(r, "t"), r.Of("nu"))
	}},
}
