package closure_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"casewright/closure"
	"casewright/margin"
	"casewright/margin/formula"
	"casewright/quantity"
	"casewright/verification"
	"casewright/verification/held"
)

// TestPortFEM holds the plate with a plugged port against finite elements, for
// ports up to 0.8 of the bore and plates up to 0.3 of it.
func TestPortFEM(t *testing.T) {
	widest := 0.0
	held.Table(t, "ports_fem.csv", held.Also{
		"edge stress of a plate with a plugged port": func(_ *testing.T, c *verification.Case) { widest = max(widest, c.Of("b_over_a")) },
	})
	if !(closure.LargestPort <= widest && closure.LargestPort >= 1.0/3) {
		t.Errorf("ports up to %g are used, up to %g held against finite elements", closure.LargestPort, widest)
	}
}

// TestPortAnnular holds it against two cases of a handbook laid over each
// other: the plug's load on the port's rim and pressure on the annulus.
func TestPortAnnular(t *testing.T) {
	held.Table(t, "ports_annular.csv", held.Also{
		// The formula goes on beyond the widest port that is used.
		"moment at a plugged port over p a²": func(t *testing.T, c *verification.Case) {
			moment := float64(closure.PlateStress(1, 2, quantity.Length(2*c.Of("b_over_a")), 1, c.Of("nu"), 2)) / 6
			if math.Abs(moment/c.Value-1) > c.Tolerance {
				t.Errorf("%.5f p a², want %.5f", moment, c.Value)
			}
		},
	})
}

// TestPortLimits: a vanishing port doubles the stress of the solid plate, a
// wider one adds to that, and every way to weaken a plate stresses it more.
func TestPortLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, name) }
		p, bore, h, nu := draw("p", 1e5, 1e8), draw("bore", 0.01, 0.2), draw("h", 0.001, 0.05), draw("ν", 0, 0.5)
		port := bore * draw("port", 0, closure.LargestPort)
		stress := func(p, bore, port, h, nu, cp float64) float64 {
			return float64(closure.PlateStress(quantity.Pressure(p), quantity.Length(bore), quantity.Length(port), quantity.Length(h), nu, cp))
		}
		solid, ported := stress(p, bore, 0, h, nu, 1), stress(p, bore, port, h, nu, 2)
		if tiny := stress(p, bore, 1e-9*bore, h, nu, 2); math.Abs(tiny/solid-2) > 1e-12 {
			t.Fatalf("a tiny port makes %g of %g Pa", tiny, solid)
		}
		if share := port / bore; math.Abs(ported/solid-2*(1+(1-nu)/(3+nu)*share*share)) > 1e-12 {
			t.Fatalf("%g Pa, solid %g Pa", ported, solid)
		}
		for name, more := range map[string]float64{
			"pressure": stress(p*1.01, bore, port, h, nu, 2), "bore": stress(p, bore*1.01, port, h, nu, 2), "plate": stress(p, bore, port, h/1.01, nu, 2),
		} {
			if !(more > ported) {
				t.Fatalf("%s: %g Pa after %g Pa", name, more, ported)
			}
		}
		if !(stress(p, bore, port+0.01*bore, h, nu, 2) > ported) {
			t.Fatal("a wider port stresses the plate less")
		}
	})
}

// printed evaluates a printed formula of a method.
func printed(t *rapid.T, m *margin.Method, text string, v *margin.Values) float64 {
	n, err := formula.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return n.Eval(func(name string) float64 {
		if i := slices.Index(m.Names(), name); i >= 0 {
			return v[i]
		}
		return math.NaN()
	})
}

// TestPortTexts: the printed formulas are what Eval computes.
func TestPortTexts(t *testing.T) {
	methods := closure.Methods(closure.Features{Plate: true, PipeThread: true, PipeFloor: true})
	rapid.Check(t, func(t *rapid.T) {
		var v margin.Values
		for i := range v {
			v[i] = rapid.Float64Range(0.1, 10).Draw(t, "value")
		}
		v[7] = v[3] * rapid.Float64Range(0.9, 1).Draw(t, "least bore over greatest")
		v[4] = v[7] * rapid.Float64Range(0, closure.LargestPort).Draw(t, "port over bore")
		for _, m := range methods {
			if !strings.HasPrefix(m.ID, "end.plate") && !strings.HasPrefix(m.ID, "end.port") {
				continue
			}
			first, second := m.Eval(&v)
			texts := [2]string{m.Value, m.Limit}
			if m.Kind == margin.Strength {
				texts = [2]string{m.Demand, m.Capacity}
			}
			for i, got := range []float64{first, second} {
				if texts[i] == "" {
					continue
				}
				if want := printed(t, m, texts[i], &v); !(math.Abs(got-want) <= 1e-12*math.Abs(want)) {
					t.Fatalf("%s: %g, %q says %g", m.ID, got, texts[i], want)
				}
			}
			if m.Why == "" && m.Kind != margin.Strength {
				t.Fatalf("%s does not say why", m.ID)
			}
		}
	})
}

