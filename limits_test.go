package casewright

import (
	"math"
	"strings"
	"testing"

	"casewright/margin"
	"casewright/quantity"
	"casewright/testdata/sheet"
)

// plainSheet is a bulkhead in a tube, in round millimetres and without
// tolerances, so that a limit can be met exactly.
func plainSheet() *sheet.Sheet {
	return sheet.Of(`
motor.name = "Limits"
motor.pressure = "2 MPa"
tube.inside_diameter = "57 mm"
tube.wall = "3 mm"
tube.length = "300 mm"
tube.material = "6061-T6 drawn tube"
end1.name = "bulkhead"
end1.kind = "bulkhead"
end1.material = "6061-T6 bar"
end1.outside_diameter = "56.9 mm"
end1.length = "40 mm"
end1.plate = "12 mm"
end1.seal.section = "2.60 mm"
end1.seal.inside_diameter = "52 mm"
end1.seal.compound = "FKM"
end1.seal.hardness = 75
end1.seal.groove_diameter = "53 mm"
end1.seal.groove_width = "3.60 mm"
end1.seal.groove_from_face = "4 mm"
end1.screws.thread = "M5x0.8"
end1.screws.class = "8.8"
end1.screws.count = 8
end1.screws.hole = "5.5 mm"
end1.screws.edge = "14 mm"
end1.screws.from_face = "20 mm"
end1.screws.engagement = "9 mm"`)
}

// plainNozzle makes the end of [plainSheet] a nozzle with an insert.
const plainNozzle = "end1.kind = \"nozzle\"\nend1.plate =\nend1.lip = \"6 mm\"\nend1.lip_diameter = \"26 mm\"\n"

// result is what a check of the sheet comes to.
func result(t *testing.T, s *sheet.Sheet, id string) *Result {
	t.Helper()
	r := Check(read(t, s))
	for i := range r.Results {
		if r.Results[i].Method.ID == id {
			return &r.Results[i]
		}
	}
	t.Fatalf("no check %s\n%s", id, s)
	return nil
}

