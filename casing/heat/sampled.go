package heat

import "casewright/quantity"

// samples is how finely a correlation is laid down; linear between them it is
// met to 1e-4.
const samples = 1024

// sampled returns the film with its correlation laid down between the coldest
// and the hottest temperature that may occur: it is asked at every node, in
// every step.
func (f Film) sampled(coldest, hottest float64) Film {
	if f.Correlation == nil || !(hottest > coldest) {
		return f
	}
	direct, apart := f.Correlation, (hottest-coldest)/samples
	table := make([]float64, samples+1)
	for i := range table {
		table[i] = float64(direct(quantity.Temperature(coldest+float64(i)*apart), f.Temperature))
	}
	f.Correlation = func(surface, _ quantity.Temperature) quantity.HeatTransfer {
		x := (float64(surface) - coldest) / apart
		i := min(max(int(x), 0), samples-1)
		return quantity.HeatTransfer(table[i] + (x-float64(i))*(table[i+1]-table[i]))
	}
	return f
}

// span is the coldest and the hottest temperature that a motor may have: no
// node leaves what is around it.
func (m *Motor) span() (coldest, hottest float64) {
	coldest, hottest = float64(m.Start), float64(m.Start)
	films := []Film{m.Gas[0], m.Gas[1], m.Outside}
	for _, e := range m.Ends {
		films = append(films, e.Gas[0], e.Gas[1])
	}
	for _, f := range films {
		if f.Coefficient > 0 || f.Emissivity > 0 || f.Correlation != nil {
			coldest, hottest = min(coldest, float64(f.Temperature)), max(hottest, float64(f.Temperature))
		}
	}
	return coldest, hottest
}

// sampled returns the motor with all its correlations laid down.
func (m *Motor) sampled() *Motor {
	s, ends := *m, append([]End(nil), m.Ends...)
	coldest, hottest := m.span()
	films := []*Film{&s.Gas[0], &s.Gas[1], &s.Outside}
	for i := range ends {
		films = append(films, &ends[i].Gas[0], &ends[i].Gas[1])
	}
	for _, f := range films {
		*f = f.sampled(coldest, hottest)
	}
	s.Ends = ends
	return &s
}
