package eccentric

import (
	"fmt"
	"strings"

	"github.com/valvechest/valvechest/internal/fault"
	"github.com/valvechest/valvechest/units"
	"github.com/valvechest/valvechest/units/finding"
	"github.com/valvechest/valvechest/units/source"
)

// farOut is how many times beyond what is usual a size of no engine lies.
const farOut = 5

// CheckProportions finds sizes that do not go with the bore of the cylinder, as
// when inches are typed as millimetres or the crank's radius as the stroke. The
// limits are wide; common practice. A size five times beyond them fails: no engine
// is built so. A bore that is not above zero is an [*units.ArgumentError]. See the
// Example.
func (g Gear) CheckProportions(bore units.Length) ([]Finding, error) {
	if err := g.Validate(); err != nil {
		return nil, err
	}
	if err := fail.Above(fault.Named("cylinder bore", bore)); err != nil {
		return nil, err
	}
	write := func(l units.Length) string {
		return l.Text(units.Millimetres, 2) + " (" + l.Text(units.Inches, 3) + ")"
	}
	var odd []string
	severity := finding.Caution
	for _, p := range []struct {
		name     string
		size     units.Length
		min, max float64
	}{
		{"stroke", g.Stroke, 0.7, 4},
		{"steam port's width", g.Ports.Steam, 0.02, 0.4},
		{"length of the ports", g.Ports.Length, 0.15, 1.5},
		{"valve", g.Valve.Length, 0.2, 3},
	} {
		if p.size.IsZero() {
			continue // the length of the ports may be left out
		}
		if share := p.size.Ratio(bore); share < p.min || share > p.max {
			if share < p.min/farOut || share > p.max*farOut {
				severity = finding.Fails
			}
			odd = append(odd, fmt.Sprintf("the %s, %s, is %.2g times the bore (usual: %g to %g)",
				p.name, write(p.size), share, p.min, p.max))
		}
	}
	if odd == nil {
		return nil, nil
	}
	return []Finding{{Finding: finding.Finding{
		Code: OutOfProportion, Severity: severity, Slip: true,
		Text: fmt.Sprintf("For a bore of %s %s. A builder may have his reasons; but look at the sizes first.",
			write(bore), strings.Join(odd, "; ")),
		Remedies: []string{"A size in inches typed as millimetres is 25.4 times too small; the crank's radius typed as the" +
			" stroke is half of it."},
		Refs: source.Shared(&practice),
	}}}, nil
}
