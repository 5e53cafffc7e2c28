package steam

import (
	"math"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// hottestWater is where regions 1 and 2 of the formulation end on the line of
// saturation: IAPWS R7-97(2012), section 4.
const hottestWater = units.Temperature(623.15)

var enthalpies = source.Ref{
	Kind: source.Published, Title: "IAPWS R7-97(2012), Industrial Formulation 1997", Edition: "2012 revision",
	Locator: "equations 7, 16 and 17, tables 2, 10 and 11",
}

// LatentHeat returns the heat that a mass of the steam gives off as it turns to
// water of its own temperature:
//
//	Q  = m * (h2 - h1)
//	h1 = R * T1 * dg1/dt(p, T)
//	h2 = R * T2 * (dg0/dt(T) + dgr/dt(p, T))
//
//	m          mass, above zero
//	h1, h2     enthalpy of the water and of the steam
//	g1, g0+gr  Gibbs energies of regions 1 and 2, without dimension
//	t          T1 / T with T1 = 1386 K for the water, T2 / T with T2 = 540 K for the steam
//	R          0.461526 kJ/(kg K)
//
// From 0 to 350 degrees C. Source: IAPWS R7-97(2012), equations 7 and 16. See the
// Example of [Saturated.Condensed].
func (s Saturated) LatentHeat(m units.Mass) (units.Energy, error) {
	if err := fault.Positive(fail, "mass of the steam", m); err != nil {
		return 0, err
	}
	if !(s.Temperature >= coldest && s.Temperature <= hottestWater) {
		return 0, fail.OutOfRange("temperature of the steam", s.Temperature, "0 to 350 °C")
	}
	t, p := s.Temperature.Kelvin(), s.Pressure.In(units.Megapascal)
	return units.Energy(float64(m)*(enthalpyOfSteam(p, t)-enthalpyOfWater(p, t))) * units.Kilojoule, nil
}

// enthalpyOfWater is that of region 1 in kJ/kg, at p in MPa and t in K.
func enthalpyOfWater(p, t float64) float64 {
	pi, tau := p/16.53, 1386/t
	slope := 0.0
	for _, c := range region1 {
		slope += c.n * math.Pow(7.1-pi, c.i) * c.j * math.Pow(tau-1.222, c.j-1) // table 4
	}
	return gasConstant * 1386 * slope // table 3: h = R T tau dg/dtau
}

// enthalpyOfSteam is that of region 2 in kJ/kg, at p in MPa and t in K.
func enthalpyOfSteam(p, t float64) float64 {
	tau := 540 / t
	slope := 0.0
	for _, c := range ideal2 {
		slope += c.n * c.j * math.Pow(tau, c.j-1) // table 13
	}
	for _, c := range residual2 {
		slope += c.n * math.Pow(p, c.i) * c.j * math.Pow(tau-0.5, c.j-1) // table 14; reduced by 1 MPa
	}
	return gasConstant * 540 * slope // table 12: h = R T tau (dg0/dtau + dgr/dtau)
}

const gasConstant = 0.461526 // kJ/(kg K), equation 1

type term struct{ i, j, n float64 }

// region1 is table 2.
var region1 = [...]term{
	{0, -2, 0.14632971213167}, {0, -1, -0.84548187169114}, {0, 0, -0.37563603672040e1}, {0, 1, 0.33855169168385e1},
	{0, 2, -0.95791963387872}, {0, 3, 0.15772038513228}, {0, 4, -0.16616417199501e-1}, {0, 5, 0.81214629983568e-3},
	{1, -9, 0.28319080123804e-3}, {1, -7, -0.60706301565874e-3}, {1, -1, -0.18990068218419e-1},
	{1, 0, -0.32529748770505e-1}, {1, 1, -0.21841717175414e-1}, {1, 3, -0.52838357969930e-4},
	{2, -3, -0.47184321073267e-3}, {2, 0, -0.30001780793026e-3}, {2, 1, 0.47661393906987e-4},
	{2, 3, -0.44141845330846e-5}, {2, 17, -0.72694996297594e-15}, {3, -4, -0.31679644845054e-4},
	{3, 0, -0.28270797985312e-5}, {3, 6, -0.85205128120103e-9}, {4, -5, -0.22425281908000e-5},
	{4, -2, -0.65171222895601e-6}, {4, 10, -0.14341729937924e-12}, {5, -8, -0.40516996860117e-6},
	{8, -11, -0.12734301741641e-8}, {8, -6, -0.17424871230634e-9}, {21, -29, -0.68762131295531e-18},
	{23, -31, 0.14478307828521e-19}, {29, -38, 0.26335781662795e-22}, {30, -39, -0.11947622640071e-22},
	{31, -40, 0.18228094581404e-23}, {32, -41, -0.93537087292458e-25},
}

// ideal2 is table 10.
var ideal2 = [...]term{
	{0, 0, -0.96927686500217e1}, {0, 1, 0.10086655968018e2}, {0, -5, -0.56087911283020e-2},
	{0, -4, 0.71452738081455e-1}, {0, -3, -0.40710498223928}, {0, -2, 0.14240819171444e1},
	{0, -1, -0.43839511319450e1}, {0, 2, -0.28408632460772}, {0, 3, 0.21268463753307e-1},
}

// residual2 is table 11.
var residual2 = [...]term{
	{1, 0, -0.17731742473213e-2}, {1, 1, -0.17834862292358e-1}, {1, 2, -0.45996013696365e-1},
	{1, 3, -0.57581259083432e-1}, {1, 6, -0.50325278727930e-1}, {2, 1, -0.33032641670203e-4},
	{2, 2, -0.18948987516315e-3}, {2, 4, -0.39392777243355e-2}, {2, 7, -0.43797295650573e-1},
	{2, 36, -0.26674547914087e-4}, {3, 0, 0.20481737692309e-7}, {3, 1, 0.43870667284435e-6},
	{3, 3, -0.32277677238570e-4}, {3, 6, -0.15033924542148e-2}, {3, 35, -0.40668253562649e-1},
	{4, 1, -0.78847309559367e-9}, {4, 2, 0.12790717852285e-7}, {4, 3, 0.48225372718507e-6},
	{5, 7, 0.22922076337661e-5}, {6, 3, -0.16714766451061e-10}, {6, 16, -0.21171472321355e-2},
	{6, 35, -0.23895741934104e2}, {7, 0, -0.59059564324270e-17}, {7, 11, -0.12621808899101e-5},
	{7, 25, -0.38946842435739e-1}, {8, 8, 0.11256211360459e-10}, {8, 36, -0.82311340897998e1},
	{9, 13, 0.19809712802088e-7}, {10, 4, 0.10406965210174e-18}, {10, 10, -0.10234747095929e-12},
	{10, 14, -0.10018179379511e-8}, {16, 29, -0.80882908646985e-10}, {16, 50, 0.10693031879409},
	{18, 57, -0.33662250574171}, {20, 20, 0.89185845355421e-24}, {20, 35, 0.30629316876232e-12},
	{20, 48, -0.42002467698208e-5}, {21, 21, -0.59056029685639e-25}, {22, 53, 0.37826947613457e-5},
	{23, 39, -0.12768608934681e-14}, {24, 26, 0.73087610595061e-28}, {24, 40, 0.55414715350778e-16},
	{24, 58, -0.94369707241210e-6},
}
