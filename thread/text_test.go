package thread_test

import (
	"fmt"
	"testing"

	"github.com/valvechest/valvechest/thread"
)

func TestTappingText(t *testing.T) {
	roundTrip(t, []thread.Basis{thread.FullDepth, thread.InternalHeight, thread.ThreeQuarterHeight})
	roundTrip(t, []thread.Tap{thread.TaperTap, thread.SecondTap, thread.BottomingTap})
	roundTrip(t, []thread.ClearanceClass{thread.FineISO273, thread.MediumISO273, thread.CoarseISO273, thread.CloseBS4186,
		thread.MediumBS4186, thread.FreeBS4186, thread.ChartClearance, thread.CoverClearance})
	roundTrip(t, []thread.Form{thread.FormISO, thread.FormUnified, thread.FormWhitworth, thread.FormBA, thread.FormCycle,
		thread.FormNPT, thread.FormTrapezoidal, thread.FormAcme})
	var series []thread.Series
	for s := thread.MetricCoarse; s <= thread.Acme; s++ {
		series = append(series, s)
	}
	roundTrip(t, series)
	roundTrip(t, []thread.Thread{thread.MustParse("M3"), thread.MustParse("G 1/8")})
	if got := fmt.Sprint(thread.Basis(9), thread.Tap(9), thread.ClearanceClass(9), thread.Form(99),
		thread.Series(99)); got != "Basis(9) Tap(9) ClearanceClass(9) Form(99) Series(99)" {
		t.Error(got)
	}
}

func roundTrip[T comparable, P interface {
	*T
	UnmarshalText([]byte) error
	MarshalText() ([]byte, error)
}](t *testing.T, values []T) {
	t.Helper()
	for _, v := range values {
		var back T
		text, err := P(&v).MarshalText()
		if err != nil || P(&back).UnmarshalText(text) != nil || back != v {
			t.Errorf("%v: text %q, %v, reads back as %v", v, text, err, back)
		}
	}
	var v, zero T
	if err := P(&v).UnmarshalText([]byte("nonsense")); err == nil || v != zero {
		t.Errorf("%T reads nonsense as %v", v, v)
	}
}
