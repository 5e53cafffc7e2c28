package thread

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
)

// ErrAmbiguous marks text that may mean more than one thread.
var ErrAmbiguous = errors.New("ambiguous")

// A ParseError says which text could not be read as a thread, why, and which
// threads come near.
type ParseError struct {
	Text       string
	Problem    string
	Candidates []string // designations that Parse reads, the likeliest first; may be empty
	Err        error    // units.ErrSyntax, units.ErrUnknown or ErrAmbiguous
}

func (e *ParseError) Error() string {
	text := fmt.Sprintf("thread: %q: %s", e.Text, e.Problem)
	if len(e.Candidates) > 0 {
		return text + "; near it: " + strings.Join(e.Candidates, ", ")
	}
	return text + "; accepted: " + designationAccepted
}

func (e *ParseError) Unwrap() error { return e.Err }

const designationAccepted = `"M3", "M3x0.35", "1/4-20 UNC", "4-40", "2 BA", "1/4 BSF", "1/4 x 40 ME", "3/8-26 BSB", "G 1/8", "R 1/8", "1/8 NPT", "Tr 10x2", "1-5 Acme"`

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
// error. Text that may mean more than one thread, a pitch that the series does
// not have and a size that is not listed are errors of type [*ParseError] that
// name the nearest threads, as is text that a thread can only be guessed from.
// The tolerance class and the hand are no part of the designation here, and a
// thread of several starts goes by its pitch.
func Parse(s string) (Thread, error) {
	text := normalise(s)
	if text == "" {
		return Thread{}, &ParseError{Text: s, Problem: "empty", Err: units.ErrSyntax}
	}
	t, known, err := read(s, text)
	if !known {
		err = unreadable(s, text)
	}
	return t, err
}

// read reads normalised text. It reports false for text that is none of the
// ways to write a thread.
func read(s, text string) (t Thread, known bool, err error) {
	g := grammar()
	if m := g.metric.FindStringSubmatch(text); m != nil {
		t, err = parseMetric(s, FormISO, m[1], m[2], m[3] != "")
		return t, true, err
	}
	if m := g.trapezoidal.FindStringSubmatch(text); m != nil {
		t, err = parseMetric(s, FormTrapezoidal, m[1], m[2], m[3] != "")
		return t, true, err
	}
	if m := g.ba.FindStringSubmatch(text); m != nil {
		t, err = parseBA(s, m[1]+m[2])
		return t, true, err
	}
	if m := g.pipe.FindStringSubmatch(text); m != nil {
		t, err = parsePipe(s, m[1]+m[6], m[2]+m[4], m[3]+m[5])
		return t, true, err
	}
	if m := g.npt.FindStringSubmatch(text); m != nil {
		t, err = parsePipe(s, "npt", m[1]+m[3], m[2])
		return t, true, err
	}
	if m := g.inch.FindStringSubmatch(g.prefix.ReplaceAllString(text, "$2 $1")); m != nil && !g.unmarked.MatchString(text) {
		t, err = parseInch(s, inchText{number: m[1] != "", size: m[2], mark: m[3], tpi: m[4], series: m[5], special: m[6] != ""})
		return t, true, err
	}
	return Thread{}, false, nil
}

// MarshalText implements [encoding.TextMarshaler] with [Thread.Designation].
func (t Thread) MarshalText() ([]byte, error) {
	if t.name == "" {
		return nil, noThread()
	}
	return []byte(t.name), nil
}

// UnmarshalText implements [encoding.TextUnmarshaler] with [Parse].
func (t *Thread) UnmarshalText(text []byte) error {
	v, err := Parse(string(text))
	if err == nil {
		*t = v
	}
	return err
}

// normalise lowers the text, evens out the spaces and writes one sign for each
// that people use.
func normalise(s string) string {
	s = strings.NewReplacer("×", "x", "*", "x", `"`, "", "″", "", "“", "", "”", "", "''", "", "’’", "", "′′", "", "–", "-", "−", "-",
		"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8").Replace(strings.ToLower(s))
	s = dropStops(strings.Join(strings.Fields(s), " "))
	for _, sign := range []string{"x", "-"} {
		s = strings.ReplaceAll(strings.ReplaceAll(s, " "+sign, sign), sign+" ", sign)
	}
	return s
}