// Each line of shared sets the scene; on meets the limit exactly, worse and
// better lie one step of the drawing beside it. The limits are the rules of
// the list of checks; the sizes follow by arithmetic that a person can do.
func TestLimits(t *testing.T) {
	for _, test := range []struct {
		id, name          string
		shared            string
		on, worse, better string
	}{
		// Two holes from the end of the tube: 2 × 6.35 = 12.70.
		{"hole.edge", "mm", `end1.screws.hole = "6.35 mm"`, `end1.screws.edge = "12.70 mm"`, `end1.screws.edge = "12.69 mm"`, `end1.screws.edge = "12.71 mm"`},
		{"hole.edge", "mm, by tolerance", `end1.screws.hole = "6.25 ±0.10 mm"`, `end1.screws.edge = "12.9 +0.1/-0.2 mm"`, `end1.screws.edge = "12.9 +0.1/-0.21 mm"`, `end1.screws.edge = "12.9 +0.1/-0.19 mm"`},
		{"hole.edge", "mm, the hole", `end1.screws.edge = "12.70 mm"`, `end1.screws.hole = "6.35 mm"`, `end1.screws.hole = "6.36 mm"`, `end1.screws.hole = "6.34 mm"`},
		{"hole.edge", "in", `end1.screws.hole = "1/4 in"`, `end1.screws.edge = "0.500 in"`, `end1.screws.edge = "0.499 in"`, `end1.screws.edge = "0.501 in"`},
		{"hole.edge", "inches and millimetres", `end1.screws.hole = "1/4 in"`, `end1.screws.edge = "12.70 mm"`, `end1.screws.edge = "12.69 mm"`, `end1.screws.edge = "12.71 mm"`},
		{"hole.edge", "own 1.9", "limits.\"hole.edge\" = 1.9\nend1.screws.hole = \"6.35 mm\"", `end1.screws.edge = "12.065 mm"`, `end1.screws.edge = "12.064 mm"`, `end1.screws.edge = "12.066 mm"`},
		{"hole.edge", "own 2.1", "limits.\"hole.edge\" = \"2.1\"\nend1.screws.hole = \"0.250 in\"", `end1.screws.edge = "0.525 in"`, `end1.screws.edge = "0.524 in"`, `end1.screws.edge = "0.526 in"`},
		{"hole.edge", "own 210 %", "limits.\"hole.edge\" = \"210 %\"\nend1.screws.hole = \"5.5 mm\"", `end1.screws.edge = "11.55 mm"`, `end1.screws.edge = "11.54 mm"`, `end1.screws.edge = "11.56 mm"`},

		// One screw diameter: 5 mm; 0.190 in of a number 10.
		{"end.engagement", "mm", "", `end1.screws.engagement = "5 mm"`, `end1.screws.engagement = "4.99 mm"`, `end1.screws.engagement = "5.01 mm"`},
		{"end.engagement", "mm, by tolerance", "", `end1.screws.engagement = "5.3 ±0.3 mm"`, `end1.screws.engagement = "5.29 ±0.3 mm"`, `end1.screws.engagement = "5.31 ±0.3 mm"`},
		{"end.engagement", "in", `end1.screws.thread = "10-32 UNF"`, `end1.screws.engagement = "0.190 in"`, `end1.screws.engagement = "0.189 in"`, `end1.screws.engagement = "0.191 in"`},
		{"end.engagement", "own 1.5", `limits."end.engagement" = "1.5"`, `end1.screws.engagement = "7.5 mm"`, `end1.screws.engagement = "7.49 mm"`, `end1.screws.engagement = "7.51 mm"`},
		{"end.engagement", "own 0.7, in", "limits.\"end.engagement\" = 0.7\nend1.screws.thread = \"10-32 UNF\"", `end1.screws.engagement = "0.133 in"`, `end1.screws.engagement = "0.132 in"`, `end1.screws.engagement = "0.134 in"`},

		// The groove ends at 4 + 3.6, the hole begins half a hole before its
		// centre: 7.6 + 2.75 + 1.0 = 11.35.
		{"end.lip_reach", "mm", "end1.kind = \"nozzle\"\nend1.plate =\nend1.insert_diameter = \"38 +0/-0.05 mm\"\nend1.lip = \"6 mm\"", `end1.lip_diameter = "36.75 ±0.2 mm"`, `end1.lip_diameter = "36.76 ±0.2 mm"`, `end1.lip_diameter = "36.74 ±0.2 mm"`},
		// 56.9/2 − 12 − 1 = 15.45; by the rule of the drill 9 + 0.7 × 5 = 12.5.
		{"end.insert_wall", "mm", plainNozzle + "end1.screws.drilled = \"12 mm\"", `end1.insert_diameter = "30.9 mm"`, `end1.insert_diameter = "30.92 mm"`, `end1.insert_diameter = "30.88 mm"`},
		{"end.insert_wall", "mm, by tolerance", plainNozzle + "end1.screws.drilled = \"11.8 ±0.1 mm\"", `end1.insert_diameter = "30.9 +0.2/-0 mm"`, `end1.insert_diameter = "30.9 +0.22/-0 mm"`, `end1.insert_diameter = "30.9 +0.18/-0 mm"`},
		{"end.insert_wall", "mm, as drills go", plainNozzle + "end1.insert_diameter = \"29.9 mm\"", `end1.screws.engagement = "9 mm"`, `end1.screws.engagement = "9.01 mm"`, `end1.screws.engagement = "8.99 mm"`},
		{"hole.clearance", "mm", `end1.screws.thread = "M5"`, `end1.screws.hole = "5.10 ±0.10 mm"`, `end1.screws.hole = "5.09 ±0.10 mm"`, `end1.screws.hole = "5.11 ±0.10 mm"`},
		{"hole.outside_seal", "mm", "", `end1.screws.from_face = "11.35 mm"`, `end1.screws.from_face = "11.34 mm"`, `end1.screws.from_face = "11.36 mm"`},
		{"hole.outside_seal", "mm, two grooves", "end1.seal.count = 2\nend1.seal.groove_spacing = \"6 ±0.1 mm\"", `end1.screws.from_face = "17.45 mm"`, `end1.screws.from_face = "17.44 mm"`, `end1.screws.from_face = "17.46 mm"`},
		{"hole.outside_seal", "own 0.5 mm", `limits."hole.outside_seal" = "0.5 mm"`, `end1.screws.from_face = "10.85 mm"`, `end1.screws.from_face = "10.84 mm"`, `end1.screws.from_face = "10.86 mm"`},
		{
			"hole.outside_seal", "own 0.04 in", // 0.300 + 0.110 + 0.04
			"limits.\"hole.outside_seal\" = \"0.04 in\"\nend1.seal.groove_from_face = \"0.150 in\"\nend1.seal.groove_width = \"0.150 in\"\nend1.screws.hole = \"0.220 in\"",
			`end1.screws.from_face = "0.450 in"`, `end1.screws.from_face = "0.449 in"`, `end1.screws.from_face = "0.451 in"`,
		},

		// An end as wide as the bore goes in; cold, as no temperature is given.
		{"end.clearance", "mm", "", `end1.outside_diameter = "57.00 mm"`, `end1.outside_diameter = "57.00 +0.01/-0 mm"`, `end1.outside_diameter = "56.99 mm"`},
		{"end.clearance", "by outside diameter and wall", "tube.inside_diameter =\ntube.outside_diameter = \"63.0 mm\"", `end1.outside_diameter = "57 mm"`, `end1.outside_diameter = "57 +0.01/-0 mm"`, `end1.outside_diameter = "56.99 mm"`},
		{"end.clearance", "by two diameters", "tube.wall =\ntube.outside_diameter = \"63.0 mm\"\ntube.inside_diameter = \"57.02 ±0.02 mm\"", `end1.outside_diameter = "57 mm"`, `end1.outside_diameter = "57.01 mm"`, `end1.outside_diameter = "56.99 mm"`},
		{"end.clearance", "in", `tube.inside_diameter = "2.250 in"`, `end1.outside_diameter = "57.15 mm"`, `end1.outside_diameter = "57.15 +0.01/-0 mm"`, `end1.outside_diameter = "2.249 in"`},

		// 1.05 × 50 = 52.5; 1.05 × 2.000 = 2.100.
		{"seal.stretch", "mm", `end1.seal.inside_diameter = "50 mm"`, `end1.seal.groove_diameter = "52.50 mm"`, `end1.seal.groove_diameter = "52.51 mm"`, `end1.seal.groove_diameter = "52.49 mm"`},
		{"seal.stretch", "mm, by tolerance", `end1.seal.inside_diameter = "50.4 ±0.4 mm"`, `end1.seal.groove_diameter = "52.47 ±0.03 mm"`, `end1.seal.groove_diameter = "52.47 ±0.04 mm"`, `end1.seal.groove_diameter = "52.47 ±0.02 mm"`},
		{"seal.stretch", "in", `end1.seal.inside_diameter = "2.000 in"`, `end1.seal.groove_diameter = "2.100 in"`, `end1.seal.groove_diameter = "2.101 in"`, `end1.seal.groove_diameter = "2.099 in"`},
		{"seal.stretch", "own 4 %", "limits.\"seal.stretch\" = \"4 %\"\nend1.seal.inside_diameter = \"50 mm\"", `end1.seal.groove_diameter = "52.00 mm"`, `end1.seal.groove_diameter = "52.01 mm"`, `end1.seal.groove_diameter = "51.99 mm"`},
		{"seal.stretch", "own 0.07", "limits.\"seal.stretch\" = 0.07\nend1.seal.inside_diameter = \"50 mm\"", `end1.seal.groove_diameter = "53.50 mm"`, `end1.seal.groove_diameter = "53.51 mm"`, `end1.seal.groove_diameter = "53.49 mm"`},

		// A ring as large as its groove neither stretches nor hangs loose.
		{"seal.stretch_least", "mm", "", `end1.seal.groove_diameter = "52 mm"`, `end1.seal.groove_diameter = "52 +0.01/-0.01 mm"`, `end1.seal.groove_diameter = "52.01 mm"`},
		{"seal.stretch_least", "in", `end1.seal.inside_diameter = "2.050 ±0.010 in"`, `end1.seal.groove_diameter = "2.060 in"`, `end1.seal.groove_diameter = "2.059 in"`, `end1.seal.groove_diameter = "2.061 in"`},

		// Room on the diameter 2 × 0.7 × 4.00 = 5.60 at 30 %; 2 × 0.68 × 1.80 =
		// 2.448 at the 32 % of sections up to 1.80 mm.
		{"seal.squeeze_most", "30 %, mm", gland("4.00 mm", "51 mm", "5 mm"), `end1.seal.groove_diameter = "51.40 mm"`, `end1.seal.groove_diameter = "51.41 mm"`, `end1.seal.groove_diameter = "51.39 mm"`},
		{"seal.squeeze_most", "30 %, by tolerance", gland("3.90 ±0.10 mm", "51 mm", "5 mm"), `end1.seal.groove_diameter = "51.35 ±0.05 mm"`, `end1.seal.groove_diameter = "51.36 ±0.05 mm"`, `end1.seal.groove_diameter = "51.34 ±0.05 mm"`},
		{"seal.squeeze_most", "30 %, in", gland("0.100 in", "2.05 in", "0.150 in") + "\ntube.inside_diameter = \"2.250 in\"", `end1.seal.groove_diameter = "2.110 in"`, `end1.seal.groove_diameter = "2.111 in"`, `end1.seal.groove_diameter = "2.109 in"`},
		{"seal.squeeze_most", "32 %, mm", gland("1.80 mm", "54 mm", "3 mm"), `end1.seal.groove_diameter = "54.552 mm"`, `end1.seal.groove_diameter = "54.553 mm"`, `end1.seal.groove_diameter = "54.551 mm"`},
		{"seal.squeeze_most", "32 %, by the nominal section", gland("1.70 ±0.20 mm", "54 mm", "3 mm"), `end1.seal.groove_diameter = "54.416 mm"`, `end1.seal.groove_diameter = "54.417 mm"`, `end1.seal.groove_diameter = "54.415 mm"`},
		{"seal.squeeze_most", "30 % from 1.81 mm", gland("1.81 mm", "54 mm", "3 mm"), `end1.seal.groove_diameter = "54.466 mm"`, `end1.seal.groove_diameter = "54.467 mm"`, `end1.seal.groove_diameter = "54.465 mm"`},
		{"seal.squeeze_most", "32 %, in", gland("0.070 in", "2.14 in", "0.100 in") + "\ntube.inside_diameter = \"2.2500 in\"", `end1.seal.groove_diameter = "2.1548 in"`, `end1.seal.groove_diameter = "2.1549 in"`, `end1.seal.groove_diameter = "2.1547 in"`},
		{"seal.squeeze_most", "own 25 %", "limits.\"seal.squeeze_most\" = \"25 %\"\n" + gland("4.00 mm", "50 mm", "5 mm"), `end1.seal.groove_diameter = "51.00 mm"`, `end1.seal.groove_diameter = "51.01 mm"`, `end1.seal.groove_diameter = "50.99 mm"`},

		// Against the bore: 56.90 − 2 × 0.65 × 4.00 = 51.70.
		{"seal.squeeze_most_offset", "mm", gland("4.00 mm", "51 mm", "5 mm"), `end1.seal.groove_diameter = "51.70 mm"`, `end1.seal.groove_diameter = "51.71 mm"`, `end1.seal.groove_diameter = "51.69 mm"`},
		{"seal.squeeze_most_offset", "the end", gland("4.00 mm", "51 mm", "5 mm") + "\nend1.seal.groove_diameter = \"51.70 mm\"", `end1.outside_diameter = "56.95 +0/-0.05 mm"`, `end1.outside_diameter = "56.95 +0/-0.06 mm"`, `end1.outside_diameter = "56.95 +0/-0.04 mm"`},
		{"seal.squeeze_most_offset", "own 33 %, in", "limits.\"seal.squeeze_most_offset\" = \"33 %\"\ntube.inside_diameter = \"2.250 in\"\nend1.outside_diameter = \"2.248 in\"\n" + gland("0.100 in", "2.05 in", "0.150 in"), `end1.seal.groove_diameter = "2.114 in"`, `end1.seal.groove_diameter = "2.115 in"`, `end1.seal.groove_diameter = "2.113 in"`},

		// Without stretch: 2 × 0.9 × 4.00 = 7.20 of room. Stretched by 4.04 %
		// the section is thinner by √1.0404 = 1.02: 4.08 / 1.02 = 4.00.
		{"seal.squeeze_least", "no stretch", gland("4.00 mm", "49.8 mm", "5 mm") + "\nend1.seal.groove_diameter = \"49.8 mm\"", `tube.inside_diameter = "57.00 mm"`, `tube.inside_diameter = "57.01 mm"`, `tube.inside_diameter = "56.99 mm"`},
		{"seal.squeeze_least", "stretched", gland("4.08 mm", "50 mm", "5 mm") + "\nend1.seal.groove_diameter = \"52.02 mm\"", `tube.inside_diameter = "59.22 mm"`, `tube.inside_diameter = "59.23 mm"`, `tube.inside_diameter = "59.21 mm"`},
		{"seal.squeeze_least", "stretched, the section", gland("4.08 mm", "50 mm", "5 mm") + "\nend1.seal.groove_diameter = \"52.02 mm\"\ntube.inside_diameter = \"59.20 ±0.02 mm\"", `end1.seal.section = "4.16 ±0.08 mm"`, `end1.seal.section = "4.15 ±0.08 mm"`, `end1.seal.section = "4.17 ±0.08 mm"`},
		{"seal.squeeze_least", "stretched, the groove", gland("4.08 mm", "50.3 ±0.3 mm", "5 mm") + "\ntube.inside_diameter = \"59.22 mm\"", `end1.seal.groove_diameter = "52.05 +0/-0.03 mm"`, `end1.seal.groove_diameter = "52.05 +0/-0.04 mm"`, `end1.seal.groove_diameter = "52.05 +0/-0.02 mm"`},
		{"seal.squeeze_least", "stretched, in", gland("0.1530 in", "2.000 in", "0.200 in") + "\nend1.seal.groove_diameter = \"2.0808 in\"", `tube.inside_diameter = "2.3508 in"`, `tube.inside_diameter = "2.3509 in"`, `tube.inside_diameter = "2.3507 in"`},
		{"seal.squeeze_least", "own 12 %", "limits.\"seal.squeeze_least\" = \"12 %\"\n" + gland("4.08 mm", "50 mm", "5 mm") + "\nend1.seal.groove_diameter = \"52.02 mm\"", `tube.inside_diameter = "59.06 mm"`, `tube.inside_diameter = "59.07 mm"`, `tube.inside_diameter = "59.05 mm"`},

		{"seal.hardness", "soft", "", `end1.seal.hardness = 70`, `end1.seal.hardness = 69`, `end1.seal.hardness = 71`},
		{"seal.hardness", "hard", "", `end1.seal.hardness = 90`, `end1.seal.hardness = 91`, `end1.seal.hardness = 89`},

		// Least temperatures, the same source: FKM −15 °C = 5 °F, NBR −30 °C =
		// −22 °F. The colder of tube and end counts.
		{"seal.cold", "FKM, °C", "", `tube.temperature = "-15 °C"`, `tube.temperature = "-15.01 °C"`, `tube.temperature = "-14.99 °C"`},
		{"seal.cold", "FKM, °F", "", `end1.temperature = "5 °F"`, `end1.temperature = "4.9 °F"`, `end1.temperature = "5.1 °F"`},
		{"seal.cold", "FKM, K", `tube.temperature = "0 °C"`, `end1.temperature = "258.15 K"`, `end1.temperature = "258.14 K"`, `end1.temperature = "258.16 K"`},
		{"seal.cold", "NBR, both", "end1.seal.compound = \"NBR\"\ntube.temperature = \"-22 °F\"", `end1.temperature = "-30 °C"`, `end1.temperature = "-30.01 °C"`, `end1.temperature = "20 °C"`},

		// Continuous limits, bodeseal.com technical support, seen: FKM 200 °C =
		// 392 °F, NBR 100 °C = 212 °F. The hotter of tube and end counts.
		{"seal.temperature", "FKM, °C", "", `tube.temperature = "200 °C"`, `tube.temperature = "200.01 °C"`, `tube.temperature = "199.99 °C"`},
		{"seal.temperature", "FKM, °F", "", `tube.temperature = "392 °F"`, `tube.temperature = "392.1 °F"`, `tube.temperature = "391.9 °F"`},
		{"seal.temperature", "FKM, K", "", `tube.temperature = "473.15 K"`, `tube.temperature = "473.16 K"`, `tube.temperature = "473.14 K"`},
		{"seal.temperature", "NBR, the end, °C", "end1.seal.compound = \"NBR\"\ntube.temperature = \"60 °C\"", `end1.temperature = "100 °C"`, `end1.temperature = "100.01 °C"`, `end1.temperature = "99.99 °C"`},
		{"seal.temperature", "NBR, the end, °F", "end1.seal.compound = \"nitrile\"\ntube.temperature = \"60 °C\"", `end1.temperature = "212 °F"`, `end1.temperature = "212.01 °F"`, `end1.temperature = "211.99 °F"`},
		{"seal.temperature", "NBR, both, K", "end1.seal.compound = \"NBR\"\ntube.temperature = \"212 °F\"", `end1.temperature = "373.15 K"`, `end1.temperature = "373.151 K"`, `end1.temperature = "100 °C"`},
	} {
		t.Run(test.id+" "+test.name, func(t *testing.T) {
			scene := plainSheet()
			if test.shared != "" {
				scene = scene.With(strings.Split(test.shared, "\n")...)
			}
			on := result(t, scene.With(test.on), test.id)
			if on.Verdict != margin.Pass || on.Margin != 0 || math.Signbit(on.Margin) {
				t.Errorf("on the limit: %v, margin %v (value %v, min %v, max %v), want pass with 0", on.Verdict, on.Margin, on.Value, on.Min, on.Max)
			}
			if worse := result(t, scene.With(test.worse), test.id); worse.Verdict != margin.Fail || !(worse.Margin < 0) {
				t.Errorf("one step worse: %v, margin %v, want fail", worse.Verdict, worse.Margin)
			}
			if b := result(t, scene.With(test.better), test.id); b.Verdict != margin.Pass || !(b.Margin >= 0) {
				t.Errorf("one step better: %v, margin %v, want pass", b.Verdict, b.Margin)
			}
		})
	}
}

