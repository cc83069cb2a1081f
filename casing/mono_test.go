package casing_test
import ("testing";"math/rand";"fmt";"casewright/casing")
func TestMono(t *testing.T) {
	r := rand.New(rand.NewSource(7)); bad:=0; worst:=0.0
	for range 1500000 {
		e,c,nu := 0.02+r.Float64()*2, r.Float64()*2.2, r.Float64()*0.5
		d := r.Float64()*r.Float64()*r.Float64()*0.01
		a := casing.EndBendingFactor(e,c,nu)
		for k,b := range []float64{casing.EndBendingFactor(e+d,c,nu), casing.EndBendingFactor(e,c+d,nu)} {
			if b > a*(1+1e-14) { bad++; if b/a-1>worst { worst=b/a-1; fmt.Println(k,e,c,nu,d,a,b/a-1) } }
		}
	}
	fmt.Println("bad",bad,worst)
}
func BenchmarkE(b *testing.B) { b.ReportAllocs(); for b.Loop() { casing.EndBendingFactor(1.2,.9,.33) } }