// TestPortMethods: which checks an end has, and in which order.
func TestPortMethods(t *testing.T) {
	ids := func(f closure.Features) string {
		var list []string
		for _, m := range closure.Methods(f) {
			if strings.HasPrefix(m.ID, "end.plate") || strings.HasPrefix(m.ID, "end.port") {
				list = append(list, m.ID)
			}
		}
		return strings.Join(list, " ")
	}
	for _, c := range []struct {
		f    closure.Features
		want string
	}{
		{closure.Features{}, ""},
		{closure.Features{Plate: true}, "end.plate end.plate_ultimate"},
		{closure.Features{Plate: true, PipeThread: true}, "end.plate end.plate_ultimate end.port_wall end.port_thread"},
		{closure.Features{Plate: true, PipeThread: true, PipeFloor: true}, "end.plate end.plate_ultimate end.port_wall end.port_thread end.port_floor"},
	} {
		if got := ids(c.f); got != c.want {
			t.Errorf("%+v: %q, want %q", c.f, got, c.want)
		}
	}
}

// TestPortSlack: where sizes meet their limit exactly, the answer is exact.
func TestPortSlack(t *testing.T) {
	exact := func(limit string, own bool, sizes map[margin.Term]string) margin.Exact {
		return margin.Exact{
			At: func(term margin.Term, end margin.End) decimal.Decimal {
				for _, m := range []*margin.Method{&closure.PortWall, &closure.PortFloor, &closure.PortThread} {
					for _, s := range m.Symbols {
						if s.Term == term && s.End != end {
							t.Errorf("%s at end %d", s.Name(), end)
						}
					}
				}
				return decimal.RequireFromString(sizes[term])
			},
			Limit: decimal.RequireFromString(limit), Own: own,
		}
	}
	sizes := map[margin.Term]string{margin.PortWall: "0.0029", margin.PortFloor: "0.0028", margin.PortWallLimit: "0.00285", margin.PortLength: "0.010", margin.PipeThreadLength: "0.008"}
	for _, c := range []struct {
		m     *margin.Method
		limit string
		own   bool
		want  string
	}{
		{&closure.PortWall, "9", false, "0.00005"},
		{&closure.PortWall, "0.003", true, "-0.0001"},
		{&closure.PortFloor, "9", false, "-0.00005"},
		{&closure.PortFloor, "0.0028", true, "0"},
		{&closure.PortThread, "1", false, "0.002"},
		{&closure.PortThread, "1.25", true, "0"},
		{&closure.PortThread, "1.3", true, "-0.0004"},
	} {
		if got := c.m.Slack(exact(c.limit, c.own, sizes)); !got.Equal(decimal.RequireFromString(c.want)) {
			t.Errorf("%s, limit %s: %s m, want %s m", c.m.ID, c.limit, got, c.want)
		}
	}
	if closure.PortThread.Default != "1.0" {
		t.Errorf("default %s", closure.PortThread.Default)
	}
	for _, m := range []*margin.Method{&closure.PortWall, &closure.PortFloor, &closure.PortThread} {
		if m.Kind != margin.AtLeast || m.Mode != margin.Rule {
			t.Errorf("%s: kind %d, %s", m.ID, m.Kind, m.Mode)
		}
	}
}

// A port of a third of the bore, plugged, in the plate of the first example:
// plate theory, by hand 3 (3.3 + 0.7/9)/4 (10/1)² = 253.3.
func ExamplePlateStress_port() {
	stress := closure.PlateStress(1*quantity.Megapascal, 20*quantity.Millimetre, 20.0/3*quantity.Millimetre, 1*quantity.Millimetre, 0.3, 2)
	fmt.Printf("%.1f MPa\n", stress/quantity.Megapascal)
	// Output: 253.3 MPa
}