// gland gives the lines of a ring and of a groove that is wide enough.
func gland(section, inside, width string) string {
	return "end1.seal.section = \"" + section + "\"\nend1.seal.inside_diameter = \"" + inside + "\"\nend1.seal.groove_width = \"" + width + "\""
}

// Where π or a tangent is in the formula no drawing meets the limit exactly;
// one step on either side must still differ.
func TestLimitsBesidesExactOnes(t *testing.T) {
	for _, test := range []struct{ id, shared, worse, better string }{
		// π × 60 / 14 / 5.61 = 2.3999…, / 5.60 = 2.4042….
		{"hole.pitch", `end1.screws.count = 14`, `end1.screws.hole = "5.62 mm"`, `end1.screws.hole = "5.60 mm"`},
		// π × 60 / 8 / 5.89 = 4.0003…, / 5.90 = 3.9935….
		{"hole.pitch", `limits."hole.pitch" = 4`, `end1.screws.hole = "5.90 mm"`, `end1.screws.hole = "5.89 mm"`},
		// π/4 2.6² × 1.05 / (w × 2) = 0.9 at w = 3.0971…; FKM swells 5 %.
		{"seal.fill", "", `end1.seal.groove_width = "3.09 mm"`, `end1.seal.groove_width = "3.10 mm"`},
		// The same at 80 %: w = 3.4842….
		{"seal.fill", `limits."seal.fill" = "80 %"`, `end1.seal.groove_width = "3.48 mm"`, `end1.seal.groove_width = "3.49 mm"`},
		// 57 + 2 l tan 15° = 53 + 5.2 at l = 2.2392….
		{"seal.insertion", "", `tube.lead_in = "2.23 mm"`, `tube.lead_in = "2.24 mm"`},
		{"seal.insertion", `tube.lead_in_angle = "30°"`, `tube.lead_in = "1.03 mm"`, `tube.lead_in = "1.04 mm"`},
	} {
		scene := plainSheet()
		if test.shared != "" {
			scene = scene.With(test.shared)
		}
		if r := result(t, scene.With(test.worse), test.id); r.Verdict != margin.Fail {
			t.Errorf("%s, %s: %v, margin %v, want fail", test.id, test.worse, r.Verdict, r.Margin)
		}
		if r := result(t, scene.With(test.better), test.id); r.Verdict != margin.Pass {
			t.Errorf("%s, %s: %v, margin %v, want pass", test.id, test.better, r.Verdict, r.Margin)
		}
	}
}

