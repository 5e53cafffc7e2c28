package arg

import (
	"errors"
	"math"
	"testing"

	"github.com/valvechest/valvechest/units"
)

func TestPositive(t *testing.T) {
	for _, tt := range []struct {
		v    float64
		want error
	}{
		{1, nil}, {1e-15, nil}, {1e15, nil},
		{0, units.ErrOutOfRange}, {-1, units.ErrOutOfRange}, {1e-16, units.ErrOutOfRange}, {1e16, units.ErrOutOfRange},
		{math.NaN(), units.ErrNotFinite}, {math.Inf(1), units.ErrNotFinite}, {math.Inf(-1), units.ErrNotFinite},
	} {
		if err := Positive("pkg", "speed", units.Speed(tt.v)); !errors.Is(err, tt.want) || tt.want == nil && err != nil {
			t.Errorf("%g: %v, want %v", tt.v, err, tt.want)
		}
	}
}

func TestAbove(t *testing.T) {
	err := Above("pkg", Named("drill", units.MM(1)), Named("feed", units.MM(0)))
	var bad *units.ArgumentError
	if !errors.As(err, &bad) || bad.Package != "pkg" || bad.Field != "feed" {
		t.Errorf("%v", err)
	}
	if err := Above("pkg", Named("drill", units.MM(1)), Named("feed", units.Picometres(1e15))); err != nil {
		t.Error(err)
	}
	if err := Above("pkg", Named("drill", units.Picometres(1e15+1))); !errors.Is(err, units.ErrOutOfRange) || !errors.As(err, &bad) || bad.Accepted != "up to 1 km" {
		t.Errorf("beyond 1 km: %v", err)
	}
}

func TestWithin(t *testing.T) {
	if err := Within("pkg", Named("depth", units.Picometres(-1e15)), Named("depth", units.Length{})); err != nil {
		t.Error(err)
	}
	for _, pm := range []int64{1e15 + 1, -1e15 - 1, math.MaxInt64, math.MinInt64} {
		var bad *units.ArgumentError
		if err := Within("pkg", Named("depth", units.Picometres(pm))); !errors.As(err, &bad) || bad.Field != "depth" {
			t.Errorf("%d pm: %v", pm, err)
		}
	}
}
