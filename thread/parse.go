package thread

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/valvechest/valvechest/units"
)

const designationAccepted = `"M3", "M3x0.35", "1/4-20 UNC", "4-40", "2 BA", "1/4 BSF", "1/4 x 40 ME", ` +
	`"3/8-26 BSB", "G 1/8", "R 1/8", "1/8 NPT", "Tr 10x2", "1-5 Acme"`

// MustParse is [Parse] for literals; it panics on an error.
func MustParse(s string) Thread {
	t, err := Parse(s)
	if err != nil {
		panic(err)
	}
	return t
}

// Parse reads the designation of a thread as people write it, in capitals or
// not:
//
//	M3   M3x0.5   M3 x 0.35          metric; without a pitch it is the coarse one
//	1/4-20   1/4"-20 UNC   #4-40     Unified; a size and pitch with a hyphen
//	2BA   2 BA   BA 2                British Association
//	1/4 BSW   1/4 BSF   7/16x26 BSC  British Standard Whitworth, Fine, Cycle
//	1/4 x 40   1/4x40 ME   3/8 BSB   model engineer, British Standard Brass
//	G1/8   Rc 1/8   R 1/8   1/8 NPT  pipe
//	Tr 10x2   1-5 Acme               traversing screws
//	19/64-36 UNS   7/32x36 Whitworth any diameter and pitch of that form
//	M7.3x0.4 special                 the same for metric, trapezoidal and Acme
//
// The name of an inch series may stand in front or behind, with stops or
// without. A diameter and pitch with an x and no series is a model engineer size
// if that series has it; with a hyphen and no series they are Unified or an
// error. A size with the mark of an inch, 1" UNC, is no screw number. Text that
// may mean more than one thread, a pitch that the series does not have and a size
// that is not listed are errors of type [*units.ParseError] that name the nearest
// threads, as is text that a thread can only be guessed from. The tolerance class
// and the hand are no part of the designation here, and a thread of several
// starts goes by its pitch.
func Parse(s string) (Thread, error) {
	text := normalise(s)
	if text == "" {
		return Thread{}, refuse(s, units.ErrSyntax, "empty")
	}
	t, known, err := read(s, text)
	if !known {
		err = unreadable(s, text)
	}
	return t, err
}

// read reads normalised text. It reports false for text that is none of the
// ways to write a thread.
func read(given, text string) (t Thread, known bool, err error) {
	if m, ok := scanMetric(text); ok {
		t, err = m.find(given)
		return t, true, err
	}
	if series, n, ok := scanNumbered(text); ok {
		t, err = findNumbered(given, series, n)
		return t, true, err
	}
	if p, ok := scanPipe(text); ok {
		t, err = p.find(given)
		return t, true, err
	}
	if in, ok := scanInch(text); ok {
		t, err = in.find(given)
		return t, true, err
	}
	return Thread{}, false, nil
}

// MarshalText implements [encoding.TextMarshaler] with [Thread.Designation]; no
// thread has blank text.
func (t Thread) MarshalText() ([]byte, error) { return []byte(t.name), nil }

// UnmarshalText implements [encoding.TextUnmarshaler] with [Parse].
func (t *Thread) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*t = Thread{}
		return nil
	}
	v, err := Parse(string(text))
	if err == nil {
		*t = v
	}
	return err
}

// GobEncode implements [gob.GobEncoder] with [Thread.MarshalText].
func (t Thread) GobEncode() ([]byte, error) { return t.MarshalText() }

// GobDecode implements [gob.GobDecoder] with [Thread.UnmarshalText].
func (t *Thread) GobDecode(text []byte) error { return t.UnmarshalText(text) }

// refuse is the error for a text that is no thread, or not one alone.
func refuse(given string, kind error, problem string, near ...string) error {
	return fail.Text("thread", given, problem, designationAccepted, kind, near...)
}

// A metricText is the text of a metric or trapezoidal thread, in its parts.
type metricText struct {
	form            Form
	diameter, pitch string // millimetres; the pitch may be blank
	special         bool
	series          seriesSet // named behind it; blank if there is none
}

func (m metricText) find(given string) (Thread, error) {
	d, err := units.Millimetres.Parse(m.diameter)
	if err != nil {
		return Thread{}, refuse(given, units.ErrSyntax, "the diameter cannot be read")
	}
	var p units.Length
	if m.pitch != "" {
		if p, err = units.Millimetres.Parse(m.pitch); err != nil {
			return Thread{}, refuse(given, units.ErrSyntax, "the pitch cannot be read")
		}
	}
	if m.special {
		return newSpecial(given, m.form, d, p)
	}
	wanted, bare := m.series, listed.series().bare
	if wanted == 0 {
		wanted = listed.series().inMillimetres(m.form)
	}
	var few, fewNear [8]*listing
	found, near := few[:0], wanted.find(fewNear[:0], d, noNumber)
	for _, l := range near {
		if m.pitch != "" && l.pitch == p || m.pitch == "" && l.series != MetricFine && (m.series != 0 || bare.has(l.series)) {
			found = append(found, l)
		}
	}
	if m.series == 0 && len(found) > 0 {
		usual := found[:0] // in place, if there are any
		for _, l := range found {
			if bare.has(l.series) {
				usual = append(usual, l)
			}
		}
		if len(usual) == 0 {
			return Thread{}, refuse(given, units.ErrAmbiguous, "belongs to a series that goes by its name; add it",
				designations(found, mostCandidates)...)
		}
		found = usual
	}
	return choose(given, found, near, wanted, d, p, m.form)
}