// Limits of diametral clearance in inches, by steps of pressure in psi. Source:
// seal maker's extrusion limits (Seal & Design), seen; between 70 and 90 Shore
// A linear, on a boundary the tighter step, half for silicone.
func TestGapStepsOfPressure(t *testing.T) {
	for _, test := range []struct {
		pressure, hardness string
		want               float64 // in
	}{
		{"499.99 psi", "70", 0.016},
		{"500 psi", "70", 0.010},
		{"999.99 psi", "70", 0.010},
		{"1000 psi", "70", 0.006},
		{"1 ksi", "90", 0.020},
		{"1499.99 psi", "70", 0.006},
		{"1499.99 psi", "90", 0.020},
		{"1500 psi", "70", 0.004},
		{"1.5 ksi", "90", 0.016},
		{"10.342 MPa", "70", 0.006},  // 1499.98 psi
		{"10.3422 MPa", "70", 0.004}, // 1500.01 psi
		{"1999.99 psi", "90", 0.016},
		{"2000 psi", "90", 0.010},
		{"3000 psi", "70", 0.002},
		{"3000 psi", "90", 0.010},
		{"3000 psi", "80", 0.006},
		{"400 psi", "75", 0.019},
		{"3000.1 psi", "80", math.NaN()},
		{"207 bar", "80", math.NaN()}, // 3002 psi
		{"400 psi", "69", math.NaN()},
		{"400 psi", "91", math.NaN()},
	} {
		s := plainSheet().With(`motor.pressure = "`+test.pressure+`"`, `end1.seal.hardness = `+test.hardness)
		r := result(t, s, "seal.gap")
		want := test.want * float64(quantity.Inch)
		if math.IsNaN(want) {
			if r.Verdict != margin.Refused || !math.IsNaN(r.Margin) || !math.IsNaN(r.GivesWayAt) {
				t.Errorf("%s, %s Shore A: %v, margin %v, want refused", test.pressure, test.hardness, r.Verdict, r.Margin)
			}
			continue
		}
		if !alike(r.Max, want, 1e-12) {
			t.Errorf("%s, %s Shore A: limit %v m, want %v in", test.pressure, test.hardness, r.Max, test.want)
		}
		if half := result(t, s.With(`end1.seal.compound = "VMQ"`), "seal.gap"); !alike(half.Max, want/2, 1e-12) {
			t.Errorf("%s, %s Shore A: limit of silicone %v m, want half of %v in", test.pressure, test.hardness, half.Max, test.want)
		}
	}
}

