package inch

import (
	"math"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
)

// Of returns a metric text in the unit of the inch trade, from the exact values of
// its numbers in that metric unit, and with as many digits as tell as much: "2.00
// bar" of 2 is "29.0 psi". A text that does not print those values, or names what
// has no inch unit, is turned round by [Text].
func Of(text string, values ...float64) string { return of(text, false, values) }

// InInches is [Of] with lengths in inches, however small.
func InInches(text string, values ...float64) string { return of(text, true, values) }

// Large reports whether millimetres are told in inches and not in thou.
func Large(mm float64) bool { return math.Abs(mm) >= small.MM() }

func of(text string, large bool, values []float64) string {
	if numberAt(text, 0) == "" {
		return Text(text)
	}
	f, ok := read(text, 0)
	if !ok || f.inch || f.end != len(text) || !f.prints(values) {
		return Text(text)
	}
	metric := 0
	for _, n := range f.numbers {
		metric = max(metric, decimals(n))
	}
	name := f.unit.inch
	places := f.unit.places(metric)
	of := f.unit.of
	if f.unit.metric == lengths {
		name, places = "in", max(3, metric+1)
		for _, v := range values {
			large = large || Large(v)
		}
		of = func(mm float64) float64 { return mm / 25.4 }
		if metric < 3 && !large { // a hundredth is four tenths of a thou
			name, places = "thou", max(0, metric-1)
			of = func(mm float64) float64 { return mm / 0.0254 }
		}
	}
	return f.write(values, places, of) + " " + name
}

// write writes values in the inch unit, as the numbers of a figure are joined.
func (f figure) write(values []float64, places int, of func(float64) float64) string {
	numbers := make([]string, len(values))
	for i, v := range values {
		numbers[i] = fault.Decimal(of(v)+0, places)
		if f.numbers[i][0] == '+' {
			numbers[i] = fault.Signed(of(v), places)
		}
	}
	return f.joined(numbers)
}

// Bare returns the number of a value that is printed without its unit, of millimetres
// as inches, of joules as foot pounds, of watts as horsepower; false for a text that
// does not print the value, and for other units. The unit is named as in the keys
// of JSON.
func Bare(text string, v float64, unit string) (string, bool) {
	if numberAt(text, 0) != text || text == "" {
		return text, false
	}
	name, known := map[string]string{"mm": lengths, "j": "J", "w": "W"}[unit]
	f := figure{numbers: []string{text}}
	if !known || !f.prints([]float64{v}) {
		return text, false
	}
	full := Of(text+" "+name, v)
	if name == lengths { // a column is in one unit
		full = figure{numbers: f.numbers}.write([]float64{v}, decimals(text)+1, func(mm float64) float64 { return mm / 25.4 })
	}
	number, _, _ := strings.Cut(full, " ")
	return number, true
}

// prints reports whether the numbers of a figure are those values, rounded.
func (f figure) prints(values []float64) bool {
	if len(values) != len(f.numbers) {
		return false
	}
	for i, n := range f.numbers {
		if math.Abs(value(n)-values[i]) > 0.501*math.Pow10(-decimals(n)) {
			return false
		}
	}
	return true
}

// Said is an inch text as it is told first: thou only below a tenth of an inch,
// "126.0 thou" is "0.1260 in". It reports whether text is one.
func Said(text string) (string, bool) {
	if numberAt(text, 0) == "" {
		return text, false
	}
	f, ok := read(text, 0)
	if !ok || !f.inch || f.end != len(text) {
		return text, false
	}
	return f.said(), true
}