// dropStops takes the full stop from behind a letter, as in "B.S.F." and
// "No. 4", where no decimals follow it.
func dropStops(s string) string {
	var b strings.Builder
	for i := range len(s) {
		letterBefore := i > 0 && s[i-1] >= 'a' && s[i-1] <= 'z'
		digitAfter := i+1 < len(s) && s[i+1] >= '0' && s[i+1] <= '9'
		if s[i] != '.' || !letterBefore || digitAfter {
			b.WriteByte(s[i])
		}
	}
	return b.String()
}

type grammars struct{ metric, unmarked, trapezoidal, ba, pipe, npt, inch, prefix *regexp.Regexp }

var grammarOnce table.Once[*grammars]

func grammar() *grammars { return grammarOnce.Get(compileGrammars) }

func compileGrammars() *grammars {
	var g grammars
	const (
		decimal = `(\d{1,3}(?:\.\d{1,9})?|\.\d{1,9})` // to the picometre
		size    = `(\d{1,2}[ -]\d{1,2}/\d{1,2}|\d{1,2}/\d{1,2}|\d{0,2}\.\d{1,4}|\d{1,2})(?: ?in| ?inch)?`
		series  = `(unc|unf|unef|uns|un|bsw|whitworth|whit|w|bsf|me|model engineer|bsb|brass|bscy|bsc|cei|cycle|acme)`
		tpi     = `(?:[x-](\d{1,2}))?`
	)
	g.metric = regexp.MustCompile(`^m ?` + decimal + `(?:[x-]` + decimal + `)?(?: ?mm)?(?: (special))?$`)
	g.unmarked = regexp.MustCompile(`^\d{1,2}(?:\.\d+)?x[0-2](?:\.\d+)?$`) // 3x0.5, and no 3 inches of half a thread
	g.trapezoidal = regexp.MustCompile(`^tr ?` + decimal + `(?:x` + decimal + `)?(?: (special))?$`)
	g.ba = regexp.MustCompile(`^(?:(?:#|no\.?)? ?(\d{1,2})[ -]?ba|ba[ -]?(\d{1,2}))$`)
	g.pipe = regexp.MustCompile(`^(?:(g|r|rc|bspp|bspt|bsp) ?` + size + tpi + `|` + size + tpi + ` ?(bspp|bspt|bsp))$`)
	g.npt = regexp.MustCompile(`^(?:` + size + `(?:-(\d{1,2}(?:\.5)?))? ?npt|npt ?` + size + `)$`)
	g.inch = regexp.MustCompile(`^(# ?|no\.? ?|number )?` + size + `(?:(x|-)(\d{1,3}(?:\.\d{1,2})?)(?: ?tpi)?)?(?: ?` + series + `)?( special)?$`)
	g.prefix = regexp.MustCompile(`^` + series + ` ?(\d.*)$`)
	return &g
}

func parseMetric(s string, form Form, diameter, pitch string, asSpecial bool) (Thread, error) {
	d, err := units.ParseLength(diameter + " mm")
	if err != nil {
		return Thread{}, &ParseError{Text: s, Problem: "the diameter cannot be read", Err: units.ErrSyntax}
	}
	var p units.Length
	if pitch != "" {
		if p, err = units.ParseLength(pitch + " mm"); err != nil {
			return Thread{}, &ParseError{Text: s, Problem: "the pitch cannot be read", Err: units.ErrSyntax}
		}
	}
	if asSpecial {
		t, err := New(form, d, p)
		if err != nil {
			return Thread{}, &ParseError{Text: s, Problem: err.Error(), Err: units.ErrUnknown}
		}
		return t, nil
	}
	var found, sameDiameter []listing
	for _, l := range catalogue() {
		if l.Form() != form || l.major != d {
			continue
		}
		sameDiameter = append(sameDiameter, l)
		if pitch != "" && l.pitch == p || pitch == "" && l.series != MetricFine {
			found = append(found, l)
		}
	}
	return choose(s, found, byPitch(sameDiameter, p), d, func(l listing) bool { return l.Form() == form })
}

func parseBA(s, digits string) (Thread, error) {
	n, _ := strconv.Atoi(digits) // the grammar admits digits only
	for _, l := range catalogue() {
		if l.series == BA && l.number == n {
			return l.Thread, nil
		}
	}
	return Thread{}, &ParseError{Text: s, Problem: "BA numbers run from 0 to 25", Err: units.ErrUnknown}
}

