package steam

import "math"

// A gibbs is the Gibbs energy of a region without dimension and its derivatives
// by the reduced pressure pi and the inverse reduced temperature tau.
type gibbs struct{ g, p, pp, t, tt, pt float64 }

// add adds n*a^i*b^j, whose derivatives are by a and b; neither is zero where the
// regions hold.
func (g *gibbs) add(c term, a, b float64) {
	pa, pb := math.Pow(a, c.i), math.Pow(b, c.j)
	g.g += c.n * pa * pb
	g.p += c.n * c.i * pa / a * pb
	g.pp += c.n * c.i * (c.i - 1) * pa / (a * a) * pb
	g.t += c.n * pa * c.j * pb / b
	g.tt += c.n * pa * c.j * (c.j - 1) * pb / (b * b)
	g.pt += c.n * c.i * pa / a * c.j * pb / b
}

// properties are those of one kilogram, with kJ, m3, m/s and K.
type properties struct{ v, u, h, s, cp, w float64 }

const gasConstant = 0.461526 // kJ/(kg K), equation 1

// properties returns what tables 3 and 12 make of the Gibbs energy at p in MPa and
// t in K.
func (g *gibbs) properties(pi, tau, p, t float64) properties {
	rt := gasConstant * t
	square := g.p * g.p / ((g.p-tau*g.pt)*(g.p-tau*g.pt)/(tau*tau*g.tt) - g.pp)
	return properties{
		v: rt * pi * g.p / (p * 1000), // kJ to m3 MPa
		u: rt * (tau*g.t - pi*g.p), h: rt * tau * g.t, s: gasConstant * (tau*g.t - g.g),
		cp: -gasConstant * tau * tau * g.tt, w: math.Sqrt(1000 * rt * square),
	}
}

// waterAt is region 1, equation 7, at p in MPa and t in K.
func waterAt(p, t float64) properties {
	pi, tau := p/16.53, 1386/t
	var g gibbs
	for _, c := range region1 {
		g.add(c, 7.1-pi, tau-1.222) // table 4
	}
	g.p, g.pt = -g.p, -g.pt // as pi grows the first of them falls
	return g.properties(pi, tau, p, t)
}

// steamAt is region 2, equations 15 to 17, at p in MPa and t in K.
func steamAt(p, t float64) properties {
	tau := 540 / t
	g := gibbs{g: math.Log(p), p: 1 / p, pp: -1 / (p * p)} // table 13; reduced by 1 MPa
	for _, c := range ideal2 {
		g.add(c, p, tau) // of the power 0 of p
	}
	for _, c := range residual2 {
		g.add(c, p, tau-0.5) // table 14
	}
	return g.properties(p, tau, p, t)
}
