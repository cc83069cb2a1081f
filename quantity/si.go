package quantity

import "github.com/shopspring/decimal"

// The SI types. They keep a length from standing where a pressure is due; they do not check products, so a formula takes plain
// float64 on its first line and wraps its result on the last.
type (
	// Length is in metres.
	Length float64
	// Area is in square metres.
	Area float64
	// Pressure is in pascals. Stresses and moduli have this type too. A pressure of a motor is gauge pressure.
	Pressure float64
	// Force is in newtons.
	Force float64
	// Temperature is in kelvins, above absolute zero.
	Temperature float64
	// TemperatureDifference is in kelvins.
	TemperatureDifference float64
	// Time is in seconds.
	Time float64
	// Torque is in newton metres.
	Torque float64
	// Mass is in kilograms.
	Mass float64
	// Density is in kilograms per cubic metre.
	Density float64
	// Expansion is the coefficient of linear thermal expansion, in 1/K.
	Expansion float64
	// Conductivity is thermal conductivity, in W/(m K).
	Conductivity float64
	// SpecificHeat is in J/(kg K).
	SpecificHeat float64
	// Angle is in radians.
	Angle float64
	// HeatTransfer is the heat transfer coefficient of a film, in W/(m² K).
	HeatTransfer float64
	// ThermalResistance is that of an area, as of a gap, in m² K/W.
	ThermalResistance float64
	// Speed is in metres per second.
	Speed float64
	// MassFlow is in kilograms per second.
	MassFlow float64
	// Viscosity is dynamic viscosity, in pascal seconds.
	Viscosity float64
)

// Units of length. The inch is exact (1959).
const (
	Metre      Length = 1
	Centimetre Length = 1e-2
	Millimetre Length = 1e-3
	Micrometre Length = 1e-6
	Inch       Length = 0.0254
)

// Units of area.
const (
	SquareMetre      Area = 1
	SquareMillimetre Area = 1e-6
	SquareInch       Area = 0.0254 * 0.0254
)

// Units of pressure, stress and modulus.
const (
	Pascal     Pressure = 1
	Kilopascal Pressure = 1e3
	Megapascal Pressure = 1e6
	Gigapascal Pressure = 1e9
	Bar        Pressure = 1e5
	PSI        Pressure = 0.45359237 * 9.80665 / (0.0254 * 0.0254)
	KSI        Pressure = 1000 * 0.45359237 * 9.80665 / (0.0254 * 0.0254)
)

// Units of force. The pound-force is the pound (1959) times standard gravity (CGPM 1901), exact.
const (
	Newton     Force = 1
	Kilonewton Force = 1e3
	PoundForce Force = 0.45359237 * 9.80665
)

// Kelvin is the unit of a temperature above absolute zero.
const Kelvin Temperature = 1

// DeltaKelvin is the unit of a temperature difference.
const DeltaKelvin TemperatureDifference = 1

// Units of time.
const (
	Second      Time = 1
	Millisecond Time = 1e-3
	Minute      Time = 60
)

// Units of torque.
const (
	NewtonMetre    Torque = 1
	PoundForceInch Torque = 0.45359237 * 9.80665 * 0.0254
	PoundForceFoot Torque = 0.45359237 * 9.80665 * 0.3048
)

// Units of mass.
const (
	Kilogram Mass = 1
	Gram     Mass = 1e-3
	Pound    Mass = 0.45359237
)

// Units of density.
const (
	KilogramPerCubicMetre  Density = 1
	GramPerCubicCentimetre Density = 1e3
	PoundPerCubicInch      Density = 0.45359237 / (0.0254 * 0.0254 * 0.0254)
)

// Units of the thermal properties.
const (
	PerKelvin              Expansion    = 1
	WattPerMetreKelvin     Conductivity = 1
	JoulePerKilogramKelvin SpecificHeat = 1
)

// Units of what a surface and a gap pass on.
const (
	WattPerSquareMetreKelvin HeatTransfer      = 1
	SquareMetreKelvinPerWatt ThermalResistance = 1
)

// Units of a flow.
const (
	MetrePerSecond    Speed     = 1
	KilogramPerSecond MassFlow  = 1
	PascalSecond      Viscosity = 1
)

// Units of angle.
const (
	Radian Angle = 1
	Degree Angle = 3.14159265358979323846264338327950288419716939937510582 / 180
)

// Celsius returns the temperature of c degrees Celsius.
func Celsius(c float64) Temperature { return Temperature(c + 273.15) }

// Celsius returns the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) - 273.15 }

// LengthOf returns an exact length in metres, as a [Dimension] gives it, as the nearest float64.
func LengthOf(metres decimal.Decimal) Length {
	f, _ := metres.Float64()
	return Length(f)
}