// A port of up to 0.6 of the bore more than doubles the stress of the plate,
// by (1 − ν)/(3 + ν) of the square of its share; a larger one is outside the
// formula. Both at their worst: 0.6 × 57 = 34.2.
func TestLargestPort(t *testing.T) {
	solid := result(t, plainSheet(), "end.plate")
	for _, test := range []struct {
		port, bore string
		refused    bool
	}{
		{"10 mm", "57 mm", false},
		{"34.2 mm", "57 mm", false},
		{"34.1 ±0.1 mm", "57.03 ±0.03 mm", false},
		{"34.21 mm", "57 mm", true},
		{"34.1 ±0.11 mm", "57 mm", true},
		{"34.2 mm", "57.03 ±0.04 mm", true},
		{"1.35 in", "2.25 in", false},
		{"1.351 in", "2.25 in", true},
	} {
		s := plainSheet().With(`end1.port = "`+test.port+`"`, `tube.inside_diameter = "`+test.bore+`"`)
		for _, id := range []string{"end.plate", "end.plate_ultimate"} {
			r := result(t, s, id)
			if refused := r.Verdict == margin.Refused && r.Reason == margin.PortTooLarge; refused != test.refused {
				t.Errorf("port %s in a bore %s: %s is %v (%s)", test.port, test.bore, id, r.Verdict, r.Reason.ID())
			}
		}
		if test.port != "10 mm" {
			continue
		}
		const nu, share, p = 0.33, 10.0 / 57.0, 2e6
		want := 2*solid.Demand*(1+(1-nu)/(3+nu)*share*share) + p*(1+share*share)/(1-share*share)
		if r := result(t, s, "end.plate"); !alike(r.Demand, want, 1e-12) {
			t.Errorf("port %s: stress %v Pa, solid %v Pa", test.port, r.Demand, solid.Demand)
		}
	}
}