// findNumbered returns the thread of a number in the series.
func findNumbered(given string, series seriesSet, number int) (Thread, error) {
	var few [1]*listing
	if found := series.find(few[:0], units.Length{}, number); len(found) > 0 {
		return found[0].Thread, nil
	}
	first, last := math.MaxInt, 0
	for _, l := range catalogue() {
		if series.has(l.series) {
			first, last = min(first, l.number), max(last, l.number)
		}
	}
	return Thread{}, refuse(given, units.ErrUnknown,
		fmt.Sprintf("%v numbers run from %d to %d", series.first(), first, last))
}

// A pipeText is the text of a pipe thread, in its parts.
type pipeText struct {
	system    string // as written: "g", "rc", "bsp", "npt"
	size, tpi string // the threads to the inch may be blank
}

func (p pipeText) series() seriesSet {
	switch p.system {
	case "g", "bspp":
		return setOf(BSPParallel)
	case "r", "rc", "rp", "bspt":
		return setOf(BSPTaper)
	case "npt":
		return setOf(NPT)
	}
	return setOf(BSPParallel, BSPTaper)
}

func (p pipeText) find(given string) (Thread, error) {
	nominal, err := units.Inches.Parse(p.size)
	if err != nil {
		return Thread{}, refuse(given, units.ErrSyntax, "the size cannot be read")
	}
	wanted := p.series()
	var few, fewSized [4]*listing
	found := few[:0]
	for _, l := range wanted.find(fewSized[:0], nominal, noNumber) {
		if p.tpi == "" || p.tpi == count(l.tpi) {
			found = append(found, l)
		}
	}
	switch {
	case p.system == "bsp" && len(found) == 1:
		return Thread{}, refuse(given, units.ErrAmbiguous,
			"may be parallel or taper, of which only one is listed in this size", designations(found, 1)...)
	case len(found) == 0:
		near := nearest(wanted, func(l *listing) units.Length { return l.nominal.Sub(nominal).Abs() })
		return Thread{}, refuse(given, units.ErrUnknown, "the series has no such size", near...)
	}
	return single(given, found)
}

// newSpecial returns a thread of any diameter and pitch.
func newSpecial(given string, form Form, d, p units.Length) (Thread, error) {
	t, err := New(form, d, p)
	if err != nil {
		return Thread{}, refuse(given, units.ErrUnknown, err.Error())
	}
	return t, nil
}

// choose returns the one thread found, or an error with the candidates: those
// found, or those near in the order of their pitch, or else those of the wanted
// series that are nearest to the diameter. Of a form that takes any size it says
// how this one is written.
func choose(given string, found, near []*listing, wanted seriesSet, d, pitch units.Length, form Form) (Thread, error) {
	if len(found) > 0 {
		return single(given, found)
	}
	problem, candidates := "no such diameter is listed", []string(nil)
	if len(near) > 0 {
		problem = "no such pitch is listed on this diameter"
		if !pitch.IsZero() {
			sortBy(near, func(l *listing) units.Length { return l.pitch.Sub(pitch).Abs() })
		}
		candidates = designations(near, mostCandidates)
	} else {
		candidates = nearest(wanted, func(l *listing) units.Length { return l.major.Sub(d).Abs() })
	}
	if !pitch.IsZero() && form != 0 {
		if special, err := New(form, d, pitch); err == nil {
			problem += fmt.Sprintf("; write %q for this size of the %v form", special.name, form)
			candidates = append(candidates, special.name)
		}
	}
	return Thread{}, refuse(given, units.ErrUnknown, problem, candidates...)
}

// single returns the thread found, of which there is at least one.
func single(given string, found []*listing) (Thread, error) {
	if len(found) > 1 {
		return Thread{}, refuse(given, units.ErrAmbiguous,
			"may be one of several threads", designations(found, len(found))...)
	}
	return found[0].Thread, nil
}

// mostCandidates is how many near threads an error names.
const mostCandidates = 6

// nearest returns the designations of the threads of those series that are the
// least distance away.
func nearest(wanted seriesSet, distance func(*listing) units.Length) []string {
	all := catalogue()
	var list []*listing
	for i := range all {
		if wanted.has(all[i].series) {
			list = append(list, &all[i])
		}
	}
	sortBy(list, distance)
	return designations(list, mostCandidates)
}

// sortBy sorts threads by a distance and keeps the order among equals.
func sortBy(list []*listing, distance func(*listing) units.Length) {
	slices.SortStableFunc(list, func(a, b *listing) int { return distance(a).Cmp(distance(b)) })
}

// designations returns those of the first few.
func designations(list []*listing, most int) []string {
	var names []string
	for _, l := range list[:min(len(list), most)] {
		names = append(names, l.name)
	}
	return names
}

// wholeNumber returns digits as a number, -1 for text that is no whole number.
func wholeNumber(digits string) int {
	n, err := strconv.Atoi(digits)
	if err != nil {
		return -1
	}
	return n
}
