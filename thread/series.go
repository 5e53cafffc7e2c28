package thread

import (
	"fmt"
	"iter"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// A Series is a list of standard sizes. The zero value, Special, stands for
// threads that no list holds.
type Series int

// The series.
const (
	Special      Series = iota // any diameter and pitch; see New
	MetricCoarse               // ISO 261, coarse
	MetricFine                 // ISO 261, fine, and the finer pitches that tap makers list
	UNC                        // Unified coarse
	UNF                        // Unified fine
	UNEF                       // Unified extra fine
	UNS                        // Unified form of a special diameter or pitch
	BSW                        // British Standard Whitworth
	BSF                        // British Standard Fine
	BA                         // British Association, 0 to 16 and the older 17 to 25
	ME                         // model engineer, constant pitch of 40, 32 or 26 to the inch
	BSB                        // British Standard Brass, 26 to the inch
	BSC                        // British Standard Cycle
	BSPParallel                // British Standard Pipe, parallel: G (ISO 228-1)
	BSPTaper                   // British Standard Pipe, taper: R and Rc (ISO 7-1)
	NPT                        // American National Standard taper pipe
	Trapezoidal                // ISO metric trapezoidal: Tr
	Acme                       // general purpose Acme
)

var seriesNames = [...]struct {
	name string
	form Form
}{
	Special:      {"special", 0},
	MetricCoarse: {"metric coarse", FormISO},
	MetricFine:   {"metric fine", FormISO},
	UNC:          {"UNC", FormUnified},
	UNF:          {"UNF", FormUnified},
	UNEF:         {"UNEF", FormUnified},
	UNS:          {"UNS", FormUnified},
	BSW:          {"BSW", FormWhitworth},
	BSF:          {"BSF", FormWhitworth},
	BA:           {"BA", FormBA},
	ME:           {"ME", FormWhitworth},
	BSB:          {"BSB", FormWhitworth},
	BSC:          {"BSC", FormCycle},
	BSPParallel:  {"G", FormWhitworth},
	BSPTaper:     {"R", FormWhitworth},
	NPT:          {"NPT", FormNPT},
	Trapezoidal:  {"Tr", FormTrapezoidal},
	Acme:         {"Acme", FormAcme},
}

func (s Series) known() bool { return s >= 0 && int(s) < len(seriesNames) }

// String returns the name of the series: "metric coarse", "metric fine", "UNC",
// "UNF", "UNEF", "UNS", "BSW", "BSF", "BA", "ME", "BSB", "BSC", "G", "R", "NPT",
// "Tr", "Acme" or "special".
func (s Series) String() string {
	if !s.known() {
		return fmt.Sprintf("Series(%d)", int(s))
	}
	return seriesNames[s].name
}

// ParseSeries returns the series of that name, in capitals or not; see
// [Series.String].
func ParseSeries(name string) (Series, error) {
	for s, def := range seriesNames {
		if strings.EqualFold(def.name, strings.TrimSpace(name)) {
			return Series(s), nil
		}
	}
	var names []string
	for _, def := range seriesNames {
		names = append(names, def.name)
	}
	return 0, &units.ArgumentError{Package: "thread", Field: "series", Value: fmt.Sprintf("%q", name), Accepted: strings.Join(names, ", "), Err: units.ErrUnknown}
}

// MarshalText implements [encoding.TextMarshaler].
func (s Series) MarshalText() ([]byte, error) {
	if !s.known() {
		return nil, &units.ArgumentError{Package: "thread", Field: "series", Value: s.String(), Err: units.ErrUnknown}
	}
	return []byte(s.String()), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *Series) UnmarshalText(text []byte) error {
	v, err := ParseSeries(string(text))
	if err == nil {
		*s = v
	}
	return err
}

// Form returns the profile of the series; special threads have no common one.
func (s Series) Form() Form {
	if !s.known() {
		return 0
	}
	return seriesNames[s].form
}

// All yields the threads that the series lists, from the smallest to the
// largest; there are none of Special and UNS.
func (s Series) All() iter.Seq[Thread] {
	return func(yield func(Thread) bool) {
		for _, l := range catalogue() {
			if l.series == s && !yield(l.Thread) {
				return
			}
		}
	}
}
