package diagnosis

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/eccentric"
	"github.com/valvechest/valvechest/units"
)

// tell adds what the readings leave open, and what to read next.
func (s *search) tell(d *Diagnosis) {
	without := 0
	if len(d.MeasureAgain) > 0 {
		without = d.MeasureAgain[0] + 1
	}
	guesses := s.guesses(without)
	if len(guesses) == 0 {
		return
	}
	if without == 0 && !d.Fits {
		d.CannotTell = []string{noneFits}
		d.Next = s.again(s.worst(guesses[0].fit))
		d.Next.Text = noneFits + " " + d.Next.Text
		return
	}
	var twin *candidate
	d.CannotTell, twin = s.cannotTell(guesses)
	switch {
	case len(d.MeasureAgain) > 0:
		d.Next = s.again(&s.read[d.MeasureAgain[0]])
	case !d.Suspects[0].Sure:
		d.Next = s.next(guesses)
	case twin != nil:
		d.Next = &Next{Kind: twin.kind, End: twin.end, Crank: twin.crank, Text: s.asked(twin, guesses)}
	}
}

// again asks for a reading that the others contradict.
func (s *search) again(m *measured) *Next {
	c := candidate{kind: m.kind, end: m.end, crank: m.crank()}
	text := "Read once more " + c.text() + ": it contradicts the others."
	return &Next{Kind: c.kind, End: c.end, Crank: c.crank, Text: text}
}

// noneFits is said where no fault, and no reading left out, makes sense of the rest.
const noneFits = "No fault explains these readings, nor do they agree without any one of them: find both dead centres anew, and " +
	"take all readings turning the running way."

// worst returns the reading that is furthest from a fit.
func (s *search) worst(f *fit) *measured {
	by := func(a, b measured) int { return cmp.Compare(s.off(&a, &f.at), s.off(&b, &f.at)) }
	m := slices.MaxFunc(s.read, by)
	return &m
}

// mostDoubts is how many of them anybody reads; doubtful the odds from which on another
// part is none: less than a sheave on the other hand has that the leads do not show.
const (
	mostDoubts = 3
	doubtful   = 100
)

// twinOdds is how much less likely another place of the sheave may be that is told: a
// sheave may be sure to be wrong, and both ways to turn it explain the readings.
const twinOdds = 1000

// cannotTell says which other cures the readings leave nearly as likely as the first,
// and of what they say nothing; and what parts a sheave that is wrong from its twin.
func (s *search) cannotTell(guesses []guess) (all []string, twin *candidate) {
	shown := slices.DeleteFunc(slices.Clone(guesses), func(g guess) bool { return s.unseen(&g) != nil })
	heads := heads(shown)
	for i := 1; i < len(heads) && len(all) < mostDoubts; i++ {
		a, b := &heads[0], &heads[i]
		least := float64(doubtful)
		turned := a.cure.key == b.cure.key
		if turned {
			least = twinOdds
		}
		if a.weight > least*b.weight {
			continue
		}
		all = append(all, s.doubt(a, b))
		if turned && twin == nil {
			twin = s.parts(a, b)
		}
	}
	if hidden := s.hidden(&guesses[0]); len(s.read) > 0 && len(hidden) > 0 {
		all = append(all, "Nothing that was read shows "+list(hidden)+".")
	}
	return all, twin
}

// shows is by how many standard deviations all readings together are to differ for a
// fault of the usual size that they show.
const shows = 1.5

// hidden names the parts of which the readings show nothing, were the engine as a guess
// has it.
func (s *search) hidden(g *guess) (all []string) {
	rows, _ := s.residuals(&g.at, nil)
	var faults []Fault
	of := map[Fault][]string{}
	for i := range s.wide {
		d := &s.wide[i]
		if g.of.place != nil && d.part.Fault == WrongAdvance {
			continue // where it turns to either way the readings are the same
		}
		sum := 0.0
		for k := range rows {
			off := rows[k].slope.dot(&d.along) * d.sd
			sum += off * off
		}
		if sum >= shows*shows || len(of[d.part.Fault]) > 0 && of[d.part.Fault][0] == d.part.Fault.unread() {
			continue // it shows, or has been told of both ends
		}
		name := d.part.Fault.unread()
		if d.part.End != eccentric.BothEnds {
			name = strings.TrimSuffix(name, "s") + " " + at(d.part.End)
		}
		if of[d.part.Fault] == nil {
			faults = append(faults, d.part.Fault)
		}
		of[d.part.Fault] = append(of[d.part.Fault], name)
	}
	for _, f := range faults {
		all = append(all, of[f]...)
	}
	return all
}

