package heat

import "casewright/quantity"

// A Solid is what conducts and stores heat: conductivity in W/(m K), 0.005 to
// 1000; density in kg/m³, 1 to 25 000; specific heat in J/(kg K), 50 to 10 000.
type Solid struct {
	Conductivity quantity.Conductivity
	Density      quantity.Density
	SpecificHeat quantity.SpecificHeat
}

// A Layer lies between the gas and the tube, or on the hot face of an end.
// Thickness in m, 1 µm to 0.5 m; Gap is the resistance from it to what follows,
// in m² K/W, 0 to 10, 0 where the two touch without any.
type Layer struct {
	Name string
	Solid
	Thickness quantity.Length
	Gap       quantity.ThermalResistance
}

// A Film is what a surface meets: a fluid at a temperature in K, 100 to 5000,
// that passes on heat with a coefficient in W/(m² K), 0 to 1e6, and by radiation
// to or from all around at the same temperature, with an emissivity of 0 to 1.
// Where there is a Correlation it gives the coefficient in place of Coefficient.
// The zero Film passes nothing on.
type Film struct {
	Temperature quantity.Temperature
	Coefficient quantity.HeatTransfer
	Emissivity  float64
	Correlation Correlation
}

// A Correlation gives the coefficient of a film, in W/(m² K), from the
// temperatures of surface and fluid, in K.
type Correlation func(surface, fluid quantity.Temperature) quantity.HeatTransfer

// A Motor is what is heated.
type Motor struct {
	Layers []Layer // from the gas outwards; none where the tube is bare
	Tube   Solid
	Bore   quantity.Length // diameter of the tube inside, m
	Wall   quantity.Length // m
	Length quantity.Length // of the tube, m

	Gas     [2]Film // inside: while it burns, and afterwards
	Outside Film
	Start   quantity.Temperature // of everything at ignition, K

	Burn  quantity.Time        // s, 0.01 to 600
	Until quantity.Time        // s, after ignition: the longest time looked at
	Touch quantity.Temperature // below which all must fall, K; the run ends there
	Marks []quantity.Time      // s: moments that are met exactly

	Ends []End
}

// An End is a bulkhead or a nozzle in its tube.
type End struct {
	Name     string
	Body     Solid
	Mass     quantity.Mass   // kg
	Length   quantity.Length // along the axis, m
	Gland    quantity.Length // pressure face to the near wall of the first groove, m
	GlandEnd quantity.Length // pressure face to the far wall of the last groove, m; the same as Gland where it is less
	Bolts    quantity.Length // pressure face to the screws, m

	Hot   quantity.Area   // through which heat enters, m²; 0 where none does
	Entry quantity.Length // pressure face to where it enters, m
	Cover *Layer          // on that area; its Gap is the joint to the body
	Gas   [2]Film         // there: while it burns, and afterwards

	Joint   quantity.ThermalResistance // of end to tube, over the length of the end, m² K/W, above 0
	Outside quantity.Area              // of the outer face, m²
}

// A Mesh is how finely nodes and steps are laid; both must be 1 or more.
type Mesh struct{ Nodes, Steps int }

// Usual is a mesh that is fine enough: halving it moves no temperature by more
// than 0.2 % of its rise.
var Usual = Mesh{1, 1}
