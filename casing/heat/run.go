package heat

import (
	"fmt"
	"math"
	"slices"
)

// The steps: the first of each part of the history, what each may be over the
// one before, and the longest over the time since the part began.
const (
	firstStep   = 1e-4 // of the burning time
	burnSteps   = 60   // the longest step is the burning time over this
	stepGrowth  = 1.25
	soakGrowth  = 1.045
	leastSoaked = 2e-4 // the first step after burnout, of the burning time
	quickShare  = 0.1  // of its temperature that a node may change by, at its rate, in the first step
)

// Run computes the history of a motor on a mesh. The error is a [Faults]
// where the motor is none that can be computed.
func (m *Motor) Run(mesh Mesh) (*History, error) {
	if err := m.Check(mesh); err != nil {
		return nil, err
	}
	m = m.sampled()
	c := newColumn(m, mesh)
	ends := make([]*ending, len(m.Ends))
	for i := range m.Ends {
		ends[i] = newEnding(m, &m.Ends[i], mesh)
	}
	r := &running{motor: m, column: c, ends: ends, h: &History{Burnout: float64(m.Burn), Safe: math.NaN()}}
	r.h.Ends = make([]EndHistory, len(ends))
	for i := range m.Ends {
		r.h.Ends[i].Name = m.Ends[i].Name
	}
	before := r.heat()
	r.keep(0)
	if err := r.burn(mesh); err != nil {
		return nil, err
	}
	if err := r.soak(mesh); err != nil {
		return nil, err
	}
	r.finish(before)
	return r.h, nil
}

// running is a motor under way.
type running struct {
	motor  *Motor
	column *column
	ends   []*ending
	h      *History
}

// heat is what all hold, J, for each network.
func (r *running) heat() []float64 {
	list := []float64{r.column.heat()}
	for _, e := range r.ends {
		list = append(list, e.heat())
	}
	return list
}

// begin sets all films to a part of the history, 0 while it burns.
func (r *running) begin(part int) {
	r.column.gas = r.motor.Gas[part]
	r.column.begin(drive{})
	d := r.column.drive()
	for i, e := range r.ends {
		e.gas = r.motor.Ends[i].Gas[part]
		e.network.begin(d)
	}
}

// quickest is the first step that follows what changes the most quickly where
// films jump: a longer one may overshoot.
func (r *running) quickest() float64 {
	least := r.column.quickest(quickShare)
	for _, e := range r.ends {
		least = min(least, e.quickest(quickShare))
	}
	return least
}

// step goes on by h seconds to a time.
func (r *running) step(h, to float64) error {
	stages := []func(*network, float64, drive) error{(*network).first, (*network).second}
	for _, stage := range stages {
		if err := stage(&r.column.network, h, drive{}); err != nil {
			return fmt.Errorf("%w at %.4g s", err, to)
		}
		d := r.column.drive()
		for _, e := range r.ends {
			if err := stage(&e.network, h, d); err != nil {
				return fmt.Errorf("%w at %.4g s, in an end", err, to)
			}
		}
	}
	r.keep(to)
	return nil
}

// upTo goes from the last time to another in steps that grow, at most the
// longest, and returns the step that comes next.
func (r *running) upTo(to, step, growth, longest float64) (float64, error) {
	for {
		now := r.h.Time[len(r.h.Time)-1]
		left := to - now
		h := step
		switch {
		case left <= h*1.0001:
			return step, r.step(left, to)
		case left < 2*h:
			h = left / 2
		}
		if err := r.step(h, now+h); err != nil {
			return step, err
		}
		step = min(step*growth, longest)
	}
}

