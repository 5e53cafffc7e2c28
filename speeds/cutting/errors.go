package cutting

import "github.com/valvechest/valvechest/speeds/internal/arg"

func above(all ...arg.Length) error { return arg.Above("cutting", all...) }

func positive[Q arg.Quantity](field string, v Q) error { return arg.Positive("cutting", field, v) }

func bad(field, value, problem, accepted string, err error) error {
	return arg.Bad("cutting", field, value, problem, accepted, err)
}
