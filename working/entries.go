package working

import (
	"fmt"

	"casewright/margin"
	"casewright/materials"
	"casewright/quantity"
	"casewright/seal"
)

// An Entry is a number of a table that a symbol rests on.
type Entry struct {
	What   string // "6061-T6 drawn tube, yield strength (0.2 % proof)"
	Value  string // as the table has it, at 20 °C
	Basis  string // on which it stands; empty where the table has none
	Source string
	Status string // "seen", "memory", or empty for one of the design file's own
}

// ofMetal are the terms that rest on properties of a metal, and whether of the
// tube or of the end.
var ofMetal = map[margin.Term]struct {
	end        bool
	properties []materials.Property
}{
	margin.TubeYield:           {false, []materials.Property{materials.Yield}},
	margin.TubeUltimate:        {false, []materials.Property{materials.Ultimate}},
	margin.TubeShear:           {false, []materials.Property{materials.Shear}},
	margin.TubePoisson:         {false, []materials.Property{materials.Poisson}},
	margin.SvenssonFactor:      {false, []materials.Property{materials.UniformElongation}},
	margin.Growth:              {false, []materials.Property{materials.Modulus, materials.Poisson}},
	margin.HoleBearingUltimate: {false, []materials.Property{materials.BearingUltimate15, materials.BearingUltimate2, materials.Ultimate}},
	margin.HoleBearingGreatest: {false, []materials.Property{materials.BearingUltimate15, materials.BearingUltimate2, materials.Ultimate}},
	margin.HoleBearingYield:    {false, []materials.Property{materials.BearingYield15, materials.BearingYield2, materials.Yield}},
	margin.EndYield:            {true, []materials.Property{materials.Yield}},
	margin.EndUltimate:         {true, []materials.Property{materials.Ultimate}},
	margin.EndShear:            {true, []materials.Property{materials.Shear}},
	margin.EndPoisson:          {true, []materials.Property{materials.Poisson}},
	margin.EndBearingUltimate:  {true, []materials.Property{materials.BearingUltimate15, materials.BearingUltimate2, materials.Ultimate}},
	margin.EndBearingYield:     {true, []materials.Property{materials.BearingYield15, materials.BearingYield2, materials.Yield}},
}

// ofBoth are the terms that rest on a property of the tube's metal and of the
// end's.
var ofBoth = map[margin.Term]materials.Property{
	margin.HeatOpening: materials.Expansion,
	margin.HeatClosing: materials.Expansion,
	margin.FirstLoad:   materials.Modulus,
}

// entries are the numbers of tables that a term rests on.
func (s *symbols) entries(t margin.Term) []Entry {
	if of, ok := ofMetal[t]; ok {
		return s.metal(of.end, of.properties)
	}
	if p, ok := ofBoth[t]; ok {
		return append(s.metal(false, []materials.Property{p}), s.metal(true, []materials.Property{p})...)
	}
	part := int(s.result.Check.Part)
	if part == 0 {
		return nil
	}
	end := &s.design.Ends[part-1]
	thread, class, compound, ring := end.Screws.Thread, end.Screws.Class, end.Seal.Compound, end.Seal.Ring
	switch t {
	case margin.ScrewDiameter, margin.ThreadPitch:
		if thread.Name != "" {
			return []Entry{{What: thread.Name, Source: thread.Source, Status: thread.Status}}
		}
	case margin.ThreadShear:
		if thread.Name != "" {
			return []Entry{{What: thread.Name, Source: thread.Source, Status: thread.Status}, tolerancesOf(thread.Metric)}
		}
	case margin.Port, margin.PipeThreadLength:
		if pipe := end.PortThread; pipe.Name != "" {
			return []Entry{{What: pipe.Name, Source: pipe.Source, Status: pipe.Status}}
		}
	case margin.PortWallLimit:
		if pipe := end.PortThread; pipe.Name != "" {
			return []Entry{
				{What: pipe.Name, Source: pipe.Source, Status: pipe.Status},
				{What: "forged coupling", Source: pipe.CouplingSource, Status: pipe.CouplingStatus},
			}
		}
	case margin.GapLimit:
		if band, ok := seal.BandAt(s.design.Pressure.Amount); ok {
			return []Entry{ofBand(band)}
		}
	case margin.ScrewStrength:
		if class.Name != "" {
			return []Entry{{"class " + class.Name + ", tensile strength", megapascals(class.Ultimate), "specified minimum", class.Source, class.Status}}
		}
	case margin.ScrewYield:
		if class.Name != "" {
			return []Entry{{"class " + class.Name + ", yield strength", megapascals(class.Yield), "specified minimum", class.Source, class.Status}}
		}
	case margin.ShearFactor:
		if class.Name != "" {
			return []Entry{{What: "class " + class.Name + ", shear over tensile strength", Source: class.ShearSource, Status: class.ShearStatus}}
		}
	case margin.Section, margin.RingInside:
		if ring.Name != "" {
			return []Entry{{What: ring.Name, Source: ring.Source, Status: ring.Status}}
		}
	case margin.Swell, margin.RubberExpansion, margin.CompoundLimit, margin.ColdLimit, margin.GapShare:
		if compound.Name != "" {
			return []Entry{ofRubber(t, compound.Compound)}
		}
	}
	return nil
}

// tolerancesOf are those of a metric or a unified screw and its tapped hole.
func tolerancesOf(metric bool) Entry {
	if metric {
		return Entry{What: "tolerances 6g of the screw, 6H of the hole", Source: "ISO 965-1", Status: "memory"}
	}
	return Entry{What: "tolerances 2A of the screw, 2B of the hole, by formula", Source: "ASME B1.1", Status: "memory"}
}

// ofBand is a step of the table of gaps, as it is printed.
func ofBand(b seal.Band) Entry {
	return Entry{
		What:   fmt.Sprintf("%s to %s psi: diametral clearance", b.From, b.To),
		Value:  fmt.Sprintf("%.3f in at 70 and %.3f in at 90 Shore A", b.At[0]/quantity.Inch, b.At[1]/quantity.Inch),
		Source: b.Source, Status: b.Status,
	}
}

func ofRubber(t margin.Term, c seal.Compound) Entry {
	var what string
	var from seal.Provenance
	switch t {
	case margin.Swell:
		what, from = "swell", c.SwellFrom
	case margin.RubberExpansion:
		what, from = "thermal expansion", c.ExpansionFrom
	case margin.CompoundLimit:
		what, from = "continuous limit", c.LimitFrom
	case margin.ColdLimit:
		what, from = "least temperature", c.LeastFrom
	default:
		what, from = "share of the tabulated gap", c.GapShareFrom
	}
	return Entry{What: c.Name + ", " + what, Source: from.Source, Status: from.Status}
}

// metal are the properties of tube or end that are known. A strength that is
// estimated from others falls back on the last of a list.
func (s *symbols) metal(ofEnd bool, properties []materials.Property) []Entry {
	m := s.design.Tube.Material.Material
	if part := int(s.result.Check.Part); ofEnd && part > 0 {
		m = s.design.Ends[part-1].Material.Material
	}
	if m == nil {
		return nil
	}
	var list []Entry
	for i, p := range properties {
		v, ok := m.Value(p)
		if !ok || i == 2 && len(list) == 2 {
			continue // published: nothing is estimated
		}
		source := v.Source
		if v.Where != "" {
			source += ", " + v.Where
		}
		list = append(list, Entry{m.Name + ", " + p.Meaning(), v.Text, v.Basis, source, v.Status})
	}
	return list
}

func megapascals(p quantity.Pressure) string {
	return fmt.Sprintf("%.4g MPa", float64(p)/1e6)
}
