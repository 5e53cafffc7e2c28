package symptom

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
)

// A Symptom is something that a builder sees, hears or feels of the engine.
type Symptom int

// The symptoms. The zero value is none.
const (
	WillNotTurn    Symptom = iota + 1 // under air or steam, pushed or not
	JerksOnly                         // it moves to and fro and does not go round
	WrongWay                          // it turns against the drawing
	OneWayOnly                        // it runs in one direction and not in the other
	NeedsAPush                        // once turned by hand it runs
	StopsAtCentre                     // it runs and stops at a dead centre
	HissesStanding                    // at the exhaust, wherever it stands
	HissesInPlaces                    // at the exhaust, standing in some positions
	BeatsUneven                       // the two exhaust beats of a turn differ
	BeatsChange                       // from one turn to the next
	Knocks                            // a blow or a click once or twice a turn
	Weak                              // it runs and pulls little
	WeakAtSpeed                       // it runs well slowly and pulls little fast
	UsesMuch                          // air, steam or water, beside what it does
	StopsWarm                         // it runs cold and stops as it warms
	NotOnSteam                        // it runs on air and not on steam
	StiffByHand                       // with no air or steam on it
	BlowsAtGland                      // out along a rod
	TurnsWithShut                     // it creeps with the stop valve shut
	SpitsWater                        // at the exhaust
	RanWell                           // it did run right before
)

const symptomCount = int(RanWell) + 1

var symptomNames = names.Set{Package: "symptom", Type: "Symptom", Field: "symptom", Texts: []string{"",
	"will not turn", "jerks without turning", "turns the wrong way", "turns one way only", "needs a push",
	"stops at a dead centre", "hisses at the exhaust standing still", "hisses in some positions", "beats uneven",
	"beats change", "knocks", "weak", "weak at speed", "uses much", "stops when warm", "runs on air but not on steam",
	"stiff by hand", "blows at a gland", "turns with the stop valve shut", "spits water", "ran well before",
}}

// Symptoms returns all of them.
func Symptoms() []Symptom {
	all := make([]Symptom, symptomCount-1)
	for i := range all {
		all[i] = Symptom(i + 1)
	}
	return all
}

// String returns the symptom in a few words, such as "needs a push".
func (s Symptom) String() string { return symptomNames.Text(int(s)) }

// Parse returns the symptom of that name, in capitals or not, with hyphens for spaces
// or not; see [Symptom.String]. Another text is a [*units.ParseError] that names those
// that come near and lists all.
func Parse(name string) (Symptom, error) {
	v, err := symptomNames.Value(name)
	return Symptom(v), withNear(err)
}

// MarshalText implements [encoding.TextMarshaler]; no symptom has blank text.
func (s Symptom) MarshalText() ([]byte, error) { return symptomNames.Marshal(int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler]; blank text is refused.
func (s *Symptom) UnmarshalText(text []byte) error {
	v, err := Parse(string(text))
	if err == nil {
		*s = v
	}
	return err
}

// withNear adds to an error of an unknown name those that come near it; the list stays.
func withNear(err error) error {
	var bad *units.ParseError
	if !errors.As(err, &bad) {
		return err
	}
	if near := near(bad.Text); len(near) > 0 {
		bad.Problem = units.ErrUnknown.Error() + "; near it: " + strings.Join(near, ", ")
	}
	return err
}

// near returns the symptoms that have a third of a text's runs of three letters, or
// more, the nearest first and three at the most.
func near(text string) (texts []string) {
	const alike, most = 0.35, 3
	wanted := runsOfThree(text)
	score := map[string]float64{}
	for _, known := range symptomNames.Texts[1:] {
		of, both := runsOfThree(known), 0
		for run := range of {
			if wanted[run] {
				both++
			}
		}
		if float64(both) >= alike*float64(len(wanted)) && both > 0 {
			texts, score[known] = append(texts, known), float64(both)/float64(len(of)+len(wanted))
		}
	}
	slices.SortStableFunc(texts, func(a, b string) int { return cmp.Compare(score[b], score[a]) })
	return texts[:min(most, len(texts))]
}

func runsOfThree(text string) map[string]bool {
	runs := map[string]bool{}
	letters := []rune(" " + names.Plain(text) + " ")
	for i := range max(0, len(letters)-2) {
		runs[string(letters[i:i+3])] = true
	}
	return runs
}

// Heard reports whether the builder's ear decides: whether beats are even, whether
// something hisses or knocks, is heard and not measured.
func (s Symptom) Heard() bool {
	switch s {
	case HissesStanding, HissesInPlaces, BeatsUneven, BeatsChange, Knocks:
		return true
	}
	return false
}
