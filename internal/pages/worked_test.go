package pages_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/book"
)

// The formulas with the numbers put in give what they say they give, whichever unit
// is read first: the constants in them are those of the units. They are worked here
// by a reader of sums that knows nothing of the engine.
func TestFormulasAreWorked(t *testing.T) {
	for name, file := range engineFiles(t) {
		for unit, b := range map[string]book.Book{"as it is": engineBook(t, file), "in inches": engineBook(t, inInches(file))} {
			worked := 0
			for _, s := range b.Sections {
				for _, i := range s.Items {
					for _, f := range i.Formulas {
						worked += checkSums(t, name+", "+unit, f.Text, b.Inch)
					}
				}
			}
			if least := map[string]int{"demo.toml": 40, "inch.toml": 40}[name]; worked < max(least, 4) {
				t.Errorf("%s, %s: only %d sums were worked", name, unit, worked)
			}
		}
	}
}

var (
	unitNames = regexp.MustCompile(`([0-9)]) ?(kJ/\(kg K\)|Btu/\(lb F\)|ft/s2|rad/s|kJ/kg|Btu/lb|MPa|bar|psi|mm2|in2|in3|ml|` +
		`N m|ft lbf|lbf in|lbf|mm|thou|in|kg|lb|N|J|K|F|°)(\W|$)`)
	perMillion = regexp.MustCompile(`([0-9.]+) ppm/K`)
	ofNumber   = regexp.MustCompile(`(sin|cos|tan) (-?[0-9.]+)`)
	firstWord  = regexp.MustCompile(`^-?[0-9.]+( %)?`)
)

// checkSums works what stands before each sign of equality in a formula, where that is
// a sum of numbers, and compares it with what stands behind; in metric units, whose
// names are left out, but for a power of ten.
func checkSums(t *testing.T, where, text string, inch bool) int {
	worked := 0
	for clause := range strings.SplitSeq(text, "; ") {
		sides := strings.Split(clause, " = ")
		for i, side := range sides[1:] {
			said := firstWord.FindString(side)
			sum, ok := sumIn(sides[i])
			if !ok || said == "" {
				continue
			}
			number, percent := strings.CutSuffix(said, " %")
			want, err := strconv.ParseFloat(strings.TrimSuffix(number, "."), 64)
			if err != nil {
				t.Fatal(text)
			}
			_, decimals, _ := strings.Cut(number, ".")
			last := math.Pow10(-len(decimals))
			if percent {
				want, last = want/100, last/100
			}
			if decade := math.Round(math.Log10(sum / want)); !inch && sum*want > 0 && math.Abs(decade) > 0 {
				sum /= math.Pow10(int(decade))
			}
			// The numbers that are put in are rounded too.
			if math.Abs(sum-want) > last+0.01*math.Abs(want) {
				t.Errorf("%s: %v is not %v in %q", where, sum, want, text)
			}
			worked++
		}
	}
	return worked
}

// sumIn is what the longest sum at the end of a text comes to; false where there is
// none that has more than one number.
func sumIn(text string) (float64, bool) {
	text = perMillion.ReplaceAllString(text, "$1 x 0.000001")
	for before := ""; before != text; {
		before = text
		text = unitNames.ReplaceAllString(text, "$1$3")
	}
	text = ofNumber.ReplaceAllString(text, "$1($2)")
	for at := range text {
		if at > 0 && text[at-1] != ' ' {
			continue
		}
		if s := (sum{text: text[at:]}); strings.ContainsAny(s.text, "x/+-^") {
			if v := s.sum(); s.ok() && s.numbers > 1 {
				return v, true
			}
		}
	}
	return 0, false
}

// A sum reads numbers with x, /, +, -, ^ and brackets.
type sum struct {
	text    string
	bad     bool
	numbers int
}

func (s *sum) ok() bool { return !s.bad && strings.TrimSpace(s.text) == "" && s.numbers > 0 }

func (s *sum) take(token string) bool {
	rest, ok := strings.CutPrefix(strings.TrimLeft(s.text, " "), token)
	if ok {
		s.text = rest
	}
	return ok
}

func (s *sum) sum() float64 {
	v := s.product()
	for {
		switch {
		case s.take("+ "):
			v += s.product()
		case s.take("- "):
			v -= s.product()
		default:
			return v
		}
	}
}

func (s *sum) product() float64 {
	v := s.power()
	for {
		switch {
		case s.take("x "):
			v *= s.power()
		case s.take("/ "):
			v /= s.power()
		default:
			return v
		}
	}
}

func (s *sum) power() float64 {
	v := s.one()
	if s.take("^") {
		v = math.Pow(v, s.one())
	}
	return v
}

func (s *sum) one() float64 {
	degrees := func(f func(float64) float64) func(float64) float64 {
		return func(v float64) float64 { return f(v * math.Pi / 180) }
	}
	for name, f := range map[string]func(float64) float64{
		"sqrt(": math.Sqrt, "sin(": degrees(math.Sin), "cos(": degrees(math.Cos), "tan(": degrees(math.Tan),
		"(": func(v float64) float64 { return v },
	} {
		if s.take(name) {
			v := f(s.sum())
			s.bad = s.bad || !s.take(")")
			return v
		}
	}
	if s.take("pi") {
		return math.Pi
	}
	s.text = strings.TrimLeft(s.text, " ")
	number := regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?`).FindString(s.text)
	v, err := strconv.ParseFloat(number, 64)
	s.bad = s.bad || err != nil
	s.text = s.text[len(number):]
	s.numbers++
	return v
}
