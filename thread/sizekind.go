package thread

import (
	"github.com/valvechest/valvechest/internal/names"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A sizeKind says how the sizes of a series are given in its file, and so how they
// are written.
type sizeKind int

const (
	noSizes      sizeKind = iota // any diameter and pitch
	inchSizes                    // size, tpi
	mmSizes                      // diameter, pitch
	numberSizes                  // number, pitch and major in mm
	unifiedSizes                 // size, kind, tpi, series: inches or screw numbers
	metricSizes                  // diameter, pitch, series: coarse, fine or old
	baSizes                      // those of BS 93, worked out or printed
	pipeSizes                    // British pipe
	nptSizes                     // American pipe
)

var sizeKinds = names.Set{Package: "thread", Type: "sizeKind", Field: "kind of sizes", Texts: []string{
	noSizes: "none", inchSizes: "inch", mmSizes: "mm", numberSizes: "number", unifiedSizes: "unified",
	metricSizes: "metric", baSizes: "BA", pipeSizes: "pipe", nptSizes: "NPT",
}}

func (k sizeKind) String() string { return sizeKinds.Text(int(k)) }

func parseSizeKind(name string) (sizeKind, error) {
	v, err := sizeKinds.Value(name)
	return sizeKind(v), err
}

func (k sizeKind) pipe() bool { return k == pipeSizes || k == nptSizes }

// shared reports whether one file may have the sizes of several series.
func (k sizeKind) shared() bool { return k == unifiedSizes || k == metricSizes || k == pipeSizes }

// forms returns those that have sizes of this kind.
func (k sizeKind) forms() []Form {
	switch k {
	case inchSizes:
		return []Form{FormUnified, FormWhitworth, FormCycle, FormAcme}
	case mmSizes:
		return []Form{FormISO, FormTrapezoidal}
	case numberSizes:
		return []Form{FormISO, FormBA}
	case unifiedSizes:
		return []Form{FormUnified}
	case metricSizes:
		return []Form{FormISO}
	case baSizes:
		return []Form{FormBA}
	case pipeSizes:
		return []Form{FormWhitworth}
	case nptSizes:
		return []Form{FormNPT}
	}
	return nil
}

// inInches returns a thread of the basic sizes of an inch form.
func (f Form) inInches(d units.Length, tpi float64, ref source.Ref) Thread {
	switch f {
	case FormUnified:
		return unified(d, tpi, ref)
	case FormCycle:
		return cycle(d, tpi, ref)
	case FormAcme:
		return acme(d, tpi, ref)
	}
	return whitworth(d, tpi, ref)
}

// inMillimetres returns a thread of the basic sizes of a form in millimetres.
func (f Form) inMillimetres(d, p units.Length, ref source.Ref) Thread {
	switch f {
	case FormTrapezoidal:
		return trapezoidal(d, p, ref)
	case FormBA:
		return britishAssociation(d, p, ref)
	}
	return metric(d, p, ref)
}

// inchName returns the designation of a size in inches, or with a screw number.
func (row *seriesRow) inchName(size string, tpi float64) string {
	if row.mark != "" {
		size += row.mark + count(tpi)
	}
	return size + " " + row.name
}

// metricName returns the designation of a size in millimetres, without a series.
func (f Form) metricName(d, p units.Length) string {
	letters := "M"
	if f == FormTrapezoidal {
		letters = "Tr "
	}
	return letters + number(d) + "x" + number(p)
}
