package thread

import (
	"strings"
	"testing"

	"github.com/valvechest/valvechest/internal/check"
	"github.com/valvechest/valvechest/units"
)

func TestHexagonsPublished(t *testing.T) {
	for r := range check.Open(t, "thread/hexagons.csv").Rows() {
		h, err := MustParse(r.Text("thread")).Hexagon()
		if err != nil {
			t.Errorf("%s: %v", r.ID, err)
			continue
		}
		r.Equal("standard", h.Standard)
		unit := units.MM(1)
		if r.Text("unit") == "in" {
			unit = units.Inch(1)
		}
		if r.Text("standard") == "ASME B18.2.2" && r.Text("unit") == "mm" {
			// Inches of three places turned into millimetres of three: half a
			// thousandth of a millimetre.
			r.Within("flats_max", h.Flats.Max.Ratio(unit), 0.0005+1e-9)
			r.Within("flats_min", h.Flats.Min.Ratio(unit), 0.0005+1e-9)
			// The standard's largest corners are those of the basic flats, not of the
			// largest printed, two thousandths of an inch at most apart.
			r.Within("corners", h.Corners().Ratio(unit), 0.04)
			continue
		}
		if h.Standard == "ISO 4032" { // 27 is printed for 27.00: the widths are exact
			r.Within("flats_max", h.Flats.Max.Ratio(unit), 1e-9)
		} else {
			r.Compare("flats_max", h.Flats.Max.Ratio(unit))
		}
		if r.Has("flats_min") {
			r.Within("flats_min", h.Flats.Min.Ratio(unit), 0.0005) // 33 is printed for 33.00 in some
		}
		if r.Text("standard") == "ASME B18.2.2" {
			// Corners are those of the exact fraction that the flats round.
			r.Within("corners", h.Corners().Ratio(unit), 0.0015)
			// The least corners are 1.14 times the least flats.
			r.Within("corners_min", 1.14*h.Flats.Min.Ratio(unit), 0.0015)
			continue
		}
		if r.Has("corners") {
			r.Compare("corners", h.Corners().Ratio(unit))
		}
		if r.Has("corners_min") {
			// ISO 4032 has the least corners from 1.13 times the least flats; one
			// reprint cuts M14 off where the other rounds.
			r.Within("corners_min", 1.13*h.Flats.Min.Ratio(unit), 0.01)
		}
	}
}

func TestHexagonTables(t *testing.T) {
	for name, rows := range map[string][]hexagonRow{
		"hexagons_iso.csv": hexagonsISO.Rows(), "hexagons_bs.csv": hexagonsBS.Rows(), "hexagons_asme.csv": hexagonsASME.Rows(),
	} {
		var last hexagonRow
		for _, row := range rows {
			if row.diameter.Cmp(last.diameter) <= 0 || row.flats.Cmp(last.flats) < 0 || row.least.Cmp(row.flats) >= 0 {
				t.Errorf("%s: %v: flats %v to %v after %v", name, row.diameter, row.least, row.flats, last.flats)
			}
			if ratio := row.flats.Ratio(row.diameter); ratio < 1.3 || ratio > 2.7 {
				t.Errorf("%s: %v: hexagon is %.2f diameters", name, row.diameter, ratio)
			}
			last = row
		}
	}
}

func TestHexagonRefuses(t *testing.T) {
	for _, tt := range []struct{ thread, want string }{
		{"1/4x40 ME", "no table for this series"},
		{"G 1/8", "no table for this series"},
		{"1/8 BSW", "0.25 in"},
		{"M1", "1.6 mm to 64 mm"},
		{"2-4.5 UNC", "38.1 mm"},
	} {
		if h, err := MustParse(tt.thread).Hexagon(); err == nil || !strings.Contains(strings.ReplaceAll(err.Error(),
			"6.35 mm", "0.25 in"), tt.want) {
			t.Errorf("%s: %+v, %v; want %q", tt.thread, h, err, tt.want)
		}
	}
}

func TestHexagonSources(t *testing.T) { check.Tables(t, &tables, "tables/hexagons_*.csv") }