// marks are the marks between two times, with the second.
func (r *running) marks(from, to float64) []float64 {
	list := []float64{to}
	for _, m := range r.motor.Marks {
		if x := float64(m); x > from && x < to {
			list = append(list, x)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func (r *running) burn(mesh Mesh) (err error) {
	r.begin(0)
	fine := float64(mesh.Steps)
	burn := float64(r.motor.Burn)
	step := min(firstStep*burn, r.quickest()) / fine
	for _, to := range r.marks(0, burn) {
		if step, err = r.upTo(to, step, math.Pow(stepGrowth, 1/fine), burn/burnSteps/fine); err != nil {
			return err
		}
	}
	return nil
}

// soak goes on until all has cooled and nothing that is followed still warms.
func (r *running) soak(mesh Mesh) (err error) {
	r.begin(1)
	fine, burn, until := float64(mesh.Steps), float64(r.motor.Burn), float64(r.motor.Until)
	step, growth := min(leastSoaked*burn, r.quickest())/fine, math.Pow(soakGrowth, 1/fine)
	for _, to := range r.marks(burn, until) {
		for {
			now := r.h.Time[len(r.h.Time)-1]
			if now >= to || r.cool() && now >= r.lastMark() {
				break
			}
			if step, err = r.upTo(min(to, now+step*8), step, growth, math.Inf(1)); err != nil {
				return err
			}
		}
	}
	return nil
}

func (r *running) lastMark() float64 {
	last := 0.0
	for _, m := range r.motor.Marks {
		if x := float64(m); x <= float64(r.motor.Until) {
			last = max(last, x)
		}
	}
	return last
}

// cool tells that all is below the temperature of touch and nothing rises.
func (r *running) cool() bool {
	n := len(r.h.Time)
	if r.h.Hottest[n-1] >= float64(r.motor.Touch) {
		return false
	}
	falls := func(t Trace) bool { return t[n-1] <= t[n-2] }
	if !falls(r.h.WallMean) {
		return false
	}
	for i := range r.h.Ends {
		if e := &r.h.Ends[i]; !falls(e.Gland) || !falls(e.Bolts) || !falls(e.Rear) {
			return false
		}
	}
	return true
}

// keep notes all traces at a time.
func (r *running) keep(at float64) {
	h, c := r.h, r.column
	h.Time = append(h.Time, at)
	h.HotFace = append(h.HotFace, c.now[0])
	h.Bond = append(h.Bond, c.now[c.bond])
	h.WallInside = append(h.WallInside, c.now[c.wall])
	h.WallMean = append(h.WallMean, c.mean())
	h.WallOutside = append(h.WallOutside, c.now[c.last])
	hottest := slices.Max(c.now)
	for i, e := range r.ends {
		t := &h.Ends[i]
		t.Face = append(t.Face, e.now[e.face])
		body, ring := e.hottest(e.body, e.gland[0], e.gland[1]), e.hottest(e.ring, e.gland[0], e.gland[1])
		t.Body = append(t.Body, body)
		t.Ring = append(t.Ring, ring)
		t.Gland = append(t.Gland, max(body, ring))
		t.Bolts = append(t.Bolts, max(e.now[e.body[e.bolts]], e.now[e.ring[e.bolts]]))
		last := len(e.body) - 1
		t.Tube = append(t.Tube, e.hottest(e.ring, 0, last))
		t.Metal = append(t.Metal, max(e.hottest(e.body, 0, last), t.Tube[len(t.Tube)-1]))
		t.Rear = append(t.Rear, e.now[e.body[len(e.body)-1]])
		for _, full := range e.now[len(e.beyond):] { // those beyond are differences
			hottest = max(hottest, full)
		}
	}
	h.Hottest = append(h.Hottest, hottest)
}

// finish tells when all had cooled, and what the computation lost.
func (r *running) finish(before []float64) {
	h, touch := r.h, float64(r.motor.Touch)
	n := len(h.Time)
	if h.Cooled = h.Hottest[n-1] < touch; h.Cooled {
		h.Safe = 0
		for i := n - 1; i > 0; i-- {
			if a, b := h.Hottest[i-1], h.Hottest[i]; a >= touch {
				h.Safe = h.Time[i-1] + (h.Time[i]-h.Time[i-1])*(a-touch)/(a-b)
				break
			}
		}
	}
	networks := []*network{&r.column.network}
	for _, e := range r.ends {
		networks = append(networks, &e.network)
	}
	for i, after := range r.heat() {
		if n := networks[i]; n.turnover > 0 {
			h.Balance = max(h.Balance, math.Abs(after-before[i]-n.inflow)/n.turnover)
		}
	}
}
