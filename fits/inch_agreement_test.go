package fits_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/fits"
	"github.com/valvechest/valvechest/units"
)

// The inch fits follow the American-British-Canadian agreement, which is the system of
// ISO 286: the ranges are those of ISO, their ends rounded up to a hundredth of an inch;
// a grade has one width in a range, of holes and of shafts, and a letter one deviation;
// each is that of ISO rounded to a preferred number. LC1 to LC5, which are from memory,
// are made of the grades and letters of other classes, and so is what a second print of
// them would say.
func TestInchAgreement(t *testing.T) {
	type place struct {
		upto units.Length
		name string // grade or letter
	}
	widths, deviations := map[place]units.Length{}, map[place]units.Length{}
	hold := func(where string, seen map[place]units.Length, at place, got units.Length) {
		t.Helper()
		if want, ok := seen[at]; ok && want != got {
			t.Errorf("%s up to %v: %s is %v, in another class %v", where, at.upto, at.name, got, want)
		}
		seen[at] = got
	}
	compared := 0
	for _, end := range fits.Ranges {
		if end > 180 {
			break
		}
		size := inchEnd(t, end)
		main := inchEnd(t, mainEnd(end))
		for _, f := range fits.InchFits() {
			r, err := f.LimitsFor(size)
			if err != nil {
				continue
			}
			compared++
			hold(f.String(), widths, place{main, gradeOf(r.HoleSymbol)}, r.Hole.Tolerance())
			width := r.Shaft.Tolerance()
			letter := strings.TrimRight(r.ShaftSymbol, "0123456789")
			switch {
			case f.String() == "FN1":
				hold(f.String(), widths, place{main, "5"}, width) // no symbol, but the width of grade 5
			case f.String() == "LC10" || f.String() == "LC11":
				hold(f.String(), widths, place{main, gradeOf(r.HoleSymbol)}, width) // both parts of one grade
			case letter == "":
				if f.String() != "RC9" || width.Cmp(r.Hole.Tolerance()) >= 0 {
					t.Errorf("%v up to %v: no symbol, shaft %v wide", f, size, width)
				}
			case letter == "js":
				// Half the grade on either side, which grade 6 rounds to a tenth of a thou.
				half := widths[place{main, gradeOf(r.ShaftSymbol)}].Scale(0.5)
				if r.Shaft.Upper() != r.Shaft.Lower().Neg() || half.Sub(r.Shaft.Upper()).Abs().Cmp(units.Thou(0.05)) > 0 {
					t.Errorf("%v up to %v: %v to %v", f, size, r.Shaft.Lower(), r.Shaft.Upper())
				}
			case f.String() == "LN1" && size.Cmp(units.Inch(0.4)) > 0 && size.Cmp(units.Inch(1.97)) <= 0:
				// The least interference is none: the lower limit is that of the hole, and
				// the upper one that of n5.
				hold(f.String(), widths, place{main, "5"}, r.Shaft.Upper().Sub(deviations[place{main, "n"}]))
				if r.Shaft.Min != r.Hole.Max {
					t.Errorf("%v up to %v: shaft from %v, hole to %v", f, size, r.Shaft.Min, r.Hole.Max)
				}
			case letter <= "h":
				hold(f.String(), widths, place{main, gradeOf(r.ShaftSymbol)}, width)
				hold(f.String(), deviations, place{main, letter}, r.Shaft.Upper())
			default:
				hold(f.String(), widths, place{main, gradeOf(r.ShaftSymbol)}, width)
				at := place{main, letter}
				if letter >= "s" {
					at.upto = size // the force fits go by the intermediate ranges
				}
				hold(f.String(), deviations, at, r.Shaft.Lower())
			}
			// The range ends here: the next size is in the next one.
			next, err := f.LimitsFor(size.Add(units.Picometres(1)))
			after, errAfter := f.LimitsFor(inchEnd(t, afterEnd(end)))
			if (err == nil) != (errAfter == nil) || err == nil && (next.Hole.Upper() != after.Hole.Upper() ||
				next.Shaft.Upper() != after.Shaft.Upper() || next.Shaft.Lower() != after.Shaft.Lower()) {
				t.Errorf("%v just over %v: %v (%v), at the end of that range %v (%v)", f, size, next, err, after, errAfter)
			}
		}
	}
	if compared < 300 {
		t.Errorf("only %d fits", compared)
	}

	// Both are those of ISO 286 in thousandths, rounded to a preferred number of the
	// series by twentieths, which is off by up to 13 %; small ones by up to a tenth of a
	// thou and a little, and up to 0.12 in, where the inch system takes a larger size
	// for its formula, by twice that.
	near := func(what string, upto, got, iso units.Length) {
		t.Helper()
		allowed := 0.13*math.Abs(iso.Thou()) + 0.12
		if upto == units.Inch(0.12) {
			allowed *= 2
		}
		if off := math.Abs(got.Thou() - iso.Thou()); off > allowed {
			t.Errorf("%s up to %v is %v thou, of ISO 286 %.3f", what, upto, got.Thou(), iso.Thou())
		}
		first := math.Abs(got.Thou())
		for first != 0 && first < 1-1e-9 {
			first *= 10
		}
		preferred := []float64{0, 1, 1.2, 1.4, 1.5, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10, 12}
		if !slices.ContainsFunc(preferred, func(v float64) bool { return math.Abs(v-first) < 1e-9 }) {
			t.Errorf("%s up to %v is %v thou, which is no preferred number", what, upto, got.Thou())
		}
	}
	isoAt := func(upto units.Length) units.Length {
		for _, end := range fits.Ranges {
			if inchEnd(t, end) == upto {
				return units.MM(float64(end))
			}
		}
		t.Fatalf("no range of ISO 286 ends at %v", upto)
		return units.Length{}
	}
	for at, width := range widths {
		iso, err := fits.ParseGrade("IT" + at.name)
		if err != nil {
			t.Fatal(err)
		}
		tolerance, err := iso.ToleranceFor(isoAt(at.upto))
		if err != nil {
			t.Fatal(err)
		}
		near("grade "+at.name, at.upto, width, tolerance.Width)
	}
	for at, deviation := range deviations {
		l, err := class(t, at.name+"6").LimitsFor(isoAt(at.upto))
		if err != nil {
			t.Fatal(err)
		}
		iso := l.Lower()
		if at.name <= "h" {
			iso = l.Upper()
		}
		near("letter "+at.name, at.upto, deviation, iso)
	}
}