// A limit of the design file's own stands in place of the table, whatever the
// pressure.
func TestOwnGap(t *testing.T) {
	s := plainSheet().With(`limits."seal.gap" = "0.3 mm"`, `motor.pressure = "3000.1 psi"`, `end1.seal.hardness = 95`)
	r := result(t, s, "seal.gap")
	if r.Verdict != margin.Pass || r.Max != 3e-4 || !r.Notes.Has(margin.LimitChanged) {
		t.Errorf("%v, limit %v, notes %v", r.Verdict, r.Max, r.Notes)
	}
	if r := result(t, s.With(`limits."seal.gap" = "0.1 mm"`), "seal.gap"); r.Verdict != margin.Fail || r.GivesWayAt != 0 {
		t.Errorf("a clearance that is used up without pressure: %v, gives way at %v", r.Verdict, r.GivesWayAt)
	}
}

// Common practice, no source: holes too near the end of the tube tear out long
// before the tube bursts.
func TestShortEdgeTearsOutFirst(t *testing.T) {
	r := Check(read(t, plainSheet().With(`end1.screws.edge = "5.6 mm"`, `end1.screws.class = "12.9"`)))
	first := r.First(margin.Breaks)
	if first == nil || first.Result.Method.ID != "hole.tear_out" {
		t.Fatalf("first to break: %v", first)
	}
	for _, e := range r.Order {
		if e.Result.Method.ID == "tube.burst" && !(e.At > first.At) {
			t.Errorf("the tube bursts at %v Pa, the holes tear out at %v Pa", e.At, first.At)
		}
	}
	if r.Verdict != margin.Fail {
		t.Errorf("verdict %v", r.Verdict)
	}
}