func parsePipe(s, system, size, tpi string) (Thread, error) {
	nominal, err := inchSize(size)
	if err != nil {
		return Thread{}, &ParseError{Text: s, Problem: "the size cannot be read", Err: units.ErrSyntax}
	}
	want := func(l listing) bool {
		switch system {
		case "g", "bspp":
			return l.series == BSPParallel
		case "r", "rc", "bspt":
			return l.series == BSPTaper
		case "npt":
			return l.series == NPT
		}
		return l.series == BSPParallel || l.series == BSPTaper
	}
	var found, others []listing
	for _, l := range catalogue() {
		if !want(l) {
			continue
		}
		others = append(others, l)
		if l.nominal == nominal && (tpi == "" || tpi == count(l.tpi)) {
			found = append(found, l)
		}
	}
	if system == "bsp" && len(found) == 1 {
		return Thread{}, &ParseError{Text: s, Problem: "may be parallel or taper, of which only one is listed in this size", Candidates: designations(found, 1), Err: ErrAmbiguous}
	}
	if len(found) == 0 {
		slices.SortStableFunc(others, func(a, b listing) int {
			return a.nominal.Sub(nominal).Abs().Cmp(b.nominal.Sub(nominal).Abs())
		})
		return Thread{}, &ParseError{Text: s, Problem: "the series has no such size", Candidates: designations(others, mostCandidates), Err: units.ErrUnknown}
	}
	return choose(s, found, nil, nominal, nil)
}

type inchText struct {
	number        bool // marked as a screw number
	size, mark    string
	tpi, series   string
	special       bool
	nominal       units.Length
	screw         int // the screw number that the size may be, or -1
	threadsToInch float64
	wanted        []Series // nil: any
	wantedForm    Form     // of a special thread
}

func parseInch(s string, in inchText) (Thread, error) {
	syntax := func(problem string) (Thread, error) {
		return Thread{}, &ParseError{Text: s, Problem: problem, Err: units.ErrSyntax}
	}
	// One size with a hyphen in it and no pitch, 1-1/8, and a size with a pitch,
	// 1-8, look alike; the grammar has sorted them by the fraction.
	nominal, err := inchSize(in.size)
	if strings.Trim(in.size, "0") == "" && len(in.size) > 1 {
		return syntax("screw numbers below 0 are not listed")
	}
	if err != nil || nominal.Sign() == 0 && in.size != "0" {
		return syntax("the size cannot be read")
	}
	in.nominal, in.screw = nominal, -1
	if n, err := strconv.Atoi(in.size); err == nil {
		in.screw = n
	} else if in.number {
		return syntax("a screw number is a whole number")
	}
	if in.tpi != "" {
		in.threadsToInch, _ = strconv.ParseFloat(in.tpi, 64) // the grammar admits a decimal
		if in.threadsToInch == 0 {
			return syntax("the threads to the inch are zero")
		}
	}
	switch in.series {
	case "":
	case "un":
		in.wanted = []Series{UNC, UNF, UNEF}
	case "whit", "whitworth", "w":
		in.wanted, in.wantedForm = []Series{BSW}, FormWhitworth
	case "brass":
		in.wanted = []Series{BSB}
	case "model engineer":
		in.wanted = []Series{ME}
	case "bscy", "cei", "cycle":
		in.wanted = []Series{BSC}
	case "acme":
		in.wanted, in.wantedForm = []Series{Acme}, FormAcme
	case "uns":
		in.wanted, in.wantedForm = nil, FormUnified
	default:
		series, err := ParseSeries(in.series)
		if err != nil {
			return syntax("no such series")
		}
		in.wanted = []Series{series}
	}
	if in.special && in.wantedForm != FormAcme {
		return syntax("special goes with metric, trapezoidal and Acme; write UNS or Whitworth")
	}
	if in.series == "uns" || in.series == "whitworth" && in.tpi != "" || in.special {
		return parseSpecialInch(s, in)
	}
	var found, near []listing
	for _, l := range catalogue() {
		if in.matches(l, in.threadsToInch) {
			found = append(found, l)
		}
		if in.matches(l, 0) {
			near = append(near, l)
		}
	}
	// A hyphen without a series is how Unified threads are written, an x how
	// those of the model engineer series are.
	if in.series == "" && in.tpi != "" {
		preferred := func(l listing) bool {
			return in.mark == "-" && l.Form() == FormUnified || in.mark == "x" && l.series == ME
		}
		if slices.ContainsFunc(found, preferred) {
			found = slices.DeleteFunc(found, func(l listing) bool { return !preferred(l) })
		} else if in.mark == "-" && len(found) == 1 {
			return Thread{}, &ParseError{Text: s, Problem: "written as Unified threads are, of which none is listed so; add the series", Candidates: designations(found, 1), Err: ErrAmbiguous}
		}
	}
	if in.series == "" && in.tpi == "" && !in.number && in.screw >= 0 {
		for _, l := range catalogue() {
			if l.series == BA && l.number == in.screw {
				found = append(found, l)
			}
		}
	}
	if unified := in.series == "" || strings.HasPrefix(in.series, "un"); in.number || in.screw > 3 && unified {
		nominal = screwNumber(in.screw) // no Unified size listed is over two inches
	}
	var pitch units.Length
	if in.threadsToInch > 0 {
		pitch = perInch(in.threadsToInch)
	}
	return choose(s, found, byPitch(near, pitch), nominal, in.inSeries)
}

