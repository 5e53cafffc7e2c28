package thread

import (
	"iter"

	"github.com/valvechest/valvechest/internal/names"
)

// A Series is a list of standard sizes. The zero value, Special, stands for
// threads that no list holds.
type Series int

// The series by their place in tables/series.csv. One that has been added there and has
// no constant comes from [ParseSeries] and [ListSeries].
const (
	Special      Series = iota // any diameter and pitch; see New
	MetricCoarse               // ISO 261, coarse
	MetricFine                 // ISO 261, fine, and the finer pitches that tap makers list
	MetricOld                  // metric sizes that ISO 261 has dropped and tap makers still list
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
	BSPTaper                   // British Standard Pipe, taper: R, and Rc and Rp that it screws into (ISO 7-1)
	NPT                        // American National Standard taper pipe
	Trapezoidal                // ISO metric trapezoidal: Tr
	Acme                       // general purpose Acme
)

// String returns the name of the series: "metric coarse", "metric fine", "metric
// old", "UNC", "UNF", "UNEF", "UNS", "BSW", "BSF", "BA", "ME", "BSB", "BSC", "G", "R", "NPT",
// "Tr", "Acme", "special" or what else the table has.
func (s Series) String() string { return seriesNames().Text(int(s)) }

// ParseSeries returns the series of that name, in capitals or not, or of another word
// for it; see [Series.String].
func ParseSeries(name string) (Series, error) {
	v, err := seriesNames().Value(name)
	return Series(v), err
}

// MarshalText implements [encoding.TextMarshaler].
func (s Series) MarshalText() ([]byte, error) { return seriesNames().Marshal(int(s)) }

// UnmarshalText implements [encoding.TextUnmarshaler].
func (s *Series) UnmarshalText(text []byte) error { return names.Unmarshal(seriesNames(), s, text) }

// ListSeries returns all of them, in order.
func ListSeries() []Series {
	all := make([]Series, len(listed.series().rows))
	for i := range all {
		all[i] = Series(i)
	}
	return all
}

// Form returns the profile of the series; special threads have no common one.
func (s Series) Form() Form { return s.row().form }

// Pipe reports whether the series is of pipe threads, which seal.
func (s Series) Pipe() bool { return s.row().kind.pipe() }

// row returns the line of the series, a blank one for a number that is none.
func (s Series) row() *seriesRow {
	if rows := listed.series().rows; s >= 0 && int(s) < len(rows) {
		return &rows[s]
	}
	return &seriesRow{}
}

func seriesNames() *names.Set { return &listed.series().names }

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
