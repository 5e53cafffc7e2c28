package thread

import (
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/source"
)

// A Taper holds what a taper pipe thread has beside its diameters at the gauge
// plane. The taper is 1 in 16 on the diameter.
type Taper struct {
	GaugeLength     units.Length // from the small end to the gauge plane; L1 of NPT
	SmallEnd        units.Length // pitch diameter at the small end; E0 of NPT
	Outside         units.Length `json:",omitzero"` // outside diameter of the pipe; zero for R
	EffectiveLength units.Length `json:",omitzero"` // of the external thread, L2 = (0.80 * D + 6.8) * p of NPT; zero for R
	Refs            source.Refs  // of the sizes
}

// Taper returns the taper of an R or NPT thread and reports whether the thread
// has one.
func (t Thread) Taper() (Taper, bool) {
	switch t.series {
	case NPT:
		effective := t.pitch.Scale(0.80*t.outside.Inch() + 6.8) // ASME B1.20.1
		return Taper{t.gaugeLength, t.smallEnd, t.outside, round(effective, units.Thou(0.1)), t.Refs()}, true
	case BSPTaper:
		refs := t.Refs()
		if g := gaugeOf(t.name[len("R "):]); g != nil {
			refs = refs.With(source.Shared(&g.ref))
		}
		return Taper{
			GaugeLength: t.gaugeLength, SmallEnd: t.pitchDiameter.Sub(t.gaugeLength.Scale(taperOnDiameter)), Refs: refs,
		}, true
	}
	return Taper{}, false
}

type pipeGauge struct {
	size   string
	length units.Length
	ref    source.Ref
}

var pipeGauges = table.Table[pipeGauge]{FS: &tables, Name: "tables/pipe_gauge.csv", Row: func(r *table.Row) pipeGauge {
	return pipeGauge{r.Text("size"), table.As(r, "gauge_length", units.Millimetres.Parse), r.Ref()}
}}

// gaugeOf returns the gauge length of a British pipe size, nil for none.
func gaugeOf(size string) *pipeGauge {
	rows := pipeGauges.Rows()
	for i := range rows {
		if rows[i].size == size {
			return &rows[i]
		}
	}
	return nil
}