// The ranges of a class join, and begin at an end of ISO 286 too.
func TestInchRangesJoin(t *testing.T) {
	ends := map[units.Length]bool{{}: true}
	for _, end := range fits.Ranges {
		ends[inchEnd(t, end)] = true
	}
	for f, ranges := range fits.InchRanges() {
		for i, r := range ranges {
			if !ends[r.Min] || !ends[r.Max] || i > 0 && r.Min != ranges[i-1].Max || r.Min.Cmp(r.Max) >= 0 {
				t.Errorf("%v: over %v up to %v", f, r.Min, r.Max)
			}
		}
	}
}

func gradeOf(symbol string) string { return strings.TrimLeft(symbol, "Habcdefghjknprstux") }

// inchEnd returns the end of a range of ISO 286 as ANSI B4.1 has it.
func inchEnd(t *testing.T, mm int) units.Length {
	t.Helper()
	end, err := units.MM(float64(mm)).Round(units.Inch(0.01), units.Up)
	if err != nil {
		t.Fatal(err)
	}
	return end
}

// mainEnd returns the end of the main range that a range is in.
func mainEnd(end int) int {
	main := []int{3, 6, 10, 18, 30, 50, 80, 120, 180, 250}
	return main[slices.IndexFunc(main, func(m int) bool { return m >= end })]
}

// afterEnd returns the end of the next range.
func afterEnd(end int) int { return fits.Ranges[slices.Index(fits.Ranges, end)+1] }
