package diagnosis_test

import "testing"

// All eight events as shares of the stroke, or every second one, with leads and travel;
// and where the valve stands at eight crank angles, and nothing else.
func TestPlantedOtherwise(t *testing.T) {
	t.Parallel()
	shares := func(every int) func(*builder) []taken {
		return func(b *builder) []taken {
			all := b.leadsAndTravel()
			for i, kind := range []string{"admission", "cut_off", "release", "compression"} {
				share := i%every == 0
				all = append(all, b.read(kind, "head", 0, share), b.read(kind, "crank", 0, share))
			}
			return all
		}
	}
	for i, way := range []struct {
		what  string
		take  func(*builder) []taken
		named float64
	}{
		{"shares of the stroke", shares(1), 95},
		{"shares and angles", shares(2), 95},
		{"where the valve stands", func(b *builder) (all []taken) {
			for crank := 0.0; crank < 360; crank += 45 {
				all = append(all, b.read("valve_at", "both", crank, false))
			}
			return all
		}, 0}, // which shows no lap
	} {
		y := singles(t, way.what, uint64(60+i), fewer(500), 1, way.take)
		least(t, way.what, y.named, y.of, way.named)
		if y.wrong > 1 {
			t.Errorf("%s: sure and wrong %d times", way.what, y.wrong)
		}
	}
}