// A gland of a seal maker's table (Apple Rubber, seen in a copy): section
// 0.103 in, gland depth 0.080 to 0.086 in, groove width 0.146 ±0.005 in,
// diametral clearance at most 0.005 in. It is made for rubber of 70 Shore A and
// more; common practice, no source: one of 50 does not do.
func TestHandbookGland(t *testing.T) {
	s := plainSheet().With(
		`motor.pressure = "650 psi"`,
		`end1.seal.section =`, `end1.seal.inside_diameter =`, `end1.seal.size = "AS568-137"`,
		`tube.inside_diameter = "2.249 ±0.001 in"`, `end1.outside_diameter = "2.247 ±0.001 in"`,
		`end1.seal.groove_diameter = "2.083 ±0.002 in"`, `end1.seal.groove_width = "0.146 ±0.005 in"`,
		`tube.lead_in = "4 mm"`, `end1.screws.edge_break = "0.3 mm"`,
	)
	firm, soft := Check(read(t, s)), Check(read(t, s.With(`end1.seal.hardness = 50`)))
	for i := range firm.Results {
		id := firm.Results[i].Method.ID
		if !strings.HasPrefix(id, "seal.") {
			continue
		}
		if firm.Results[i].Verdict != margin.Pass {
			t.Errorf("75 Shore A: %s is %v, margin %v", id, firm.Results[i].Verdict, firm.Results[i].Margin)
		}
		want := margin.Pass
		switch id {
		case "seal.hardness":
			want = margin.Fail
		case "seal.gap":
			want = margin.Refused
		}
		if soft.Results[i].Verdict != want {
			t.Errorf("50 Shore A: %s is %v, want %v", id, soft.Results[i].Verdict, want)
		}
	}
}

