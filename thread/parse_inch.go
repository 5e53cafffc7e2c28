package thread

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/valvechest/valvechest/units"
)

// An inchText is the text of an inch thread, in its parts.
type inchText struct {
	number    bool // marked as a screw number
	size      string
	mark, tpi string // "x" or "-" and the threads to the inch; blank if there are none
	series    string // as written, blank if there is none
	special   bool

	nominal       units.Length
	screw         int // the screw number that the size may be, or -1
	threadsToInch float64
}

// wanted returns the series that the text may mean.
func (in *inchText) wanted() seriesSet {
	if series := stand(in.series); series != 0 {
		return series
	}
	return listed.series().inch
}

func (in inchText) find(given string) (Thread, error) {
	if problem := in.measure(given); problem != "" {
		return Thread{}, refuse(given, units.ErrSyntax, problem)
	}
	switch {
	case in.special && in.series != "acme":
		return Thread{}, refuse(given, units.ErrSyntax,
			"special goes with metric, trapezoidal and Acme; write UNS or Whitworth")
	case in.special:
		return in.findSpecial(given, FormAcme)
	case in.series == "uns":
		return in.findSpecial(given, FormUnified)
	case in.series == "whitworth" && in.tpi != "":
		return in.findSpecial(given, FormWhitworth)
	}
	return in.findListed(given)
}

// measure makes numbers of the parts; the problem is blank where all of them
// can be read.
func (in *inchText) measure(given string) (problem string) {
	if strings.Trim(in.size, "0") == "" && len(in.size) > 1 {
		return "screw numbers below 0 are not listed"
	}
	var err error
	if in.nominal, err = units.Inches.Parse(in.size); err != nil || in.nominal.IsZero() && in.size != "0" {
		return "the size cannot be read"
	}
	switch in.screw = wholeNumber(in.size); {
	case in.screw < 0 && in.number:
		return "a screw number is a whole number"
	case in.screw >= 0 && inchMarked(given) && in.number:
		return "a screw number is no number of inches"
	case in.screw >= 0 && inchMarked(given):
		in.screw = noNumber
	}
	if in.tpi != "" {
		in.threadsToInch, _ = strconv.ParseFloat(in.tpi, 64) // a decimal, as it was scanned
		if in.threadsToInch == 0 {
			return "the threads to the inch are zero"
		}
	}
	return ""
}

// inchMarked reports whether a text marks its size as inches: 1", 1 in, or two strokes.
func inchMarked(given string) bool {
	for _, mark := range []string{`"`, "″", "“", "”", "''", "’’", "′′"} {
		if strings.Contains(given, mark) {
			return true
		}
	}
	size, rest, found := strings.Cut(strings.ToLower(given), "in")
	size, rest = strings.TrimSpace(size), strings.TrimPrefix(rest, "ch")
	if strings.IndexAny(rest, "abcdefghijklmnopqrstuvwyz") == 0 && stand(normalise(rest)) == 0 {
		return false // a longer word
	}
	return found && size != "" && size[len(size)-1] >= '0' && size[len(size)-1] <= '9'
}

// findListed returns the thread that a series lists.
func (in *inchText) findListed(given string) (Thread, error) {
	wanted := in.wanted()
	size := in.nominal
	if in.number {
		size = units.Length{}
	}
	var few, fewNear [16]*listing
	found, near := few[:0], wanted.find(fewNear[:0], size, in.screw)
	for _, l := range near {
		if in.tpi == "" || in.threadsToInch == l.tpi {
			found = append(found, l)
		}
	}
	if in.series == "" && in.tpi != "" {
		if usual := in.asWritten(found); len(usual) > 0 {
			found = usual
		} else if in.mark == "-" && len(found) == 1 {
			return Thread{}, refuse(given, units.ErrAmbiguous,
				"written as Unified threads are, of which none is listed so; add the series", found[0].name)
		}
	}
	if in.series == "" && in.tpi == "" && !in.number {
		found = listed.series().numbered.find(found, units.Length{}, in.screw)
	}
	d := in.nominal
	if unified := in.series == "" || wanted.form() == FormUnified; in.number || in.screw > 3 && unified {
		d = screwNumber(in.screw) // no Unified size listed is over two inches
	}
	var pitch units.Length
	if in.threadsToInch > 0 {
		pitch = perInch(in.threadsToInch)
	}
	return choose(given, found, near, wanted, d, pitch, in.form())
}

// form returns the form that the text names or whose mark it has, if that one takes
// any size: a hyphen is Unified, an x the model engineer's Whitworth.
func (in *inchText) form() Form {
	switch form := stand(in.series).form(); {
	case form == FormUnified, form == FormWhitworth, form == FormAcme:
		return form
	case in.series == "" && in.mark == "-":
		return FormUnified
	case in.series == "" && in.mark == "x":
		return FormWhitworth
	}
	return 0
}

// asWritten returns the threads that are usually written with the mark of the
// text where it names no series: a hyphen is how Unified threads are written, an
// x how those of the model engineer series are. It works in place if there are
// any.
func (in *inchText) asWritten(found []*listing) []*listing {
	usual := found[:0]
	for _, l := range found {
		if in.mark == "-" && l.series.Form() == FormUnified || in.mark == "x" && l.series == ME {
			usual = append(usual, l)
		}
	}
	return usual
}

// findSpecial returns a thread of any diameter and pitch of a form.
func (in *inchText) findSpecial(given string, form Form) (Thread, error) {
	if in.tpi == "" {
		return Thread{}, refuse(given, units.ErrSyntax, "a special thread needs its threads to the inch")
	}
	d := in.nominal
	unified := form == FormUnified
	if unified && !in.number && (in.screw == 1 || in.screw == 2) && in.threadsToInch >= 40 {
		problem := fmt.Sprintf("%d may be inches or a screw number; write #%d or %d.0", in.screw, in.screw, in.screw)
		return Thread{}, refuse(given, units.ErrAmbiguous, problem)
	}
	if in.number || unified && (in.screw == 0 || in.screw > 2) {
		if in.screw > 12 {
			return Thread{}, refuse(given, units.ErrUnknown, "Unified screw numbers run from 0 to 12")
		}
		d = screwNumber(in.screw)
	}
	return newSpecial(given, form, d, perInch(in.threadsToInch))
}
