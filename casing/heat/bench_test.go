package heat_test

import (
	"fmt"
	"math"
	"os/exec"
	"testing"

	"casewright/casing/heat"
	"casewright/quantity"
)

// BenchmarkRun computes a motor with two ends, wind and radiation.
func BenchmarkRun(b *testing.B) {
	for b.Loop() {
		if _, err := whole().Run(heat.Usual); err != nil {
			b.Fatal(err)
		}
	}
}

// peer is a lined tube to 400 s by SciPy's BDF, with the band of its Jacobian
// and on nodes that lie as those of the column: 48 parts of the liner, each
// 1.05 times the one before, and 8 of the wall. It prints the time of a run, s,
// and the wall's rise at 60 s, K.
const peer = `
import math, time, numpy
from scipy import integrate, sparse
burn, start = 2.5, 295.
def graded(t, n, q):
    x = numpy.concatenate(([0], numpy.cumsum(q**numpy.arange(n))))
    return t*x/x[-1]
layers = [(.15, 1150., 1400., graded(.0016, 48, 1.05)), (167., 2700., 896., graded(.0016, 8, 1.))]
r = .0254 - .0016
inner, heat, links = r, [], []
for j, (k, rho, c, x) in enumerate(layers):
    x = r + x
    half = numpy.concatenate(([x[0]], (x[1:] + x[:-1])/2, [x[-1]]))
    own = list(rho*c*math.pi*(half[1:]**2 - half[:-1]**2))
    if j:
        heat[-1] += own.pop(0)
    heat += own
    links += list(2*math.pi*k/numpy.log(x[1:]/x[:-1]))
    r = x[-1]
heat, links = numpy.array(heat), numpy.array(links)
n = len(heat)
def rates(burning):
    def f(_, u):
        q = links*(u[1:] - u[:-1])
        out = numpy.zeros(n)
        out[:-1] += q
        out[1:] -= q
        if burning: out[0] += 800*2*math.pi*inner*(2500 - u[0])
        out[-1] += 10*2*math.pi*r*(295 - u[-1])
        return out/heat
    return f
band = sparse.diags([1, 1, 1], [-1, 0, 1], shape=(n, n))
def run():
    u, at = numpy.full(n, start), 0.
    for burning, a, b in ((True, 0., burn), (False, burn, 60.), (False, 60., 400.)):
        s = integrate.solve_ivp(rates(burning), (a, b), u, 'BDF', rtol=1e-4, atol=1e-2, jac_sparsity=band)
        u = s.y[:, -1]
        if b == 60: at = (heat[48:]*u[48:]).sum()/heat[48:].sum() - start
    return at
run()
begin = time.perf_counter()
rise = run()
print(time.perf_counter() - begin, rise)
`

// BenchmarkPeer computes the same lined tube and has SciPy do it in the same run:
// the metric is how many times longer that takes. Without SciPy it is skipped.
func BenchmarkPeer(b *testing.B) {
	out, err := exec.Command("/usr/bin/python3", "-c", peer).Output()
	var took, rise float64
	if _, bad := fmt.Sscan(string(out), &took, &rise); err != nil || bad != nil {
		b.Skip("no SciPy: ", err)
	}
	m := &heat.Motor{
		Layers: []heat.Layer{{Solid: paper, Thickness: 1.6e-3}}, Tube: aluminium, Bore: 50.8e-3, Wall: 1.6e-3, Length: 0.4,
		Gas: [2]heat.Film{{Temperature: 2500, Coefficient: 800}}, Outside: heat.Film{Temperature: 295, Coefficient: 10},
		Start: 295, Burn: 2.5, Until: 400, Touch: 100, Marks: []quantity.Time{60},
	}
	var h *heat.History
	for b.Loop() {
		if h, err = m.Run(heat.Usual); err != nil {
			b.Fatal(err)
		}
	}
	if got := float64(h.At(h.WallMean, 60)) - 295; !(math.Abs(got/rise-1) < 0.005) {
		b.Errorf("the peer's wall rises by %g K, ours by %g K", rise, got)
	}
	b.ReportMetric(took/(b.Elapsed().Seconds()/float64(b.N)), "scipy/ours")
}