// Common practice, no source: soft washers and sealant under the heads carry
// nothing. So sealant has no key, and one who writes it is told; washers are
// asked for their heat alone, and change no margin.
func TestSoftWashersCarryNothing(t *testing.T) {
	design := func(s *sheet.Sheet) *Design {
		d, err := Read("motor.toml", []byte(s.String()))
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	bare, soft := Check(design(plainSheet())), Check(design(plainSheet().With(`end1.screws.washer = "nylon"`)))
	for i := range bare.Results {
		a, b := &bare.Results[i], &soft.Results[i]
		if a.Method != b.Method || !(a.Margin == b.Margin || math.IsNaN(a.Margin) && math.IsNaN(b.Margin)) {
			t.Errorf("%s has a margin of %v, with washers %v", a.ID(), a.Margin, b.Margin)
		}
	}
	for _, key := range []string{"washers", "sealant", "gasket", "soft_washers"} {
		s := plainSheet().With(`end1.screws.` + key + ` = "nylon"`)
		if _, err := Read("motor.toml", []byte(s.String())); err == nil || !strings.Contains(err.Error(), `"`+key+`" is not a key`) {
			t.Errorf("%s: %v", key, err)
		}
	}
}

// Common practice, no source: a burr at a hole that the ring passes cuts it.
func TestEdgeBreakIsAskedFor(t *testing.T) {
	for _, leadIn := range []string{"", `"4 mm"`} {
		s := plainSheet().With(`tube.lead_in = ` + leadIn)
		if r := result(t, s, "seal.insertion"); !r.Notes.Has(margin.NoEdgeBreak) {
			t.Errorf("lead-in %s, no edge_break: no note", leadIn)
		}
		if r := result(t, s.With(`end1.screws.edge_break = "0.2 mm"`), "seal.insertion"); r.Notes.Has(margin.NoEdgeBreak) {
			t.Errorf("lead-in %s, edge_break given: still noted", leadIn)
		}
	}
	if r := result(t, plainSheet(), "seal.insertion"); r.Verdict != margin.Noted || !math.IsNaN(r.Margin) || !r.Notes.Has(margin.NoLeadIn) {
		t.Errorf("no lead-in: %v, margin %v", r.Verdict, r.Margin)
	}
}

// Sizes that nominal numbers allow and tolerances turn inside out: what comes
// of them must not pass.
func TestInsideOutDoesNotPass(t *testing.T) {
	t.Run("the groove may be wider than the bore", func(t *testing.T) {
		s := plainSheet().With(`tube.inside_diameter =`, `tube.outside_diameter = "63 ±0.5 mm"`, `tube.wall = "3 ±2 mm"`)
		if r := result(t, s, "seal.fill"); r.Verdict == margin.Pass {
			t.Errorf("seal.fill passes with margin %v, value %v", r.Margin, r.Value)
		}
	})
	t.Run("no wall is left, and no edge", func(t *testing.T) {
		s := plainSheet().With(`motor.pressure = "1 kPa"`, `tube.wall =`, `tube.outside_diameter = "63 ±3 mm"`, `tube.inside_diameter = "57 ±3.2 mm"`,
			`end1.screws.edge = "3 ±1 mm"`)
		if r := result(t, s, "hole.tear_out"); r.Verdict == margin.Pass {
			t.Errorf("hole.tear_out passes with margin %v, capacity %v N", r.Margin, r.Capacity)
		}
	})
}

// Nothing holds less than nothing: a strength that is used up has the margin
// -1, so that a part gets no better where the load on it rises.
func TestNothingLeftIsMinusOne(t *testing.T) {
	s := plainSheet().With(`end1.screws.from_face = "9 mm"`) // the screws stand in the land's edge
	for _, id := range []string{"end.hole_land", "end.land"} {
		if r := result(t, s, id); r.Verdict != margin.Fail || r.Margin != -1 {
			t.Errorf("%s: %v, margin %v, capacity %v N", id, r.Verdict, r.Margin, r.Capacity)
		}
	}
}

func TestLooserLimitIsToldInTheVerdict(t *testing.T) {
	for _, c := range []struct {
		line   string
		looser bool
	}{
		{`limits."hole.edge" = "1.8"`, true},
		{`limits."hole.edge" = "2.0"`, false},
		{`limits."hole.edge" = "2.1"`, false},
		{`limits."seal.fill" = "95 %"`, true},
		{`limits."seal.fill" = "85 %"`, false},
		{`limits."seal.squeeze_most" = "31 %"`, true},
		{`limits."seal.squeeze_most" = "30 %"`, false},
		{`limits."seal.gap" = "2 mm"`, true},
		{`limits."seal.gap" = "0.01 mm"`, false},
	} {
		r := Check(read(t, plainSheet().With(c.line)))
		if r.Has("own_limits") != c.looser {
			t.Errorf("%s: own_limits is told: %t", c.line, !c.looser)
		}
	}
}

// TestBlindPort: a pipe thread's hole that does not go through is as long as it
// is deep, and leaves of the plate what it does not take.
func TestBlindPort(t *testing.T) {
	blind := func(depth string) *sheet.Sheet {
		return plainSheet().With(`end1.plate = "14 mm"`, `end1.port_thread = "1/8-27 NPT"`, `end1.port_depth = "`+depth+`"`)
	}
	// L_2 = (0.8 · 0.405 + 6.8)/27 in, ASME B1.20.1, which prints 0.2639 in.
	length := (0.8*0.405 + 6.8) / 27 * 0.0254
	for depth, want := range map[string]struct{ floor, turns float64 }{"3 mm": {11e-3, 3e-3 / length}, "8 ±0.5 mm": {5.5e-3, 7.5e-3 / length}} {
		if got := result(t, blind(depth), "end.port_floor").Value; !alike(got, want.floor, 1e-12) {
			t.Errorf("depth %s: %g m of floor, want %g m", depth, got, want.floor)
		}
		if got := result(t, blind(depth), "end.port_thread").Value; !alike(got, want.turns, 5e-4) {
			t.Errorf("depth %s: %g of the thread, want %g", depth, got, want.turns)
		}
	}
	if _, err := Read("x.toml", []byte(blind("14 mm").String())); err == nil {
		t.Error("a port as deep as the plate is taken for blind")
	}
}

// TestDeepThreads: of a deep thread 1.5 diameters count, no more.
func TestDeepThreads(t *testing.T) {
	of := func(depth, id string) *Result {
		return result(t, plainSheet().With(`end1.screws.engagement = "`+depth+`"`, `end1.screws.torque = "2 N m"`), id)
	}
	for _, id := range []string{"thread.strip", "thread.outlasts"} {
		if a, b, c := of("7 mm", id), of("7.5 mm", id), of("18 mm", id); b.Margin != c.Margin || !(a.Margin < b.Margin) {
			t.Errorf("%s: %g at 1.4 d, %g at 1.5 d, %g at 3.6 d", id, a.Margin, b.Margin, c.Margin)
		}
	}
}