// inSeries reports whether the text may mean a thread of that series.
func (in inchText) inSeries(l listing) bool {
	switch l.series {
	case MetricCoarse, MetricFine, BA, BSPParallel, BSPTaper, NPT, Trapezoidal:
		return false
	}
	return in.wanted == nil || slices.Contains(in.wanted, l.series)
}

// matches reports whether a listed thread has the size and series of the text,
// and the threads to the inch, if they are not zero.
func (in inchText) matches(l listing, tpi float64) bool {
	if !in.inSeries(l) {
		return false
	}
	size := l.nominal == in.nominal && l.number < 0
	if l.number >= 0 {
		size = l.number == in.screw || l.major == in.nominal
	} else if in.number {
		size = false
	}
	return size && (tpi == 0 || tpi == l.tpi)
}

func parseSpecialInch(s string, in inchText) (Thread, error) {
	if in.tpi == "" {
		return Thread{}, &ParseError{Text: s, Problem: "a special thread needs its threads to the inch", Err: units.ErrSyntax}
	}
	d := in.nominal
	unified := in.wantedForm == FormUnified
	if unified && !in.number && (in.screw == 1 || in.screw == 2) && in.threadsToInch >= 40 {
		return Thread{}, &ParseError{Text: s, Problem: fmt.Sprintf("%d may be inches or a screw number; write #%d or %d.0", in.screw, in.screw, in.screw), Err: ErrAmbiguous}
	}
	if in.number || unified && (in.screw == 0 || in.screw > 2) {
		if in.screw > 12 {
			return Thread{}, &ParseError{Text: s, Problem: "Unified screw numbers run from 0 to 12", Err: units.ErrUnknown}
		}
		d = screwNumber(in.screw)
	}
	t, err := New(in.wantedForm, d, perInch(in.threadsToInch))
	if err != nil {
		return Thread{}, &ParseError{Text: s, Problem: err.Error(), Err: units.ErrUnknown}
	}
	return t, nil
}

// inchSize reads "1/4", "1 1/8", "1-1/8", ".250" and "1" as inches.
func inchSize(size string) (units.Length, error) {
	return units.ParseLength(size + " in")
}

// choose returns the one thread found, or an error with the candidates: those
// found, those near, or else those of the right kind that are nearest to d.
func choose(s string, found, near []listing, d units.Length, kind func(listing) bool) (Thread, error) {
	switch {
	case len(found) == 1:
		return found[0].Thread, nil
	case len(found) > 1:
		return Thread{}, &ParseError{Text: s, Problem: "may be one of several threads", Candidates: designations(found, len(found)), Err: ErrAmbiguous}
	case len(near) > 0:
		return Thread{}, &ParseError{Text: s, Problem: "no such pitch is listed on this diameter", Candidates: designations(near, mostCandidates), Err: units.ErrUnknown}
	}
	var others []listing
	for _, l := range catalogue() {
		if kind(l) {
			others = append(others, l)
		}
	}
	slices.SortStableFunc(others, func(a, b listing) int { return a.major.Sub(d).Abs().Cmp(b.major.Sub(d).Abs()) })
	return Thread{}, &ParseError{Text: s, Problem: "no such diameter is listed", Candidates: designations(others, mostCandidates), Err: units.ErrUnknown}
}

// byPitch sorts threads by how far their pitch is from p, if that is known.
func byPitch(list []listing, p units.Length) []listing {
	if !p.IsZero() {
		slices.SortStableFunc(list, func(a, b listing) int { return a.pitch.Sub(p).Abs().Cmp(b.pitch.Sub(p).Abs()) })
	}
	return list
}

// mostCandidates is how many near threads an error names.
const mostCandidates = 6

// designations returns those of the first few.
func designations(list []listing, most int) []string {
	var out []string
	for _, l := range list[:min(len(list), most)] {
		out = append(out, l.name)
	}
	return out
}
