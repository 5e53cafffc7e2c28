package thread

import (
	"encoding"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/valvechest/valvechest/units"
)

// Every enumeration reads its own names back, in capitals or not, and refuses
// the others with the names that it has.
func TestEnumerations(t *testing.T) {
	testEnumeration(t, FullDepth, 3, func(b *Basis) encoding.TextUnmarshaler { return b })
	testEnumeration(t, FineISO273, 8, func(c *ClearanceClass) encoding.TextUnmarshaler { return c })
	testEnumeration(t, FormISO, 8, func(f *Form) encoding.TextUnmarshaler { return f })
	testEnumeration(t, ParallelHole, 3, func(k *PipeHoleKind) encoding.TextUnmarshaler { return k })
	testEnumeration(t, Special, len(ListSeries()), func(s *Series) encoding.TextUnmarshaler { return s })
	testEnumeration(t, TaperTap, 3, func(p *Tap) encoding.TextUnmarshaler { return p })
}

func testEnumeration[T interface {
	~int
	fmt.Stringer
	encoding.TextMarshaler
}](t *testing.T, first T, count int, into func(*T) encoding.TextUnmarshaler) {
	t.Helper()
	names := map[string]bool{}
	for v := first; v < first+T(count); v++ {
		text, err := v.MarshalText()
		var back T
		if err == nil {
			err = into(&back).UnmarshalText([]byte(" " + strings.ToUpper(string(text))))
		}
		if err != nil || back != v || string(text) != v.String() || names[v.String()] {
			t.Errorf("%T(%d): %q, back %v, %v", v, int(v), text, back, err)
		}
		names[v.String()] = true
	}
	for _, v := range []T{-1, first + T(count)} {
		if _, err := v.MarshalText(); !errors.Is(err, units.ErrUnknown) || !strings.HasPrefix(err.Error(),
			"thread: ") || !strings.Contains(err.Error(), first.String()) {
			t.Errorf("%T(%d): %v", v, int(v), err)
		}
	}
	if first > 0 { // what was left out has blank text
		var none, back T
		if text, err := none.MarshalText(); err != nil || len(text) > 0 || into(&back).UnmarshalText(text) != nil ||
			back != none {
			t.Errorf("%T(0): %q, back %v, %v", none, text, back, err)
		}
	}
	kept := first
	if err := into(&kept).UnmarshalText([]byte("nonsense")); err == nil || kept != first {
		t.Errorf("%T from nonsense: %v, %v", first, kept, err)
	}
}

// Each enumeration is read by its own function too.
func TestParseOfEnumerations(t *testing.T) {
	for _, b := range Bases() {
		if got, err := ParseBasis(b.String()); err != nil || got != b {
			t.Errorf("%v: %v, %v", b, got, err)
		}
	}
	for _, c := range ClearanceClasses() {
		if got, err := ParseClearanceClass(c.String()); err != nil || got != c {
			t.Errorf("%v: %v, %v", c, got, err)
		}
	}
	for _, f := range Forms() {
		if got, err := ParseForm(f.String()); err != nil || got != f {
			t.Errorf("%v: %v, %v", f, got, err)
		}
	}
	for _, k := range PipeHoleKinds() {
		if got, err := ParsePipeHoleKind(k.String()); err != nil || got != k {
			t.Errorf("%v: %v, %v", k, got, err)
		}
	}
	for _, p := range Taps() {
		if got, err := ParseTap(p.String()); err != nil || got != p {
			t.Errorf("%v: %v, %v", p, got, err)
		}
	}
}
