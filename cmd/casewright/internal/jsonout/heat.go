package jsonout

import (
	"encoding/hex"
	"io"

	"casewright"
	"casewright/casing/heat"
	"casewright/quantity"
	"casewright/sizing"
)

// heated is the document of heat.
type heated struct {
	Format      int       `json:"format"`
	Kind        string    `json:"kind"`
	Casewright  string    `json:"casewright"`
	File        string    `json:"file"`
	SHA256      string    `json:"sha256,omitempty"`
	Motor       string    `json:"motor"`
	Holds       bool      `json:"holds"` // nothing gets hotter than it bears
	Burnout     *Quantity `json:"burnout"`
	HotFace     *hotPlace `json:"hot_face"`
	Bond        *hotPlace `json:"bond"`
	WallInside  *hotPlace `json:"wall_inside"`
	WallMean    *hotPlace `json:"wall_mean"`
	WallOutside *hotPlace `json:"wall_outside"`
	Tube        []hotTube `json:"tube"`
	Ends        []hotEnd  `json:"ends"`
	Touch       *Quantity `json:"touch"`
	Wait        *Quantity `json:"wait,omitempty"`       // after ignition, until all is below touch
	Unfollowed  []string  `json:"unfollowed,omitempty"` // ends that are not computed: wait is not theirs
	Balance     float64   `json:"energy_balance"`       // relative
	Fit         *heatFit  `json:"fit,omitempty"`        // to what was measured
}

// hotPlace is the temperature of a place; time after ignition.
type hotPlace struct {
	Peak    *Quantity `json:"peak"`
	Time    *Quantity `json:"time"`
	Burnout *Quantity `json:"burnout"`
	Limit   *Quantity `json:"limit,omitempty"`
}

type hotTube struct {
	At       string    `json:"at"`
	Time     *Quantity `json:"time"`
	Mean     *Quantity `json:"mean"`
	Inside   *Quantity `json:"inside"`
	Yield    *Quantity `json:"yield,omitempty"`
	Ultimate *Quantity `json:"ultimate,omitempty"`
	Swells   *float64  `json:"margin_yield,omitempty"`
	Bursts   *float64  `json:"margin_burst,omitempty"`
}

type hotEnd struct {
	End      string    `json:"end"`
	Face     *hotPlace `json:"face"`
	Gland    *hotPlace `json:"gland"`
	Bolts    *hotPlace `json:"bolts"`
	Metal    *hotPlace `json:"metal"`
	Tube     *hotPlace `json:"tube"` // round the end
	Rear     *hotPlace `json:"rear"`
	Compound string    `json:"compound"`
	Spare    *Quantity `json:"spare"`          // of the gland, below the compound's limit; negative where it overheats
	Over     *Quantity `json:"over,omitempty"` // time at which it passes the limit
	Remedies []remedy  `json:"remedies,omitempty"`
}

type remedy struct {
	Key    string    `json:"key"`
	Cover  string    `json:"cover,omitempty"`
	From   *Quantity `json:"from"`
	To     *Quantity `json:"to"`
	Peak   *Quantity `json:"peak"`
	Enough bool      `json:"enough"`
}

// heatFit is a fit to what was measured; ranges are what the test leaves open.
type heatFit struct {
	Film              *Quantity     `json:"film_coefficient"`
	FilmRange         [2]*Quantity  `json:"film_coefficient_range"`
	Conductivity      *Quantity     `json:"conductivity,omitempty"`
	ConductivityRange [2]*Quantity  `json:"conductivity_range"`
	AtEdge            bool          `json:"at_edge"`    // of a range that was looked through
	Determined        bool          `json:"determined"` // the test tells the two apart
	Residuals         []heatResidue `json:"residuals"`
}

type heatResidue struct {
	Place      string    `json:"place"`
	Least      *Quantity `json:"least,omitempty"` // measured
	Most       *Quantity `json:"most,omitempty"`
	Computed   *Quantity `json:"computed"`
	Difference *Quantity `json:"difference"`
	Explained  bool      `json:"explained"`
}

func fitOf(a *sizing.HeatAnswer) *heatFit {
	f := a.Fit
	if f == nil {
		return nil
	}
	film := func(x float64) *Quantity { return number(x, quantity.KindHeatTransfer) }
	conducts := func(x float64) *Quantity { return number(x, quantity.KindConductivity) }
	out := &heatFit{
		Film: film(f.Film), FilmRange: [2]*Quantity{film(f.FilmRange[0]), film(f.FilmRange[1])},
		Conductivity: conducts(f.Conductivity), ConductivityRange: [2]*Quantity{conducts(f.ConductivityRange[0]), conducts(f.ConductivityRange[1])},
		AtEdge: f.FilmBound != heat.Inside || f.ConductivityBound != heat.Inside, Determined: f.Determined,
	}
	for _, r := range f.Residuals {
		out.Residuals = append(out.Residuals, heatResidue{
			sizing.PlaceName(a.Design, r.Place), kelvin(quantity.Temperature(r.Measured[0])), kelvin(quantity.Temperature(r.Measured[1])), kelvin(quantity.Temperature(r.Computed)),
			number(r.Difference, quantity.KindTemperatureDifference), r.Explained,
		})
	}
	return out
}

func kelvin(t quantity.Temperature) *Quantity { return number(float64(t), quantity.KindTemperature) }

func seconds(t float64) *Quantity { return number(t, quantity.KindTime) }

// Heat writes how hot a motor gets as one line.
func Heat(w io.Writer, a *sizing.HeatAnswer) error {
	d, h := a.Design, a.History
	place := func(part, name string) *hotPlace {
		p := a.Find(part, name)
		return &hotPlace{kelvin(p.Peak.Temperature), seconds(float64(p.Peak.Time)), kelvin(p.At), kelvin(p.Limit)}
	}
	doc := heated{
		Format: 1, Kind: "heat", Casewright: casewright.Version, File: d.File, SHA256: hex.EncodeToString(d.SHA256[:]), Motor: d.Name.Value, Holds: a.Holds(),
		Burnout: seconds(h.Burnout), HotFace: place("tube", "hot_face"), Bond: place("tube", "bond"),
		WallInside: place("tube", "wall_inside"), WallMean: place("tube", "wall_mean"), WallOutside: place("tube", "wall_outside"),
		Ends: []hotEnd{}, Touch: kelvin(a.Touch), Wait: seconds(h.Safe), Unfollowed: a.Unfollowed(), Balance: h.Balance, Fit: fitOf(a),
	}
	for _, t := range a.Tube {
		doc.Tube = append(doc.Tube, hotTube{
			t.Title, seconds(float64(t.Time)), kelvin(t.Mean), kelvin(t.Inside), number(t.Yield.SI, quantity.KindPressure), number(t.Ultimate.SI, quantity.KindPressure), plain(t.Swells), plain(t.Bursts),
		})
	}
	for i := range a.Seals {
		s := &a.Seals[i]
		e := hotEnd{
			End: s.End, Face: place(s.End, "face"), Gland: place(s.End, "gland"), Bolts: place(s.End, "bolts"), Metal: place(s.End, "metal"), Tube: place(s.End, "tube"), Rear: place(s.End, "rear"),
			Compound: s.Compound.Name, Spare: number(float64(s.Spare), quantity.KindTemperatureDifference), Over: seconds(s.Over),
		}
		for _, r := range s.Remedies {
			e.Remedies = append(e.Remedies, remedy{r.Key, r.Cover, number(r.From, r.Unit), number(r.To, r.Unit), kelvin(r.Peak), r.Enough})
		}
		doc.Ends = append(doc.Ends, e)
	}
	return write(w, doc)
}
