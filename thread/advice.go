package thread

import (
	"github.com/valvechest/valvechest/internal/table"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/material"
	"github.com/valvechest/valvechest/units/source"
)

// A DepthAdvice is the depth of thread that is commonly tapped in a material.
type DepthAdvice struct {
	Min, Max float64 // shares of ThreeQuarterHeight
	Hard     bool    // tough or hard on taps: take the larger drill, not the smaller
	Free     bool    // free-cutting: brass and aluminium, which spare a small tap
	Refs     source.Refs
}

type depthRow struct {
	material string
	family   material.Family
	advice   DepthAdvice
}

var depths = table.Table[depthRow]{FS: &tables, Name: "tables/tap_depth.csv", Row: readDepth}

func readDepth(r *table.Row) depthRow {
	row := depthRow{material: r.Optional("material"), advice: DepthAdvice{Min: r.Float("least"), Max: r.Float("most"),
		Refs: source.Of(r.Ref())}}
	if row.material == "" {
		var err error
		if row.family, err = material.ParseFamily(r.Text("family")); err != nil {
			r.Complain("%v", err)
		}
	}
	yes := func(column string) bool {
		text := r.Text(column)
		if text != "yes" && text != "no" {
			r.Complain("%s is %q, not yes or no", column, text)
		}
		return text == "yes"
	}
	row.advice.Hard, row.advice.Free = yes("hard"), yes("free")
	return row
}

// AdvisedDepthFor returns the common practice for a material, by its name or its
// family. Copper, nickel alloys and plastics have none here, which is an error.
func AdvisedDepthFor(m material.Material) (DepthAdvice, error) {
	for _, row := range depths.Rows() {
		if row.material != "" && row.material == m.Name || row.material == "" && row.family == m.Family {
			return row.advice, nil
		}
	}
	return DepthAdvice{}, fail.Argument("material to tap", m.Name, "we have no practice for it",
		"steels, stainless steels, irons, brasses, bronzes and aluminium", units.ErrUnknown)
}