// unread names what has to be read for a fault to show.
func (f Fault) unread() string {
	switch f {
	case WrongAdvance:
		return "where the sheave stands"
	case ValveOffCentre:
		return "where the valve stands on its rod"
	case WrongTravel:
		return "the travel"
	case WrongSteamLap:
		return "the steam laps"
	case WrongExhaustLap:
		return "the exhaust laps"
	}
	return "lost motion"
}

// list writes names one after the other.
func list(of []string) string {
	if n := len(of) - 1; n > 0 {
		return strings.Join(of[:n], ", ") + " and " + of[n]
	}
	return of[0]
}

// hardly is what of the spread of a fault is left where the readings hardly show it.
const hardly = 0.7

// unseen returns a fault of the guess of which the readings hardly show how large it
// is, or that it is there; nil where there is none.
func (s *search) unseen(g *guess) *direction {
	for _, d := range g.of.faults {
		before := math.Sqrt(s.nuisance.along(&d.read) + d.sd*d.sd)
		if amount, after := g.amount(d); after > hardly*before || math.Abs(amount) < after {
			return d
		}
	}
	return nil
}

// doubt says of two guesses why the readings do not part them, and what does.
func (s *search) doubt(a, b *guess) string {
	text := fmt.Sprintf("It may be %s, or else %s. ", s.told(a), s.told(b))
	if len(s.read) > 0 {
		text += "Both explain what was read"
		if c, apart := s.widest(a, b); apart < 2 {
			text += " within what the readings may be out by"
		} else {
			text += ", and differ most in " + c.text()
		}
		text += ". "
	}
	c := s.parts(a, b)
	if c == nil {
		return text + "No single reading parts them for certain."
	}
	fa, fb := s.likeliest(c, a), s.likeliest(c, b)
	return text + fmt.Sprintf("What parts them is %s: %s with the first, %s with the second.",
		c.text(), fa.text(c.kind), fb.text(c.kind))
}

// told names what a guess takes to be wrong.
func (s *search) told(g *guess) string { return s.suspect(g.fit, 0).Text() }

// crank returns the crank angle of a valve's place.
func (m *measured) crank() units.Angle {
	if m.kind != ValveAt {
		return 0
	}
	return units.Angle(m.at)
}

// apart returns by how many standard deviations two guesses differ in a reading.
func (s *search) apart(c *candidate, a, b *guess, sd float64) float64 {
	fa, fb := mostLikely(s.foresee(c, a, sd)), mostLikely(s.foresee(c, b, sd))
	if fa.seen != fb.seen {
		return 3 * min(fa.weight/a.weight, fb.weight/b.weight)
	}
	off := fa.mean - fb.mean
	if c.kind.isEvent() {
		off = math.Remainder(off, 2*math.Pi)
	}
	if fa.seen != value {
		return 0
	}
	return math.Abs(off) / math.Sqrt((fa.sd*fa.sd+fb.sd*fb.sd)/2)
}

// widest returns the reading taken in which two guesses differ most, and by how much.
func (s *search) widest(a, b *guess) (widest candidate, most float64) {
	for i := range s.read {
		m := &s.read[i]
		if m.byStroke {
			continue
		}
		c := candidate{kind: m.kind, end: m.end, crank: m.crank()}
		if apart := s.apart(&c, a, b, m.sd); apart >= most {
			widest, most = c, apart
		}
	}
	return widest, most
}

// clearly is by how many standard deviations what parts two guesses differs.
const clearly = 2.5

// parts returns the reading that has not been taken and parts two guesses best, the
// least trouble of those that do it clearly; nil where none does.
func (s *search) parts(a, b *guess) (best *candidate) {
	all := candidates()
	most := 0.0
	for i := range all {
		c := &all[i]
		if s.taken(c) {
			continue
		}
		switch apart := s.apart(c, a, b, s.error(c.kind)); {
		case apart < clearly:
		case best == nil || c.effort < best.effort || c.effort == best.effort && apart > most:
			best, most = c, apart
		}
	}
	return best
}
